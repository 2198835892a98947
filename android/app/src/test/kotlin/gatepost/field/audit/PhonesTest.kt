package gatepost.field.audit

import gatepost.field.look.Lighting
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

/** Every screen on phones of other sizes, held across the hand, and in a language that runs from right to left. */
@RunWith(RobolectricTestRunner::class)
class PhonesTest {
    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi") fun narrow() = audit(Lighting.DAY, "narrow")

    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi", fontScale = 2f) fun narrowAndHuge() = audit(Lighting.DAY, "narrow-200")

    @Test @Config(qualifiers = "w412dp-h915dp-port-hdpi") fun large() = audit(Lighting.DAY, "large")

    @Test @Config(qualifiers = "w740dp-h360dp-land-hdpi") fun acrossTheHand() = audit(Lighting.DAY, "land")

    @Test @Config(qualifiers = "ar-rXB-ldrtl-w360dp-h740dp-port-hdpi") fun fromRightToLeft() = audit(Lighting.DAY, "rtl")
}

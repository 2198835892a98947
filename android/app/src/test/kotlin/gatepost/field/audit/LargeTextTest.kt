package gatepost.field.audit

import gatepost.field.look.Lighting
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

/** Every screen in larger text. */
@RunWith(RobolectricTestRunner::class)
class LargeTextTest {
    @Test @Config(fontScale = 1.3f) fun larger() = audit(Lighting.DAY)

    @Test @Config(fontScale = 1.5f) fun rowsBegin() = audit(Lighting.DAY)

    @Test @Config(fontScale = 2f) fun huge() = audit(Lighting.DAY, "200")

    @Test @Config(fontScale = 2f) fun hugeByNight() = audit(Lighting.NIGHT, "200-night")
}

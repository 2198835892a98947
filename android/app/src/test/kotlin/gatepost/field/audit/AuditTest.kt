package gatepost.field.audit

import android.graphics.Color
import android.widget.LinearLayout
import android.widget.TextView
import gatepost.field.FieldActivity
import gatepost.field.idle
import gatepost.field.look.Lighting
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

@RunWith(RobolectricTestRunner::class)
class AuditTest {
    /** From the top of the page to its end. */
    private fun FieldActivity.findings(light: Lighting, isWalking: Boolean = false): List<String> {
        val found = mutableSetOf<String>()
        val least = if (light == Lighting.NIGHT) BY_NIGHT else BY_DAY
        do found += Audit(window!!.decorView, least, page.takeIf { isWalking }).findings() while (rollOn())
        return found.toList()
    }

    /** Every screen of the five places, the full frame, and the choice of the light. */
    private fun audit(light: Lighting) {
        val found = scenes.flatMap { scene -> scene.open(light).findings(light, scene.isWalking).map { "${scene.name}: $it" } }.toMutableList()
        val activity = scenes.single { it.name == "ways" }.open(light)
        activity.fullFrame()
        found += activity.findings(light).map { "full: $it" }
        activity.page.strip.onOpen(null)
        idle()
        found += activity.findings(light).map { "light: $it" }
        assertEquals(emptyList<String>(), found)
    }

    @Test fun day() = audit(Lighting.DAY)

    @Test fun night() = audit(Lighting.NIGHT)

    @Test fun high() = audit(Lighting.HIGH)

    @Test @Config(fontScale = 1.3f) fun largerText() = audit(Lighting.DAY)

    @Test @Config(fontScale = 1.5f) fun rowsBegin() = audit(Lighting.DAY)

    @Test @Config(fontScale = 2f) fun hugeText() = audit(Lighting.DAY)

    @Test @Config(fontScale = 2f) fun hugeTextByNight() = audit(Lighting.NIGHT)

    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi", fontScale = 2f) fun narrowAndHuge() = audit(Lighting.DAY)

    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi") fun narrow() = audit(Lighting.DAY)

    @Test @Config(qualifiers = "w412dp-h915dp-port-xxhdpi") fun large() = audit(Lighting.DAY)

    @Test @Config(qualifiers = "w740dp-h360dp-land-xhdpi") fun acrossTheHand() = audit(Lighting.DAY)

    @Test @Config(qualifiers = "ar-rXB-ldrtl-w360dp-h740dp-port-xhdpi") fun fromRightToLeft() = audit(Lighting.DAY)

    @Test fun theAuditBites() {
        val activity = afterRecords(0, Lighting.DAY)
        val bad = TextView(activity).apply { text = "unforgivable 95 mag"; textSize = 9f; setTextColor(Color.LTGRAY); isClickable = true; contentDescription = "" }
        activity.page.content.addView(bad, LinearLayout.LayoutParams(40, 20))
        idle()
        val found = activity.findings(Lighting.DAY).joinToString()
        for (fault in listOf(" dp", "contrast", "letters", "broken word", "parted", "cut")) assertTrue("$fault in $found", fault in found)
    }

    private companion object {
        const val BY_DAY = 7.0
        const val BY_NIGHT = 4.5
    }
}

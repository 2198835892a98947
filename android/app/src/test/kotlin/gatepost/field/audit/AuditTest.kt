package gatepost.field.audit

import android.graphics.Color
import android.widget.LinearLayout
import android.widget.TextView
import gatepost.bridge.Record
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
    private fun FieldActivity.findings(light: Lighting): List<String> {
        val found = mutableSetOf<String>()
        do found += Audit(window!!.decorView, if (light == Lighting.NIGHT) BY_NIGHT else BY_DAY).findings() while (rollOn())
        return found.toList()
    }

    /** The empty book, a way back with all its sentences, the full frame, and the choice of the light. */
    private fun audit(light: Lighting) {
        assertEquals("empty", emptyList<String>(), afterRecords(0, light).findings(light))
        val activity = afterRecords(WALKED, light)
        activity.tell { Record.Back(it) }
        idle()
        assertEquals("way back", emptyList<String>(), activity.findings(light))
        activity.fullFrame()
        assertEquals("full", emptyList<String>(), activity.findings(light))
        activity.page.strip.onOpen(null)
        idle()
        assertEquals("light", emptyList<String>(), activity.findings(light))
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

    @Test @Config(qualifiers = "w740dp-h360dp-land-xhdpi") fun acrossTheHand() = audit(Lighting.DAY)

    @Test @Config(qualifiers = "ar-rXB-ldrtl-w360dp-h740dp-port-xhdpi") fun fromRightToLeft() = audit(Lighting.DAY)

    @Test fun theAuditBites() {
        val activity = afterRecords(0, Lighting.DAY)
        val bad = TextView(activity).apply { text = "unforgivable"; textSize = 9f; setTextColor(Color.LTGRAY); isClickable = true; contentDescription = "" }
        activity.page.content.addView(bad, LinearLayout.LayoutParams(40, 20))
        idle()
        val found = activity.findings(Lighting.DAY).joinToString()
        for (fault in listOf(" dp", "contrast", "letters", "broken word", "cut")) assertTrue("$fault in $found", fault in found)
    }

    private companion object {
        const val BY_DAY = 7.0
        const val BY_NIGHT = 4.5

        /** Records of the walk up to its last leg. */
        const val WALKED = 10
    }
}

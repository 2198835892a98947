package gatepost.field.audit

import android.graphics.Color
import android.widget.LinearLayout
import android.widget.TextView
import gatepost.field.idle
import gatepost.field.look.Lighting
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

/** Every screen in each light. */
@RunWith(RobolectricTestRunner::class)
class AuditTest {
    @Test fun day() = audit(Lighting.DAY, "day")

    @Test fun night() = audit(Lighting.NIGHT, "night")

    /** Text that is larger tells of the layout, the light of the inks: one pass serves both. */
    @Test @Config(fontScale = 1.3f) fun highAndLarger() = audit(Lighting.HIGH, "high")

    @Test fun theAuditBites() {
        val activity = afterRecords(0, Lighting.DAY)
        val bad = TextView(activity).apply { text = "unforgivable 95 mag"; textSize = 9f; setTextColor(Color.LTGRAY); isClickable = true; contentDescription = "" }
        activity.page.content.addView(bad, LinearLayout.LayoutParams(40, 20))
        idle()
        val found = activity.findings(Lighting.DAY).joinToString()
        for (fault in listOf(" dp", "contrast", "letters", "broken word", "parted", "cut")) assertTrue("$fault in $found", fault in found)
    }
}

package gatepost.field.audit

import android.widget.ScrollView
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.FieldActivity
import gatepost.field.hand.Step
import gatepost.field.idle
import gatepost.field.launch
import gatepost.field.look.Lighting
import gatepost.field.page.Cell
import gatepost.field.tree
import org.robolectric.RuntimeEnvironment

/** The app with so many records of the demo's walk in its book, read by this light. */
fun afterRecords(count: Int, light: Lighting): FieldActivity {
    val app = RuntimeEnvironment.getApplication()
    putRecords(count)
    light.keep(app)
    return launch().get()
}

/** Lets the page roll by less than its height, as long as there is more; says whether it did. */
fun FieldActivity.rollOn(): Boolean {
    val scroll = tree(page).filterIsInstance<ScrollView>().single()
    val before = scroll.scrollY
    scroll.scrollBy(0, scroll.height * 3 / 4)
    idle()
    return scroll.scrollY != before
}

/** The frame with the fullest values that the look foresees; nothing here is reckoned. */
fun FieldActivity.fullFrame() {
    val values = listOf(
        Cell("Sure", "±\u00a043\u00a0m", "1\u00a0min\u00a0old", fullLabel = "Sure, 95\u00a0%"),
        Cell("Home", "1.1\u00a0km", "±\u00a098\u00a0m"),
        Cell("Light", "4\u00a0h 05\u00a0min", "dark 19:22", staysWhenLarge = false),
    )
    page.strip.show(values)
    page.placeRow.showPlace(Stage.BESIDE_THE_LINE, null) {}
    page.placeRow.showUndo("place of the car") {}
    page.foot.show(listOf(Step(label("label-where-am-i")) {}))
    idle()
}

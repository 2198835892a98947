package gatepost.field

import android.graphics.Bitmap
import android.graphics.Insets
import android.graphics.Rect
import android.text.Layout
import android.text.Spanned
import android.text.style.StrikethroughSpan
import android.view.WindowInsets
import android.widget.ScrollView
import android.widget.TextView
import gatepost.bridge.label
import gatepost.field.audit.fullFrame
import gatepost.field.audit.pixels
import gatepost.field.audit.rollOn
import gatepost.field.audit.scenes
import gatepost.field.look.Lighting
import gatepost.field.look.grow
import gatepost.field.look.px
import gatepost.field.place.Pad
import org.junit.Assert.assertArrayEquals
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

@RunWith(RobolectricTestRunner::class)
class PageTest {
    private fun full() = scenes.single { it.name == "ways" }.open(Lighting.DAY).apply { fullFrame() }

    private fun FieldActivity.cellTops() = List(page.strip.childCount) { page.strip.getChildAt(it).top }.toSet()

    @Test fun cellsStandSideBySide() = assertEquals(1, full().cellTops().size)

    @Test @Config(fontScale = 1.5f) fun cellsBecomeRows() = assertEquals(3, full().cellTops().size)

    @Test @Config(fontScale = 2f) fun theTimeOfDarkGoesAndTheSpreadStays() {
        val shown = texts(full().page.strip).joinToString()
        assertTrue(shown, "±" in shown && "old" in shown && "dark" !in shown)
    }

    @Test @Config(fontScale = 2f) fun theStripStopsAtTheTopWhenThePlaceRowHasRolledAway() {
        val page = full().page
        assertEquals(page.placeRow.height.toFloat(), page.strip.translationY)
        tree(page).filterIsInstance<ScrollView>().single().scrollTo(0, page.placeRow.height + 1)
        idle()
        assertEquals(0f, page.strip.translationY)
    }

    /** Where the strip stands, the page shows the strip and nothing of what has rolled under it. */
    @Test @Config(fontScale = 2f) fun nothingShowsThroughTheStrip() {
        val activity = full()
        tree(activity.page).filterIsInstance<ScrollView>().single().scrollTo(0, activity.page.placeRow.height + activity.page.strip.height)
        idle()
        val strip = draw(activity.page.strip)
        val top = activity.page.paddingTop
        val seen = Bitmap.createBitmap(draw(activity.page), 0, top, strip.width, strip.height)
        assertArrayEquals(strip.pixels(), seen.pixels())
    }

    /** Where the place row is left out there is nothing above the strip. */
    @Test @Config(qualifiers = "w740dp-h360dp-land-xhdpi") fun theStripStandsAtTheTopWithoutAPlaceRow() =
        assertEquals(0f, scenes.single { it.name == "chart" }.open(Lighting.DAY).also { idle() }.page.strip.translationY)

    /** Place row, strip and foot leave it the whole height. */
    @Test @Config(qualifiers = "w740dp-h360dp-land-hdpi") fun acrossTheHandTheContentIsAsHighAsTheScreen() {
        val page = full().page
        assertEquals(page.height, tree(page).filterIsInstance<ScrollView>().single().height + page.paddingTop + page.paddingBottom)
    }

    @Test @Config(qualifiers = "ar-rXB-ldrtl-w360dp-h740dp-port-xhdpi") fun figuresRunFromTheLeft() {
        val keys = buttons(scenes.single { it.name == "pad" }.open(Lighting.DAY).page.content)
        val places = listOf("1", "2", "3").map { figure -> IntArray(2).also(keys.single { it.text == figure }::getLocationOnScreen)[0] }
        assertEquals(places.sorted(), places)
    }

    @Test @Config(qualifiers = "ar-rXB-ldrtl-w360dp-h740dp-port-xhdpi") fun theLeftSideStandsOnTheLeft() {
        val foot = scenes.single { it.name == "detour" }.open(Lighting.DAY).page.foot
        val (left, right) = listOf("label-left", "label-right").map { side -> buttons(foot).single { it.text == label(side) } }
        assertTrue(IntArray(2).also(left::getLocationOnScreen)[0] < IntArray(2).also(right::getLocationOnScreen)[0])
    }

    @Test @Config(qualifiers = "ar-rXB-ldrtl-w360dp-h740dp-port-xhdpi") fun aNumberAloneRunsFromTheLeft() {
        val page = scenes.single { it.name == "bringing" }.open(Lighting.DAY).page
        val share = tree(page.content).filterIsInstance<TextView>().single { it.text.endsWith("%") }
        assertEquals(Layout.DIR_LEFT_TO_RIGHT, share.layout.getParagraphDirection(0))
    }

    @Test fun thePageKeepsClearOfTheSystemsBars() {
        val page = full().page
        page.dispatchApplyWindowInsets(WindowInsets.Builder().setInsets(WindowInsets.Type.systemBars(), Insets.of(0, 80, 0, 120)).build())
        assertEquals(listOf(80, 120), listOf(page.paddingTop, page.paddingBottom))
    }

    private fun rolls(name: String) = scenes.single { it.name == name }.open(Lighting.DAY).rollOn()

    @Test fun onFootNothingRolls() = assertFalse(rolls("foot"))

    @Test @Config(fontScale = 2f) fun onFootNothingRollsAtHugeText() = assertFalse(rolls("foot"))

    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi") fun onFootNothingRollsOnAShortPhone() = assertFalse(rolls("foot"))

    @Test @Config(qualifiers = "w740dp-h360dp-land-hdpi") fun onFootNothingRollsAcrossTheHand() = assertFalse(rolls("foot"))

    /** On a narrow phone at huge text too the bearing keeps to one line, clear of *Undo*. */
    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi", fontScale = 2f) fun undoStandsClearOfTheBearing() {
        val page = scenes.single { it.name == "foot" }.open(Lighting.DAY).page
        val bearing = tree(page.content).filterIsInstance<TextView>().single { it.text == "031°\u00a0mag" }
        val undo = buttons(page.content).single { it.text == label("label-undo") }
        val gap = IntArray(2).also(undo::getLocationInWindow)[0] - IntArray(2).also(bearing::getLocationInWindow)[0] - bearing.layout.getLineWidth(0)
        assertEquals(1, bearing.lineCount)
        assertTrue("$gap", gap >= page.context.px(R.dimen.between_targets))
    }

    private fun keysOff(name: String): List<String> {
        val pad = tree(scenes.single { it.name == name }.open(Lighting.DAY).page.content).filterIsInstance<Pad>().single()
        return buttons(pad).filter { key -> Rect().let { !key.getLocalVisibleRect(it) || it.height() < key.height } }.map { "$name: ${it.text}" }
    }

    @Test fun allKeysOfAPadAreOnTheScreen() {
        val pads = listOf("pad", "pad-mils", "pad-phone", "pad-metal", "foot-first", "turn", "turn-mils", "detour", "pace", "compass-read", "compass-known", "ask-metres", "ask-line", "ask-degrees")
        assertEquals(emptyList<String>(), pads.flatMap(::keysOff))
    }

    /** There the place row makes room, and only the last row of keys is rolled to. */
    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi") fun theFiguresOfAWalkersPadAreInReachOnAShortPhone() {
        for (name in listOf("turn", "detour")) {
            val page = scenes.single { it.name == name }.open(Lighting.DAY).page
            val keys = buttons(page.content).filter { key -> Rect().let { key.getLocalVisibleRect(it) && it.height() > key.height / 2 } }.map { it.text.toString() }
            assertTrue("$name: $keys", keys.containsAll((1..9).map { "$it" }))
        }
    }

    @Test fun theWholeChartKeepsItsButtonsOnTheScreen() = assertFalse(rolls("chart"))

    @Test @Config(fontScale = 2f) fun theWholeChartKeepsItsButtonsOnTheScreenAtHugeText() = assertFalse(rolls("chart"))

    private fun struck(name: String) = scenes.single { it.name == name }.open(Lighting.DAY).page.strip.run { List(childCount) { (getChildAt(it) as TextView).text as Spanned } }
        .map { it.getSpans(0, it.length, StrikethroughSpan::class.java).size }

    @Test fun whatIsOldIsStruckThrough() = assertEquals(listOf(listOf(0, 0, 0), listOf(1, 1, 0)), listOf("foot", "foot-old").map(::struck))

    private fun glance(): Float = full().run { TextView(this).apply { grow(R.dimen.glance, R.dimen.glance_at_200) }.textSize / resources.displayMetrics.density }

    @Test fun theGlanceValueIsLarge() = assertEquals(36f, glance())

    @Test @Config(fontScale = 2f) fun theGlanceValueGrowsLess() = assertEquals(46f, glance())
}

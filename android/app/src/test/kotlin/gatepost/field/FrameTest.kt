package gatepost.field

import android.os.Bundle
import gatepost.bridge.Record
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.audit.afterRecords
import gatepost.field.book.title
import gatepost.field.cases.walkRecords
import gatepost.field.look.Lighting
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import java.io.File
import org.robolectric.RuntimeEnvironment

@RunWith(RobolectricTestRunner::class)
class FrameTest {
    private fun FieldActivity.place() = title.toString()

    private fun FieldActivity.said() = texts(page.content)

    @Test fun anEmptyBookSaysWhatIsMissing() {
        val activity = launch().get()
        assertEquals(label(Stage.BEFORE.title), activity.place())
        assertTrue("${activity.said()}", activity.said().size > 1)
        assertEquals("the strip has a text in every cell", emptyList<String>(), texts(activity.page.strip).filter { it.lines().size < 3 })
    }

    @Test fun theWalkIsShownWhereItStopped() {
        val activity = afterRecords(walkRecords().size, Lighting.DAY)
        assertEquals(label(Stage.ON_FOOT.title), activity.place())
        assertTrue("${activity.said()}", activity.said().size > 1)
    }

    private fun FieldActivity.undo() = tap(tree(page.placeRow).last { it.isClickable })

    @Test fun twoTouchesStrikeAnOlderEntry() {
        val activity = afterRecords(KEPT, Lighting.DAY)
        activity.undo()
        assertEquals(label("label-strike"), buttons(activity.page.foot).last().text)
        assertEquals("nothing is struck yet", label(Stage.ON_FOOT.title), activity.place())
        tap(buttons(activity.page.foot).last())
        assertEquals(label(Stage.BESIDE_THE_LINE.title), activity.place())
    }

    @Test fun oneTouchStrikesAnEntryJustMade() {
        val activity = afterRecords(FIXED, Lighting.DAY)
        activity.tell { Record.Keep(it, null, null) }
        assertEquals(label(Stage.ON_FOOT.title), activity.place())
        activity.undo()
        assertEquals(label(Stage.BESIDE_THE_LINE.title), activity.place())
    }

    @Test fun aKilledAppOpensWhereItWas() {
        val controller = Robolectric.buildActivity(FieldActivity::class.java)
        afterRecords(KEPT, Lighting.DAY)
        controller.setup()
        val state = Bundle()
        controller.pause().stop().saveInstanceState(state).destroy()
        val again = Robolectric.buildActivity(FieldActivity::class.java).setup(state).get()
        assertEquals(label(Stage.ON_FOOT.title), again.place())
    }

    @Test fun aFileThatIsNoLogbookIsToldAndLeftAlone() {
        val file = File(RuntimeEnvironment.getApplication().filesDir, "field.gatepost").apply { writeText("not a logbook. ".repeat(99)) }
        val activity = launch().get()
        assertEquals(1, activity.said().size)
        assertTrue(file.readText().startsWith("not a logbook"))
    }

    @Test fun twoTouchesSwitchToNight() {
        val controller = launch()
        val activity = controller.get()
        tap(tree(activity.page.strip).last { it.isClickable })
        tap(buttons(activity.page.content).single { it.text == label("label-light-night") })
        assertEquals(Lighting.NIGHT, Lighting.of(controller.get()))
        assertEquals(Lighting.NIGHT, Lighting.of(launch().get()))
    }

    @Test @Config(qualifiers = "+night") fun aPhoneSetToNightOpensByNight() = assertEquals(Lighting.NIGHT, Lighting.of(launch().get()))

    private companion object {
        /** Records of the walk up to the kept car. */
        const val KEPT = 5

        /** Records of the walk up to the fix before it. */
        const val FIXED = 4
    }
}

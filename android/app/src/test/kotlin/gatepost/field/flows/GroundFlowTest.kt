package gatepost.field.flows

import gatepost.bridge.Answer
import gatepost.bridge.Record
import gatepost.bridge.label
import gatepost.field.book.Bringing
import gatepost.field.idle
import gatepost.field.tell
import gatepost.field.texts
import gatepost.field.tiltedPlain
import java.util.Base64
import java.util.concurrent.Executor
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** What the ground shows, by touch, with heights under the sheet and without. */
@RunWith(RobolectricTestRunner::class)
class GroundFlowTest {
    private val walker = Walker()
    private val whats get() = walker.whats

    @Test fun withoutHeightsTheGroundIsRefusedAndWhatWasTypedStays() = walker.run {
        onTheRoad()
        tells("Altimeter")
        figures("1720")
        touch("Weigh it in")
        sees("This sheet has no heights")
        sees("1720\u00a0m")
    }

    @Test fun whatTheGroundShows() = walker.run {
        onTheRoad()
        bringHeights()
        tells("Altimeter")
        figures("1720")
        touch("Weigh it in")
        tells("What does the ground do towards a bearing?")
        touch("It rises")
        kill()
        figures("090")
        touch("Weigh it in")
        tells("Bearing that the slope under you falls to")
        figures("270")
        touch("Weigh it in")
        tells("A landform at a bearing")
        touch("Hill")
        figures("040")
        touch("Note it")
        figures("600")
        touch("Weigh it in")
        tells("Altimeter that was set at a known place")
        touch("Ossel bridge")
        figures("1650")
        kill()
        touch("Note it")
        figures("2")
        touch("Note it")
        figures("1720")
        touch("Weigh it in")
        assertEquals(listOf("bearing", "height", "slope", "aspect", "landform", "height"), whats)
    }

    private fun Walker.bringHeights() {
        activity.tell { Record.Import(it, "valley.asc", HEIGHTS, "EPSG:32643", null, null, null, null, null) }
        idle()
    }

    private fun Walker.near() = activity.ask { Record.Seen(it, null, null, null, null) }.answer as Answer.Seen

    /** The core is asked aside of what is drawn, one question at a time. */
    @Test fun theLandformsNearAreToldAndTouched() = walker.run {
        touch("Velm valley")
        bringHeights()
        touch("Velm Road")
        sights("Sorn chapel", "016")
        idle()
        idle()
        sees(label("label-ground-near-asked"))
        sights("Hallik mast", "088")
        assertEquals("the next question waits for the first", 1, waiting.size)
        answer()
        answer()
        assertEquals(0, waiting.size)
        val near = near()
        assertTrue("$near", near.landforms.isNotEmpty() && near.untold.isNotEmpty())
        near.landforms.forEach { sees(it.told) }
        near.untold.forEach(::sees)
        touch(near.landforms.first().told)
        kill()
        figures("040")
        touch("Note it")
        figures("600")
        touch("Weigh it in")
        assertEquals(listOf("bearing", "bearing", "landform"), whats)
    }

    @Test fun withoutHeightsNothingIsSaidOfTheGroundNear() = walker.run {
        onTheRoad()
        answer()
        assertFalse(label("label-ground-near") in texts(activity.page.content))
    }

    private val waiting = ArrayDeque<Runnable>()

    private fun answer() {
        waiting.removeFirst().run()
        idle()
    }

    @Before fun holdBack() {
        Bringing.background = Executor { waiting.add(it) }
    }

    @After fun letGo() {
        Bringing.background = Executor { Thread(it).start() }
    }

    private companion object {
        /** A tilted plain with a hill in it over the demo's valley: an ESRI ASCII grid, posts 100 m apart. */
        val HEIGHTS: String = Base64.getEncoder().encodeToString(tiltedPlain().toByteArray())
    }
}

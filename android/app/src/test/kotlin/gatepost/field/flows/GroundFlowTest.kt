package gatepost.field.flows

import gatepost.bridge.Record
import gatepost.field.idle
import gatepost.field.tiltedPlain
import java.util.Base64
import gatepost.field.tell
import org.junit.Assert.assertEquals
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
        activity.tell { Record.Import(it, "valley.asc", HEIGHTS, "EPSG:32643", null, null, null, null, null) }
        idle()
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

    private companion object {
        /** A tilted plain with a hill in it over the demo's valley: an ESRI ASCII grid, posts 100 m apart. */
        val HEIGHTS: String = Base64.getEncoder().encodeToString(tiltedPlain().toByteArray())
    }
}

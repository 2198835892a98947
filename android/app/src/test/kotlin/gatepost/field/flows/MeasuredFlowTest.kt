package gatepost.field.flows

import gatepost.bridge.Record
import gatepost.field.book.Checked
import gatepost.field.buttons
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** An angle, a distance and places that others read, by touch, killed between the questions. */
@RunWith(RobolectricTestRunner::class)
class MeasuredFlowTest {
    private val walker = Walker()
    private val fix get() = walker.activity.snapshot.fix!!
    private val whats get() = walker.whats

    @Test fun anAngleADistanceAndAPlace() = walker.run {
        onTheRoad()
        tells("Angle between two landmarks")
        touch("Sorn chapel")
        touch("Hallik mast")
        figures("72")
        kill()
        sees("72\u00a0degrees")
        touch("Weigh it in")
        tells("Distance to a landmark")
        touch("Hallik mast")
        sees("Type a figure first.")
        figures("1")
        find("Weigh it in")
        touch("Last off")
        kill()
        sees("Type a figure first.")
        assertTrue(buttons(activity.page.foot).none { it.text == "Weigh it in" })
        figures("1100")
        touch("Weigh it in")
        tells("A place that somebody else reads")
        words("43TEG 5691 4962")
        kill()
        touch("Weigh it in")
        assertEquals(listOf("bearing", "angle", "distance", "witness"), whats)
    }

    @Test fun aPlaceThatWasCheckedIsWeighedIn() = walker.run {
        onTheRoad()
        touch("Check it")
        words("43TEG 6591 4962")
        touch("Hold it against the fix")
        sees("The other place lies")
        sees("Two figures exchanged")
        kill()
        sees("The other place lies")
        undo()
        touch("Strike it")
        touch("Check it")
        words("43TEG 5691 4962")
        touch("Hold it against the fix")
        kill()
        touch("Weigh this place in")
        assertEquals(listOf("bearing", "witness"), whats)
    }

    private fun Walker.checks(place: String) {
        touch("Check it")
        words(place)
        touch("Hold it against the fix")
    }

    private val weighed get() = walker.activity.draft.takes.last().notes.last().said.first()

    /** What is weighed in is the place that is shown: after an undo the one before. */
    @Test fun aCheckThatWasTakenBackIsNotWeighedIn() = walker.run {
        onTheRoad()
        checks("43TEG 5691 4962")
        checks("43TEG 5690 4961")
        undo()
        kill()
        touch("Weigh this place in")
        assertEquals("43TEG 5691 4962", weighed)
    }

    /** Killed between the place and its draft. */
    @Test fun aCheckIsKnownBeforeItsDraft() = walker.run {
        onTheRoad()
        checks("43TEG 5691 4962")
        activity.keep(activity.draft.checking(Checked("43TEG 5690 4961")))
        assertTrue(!activity.ask { Record.Check(it, "43TEG 5690 4961", null) }.refused)
        kill()
        touch("Weigh this place in")
        assertEquals("43TEG 5690 4961", weighed)
    }

    /** Of a place that does not fit, typing it anew comes before weighing it in. */
    @Test fun aMisfitIsWeighedInLast() = walker.run {
        onTheRoad()
        checks("43TEG 6591 4962")
        val offered = buttons(activity.page.content).map { it.text.toString() }
        assertTrue("$offered", offered.indexOf("Check it") in 0 until offered.indexOf("Weigh this place in"))
    }
}

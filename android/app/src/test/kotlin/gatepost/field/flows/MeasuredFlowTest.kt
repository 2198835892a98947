package gatepost.field.flows

import org.junit.Assert.assertEquals
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
}

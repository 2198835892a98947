package gatepost.field.flows

import android.view.KeyEvent
import gatepost.bridge.Stage
import gatepost.field.audit.putRecords
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** The log followed back to the car, killed at every leg. */
@RunWith(RobolectricTestRunner::class)
class WayBackFlowTest {
    private val walker: Walker by lazy {
        putRecords(LEGS)
        Walker()
    }
    private val snapshot get() = walker.activity.snapshot

    @Test fun theLogLeadsToTheCar() = walker.run {
        touch("Way back")
        sees("At the end look for the car")
        kill()
        touch("Follow the log")
        for (leg in snapshot.legs.reversed()) {
            kill()
            sees("Back along leg ${leg.number}, walk")
            touch(if (leg.number > 1u) "Turn here" else "At the line")
        }
        sees("look for the car")
        kill()
        touch("Found the car")
        assertEquals(Stage.AFTERWARDS, snapshot.stage)
        sees("The log was followed back to its end")
        sees("Leg 5: 024°\u00a0mag, 110\u00a0double paces")
        kill()
        undo()
        touch("Strike it")
        assertEquals(Stage.WAY_BACK, snapshot.stage)
        touch("Found the car")
        touch("Next trip")
        kill()
        touch("Again on Velm valley")
        assertEquals("Velm valley", snapshot.sheet!!.name)
        assertEquals(Stage.BESIDE_THE_LINE, snapshot.stage)
        assertTrue(snapshot.legs.isEmpty())
    }

    /** What is counted is told as what is left; a wrong touch is undone by one; the next leg begins at nothing. */
    @Test fun pacesAreCountedDownOnTheWayBack() = walker.run {
        touch("Way back")
        touch("Follow the log")
        sees("110\u00a0double paces to go")
        touch("0\u00a0double paces")
        activity.dispatchKeyEvent(KeyEvent(KeyEvent.ACTION_DOWN, KeyEvent.KEYCODE_VOLUME_UP))
        sees("108\u00a0double paces to go")
        kill()
        sees("108\u00a0double paces to go")
        touch("One less")
        sees("109\u00a0double paces to go")
        touch("Where am\u00a0I")
        sees("1\u00a0double paces, 204°\u00a0mag")
        touch("Walk on")
        touch("Turn here")
        sees("95\u00a0double paces to go")
    }

    @Test fun aLegBackIsTakenBack() = walker.run {
        touch("Way back")
        touch("Follow the log")
        repeat(3) { touch("$it\u00a0double paces") }
        touch("Turn here")
        sees("Back along leg 4, walk")
        repeat(2) { touch("$it\u00a0double paces") }
        undo()
        sees("2\u00a0double paces counted since then are dropped.")
        sees("Back along leg 5, walk")
        assertEquals("the count is back", 3, walker.activity.draft.count)
        kill()
        sees("107\u00a0double paces to go")
        undo()
        touch("Strike it")
        sees("3\u00a0double paces counted since then are dropped.")
        assertEquals(Stage.ON_FOOT to 0, snapshot.stage to walker.activity.draft.count)
    }

    private companion object {
        /** Records of the walk up to its last leg. */
        const val LEGS = 10
    }
}

package gatepost.field.flows

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
        sees("The trip is closed")
        sees("Leg 5: 024°\u00a0mag, 110\u00a0double paces")
        kill()
        undo()
        touch("Strike it")
        assertEquals(Stage.WAY_BACK, snapshot.stage)
        touch("Found the car")
        touch("Next trip")
        touch("Velm valley")
        assertEquals(Stage.BESIDE_THE_LINE, snapshot.stage)
        assertTrue(snapshot.legs.isEmpty())
    }

    @Test fun aLegBackIsTakenBack() = walker.run {
        touch("Way back")
        touch("Follow the log")
        touch("Turn here")
        sees("Back along leg 4, walk")
        undo()
        sees("Back along leg 5, walk")
    }

    private companion object {
        /** Records of the walk up to its last leg. */
        const val LEGS = 10
    }
}

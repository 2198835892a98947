package gatepost.field.flows

import gatepost.bridge.Stage
import gatepost.field.audit.putRecords
import gatepost.field.book.Open
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** The compass held against bearings of the map, killed at every step. */
@RunWith(RobolectricTestRunner::class)
class CompassFlowTest {
    private val walker: Walker by lazy {
        putRecords(FIXED)
        Walker()
    }
    private val snapshot get() = walker.activity.snapshot

    private fun Walker.looksBefore() {
        touch("Beside the line, place 2 of 5")
        touch("Before")
    }

    private fun Walker.notes(read: String, known: String) {
        touch("Check my compass")
        figures(read.take(1))
        kill()
        figures(read.drop(1))
        touch("Note it")
        kill()
        sees("___°\u00a0grid")
        figures(known)
        touch("Note it")
    }

    /** Read six degrees too high three times; what is kept is taken off the next bearing. */
    @Test fun theErrorFoundIsKeptAndTakenBack() = walker.run {
        looksBefore()
        notes("20", "14")
        sees("One known bearing alone")
        notes("110", "104")
        notes("200", "194")
        kill()
        sees("020°\u00a0mag, 014°\u00a0grid")
        sees("from 3 known bearings")
        assertNull("nothing is taken off before it is kept", snapshot.compass)
        touch("Keep it: take the error off")
        assertTrue(activity.draft.trials.isEmpty())
        assertNotNull(snapshot.compass)
        kill()
        sees(snapshot.compass!!)
        assertEquals(Stage.BESIDE_THE_LINE, snapshot.stage)
        undo()
        touch("Strike it")
        assertNull(snapshot.compass)
    }

    @Test fun aReadingIsStruckAndOneWithoutItsAnswerGoes() = walker.run {
        looksBefore()
        notes("20", "14")
        notes("110", "104")
        touch("110°\u00a0mag, 104°\u00a0grid")
        assertEquals(listOf("020 mag"), activity.draft.trials.map { it.read })
        touch("Check my compass")
        figures("90")
        touch("Note it")
        touch("Leave it")
        assertEquals(1, activity.draft.trials.size)
        assertEquals("back where it was begun", Stage.BEFORE, activity.draft.looked)
    }

    @Test fun aBearingThatCannotBeIsRefused() = walker.run {
        looksBefore()
        touch("Check my compass")
        figures("400")
        touch("Note it")
        sees("is not between 0 and 360")
        assertEquals(Open.READ, activity.draft.open)
        touch("Clear")
        figures("40")
        touch("Note it")
        figures("777")
        touch("Note it")
        sees("is not between 0 and 360")
        assertEquals("what was typed stays", Open.KNOWN to "777", activity.draft.open to activity.draft.typed)
    }

    private companion object {
        /** Records of the walk up to the fix. */
        const val FIXED = 4
    }
}

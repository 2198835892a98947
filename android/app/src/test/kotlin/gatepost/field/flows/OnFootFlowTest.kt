package gatepost.field.flows

import android.view.KeyEvent
import gatepost.bridge.LegRecord
import gatepost.bridge.Record
import gatepost.bridge.Stage
import gatepost.field.audit.putRecords
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** Legs by count and turn, killed at every step. */
@RunWith(RobolectricTestRunner::class)
class OnFootFlowTest {
    private val walker: Walker by lazy {
        putRecords(KEPT)
        Walker()
    }
    private val snapshot get() = walker.activity.snapshot

    private fun Walker.begins() {
        figures("05")
        kill()
        figures("2")
        touch("Walk it")
        sees("052°\u00a0mag")
    }

    private fun Walker.volumeKey() {
        for (action in listOf(KeyEvent.ACTION_DOWN, KeyEvent.ACTION_UP)) activity.dispatchKeyEvent(KeyEvent(action, KeyEvent.KEYCODE_VOLUME_UP))
    }

    private fun Walker.counts(paces: Int) = repeat(paces) { if (it % 2 == 0) touch("${activity.draft.count}\u00a0double paces") else volumeKey() }

    /** Killed when the leg is in the log and its draft is not yet anew: it is not logged twice. */
    @Test fun aLegThatIsInTheLogIsNotLoggedAgain() = walker.run {
        begins()
        counts(7)
        assertTrue(!activity.ask { Record.Leg(LegRecord(it, "052 mag", 7.0, "double", null, null, null)) }.refused)
        kill()
        assertEquals(listOf(7.0), snapshot.legs.map { it.doublePaces })
        assertEquals(0, activity.draft.count)
        touch("Turn")
        figures("085")
        touch("Walk it")
        assertEquals(1, snapshot.legs.size)
        undo()
        touch("Strike it")
        assertEquals("052 mag" to 7, activity.draft.run { bearing to count })
    }

    @Test fun legsAreCountedTurnedAndTakenBack() = walker.run {
        begins()
        counts(7)
        kill()
        sees("7")
        touch("Met")
        words("split boul")
        kill()
        words("split boulder")
        touch("Note it")
        sees("met split boulder")
        touch("Detour")
        figures("40")
        kill()
        touch("Right")
        touches = 0
        touch("Turn")
        figures("085")
        kill()
        touch("Walk it")
        assertTrue("$touches touches to the next leg", touches <= 3)
        val leg = snapshot.legs.single()
        assertEquals(listOf("split boulder", "right", 7.0), listOf(leg.met, leg.detourSide, leg.doublePaces))
        sees("085°\u00a0mag")
        counts(2)
        touch("Turn")
        figures("031")
        touch("Walk it")
        counts(1)
        undo()
        sees("1\u00a0double paces counted since then are dropped.")
        sees("085°\u00a0mag")
        assertEquals(2, activity.draft.count)
        kill()
        touches = 0
        undo()
        touch("Strike it")
        assertEquals(2, touches)
        assertEquals(emptyList<Any>(), snapshot.legs)
        sees("052°\u00a0mag")
        assertEquals("the count is back", 7, activity.draft.count)
    }

    /** A touch too many, or a volume key, is taken back by one. */
    @Test fun aPaceIsTakenBack() = walker.run {
        begins()
        counts(3)
        touch("One less")
        assertEquals(2, activity.draft.count)
        find("2\u00a0double paces")
        kill()
        repeat(3) { touch("One less") }
        assertEquals(0, activity.draft.count)
    }

    @Test fun whereAmIAndTheWayBackAreOneTouch() = walker.run {
        begins()
        counts(3)
        touches = 0
        touch("Where am\u00a0I")
        assertEquals(1, touches)
        sees("43T EG")
        sees("3\u00a0double paces, 052°\u00a0mag")
        kill()
        touch("Walk on")
        touches = 0
        touch("Way back")
        assertEquals(1, touches)
        sees("Way back, the log reversed")
        assertEquals("the leg is closed where one turns back", 3.0, snapshot.legs.single().doublePaces, 0.0)
        kill()
        touch("Follow the log")
        assertEquals(Stage.WAY_BACK, snapshot.stage)
    }

    @Test fun aBearingThatCannotBeIsRefused() = walker.run {
        figures("400")
        touch("Walk it")
        sees("is not between 0 and 360")
        sees("400°\u00a0mag")
    }

    private companion object {
        /** Records of the walk up to the kept car. */
        const val KEPT = 5
    }
}

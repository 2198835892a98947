package gatepost.field.flows

import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** What is counted from a known point, or stands at one, by touch, killed between the questions. */
@RunWith(RobolectricTestRunner::class)
class KnownPointsFlowTest {
    private val walker = Walker()
    private val fix get() = walker.activity.snapshot.fix!!
    private val whats get() = walker.whats

    @Test fun theTripMeterFromAKnownPoint() = walker.run {
        onTheRoad()
        tells("Trip meter from a known point")
        touch("Ossel bridge")
        figures("900")
        kill()
        sees("900\u00a0m")
        touch("Note it")
        touch("Towards Milestone 4")
        assertEquals(listOf("bearing", "measured"), whats)
        sees(fix.field.first())
    }

    @Test fun beforeAFixTheSheetNamesItsKnownPoints() = walker.run {
        touch("Velm valley")
        touch("Velm Road")
        tells("Paces from a known point")
        sees("Milestone 4")
        touch("Ossel bridge")
        kill()
        figures("300")
        touch("Note it")
        touch("I do not know which way")
        assertEquals(listOf("measured"), whats)
    }

    @Test fun whatIsHere() = walker.run {
        onTheRoad()
        tells("What is here?")
        touch("A bridge")
        assertEquals(listOf("bearing", "here-kind"), whats)
        touch(fix.accounts.last().told)
        tells("What is here?")
        touch("Ossel bridge")
        assertEquals(listOf("bearing", "here"), whats)
    }

    @Test fun onWhichSide() = walker.run {
        onTheRoad()
        tells("On which side of you is a landmark?")
        touch("Hallik mast")
        touch("Right")
        kill()
        touch("Towards Milestone 4")
        assertEquals(listOf("bearing", "side"), whats)
    }
}

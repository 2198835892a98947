package gatepost.field.flows

import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** *Seen* and *not seen*, and taking sightings back, by touch. */
@RunWith(RobolectricTestRunner::class)
class SeenFlowTest {
    private val walker = Walker()
    private val fix get() = walker.activity.snapshot.fix!!
    private val whats get() = walker.whats

    @Test fun seenAndNotSeenAreOneTouchEach() = walker.run {
        onTheRoad()
        touch("Not seen: Torn Top")
        assertEquals(1, touches)
        assertEquals(listOf("bearing", "seen"), whats)
        kill()
        touch("Seen: Old kiln")
        assertEquals(listOf("bearing", "seen", "seen"), whats)
    }

    @Test fun whatIsSeenIsAFirstSightingToo() = walker.run {
        touch("Velm valley")
        touch("Velm Road")
        touch("Seen: Sorn chapel")
        assertEquals(listOf("seen"), whats)
        sees(fix.field.first())
    }

    @Test fun eachSightingIsTakenBackByOneTouch() = walker.run {
        onTheRoad()
        touch("Not seen: Torn Top")
        sights("Hallik mast", "088")
        kill()
        touch(fix.accounts[1].told)
        assertEquals(listOf("bearing", "bearing"), whats)
        touch(fix.accounts[0].told)
        assertEquals(listOf("Hallik mast"), fix.sightings.map { it.landmark })
        undo()
        assertEquals("undone, what was told is there again", listOf("bearing", "bearing"), whats)
        touch("Not seen: Torn Top")
        assertEquals(listOf("Sorn chapel", "Hallik mast"), fix.sightings.map { it.landmark })
    }
}

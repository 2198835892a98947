package gatepost.field.flows

import gatepost.bridge.Stage
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** Which line am I on: not sure, or on none, by touch, killed at every step. */
@RunWith(RobolectricTestRunner::class)
class LinesFlowTest {
    private val walker = Walker()
    private val snapshot get() = walker.activity.snapshot

    private fun Walker.reads(landmark: String, figures: String) {
        touch(landmark)
        figures(figures)
        kill()
        touch("Weigh it in")
    }

    @Test fun oneOfSeveralLines() = walker.run {
        touch("Velm valley")
        touch("Not sure: one of several")
        touch("Velm Road")
        kill()
        touch("Issa Creek")
        touch("Note it")
        kill()
        sees("Not sure: one of several")
        reads("Sorn chapel", "016")
        assertEquals(listOf("Velm Road", "Issa Creek"), snapshot.fix!!.lines.map { it.name })
        sees("Issa Creek")
        snapshot.fix!!.lines.forEach { sees(it.told) }
        reads("Hallik mast", "088")
        assertEquals("still one of both", 2, snapshot.fix!!.lines.size)
        touch("Another line")
        touch("Velm Road")
        assertEquals("on one of them", 1, snapshot.fix!!.lines.size)
        assertEquals("with all that was told", listOf("Sorn chapel", "Hallik mast"), snapshot.fix!!.sightings.map { it.landmark })
        undo()
        assertEquals(2, snapshot.fix!!.lines.size)
    }

    @Test fun onNoLine() = walker.run {
        touch("Velm valley")
        touch("On no line")
        kill()
        sees("On no line")
        reads("Sorn chapel", "016")
        snapshot.openFix!!.cautions.forEach { sees(it) }
        snapshot.openFix!!.field.forEach { sees(it) }
        touches = 0
        touch("Hallik mast")
        figures("088")
        touch("Weigh it in")
        assertTrue("$touches touches to one more sighting", touches <= 3)
        kill()
        val fix = snapshot.openFix!!
        assertNull(snapshot.fix)
        assertEquals("ellipse", fix.shape)
        sees(fix.places.single().reference.substringAfter(" "))
        fix.sightings.forEach { sees(it.told) }
        touch("More sightings")
        touch("Angle between two landmarks")
        touch("Sorn chapel")
        touch("Old kiln")
        figures("44")
        kill()
        touch("Weigh it in")
        assertEquals(listOf("bearing", "bearing", "angle"), snapshot.openFix!!.sightings.map { it.what })
        touch(snapshot.openFix!!.sightings.last().told)
        assertEquals(listOf("bearing", "bearing"), snapshot.openFix!!.sightings.map { it.what })
        touch("Here stands the car")
        assertEquals(Stage.ON_FOOT, snapshot.stage)
    }

    @Test fun aWrongTouchIsUndoneByOne() = walker.run {
        touch("Velm valley")
        touch("On no line")
        touch("Another line")
        touch("Velm Road")
        sees("On Velm Road")
    }
}

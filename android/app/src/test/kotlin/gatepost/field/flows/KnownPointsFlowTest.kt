package gatepost.field.flows

import android.widget.EditText
import gatepost.bridge.Answer
import gatepost.bridge.FieldBook
import gatepost.bridge.OpenConfig
import gatepost.bridge.PointsRecord
import gatepost.bridge.Record
import gatepost.bridge.label
import gatepost.field.place.kindsMet
import gatepost.field.repositoryFile
import gatepost.field.tell
import gatepost.field.texts
import gatepost.field.tree
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
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
        touch("Each until the next is full")
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

    /** Of a line with forty known points not all are listed; the others are found by a part of their names. */
    @Test fun aKnownPointThatIsNotListed() = walker.run {
        val stones = (10 until 50).joinToString("") { "[[known_point]]\nname = \"Stone $it\"\non = \"Long ride\"\nat = \"56$it 4930\"\n" }
        val ride = "[[line]]\nname = \"Long ride\"\nkind = \"track\"\npoints = [\"5600 4930\", \"5650 4930\"]\n"
        activity.tell { at -> Record.Carry(at, "toml", repositoryFile("tests/demo/velm-valley.toml").readText() + ride + stones) }
        kill()
        touch("Long ride")
        tells("Paces from a known point")
        assertTrue(tree(activity.page.content).filterIsInstance<EditText>().single().hint.toString().endsWith(" more)"))
        words("STONE 49")
        touch("Look it up")
        kill()
        sees("One known point there is so named.")
        touch("Stone 49")
        figures("300")
        touch("Note it")
        words("stone 1")
        touch("Look it up")
        assertTrue(texts(activity.page.content).none { "Stone 49" in it })
        touch("Towards Stone 19")
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

    /** Whatever the core calls a place where lines meet, the list has a word for it. */
    @Test fun everyMeetingOfLinesHasItsWord() = FieldBook.open(OpenConfig()).use { book ->
        book.take(Record.Carry("2026-09-12T08:00:00Z", "geojson", """{"type":"FeatureCollection","features":[${crossing.joinToString(",")}]}"""))
        val told = book.take(Record.Points(PointsRecord("", emptyList(), null))).answer as Answer.Points
        val kinds = told.points.map { it.kind }.toSet()
        assertEquals(setOf("crossroads", "stream", "confluence", "fence-corner", "fence", "ridge", "wire"), kinds)
        kinds.forEach { kind -> assertTrue(kind, label(kindsMet.toMap().getValue(kind)).contains(' ')) }
    }

    private fun line(name: String, kind: String, points: String) =
        """{"type":"Feature","properties":{"name":"$name","kind":"$kind"},"geometry":{"type":"LineString","coordinates":[$points]}}"""

    private val crossing = listOf(
        line("Long Road", "road", "[14.0,46.0],[14.03,46.0]"), line("Park wall", "wall", "[14.005,45.995],[14.005,46.01]"),
        line("East fence", "fence", "[14.003,46.005],[14.007,46.005]"), line("High ridge", "ridge", "[14.01,45.995],[14.01,46.005]"),
        line("Grid wire", "power line", "[14.015,45.995],[14.015,46.005]"), line("Mill creek", "creek", "[14.02,45.995],[14.02,46.01]"),
        line("Low creek", "creek", "[14.018,46.006],[14.022,46.004]"), line("Cross track", "track", "[14.025,45.995],[14.025,46.005]"),
    )

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

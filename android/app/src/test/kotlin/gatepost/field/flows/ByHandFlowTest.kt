package gatepost.field.flows

import gatepost.bridge.Stage
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** A sheet typed off the paper map alone, killed between the questions. A touch into a field counts. */
@RunWith(RobolectricTestRunner::class)
class ByHandFlowTest {
    private val walker = Walker()
    private val sheet get() = walker.activity.snapshot.sheet!!
    private val landmarks get() = walker.activity.snapshot.sights.map { it.landmark }

    private fun Walker.types(typed: String) {
        touches++
        words(typed.dropLast(1))
        kill()
        words(typed)
        touch("Note it")
    }

    private fun Walker.landmark(name: String, kind: String, at: String, high: String) {
        touch("Add a landmark")
        types(name)
        touch(kind)
        types(at)
        figures(high)
        touch("Note it")
    }

    private fun Walker.begins() {
        touch("Type a sheet from the paper map")
        types("Aln moor")
        types("43TEG")
        types("Mill lane")
        touch("Track")
        types("5560 4895\n5602 4904\n5640 4908\n5672 4912")
    }

    @Test fun aLineOfFourPointsAndTwoLandmarks() = walker.run {
        begins()
        landmark("Gull mast", "Mast", "5800 4958", "45")
        landmark("Low kiln", "Chimney", "5745 4985", "")
        touch("Go to the line")
        assertTrue("$touches touches", touches <= 25)
        assertEquals(Stage.BESIDE_THE_LINE, activity.snapshot.stage)
        assertEquals("Aln moor", sheet.name)
        assertEquals(listOf("Mill lane" to "track"), sheet.lines.map { it.name to it.kind })
        assertEquals(listOf("Gull mast", "Low kiln"), landmarks)
        sees("On Mill lane")
        touch("Gull mast")
        figures("067")
        touch("Weigh it in")
        assertEquals(1, activity.snapshot.fix!!.sightings.size)
    }

    /** A comma stands within a position too: each line is one place, as the core reads it. */
    @Test fun aLineOfPositionsIsReadAsItStands() = walker.run {
        touch("Type a sheet from the paper map")
        types("Aln moor")
        types("43TEG")
        types("Mill lane")
        touch("Track")
        types("42.9000, 75.6800\n42.9050, 75.6900")
        assertEquals(listOf("Mill lane"), sheet.lines.map { it.name })
        sees("Add a landmark")
    }

    /** What was left is there again, and the question before can be mended. */
    @Test fun aHalfTypedSheetIsThereAgain() = walker.run {
        touch("Type a sheet from the paper map")
        types("Aln moor")
        words("43TE")
        touch("Leave it")
        kill()
        touch("Paste or type a sheet")
        words("name = ")
        touch("Leave it")
        touch("Type a sheet from the paper map")
        sees("43TE")
        touch("Back")
        sees("Aln moor")
        touch("Leave it")
        touch("Paste or type a sheet")
        sees("name = ")
    }

    @Test fun whatIsWrongIsToldAndStays() = walker.run {
        touch("Type a sheet from the paper map")
        types("Aln moor")
        types("43TEG")
        types("Mill lane")
        touch("Road")
        types("5560 4895\n56x")
        sees("5560 4895\n56x")
        assertEquals(null, activity.snapshot.sheet)
    }

    @Test fun aPartIsMarkedAndStruckAndAKnownPointAdded() = walker.run {
        begins()
        landmark("Gull mast", "Something else", "5800 4958", "")
        touch("Gull mast")
        kill()
        sees("to be struck")
        assertEquals("no undo reaches the sheet: a wrong touch strikes nothing", listOf("Gull mast"), landmarks)
        touch("Gull mast")
        touch("Mill lane")
        touch("Mill lane")
        touch("Gull mast")
        touch("Strike it")
        assertEquals(emptyList<String>(), landmarks)
        assertEquals(listOf("Mill lane"), sheet.lines.map { it.name })
        touch("Add a known point of a line")
        types("Ford")
        touch("Mill lane")
        types("5640 4908")
        touch("Go to the line")
        touch("More sightings")
        touch("What is here?")
        touch("Ford")
        assertEquals(listOf("here"), activity.snapshot.fix!!.accounts.map { it.what })
    }
}

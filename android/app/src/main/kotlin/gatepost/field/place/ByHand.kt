package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.SheetRecord
import gatepost.bridge.TypedKnownPoint
import gatepost.bridge.TypedLandmark
import gatepost.bridge.TypedLine
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.book.Part
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.line

private val lineKinds = listOf(
    "road" to "label-road", "track" to "label-track", "path" to "label-path", "creek" to "label-creek", "ridge" to "label-ridge", "fence" to "label-fence",
)
private val landmarkKinds = listOf(
    "mast" to "label-mast", "church" to "label-church", "tower" to "label-tower", "chimney" to "label-chimney",
    "building" to "label-building", "summit" to "label-summit", "" to "label-other-kind",
)
private val itsReference = Question("label-its-reference", Way.WORDS)

/** What is asked for a part of a sheet, one question after the other. */
val Part.questions: List<Question>
    get() = when (this) {
        Part.SHEET -> listOf(Question("label-sheet-name", Way.WORDS), Question("label-sheet-beginning", Way.WORDS)) + Part.LINE.questions
        Part.LINE -> listOf(Question("label-line-name", Way.WORDS), Question("label-line-kind", Way.CHOICE, lineKinds), Question("label-line-points", Way.REFERENCES))
        Part.LANDMARK -> listOf(
            Question("label-landmark-name", Way.WORDS), Question("label-which-kind", Way.CHOICE, landmarkKinds), itsReference, Question("label-how-high", Way.METRES, isOptional = true),
        )
        Part.POINT -> listOf(Question("label-point-name", Way.WORDS), Question("label-point-on-line", Way.LINE), itsReference)
    }

/** Adds a part to the sheet, or begins it. Another sheet begins another trip: nothing half done goes along. */
fun Hand.add(part: Part, said: List<String>) {
    val after = if (part == Part.SHEET) draft.ofNextTrip() else draft
    tell(after.opened(Open.PARTS)) { at ->
        val (name, beginning) = if (part == Part.SHEET) said.take(2).map { it.ifEmpty { null } } else listOf(null, null)
        // A sheet without its name is refused; an absent one would be added to the sheet that is open.
        sheet(at, if (part == Part.SHEET) name.orEmpty() else null, beginning, part, if (part == Part.SHEET) said.drop(2) else said)
    }
}

private fun sheet(at: String, name: String?, beginning: String?, part: Part, said: List<String>): Record {
    val lines = if (part == Part.SHEET || part == Part.LINE) listOf(TypedLine(said[0], said[1], references(said[2]), null)) else emptyList()
    val points = if (part == Part.POINT) listOf(TypedKnownPoint(said[0], said[1], said[2], null)) else emptyList()
    val landmarks = if (part == Part.LANDMARK) listOf(TypedLandmark(said[0], said[1].ifEmpty { null }, said[2], null, said[3].toDoubleOrNull())) else emptyList()
    return Record.Sheet(SheetRecord(at, name, beginning, null, null, null, null, null, lines, points, landmarks, emptyList(), emptyList()))
}

/** One on a line; what is within a line the core reads. */
private fun references(typed: String) = typed.lines().map { it.trim() }.filter { it.isNotEmpty() }

/** The sheet as far as it is typed: more is added, and what is marked is struck from the foot, for no undo reaches the sheet. */
fun Hand.sheetParts(): Shown {
    val sheet = snapshot.sheet ?: return before()
    val (lines, landmarks) = linesFound() to landmarksFound()
    val listed = lines.listed.map { it.name } + landmarks.listed.map { it.landmark }
    val marked = draft.marked
    val rows = (marked.filter { it !in listed } + listed).map { name ->
        val isMarked = name in marked
        Row(context, Mark(context, if (isMarked) Standing.MISFIT else Standing.OPEN), name, if (isMarked) label("label-to-be-struck") else "") {
            go(draft.copy(marked = if (isMarked) marked - name else marked + name))
        }
    }
    val adds = listOf(Part.LANDMARK to "label-add-landmark", Part.POINT to "label-add-point", Part.LINE to "label-add-line")
        .map { (part, name) -> Row(context, null, label(name), "") { go(draft.typing(part)) } }
    val title = context.line(R.style.Text_Strong, label("label-strike-which"))
    val next = if (marked.isEmpty()) Step(label("label-to-the-line")) { go(draft.shut()) } else Step(label("label-strike")) { strike(marked) }
    return Shown(listOf(context.line(R.style.Text_Heading, sheet.name)) + adds + title + byName(Found(listed, maxOf(lines.left, landmarks.left), lines.said + landmarks.said)) + rows, listOf(next))
}

private fun Hand.strike(parts: List<String>) = tell(draft.copy(marked = emptyList())) {
    Record.Sheet(SheetRecord(it, null, null, null, null, null, null, null, emptyList(), emptyList(), emptyList(), emptyList(), parts))
}

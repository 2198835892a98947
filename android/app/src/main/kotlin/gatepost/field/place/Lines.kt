package gatepost.field.place

import android.view.View
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Draft
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.line

/** Which line: one, one of several, or none. */
fun Hand.lines(): Shown {
    val found = linesFound()
    val rows = found.listed.map { line -> Row(context, null, line.name, line.kind) { stand(draft.on(line.name)) } }
    val unsure = Row(context, null, label("label-not-sure-which"), "") { go(draft.opened(Open.LINES).copy(marked = draft.lines)) }.takeIf { snapshot.sheet?.lines.orEmpty().size > 1 }
    val none = Row(context, null, label("label-on-no-line"), "") { stand(draft.on("").copy(onNoLine = true)) }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-which-line"))) + byName(found) + rows + unsure + none, emptyList())
}

/** All lines that it may be. */
fun Hand.linesMarked(): Shown {
    val found = linesFound()
    val rows = byName(found) + marking(found.listed.map { it.name to it.kind })
    val note = Step(label("label-note-it")) { stand(draft.on(draft.marked.singleOrNull().orEmpty()).copy(lines = draft.marked)) }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-which-lines"))) + rows, listOf(note).filter { draft.marked.isNotEmpty() })
}

/** Rows of which each touch marks one or takes the mark off; what is marked already stands first where it is not among those listed. */
fun Hand.marking(listed: List<Pair<String, String>>): List<View> = (draft.marked.filter { name -> listed.none { it.first == name } }.map { it to "" } + listed).map { (name, kind) ->
    val isMarked = name in draft.marked
    val mark = Mark(context, if (isMarked) Standing.FITS else Standing.OPEN)
    Row(context, mark, name, if (isMarked) label("label-marked") else kind) { go(draft.copy(marked = if (isMarked) draft.marked - name else draft.marked + name)) }
}

private fun Draft.on(line: String) = shut().copy(line = line, lines = emptyList(), onNoLine = false)

/** With a fix taken already, it is taken again there. */
private fun Hand.stand(chosen: Draft) {
    val notes = notes()
    val on = chosen.on(snapshot.sheet)
    if (notes.isEmpty()) go(chosen) else weigh(notes, on, chosen)
}

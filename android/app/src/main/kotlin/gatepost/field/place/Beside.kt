package gatepost.field.place

import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.button
import gatepost.field.look.line

/** Beside the line: first the line, then what is seen, then the fix. */
fun Hand.besideTheLine(): Shown = when {
    snapshot.fix != null -> fixed()
    lineStoodOn() == null -> lines()
    else -> nothingRead()
}

/** The line of the fix, the one chosen, or the only one. */
fun Hand.lineStoodOn(): String? {
    val lines = snapshot.sheet?.lines.orEmpty().map { it.name }
    return snapshot.fix?.line ?: draft.line.takeIf { it in lines } ?: lines.singleOrNull()
}

/** Which line. */
fun Hand.lines(): Shown {
    val rows = snapshot.sheet?.lines.orEmpty().map { line -> Row(context, null, line.name, line.kind) { go(draft.shut().copy(line = line.name)) } }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-which-line"))) + rows, emptyList())
}

private fun Hand.nothingRead(): Shown {
    val several = (snapshot.sheet?.lines?.size ?: 0) > 1
    val change = if (several) context.button(R.style.Outlined, label("label-change-line")) { go(draft.opened(Open.LINE)) } else null
    val head = listOf(
        context.line(R.style.Text_Heading, label("label-on-line", lineStoodOn().orEmpty())),
        caution(),
        MetalCaution(this),
        readWith(),
        context.line(R.style.Text_Strong, label("label-what-do-you-see")),
    )
    val first = snapshot.sights.firstOrNull()?.landmark
    val steps = listOfNotNull(first?.let { Step(label("label-sight", it)) { sight(it) } })
    return Shown(head + sights() + PhoneFieldRow(this) + change + norths(), steps)
}

/** What bearings are read with; a touch takes the next. */
fun Hand.readWith() = context.button(R.style.Outlined, label("label-read-with", label(draft.compass.title))) { go(draft.copy(compass = draft.compass.next())) }

/** What can be sighted; a touch opens the pad. */
fun Hand.sights(): List<Row> = snapshot.sights.filter { !it.sighted }.map { seen ->
    Row(context, Mark(context, Standing.OPEN), seen.landmark, seen.told) { sight(seen.landmark) }
}

fun Hand.sight(landmark: String) = go(draft.opened(Open.PAD).copy(landmark = landmark))

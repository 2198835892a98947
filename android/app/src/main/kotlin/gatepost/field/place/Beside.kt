package gatepost.field.place

import android.view.View
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.button
import gatepost.field.look.line

/** Beside the line: first the line, then what is seen, then the fix. */
fun Hand.besideTheLine(): Shown = when {
    snapshot.fix != null -> fixed()
    snapshot.openFix != null -> openFixed()
    standsOn() == null -> lines()
    else -> nothingRead()
}

private fun Hand.nothingRead(): Shown {
    val head = standing() + listOf(
        caution(),
        MetalCaution(this),
        readWith(),
        context.line(R.style.Text_Strong, label("label-what-do-you-see")),
    )
    val found = landmarksFound()
    val first = found.listed.firstOrNull()?.landmark
    val steps = listOfNotNull(first?.let { Step(label("label-sight", it)) { sight(it) } })
    return Shown(head + sights(found) + moreButton() + PhoneFieldRow(this) + changeLine() + norths(), steps)
}

/** The line, or each of those that it may be. */
private fun Hand.standing(): List<View?> {
    val on = standsOn()
    val title = if (on?.none == true) label("label-on-no-line") else on?.line?.let { label("label-on-line", it) } ?: label("label-not-sure-which")
    return listOf(context.line(R.style.Text_Heading, title)) + on?.lines.orEmpty().map { context.line(R.style.Text_Strong, it) }
}

/** Another line, several, or none. */
fun Hand.changeLine() = context.button(R.style.Outlined, label("label-change-line")) { go(draft.opened(Open.LINE)) }

/** What bearings are read with; a touch takes the next. */
fun Hand.readWith() = context.button(R.style.Outlined, label("label-read-with", label(draft.compass.title))) { go(draft.copy(compass = draft.compass.next())) }

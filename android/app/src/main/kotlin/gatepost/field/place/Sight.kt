package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Checked
import gatepost.field.book.Note
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.field
import gatepost.field.look.line

/** The pad for the bearing to a landmark. */
fun Hand.sightPad(): Shown {
    val pad = Pad(this, label("label-bearing-to", draft.landmark), Asks.SIGHT)
    return Shown(listOf(pad), listOf(Step(label("label-weigh-in"), ::weighBearing)))
}

private fun Hand.weighBearing() = weighIn(Note(What.BEARING, draft.landmark, typedBearing()))

/** *Check it*: a grid reference read off the map, or told by a receiver. */
fun Hand.checkTyped(): Shown {
    val typed = context.field(label("label-check-field"), draft.words, 1) { keep(draft.copy(words = it)) }
    val hold = Step(label("label-hold-against")) { hold(draft.words, null) }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-check-field")), typed), listOf(hold))
}

/** Holds a place against the fix; it is in the draft before it is told, to be weighed in when that is wanted. */
fun Hand.hold(place: String, spreadM: Double?) {
    val (checked, before) = Checked(place, spreadM?.toString().orEmpty()) to draft.checks
    keep(draft.checking(checked))
    val isTaken = tell({ now -> draft.shut().checking(checked.copy(told = now.check?.told.orEmpty())) }) { Record.Check(it, place, spreadM) }
    if (!isTaken) keep(draft.copy(checks = before))
}

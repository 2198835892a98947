package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.walkingPlaces
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.line

/** The last entry, before it is struck. */
fun Hand.wouldStrike() = Shown(listOf(context.line(R.style.Text_Heading, label("label-would-strike", snapshot.undo.orEmpty()))), listOf(Step(label("label-strike")) { strike() }))

/** A struck leg is being walked again, with its count; what was counted since is dropped, and that is told. */
fun Hand.strike() {
    val (before, half) = snapshot to draft
    val isStruck = tell({ half.undone(before, it) }) { Record.Undo(it) }
    if (isStruck && snapshot.stage in walkingPlaces && half.count > 0 && draft.count != half.count) warn(label("label-paces-dropped", "${half.count}"))
}

package gatepost.field.place

import android.view.View
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.answer
import gatepost.field.look.line

/** Afterwards: the record, and the legs that were walked. */
fun Hand.afterwards(): Shown {
    return Shown(context.answer(draft.said) + legsWalked(), listOf(Step(label("label-next-trip")) { go(draft.opened(Open.SHEETS)) }))
}

/** The walk drawn, and its legs in a list. */
fun Hand.legsWalked(): List<View?> {
    val rows = snapshot.legs.map { Row(context, null, "${label("label-leg-number", "${it.number}")}: ${it.bearingTold}, ${it.pacesTold}", it.met.orEmpty(), null) }
    return listOf(walkChart(), context.line(R.style.Text_Strong, label("label-legs-walked")).takeIf { rows.isNotEmpty() }) + rows
}

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
import gatepost.field.look.glance
import gatepost.field.look.line
import gatepost.field.look.said

/** Afterwards: how the walk closed, what was logged, and the legs. */
fun Hand.afterwards(): Shown =
    Shown(closed() + legsWalked(), listOf(Step(label("label-next-trip")) { go(draft.opened(Open.SHEETS)) }))

/** The closing error at a glance, and what the trip came to; without a leg, what was said when it was closed. */
private fun Hand.closed(): List<View> {
    val after = snapshot.after ?: return context.answer(draft.said)
    val error = after.closing?.let { listOf(context.line(R.style.Text_Label, label("label-closing-error")), context.glance(it.offTold)) }
    return error.orEmpty() + after.told.map { context.said(it) }
}

/** The walk drawn, and its legs as they were logged. */
fun Hand.legsWalked(): List<View?> {
    val rows = snapshot.legs.map { Row.ofSentence(context, null, it.told, "", null) }
    return listOf(walkChart(), context.line(R.style.Text_Strong, label("label-legs-walked")).takeIf { rows.isNotEmpty() }) + rows
}

package gatepost.field.place

import gatepost.bridge.LegView
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.line
import gatepost.field.look.said
import java.util.Locale

/** Afterwards: the record, and the legs that were walked. */
fun Hand.afterwards(): Shown {
    val head = listOf(
        draft.said.firstOrNull()?.let { context.said(it, R.style.Text_Heading) },
        walkChart(),
        context.line(R.style.Text_Strong, context.getString(R.string.legs_walked)),
    )
    val rows = snapshot.legs.map { Row(context, null, context.getString(R.string.leg_row, "${it.number}", bearing(it), paces(it)), it.met.orEmpty(), null) }
    return Shown(head + rows, listOf(Step(context.getString(R.string.next_trip)) { go(draft.opened(Open.LINE)) }))
}

private fun bearing(leg: LegView) = degrees(String.format(Locale.ROOT, "%03.0f $MAG", leg.bearingDegMag))

private fun paces(leg: LegView) = String.format(Locale.ROOT, "%.0f", leg.doublePaces)

package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.Stage
import gatepost.field.R
import gatepost.field.chart.ChartView
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.reference
import gatepost.field.look.said

/** Where am I: the walk with its spread, the reckoned place, and how far it is home. */
fun Hand.whereAmI(): Shown {
    val said = ask { Record.Where(it) }
    val open = draft.count > 0 && snapshot.stage == Stage.ON_FOOT
    val since = context.getString(R.string.since_turn, "${draft.count}", degrees(draft.bearing))
    val place = snapshot.here?.let { context.reference(it.reference) }.orEmpty()
    val last = if (open) Row(context, null, context.getString(R.string.at_last_turn), since, null) else null
    return Shown(listOf(walkChart()) + place + said.map { context.said(it) } + last, listOf(Step(context.getString(R.string.walk_on)) { go(draft.shut()) }))
}

/** The chart of the walk, once there is one. */
fun Hand.walkChart() =
    if (snapshot.car == null) null else ChartView(context, R.dimen.chart_walk) { width, height, letters -> chart("walk", width, height, letters) }

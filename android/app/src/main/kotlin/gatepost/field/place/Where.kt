package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.Stage
import gatepost.bridge.bearingTold
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.chart.ChartView
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.becomePart
import gatepost.field.look.drawnAbove
import gatepost.field.look.reference
import gatepost.field.look.said

/** Where am I: the walk with its spread, the reckoned place, and how far it is home. */
fun Hand.whereAmI(): Shown {
    val said = ask { Record.Where(it) }.said
    val open = draft.count > 0 && snapshot.stage == Stage.ON_FOOT
    val since = listOf(label("label-paces-counted", "${draft.count}"), bearingTold(draft.bearing)).joinToString(", ")
    val place = snapshot.here?.let { context.reference(it.reference) }.orEmpty()
    val last = if (open) Row(context, null, label("label-since-turn"), since, null) else null
    return Shown(context.drawnAbove(listOf(walkChart()), place) + said.map { context.said(it) } + last + PhonePlaceRow(this), listOf(Step(label("label-walk-on")) { go(draft.shut()) }))
}

/** The chart of the walk, once there is one. */
fun Hand.walkChart() = if (snapshot.car == null) null else charted("walk", R.dimen.chart_walk)

/** A drawing of the core; a touch shows it on the whole screen. */
fun Hand.charted(of: String, high: Int) = ChartView(context, high) { width, height, letters -> chart(of, width, height, letters) }
    .apply { becomePart(label("label-chart-opens")) { showChart(of) } }

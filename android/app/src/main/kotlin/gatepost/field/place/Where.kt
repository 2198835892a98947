package gatepost.field.place

import android.view.View
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
import gatepost.field.look.hasLargeText
import gatepost.field.look.isShort
import gatepost.field.look.reference
import gatepost.field.look.said

/** Where am I: the walk with its spread, the reckoned place, and how far it is home. */
fun Hand.whereAmI(): Shown {
    val sentences = ask { Record.Where(it) }.said.map { context.said(it) }
    val place = snapshot.here?.let { context.reference(it.reference) }.orEmpty()
    // Where the drawing stands below, it stands below all that is told.
    val isBelow = context.hasLargeText() || context.isShort()
    val views = context.drawnAbove(listOf(walkChart()), place + if (isBelow) sentences else emptyList()) + if (isBelow) emptyList() else sentences
    return Shown(views + sinceTurn() + PhonePlaceRow(this), listOf(Step(label("label-walk-on")) { go(draft.shut()) }))
}

/** What is counted since the last turn, out or back: it is in no answer. */
private fun Hand.sinceTurn(): View? {
    val bearing = if (snapshot.stage == Stage.ON_FOOT) bearingTold(draft.bearing) else backLeg()?.bearingTold
    if (draft.count == 0 || bearing == null) return null
    return Row(context, null, label("label-since-turn"), listOf(label("label-paces-counted", "${draft.count}"), bearing).joinToString(", "), null)
}

/** The chart of the walk, once there is one. */
fun Hand.walkChart(high: Int = R.dimen.chart_walk) = if (snapshot.car == null) null else charted("walk", high)

/** A drawing of the core; a touch shows it on the whole screen. */
fun Hand.charted(of: String, high: Int) = ChartView(context, high) { width, height, letters -> chart(of, width, height, letters) }
    .apply { becomePart(label("label-chart-opens")) { showChart(of) }; opens = contentDescription.toString() }

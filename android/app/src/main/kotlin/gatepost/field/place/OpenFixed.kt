package gatepost.field.place

import android.view.View
import gatepost.bridge.OpenFixView
import gatepost.bridge.OpenSightingView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.look.Mark
import gatepost.field.look.Standing
import gatepost.field.look.drawnAbove
import gatepost.field.look.glance
import gatepost.field.look.line
import gatepost.field.look.reference
import gatepost.field.look.said

/** On no line, read: the place or the regions, what to mind, what fits. */
fun Hand.openFixed(): Shown {
    val fix = checkNotNull(snapshot.openFix)
    val misfit = fix.sightings.firstOrNull { it.what == "bearing" && it.standing() == Standing.MISFIT }
    val places = fix.places.map { it.told }
    val keeps = keeps(misfit?.of, places)
    val views = checked() + openAnswer(fix) + others(misfit?.of) + openFits(fix) + keeps + more() + rest(places.filter { keeps.isEmpty() } + fix.restTold)
    return Shown(views, listOf(nextStep(misfit?.of, places)))
}

/** The fix from another place: to be read only. */
fun Hand.openRead(fix: OpenFixView) = checked() + openAnswer(fix) + openFits(fix) + PhonePlaceRow(this)

/** The answer, and what to mind. A place is read off at a glance where there is one: a strip or a ring has no middle to stand at. */
private fun Hand.openAnswer(fix: OpenFixView): List<View> {
    val one = fix.places.singleOrNull()?.takeIf { fix.shape != REGIONS }
    val drawn = listOfNotNull(charted("fix", R.dimen.chart_fix).takeIf { chart("fix", 1.0, 1.0, 1.0) != null })
    val head = one?.let { context.reference(it.reference) } ?: listOf(context.glance(snapshot.strip.sure))
    // Of one place the sentences say enough here; its directions stand where it is kept, or below.
    val spread = if (fix.places.size < 2) emptyList() else fix.places.map { context.said(it.told) }
    return warned(fix.misfitTold) + context.drawnAbove(drawn, head) + told(fix.field, fix.misfitTold, one != null) + spread + minded(fix.cautions)
}

private fun Hand.openFits(fix: OpenFixView): List<View> {
    val rows = fix.sightings.mapIndexed { number, seen -> taken(number, seen.told, Mark(context, seen.standing())) }
    return listOf(context.line(R.style.Text_Strong, label("label-does-it-fit"))) + rows
}

private fun OpenSightingView.standing() = verdict?.let { standing(it) } ?: Standing.OPEN

/** The core's word for places that are no ellipse. */
private const val REGIONS = "regions"

package gatepost.field.place

import android.view.View
import gatepost.bridge.OpenFixView
import gatepost.bridge.OpenSightingView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Mark
import gatepost.field.look.Standing
import gatepost.field.look.answer
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
    val next = snapshot.sights.firstOrNull { !it.sighted && fix.shape == REGIONS }
    val primary = when {
        misfit != null -> Step(label("label-read-again", misfit.of)) { sight(misfit.of) }
        next != null -> Step(label("label-sight", next.landmark)) { sight(next.landmark) }
        else -> Step(label("label-here-stands-the-car")) { standAt(0) }
    }
    val keeps = if (misfit == null && next == null && places.size < 2) emptyList() else places.mapIndexed(::standsAt)
    return Shown(openAnswer(fix) + more(fix.restTold) + keeps, listOf(primary))
}

/** The answer, what to mind, what each sighting says. */
fun Hand.openAnswer(fix: OpenFixView): List<View> {
    val one = fix.places.singleOrNull()
    val drawn = listOfNotNull(charted("fix", R.dimen.chart_fix).takeIf { chart("fix", 1.0, 1.0, 1.0) != null })
    val sure = snapshot.strip.sure
    val head = one?.let { context.reference(it.reference) + context.said(sure, R.style.Text_Heading) } ?: listOf(context.glance(sure))
    val said = context.answer(fix.field, R.style.Text_Strong)
    val spread = fix.places.map { context.said(it.told) }
    val rows = fix.sightings.mapIndexed { number, seen -> taken(number, seen.told, Mark(context, seen.standing())) }
    return context.drawnAbove(drawn, head) + said + spread + fix.cautions.map { Caution(context, it) } + checked() + context.line(R.style.Text_Strong, label("label-does-it-fit")) + rows
}

private fun OpenSightingView.standing() = verdict?.let { standing(it) } ?: Standing.OPEN

/** The core's word for places that are no ellipse: not to be kept before another sighting. */
private const val REGIONS = "regions"

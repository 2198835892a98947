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
import gatepost.field.look.line

/** On no line, read: the place or the regions, what to mind, what fits. */
fun Hand.openFixed(): Shown {
    val fix = checkNotNull(snapshot.openFix)
    val comes = fix.comes()
    // The directions of the only place stand in its sentence.
    val views = checked() + openAnswer(fix) + others(comes) + openFits(fix) + keeps(comes) + more() + rest(comes.places.filter { comes.places.size < 2 } + fix.restTold)
    return Shown(views, listOf(nextStep(comes)))
}

/** The fix from another place: to be read only. */
fun Hand.openRead(fix: OpenFixView) = checked() + openAnswer(fix) + openFits(fix) + PhonePlaceRow(this)

/** The answer, and what to mind. A place is read off at a glance where there is one: a strip or a ring has no middle to stand at. */
private fun Hand.openAnswer(fix: OpenFixView): List<View> {
    val one = fix.places.singleOrNull()?.takeIf { fix.shape != REGIONS }
    val drawn = listOfNotNull(charted("fix", R.dimen.chart_fix).takeIf { chart("fix", 1.0, 1.0, 1.0) != null })
    return answered(fix.comes(), drawn, one?.reference)
}

private fun Hand.openFits(fix: OpenFixView): List<View> {
    val rows = fix.sightings.mapIndexed { number, seen -> taken(number, seen.told, Mark(context, seen.standing())) }
    return listOf(context.line(R.style.Text_Strong, label("label-does-it-fit"))) + rows
}

fun OpenSightingView.standing() = verdict?.let { standing(it) } ?: Standing.OPEN

/** The core's word for places that are no ellipse. */
private const val REGIONS = "regions"

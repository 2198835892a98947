package gatepost.field.place

import android.view.View
import gatepost.bridge.FixView
import gatepost.bridge.NextSightView
import gatepost.bridge.Record
import gatepost.bridge.SightingView
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Draft
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.button
import gatepost.field.look.glance
import gatepost.field.look.line
import gatepost.field.look.reference
import gatepost.field.look.said

/** Beside the line, read: the answer, its spread, what to sight next, what fits. */
fun Hand.fixed(): Shown {
    val fix = checkNotNull(snapshot.fix)
    val next = snapshot.nextSights.firstOrNull { it.landmark.isNotEmpty() }
    val misfit = fix.sightings.firstOrNull { standing(it.verdict) == Standing.MISFIT }
    val places = placesTold()
    val primary = when {
        misfit != null -> Step(label("label-read-again", misfit.landmark)) { sight(misfit.landmark) }
        next != null -> Step(label("label-sight", next.landmark)) { sight(next.landmark) }
        else -> Step(label("label-here-stands-the-car")) { stand(0) }
    }
    val keeps = if (misfit == null && next == null && places.size < 2) emptyList() else places.mapIndexed { number, place -> standsAt(number, place) }
    return Shown(answer(fix, places) + snapshot.nextSights.map(::nextSight) + fits(fix) + more() + keeps, listOf(primary))
}

/** The fix from another place: to be read only. */
fun Hand.fixRead(): List<View> = snapshot.fix?.let { fix -> answer(fix, placesTold()) + fits(fix) + PhonePlaceRow(this) }.orEmpty()

/** Each place of the fix in the core's words. */
private fun Hand.placesTold() = chart("fix", 1.0, 1.0, 1.0)?.targets.orEmpty().filter { it.isStretch }.map { it.spoken }

private fun Hand.answer(fix: FixView, places: List<String>): List<View> {
    val one = fix.places.singleOrNull()
    val drawn = charted("fix", R.dimen.chart_fix)
    val said = draft.said.firstOrNull()?.let { context.said(it, R.style.Text_Strong) }
    val spread = places.map { context.said(it, if (one != null) R.style.Text_Heading else R.style.Text_Body) }
    val head = one?.let { context.reference(it.reference) } ?: listOf(context.glance(snapshot.strip.sure))
    return listOf(drawn) + head + spread + listOfNotNull(said)
}

/** What to sight next, with what it is expected to leave. */
private fun Hand.nextSight(next: NextSightView): View {
    val title = if (next.landmark.isEmpty()) label("label-read-the-line") else label("label-sight-next", next.landmark)
    return Row(context, Mark(context, Standing.OPEN), title, next.told, if (next.landmark.isEmpty()) null else ({ sight(next.landmark) }))
}

private fun Hand.fits(fix: FixView): List<View> {
    val check = snapshot.check?.let { Row(context, Mark(context, standing(it.verdict)), label("label-checked"), word(it.verdict), null) }
    val rows = fix.sightings.map { Row(context, Mark(context, standing(it.verdict)), it.landmark, fit(it), again(it.landmark)) }
    return listOf(context.line(R.style.Text_Strong, label("label-does-it-fit"))) + rows + listOfNotNull(check)
}

/** A touch reads it again, beside the line. */
private fun Hand.again(landmark: String): (() -> Unit)? = if (snapshot.stage == Stage.BESIDE_THE_LINE) ({ sight(landmark) }) else null

/** The verdict in a word, and the reading in the core's words. */
private fun Hand.fit(one: SightingView) = "${word(one.verdict)}, ${told(one.landmark)}"

private fun Hand.told(landmark: String) = snapshot.sights.firstOrNull { it.landmark == landmark }?.told.orEmpty()

private fun Hand.more(): List<View> {
    val check = context.button(R.style.Outlined, label("label-check-it")) { go(draft.opened(Open.CHECK)) }
    val others = sights()
    val rest = draft.said.drop(1).map { context.said(it) }
    val title = context.line(R.style.Text_Strong, label("label-what-do-you-see")).takeIf { others.isNotEmpty() }
    return listOfNotNull(title) + others + check + PhonePlaceRow(this) + rest
}

private fun Hand.standsAt(number: Int, place: String) =
    Row(context, null, label("label-here-stands-the-car"), place) { stand(number) }

private fun Hand.stand(number: Int) {
    tell(Draft(line = draft.line, readings = draft.readings, compass = draft.compass, inMils = draft.inMils)) { Record.Keep(it, (number + 1).toUInt(), null) }
}

fun standing(verdict: String) = when (verdict) {
    "fits", "clean" -> Standing.FITS
    "doubtful" -> Standing.DOUBTFUL
    else -> Standing.MISFIT
}

private fun Hand.word(verdict: String) = label(
    when (standing(verdict)) {
        Standing.FITS -> "label-fits"
        Standing.DOUBTFUL -> "label-doubtful"
        else -> "label-misfit"
    },
)

package gatepost.field.place

import android.view.View
import gatepost.bridge.NextSightView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.answer
import gatepost.field.look.said

/** What does not fit stands before all else: the place may be wrong by it. */
fun Hand.warned(misfit: String?): List<View> = listOfNotNull(misfit?.let { Caution(context, it) })

/** The sentences for the field but that one; of one place the first is the answer, of several the glance above is. */
fun Hand.told(field: List<String>, misfit: String?, isOne: Boolean): List<View> =
    context.answer(field.filter { it != misfit }, if (isOne) R.style.Text_Heading else R.style.Text_Strong)

/** What is to be minded with a fix, under one mark. */
fun Hand.minded(cautions: List<String>): List<View> = listOf(Caution(context, cautions.joinToString("\n\n"))).filter { cautions.isNotEmpty() }

/** The next thing to do, as the sentences name it: read again what does not fit, else what helps most, else keep the place. */
fun Hand.nextStep(misfit: String?, places: List<String>): Step {
    val next = snapshot.nextSights.firstOrNull()
    return when {
        misfit != null -> Step(label("label-read-again", misfit)) { sight(misfit) }
        next != null -> Step(if (next.landmark.isEmpty()) label("label-read-the-line") else label("label-sight", next.landmark)) { take(next) }
        places.size > 1 -> Step(label("label-more-sightings")) { go(draft.opened(Open.MORE)) }
        else -> Step(label("label-here-stands-the-car")) { standAt(0) }
    }
}

/** What else to sight next, with what it is expected to leave; the best of them where the foot has something else. */
fun Hand.others(misfit: String?): List<View> = snapshot.nextSights.drop(if (misfit == null) 1 else 0).map { next ->
    val title = if (next.landmark.isEmpty()) label("label-read-the-line") else label("label-sight-next", next.landmark)
    Row(context, Mark(context, Standing.OPEN), title, next.told) { take(next) }
}

private fun Hand.take(next: NextSightView) = if (next.landmark.isEmpty()) go(draft.asking(What.LINE_RUN)) else sight(next.landmark)

/** The places to be kept, where the foot does not keep the only one. */
fun Hand.keeps(misfit: String?, places: List<String>): List<View> {
    val isInFoot = misfit == null && snapshot.nextSights.isEmpty() && places.size < 2
    return if (isInFoot) emptyList() else places.mapIndexed { number, place -> Row(context, null, label("label-here-stands-the-car"), place) { standAt(number) } }
}

/** The rest of what the core says of a fix: figures, and how far to trust it. */
fun Hand.rest(told: List<String>): List<View> = told.map { context.said(it, R.style.Text_Label) }

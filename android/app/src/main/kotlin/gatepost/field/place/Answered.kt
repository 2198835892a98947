package gatepost.field.place

import android.view.View
import gatepost.bridge.AccountView
import gatepost.bridge.FixView
import gatepost.bridge.NextSightView
import gatepost.bridge.OpenFixView
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Note
import gatepost.field.book.Open
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.button
import gatepost.field.look.drawnAbove
import gatepost.field.look.line
import gatepost.field.look.reference
import gatepost.field.look.said

/** What a fix on a line, or one in the open, comes to; [again] is what does not fit and is to be read again. */
class Comes(
    val field: List<String>, val where: String, val misfit: String?, val mindedFirst: List<String>, val cautions: List<String>, val places: List<String>, val again: Note?,
)

fun FixView.comes() =
    Comes(field, whereTold, misfitTold, mindedFirst, cautions, places.map { it.told }, again())

/** The first reading to a landmark that does not fit, alone or of a running fix, else the bearing along the line. */
private fun FixView.again(): Note? {
    val toLandmarks = accounts.filter { it.what == "bearing" || it.what == "running" }.zip(sightings)
    val (misfit, reading) = toLandmarks.firstOrNull { (account, _) -> account.isMisfit() } ?: return Note(What.LINE_RUN).takeIf { accounts.any { it.what == "line-run" && it.isMisfit() } }
    return Note(if (misfit.what == "running") What.RUNNING else What.BEARING, reading.landmark)
}

private fun AccountView.isMisfit() = verdict?.let(::standing) == Standing.MISFIT

fun OpenFixView.comes() =
    Comes(field, whereTold, misfitTold, mindedFirst, cautions, places.map { it.told }, sightings.firstOrNull { it.what == "bearing" && it.standing() == Standing.MISFIT }?.let { Note(What.BEARING, it.of) })

private fun Hand.comes() = snapshot.fix?.comes() ?: snapshot.openFix?.comes()

/**
 * The answer with its drawing. What does not fit stands before all else, as the place may be wrong by it. One place is read off as its
 * [reference]; of several the sentence tells how many, and each has a row.
 */
fun Hand.answered(fix: Comes, drawn: List<View>, reference: String?): List<View> {
    val minded = minded(fix)
    val where = context.said(fix.where, R.style.Text_Heading)
    val rows = if (fix.places.size < 2) emptyList() else fix.places.map { Row.ofSentence(context, null, it, "", null) }
    val head = if (reference == null) context.drawnAbove(drawn, listOf(where)) else context.drawnAbove(drawn, context.reference(reference)) + where
    val answer = head + rows + fix.field.filter { it != fix.where && it != fix.misfit }.map { context.said(it) }
    return if (fix.misfit == null) answer + minded else minded + answer
}

/** What is to be minded first, under one mark; a touch shows the rest. */
private fun Hand.minded(fix: Comes): List<View> {
    val caution = Caution(context, fix.mindedFirst.joinToString("\n"))
    if (!fix.mindedFirst.containsAll(fix.cautions)) caution.leadsOn(label("label-more-on-this")) { go(draft.opened(Open.MIND)) }
    return listOf(caution).filter { fix.mindedFirst.isNotEmpty() }
}

/** All that is to be minded with the fix. */
fun Hand.allMinded(): Shown {
    val fix = comes()
    val first = fix?.misfit?.let { Caution(context, it) }
    val again = fix?.again?.takeIf { snapshot.stage == Stage.BESIDE_THE_LINE }?.let(::readAgain)
    return Shown(listOf(first) + fix?.cautions.orEmpty().map { context.said(it) }, listOfNotNull(again))
}

/** The next thing to do, as the sentences name it: read again what does not fit, else what helps most, else keep the place. */
fun Hand.nextStep(fix: Comes): Step {
    val next = snapshot.nextSights.firstOrNull()
    return when {
        fix.again != null -> readAgain(fix.again)
        next != null -> Step(if (next.landmark.isEmpty()) label("label-read-the-line") else label("label-sight", next.landmark)) { take(next) }
        fix.places.size > 1 -> Step(label("label-more-sightings")) { go(draft.opened(Open.MORE)) }
        else -> Step(label("label-here-stands-the-car")) { standAt(0) }
    }
}

private fun Hand.readAgain(misfit: Note): Step = when (misfit.what) {
    What.LINE_RUN -> Step(label("label-read-the-line-again")) { go(draft.asking(What.LINE_RUN)) }
    What.RUNNING -> Step(label("label-read-again", misfit.said.first())) { go(draft.asking(What.RUNNING)) }
    else -> Step(label("label-read-again", misfit.said.first())) { sight(misfit.said.first()) }
}

/** What else to sight next, with what it is expected to leave; the best of them where the foot has something else. */
fun Hand.others(fix: Comes): List<View> = snapshot.nextSights.drop(if (fix.again == null) 1 else 0).map { next ->
    val title = if (next.landmark.isEmpty()) label("label-read-the-line") else label("label-sight-next", next.landmark)
    Row(context, Mark(context, Standing.OPEN), title, next.told) { take(next) }
}

private fun Hand.take(next: NextSightView) = if (next.landmark.isEmpty()) go(draft.asking(What.LINE_RUN)) else sight(next.landmark)

/** A place to be kept, where the foot does not keep the only one; which of several is asked. */
fun Hand.keeps(fix: Comes): List<View> {
    val isOne = fix.places.size < 2
    val isInFoot = fix.again == null && snapshot.nextSights.isEmpty() && isOne
    val keep = context.button(R.style.Outlined, label("label-here-stands-the-car")) { if (isOne) standAt(0) else go(draft.opened(Open.KEEP)) }
    return listOf(keep).filter { fix.places.isNotEmpty() && !isInFoot }
}

/** Which of the places is to be kept. */
fun Hand.placesToKeep(): Shown {
    val fix = comes()
    val rows = fix?.places.orEmpty().mapIndexed { number, place -> Row.ofSentence(context, null, place, "") { standAt(number) } }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-keep-which"))) + fix?.let { minded(it) }.orEmpty() + rows, emptyList())
}

/** The rest of what the core says of a fix: figures, and how far to trust it. */
fun Hand.rest(told: List<String>): List<View> = told.map { context.said(it, R.style.Text_Label) }

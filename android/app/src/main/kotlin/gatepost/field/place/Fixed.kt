package gatepost.field.place

import android.view.View
import gatepost.bridge.FixView
import gatepost.bridge.Record
import gatepost.bridge.SightingView
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Draft
import gatepost.field.book.Note
import gatepost.field.book.Open
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.button
import gatepost.field.look.line
import gatepost.field.look.said

/** Beside the line, read: the answer, its spread, what to sight next, what fits. */
fun Hand.fixed(): Shown {
    val fix = checkNotNull(snapshot.fix)
    val comes = fix.comes()
    val views = checked() + answer(fix) + others(comes) + fits(fix) + keeps(comes) + more() + accounts(fix) + rest(fix.restTold)
    return Shown(views, listOf(nextStep(comes)))
}

/** The fix from another place: to be read only. */
fun Hand.fixRead(): List<View> {
    snapshot.fix?.let { return checked() + answer(it) + fits(it) + accounts(it) + PhonePlaceRow(this) }
    return snapshot.openFix?.let { openRead(it) }.orEmpty()
}

private fun Hand.answer(fix: FixView): List<View> =
    answered(fix.comes(), listOf(charted("fix", R.dimen.chart_fix)), fix.places.singleOrNull()?.reference) + lineShares(fix)

/** Which of several lines it is. */
private fun Hand.lineShares(fix: FixView): List<View> =
    if (fix.lines.size < 2) emptyList()
    else listOf(context.line(R.style.Text_Strong, label("label-which-line"))) + fix.lines.map { Row(context, null, it.name, it.told, null) }

private fun Hand.fits(fix: FixView): List<View> {
    val rows = fix.sightings.map { Row(context, Mark(context, standing(it.verdict)), it.landmark, fit(it), again(it.landmark)) }
    return listOf(context.line(R.style.Text_Strong, label("label-does-it-fit"))).filter { rows.isNotEmpty() } + rows
}

/** What was held against the fix, and what would explain why it does not fit. One that fits is weighed in from here. */
fun Hand.checked(): List<View> {
    val check = snapshot.check ?: return emptyList()
    val row = Row(context, Mark(context, standing(check.verdict)), label("label-checked"), check.told, null)
    return listOf(row) + check.slips.map { context.said(it.told) } + listOfNotNull(weighChecked().takeIf { standing(check.verdict) != Standing.MISFIT })
}

/** The place that was held against the fix, to be weighed in. */
private fun Hand.weighChecked(): View? {
    val one = snapshot.check?.let(draft::checked)?.takeIf { snapshot.stage == Stage.BESIDE_THE_LINE } ?: return null
    return context.button(R.style.Outlined, label("label-weigh-it-in")) { weighIn(Note(What.WITNESS, one.place, one.spreadM)) }
}

/** What each sighting gave, with the odds of what it was of. A touch takes it back; the last one alone is undone. */
private fun Hand.accounts(fix: FixView): List<View> {
    val title = context.line(R.style.Text_Strong, label("label-weighed-so-far"))
    return listOf(title) + fix.accounts.flatMapIndexed { number, one ->
        val odds = one.identity.map { Row(context, null, it.landmark, it.told, null) }
        listOf(taken(number, one.told)) + if (odds.size > 1) odds else emptyList()
    }
}

/** One sighting of the fix in the core's words; a touch takes it back as long as another is left. */
fun Hand.taken(number: Int, told: String, mark: Mark? = null): View {
    val notes = notes()
    val mayGo = snapshot.stage == Stage.BESIDE_THE_LINE && notes.size > 1 && number < notes.size
    return Row.ofSentence(context, mark, told, if (mayGo) label("label-strike") else "", if (mayGo) ({ weigh(notes.filterIndexed { at, _ -> at != number }) }) else null)
}

/** A touch reads it again, beside the line. */
private fun Hand.again(landmark: String): (() -> Unit)? = if (snapshot.stage == Stage.BESIDE_THE_LINE) ({ sight(landmark) }) else null

/** The verdict in a word, and the reading in the core's words. */
private fun Hand.fit(one: SightingView) = "${word(one.verdict)}, ${one.bearingTold}"

/** What else can be told, and how the fix is checked; a place that does not fit is weighed in from here, after it could be typed anew. */
fun Hand.more(): List<View> {
    val check = context.button(R.style.Outlined, label("label-check-it")) { go(draft.opened(Open.CHECK)) }
    val others = sights()
    val title = context.line(R.style.Text_Strong, label("label-what-do-you-see")).takeIf { others.isNotEmpty() }
    return (listOf(title) + others + moreButton() + check + weighMisfit() + PhonePlaceRow(this) + changeLine() + GroundNearRows(this)).filterNotNull()
}

private fun Hand.weighMisfit() = weighChecked().takeIf { snapshot.check?.verdict?.let(::standing) == Standing.MISFIT }

fun Hand.standAt(number: Int) {
    val kept = Draft(line = draft.line, lines = draft.lines, onNoLine = draft.onNoLine, takes = draft.takes, compass = draft.compass, own = draft.own, inMils = draft.inMils)
    tell(kept) { Record.Keep(it, (number + 1).toUInt(), null) }
}

fun standing(verdict: String) = when (verdict) {
    "fits", "clean" -> Standing.FITS
    "doubtful" -> Standing.DOUBTFUL
    else -> Standing.MISFIT
}

fun Hand.word(verdict: String) = label(
    when (standing(verdict)) {
        Standing.FITS -> "label-fits"
        Standing.DOUBTFUL -> "label-doubtful"
        else -> "label-misfit"
    },
)

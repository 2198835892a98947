package gatepost.field.place

import android.view.View
import gatepost.bridge.Answer
import gatepost.bridge.KnownPointView
import gatepost.bridge.LineView
import gatepost.bridge.PointsRecord
import gatepost.bridge.Record
import gatepost.bridge.SightView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Told
import gatepost.field.hand.Hand
import gatepost.field.look.button
import gatepost.field.look.said
import gatepost.field.look.searchField

/** Of a large sheet what is listed, or what has the typed part in its name; how much [left] out is, and what is [said] of a name. */
class Found<T>(val listed: List<T>, val left: UInt, val said: List<String>)

/** The landmarks that are listed. */
fun Hand.landmarksFound(): Found<SightView> {
    val named = named(snapshot.sightsLeft) { Record.Sights(it) }
    return Found(named?.let { (it.answer as? Answer.Sights)?.sights.orEmpty() } ?: snapshot.sights, snapshot.sightsLeft, named.first())
}

/** The lines that are listed. */
fun Hand.linesFound(): Found<LineView> {
    val left = snapshot.sheet?.linesLeft ?: 0u
    val named = named(left) { Record.Lines(it) }
    return Found(named?.let { (it.answer as? Answer.Lines)?.lines.orEmpty() } ?: snapshot.sheet?.lines.orEmpty(), left, named.first())
}

/** The known points that are listed, of these lines or of all; with [from] the others of the lines that it lies on. Each name once. */
fun Hand.pointsFound(lines: List<String>, from: String? = null): Found<KnownPointView> {
    val asked = { part: String -> Record.Points(PointsRecord(part, lines, from)) }
    val all = ask { asked("") }.answer as? Answer.Points
    val left = all?.left ?: 0u
    val named = named(left, asked)
    val points = if (named == null) all else named.answer as? Answer.Points
    return Found(points?.points.orEmpty().distinctBy { it.name }, left, named.first())
}

/** The way to what is not listed. */
fun Hand.byName(found: Found<*>): List<View> {
    if (found.left == 0u) return emptyList()
    val part = context.searchField(label("label-part-of-name", "${found.left}"), draft.words, { go(draft) }) { keep(draft.copy(words = it)) }
    return found.said.map(context::said) + part + context.button(R.style.Outlined, label("label-look-it-up")) { go(draft) }
}

private fun Told?.first() = listOfNotNull(this?.said?.first())

private fun Hand.named(left: UInt, asked: (String) -> Record): Told? = draft.words.takeIf { it.isNotBlank() && left > 0u }?.let { part -> ask { asked(part) } }

package gatepost.field.place

import android.view.View
import gatepost.bridge.Answer
import gatepost.bridge.LineView
import gatepost.bridge.Record
import gatepost.bridge.SightView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Told
import gatepost.field.hand.Hand
import gatepost.field.look.button
import gatepost.field.look.field
import gatepost.field.look.said

/** Of a large sheet what is listed, or what has the typed part in its name; how much [left] out is, and what is [said] of a name. */
class Found<T>(val listed: List<T>, val left: UInt, val said: String?)

/** The landmarks that are listed. */
fun Hand.landmarksFound(): Found<SightView> {
    val named = named(snapshot.sightsLeft) { Record.Sights(it) }
    return Found(named?.let { (it.answer as? Answer.Sights)?.sights.orEmpty() } ?: snapshot.sights, snapshot.sightsLeft, named?.said?.first())
}

/** The lines that are listed. */
fun Hand.linesFound(): Found<LineView> {
    val left = snapshot.sheet?.linesLeft ?: 0u
    val named = named(left) { Record.Lines(it) }
    return Found(named?.let { (it.answer as? Answer.Lines)?.lines.orEmpty() } ?: snapshot.sheet?.lines.orEmpty(), left, named?.said?.first())
}

/** The way to what is not listed. */
fun Hand.byName(found: Found<*>): List<View> {
    if (found.left == 0u) return emptyList()
    val part = context.field(label("label-part-of-name", "${found.left}"), draft.words, 1) { keep(draft.copy(words = it)) }
    return listOfNotNull(found.said?.let(context::said), part, context.button(R.style.Outlined, label("label-look-it-up")) { go(draft) })
}

private fun Hand.named(left: UInt, asked: (String) -> Record): Told? = draft.words.takeIf { it.isNotBlank() && left > 0u }?.let { part -> ask { asked(part) } }

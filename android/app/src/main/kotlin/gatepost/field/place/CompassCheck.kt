package gatepost.field.place

import android.view.View
import gatepost.bridge.CompassReadingRecord
import gatepost.bridge.CompassRecord
import gatepost.bridge.Record
import gatepost.bridge.bearingTold
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.book.Trial
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.button
import gatepost.field.look.said

/** The walker's compass: what is known of it, the readings of a check, and what they say together. */
fun Hand.compassChecked(): List<View> {
    val begin = Row(context, null, label("label-check-compass"), snapshot.compass.orEmpty()) { go(draft.opened(Open.READ)) }
    val trials = draft.trials
    if (trials.isEmpty()) return listOf(begin)
    val rows = trials.map { trial -> Row(context, null, "${bearingTold(trial.read)}, ${bearingTold(trial.known)}", label("label-strike")) { go(draft.copy(trials = trials - trial)) } }
    val keep = context.button(R.style.Outlined, label("label-keep-compass")) { tell(draft.copy(trials = emptyList())) { check(it, trials, true) } }
    return listOf(begin, readWith()) + rows + ask { check(it, trials, null) }.said.map { context.said(it) } + keep
}

/** First what the compass says to a point; it counts from magnetic north, and the core says whether it can be read. */
fun Hand.compassRead(): Shown {
    val note = Step(label("label-note-it")) {
        val read = paddedBearing()
        tell(draft.opened(Open.KNOWN).copy(words = read, onGrid = true)) { asRead(read) }
    }
    return Shown(listOf(Pad(this, label("label-compass-reads"), Asks.READ)), listOf(note))
}

/** Then the bearing that the map has for it. A reading that is left without it is worth nothing and goes. */
fun Hand.compassKnown(): Shown {
    val note = Step(label("label-note-it")) {
        val trials = draft.trials + Trial(draft.words, paddedBearing())
        tell(draft.left().copy(trials = trials)) { check(it, trials, null) }
    }
    return Shown(listOf(Pad(this, label("label-compass-known"), Asks.KNOWN)), listOf(note))
}

/** Kept, the error found is taken off what is read with this instrument from now on. */
private fun Hand.check(at: String, trials: List<Trial>, keep: Boolean?): Record {
    val readings = trials.map { CompassReadingRecord(null, it.read, it.known, null, null, null, null, null) }
    return Record.Compass(CompassRecord(at, null, draft.compass.word, null, readings, emptyList(), keep, null))
}

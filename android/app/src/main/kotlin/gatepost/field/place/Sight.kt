package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.SightingRecord
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Reading
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Standing
import gatepost.field.look.field
import gatepost.field.look.line

/** The pad for the bearing to a landmark. */
fun Hand.sightPad(): Shown {
    val pad = Pad(this, label("label-bearing-to", draft.landmark), Asks.SIGHT)
    return Shown(listOf(pad), listOf(Step(label("label-weigh-in"), ::weighIn)))
}

/** The readings of this fix and the new one. A reading that does not fit gives way to the one that is read again. */
private fun Hand.weighIn() {
    val misfits = snapshot.fix?.sightings.orEmpty().filter { standing(it.verdict) == Standing.MISFIT }.map { it.landmark }
    val again = draft.landmark.takeIf { it in misfits }
    val all = readings().filter { it.landmark != again } + Reading(draft.landmark, typedBearing())
    val sightings = all.map { SightingRecord.Bearing(it.landmark, null, null, null, it.bearing, null) }
    tell(draft.shut().copy(readings = all)) { Record.Fix(it, lineStoodOn(), null, null, null, draft.compass.word, sightings) }
}

/** As they were typed; where that is not known any more, as the core has them. */
private fun Hand.readings(): List<Reading> {
    val taken = snapshot.fix?.sightings.orEmpty()
    val typed = draft.readings.take(taken.size)
    if (typed.map { it.landmark } == taken.map { it.landmark }) return typed
    return taken.map { Reading(it.landmark, "${it.bearingDegMag} $MAG") }
}

/** *Check it*: a grid reference read off the map, or told by a receiver. */
fun Hand.checkTyped(): Shown {
    val typed = context.field(label("label-check-field"), draft.words, 1) { keep(draft.copy(words = it)) }
    val hold = Step(label("label-hold-against")) { tell(draft.shut()) { Record.Check(it, draft.words, null) } }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-check-it")), typed), listOf(hold))
}

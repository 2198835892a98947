package gatepost.field.place

import gatepost.bridge.DetourRecord
import gatepost.bridge.LegRecord
import gatepost.bridge.Record
import gatepost.field.R
import gatepost.field.book.Draft
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.field
import gatepost.field.look.line

const val LEFT = "left"
const val RIGHT = "right"
private const val DOUBLE = "double"

/** The leg as it is walked so far, for the core. */
fun Hand.leg(at: String): LegRecord {
    val out = draft.out.toDoubleOrNull()?.let { DetourRecord(draft.side, it, DOUBLE, null) }
    return LegRecord(at, draft.bearing, draft.count.toDouble(), DOUBLE, null, out, draft.met.ifEmpty { null })
}

/** The pad for the bearing that is walked next. Without a pace on this leg only its bearing is set anew. */
fun Hand.turnPad(): Shown {
    val pad = Pad(this, context.getString(R.string.which_bearing), isBearing = true, isWalking = true)
    val walk = Step(context.getString(R.string.walk_it)) {
        val next = draft.shut().copy(bearing = padded(typedBearing()))
        if (draft.count == 0) setBearing(next) else closeLeg(next)
    }
    return Shown(listOf(pad), listOf(walk))
}

/** The core is asked whether it can read the bearing, before a leg is walked on it. */
private fun Hand.setBearing(next: Draft) {
    tell(next) { Record.Turn(next.bearing, MAG, 0.0, 0.0) }
}

/** Three figures: "52 mag" is walked as 052. */
private fun padded(bearing: String) = bearing.substringBefore(' ').let { if (it.isEmpty()) bearing else bearing.padStart(bearing.length - it.length + 3, '0') }

/** *Met*: a word for what stands where this leg ends. */
fun Hand.metTyped(): Shown {
    val words = context.field(context.getString(R.string.met_field), draft.words, 1) { keep(draft.copy(words = it)) }
    val note = Step(context.getString(R.string.note_it)) { go(draft.shut().copy(met = draft.words.trim())) }
    return Shown(listOf(context.line(R.style.Text_Heading, context.getString(R.string.what_was_met)), words), listOf(note))
}

/** *Detour*: to which side, and how far out. */
fun Hand.detourPad(): Shown {
    val pad = Pad(this, context.getString(R.string.how_far_out), isBearing = false, isWalking = true)
    val sides = listOf(LEFT to R.string.left, RIGHT to R.string.right)
    return Shown(listOf(pad), sides.map { (side, label) -> Step(context.getString(label)) { go(draft.shut().copy(side = side, out = draft.typed)) } })
}

package gatepost.field.place

import gatepost.bridge.DetourRecord
import gatepost.bridge.LegRecord
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Draft
import gatepost.field.book.Open
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
    val pad = Pad(this, label("label-which-bearing"), Asks.TURN)
    val walk = Step(label("label-walk-it")) {
        val next = draft.shut().copy(bearing = paddedBearing())
        if (draft.count == 0) setBearing(next) else closeLeg(next)
    }
    return Shown(listOf(pad), listOf(walk), isTall = draft.open == Open.TURN)
}

/** The core is asked whether it can read the bearing, before a leg is walked on it. */
private fun Hand.setBearing(next: Draft) {
    tell(next) { asRead(next.bearing) }
}

/** *Met*: a word for what stands where this leg ends. */
fun Hand.metTyped(): Shown {
    val words = context.field(label("label-met-field"), draft.words, 1) { keep(draft.copy(words = it)) }
    val note = Step(label("label-note-it")) { go(draft.shut().copy(met = draft.words.trim())) }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-what-was-met")), words), listOf(note))
}

/** *Detour*: to which side, and how far out. */
fun Hand.detourPad(): Shown {
    val pad = Pad(this, label("label-how-far-out"), Asks.DETOUR)
    val sides = listOf(LEFT to "label-left", RIGHT to "label-right")
    return Shown(listOf(pad), sides.map { (side, name) -> Step(label(name)) { go(draft.shut().copy(side = side, out = draft.typed)) } }, isTall = true)
}

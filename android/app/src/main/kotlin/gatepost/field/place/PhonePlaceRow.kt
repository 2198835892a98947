package gatepost.field.place

import gatepost.bridge.Answer
import gatepost.bridge.Record
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.button
import gatepost.field.look.px
import gatepost.field.phone.Reach
import java.time.OffsetDateTime
import java.time.ZoneOffset

/** The phone's own place beside the fix, with its spread and age; it can be held against the fix, never put in its stead. */
class PhonePlaceRow(hand: Hand) : Witnessing(hand, hand.phone.place) {
    private val place get() = hand.phone.place
    private val row = Row(context, Mark(context, Standing.OPEN), label("label-phone-place"), "") { touched() }
    private val hold = context.button(R.style.Outlined, label("label-hold-against")) { told()?.let(::holdAgainst) }
    private val type = context.button(R.style.Outlined, label("label-check-field")) { hand.go(hand.draft.opened(Open.CHECK)) }
    private val mayHold get() = hand.snapshot.stage == Stage.BESIDE_THE_LINE && (hand.snapshot.fix ?: hand.snapshot.openFix) != null
    private var shown: Answer.Witness? = null

    init {
        // Asked while walking too, where a target is greater.
        row.minimumHeight = context.px(R.dimen.target_walking)
        add(row, type, hold)
        show()
    }

    override fun show() {
        val said = if (place.reach == Reach.TOLD) asked() else emptyList()
        row.show(if (said.isEmpty()) lacking() else said.joinToString(" "), standing(), told()?.stale ?: false)
        type.visibility = if (mayHold && isLacking) VISIBLE else GONE
        hold.visibility = if (mayHold && told() != null) VISIBLE else GONE
    }

    private fun told() = shown.takeIf { place.reach == Reach.TOLD }

    private fun standing() = told()?.run { if (stale) Standing.MISFIT else verdict?.let(::standing) } ?: Standing.OPEN

    private fun lacking() = when (place.reach) {
        Reach.UNASKED -> label("label-phone-place-ask")
        Reach.REFUSED -> label("label-phone-place-refused")
        Reach.NONE -> label("label-phone-place-none")
        Reach.WAITING, Reach.TOLD -> label("label-phone-place-waits")
    }

    private fun asked(): List<String> {
        val seen = place.seen ?: return emptyList()
        val at = OffsetDateTime.ofInstant(seen.at, ZoneOffset.UTC).toString()
        val told = hand.ask { Record.Witness(it, seen.latDeg, seen.lonDeg, seen.accuracyM, at) }
        shown = told.answer as? Answer.Witness
        return told.said
    }

    /** Where the phone cannot tell, a place is typed. */
    private val isLacking get() = place.reach == Reach.REFUSED || place.reach == Reach.NONE

    /** Leave that was refused may be given by now: a touch asks again. */
    private fun touched() = place.ask()

    private fun holdAgainst(told: Answer.Witness) {
        hand.hold(told.place, told.spreadM)
    }
}

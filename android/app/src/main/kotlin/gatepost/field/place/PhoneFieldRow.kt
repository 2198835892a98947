package gatepost.field.place

import android.view.View
import gatepost.bridge.Answer
import gatepost.bridge.Record
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Told
import gatepost.field.hand.Hand
import gatepost.field.look.Caution
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.line
import gatepost.field.phone.PhoneField
import gatepost.field.phone.Reach

/** Whether metal or a current is near, by the phone's own magnetic field. */
class PhoneFieldRow(hand: Hand) : Witnessing(hand, hand.phone.field) {
    private val row = Row(context, Mark(context, Standing.OPEN), label("label-phone-field"), "") { hand.phone.field.ask() }

    init {
        add(row)
        show()
    }

    override fun show() {
        val told = hand.felt()
        val verdict = (told?.answer as? Answer.Attraction)?.verdict
        row.show(told?.said?.joinToString(" ") ?: hand.phone.field.lacking(), if (verdict == null) Standing.OPEN else standing(verdict))
    }
}

/** The caution above all else where the phone feels metal or a current; nothing where it does not. */
class MetalCaution(hand: Hand) : Witnessing(hand, hand.phone.field) {
    private val caution = Caution(context, "")

    init {
        add(caution)
        show()
    }

    override fun show() {
        caution.warn(hand.felt())
        visibility = caution.visibility
    }
}

/** On the pad: what the phone's compass says, or the caution in its place where it is led astray. [pointed] is given the figures to be typed, if any. */
class PhoneHeading(hand: Hand, private val pointed: (String?) -> Unit) : Witnessing(hand, hand.phone.field) {
    private val said = context.line(R.style.Text_Body)
    private val caution = Caution(context, "")

    init {
        add(caution, said)
        show()
    }

    override fun show() {
        val isWanted = hand.phone.field.reach != Reach.UNASKED
        visibility = if (isWanted) VISIBLE else GONE
        if (!isWanted) return
        val told = hand.felt()
        val answer = told?.answer as? Answer.Attraction
        caution.warn(told)
        val isAstray = caution.visibility == VISIBLE
        said.visibility = if (isAstray) GONE else VISIBLE
        said.text = answer?.headingTold?.let { label("label-phone-says", it) } ?: told?.said?.firstOrNull().takeIf { told?.refused == true } ?: hand.phone.field.lacking()
        // Where the field does not fit the spread is not known, and a heading without one is not to be taken.
        pointed(answer?.headingFigures.takeIf { !isAstray && answer?.verdict == CLEAN })
    }
}

/** The core's word on what was felt last. */
private fun Hand.felt(): Told? = phone.field.felt?.takeIf { phone.field.reach == Reach.TOLD }?.let { felt -> ask { Record.Attraction(it, null, felt.fieldUt, felt.up, null) } }

private fun PhoneField.lacking() = when (reach) {
    Reach.UNASKED, Reach.REFUSED -> ""
    Reach.NONE -> label("label-phone-field-none")
    Reach.WAITING, Reach.TOLD -> label("label-phone-field-waits")
}

private fun Caution.warn(told: Told?) {
    val next = (told?.answer as? Answer.Attraction)?.cautionTold
    visibility = if (next != null) View.VISIBLE else View.GONE
    if (next != null) text = next
}

/** The core's word for a field that fits the model's. */
private const val CLEAN = "clean"

package gatepost.field.place

import android.text.SpannableString
import android.text.Spanned
import android.text.style.AbsoluteSizeSpan
import android.util.TypedValue
import android.view.Gravity
import android.view.View
import android.widget.Button
import android.widget.LinearLayout
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Compass
import gatepost.field.book.Draft
import gatepost.field.hand.Hand
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.grow
import gatepost.field.look.line
import gatepost.field.look.px

/** What a pad asks for. While walking its keys are larger. */
enum class Asks(val isBearing: Boolean, val isWalking: Boolean, val unit: String = "label-double-paces", val most: Int = 3) {
    SIGHT(true, false), TURN(true, true), READ(true, false), KNOWN(true, false), DETOUR(false, true), COUNT(false, false),
    METRES(false, false, "label-metres", 5), DEGREES(false, false, "label-degrees"), HOURS(false, false, "label-hours", 2)
}

/** Big keys for a bearing or a count. Every key is kept by the core at once, so that it is there again after a kill. Where a figure [isNeeded] the first one brings the step. */
class Pad(private val hand: Hand, title: CharSequence, private val asks: Asks, private val isNeeded: Boolean = false) : LinearLayout(hand.context) {
    private val figures = context.line(R.style.Text_Heading).apply { grow(R.dimen.typed, R.dimen.typed_at_200); includeFontPadding = false }
    private val north = key("label-grid-north") { turn(hand.draft.copy(onGrid = !hand.draft.onGrid)) }
    private val unit = key("label-in-mils") { turn(hand.draft.copy(inMils = !hand.draft.inMils, typed = "")) }
    private var pointed: String? = null
    private val flat = key("label-phone-flat") { pointed?.let(::taken) ?: hand.phone.field.ask() }
    private val heading = if (asks == Asks.SIGHT) PhoneHeading(hand, ::points) else null
    private val keys = PadKeys(
        figures = (0..9).map { figure -> key("$figure") { figure("$figure") } },
        off = key("label-last-off") { type(hand.draft.typed.dropLast(1)) },
        clear = key("label-clear") { type("") },
        unit = unit.takeIf { asks.isBearing },
        phone = flat.takeIf { asks == Asks.SIGHT },
        own = if (asks == Asks.SIGHT && hand.draft.compass == Compass.PHONE) key("label-not-by-phone", ::setBack).apply { if (context.isRoomy()) maxWidth = context.px(R.dimen.beside_figures) } else null,
        // A compass counts from magnetic north alone.
        north = north.takeIf { asks.isBearing && asks != Asks.READ },
    )

    init {
        orientation = VERTICAL
        addView(context.line(if (asks.isWalking) R.style.Text_Strong else R.style.Text_Heading, title))
        val readWith = if (asks == Asks.SIGHT) context.line(R.style.Text_Label, label("label-read-with", label(hand.draft.compass.title))) else null
        val key = keys.besideFigures(context, asks)
        if (readWith != null && (key != null || !context.isRoomy())) addView(readWith)
        heading?.let(::addView)
        val aside = key ?: readWith?.takeIf { it.parent == null }
        addView(if (aside == null) figures else figuresBy(aside))
        // Figures run from the left in every language.
        for (row in keys.rows(context, asks)) addView(context.abreast(row).apply { layoutDirection = LAYOUT_DIRECTION_LTR }, LayoutParams(LayoutParams.MATCH_PARENT, LayoutParams.WRAP_CONTENT).apply { topMargin = gap() })
        show()
    }

    /** The figures with a key beside them, or with words, which take the room that is left. */
    private fun figuresBy(aside: View) = LinearLayout(context).apply {
        gravity = Gravity.CENTER_VERTICAL
        val (given, left) = LayoutParams(LayoutParams.WRAP_CONTENT, LayoutParams.WRAP_CONTENT) to LayoutParams(0, LayoutParams.WRAP_CONTENT, 1f)
        addView(figures, if (aside is Button) left else given)
        addView(aside, (if (aside is Button) given else left).apply { marginStart = gap() })
    }

    private fun gap() = context.px(if (asks.isWalking) R.dimen.between_targets else R.dimen.close)

    private fun key(name: String, act: () -> Unit) = context.button(if (asks.isWalking) R.style.Key_Walking else R.style.Key, if (name.length > 1) label(name) else name, act)
        .apply { if (name.length == 1) setTextSize(TypedValue.COMPLEX_UNIT_PX, resources.getDimension(R.dimen.text_heading)) }

    private fun figure(figure: String) {
        if (hand.draft.typed.length < most()) type(hand.draft.typed + figure)
    }

    private fun type(typed: String) = turn(hand.draft.copy(typed = typed))

    /** The key that asks where the phone points takes it once that is told. */
    private fun points(figures: String?) {
        pointed = figures
        flat.text = label(if (figures == null) "label-phone-flat" else "label-take-it")
    }

    /** What the phone's compass says is typed as if it had been read; all that the fix holds counts as read with it, until that is set back. */
    private fun taken(figures: String) = hand.go(hand.draft.run { copy(typed = figures, inMils = false, onGrid = false, compass = Compass.PHONE, own = if (compass == Compass.PHONE) own else compass) })

    /** What the phone said is not what the walker's compass says. */
    private fun setBack() = hand.go(hand.draft.run { copy(typed = "", compass = own) })

    private fun turn(draft: Draft) {
        val isOther = isNeeded && draft.typed.isEmpty() != hand.draft.typed.isEmpty()
        if (isOther) return hand.go(draft)
        hand.keep(draft)
        show()
    }

    private fun most() = if (asks.isBearing && hand.draft.inMils) MOST_MILS else asks.most

    private fun show() {
        val draft = hand.draft
        val typed = draft.typed
        figures.text = when {
            !asks.isBearing -> measured(typed.ifEmpty { "_" }, label(asks.unit))
            draft.inMils -> measured(typed.padEnd(most(), '_'), "$MIL\u00a0${draft.north}")
            else -> measured(typed.padEnd(most(), '_') + "°", draft.north)
        }
        north.text = label(if (draft.onGrid) "label-magnetic-north" else "label-grid-north")
        unit.text = label(if (draft.inMils) "label-in-degrees" else "label-in-mils")
    }

    /** The figures large, what they are measured in or from beside them. */
    private fun measured(value: String, unit: String) = SpannableString("$value\u00a0$unit").apply {
        setSpan(AbsoluteSizeSpan(context.px(R.dimen.text_heading)), value.length, length, Spanned.SPAN_EXCLUSIVE_EXCLUSIVE)
    }

    private companion object {
        const val MOST_MILS = 4
    }
}

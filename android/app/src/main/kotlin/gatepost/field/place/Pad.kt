package gatepost.field.place

import android.text.SpannableString
import android.text.Spanned
import android.text.style.AbsoluteSizeSpan
import android.util.TypedValue
import android.view.View
import android.widget.LinearLayout
import android.widget.Space
import gatepost.field.R
import gatepost.field.hand.Hand
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.grow
import gatepost.field.look.hasLargeText
import gatepost.field.look.line
import gatepost.field.look.px

const val MAG = "mag"
const val GRID = "grid"

/** What is typed, with its north. */
fun Hand.typedBearing() = "${draft.typed} ${if (draft.onGrid) GRID else MAG}"

/** Big keys for a bearing or a count. Every key is kept by the core at once, so that it is there again after a kill. */
class Pad(private val hand: Hand, title: CharSequence, private val isBearing: Boolean, private val isWalking: Boolean) : LinearLayout(hand.context) {
    private val figures = context.line(R.style.Text_Heading).apply { grow(R.dimen.typed, R.dimen.typed_at_200); includeFontPadding = false }
    private val isSpare = context.hasLargeText() || resources.configuration.screenWidthDp < NARROW
    private val off = word(R.string.last_off) { type(hand.draft.typed.dropLast(1)) }
    private val clear = word(R.string.clear) { type("") }
    private val north = word(R.string.grid_north) { turnNorth() }

    init {
        orientation = VERTICAL
        addView(context.line(if (isWalking) R.style.Text_Strong else R.style.Text_Heading, title))
        addView(figures)
        for (row in rows()) addView(context.abreast(row), LayoutParams(LayoutParams.MATCH_PARENT, LayoutParams.WRAP_CONTENT).apply { topMargin = gap() })
        show()
    }

    private fun gap() = context.px(if (isWalking) R.dimen.between_targets else R.dimen.close)

    private fun rows(): List<List<View>> {
        val words = if (isBearing) listOf(off, clear, north) else listOf(off, clear)
        val rows = (1..9).map(::key).chunked(3)
        return when {
            isSpare -> rows + listOf(listOf(off, key(0), clear).takeIf { !context.hasLargeText() } ?: listOf(room(), key(0), room())) +
                (if (context.hasLargeText()) words else words.drop(2)).map { listOf(it) }
            isWalking || !isBearing -> rows + listOf(listOf(off, key(0), words.last()))
            else -> rows.zip(words) { row, word -> row + word } + listOf(listOf(room(), key(0), room(), room()))
        }
    }

    private fun room() = Space(context)

    private fun key(figure: Int) = button("$figure") { if (hand.draft.typed.length < MOST) type("${hand.draft.typed}$figure") }
        .apply { setTextSize(TypedValue.COMPLEX_UNIT_PX, resources.getDimension(R.dimen.text_heading)) }

    private fun word(label: Int, act: () -> Unit) = button(context.getString(label), act)

    private fun button(label: String, act: () -> Unit) = context.button(if (isWalking) R.style.Key_Walking else R.style.Key, label, act)

    private fun type(typed: String) {
        hand.keep(hand.draft.copy(typed = typed))
        show()
    }

    private fun turnNorth() {
        hand.keep(hand.draft.copy(onGrid = !hand.draft.onGrid))
        show()
    }

    private fun show() {
        val typed = hand.draft.typed
        val onGrid = hand.draft.onGrid
        figures.text = if (isBearing) measured(typed.padEnd(MOST, '_') + "°", if (onGrid) GRID else MAG)
        else measured(typed.ifEmpty { "_" }, context.getString(R.string.double_paces))
        north.text = context.getString(if (onGrid) R.string.magnetic_north else R.string.grid_north)
    }

    /** The figures large, what they are measured in or from beside them. */
    private fun measured(value: String, unit: String) = SpannableString("$value $unit").apply {
        setSpan(AbsoluteSizeSpan(context.px(R.dimen.text_heading)), value.length, length, Spanned.SPAN_EXCLUSIVE_EXCLUSIVE)
    }

    private companion object {
        const val MOST = 3
        const val NARROW = 340
    }
}

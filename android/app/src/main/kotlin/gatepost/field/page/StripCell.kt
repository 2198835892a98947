package gatepost.field.page

import android.content.Context
import android.graphics.Typeface
import android.text.SpannableStringBuilder
import android.text.Spanned
import android.text.style.AbsoluteSizeSpan
import android.text.style.ForegroundColorSpan
import android.text.style.StrikethroughSpan
import android.text.style.StyleSpan
import android.view.Gravity
import android.widget.TextView
import gatepost.field.R
import gatepost.field.look.hasLargeText
import gatepost.field.look.ink
import gatepost.field.look.px

/** A cell as one text: three lines one below the other, or one after the other when the text is large. */
class StripCell(context: Context) : TextView(context, null, 0, R.style.Text_Label) {
    init {
        gravity = if (context.hasLargeText()) Gravity.CENTER_VERTICAL else Gravity.TOP
        setPaddingRelative(context.px(R.dimen.strip_cell_side), context.px(R.dimen.tight), context.px(R.dimen.tight), context.px(R.dimen.tight))
    }

    fun show(cell: Cell) {
        val large = context.hasLargeText()
        val shown = SpannableStringBuilder(if (large) cell.label else cell.fullLabel).append(if (large) " " else "\n")
        val from = shown.length
        shown.append(cell.value)
        shown.mark(from, ForegroundColorSpan(context.ink(R.attr.ink_text)), StyleSpan(Typeface.BOLD))
        if (!large) shown.mark(from, AbsoluteSizeSpan(context.px(R.dimen.text_figure)))
        if (cell.isOld) shown.mark(from, StrikethroughSpan())
        // Two notes stand one below the other rather than broken anywhere.
        if (cell.staysWhenLarge || !large) shown.append(if (large) " " else "\n").append(if (large) cell.under else cell.under.replace(", ", ",\n"))
        text = shown
    }

    private fun SpannableStringBuilder.mark(from: Int, vararg spans: Any) =
        spans.forEach { setSpan(it, from, length, Spanned.SPAN_EXCLUSIVE_EXCLUSIVE) }
}

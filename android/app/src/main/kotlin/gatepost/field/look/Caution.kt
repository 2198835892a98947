package gatepost.field.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.Path
import android.text.SpannableStringBuilder
import android.text.Spanned
import android.text.style.UnderlineSpan
import android.widget.TextView
import gatepost.field.R

/** A caution: a bar at its side and an octagon with a stroke, and what to mind. It can be made a target that shows more of it. */
class Caution(context: Context, said: CharSequence) : TextView(context, null, 0, R.style.Text_Caution) {
    private val bar = context.px(R.dimen.caution_bar).toFloat()
    private val size = context.px(R.dimen.caution_mark).toFloat()
    private val fill = Paint(Paint.ANTI_ALIAS_FLAG).apply { color = currentTextColor }
    private val edge = Paint(fill).apply { style = Paint.Style.STROKE; strokeWidth = context.px(R.dimen.control_edge).toFloat() }

    init {
        text = said
        val side = context.px(R.dimen.side)
        minHeight = context.px(R.dimen.caution_least)
        setPaddingRelative(side + size.toInt() + side, context.px(R.dimen.tight), 0, context.px(R.dimen.tight))
    }

    /** Ends it with the name of what a touch on it does. */
    fun leadsOn(name: String, act: () -> Unit) {
        val from = text.length + 1
        text = SpannableStringBuilder(text).append("\n").append(name).apply { setSpan(UnderlineSpan(), from, length, Spanned.SPAN_EXCLUSIVE_EXCLUSIVE) }
        minHeight = context.px(R.dimen.target)
        becomePart(text.toString(), act)
    }

    override fun onDraw(canvas: Canvas) {
        super.onDraw(canvas)
        if (layoutDirection == LAYOUT_DIRECTION_RTL) canvas.scale(-1f, 1f, width / 2f, 0f)
        canvas.drawRect(0f, 0f, bar, height.toFloat(), fill)
        val left = context.px(R.dimen.side).toFloat()
        val top = context.px(R.dimen.tight).toFloat()
        canvas.drawPath(octagon(left, top), edge)
        val middle = left + size / 2
        canvas.drawLine(middle, top + size * 0.22f, middle, top + size * 0.58f, edge)
        canvas.drawCircle(middle, top + size * 0.75f, edge.strokeWidth * 0.75f, fill)
    }

    private fun octagon(left: Float, top: Float) = Path().apply {
        val cut = size * 0.3f
        moveTo(left + cut, top)
        for ((x, y) in listOf(size - cut to 0f, size to cut, size to size - cut, size - cut to size, cut to size, 0f to size - cut, 0f to cut)) {
            lineTo(left + x, top + y)
        }
        close()
    }
}

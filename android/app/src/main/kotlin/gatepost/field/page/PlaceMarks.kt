package gatepost.field.page

import android.content.Context
import android.graphics.Canvas
import android.graphics.DashPathEffect
import android.graphics.Paint
import android.view.View
import gatepost.field.R
import gatepost.field.look.ink
import gatepost.field.look.px

/** Five marks on a line: a filled disc is behind us, a filled square is here, an open disc is ahead. Another place that is looked at stands on a bar. */
class PlaceMarks(context: Context) : View(context) {
    private var here = 0
    private var looked = 0
    private val mark = context.px(R.dimen.mark).toFloat()
    private val step = context.px(R.dimen.mark_step)
    private val fill = Paint(Paint.ANTI_ALIAS_FLAG).apply { color = context.ink(R.attr.ink_text) }
    private val edge = Paint(fill).apply { style = Paint.Style.STROKE; strokeWidth = context.px(R.dimen.section_rule).toFloat() }
    private val ahead = Paint(edge).apply { pathEffect = DashPathEffect(floatArrayOf(strokeWidth, strokeWidth), 0f) }

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    fun show(number: Int, looked: Int) {
        here = number
        this.looked = looked
        invalidate()
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) = setMeasuredDimension(step * MARKS, context.px(R.dimen.marks_height))

    override fun onDraw(canvas: Canvas) {
        if (layoutDirection == LAYOUT_DIRECTION_RTL) canvas.scale(-1f, 1f, width / 2f, 0f)
        val y = height / 2f
        for (number in 0 until MARKS) {
            val x = mark / 2 + number * step
            val reach = mark / 2 + edge.strokeWidth
            if (number < MARKS - 1) canvas.drawLine(x + reach, y, x + step - reach, y, if (number < here) edge else ahead)
            when {
                number < here -> canvas.drawCircle(x, y, mark / 2 - edge.strokeWidth, fill)
                number == here -> canvas.drawRect(x - mark / 2, y - mark / 2, x + mark / 2, y + mark / 2, fill)
                else -> canvas.drawCircle(x, y, mark / 2 - edge.strokeWidth, edge)
            }
            if (number == looked && number != here) canvas.drawRect(x - mark / 2, height - edge.strokeWidth, x + mark / 2, height.toFloat(), fill)
        }
    }

    private companion object {
        const val MARKS = 5
    }
}

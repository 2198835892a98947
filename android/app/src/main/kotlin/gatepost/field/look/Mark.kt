package gatepost.field.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.view.View
import gatepost.field.R

/** How a thing stands. A word stands beside each mark. */
enum class Standing { OPEN, FITS, DOUBTFUL, MISFIT }

/** Filled is good, half filled is doubtful, open is not yet, broken by a slanting stroke does not fit. */
class Mark(context: Context, standing: Standing) : View(context) {
    var standing = standing
        set(value) {
            field = value
            invalidate()
        }
    private val side = context.px(R.dimen.state_mark)
    private val fill = Paint(Paint.ANTI_ALIAS_FLAG).apply { color = context.ink(R.attr.ink_text) }
    private val edge = Paint(fill).apply { style = Paint.Style.STROKE; strokeWidth = context.px(R.dimen.control_edge).toFloat() }

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) = setMeasuredDimension(side, side)

    override fun onDraw(canvas: Canvas) {
        val low = edge.strokeWidth
        val high = side - low
        canvas.drawRect(low, low, high, high, edge)
        when (standing) {
            Standing.OPEN -> Unit
            Standing.FITS -> canvas.drawRect(low, low, high, high, fill)
            Standing.DOUBTFUL -> canvas.drawRect(low, side / 2f, high, high, fill)
            Standing.MISFIT -> canvas.drawLine(0f, side.toFloat(), side.toFloat(), 0f, edge)
        }
    }
}

package gatepost.field.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.view.View
import android.widget.LinearLayout
import gatepost.bridge.shareTold
import gatepost.field.R

/** How much of a work is done: in words, and as a bar. */
class Progress(context: Context) : LinearLayout(context) {
    private val told = context.glance("")
    private val bar = Bar(context)

    init {
        orientation = VERTICAL
        addView(told)
        addView(bar, LayoutParams(LayoutParams.MATCH_PARENT, context.px(R.dimen.caution_mark)))
        show(0.0)
    }

    fun show(share: Double) {
        told.text = shareTold(share)
        bar.part = share.toFloat()
    }

    private class Bar(context: Context) : View(context) {
        private val fill = Paint().apply { color = context.ink(R.attr.ink_text) }
        private val edge = Paint(fill).apply { style = Paint.Style.STROKE; strokeWidth = context.px(R.dimen.control_edge).toFloat() }

        var part = 0f
            set(value) {
                field = value
                invalidate()
            }

        override fun onDraw(canvas: Canvas) {
            if (layoutDirection == LAYOUT_DIRECTION_RTL) canvas.scale(-1f, 1f, width / 2f, 0f)
            val low = edge.strokeWidth
            canvas.drawRect(low, low, width - low, height - low, edge)
            canvas.drawRect(low, low, low + (width - low - low) * part, height - low, fill)
        }
    }
}

package gatepost.field.page

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.widget.LinearLayout
import gatepost.field.R
import gatepost.field.look.button
import gatepost.field.look.ink
import gatepost.field.look.px

/** The bottom edge: one filled block that does the next thing. */
class Foot(context: Context) : LinearLayout(context) {
    private val fine = Paint().apply { color = context.ink(R.attr.ink_divider); strokeWidth = context.px(R.dimen.divider).toFloat() }

    init {
        orientation = VERTICAL
        setBackgroundColor(context.ink(R.attr.ink_paper))
        setPadding(context.px(R.dimen.side), context.px(R.dimen.foot_above), context.px(R.dimen.side), context.px(R.dimen.foot_below))
    }

    /** Names the next step in the walker's words. */
    fun show(step: CharSequence, act: () -> Unit) {
        removeAllViews()
        addView(context.button(R.style.Primary, step, act), LayoutParams(LayoutParams.MATCH_PARENT, LayoutParams.WRAP_CONTENT))
    }

    override fun dispatchDraw(canvas: Canvas) {
        super.dispatchDraw(canvas)
        canvas.drawLine(0f, 0f, width.toFloat(), 0f, fine)
    }
}

package gatepost.field.page

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.view.Gravity
import android.widget.LinearLayout
import gatepost.field.R
import gatepost.field.hand.Step
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.ink
import gatepost.field.look.line
import gatepost.field.look.px

/** The bottom edge: one filled block that does the next thing. */
class Foot(context: Context) : LinearLayout(context) {
    private val fine = Paint().apply { color = context.ink(R.attr.ink_divider); strokeWidth = context.px(R.dimen.divider).toFloat() }

    init {
        orientation = VERTICAL
        setBackgroundColor(context.ink(R.attr.ink_paper))
        setPadding(context.px(R.dimen.side), context.px(R.dimen.foot_above), context.px(R.dimen.side), context.px(R.dimen.foot_below))
    }

    /**
     * Names the next step in the walker's words. Two that are equally likely stand side by side, the left one on the left whichever
     * way is read; [leave] is narrower than the step. Without a step it says what that [lacks].
     */
    fun show(steps: List<Step>, leave: Step? = null, lacks: String? = null) {
        removeAllViews()
        visibility = if (steps.isEmpty() && leave == null && lacks == null) GONE else VISIBLE
        val aside = listOfNotNull(leave?.let { context.button(R.style.Key_Walking, it.label, it.act) })
        val said = lacks?.let { context.line(R.style.Text_Strong, it).apply { gravity = Gravity.CENTER; minimumHeight = context.px(R.dimen.target_walking) } }
        val row = context.abreast(aside + steps.map { context.button(R.style.Primary, it.label, it.act) } + listOfNotNull(said))
        if (steps.size > 1) row.layoutDirection = LAYOUT_DIRECTION_LTR
        if (steps.isNotEmpty() || lacks != null) aside.forEach { (it.layoutParams as LayoutParams).weight = LEAVE }
        addView(row, LayoutParams(LayoutParams.MATCH_PARENT, LayoutParams.WRAP_CONTENT))
    }

    override fun dispatchDraw(canvas: Canvas) {
        super.dispatchDraw(canvas)
        canvas.drawLine(0f, 0f, width.toFloat(), 0f, fine)
    }

    private companion object {
        const val LEAVE = 0.5f
    }
}

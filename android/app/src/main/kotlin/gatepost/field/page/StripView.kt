package gatepost.field.page

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.view.View
import android.view.ViewGroup
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.look.becomePart
import gatepost.field.look.hasLargeText
import gatepost.field.look.ink
import gatepost.field.look.px

/** How sure, how far home, how much light: three cells side by side, or three rows when the text is large. */
class StripView(context: Context) : ViewGroup(context) {
    /** Called with the number of the touched cell; without one when the rows are touched, which are one target together. */
    var onOpen: (Int?) -> Unit = {}

    private val inRows = context.hasLargeText()
    private val cells = List(CELLS) { StripCell(context).also(::addView) }
    private val rule = context.px(R.dimen.section_rule)
    private val ground = Paint().apply { color = context.ink(R.attr.ink_surface) }
    private val strong = Paint().apply { color = context.ink(R.attr.ink_text); strokeWidth = rule.toFloat() }
    private val fine = Paint().apply { color = context.ink(R.attr.ink_divider); strokeWidth = context.px(R.dimen.divider).toFloat() }

    init {
        setWillNotDraw(false)
        setPadding(0, rule, 0, rule)
        if (inRows) cells.forEach { it.setPaddingRelative(context.px(R.dimen.side), 0, context.px(R.dimen.side), 0) }
        else cells.first().run { setPaddingRelative(context.px(R.dimen.side), paddingTop, paddingEnd, paddingBottom) }
        // From right to left the words of the last cell begin at the edge of the screen.
        val isReversed = resources.configuration.layoutDirection == LAYOUT_DIRECTION_RTL
        if (isReversed && !inRows) cells.last().run { setPaddingRelative(paddingStart, paddingTop, context.px(R.dimen.between_targets), paddingBottom) }
    }

    /** Where one walks its cells are higher. */
    fun show(shown: List<Cell>, isWalking: Boolean = false) {
        least = context.px(if (inRows) R.dimen.strip_row else if (isWalking) R.dimen.strip_walking else R.dimen.strip)
        require(shown.size == CELLS) { "the strip has three cells" }
        cells.zip(shown).forEach { (view, cell) -> view.show(cell) }
        val spoken = shown.map { "${it.fullLabel}: ${it.value}, ${it.under}" }
        if (inRows) becomeOne(spoken) else cells.forEachIndexed { number, cell -> cell.becomePart(spoken[number]) { onOpen(number) } }
    }

    private fun becomeOne(spoken: List<String>) {
        cells.forEach { it.importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_NO }
        becomePart(spoken.joinToString("; ")) { onOpen(null) }
    }

    private var least = 0

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val width = MeasureSpec.getSize(widthSpec)
        cells.zip(shares(width)).forEach { (cell, share) -> cell.measureAtLeast(share, least) }
        val high = if (inRows) cells.sumOf { it.measuredHeight } else cells.maxOf { it.measuredHeight }
        if (!inRows) cells.forEach { it.measureAtLeast(it.measuredWidth, high) }
        setMeasuredDimension(width, high + paddingTop + paddingBottom)
    }

    override fun onLayout(changed: Boolean, left: Int, top: Int, right: Int, bottom: Int) {
        var x = 0
        var y = paddingTop
        for (cell in if (layoutDirection == LAYOUT_DIRECTION_RTL && !inRows) cells.reversed() else cells) {
            cell.layout(x, y, x + cell.measuredWidth, y + cell.measuredHeight)
            if (inRows) y += cell.measuredHeight else x += cell.measuredWidth
        }
    }

    /** Its ground is no background: as one target it has another one, and the content rolls away under it. */
    override fun draw(canvas: Canvas) {
        canvas.drawRect(0f, 0f, width.toFloat(), height.toFloat(), ground)
        super.draw(canvas)
    }

    override fun dispatchDraw(canvas: Canvas) {
        super.dispatchDraw(canvas)
        val right = width.toFloat()
        for (y in listOf(rule / 2f, height - rule / 2f)) canvas.drawLine(0f, y, right, y, strong)
        for (cell in cells.sortedBy { it.left + it.top }.drop(1)) {
            if (inRows) canvas.drawLine(0f, cell.top.toFloat(), right, cell.top.toFloat(), fine)
            else canvas.drawLine(cell.left.toFloat(), paddingTop.toFloat(), cell.left.toFloat(), cell.bottom.toFloat(), fine)
        }
    }

    private fun View.measureAtLeast(width: Int, least: Int) {
        minimumHeight = least
        measure(MeasureSpec.makeMeasureSpec(width, MeasureSpec.EXACTLY), MeasureSpec.makeMeasureSpec(0, MeasureSpec.UNSPECIFIED))
    }

    /** The width of each cell. *Light* has the longest words, so it has the widest cell; *Sure* has the margin of the page in its own. */
    private fun shares(width: Int): List<Int> {
        if (inRows) return List(CELLS) { width }
        val first = (width * 0.33f).toInt()
        val second = (width * 0.3f).toInt()
        return listOf(first, second, width - first - second)
    }

    private companion object {
        const val CELLS = 3
    }
}

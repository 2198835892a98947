package gatepost.field.chart

import android.content.Context
import android.graphics.Canvas
import android.view.MotionEvent
import android.view.View
import gatepost.field.R
import gatepost.field.look.px

/** Shows a drawing of the core, asked for anew when the size changes. Each of its targets is a part of its own for a screen reader. */
class ChartView(context: Context, private val high: Int?, private val ask: (width: Double, height: Double, letters: Double) -> Chart?) : View(context) {
    private val density = resources.displayMetrics.density
    private val painter = ChartPainter(context)
    private val nodes = ChartNodes(this)
    private var cut = Cut()
    var chart: Chart? = null
        private set

    /** What a touch on it does, said after what it shows. */
    var opens: String? = null

    /** Without a height of its own it takes what room is left, and no more than it can be read in where it may choose. */
    override fun onMeasure(widthSpec: Int, heightSpec: Int) =
        setMeasuredDimension(MeasureSpec.getSize(widthSpec), high?.let(context::px) ?: resolveSize(context.px(R.dimen.chart_least), heightSpec))

    override fun onSizeChanged(width: Int, height: Int, oldWidth: Int, oldHeight: Int) = show(cut.zoom)

    /** Draws it so many times as large, with [middle] in the middle as far as the drawing reaches. */
    fun show(zoom: Float, middle: (Chart) -> Target? = { null }) {
        val letters = (LETTERS * resources.configuration.fontScale).coerceAtMost(MOST_LETTERS)
        chart = ask(dp(width) * zoom, dp(height) * zoom, letters.toDouble())
        cut = cut.at(zoom, dp(width).toFloat(), dp(height).toFloat(), chart?.let(middle)?.area)
        contentDescription = listOfNotNull(chart?.spoken, opens).joinToString(" ").ifEmpty { null }
        invalidate()
    }

    private fun dp(pixels: Int) = (pixels / density).toDouble()

    override fun onDraw(canvas: Canvas) {
        canvas.clipRect(0, 0, width, height)
        canvas.scale(density, density)
        canvas.translate(-cut.left, -cut.top)
        chart?.items?.let { painter.paint(canvas, it) }
    }

    override fun getAccessibilityNodeProvider() = nodes

    override fun dispatchHoverEvent(event: MotionEvent) = nodes.hovered(event) || super.dispatchHoverEvent(event)

    /** Where a target lies in this view, in pixels. */
    fun placeOf(target: Target) = cut.place(target.area, density)

    private companion object {
        const val LETTERS = 14f
        const val MOST_LETTERS = 20f
    }
}

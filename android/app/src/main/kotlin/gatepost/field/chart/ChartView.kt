package gatepost.field.chart

import android.content.Context
import android.graphics.Canvas
import android.view.View
import gatepost.field.R
import gatepost.field.look.px

/** Shows a drawing of the core, asked for anew when the width changes; all of it stands in one spoken description. */
class ChartView(context: Context, private val high: Int, private val ask: (width: Double, height: Double, letters: Double) -> Chart?) : View(context) {
    private val density = resources.displayMetrics.density
    private val painter = ChartPainter(context)
    private var chart: Chart? = null

    override fun onMeasure(widthSpec: Int, heightSpec: Int) = setMeasuredDimension(MeasureSpec.getSize(widthSpec), context.px(high))

    override fun onSizeChanged(width: Int, height: Int, oldWidth: Int, oldHeight: Int) {
        val letters = (LETTERS * resources.configuration.fontScale).coerceAtMost(MOST_LETTERS)
        chart = ask(dp(width), dp(height), letters.toDouble())
        contentDescription = chart?.run { (listOf(spoken) + targets.map { it.spoken }).joinToString(context.getString(R.string.between_sentences)) }
    }

    private fun dp(pixels: Int) = (pixels / density).toDouble()

    override fun onDraw(canvas: Canvas) {
        canvas.scale(density, density)
        chart?.items?.let { painter.paint(canvas, it) }
    }

    private companion object {
        const val LETTERS = 14f
        const val MOST_LETTERS = 20f
    }
}

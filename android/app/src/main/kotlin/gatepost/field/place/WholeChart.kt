package gatepost.field.place

import android.view.View
import android.widget.LinearLayout
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.chart.Chart
import gatepost.field.chart.ChartView
import gatepost.field.chart.Target
import gatepost.field.hand.Hand
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.px

/** A drawing on the whole screen. It does not move under the finger: four buttons bring it closer, wider, to me, to the car. */
class WholeChart(private val hand: Hand, of: String) : LinearLayout(hand.context) {
    private val chart = ChartView(context, null) { width, height, letters -> hand.chart(of, width, height, letters) }
    private var zoom = 1f

    init {
        orientation = VERTICAL
        addView(chart, LayoutParams(LayoutParams.MATCH_PARENT, 0, 1f))
        below(listOf(key("label-chart-closer") { turn(zoom * STEP) }, key("label-chart-wider") { turn(zoom / STEP) }))
        val ways = listOfNotNull(key("label-chart-to-me") { go(::me) }, key("label-chart-to-car") { go(::car) }.takeIf { hand.snapshot.car != null })
        below(ways)
    }

    private fun below(keys: List<View>) =
        addView(context.abreast(keys), LayoutParams(LayoutParams.MATCH_PARENT, LayoutParams.WRAP_CONTENT).apply { topMargin = context.px(R.dimen.between_targets) })

    private fun key(name: String, act: () -> Unit) = context.button(R.style.Outlined_Walking, label(name), act)

    private fun turn(to: Float) {
        zoom = to.coerceIn(1f, MOST)
        chart.show(zoom)
    }

    /** To be in the middle it must be enlarged. */
    private fun go(to: (Chart) -> Target?) {
        zoom = zoom.coerceAtLeast(STEP)
        chart.show(zoom, to)
    }

    /** The end of the last leg, or the likeliest stretch. */
    private fun me(chart: Chart) = chart.targets.filter { it.isTurn }.maxByOrNull { it.number } ?: chart.targets.firstOrNull { it.isStretch } ?: car(chart)

    private fun car(chart: Chart) = chart.targets.firstOrNull { it.isCar }

    private companion object {
        const val STEP = 2f
        const val MOST = 8f
    }
}

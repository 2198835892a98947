package gatepost.field.place

import android.text.Layout
import android.view.Gravity
import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import android.widget.TextView
import gatepost.bridge.BackLegView
import gatepost.bridge.Record
import gatepost.bridge.WayBackView
import gatepost.bridge.label
import gatepost.bridge.pacesToGo
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Row
import gatepost.field.look.abreast
import gatepost.field.look.answer
import gatepost.field.look.glance
import gatepost.field.look.hasLargeText
import gatepost.field.look.line
import gatepost.field.look.px
import gatepost.field.look.said

/** The reversed log before it is followed: what it comes to, its legs, how far it may miss. */
fun Hand.wayBackShown(): Shown {
    val views = wayTold()
    val follow = Step(label("label-follow-log")) { tell(draft.shut()) { Record.TurnRound(it) } }
    val walkOn = Step(label("label-walk-on")) { go(draft.shut()) }
    if (snapshot.legs.isEmpty()) return Shown(views, listOf(walkOn))
    return Shown(views + walking("label-walk-on", walkOn.act), listOf(follow))
}

/** The reversed log in the core's words, with its chart. */
fun Hand.wayTold(): List<View?> {
    val told = ask { Record.Back(it) }
    val way = told.snapshot?.wayBack
    if (told.refused || way == null) return context.answer(told.said)
    return listOf(context.said(way.headTold, R.style.Text_Heading), context.said(way.missTold), Caution(context, way.cautionTold), walkChart()) + legs(way.legs)
}

private fun Hand.legs(legs: List<BackLegView>) = legs.map { Row(context, null, "", it.told, null) }

/** The way back, leg by leg; at its end, how far to look. */
fun Hand.wayBack(): Shown = backLeg()?.let { aLeg(it, legs(ahead().drop(1))) } ?: atTheLine(checkNotNull(snapshot.wayBack))

/** The leg of the way back that is walked now; none at the line. */
fun Hand.backLeg(): BackLegView? = ahead().firstOrNull()

private fun Hand.ahead() = snapshot.wayBack?.run { legs.drop(walked.toInt()) }.orEmpty()

/** The bearing and the paces now, what comes next and where that lies; what there is to mind was told before the log was followed. */
private fun Hand.aLeg(leg: BackLegView, next: List<View>): Shown {
    val toGo = context.line(R.style.Text_Strong).apply { breakStrategy = Layout.BREAK_STRATEGY_BALANCED }
    fun told() = draft.count.also { toGo.text = pacesToGo(leg.doublePaces, it.toUInt()) }
    val tile = CountTile(context, small = true) { counted(1).also { told() } }.apply { show(told()) }
    val less = walking("label-one-less") { counted(-1); tile.show(told()) }
    val where = walking("label-where-am-i") { go(draft.opened(Open.WHERE)) }
    val keys = if (context.hasLargeText()) listOf(tile, context.abreast(listOf(less, where))) else listOf(context.abreast(listOf(tile, less, where)).apply { (tile.layoutParams as LinearLayout.LayoutParams).weight = TILE_OF_THREE })
    val views = listOf(context.line(R.style.Text_Label, label("label-back-along", "${leg.ofLeg}")), bearingAndPaces(leg, toGo)) + keys +
        listOf(context.said(leg.goalTold), caution(), walkChart(R.dimen.chart_follow), context.line(R.style.Text_Strong, label("label-then")).takeIf { next.isNotEmpty() }) + next
    val reached = label(if (next.isEmpty()) "label-at-the-line" else "label-turn-here")
    return Shown(views, listOf(Step(reached) { tell(draft.shut().legClosed(draft)) { Record.Reached(it) } }), counts = tile)
}

/** Counts paces of the leg that is walked back; never below nothing. */
private fun Hand.counted(more: Int): Int {
    keep(draft.copy(count = (draft.count + more).coerceAtLeast(0)))
    if (more > 0) pulse.counted(draft.count)
    return draft.count
}

/** Side by side, or one below the other when the text is large. */
private fun Hand.bearingAndPaces(leg: BackLegView, toGo: TextView): View = LinearLayout(context).apply {
    val isLarge = context.hasLargeText()
    orientation = if (isLarge) LinearLayout.VERTICAL else LinearLayout.HORIZONTAL
    gravity = Gravity.CENTER_VERTICAL
    addView(context.glance(leg.bearingTold), LinearLayout.LayoutParams(WRAP_CONTENT, WRAP_CONTENT))
    val beside = if (isLarge) LinearLayout.LayoutParams(MATCH_PARENT, WRAP_CONTENT) else LinearLayout.LayoutParams(0, WRAP_CONTENT, 1f)
    addView(toGo, beside.apply { if (!isLarge) marginStart = context.px(R.dimen.between_targets) })
}

private fun Hand.atTheLine(way: WayBackView): Shown {
    val views = listOf(
        context.said(way.endTold, R.style.Text_Heading), caution(), walkChart(),
        walking("label-where-am-i") { go(draft.opened(Open.WHERE)) },
    )
    return Shown(views, listOf(Step(label("label-found-car")) { tell(draft.shut()) { Record.Close(it) } }))
}

/** What the core says is to be minded here. */
fun Hand.caution() = snapshot.caution?.let { Caution(context, it) }

/** The width of the count for one of the two keys beside it: on a narrow phone these keep their 76 dp. */
private const val TILE_OF_THREE = 1.3f

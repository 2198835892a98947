package gatepost.field.place

import android.view.View
import gatepost.bridge.BackLegView
import gatepost.bridge.Record
import gatepost.bridge.WayBackView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Row
import gatepost.field.look.answer
import gatepost.field.look.glance
import gatepost.field.look.line
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
fun Hand.wayBack(): Shown {
    val way = checkNotNull(snapshot.wayBack)
    val ahead = way.legs.drop(way.walked.toInt())
    return ahead.firstOrNull()?.let { aLeg(it, legs(ahead.drop(1))) } ?: atTheLine(way)
}

private fun Hand.aLeg(leg: BackLegView, next: List<View>): Shown {
    val views = listOf(
        context.line(R.style.Text_Label, label("label-back-along", "${leg.ofLeg}")),
        context.glance(leg.bearingTold),
        context.line(R.style.Text_Heading, label("label-to-go", leg.pacesTold)),
        context.said(leg.goalTold),
        caution(),
        walkChart(),
        walking("label-where-am-i") { go(draft.opened(Open.WHERE)) },
        context.line(R.style.Text_Strong, label("label-then")).takeIf { next.isNotEmpty() },
    )
    val reached = label(if (next.isEmpty()) "label-at-the-line" else "label-turn-here")
    return Shown(views + next, listOf(Step(reached) { tell(draft.shut()) { Record.Reached(it) } }))
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

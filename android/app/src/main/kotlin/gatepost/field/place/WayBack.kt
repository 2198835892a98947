package gatepost.field.place

import android.view.View
import gatepost.bridge.BackLegView
import gatepost.bridge.Record
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Row
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
    val said = ask { Record.Back(it) }.said
    val legs = said.drop(1).dropLast(2).map { Row(context, null, "", it, null) }
    val end = said.takeLast(2).takeIf { said.size > 2 }.orEmpty()
    return listOf(context.said(said.first(), R.style.Text_Heading), end.firstOrNull()?.let { context.said(it) }, end.lastOrNull()?.let { Caution(context, it) }, walkChart()) + legs
}

/** The way back, leg by leg; at its end, how far to look. */
fun Hand.wayBack(): Shown {
    val way = checkNotNull(snapshot.wayBack)
    val leg = way.legs.getOrNull(way.walked.toInt()) ?: return atTheLine()
    return aLeg(leg, way.walked.toInt())
}

private fun Hand.aLeg(leg: BackLegView, walked: Int): Shown {
    val said = ask { Record.Back(it) }.said.drop(1).dropLast(2)
    val next = said.drop(walked + 1).map { Row(context, null, "", it, null) }
    val views = listOf(
        context.line(R.style.Text_Label, label("label-back-along", "${leg.ofLeg}")),
        context.glance(leg.bearingTold),
        context.line(R.style.Text_Heading, label("label-to-go", leg.pacesTold)),
        context.said(said.getOrElse(walked) { "" }),
        caution(),
        walkChart(),
        walking("label-where-am-i") { go(draft.opened(Open.WHERE)) },
        context.line(R.style.Text_Strong, label("label-then")).takeIf { next.isNotEmpty() },
    )
    val reached = label(if (next.isEmpty()) "label-at-the-line" else "label-turn-here")
    return Shown(views + next, listOf(Step(reached) { tell(draft.shut()) { Record.Reached(it) } }))
}

private fun Hand.atTheLine(): Shown {
    val end = ask { Record.Back(it) }.said.dropLast(1).takeLast(1)
    val said = (draft.said.take(1) + end).distinct()
    val views = listOf(context.said(said.first(), R.style.Text_Heading)) + said.drop(1).map { context.said(it) } +
        listOf(caution(), walkChart(), walking("label-where-am-i") { go(draft.opened(Open.WHERE)) })
    return Shown(views, listOf(Step(label("label-found-car")) { tell(draft.shut()) { Record.Close(it) } }))
}

/** What the core says is to be minded here. */
fun Hand.caution() = snapshot.caution?.let { Caution(context, it) }

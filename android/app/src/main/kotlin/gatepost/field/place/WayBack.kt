package gatepost.field.place

import gatepost.bridge.BackLegView
import gatepost.bridge.Record
import gatepost.field.R
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Row
import gatepost.field.look.glance
import gatepost.field.look.line
import gatepost.field.look.said
import java.util.Locale

/** The reversed log before it is followed: what it comes to, its legs, how far it may miss. */
fun Hand.wayBackShown(): Shown {
    val said = ask { Record.Back(it) }
    val legs = said.drop(1).dropLast(2).map { Row(context, null, "", it, null) }
    val end = said.takeLast(2).takeIf { said.size > 2 }.orEmpty()
    val views = listOf(context.said(said.first(), R.style.Text_Heading)) + listOfNotNull(end.firstOrNull()?.let { context.said(it) }) +
        listOfNotNull(end.lastOrNull()?.let { Caution(context, it) }) + walkChart() + legs
    val follow = Step(context.getString(R.string.follow_the_log)) { tell(draft.shut()) { Record.TurnRound(it) } }
    val walkOn = Step(context.getString(R.string.walk_on)) { go(draft.shut()) }
    if (snapshot.legs.isEmpty()) return Shown(views, listOf(walkOn))
    return Shown(views + walking(R.string.walk_on, walkOn.act), listOf(follow))
}

/** The way back, leg by leg; at its end, how far to look. */
fun Hand.wayBack(): Shown {
    val way = checkNotNull(snapshot.wayBack)
    val leg = way.legs.getOrNull(way.walked.toInt()) ?: return atTheLine()
    return aLeg(leg, way.walked.toInt())
}

private fun Hand.aLeg(leg: BackLegView, walked: Int): Shown {
    val said = ask { Record.Back(it) }.drop(1).dropLast(2)
    val paces = context.getString(R.string.paces_to_go, String.format(Locale.ROOT, "%.0f", leg.doublePaces))
    val views = listOf(
        context.line(R.style.Text_Label, context.getString(R.string.back_along, "${leg.ofLeg}")),
        context.glance(degrees(String.format(Locale.ROOT, "%03.0f $MAG", leg.bearingDegMag))),
        context.line(R.style.Text_Heading, paces),
        context.said(said.getOrElse(walked) { "" }),
        walkChart(),
    )
    val next = said.drop(walked + 1).map { Row(context, null, "", it, null) }
    val title = if (next.isEmpty()) null else context.line(R.style.Text_Strong, context.getString(R.string.then))
    return Shown(views + title + next, listOf(Step(context.getString(R.string.reached)) { tell(draft.shut()) { Record.Reached(it) } }))
}

private fun Hand.atTheLine(): Shown {
    val end = ask { Record.Back(it) }.takeLast(2)
    val said = draft.said - end.toSet()
    val views = listOf(
        said.firstOrNull()?.let { context.said(it, R.style.Text_Heading) },
        context.said(end.first(), if (said.isEmpty()) R.style.Text_Heading else R.style.Text_Body),
        Caution(context, end.last()),
        walkChart(),
    )
    return Shown(views, listOf(Step(context.getString(R.string.found_the_car)) { tell(draft.shut()) { Record.Close(it) } }))
}

package gatepost.field.place

import android.view.Gravity
import android.view.View
import android.widget.LinearLayout
import gatepost.bridge.Record
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.book.Draft
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.glance
import gatepost.field.look.hasLargeText
import gatepost.field.look.line

/** On foot: what is walked, the count, and what may come next. Nothing rolls. */
fun Hand.onFoot(): Shown {
    val tile = CountTile(context) { draft.copy(count = draft.count + 1).also(::keep).count.also(pulse::counted) }.apply { show(draft.count) }
    val views = listOf(
        head(),
        tile,
        context.abreast(listOf(walking(R.string.met) { go(draft.opened(Open.MET)) }, walking(R.string.detour) { go(draft.opened(Open.DETOUR)) })),
        context.abreast(listOf(walking(R.string.where_am_i) { go(draft.opened(Open.WHERE)) }, walking(R.string.way_back) { showWayBack() })),
    )
    return Shown(views, listOf(Step(context.getString(R.string.turn)) { go(draft.opened(Open.TURN)) }), grows = tile)
}

fun Hand.walking(label: Int, act: () -> Unit) = context.button(R.style.Outlined_Walking, context.getString(label), act)

private fun Hand.head(): View {
    val leg = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        addView(context.line(R.style.Text_Label, (listOf(context.getString(R.string.leg_walk, "${snapshot.legs.size + 1}")) + extras()).joinToString(", ")))
        addView(context.glance(draft.bearing.ifEmpty { context.getString(R.string.not_set) }.let(::degrees)))
    }
    if (!context.hasLargeText() || snapshot.undo == null) return leg
    return LinearLayout(context).apply {
        gravity = Gravity.CENTER_VERTICAL
        addView(leg, LinearLayout.LayoutParams(0, LinearLayout.LayoutParams.WRAP_CONTENT, 1f))
        addView(walking(R.string.undo) { undo() }.apply { contentDescription = context.getString(R.string.undo_described, snapshot.undo) })
    }
}

/** What the leg holds beside its count. */
private fun Hand.extras() = listOfNotNull(
    draft.met.takeIf { it.isNotEmpty() }?.let { context.getString(R.string.met_is, it) },
    draft.out.takeIf { it.isNotEmpty() }?.let { context.getString(if (draft.side == LEFT) R.string.round_left else R.string.round_right, it) },
)

/** "052 mag" as it is read: 052° mag. */
fun degrees(bearing: String) = bearing.replace(" ", "°\u00a0")

/** The leg that is being walked ends where one turns back. */
private fun Hand.showWayBack() {
    val back = draft.opened(Open.BACK)
    if (draft.count == 0) go(back) else closeLeg(back)
}

/** Closes the leg with its count; then it shows [after], with nothing walked of the next one yet. */
fun Hand.closeLeg(after: Draft) {
    if (tell(after.legClosed(draft)) { Record.Leg(leg(it)) }) pulse.closed()
}

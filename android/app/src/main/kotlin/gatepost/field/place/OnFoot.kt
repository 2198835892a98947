package gatepost.field.place

import android.view.Gravity
import android.view.View
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import gatepost.bridge.Record
import gatepost.bridge.bearingTold
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Draft
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.glance
import gatepost.field.look.hasLargeText
import gatepost.field.look.line
import gatepost.field.look.px

/** On foot: what is walked, the count, and what may come next. Nothing rolls. */
fun Hand.onFoot(): Shown {
    val tile = CountTile(context) { draft.copy(count = draft.count + 1).also(::keep).count.also(pulse::counted) }.apply { show(draft.count) }
    val views = listOf(
        head(),
        tile,
        context.abreast(listOf(walking("label-met") { go(draft.opened(Open.MET)) }, walking("label-detour") { go(draft.opened(Open.DETOUR)) })),
        context.abreast(listOf(walking("label-where-am-i") { go(draft.opened(Open.WHERE)) }, walking("label-way-back") { showWayBack() })),
    )
    return Shown(views, listOf(Step(label("label-turn")) { go(draft.opened(Open.TURN)) }), grows = tile)
}

fun Hand.walking(label: String, act: () -> Unit) = context.button(R.style.Outlined_Walking, label(label), act)

private fun Hand.head(): View {
    val leg = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        addView(context.line(R.style.Text_Label, (listOf(label("label-leg-walk", "${snapshot.legs.size + 1}")) + extras()).joinToString(", ")))
        addView(context.glance(if (draft.bearing.isEmpty()) label("label-not-set") else bearingTold(draft.bearing)))
    }
    if (!context.hasLargeText() || snapshot.undo == null) return leg
    return LinearLayout(context).apply {
        gravity = Gravity.CENTER_VERTICAL
        addView(leg, LinearLayout.LayoutParams(0, WRAP_CONTENT, 1f))
        val undo = walking("label-undo") { undo() }.apply { contentDescription = label("label-undo-what", snapshot.undo.orEmpty()) }
        addView(undo, LinearLayout.LayoutParams(WRAP_CONTENT, WRAP_CONTENT).apply { marginStart = context.px(R.dimen.between_targets) })
    }
}

/** What the leg holds beside its count. */
private fun Hand.extras() = listOfNotNull(
    draft.met.takeIf { it.isNotEmpty() }?.let { label("label-met-what", it) },
    draft.out.takeIf { it.isNotEmpty() }?.let { label(if (draft.side == LEFT) "label-round-left" else "label-round-right", it) },
)

/** The leg that is being walked ends where one turns back. */
private fun Hand.showWayBack() {
    val back = draft.opened(Open.BACK)
    if (draft.count == 0) go(back) else closeLeg(back)
}

/** Closes the leg with its count; then it shows [after], with nothing walked of the next one yet. */
fun Hand.closeLeg(after: Draft) {
    if (tell(after.legClosed(draft)) { Record.Leg(leg(it)) }) pulse.closed()
}

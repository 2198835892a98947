package gatepost.field.place

import android.view.Gravity
import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
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
import gatepost.field.look.isShort
import gatepost.field.look.isTight
import gatepost.field.look.line
import gatepost.field.look.px

/** On foot: what is walked, the count, and what may come next. Nothing rolls. */
fun Hand.onFoot(): Shown {
    val isTight = context.isShort() && !context.hasLargeText()
    val tile = CountTile(context, isTight) { draft.copy(count = draft.count + 1).also(::keep).count.also(pulse::counted) }.apply { show(draft.count) }
    val noted = listOf(walking("label-met") { go(draft.opened(Open.MET)) }, walking("label-detour") { go(draft.opened(Open.DETOUR)) })
    val asked = listOf(walking("label-where-am-i") { go(draft.opened(Open.WHERE)) }, walking("label-way-back") { showWayBack() })
    val turn = Step(label("label-turn")) { go(draft.opened(Open.TURN)) }
    val less = walking("label-one-less") { if (draft.count > 0) keep(draft.copy(count = draft.count - 1)); tile.show(draft.count) }
    if (isTight) return tight(tile, less, noted, asked, turn)
    val count = if (context.hasLargeText()) context.abreast(listOf(tile, less)).apply { (tile.layoutParams as LinearLayout.LayoutParams).weight = TILE } else tile
    return Shown(listOf(head(less), count, context.abreast(noted), context.abreast(asked)), listOf(turn), grows = count, counts = tile)
}

/** On a short screen the questions stand beside the count, and where the place row makes room *Undo* beside the notes. */
private fun Hand.tight(tile: CountTile, less: View, noted: List<View>, asked: List<View>, turn: Step): Shown {
    val aside = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        asked.forEachIndexed { number, key -> addView(key, LinearLayout.LayoutParams(MATCH_PARENT, 0, 1f).apply { if (number > 0) topMargin = context.px(R.dimen.between_targets) }) }
    }
    val middle = context.abreast(listOf(tile, less, aside)).apply { (tile.layoutParams as LinearLayout.LayoutParams).weight = TIGHT_TILE }
    val keys = noted + listOfNotNull(undoKey().takeIf { context.isTight() })
    return Shown(listOf(lowHead(), middle, context.abreast(keys)), listOf(turn), grows = middle, counts = tile)
}

fun Hand.walking(label: String, act: () -> Unit) = context.button(R.style.Outlined_Walking, label(label), act)

/** What is walked, and beside it what takes a pace back; where the text is large *Undo*, as the place row makes room. */
private fun Hand.head(less: View): View {
    val leg = LinearLayout(context).apply {
        orientation = LinearLayout.VERTICAL
        addView(legNumber())
        addView(bearing())
    }
    val aside = (if (context.hasLargeText()) undoKey() else less) ?: return leg
    return LinearLayout(context).apply {
        gravity = Gravity.CENTER_VERTICAL
        addView(leg, LinearLayout.LayoutParams(0, WRAP_CONTENT, 1f))
        addView(aside, LinearLayout.LayoutParams(WRAP_CONTENT, WRAP_CONTENT).apply { marginStart = context.px(R.dimen.between_targets) })
    }
}

/** The same in one line. */
private fun Hand.lowHead(): View = LinearLayout(context).apply {
    gravity = Gravity.CENTER_VERTICAL
    addView(bearing(), LinearLayout.LayoutParams(WRAP_CONTENT, WRAP_CONTENT))
    addView(legNumber(), LinearLayout.LayoutParams(0, WRAP_CONTENT, 1f).apply { marginStart = context.px(R.dimen.between_targets) })
}

private fun Hand.legNumber() = context.line(R.style.Text_Label, (listOf(label("label-leg-walk", "${snapshot.legs.size + 1}")) + extras()).joinToString(", "))

private fun Hand.bearing() = context.glance(if (draft.bearing.isEmpty()) label("label-not-set") else bearingTold(draft.bearing))

private fun Hand.undoKey(): View? = snapshot.undo?.let { last -> walking("label-undo") { undo() }.apply { contentDescription = label("label-undo-what", last) } }

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

/** The width of the count for one of the keys beside it. */
private const val TILE = 1.6f
private const val TIGHT_TILE = 1.2f

package gatepost.field.place

import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import gatepost.bridge.SightView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Note
import gatepost.field.book.Open
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.px

/** What can be sighted, what should be seen first. A touch opens the pad; beside it stand *seen* and *not seen*. */
fun Hand.sights(found: Found<SightView> = landmarksFound()): List<View> {
    val told = notes()
    val rows = found.listed.filter { !it.sighted }.map { seen ->
        val row = Row(context, Mark(context, Standing.OPEN), seen.landmark, seen.told) { sight(seen.landmark) }
        if (told.any { it.isOf(seen.landmark) }) row else withLooks(row, seen)
    }
    return byName(found) + rows
}

fun Hand.sight(landmark: String) = go(draft.opened(Open.PAD).copy(landmark = landmark))

private fun Hand.withLooks(row: Row, of: SightView): View {
    val looks = listOf(
        look("label-seen", "label-is-seen", Note(What.SEEN, of.landmark)),
        look("label-not-seen", "label-is-not-seen", Note(What.NOT_SEEN, of.landmark)),
    )
    val isTight = !context.isRoomy()
    return LinearLayout(context).apply {
        orientation = if (isTight) LinearLayout.VERTICAL else LinearLayout.HORIZONTAL
        if (isTight) {
            addView(row, LinearLayout.LayoutParams(MATCH_PARENT, WRAP_CONTENT))
            addView(context.abreast(looks), LinearLayout.LayoutParams(MATCH_PARENT, WRAP_CONTENT).apply { topMargin = context.px(R.dimen.close) })
        } else {
            addView(row, LinearLayout.LayoutParams(0, MATCH_PARENT, 1f))
            for (key in looks) addView(key, LinearLayout.LayoutParams(context.px(R.dimen.target), MATCH_PARENT).apply { marginStart = context.px(R.dimen.close) })
        }
    }
}

private fun Hand.look(name: String, spoken: String, note: Note) = context.button(R.style.Key, label(name)) { weighIn(note) }
    .apply { contentDescription = label(spoken, note.said.first()) }

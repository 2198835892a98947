package gatepost.field.place

import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import gatepost.bridge.Answer
import gatepost.bridge.Record
import gatepost.bridge.SightView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Note
import gatepost.field.book.Open
import gatepost.field.book.Told
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.look.Mark
import gatepost.field.look.Row
import gatepost.field.look.Standing
import gatepost.field.look.abreast
import gatepost.field.look.button
import gatepost.field.look.field
import gatepost.field.look.px
import gatepost.field.look.said

/** What can be sighted, what should be seen first. A touch opens the pad; beside it stand *seen* and *not seen*. */
fun Hand.sights(): List<View> {
    val told = notes()
    val named = named()
    val rows = (named?.sights() ?: snapshot.sights).filter { !it.sighted }.map { seen ->
        val row = Row(context, Mark(context, Standing.OPEN), seen.landmark, seen.told) { sight(seen.landmark) }
        if (told.any { it.isOf(seen.landmark) }) row else withLooks(row, seen)
    }
    return rows + byName(named)
}

/** The landmarks that a question may be answered with. */
fun Hand.landmarksListed(rows: (List<SightView>) -> List<View>): List<View> {
    val named = named()
    return rows(named?.sights() ?: snapshot.sights) + byName(named)
}

/** What the core has by the part of a name that is typed; a large sheet is not listed whole. */
private fun Hand.named(): Told? = draft.words.takeIf { it.isNotBlank() && snapshot.sightsLeft > 0u }?.let { part -> ask { Record.Sights(part) } }

private fun Told.sights() = (answer as? Answer.Sights)?.sights.orEmpty()

/** The way to the landmarks that are not listed. */
private fun Hand.byName(named: Told?): List<View> {
    if (snapshot.sightsLeft == 0u) return emptyList()
    val part = context.field(label("label-part-of-name", "${snapshot.sightsLeft}"), draft.words, 1) { keep(draft.copy(words = it)) }
    return listOfNotNull(named?.let { context.said(it.said.first()) }, part, context.button(R.style.Outlined, label("label-look-it-up")) { go(draft) })
}

fun Hand.sight(landmark: String) = go(draft.opened(Open.PAD).copy(landmark = landmark))

private fun Hand.withLooks(row: Row, of: SightView): View {
    val looks = listOf(
        look("label-seen", "label-is-seen", Note(What.SEEN, of.landmark)),
        look("label-not-seen", "label-is-not-seen", Note(What.NOT_SEEN, of.landmark)),
    )
    val isTight = context.resources.configuration.run { fontScale >= LARGER || screenWidthDp < NARROW }
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

private const val LARGER = 1.15f
private const val NARROW = 340

package gatepost.field.page

import android.content.Context
import android.view.Gravity
import android.view.View
import android.widget.LinearLayout
import android.widget.TextView
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.places
import gatepost.field.book.title
import gatepost.field.book.walkingPlaces
import gatepost.field.look.becomePart
import gatepost.field.look.grow
import gatepost.field.look.hasLargeText
import gatepost.field.look.line
import gatepost.field.look.px

/** The head of the page: where in the job we are, and what one touch takes back. */
class PlaceRow(context: Context) : LinearLayout(context) {
    private val name = context.line(R.style.Text_Heading).apply { grow(R.dimen.place_name, R.dimen.place_name_at_200) }
    private val marks = PlaceMarks(context)
    private val where = column(Gravity.START, name, marks)
    private val what = context.line(R.style.Text_Label)
    private val undo = column(Gravity.END, context.line(R.style.Text_Strong, label("label-undo")), what)

    init {
        addView(where, LayoutParams(0, LayoutParams.MATCH_PARENT, 1f))
        if (context.hasLargeText()) listOf(where, undo).forEach { it.setPaddingRelative(if (it == undo) 0 else it.paddingStart, it.paddingTop, if (it == where) 0 else it.paddingEnd, it.paddingBottom) }
        addView(undo, if (context.hasLargeText()) LayoutParams(0, LayoutParams.MATCH_PARENT, UNDO) else LayoutParams(LayoutParams.WRAP_CONTENT, LayoutParams.MATCH_PARENT))
    }

    /** Shows the place that the trip is in, under the name of the one [looked] at; the whole left part opens the list of places. */
    fun showPlace(place: Stage, looked: Stage?, open: () -> Unit) {
        val title = label((looked ?: place).title)
        for (part in listOf(where, undo)) part.minimumHeight = context.px(if (place in walkingPlaces) R.dimen.target_walking else R.dimen.target)
        val number = places.indexOf(looked ?: place)
        name.text = title
        marks.show(places.indexOf(place), number)
        val described = "$title, ${label("label-place-number", "${number + 1}")}"
        where.becomePart("$described. ${label("label-opens-places")}", open)
    }

    /** Shows what [act] would strike; without it there is nothing to undo and nothing stands there. */
    fun showUndo(struck: String?, act: () -> Unit) {
        undo.visibility = if (struck == null) View.GONE else View.VISIBLE
        what.text = struck.orEmpty()
        undo.becomePart(label("label-undo-what", struck.orEmpty()), act)
    }

    private companion object {
        /** Its share of the row beside the name when the text is large. */
        const val UNDO = 0.6f
    }

    private fun column(side: Int, vararg inside: View) = LinearLayout(context).apply {
        orientation = VERTICAL
        gravity = Gravity.CENTER_VERTICAL
        minimumWidth = context.px(R.dimen.target_walking)
        minimumHeight = context.px(R.dimen.target)
        setPadding(context.px(R.dimen.side), context.px(R.dimen.tight), context.px(R.dimen.side), context.px(R.dimen.tight))
        for (text in inside.filterIsInstance<TextView>()) text.gravity = side
        for (view in inside) addView(view, LayoutParams(LayoutParams.WRAP_CONTENT, LayoutParams.WRAP_CONTENT).apply { gravity = side })
    }
}

package gatepost.field.place

import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import gatepost.bridge.Answer
import gatepost.bridge.AnswerSeenLandform
import gatepost.bridge.Record
import gatepost.bridge.Snapshot
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Book
import gatepost.field.book.Bringing
import gatepost.field.book.Open
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.look.Row
import gatepost.field.look.line
import gatepost.field.look.px
import gatepost.field.look.said

/** The landforms near a place, nearest first, and what of the ground there is only counted or cannot be told. */
class Near(val landforms: List<AnswerSeenLandform>, val untold: List<String>)

/** The ground near the likeliest place. Over fine heights that takes the core seconds: it is asked once for each fix, beside all that is drawn. */
class GroundNear(private val hand: Hand, private val page: View, private val book: () -> Book) {
    private var of: List<Any?>? = null
    private var told = Near(emptyList(), emptyList())
    private var isAsked = false
    private val watching = mutableSetOf<() -> Unit>()

    /** What is known by now; nothing yet where it is still being asked. */
    fun known(): Near? {
        val wanted = hand.snapshot.stood()
        if (wanted != of) ask(wanted)
        return told.takeIf { wanted == of }
    }

    /** One question at a time; what was asked before another fix was taken is asked again. */
    private fun ask(wanted: List<Any?>) {
        if (isAsked) return
        isAsked = true
        val book = book()
        Bringing.background.execute {
            // Only the landforms are wanted of the answer: landmarks that are farther than a metre are left out.
            val answer = book.askAside { Record.Seen(it, null, null, 1.0, null) }
            val seen = answer as? Answer.Seen
            page.post { answered(wanted, Near(seen?.landforms.orEmpty(), seen?.untold.orEmpty())) }
        }
    }

    private fun answered(to: List<Any?>, near: Near) {
        isAsked = false
        of = to
        told = near
        for (show in watching.toList()) show()
    }

    fun watch(show: () -> Unit) = watching.add(show)

    fun unwatch(show: () -> Unit) = watching.remove(show)
}

/** By what the words change: the fix, the heights, the compass. */
private fun Snapshot.stood() = listOf(fixedAt, (fix?.places?.firstOrNull()?.reference ?: openFix?.places?.firstOrNull()?.reference), sheet?.ground, compass)

/** A row for each landform, a touch begins the bearing to it; below them what cannot be told. Nothing where the sheet has no heights. */
class GroundNearRows(private val hand: Hand) : LinearLayout(hand.context) {
    private val follow = ::show
    private val late = Runnable { if (hand.near.known() == null) put(listOf(context.said(label("label-ground-near-asked")))) }

    init {
        orientation = VERTICAL
        show()
    }

    private fun show() {
        val near = hand.near.known()
        val landforms = near?.landforms.orEmpty().map { one -> Row(context, null, "", one.told) { hand.go(hand.draft.opened(Open.ASK).copy(asked = What.LANDFORM, answers = listOf(one.kind))) } }
        val rows = landforms + near?.untold.orEmpty().map { context.said(it) }
        removeAllViews()
        visibility = if (rows.isEmpty()) GONE else VISIBLE
        if (rows.isNotEmpty()) put(rows)
    }

    private fun put(views: List<View>) {
        visibility = VISIBLE
        for (view in listOf(context.line(R.style.Text_Strong, label("label-ground-near"))) + views) {
            addView(view, LayoutParams(MATCH_PARENT, WRAP_CONTENT).apply { if (childCount > 0) topMargin = context.px(R.dimen.close) })
        }
    }

    override fun onAttachedToWindow() {
        super.onAttachedToWindow()
        hand.near.watch(follow)
        show()
        postDelayed(late, SOON_MS)
    }

    override fun onDetachedFromWindow() {
        super.onDetachedFromWindow()
        hand.near.unwatch(follow)
        removeCallbacks(late)
    }

    private companion object {
        /** What comes sooner needs no word before it. */
        const val SOON_MS = 200L
    }
}

package gatepost.field.page

import android.content.Context
import android.view.View
import android.widget.FrameLayout
import android.widget.LinearLayout
import android.widget.ScrollView
import android.widget.Space
import gatepost.field.R
import gatepost.field.look.hasLargeText
import gatepost.field.look.ink
import gatepost.field.look.isAcross
import gatepost.field.look.isLow
import gatepost.field.look.px

/**
 * The frame of every place: place row, strip, content that scrolls, foot that stays. When the text is large or the screen low
 * the place row rolls away with the content; the strip then stops at the top edge.
 */
class Page(context: Context) : LinearLayout(context) {
    val placeRow = PlaceRow(context)
    val strip = StripView(context)
    val content = column()
    val foot = Foot(context)
    private val scroll = ScrollView(context).apply { isFillViewport = true }

    init {
        orientation = VERTICAL
        setBackgroundColor(context.ink(R.attr.ink_paper))
        keepClearOfBars()
        content.accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
        content.setPadding(context.px(R.dimen.side), 0, context.px(R.dimen.side), context.px(R.dimen.section))
        if (context.isAcross()) beside() else if (context.hasLargeText() || context.isLow()) rolling() else standing()
    }

    /** Puts other views into the content, from the top; [grows] takes the height that is left. */
    fun fill(views: List<View>, grows: View? = null) {
        val at = scroll.scrollY
        content.removeAllViews()
        for (view in views) content.addView(view, wide().apply { topMargin = context.px(R.dimen.between_targets); if (view === grows) weight = 1f })
        content.setPadding(content.paddingLeft, 0, content.paddingRight, context.px(if (grows == null) R.dimen.section else R.dimen.between_targets))
        scroll.scrollTo(0, at)
    }

    /** Rolls to the top, as for a new screen. */
    fun rollUp() = scroll.scrollTo(0, 0)

    private fun standing() {
        addView(placeRow, wide())
        addView(strip, wide())
        scroll.addView(content)
        addView(scroll, LayoutParams(LayoutParams.MATCH_PARENT, 0, 1f))
        addView(foot, wide())
    }

    /** Across the hand the frame stands at the side, as wide as a narrow phone, and the content has the whole height. */
    private fun beside() {
        orientation = HORIZONTAL
        val frame = column()
        for (view in listOf(placeRow, strip, Space(context), foot)) frame.addView(view, wide().apply { if (view is Space) weight = 1f })
        val edge = View(context).apply { setBackgroundColor(context.ink(R.attr.ink_divider)) }
        scroll.addView(content)
        addView(frame, LayoutParams(context.px(R.dimen.frame_beside), LayoutParams.MATCH_PARENT))
        addView(edge, LayoutParams(context.px(R.dimen.divider), LayoutParams.MATCH_PARENT))
        addView(scroll, LayoutParams(0, LayoutParams.MATCH_PARENT, 1f))
    }

    private fun rolling() {
        val room = Space(context)
        val all = column()
        for (view in listOf(placeRow, room, content)) all.addView(view, wide().apply { if (view === content) weight = 1f })
        scroll.addView(all)
        val over = FrameLayout(context)
        for (view in listOf(scroll, strip)) over.addView(view)
        addView(over, LayoutParams(LayoutParams.MATCH_PARENT, 0, 1f))
        addView(foot, wide())
        strip.addOnLayoutChangeListener { _, _, top, _, bottom, _, _, _, _ -> room.minimumHeight = bottom - top; rest() }
        all.addOnLayoutChangeListener { _, _, _, _, _, _, _, _, _ -> rest() }
        scroll.setOnScrollChangeListener { _, _, _, _, _ -> rest() }
    }

    /** The strip stands below the place row, or at the top edge once that has rolled away. */
    private fun rest() {
        strip.translationY = ((if (placeRow.visibility == GONE) 0 else placeRow.height) - scroll.scrollY).coerceAtLeast(0).toFloat()
    }

    private fun column() = LinearLayout(context).apply { orientation = VERTICAL }

    private fun wide() = LayoutParams(LayoutParams.MATCH_PARENT, LayoutParams.WRAP_CONTENT)
}

package gatepost.field.audit

import android.graphics.Rect
import android.text.Spanned
import android.text.style.ForegroundColorSpan
import android.view.View
import android.widget.TextView
import gatepost.field.contrast
import gatepost.field.draw
import gatepost.field.page.Page
import gatepost.field.page.StripView
import gatepost.field.tree

/** What a page must keep to, read off the laid out views and their picture. On a [page] of a walking place targets are larger. */
class Audit(root: View, private val leastContrast: Double, page: Page? = null) {
    private val density = root.resources.displayMetrics.density
    val picture = draw(root)
    private val pixels = picture.pixels()
    private val views = tree(root)
    private val strip = views.filterIsInstance<StripView>().firstOrNull()
    private val inStrip = strip?.let(::tree).orEmpty().toSet()
    private val walking = page?.let { tree(it) }.orEmpty().toSet()

    /** Every rule that is broken, in words. */
    fun findings(): List<String> {
        val shown = views.filter { it.isShown && !visible(it).isEmpty }
        return shown.filter { it.isClickable }.flatMap(::ofTarget) + shown.filterIsInstance<TextView>().flatMap { if (it.text.isNotBlank()) ofText(it) else ofHint(it) }
    }

    private fun ofTarget(view: View): List<String> {
        val node = view.createAccessibilityNodeInfo()
        val (wide, high) = listOf(view.width, view.height).map { Math.round(it / density) }
        return listOfNotNull(
            "${name(view)}: nothing to read out".takeIf { listOf(node.text, node.contentDescription).all { it.isNullOrBlank() } },
            "${name(view)}: $wide x $high dp".takeIf { wide < least(view) || high < least(view) },
        )
    }

    private fun least(view: View) = if (view in walking) WALKING_DP else TARGET_DP

    private fun ofText(view: TextView): List<String> {
        if (visible(view).height() < minOf(view.lineHeight, view.height)) return emptyList()
        val least = inks(view).minOf { contrast(it, ground(view)) }
        return listOfNotNull(
            "${name(view)}: contrast ${"%.1f".format(least)}".takeIf { least < leastContrast },
            "${name(view)}: letters of ${view.textSize / density} dp".takeIf { view.textSize < LETTERS_DP * density },
            "${name(view)}: broken word".takeIf { breaksWord(view) },
            "${name(view)}: number and unit parted".takeIf { partsUnit(view) },
            "${name(view)}: cut".takeIf { isCut(view) },
        )
    }

    /** What stands in an empty field. */
    private fun ofHint(view: TextView): List<String> {
        val hint = view.hint?.toString().orEmpty()
        val room = view.width - view.paddingLeft - view.paddingRight
        val lines = Math.round((view.height - view.paddingTop - view.paddingBottom) / view.lineHeight.toFloat())
        return listOfNotNull("$hint: cut".takeIf { view.paint.measureText(hint) > room * if (view.isHorizontallyScrollable) 1 else lines })
    }

    /** The view's own colour and those of its spans. */
    private fun inks(view: TextView): List<Int> {
        val shown = view.text
        val spans = if (shown is Spanned) shown.getSpans(0, shown.length, ForegroundColorSpan::class.java).map { it.foregroundColor } else emptyList()
        return spans + view.currentTextColor
    }

    /** Where the view can be seen: what rolls under the strip cannot. */
    private fun visible(view: View): Rect {
        val at = Rect().also { if (!view.getGlobalVisibleRect(it)) it.setEmpty() }
        if (strip == null || view !is TextView || view in inStrip) return at
        val over = Rect().also(strip::getGlobalVisibleRect)
        if (Rect.intersects(at, over)) at.top = minOf(over.bottom, at.bottom)
        return at
    }

    /** The most frequent colour within the view, whatever drew it. */
    private fun ground(view: View): Int = visible(view).run { mostFrequent(pixels, picture.width, left, top, right, bottom) }

    private fun breaksWord(view: TextView): Boolean = view.layout.run {
        (1 until lineCount).map(::getLineStart).any { text[it - 1].isLetterOrDigit() && text[it].isLetterOrDigit() }
    }

    private fun partsUnit(view: TextView): Boolean = view.layout.run {
        (1 until lineCount).map(::getLineStart).any { NUMBER.containsMatchIn(text.take(it)) && UNIT.containsMatchIn(text.drop(it)) || SPREAD.containsMatchIn(text.take(it)) }
    }

    /** Dots of omission, lines that the view has no height for, or a line wider than the view. */
    private fun isCut(view: TextView): Boolean = view.layout.run {
        val room = view.height - view.paddingTop - view.paddingBottom
        val lines = 0 until lineCount
        height > room || lines.any { getEllipsisCount(it) > 0 || getLineMax(it) > view.width - view.paddingLeft - view.paddingRight + 1 }
    }

    private fun name(view: View) = (view as? TextView)?.text?.take(24) ?: view.contentDescription ?: view.javaClass.simpleName

    private companion object {
        const val TARGET_DP = 64
        const val WALKING_DP = 76
        const val LETTERS_DP = 15
        val NUMBER = Regex("[0-9°_][ \u00a0]$")
        val UNIT = Regex("^(%|m|km|s|min|h|mil|mag|grid|true|µT|double paces)(?![a-zA-Z])")
        val SPREAD = Regex("±[ \u00a0]$")
    }
}

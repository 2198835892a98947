package gatepost.field.place

import android.content.Context
import android.view.View
import android.widget.Space
import gatepost.field.look.hasLargeText

/** The keys of a pad: figures from 0, what takes figures away, and words for what a bearing is counted in and from. */
class PadKeys(
    private val figures: List<View>, private val off: View, private val clear: View,
    private val unit: View?, private val phone: View?, private val north: View?, private val own: View?,
) {
    /** A key more in the rows would leave the screen. */
    fun besideFigures(context: Context, asks: Asks): View? = (if (asks == Asks.TURN) unit else own).takeIf { context.isRoomy() }

    /** In rows, by the room there is: words at the side, or below where they would be too narrow or too low. */
    fun rows(context: Context, asks: Asks): List<List<View>> = when {
        context.hasLargeText() -> digits() + listOf(listOf(room(context), figures[0], room(context))) + listOfNotNull(off, clear, unit, phone, north, own).map { listOf(it) }
        !asks.isBearing -> digits() + listOf(listOf(off, figures[0], clear))
        asks.isWalking -> digits() + listOf(listOfNotNull(off, figures[0], north)) + listOfNotNull(unit).filter { besideFigures(context, asks) == null }.map { listOf(it) }
        context.isNarrow() -> digits() + listOf(listOf(off, figures[0], clear), listOfNotNull(unit, phone, north)) + listOfNotNull(own).map { listOf(it) }
        else -> atTheSide(context) + listOfNotNull(own).filter { !context.isRoomy() }.map { listOf(it) }
    }

    private fun digits() = figures.drop(1).chunked(3)

    private fun atTheSide(context: Context): List<List<View>> {
        val side = listOf(off, clear, unit ?: room(context))
        return digits().zip(side) { row, word -> row + word } + listOf(listOf(phone ?: room(context), figures[0], room(context), north ?: room(context)))
    }

    private fun room(context: Context) = Space(context)
}

private fun Context.isNarrow() = resources.configuration.screenWidthDp < NARROW

/** Whether something has room beside the figures. */
fun Context.isRoomy() = !isNarrow() && resources.configuration.fontScale < LARGER

private const val NARROW = 340
private const val LARGER = 1.15f

package gatepost.field.place

import android.content.Context
import android.view.View
import android.widget.Space
import gatepost.field.look.hasLargeText

/** The keys of a pad: figures from 0, what takes figures away, and words. */
class PadKeys(private val figures: List<View>, private val off: View, private val clear: View, private val words: List<View>) {
    /** In rows, by the room there is: words at the side, or below where they would be too narrow or too low. */
    fun rows(context: Context, asks: Asks): List<List<View>> = when {
        context.hasLargeText() -> digits() + listOf(listOf(room(context), figures[0], room(context))) + (listOf(off, clear) + words).map { listOf(it) }
        !asks.isBearing -> digits() + listOf(listOf(off, figures[0], clear))
        asks.isWalking -> digits() + listOf(listOf(off, figures[0], words.last()), listOf(clear) + words.dropLast(1))
        context.resources.configuration.screenWidthDp < NARROW -> digits() + listOf(listOf(off, figures[0], clear), words)
        else -> atTheSide(context)
    }

    private fun digits() = figures.drop(1).chunked(3)

    private fun atTheSide(context: Context): List<List<View>> {
        val side = listOf(off, clear) + words.first()
        return digits().zip(side) { row, word -> row + word } + listOf(listOf(words[1], figures[0], room(context), words.last()))
    }

    private fun room(context: Context) = Space(context)

    private companion object {
        const val NARROW = 340
    }
}

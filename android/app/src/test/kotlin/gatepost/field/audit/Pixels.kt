package gatepost.field.audit

import android.graphics.Bitmap

/** All its colours, row by row. */
fun Bitmap.pixels() = IntArray(width * height).also { getPixels(it, 0, width, 0, 0, width, height) }

/** Counted without boxing and sorting: for every text of every screen that would take minutes. */
fun mostFrequent(pixels: IntArray, width: Int, left: Int, top: Int, right: Int, bottom: Int): Int {
    val tally = ColourTally()
    for (y in top until bottom) for (at in y * width + left until y * width + right) tally.count(pixels[at])
    return tally.most()
}

/** Whether there are more colours than so many; looks no farther than it must. */
fun hasMoreColours(pixels: IntArray, than: Int): Boolean {
    val tally = ColourTally()
    return pixels.any { tally.count(it); tally.size > than }
}

/** A hash table with open addresses, from colours to counts. */
private class ColourTally {
    private var colours = IntArray(FIRST)
    private var counts = IntArray(FIRST)
    var size = 0
        private set

    fun count(colour: Int, times: Int = 1) {
        val at = place(colour)
        if (counts[at] == 0) size++
        colours[at] = colour
        counts[at] += times
        if (size * 2 > colours.size) grow()
    }

    fun most(): Int {
        var most = 0
        for (at in counts.indices) if (counts[at] > counts[most]) most = at
        return colours[most]
    }

    private fun place(colour: Int): Int {
        var at = colour * SPREAD ushr 16 and colours.size - 1
        while (counts[at] > 0 && colours[at] != colour) at = at + 1 and colours.size - 1
        return at
    }

    private fun grow() {
        val (before, times) = colours to counts
        colours = IntArray(before.size * 2)
        counts = IntArray(before.size * 2)
        size = 0
        for (at in before.indices) if (times[at] > 0) count(before[at], times[at])
    }

    private companion object {
        const val FIRST = 1024
        const val SPREAD = -1640531527
    }
}

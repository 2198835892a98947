package gatepost.field.chart

import android.graphics.Rect

/** What of an enlarged drawing is shown: how many times as large it is, and the corner where the view begins. Lengths are dp. */
class Cut(val zoom: Float = 1f, val left: Float = 0f, val top: Float = 0f, private val wide: Float = 0f, private val high: Float = 0f) {
    /** The same middle, or that of [area], at another size. */
    fun at(zoom: Float, wide: Float, high: Float, area: Area?): Cut {
        val scale = zoom / this.zoom
        val x = area?.run { x + width / 2 } ?: ((left + this.wide / 2) * scale)
        val y = area?.run { y + height / 2 } ?: ((top + this.high / 2) * scale)
        return Cut(zoom, corner(x, wide, zoom), corner(y, high, zoom), wide, high)
    }

    private fun corner(middle: Float, size: Float, zoom: Float) = (middle - size / 2).coerceIn(0f, (size * zoom - size).coerceAtLeast(0f))

    fun place(area: Area, density: Float): Rect {
        val x = (area.x - left) * density
        val y = (area.y - top) * density
        return Rect(x.toInt(), y.toInt(), (x + area.width * density).toInt(), (y + area.height * density).toInt())
    }
}

package gatepost.field.look

import android.util.TypedValue
import android.widget.TextView

/** The scale at which the second end of a growing size is reached. */
private const val FULL = 2f

/**
 * Sets the size of a figure that is large already. It runs straight from [least] at ordinary text to [at200] at 200 %, so that it
 * grows less than other text and still stays larger; both are dimensions in dp.
 */
fun TextView.grow(least: Int, at200: Int) {
    val scale = resources.configuration.fontScale.coerceIn(1f, FULL)
    val from = resources.getDimension(least)
    val to = resources.getDimension(at200)
    setTextSize(TypedValue.COMPLEX_UNIT_PX, from + (to - from) * (scale - 1f))
}

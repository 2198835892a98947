package gatepost.field.look

import android.content.Context
import android.util.TypedValue
import android.view.View
import android.widget.Button
import android.widget.TextView
import gatepost.field.R

/** The colour that the theme gives a role. */
fun Context.ink(role: Int): Int = TypedValue().let {
    require(theme.resolveAttribute(role, it, true)) { "the theme has no such ink" }
    it.data
}

/** A size from the resources in whole pixels. */
fun Context.px(size: Int): Int = resources.getDimensionPixelSize(size)

/** From here on columns become rows and the place row rolls away; on a narrow screen sooner. */
fun Context.hasLargeText(): Boolean = resources.configuration.run { fontScale >= if (screenWidthDp < 340) 1.15f else 1.5f }

/** A screen this low leaves the content too little room between place row, strip and foot. */
fun Context.isLow(): Boolean = resources.configuration.screenHeightDp < 480

/** A screen this short shows a drawing and nothing below it. */
fun Context.isShort(): Boolean = resources.configuration.screenHeightDp < 600

/** Upright, and so short that what is done while walking fits only without the place row. */
fun Context.isTight(): Boolean = isShort() && !isAcross()

/** A low screen that is wide: there is room for the frame beside the content. */
fun Context.isAcross(): Boolean = isLow() && !hasLargeText() && resources.configuration.screenWidthDp >= 600

/** A text in one of the text styles. */
fun Context.line(style: Int, said: CharSequence = ""): TextView = TextView(this, null, 0, style).apply { text = said }

/** A button in one of the button styles. */
fun Context.button(style: Int, label: CharSequence, act: () -> Unit): Button = Button(this, null, 0, style).apply {
    text = label
    setOnClickListener { act() }
}

/** Makes a view a bare part of the page that can be touched as a whole, with one name for a screen reader. */
fun View.becomePart(described: CharSequence, act: () -> Unit) {
    setBackgroundResource(R.drawable.part)
    contentDescription = described
    isFocusable = true
    setOnClickListener { act() }
}

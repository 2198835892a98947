package gatepost.field.page

import android.os.Build
import android.view.View
import android.view.WindowInsets
import gatepost.field.NewerApi

/** Keeps a view clear of the system's bars, of a cut-out in the screen and of a keyboard. */
fun View.keepClearOfBars() = setOnApplyWindowInsetsListener { view, insets ->
    if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) view.padBy(insets) else view.padByOlder(insets)
    insets
}

@NewerApi
private fun View.padBy(insets: WindowInsets) {
    val taken = insets.getInsets(WindowInsets.Type.systemBars() or WindowInsets.Type.displayCutout() or WindowInsets.Type.ime())
    setPadding(taken.left, taken.top, taken.right, taken.bottom)
}

@Suppress("DEPRECATION")
private fun View.padByOlder(insets: WindowInsets) =
    setPadding(insets.systemWindowInsetLeft, insets.systemWindowInsetTop, insets.systemWindowInsetRight, insets.systemWindowInsetBottom)

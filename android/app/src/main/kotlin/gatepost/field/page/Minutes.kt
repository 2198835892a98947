package gatepost.field.page

import android.view.View

/** Does something each minute while the window is looked at. */
class Minutes(private val page: View, private val act: () -> Unit) : Runnable {
    fun begin() {
        page.postDelayed(this, MINUTE_MS)
    }

    fun end() {
        page.removeCallbacks(this)
    }

    override fun run() {
        act()
        begin()
    }

    private companion object {
        const val MINUTE_MS = 60_000L
    }
}

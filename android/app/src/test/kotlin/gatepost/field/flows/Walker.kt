package gatepost.field.flows

import android.content.res.Configuration
import android.graphics.Rect
import android.view.View
import android.widget.EditText
import android.widget.TextView
import gatepost.field.FieldActivity
import gatepost.field.idle
import gatepost.field.launch
import gatepost.field.tap
import gatepost.field.texts
import gatepost.field.tree
import org.junit.Assert.assertTrue

/** Somebody with the phone in the hand. Every touch is a real one and counted; figures are not. */
class Walker {
    private var controller = launch()
    val activity: FieldActivity get() = controller.get()
    var touches = 0

    /** What can be touched and is called so. */
    fun find(label: String): View {
        val shown = tree(activity.window!!.decorView).filter { it.isClickable && it.isShown }
        return checkNotNull(shown.firstOrNull { name(it) == label } ?: shown.firstOrNull { name(it).startsWith(label) }) { "$label in ${shown.map(::name)}" }
    }

    private fun name(view: View) = (view.contentDescription ?: (view as? TextView)?.text ?: "").toString()

    fun touch(label: String) {
        touches++
        press(label)
    }

    private fun press(label: String) {
        val view = find(label)
        view.requestRectangleOnScreen(Rect(0, 0, view.width, view.height), true)
        tap(view)
    }

    fun figures(typed: String) = typed.forEach { press("$it") }

    /** Words come from the system's keyboard. */
    fun words(typed: String) {
        tree(activity.page.content).filterIsInstance<EditText>().single().setText(typed)
        idle()
    }

    fun undo() = touch("Undo: ")

    /** The system's own key. */
    @Suppress("DEPRECATION")
    fun back() {
        activity.onBackPressed()
        idle()
    }

    fun sees(words: String) {
        val seen = texts(activity.window!!.decorView)
        assertTrue("$words in $seen", seen.any { words in it })
    }

    /** The phone is turned: the system makes the window anew. */
    fun turnPhone() {
        val (before, turned) = activity to Configuration(activity.resources.configuration)
        turned.orientation = Configuration.ORIENTATION_LANDSCAPE + Configuration.ORIENTATION_PORTRAIT - turned.orientation
        controller.configurationChange(turned).visible()
        check(activity !== before) { "the window is the same" }
        idle()
    }

    /** The process goes without a word: the system takes its window, nothing is called any more, the book is not shut. Then the app is opened again. */
    fun kill() {
        activity.run { windowManager.removeViewImmediate(window.decorView) }
        controller = launch()
    }
}

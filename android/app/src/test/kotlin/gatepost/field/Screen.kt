package gatepost.field

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.os.SystemClock
import android.view.MotionEvent
import android.view.View
import android.view.ViewGroup
import android.widget.Button
import android.widget.TextView
import androidx.test.platform.app.InstrumentationRegistry
import gatepost.bridge.Record
import java.io.File
import java.time.Clock
import java.util.WeakHashMap
import java.util.concurrent.TimeUnit
import org.robolectric.Robolectric
import org.robolectric.android.controller.ActivityController
import org.robolectric.shadows.ShadowLooper

fun launch(clock: Clock = Clock.systemDefaultZone()): ActivityController<FieldActivity> {
    FieldActivity.clock = clock
    return Robolectric.buildActivity(FieldActivity::class.java).setup().also { idle() }.also { controllers[it.get()] = it }
}

private val controllers = WeakHashMap<FieldActivity, ActivityController<FieldActivity>>()

/** Ends the window and shuts its book: one that stays goes on drawing beside the next. */
fun FieldActivity.end() {
    controllers.remove(this)?.pause()?.stop()?.destroy()
}

/** Lets posted work run; views that were added late have no place before it. No longer, or all that fades is drawn frame by frame. */
fun idle() = ShadowLooper.idleMainLooper(100, TimeUnit.MILLISECONDS)

/** Tells the core a record from outside a screen. */
fun FieldActivity.tell(record: (at: String) -> Record) = tell(draft, record)

/** A view and everything in it. */
fun tree(view: View): List<View> =
    listOf(view) + if (view is ViewGroup) List(view.childCount, view::getChildAt).flatMap(::tree) else emptyList()

/** All that stands on a page to be read, one below the other. */
fun texts(view: View): List<String> = tree(view).filterIsInstance<TextView>().filter { it.isShown }.map { it.text.toString() }

fun buttons(view: View): List<Button> = tree(view).filterIsInstance<Button>()

/** The picture of a laid out view. */
fun draw(view: View): Bitmap = Bitmap.createBitmap(view.width, view.height, Bitmap.Config.ARGB_8888).also { view.draw(Canvas(it)) }

/** Keeps a picture for the eye, in a folder that git ignores. */
fun save(picture: Bitmap, name: String) {
    val file = File(checkNotNull(System.getProperty("gatepost.shots")), "$name.png")
    file.parentFile?.mkdirs()
    file.outputStream().use { picture.compress(Bitmap.CompressFormat.PNG, 100, it) }
}

/** The contrast of two colours as WCAG 2 defines it. */
fun contrast(one: Int, other: Int): Double {
    val (light, dark) = listOf(one, other).map { Color.luminance(it).toDouble() }.sortedDescending()
    return (light + 0.05) / (dark + 0.05)
}

/** Whether one view ends above another. */
fun View.standsAbove(other: View): Boolean {
    val (mine, its) = listOf(this, other).map { view -> IntArray(2).also(view::getLocationOnScreen)[1] }
    return mine + height <= its
}

/** A finger on the middle of a view, through the window's own hit testing. */
fun tap(view: View) {
    idle()
    val corner = IntArray(2).also(view::getLocationOnScreen)
    val now = SystemClock.uptimeMillis()
    for (action in listOf(MotionEvent.ACTION_DOWN, MotionEvent.ACTION_UP)) {
        val event = MotionEvent.obtain(now, now, action, corner[0] + view.width / 2f, corner[1] + view.height / 2f, 0)
        check(InstrumentationRegistry.getInstrumentation().uiAutomation.injectInputEvent(event, true))
        event.recycle()
    }
    idle()
}

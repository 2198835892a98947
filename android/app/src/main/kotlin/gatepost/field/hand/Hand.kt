package gatepost.field.hand

import android.content.Context
import android.view.View
import gatepost.bridge.Record
import gatepost.bridge.Snapshot
import gatepost.field.book.Draft
import gatepost.field.book.Told
import gatepost.field.chart.Chart
import gatepost.field.phone.Phone
import gatepost.field.place.GroundNear

/** What the places ask of the window. */
interface Hand {
    val context: Context
    val snapshot: Snapshot
    val draft: Draft
    val pulse: Pulse
    val phone: Phone
    val near: GroundNear

    /** Keeps what is half done; the screen stays as it is. */
    fun keep(draft: Draft)

    /** Keeps what is half done and shows the screen that it belongs to. */
    fun go(draft: Draft)

    /** Tells the core one record. Taken, it shows the screen of [after]; refused, it says why and leaves all as it is. */
    fun tell(after: Draft, record: (at: String) -> Record): Boolean = tell({ after }, record)

    /** The same where what is half done then follows from how things stand then. */
    fun tell(after: (Snapshot) -> Draft, record: (at: String) -> Record): Boolean

    /** What the core says to a question. */
    fun ask(question: (at: String) -> Record): Told

    /** A drawing of the core. */
    fun chart(of: String, width: Double, height: Double, letters: Double): Chart?

    /** Shows a drawing on the whole screen. */
    fun showChart(of: String)

    /** Lets the walker choose a file with a sheet. */
    fun openSheet()

    /** Lets the walker choose a file with heights, or with lines and landmarks, for the sheet that is carried. */
    fun bringFile()

    /** Stands above the screen until something else is done. */
    fun warn(what: String?)

    fun undo()
}

/** A thing to do, in the walker's words. */
class Step(val label: CharSequence, val act: () -> Unit)

/**
 * A screen: what stands in the content, which of it takes the height that is left, and what stands in the foot, the likeliest last.
 * The keys of the volume touch what [counts]. Where the step cannot be taken yet, the foot says what it [lacks]. What [isTall] needs the room of the place row on a short screen.
 */
class Shown(val views: List<View?>, val steps: List<Step>, val grows: View? = null, val counts: View? = null, val lacks: String? = null, val isTall: Boolean = false)

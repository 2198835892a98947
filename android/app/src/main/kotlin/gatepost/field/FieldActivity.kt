package gatepost.field

import android.app.Activity
import android.content.Context
import android.content.Intent
import android.os.Bundle
import android.view.KeyEvent
import android.view.View
import gatepost.bridge.Record
import gatepost.bridge.Snapshot
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.book.BROUGHT_FILE
import gatepost.field.book.ChosenFile
import gatepost.field.book.Draft
import gatepost.field.book.Open
import gatepost.field.book.ReadFile
import gatepost.field.book.SHEET_FILE
import gatepost.field.book.Shelf
import gatepost.field.book.Told
import gatepost.field.book.chooseFile
import gatepost.field.book.mark
import gatepost.field.book.sentence
import gatepost.field.book.title
import gatepost.field.book.walkingPlaces
import gatepost.field.hand.Hand
import gatepost.field.hand.Pulse
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Lighting
import gatepost.field.look.lights
import gatepost.field.page.Minutes
import gatepost.field.page.Page
import gatepost.field.page.cells
import gatepost.field.page.put
import gatepost.field.phone.Needle
import gatepost.field.phone.Phone
import gatepost.field.phone.PhoneClock
import gatepost.field.phone.Receiver
import gatepost.field.phone.SystemLeave
import gatepost.field.phone.SystemNeedle
import gatepost.field.phone.SystemReceiver
import gatepost.field.place.FileIn
import gatepost.field.place.GroundNear
import gatepost.field.place.WholeChart
import gatepost.field.place.carry
import gatepost.field.place.isCountedBy
import gatepost.field.place.noBook
import gatepost.field.place.screen
import gatepost.field.place.strike
import gatepost.field.place.wouldStrike
import java.time.Clock

/** The one window. It opens the field book and shows the screen of the place that the trip is in. */
class FieldActivity : Activity(), Hand {
    lateinit var page: Page
        private set
    private val shelf by lazy { Shelf(filesDir, clock) }
    private var state: Snapshot? = null
    private var refusal: String? = null

    /** Why what is half done is not kept. */
    private var unkept: String? = null

    /** What is shown over the screen for once: the choice of the light, an entry before it is struck. */
    private var aside: Shown? = null

    private val files by lazy { FileIn(this, page, shelf::opened, ::showAside, ::brought, lastNonConfigurationInstance as? ReadFile) }

    /** The count, while it is on the screen. */
    private var tile: View? = null

    override val context: Context get() = this
    override val snapshot get() = checkNotNull(state) { "no book" }
    override var draft = Draft()
        private set
    override val pulse by lazy { Pulse(this) }
    override val near by lazy { GroundNear(this, page, shelf::opened) }
    override val phone by lazy { Phone(receiver(this), SystemLeave(this), needle(this)) }

    override fun onCreate(saved: Bundle?) {
        setTheme(Lighting.of(this).theme)
        super.onCreate(saved)
        page = Page(this)
        setContentView(page)
        page.strip.onOpen = { cell -> if (files.isOnItsWay) Unit else if (cell == LIGHT || cell == null) showAside(lights()) else if (state?.stage in walkingPlaces) go(draft.opened(Open.WHERE)) }
    }

    /** Ages and light have moved on while the window was away. The file is tried anew when it could not be opened before. */
    override fun onStart() {
        super.onStart()
        if (!files.isOnItsWay) {
            val asked = files.asked
            begin()
            if (state != null) asked?.let(files::askNext)
        }
        minutes.begin()
    }

    override fun onStop() {
        minutes.end()
        phone.rest()
        super.onStop()
    }

    private fun begin() {
        refusal = null
        state = shelf.look()
        draft = Draft.of(state?.draft.orEmpty()).since(state?.mark.orEmpty())
        show()
    }

    /** The logbook that cannot be opened makes room for a new one, and is there still. */
    private fun keepAside() {
        val name = shelf.keepAside()
        begin()
        if (name != null) warn(label("label-kept-aside", name))
    }

    /** Ages and light move on while the window is looked at; nothing else is drawn anew. */
    private val minutes by lazy { Minutes(page) { if (!files.isOnItsWay) { state = shelf.book?.look() ?: state; frame() } } }

    /** A window that is made anew, because the phone was turned, goes on with the file that was asked about. */
    @Deprecated("The call that Android 8 knows")
    override fun onRetainNonConfigurationInstance(): Any? = files.asked

    override fun onDestroy() {
        files.stop()
        pulse.end()
        shelf.shut()
        super.onDestroy()
    }

    override fun keep(draft: Draft) {
        this.draft = draft.copy(at = state?.mark.orEmpty())
        val told = shelf.tell { Record.Draft(this.draft.text()) }
        state = told.snapshot ?: state
        val why = if (told.refused) told.said.firstOrNull() else null
        if (why == unkept) return
        unkept = why
        if (why != null) pulse.refused()
        show()
    }

    override fun go(draft: Draft) {
        val isNew = draft.open != this.draft.open || draft.answers != this.draft.answers
        keep(draft)
        refusal = null
        show()
        if (isNew) page.rollUp()
    }

    override fun tell(after: (Snapshot) -> Draft, record: (at: String) -> Record): Boolean {
        val told = shelf.tell(record)
        state = told.snapshot ?: state
        if (told.refused) refuse(told.said.firstOrNull()) else go(after(snapshot).copy(said = told.said))
        page.rollUp()
        return !told.refused
    }

    override fun ask(question: (at: String) -> Record): Told = shelf.tell(question)

    override fun chart(of: String, width: Double, height: Double, letters: Double) = shelf.book?.chart(of, width, height, letters)

    override fun showChart(of: String) = WholeChart(this, of).let { showAside(Shown(listOf(it), emptyList(), grows = it)) }

    override fun openSheet() = chooseFile(SHEET_FILE) { go(draft.typingSheet()) }

    override fun bringFile() = chooseFile(BROUGHT_FILE) { refuse(label("label-no-file-chooser")) }

    @Deprecated("The call that Android 8 knows")
    override fun onActivityResult(request: Int, result: Int, data: Intent?) {
        if (result != RESULT_OK || data == null) return
        val file = ChosenFile(contentResolver, data)
        if (request == SHEET_FILE) files.readSheet(file) { carry(it) }
        if (request == BROUGHT_FILE) files.read(file)
    }

    private fun brought(told: Told) {
        state = told.snapshot ?: state
        if (told.refused) refuse(told.said.firstOrNull()) else go(draft.shut().copy(said = told.said))
    }

    private fun refuse(why: String?) = pulse.refused().also { warn(why) }

    override fun warn(what: String?) {
        refusal = what
        show()
        page.rollUp()
    }

    override fun onRequestPermissionsResult(request: Int, names: Array<out String>, results: IntArray) {
        SystemLeave.answer(request, results)?.let(phone.place::answered)
    }

    /** A fresh entry is struck at once; an older one is shown first, and the foot asks for the second touch. */
    override fun undo() = if (shelf.book?.hasFreshEntry == true) strike() else showAside(wouldStrike())

    @Deprecated("The call that Android 8 knows")
    override fun onBackPressed() = when {
        files.isOnItsWay -> files.stop()
        aside != null -> show()
        draft.open != Open.NOTHING -> go(draft.back())
        else -> super.onBackPressed()
    }

    /** The volume keys count while one walks. */
    override fun dispatchKeyEvent(event: KeyEvent): Boolean = tile?.isCountedBy(event) == true || super.dispatchKeyEvent(event)

    private fun show() {
        aside = null
        files.leave()
        val cautions = listOfNotNull(shelf.trouble?.sentence, unkept, refusal)
        fill(if (state == null) noBook(shelf.isUnreadable, ::keepAside, ::begin) else screen(), cautions.joinToString("\n").ifEmpty { null })
        frame()
    }

    private fun showAside(shown: Shown) {
        aside = shown
        fill(shown, null)
        page.rollUp()
    }

    private fun fill(shown: Shown, caution: String?) {
        tile = shown.counts
        // The volume keys count only while the screen is lit.
        page.keepScreenOn = tile != null
        val leave = Step(label("label-leave")) { if (aside != null) show() else go(draft.left()) }.takeIf { !files.isOnItsWay && (aside != null || draft.open.isLeft) }
        page.put(shown, caution, leave, isAlone = files.isOnItsWay || shown.grows != null && aside != null)
    }

    private fun frame() {
        val place = state?.stage ?: Stage.BEFORE
        title = label(place.title)
        page.placeRow.showPlace(place, draft.looked) { go(draft.opened(Open.PLACES)) }
        page.placeRow.showUndo(state?.undo, ::undo)
        page.strip.show(cells(state), place in walkingPlaces)
    }

    companion object {
        /** The clock and the senses of the phone; a test puts others in their place. */
        var clock: Clock = PhoneClock
        var receiver: (Context) -> Receiver = { SystemReceiver(it) }
        var needle: (Context) -> Needle = { SystemNeedle(it) }

        private const val LIGHT = 2
    }
}

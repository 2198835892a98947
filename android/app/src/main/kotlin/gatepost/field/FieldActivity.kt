package gatepost.field

import android.app.Activity
import android.content.Context
import android.os.Bundle
import android.view.KeyEvent
import android.view.View
import gatepost.bridge.GatepostException
import gatepost.bridge.Record
import gatepost.bridge.Snapshot
import gatepost.bridge.Stage
import gatepost.field.book.Book
import gatepost.field.book.Draft
import gatepost.field.book.Open
import gatepost.field.book.Told
import gatepost.field.book.sentence
import gatepost.field.book.title
import gatepost.field.hand.Hand
import gatepost.field.hand.Pulse
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.Lighting
import gatepost.field.look.button
import gatepost.field.look.hasLargeText
import gatepost.field.look.line
import gatepost.field.page.Page
import gatepost.field.page.cells
import gatepost.field.place.screen

/** The one window. It opens the field book and shows the screen of the place that the trip is in. */
class FieldActivity : Activity(), Hand {
    lateinit var page: Page
        private set
    private var book: Book? = null
    private var state: Snapshot? = null
    private var refusal: String? = null

    /** What is shown over the screen for once: the choice of the light, an entry before it is struck. */
    private var aside: Shown? = null

    /** The count, while it is on the screen. */
    private var tile: View? = null

    override val context: Context get() = this
    override val snapshot get() = checkNotNull(state) { "no book" }
    override var draft = Draft()
        private set
    override val pulse by lazy { Pulse(this) }

    override fun onCreate(saved: Bundle?) {
        setTheme(Lighting.of(this).theme)
        super.onCreate(saved)
        page = Page(this)
        setContentView(page)
        page.strip.onOpen = { cell -> if (cell == LIGHT || cell == null) askForLight() else if (state?.stage == Stage.ON_FOOT) go(draft.opened(Open.WHERE)) }
    }

    /** Ages and light have moved on while the window was away. The file is tried anew when it could not be opened before. */
    override fun onStart() {
        super.onStart()
        begin()
    }

    private fun begin() {
        val told = take { Record.Where(it) }
        state = told.snapshot
        draft = Draft.of(state?.draft.orEmpty())
        refusal = told.said.firstOrNull().takeIf { told.refused && state?.sheet == null && draft.open == Open.NOTHING }
        show()
    }

    override fun onDestroy() {
        pulse.end()
        book?.shut()
        super.onDestroy()
    }

    override fun keep(draft: Draft) {
        this.draft = draft
        state = take { Record.Draft(draft.text()) }.snapshot
    }

    override fun go(draft: Draft) {
        val isNew = draft.open != this.draft.open
        keep(draft)
        refusal = null
        show()
        if (isNew) page.rollUp()
    }

    override fun tell(after: Draft, record: (at: String) -> Record): Boolean {
        val told = take(record)
        state = told.snapshot
        if (told.refused) {
            refusal = told.said.firstOrNull()
            pulse.refused()
            show()
        } else go(after.copy(said = told.said))
        page.rollUp()
        return !told.refused
    }

    /** For what is told from outside a screen. */
    fun tell(record: (at: String) -> Record) = tell(draft, record)

    override fun ask(question: (at: String) -> Record): List<String> = take(question).said

    override fun chart(of: String, width: Double, height: Double, letters: Double) = book?.chart(of, width, height, letters)

    /** A fresh entry is struck at once; an older one is shown first, and the foot asks for the second touch. */
    override fun undo() {
        val what = line(R.style.Text_Heading, getString(R.string.would_strike, state?.undo.orEmpty()))
        if (book?.hasFreshEntry == true) strike() else showAside(Shown(listOf(what), listOf(Step(getString(R.string.strike_it), ::strike))))
    }

    /** A struck leg is being walked again, with its count. */
    private fun strike() {
        val legs = snapshot.legs.size
        if (tell(draft.shut()) { Record.Undo(it) } && snapshot.legs.size < legs) go(draft.legStruck())
    }

    @Deprecated("The call that Android 8 knows")
    override fun onBackPressed() = if (aside != null || draft.open != Open.NOTHING) go(draft.shut()) else super.onBackPressed()

    /** The volume keys count while one walks. */
    override fun dispatchKeyEvent(event: KeyEvent): Boolean {
        val isVolume = event.keyCode == KeyEvent.KEYCODE_VOLUME_UP || event.keyCode == KeyEvent.KEYCODE_VOLUME_DOWN
        if (!isVolume || tile == null) return super.dispatchKeyEvent(event)
        if (event.action == KeyEvent.ACTION_DOWN && event.repeatCount == 0) tile?.performClick()
        return true
    }

    private fun take(record: (at: String) -> Record): Told = try {
        val open = book ?: Book.open(filesDir).also { book = it }
        open.tell(record)
    } catch (trouble: GatepostException) {
        Told(listOf(trouble.sentence), null, refused = true)
    }

    private fun show() {
        aside = null
        val shown = if (state == null) Shown(emptyList(), listOf(Step(getString(R.string.try_again), ::begin))) else screen()
        fill(shown, refusal)
        frame()
    }

    private fun showAside(shown: Shown) {
        aside = shown
        fill(shown, null)
        page.rollUp()
    }

    private fun fill(shown: Shown, caution: String?) {
        tile = shown.grows
        val leave = Step(getString(R.string.leave_it)) { go(draft.shut()) }.takeIf { aside != null || draft.open.isLeft }
        val below = leave?.takeIf { hasLargeText() || shown.steps.size > 1 }?.let { button(R.style.Outlined_Walking, it.label, it.act) }
        page.fill(listOfNotNull(caution?.let { Caution(this, it) }) + shown.views.filterNotNull() + listOfNotNull(below), shown.grows)
        val inFoot = if (hasLargeText() || shown.steps.size > 1) null else leave
        page.foot.show(shown.steps, inFoot)
        page.placeRow.visibility = if (shown.grows != null && hasLargeText()) View.GONE else View.VISIBLE
    }

    private fun frame() {
        val place = state?.stage ?: Stage.BEFORE
        title = getString(place.title)
        page.placeRow.showPlace(place, null)
        page.placeRow.showUndo(state?.undo, ::undo)
        page.strip.show(cells(state))
    }

    private fun askForLight() {
        val choices: List<View> = Lighting.values().map { light ->
            button(R.style.Outlined, getString(light.title)) {
                light.keep(this)
                recreate()
            }
        }
        showAside(Shown(listOf(line(R.style.Text_Heading, getString(R.string.light_question))) + choices, emptyList()))
    }

    private companion object {
        const val LIGHT = 2
    }
}

package gatepost.field

import android.app.Activity
import android.os.Bundle
import android.view.View
import gatepost.bridge.GatepostException
import gatepost.bridge.Record
import gatepost.bridge.Snapshot
import gatepost.bridge.Stage
import gatepost.field.book.Book
import gatepost.field.book.Told
import gatepost.field.book.sentence
import gatepost.field.book.title
import gatepost.field.look.Lighting
import gatepost.field.look.button
import gatepost.field.look.line
import gatepost.field.page.Page
import gatepost.field.page.cells

/** The one window. It opens the field book, shows the frame, and in it what the core said last. */
class FieldActivity : Activity() {
    lateinit var page: Page
        private set
    private var book: Book? = null

    override fun onCreate(state: Bundle?) {
        setTheme(Lighting.of(this).theme)
        super.onCreate(state)
        page = Page(this)
        setContentView(page)
        page.strip.onOpen = { cell -> if (cell == LIGHT || cell == null) askForLight() else ask() }
    }

    /** Ages and light have moved on while the window was away. */
    override fun onStart() {
        super.onStart()
        ask()
    }

    override fun onDestroy() {
        book?.shut()
        super.onDestroy()
    }

    /** Tells the core one record and shows what it answers. The file is tried anew when it could not be opened before. */
    fun tell(record: (at: String) -> Record) = show(
        try {
            val open = book ?: Book.open(filesDir).also { book = it }
            open.tell(record)
        } catch (trouble: GatepostException) {
            Told(listOf(trouble.sentence), null, refused = true)
        },
    )

    /** Where am I: how sure, and how far home. */
    private fun ask() = tell { Record.Where(it) }

    private fun show(told: Told) {
        showState(told.snapshot)
        page.foot.show(getString(R.string.where_am_i), ::ask)
        page.fill(told.said.mapIndexed { number, said -> line(if (number == 0) R.style.Text_Heading else R.style.Text_Body, said) })
    }

    private fun showState(snapshot: Snapshot?) {
        val place = snapshot?.stage ?: Stage.BEFORE
        title = getString(place.title)
        page.placeRow.showPlace(place, null)
        page.placeRow.showUndo(snapshot?.undo) { undo(snapshot?.undo.orEmpty()) }
        page.strip.show(cells(snapshot))
    }

    /** A fresh entry is struck at once; an older one is shown first, and the foot asks for the second touch. */
    private fun undo(what: String) {
        val strike = { tell { Record.Undo(it) } }
        if (book?.hasFreshEntry == true) return strike()
        page.fill(listOf(line(R.style.Text_Heading, getString(R.string.would_strike, what))))
        page.foot.show(getString(R.string.strike_it), strike)
    }

    private fun askForLight() {
        val choices: List<View> = Lighting.values().map { light ->
            button(R.style.Outlined, getString(light.title)) {
                light.keep(this)
                recreate()
            }
        }
        page.fill(listOf(line(R.style.Text_Heading, getString(R.string.light_question))) + choices)
    }

    private companion object {
        const val LIGHT = 2
    }
}

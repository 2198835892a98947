package gatepost.field.place

import android.view.View
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Book
import gatepost.field.book.Bringing
import gatepost.field.book.ChosenFile
import gatepost.field.book.ReadFile
import gatepost.field.book.Told
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Progress
import gatepost.field.look.Row
import gatepost.field.look.field
import gatepost.field.look.line

/**
 * A file on its way into the book: it is read, asked about, brought in. What it takes stands [aside] of the screen; [ended] is told
 * what came of it. While it is read or brought in the book is asked nothing else.
 */
class FileIn(
    private val hand: Hand, private val page: View, private val book: () -> Book, private val aside: (Shown) -> Unit, private val ended: (Told) -> Unit, asked: ReadFile?,
) {
    private var watch: Bringing? = null
    val isOnItsWay get() = watch != null

    /** The file that is asked about or brought in, with what was said of it so far: a window that is made anew goes on with it. */
    var asked: ReadFile? = asked
        private set

    fun stop() = watch?.stop() ?: Unit

    /** Another screen stands in the place of the question. */
    fun leave() {
        if (!isOnItsWay) asked = null
    }

    /** A file with a sheet is read and handed on. */
    fun readSheet(chosen: ChosenFile, then: (text: String) -> Unit) = work {
        val text = chosen.text();
        { then(text) }
    }

    /** Stopped while it is read, it goes to the core all the same, which says what became of it. */
    fun read(chosen: ChosenFile) {
        val book = book()
        work { watch ->
            val file = chosen.read()
            if (watch.isStopped) brought(book, file, watch) else ({ askNext(file) })
        }
    }

    /** Asks what is not yet said of a file. */
    fun askNext(file: ReadFile): Unit = when {
        file.isWithoutGrid -> askGrid(file)
        file.holdsHeights && file.source == null -> askSource(file)
        file.holdsHeights && file.cover == null -> askCover(file)
        else -> askCredit(file)
    }

    private fun bring(file: ReadFile) {
        val book = book()
        asked = file
        work { watch -> brought(book, file, watch) }
    }

    private fun brought(book: Book, file: ReadFile, watch: Bringing): () -> Unit {
        val told = book.bring(file, watch)
        return { if (told.code in GRID_NEEDED) askGrid(file.with(isWithoutGrid = true)) else ended(told) }
    }

    private fun work(job: (Bringing) -> () -> Unit) {
        val progress = Progress(hand.context)
        val working = Bringing { share -> page.post { progress.show(share) } }
        watch = working
        aside(Shown(listOf(title("label-bringing"), progress), listOf(Step(label("label-stop"), working::stop))))
        working.start({ whole { job(working) } }) { then ->
            page.post {
                watch = null
                then()
            }
        }
    }

    /** A file too large for the phone's memory changes nothing. */
    private fun whole(job: () -> () -> Unit): () -> Unit = try {
        job()
    } catch (tooLarge: OutOfMemoryError) {
        { ended(Told(listOf(label("label-file-too-large")), null, refused = true)) }
    }

    private fun title(id: String) = hand.context.line(R.style.Text_Heading, label(id))

    private fun ask(file: ReadFile, id: String, choices: List<Pair<String, String>>, chosen: (String) -> Unit) {
        asked = file
        aside(Shown(listOf(title(id)) + choices.map { (word, name) -> Row(hand.context, null, name, "") { chosen(word) } }, emptyList()))
    }

    private fun askSource(file: ReadFile) = ask(file, "label-heights-from", sources.map { (word, id) -> word to label(id) }) { askNext(file.with(source = it)) }

    private fun askCover(file: ReadFile) = ask(file, "label-ground-cover", covers.map { (word, id) -> word to label(id) }) { askNext(file.with(cover = it)) }

    private fun askCredit(file: ReadFile) {
        var said = file
        asked = said
        val field = hand.context.field(label("label-credit-field"), file.credit.orEmpty(), 1) { whom -> said = file.with(credit = whom).also { asked = it } }
        aside(Shown(listOf(title("label-whose-data"), field), listOf(Step(label("label-bring-it-in")) { bring(said.with(credit = said.credit.orEmpty())) })))
    }

    /** Heights of which the file does not say in which grid they lie: that of the sheet, or degrees. */
    private fun askGrid(file: ReadFile) {
        val ofSheet = hand.snapshot.sheet?.grid?.let { it to it }
        ask(file, "label-which-grid", listOfNotNull(ofSheet, DEGREES to label("label-in-latitude"))) { bring(file.with(grid = it, isWithoutGrid = false)) }
    }

    private companion object {
        val GRID_NEEDED = setOf("heights-file-grid-needed", "heights-file-grid-of-numbers")

        /** Latitude and longitude on WGS 84. */
        const val DEGREES = "EPSG:4326"
        val sources = listOf(
            "srtm" to "label-source-srtm", "aster" to "label-source-aster", "third-arc-second" to "label-source-third-arc-second",
            "laser" to "label-source-laser", "unknown" to "label-source-unknown",
        )
        val covers = listOf("open" to "label-cover-open", "forest" to "label-cover-forest")
    }
}

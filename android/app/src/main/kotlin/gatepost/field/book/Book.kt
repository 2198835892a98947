package gatepost.field.book

import gatepost.bridge.Answer
import gatepost.bridge.FieldBook
import gatepost.bridge.GatepostException
import gatepost.bridge.IncomingFile
import gatepost.bridge.OpenConfig
import gatepost.bridge.Record
import gatepost.bridge.Reply
import gatepost.bridge.Snapshot
import gatepost.bridge.Watch
import gatepost.field.chart.Chart
import gatepost.field.chart.ChartReader
import java.io.File
import java.time.Clock
import java.time.Duration
import java.time.Instant
import java.time.OffsetDateTime
import java.time.format.DateTimeFormatter

/** The open field book, the one owner of the core. The core reads no clock: every record gets its time here. */
class Book private constructor(private val inside: FieldBook, private val clock: Clock, private val aheadMin: Int) {
    /** Whether the clock is in the zone that the book was opened in. */
    val isOfHere get() = aheadMin == clock.aheadMin()

    private var revision = state()?.revision
    private var entered: Instant? = null

    /** Whether the last entry was made a moment ago, so that one touch may strike it. */
    val hasFreshEntry: Boolean get() = entered?.let { Duration.between(it, clock.instant()) <= FRESH } ?: false

    /** Makes a record from the present time and tells it to the core. */
    fun tell(record: (at: String) -> Record): Told = taken { inside.take(record(now())) }

    /** Brings a file in; it takes its time, in which nothing else is told. Where the book is shut meanwhile, nobody hears what came of it. */
    fun bring(file: ReadFile, watch: Watch): Told = try {
        taken { file.run { inside.bring(now(), IncomingFile(name, bytes, grid, null, source, cover, credit), watch) } }
    } catch (shut: IllegalStateException) {
        Told(emptyList(), null, refused = true)
    }

    private fun taken(take: () -> Reply): Told = try {
        val reply = take()
        if (reply.snapshot.revision != revision) entered = clock.instant()
        revision = reply.snapshot.revision
        Told(reply.said, reply.snapshot, refused = false, reply.answer)
    } catch (trouble: GatepostException) {
        Told(listOf(trouble.sentence), state(), refused = true, code = trouble.code)
    }

    /** What the core says to a question, asked from another thread; nothing where it is refused, or the book was shut meanwhile. */
    fun askAside(question: (at: String) -> Record): Answer? = try {
        inside.take(question(now())).answer
    } catch (trouble: GatepostException) {
        null
    } catch (gone: IllegalStateException) {
        null
    }

    /** How things stand now: ages and light have moved on, nothing else has. */
    fun look(): Snapshot? = state(now())

    /** A drawing of the core; nothing where there is nothing to draw yet. */
    fun chart(of: String, width: Double, height: Double, letters: Double): Chart? = try {
        ChartReader(inside.chart(of, width, height, letters)).chart()
    } catch (trouble: GatepostException) {
        null
    }

    /** Shuts the file. */
    fun shut() {
        inside.shut()
        inside.close()
    }

    private fun state(at: String? = null) = try {
        inside.snapshot(at)
    } catch (trouble: GatepostException) {
        null
    }

    private fun now() = OffsetDateTime.now(clock).format(DateTimeFormatter.ISO_OFFSET_DATE_TIME)

    companion object {
        const val NAME = "field.gatepost"

        /** Opens the book in a folder; a [GatepostException] says why the file cannot be used. */
        fun open(folder: File, clock: Clock): Book {
            val ahead = clock.aheadMin()
            return Book(FieldBook.open(OpenConfig(File(folder, NAME).path, ahead)), clock, ahead)
        }

        /** Minutes ahead of UTC. */
        private fun Clock.aheadMin() = zone.rules.getOffset(instant()).totalSeconds / SECONDS_PER_MINUTE

        private const val SECONDS_PER_MINUTE = 60
        private val FRESH = Duration.ofSeconds(10)
    }
}

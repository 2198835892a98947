package gatepost.field.book

import gatepost.bridge.GatepostException
import gatepost.bridge.Record
import gatepost.bridge.Snapshot
import java.io.File
import java.time.Clock

/** Where the logbook lies. The book on it is opened when it is first asked for. */
class Shelf(private val folder: File, private val clock: Clock) {
    var book: Book? = null
        private set

    /** Why it could not be opened when it was last tried. */
    var trouble: GatepostException? = null
        private set

    /** Whether no second try opens it. */
    val isUnreadable get() = trouble?.code in unreadable

    fun opened(): Book = book ?: Book.open(folder, clock).also { book = it }

    /** How things stand now; nothing where it cannot be opened. */
    fun look(): Snapshot? {
        renew()
        trouble = null
        return try {
            opened().look()
        } catch (why: GatepostException) {
            null.also { trouble = why }
        }
    }

    fun tell(record: (at: String) -> Record): Told = try {
        opened().tell(record)
    } catch (why: GatepostException) {
        Told(listOf(why.sentence), null, refused = true)
    }

    /** Times of day are told by the zone in which the book was opened: in another one it is opened anew. */
    private fun renew() {
        if (book?.isOfHere == false) shut()
    }

    fun shut() {
        book?.shut()
        book = null
    }

    /** Gives the logbook another name in its folder, with the files that the system keeps beside it: nothing is deleted. Its new name, or none where that fails. */
    fun keepAside(): String? {
        shut()
        val name = generateSequence(1) { it + 1 }.map { "kept-aside-$it.gatepost" }.first { !File(folder, it).exists() }
        val moved = parts.filter { File(folder, Book.NAME + it).exists() }.map { File(folder, Book.NAME + it).renameTo(File(folder, name + it)) }
        return name.takeIf { moved.isNotEmpty() && moved.all { it } }
    }

    private companion object {
        /** The file itself last: as long as it is there nothing new is begun. */
        val parts = listOf("-wal", "-shm", "")
        val unreadable = setOf("logbook-damaged", "logbook-newer", "logbook-foreign")
    }
}

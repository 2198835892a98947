package gatepost.field.book

import gatepost.bridge.Watch
import java.util.concurrent.Executor

/** A file on its way into the book, off the thread that draws. Stopped, it changes nothing. */
class Bringing(private val done: (share: Double) -> Unit) : Watch {
    @Volatile private var isStopped = false

    fun stop() {
        isStopped = true
    }

    /** Reads the file and brings it in; [then] is told what came of it, on the reading thread. */
    fun start(book: Book, file: ChosenFile, grid: String?, then: (Told) -> Unit) = background.execute { then(book.bring(file.name(), file.bytes(), grid, this)) }

    override fun goesOn(share: Double): Boolean {
        done(share)
        return !isStopped
    }

    companion object {
        /** Where files are read, away from what is drawn; a test puts another in its place. */
        var background: Executor = Executor { Thread(it, "file").start() }
    }
}

package gatepost.field.book

import gatepost.bridge.Watch
import gatepost.bridge.holdsHeights
import java.util.concurrent.Executor

/** A file as it was read, with what the walker said of it; nothing where nothing was said. [isWithoutGrid] once the core asked for its grid. */
class ReadFile(
    val name: String, val bytes: ByteArray, val source: String? = null, val cover: String? = null, val credit: String? = null, val grid: String? = null,
    val isWithoutGrid: Boolean = false,
) {
    val holdsHeights get() = holdsHeights(bytes.copyOf(minOf(bytes.size, BEGINNING)))

    fun with(source: String? = this.source, cover: String? = this.cover, credit: String? = this.credit, grid: String? = this.grid, isWithoutGrid: Boolean = this.isWithoutGrid) =
        ReadFile(name, bytes, source, cover, credit, grid, isWithoutGrid)

    private companion object {
        /** So much of a file tells the core what it holds. */
        const val BEGINNING = 4096
    }
}

/** Work on a file, off the thread that draws. Stopped, it changes nothing. */
class Bringing(private val done: (share: Double) -> Unit) : Watch {
    @Volatile var isStopped = false
        private set

    fun stop() {
        isStopped = true
    }

    /** Does the [work]; [then] gets what came of it, on the working thread. */
    fun <T> start(work: () -> T, then: (T) -> Unit) = background.execute { then(work()) }

    override fun goesOn(share: Double): Boolean {
        done(share)
        return !isStopped
    }

    companion object {
        /** Where files are read, away from what is drawn; a test puts another in its place. */
        var background: Executor = Executor { Thread(it, "file").start() }
    }
}

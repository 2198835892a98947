package gatepost.field.book

import gatepost.bridge.Watch

/** A file on its way into the book, off the thread that draws. Stopped, it changes nothing. */
class Bringing(private val done: (share: Double) -> Unit) : Watch {
    @Volatile private var isStopped = false

    fun stop() {
        isStopped = true
    }

    override fun goesOn(share: Double): Boolean {
        done(share)
        return !isStopped
    }
}

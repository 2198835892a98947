package gatepost.field.phone

/** How far it has come with a sense of the phone: nothing is switched on or asked for before the walker wants it. */
enum class Reach { UNASKED, REFUSED, NONE, WAITING, TOLD }

/** A sense of the phone. It works only while it is wanted and somebody watches. */
abstract class Witness {
    private val watchers = mutableSetOf<() -> Unit>()

    var reach = Reach.UNASKED
        private set

    /** Calls [watcher] whenever something has changed. */
    fun watch(watcher: () -> Unit) {
        watchers += watcher
        if (isWanted) start()
    }

    fun unwatch(watcher: () -> Unit) {
        watchers -= watcher
        if (watchers.isEmpty()) stop()
    }

    protected abstract val isThere: Boolean

    protected abstract fun start()

    /** Switches it off; what was told stays. */
    abstract fun stop()

    /** The walker wants it. */
    protected fun begin() {
        turn(if (isThere) Reach.WAITING else Reach.NONE)
        if (isWanted) start()
    }

    protected fun turn(to: Reach) {
        reach = to
        watchers.toList().forEach { it() }
    }

    private val isWanted get() = reach == Reach.WAITING || reach == Reach.TOLD
}

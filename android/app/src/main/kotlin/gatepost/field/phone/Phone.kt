package gatepost.field.phone

/** Where the phone believes to be; a witness beside the fix, never in its place. */
class PhonePlace(private val receiver: Receiver, private val leave: Leave) : Witness() {
    var seen: Seen? = null
        private set

    /** The walker wants to see it: only now is leave asked for. */
    fun ask() = if (leave.isGiven) begin() else leave.ask()

    /** What the walker said to that. */
    fun answered(isGiven: Boolean) = if (isGiven) begin() else turn(Reach.REFUSED)

    override val isThere get() = receiver.isThere

    override fun start() = receiver.start {
        seen = it
        turn(Reach.TOLD)
    }

    override fun stop() = receiver.stop()
}

/** What the phone feels of the magnetic field, and so where it points. */
class PhoneField(private val needle: Needle) : Witness() {
    var felt: Felt? = null
        private set

    /** The walker wants to know it. */
    fun ask() = begin()

    override val isThere get() = needle.isThere

    override fun start() = needle.start {
        felt = it
        turn(Reach.TOLD)
    }

    override fun stop() = needle.stop()
}

/** What this phone can witness. */
class Phone(receiver: Receiver, leave: Leave, needle: Needle) {
    val place = PhonePlace(receiver, leave)
    val field = PhoneField(needle)

    /** Switches all off while nobody looks. */
    fun rest() {
        place.stop()
        field.stop()
    }
}

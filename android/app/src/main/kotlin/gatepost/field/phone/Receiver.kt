package gatepost.field.phone

import java.time.Instant

/** Where a receiver believes the phone to be. [accuracyM] is its own claim: a radius that holds 68 %. */
class Seen(val latDeg: Double, val lonDeg: Double, val accuracyM: Double, val at: Instant)

/** Tells where the phone is, as long as it is started. */
interface Receiver {
    /** Whether the phone has one and it is switched on. */
    val isThere: Boolean

    fun start(seen: (Seen) -> Unit)

    fun stop()
}

/** Whether the walker lets this app see the phone's place. */
interface Leave {
    val isGiven: Boolean

    /** Asks; the answer comes later. */
    fun ask()
}

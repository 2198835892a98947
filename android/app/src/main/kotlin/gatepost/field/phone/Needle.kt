package gatepost.field.phone

/** The magnetic field in microtesla and the direction away from the ground, both in the phone's axes: x right, y to the top edge, z out of the screen. */
class Felt(val fieldUt: List<Double>, val up: List<Double>)

/** Feels the magnetic field, as long as it is started. */
interface Needle {
    /** Whether the phone can feel it. */
    val isThere: Boolean

    fun start(felt: (Felt) -> Unit)

    fun stop()
}

package gatepost.field.phone

import gatepost.bridge.Answer
import gatepost.bridge.Record
import gatepost.field.FieldActivity
import gatepost.field.idle
import java.time.Clock
import kotlin.math.cos
import kotlin.math.sin

/** A receiver that says what a test lets it say. */
class FakeReceiver(private val clock: Clock, override var isThere: Boolean = true) : Receiver {
    private var seen: ((Seen) -> Unit)? = null
    val isOn get() = seen != null

    override fun start(seen: (Seen) -> Unit) {
        this.seen = seen
    }

    override fun stop() {
        seen = null
    }

    /** At the likeliest place of the fix, or so many degrees north of it. */
    fun tells(activity: FieldActivity, north: Double = 0.0, accuracyM: Double = 6.0, secondsAgo: Long = 2) {
        val place = activity.snapshot.fix!!.places.first()
        seen!!(Seen(place.latDeg + north, place.lonDeg, accuracyM, clock.instant().minusSeconds(secondsAgo)))
        idle()
    }
}

/** A needle that feels what a test lets it feel. */
class FakeNeedle(override var isThere: Boolean = true) : Needle {
    private var felt: ((Felt) -> Unit)? = null
    val isOn get() = felt != null

    override fun start(felt: (Felt) -> Unit) {
        this.felt = felt
    }

    override fun stop() {
        felt = null
    }

    /** The phone flat, its top edge on [heading], in a field so many times as strong as the model's. */
    fun feels(activity: FieldActivity, heading: Double, times: Double = 1.0) {
        val up = listOf(0.0, 0.0, 1.0)
        val model = activity.ask { Record.Attraction(it, null, listOf(0.0, 20.0, -40.0), up, null) }.answer as Answer.Attraction
        val (dip, turned) = listOf(model.modelDipDeg, heading).map(Math::toRadians)
        val strength = times * model.modelStrengthNt / 1000
        val level = strength * cos(dip)
        felt!!(Felt(listOf(-level * sin(turned), level * cos(turned), -strength * sin(dip)), up))
        idle()
    }
}

/** The senses that the next windows are opened with. */
class Senses(clock: Clock = Clock.systemUTC()) {
    val receiver = FakeReceiver(clock)
    val needle = FakeNeedle()

    fun lend() = apply {
        FieldActivity.receiver = { receiver }
        FieldActivity.needle = { needle }
    }

    companion object {
        fun giveBack() {
            FieldActivity.receiver = { SystemReceiver(it) }
            FieldActivity.needle = { SystemNeedle(it) }
        }
    }
}

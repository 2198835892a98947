package gatepost.field.hand

import android.content.Context
import android.media.AudioManager
import android.media.ToneGenerator
import android.os.VibrationEffect
import android.os.Vibrator

/** Answers without the eye: a vibration and a tone. Without leave to vibrate, or without a speaker, the other answers alone. */
class Pulse(context: Context) {
    private val vibrator = context.getSystemService(Vibrator::class.java)
    private val tone = attempt { ToneGenerator(AudioManager.STREAM_MUSIC, LOUD) }

    /** One more; every ten is longer, every hundred three pulses and a lower tone. */
    fun counted(count: Int) = when {
        count % 100 == 0 -> give(longArrayOf(0, 60, 60, 60, 60, 60), ToneGenerator.TONE_DTMF_1, 300)
        count % 10 == 0 -> give(longArrayOf(0, 40), ToneGenerator.TONE_DTMF_A, 80)
        else -> give(longArrayOf(0, 20), ToneGenerator.TONE_DTMF_D, 30)
    }

    fun closed() = give(longArrayOf(0, 120, 60, 40, 60, 120), ToneGenerator.TONE_DTMF_A, 200)

    fun refused() = give(longArrayOf(0, 40, 60, 40), ToneGenerator.TONE_DTMF_1, 150)

    private fun give(pattern: LongArray, sound: Int, long: Int) {
        attempt { vibrator?.vibrate(VibrationEffect.createWaveform(pattern, -1)) }
        attempt { tone?.startTone(sound, long) }
    }

    /** The system throws where a phone lacks the part. */
    private fun <T> attempt(what: () -> T): T? = try {
        what()
    } catch (lacking: RuntimeException) {
        null
    }

    fun end() {
        attempt { tone?.release() }
    }

    private companion object {
        const val LOUD = 80
    }
}

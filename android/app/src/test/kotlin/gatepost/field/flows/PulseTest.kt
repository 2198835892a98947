package gatepost.field.flows

import android.os.Vibrator
import gatepost.field.hand.Pulse
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

@RunWith(RobolectricTestRunner::class)
class PulseTest {
    private val app = RuntimeEnvironment.getApplication()
    private val vibrator = shadowOf(app.getSystemService(Vibrator::class.java))

    @Test fun oneTenAndAHundredFeelDifferent() {
        val pulse = Pulse(app)
        val felt = listOf(1, 2, 10, 100, 200).map { pulse.counted(it); vibrator.pattern?.toList() }
        assertEquals(felt[0], felt[1])
        assertEquals(felt[3], felt[4])
        assertEquals(3, felt.toSet().size)
    }
}

package gatepost.field.phone

import android.hardware.Sensor
import android.hardware.SensorManager
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.SensorEventBuilder
import org.robolectric.shadows.ShadowSensor

@RunWith(RobolectricTestRunner::class)
class SystemNeedleTest {
    private val app = RuntimeEnvironment.getApplication()
    private val manager = app.getSystemService(SensorManager::class.java)!!
    private val needle = SystemNeedle(app)
    private val felt = mutableListOf<Felt>()

    private fun has(kind: Int): Sensor = ShadowSensor.newInstance(kind).also { shadowOf(manager).addSensor(it) }

    private fun tells(sensor: Sensor, vararg values: Float) =
        shadowOf(manager).sendSensorEventToListeners(SensorEventBuilder.newBuilder().setSensor(sensor).setTimestamp(1).setValues(values).build())

    @Test fun aPhoneWithoutThemFeelsNothing() {
        assertFalse(needle.isThere)
        has(Sensor.TYPE_MAGNETIC_FIELD)
        assertFalse("which way is up is needed too", needle.isThere)
    }

    @Test fun theAccelerometerServesWhereGravityIsNotTold() {
        val magnet = has(Sensor.TYPE_MAGNETIC_FIELD)
        val rest = has(Sensor.TYPE_ACCELEROMETER)
        assertTrue(needle.isThere)
        needle.start(felt::add)
        tells(magnet, 1f, 2f, 3f)
        assertTrue("nothing without the vertical", felt.isEmpty())
        tells(rest, 0f, 0f, 9.8f)
        tells(magnet, 4f, 5f, 6f)
        assertEquals(listOf(4.0, 5.0, 6.0), felt.single().fieldUt)
        assertEquals(9.8, felt.single().up[2], 1e-6)
    }

    @Test fun gravityGoesBefore() {
        val magnet = has(Sensor.TYPE_MAGNETIC_FIELD)
        has(Sensor.TYPE_ACCELEROMETER)
        val gravity = has(Sensor.TYPE_GRAVITY)
        needle.start(felt::add)
        tells(gravity, 0f, 9.8f, 0f)
        tells(magnet, 4f, 5f, 6f)
        tells(magnet, 4f, 5f, 7f)
        assertEquals("not more often than one can read", 1, felt.size)
        assertEquals(9.8, felt.single().up[1], 1e-6)
    }

    @Test fun itIsSwitchedOff() {
        has(Sensor.TYPE_MAGNETIC_FIELD)
        has(Sensor.TYPE_GRAVITY)
        needle.start(felt::add)
        needle.stop()
        assertTrue(shadowOf(manager).listeners.isEmpty())
    }
}

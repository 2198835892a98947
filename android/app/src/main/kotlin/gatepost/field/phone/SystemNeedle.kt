package gatepost.field.phone

import android.content.Context
import android.hardware.Sensor
import android.hardware.SensorEvent
import android.hardware.SensorEventListener
import android.hardware.SensorManager
import android.os.SystemClock

/** The system's magnetometer with its sense of gravity, or with the accelerometer, which tells the same of a phone at rest. */
class SystemNeedle(context: Context) : Needle {
    private val manager = context.getSystemService(SensorManager::class.java)
    private val magnet get() = manager?.getDefaultSensor(Sensor.TYPE_MAGNETIC_FIELD)
    private val gravity get() = manager?.getDefaultSensor(Sensor.TYPE_GRAVITY) ?: manager?.getDefaultSensor(Sensor.TYPE_ACCELEROMETER)
    private var listener: SensorEventListener? = null

    override val isThere get() = magnet != null && gravity != null

    override fun start(felt: (Felt) -> Unit) {
        if (listener != null) return
        val feels = Feels(felt)
        listener = feels
        for (sensor in listOf(magnet, gravity)) manager?.registerListener(feels, sensor, SensorManager.SENSOR_DELAY_UI)
    }

    override fun stop() {
        listener?.let { manager?.unregisterListener(it) }
        listener = null
    }
}

private class Feels(private val felt: (Felt) -> Unit) : SensorEventListener {
    private var up: List<Double>? = null
    private var told = 0L

    override fun onSensorChanged(event: SensorEvent) {
        val axes = event.values.take(AXES).map { it.toDouble() }
        if (event.sensor.type == Sensor.TYPE_MAGNETIC_FIELD) up?.let { tell(Felt(axes, it)) } else up = axes
    }

    /** Not more often than one can read it. */
    private fun tell(all: Felt) {
        val now = SystemClock.elapsedRealtime()
        if (told != 0L && now - told < EVERY_MS) return
        told = now
        felt(all)
    }

    override fun onAccuracyChanged(sensor: Sensor?, accuracy: Int) = Unit

    private companion object {
        const val AXES = 3
        const val EVERY_MS = 500L
    }
}

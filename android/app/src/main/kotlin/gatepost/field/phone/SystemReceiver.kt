package gatepost.field.phone

import android.annotation.SuppressLint
import android.content.Context
import android.location.Location
import android.location.LocationListener
import android.location.LocationManager
import android.os.Bundle
import android.os.Looper
import android.os.SystemClock
import java.time.Clock

/** The system's own satellite receiver, without any service of another maker. */
class SystemReceiver(context: Context, private val clock: Clock = Clock.systemUTC()) : Receiver {
    private val manager = context.getSystemService(LocationManager::class.java)
    private var listener: LocationListener? = null

    override val isThere get() = manager != null && GPS in manager.allProviders && manager.isProviderEnabled(GPS)

    @SuppressLint("MissingPermission")
    override fun start(seen: (Seen) -> Unit) {
        if (listener != null) return
        val hears = Hears { told -> if (told.hasAccuracy()) seen(read(told)) }
        try {
            manager?.requestLocationUpdates(GPS, EVERY_MS, 0f, hears, Looper.getMainLooper())
            listener = hears
        } catch (withdrawn: SecurityException) {
            stop()
        }
    }

    override fun stop() {
        listener?.let { manager?.removeUpdates(it) }
        listener = null
    }

    /** Its age is taken from the clock that nobody sets. */
    private fun read(told: Location): Seen {
        val age = SystemClock.elapsedRealtimeNanos() - told.elapsedRealtimeNanos
        return Seen(told.latitude, told.longitude, told.accuracy.toDouble(), clock.instant().minusNanos(age))
    }

    private companion object {
        const val GPS = LocationManager.GPS_PROVIDER
        const val EVERY_MS = 5_000L
    }
}

/** With every method: a system before Android 11 calls those that have no body of their own there. */
private class Hears(private val told: (Location) -> Unit) : LocationListener {
    override fun onLocationChanged(location: Location) = told(location)

    @Deprecated("Called before Android 10")
    override fun onStatusChanged(provider: String?, status: Int, extras: Bundle?) = Unit

    override fun onProviderEnabled(provider: String) = Unit

    override fun onProviderDisabled(provider: String) = Unit
}

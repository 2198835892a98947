package gatepost.field.phone

import android.Manifest
import android.location.Location
import android.location.LocationManager
import android.os.SystemClock
import gatepost.field.idle
import java.time.Clock
import java.time.Instant
import java.time.ZoneOffset
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

@RunWith(RobolectricTestRunner::class)
class SystemReceiverTest {
    private val app = RuntimeEnvironment.getApplication()
    private val manager = app.getSystemService(LocationManager::class.java)!!
    private val noon = Instant.parse("2026-09-12T12:00:00Z")
    private val receiver = SystemReceiver(app, Clock.fixed(noon, ZoneOffset.UTC))
    private val seen = mutableListOf<Seen>()

    private fun switchedOn(isOn: Boolean) = shadowOf(manager).setProviderEnabled(LocationManager.GPS_PROVIDER, isOn)

    private fun started() {
        switchedOn(true)
        shadowOf(app).grantPermissions(Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION)
        receiver.start(seen::add)
    }

    private fun comes(accuracy: Float?) {
        val place = Location(LocationManager.GPS_PROVIDER)
        place.latitude = 42.5
        place.longitude = 75.7
        if (accuracy != null) place.accuracy = accuracy
        place.elapsedRealtimeNanos = SystemClock.elapsedRealtimeNanos() - AGE_NS
        shadowOf(manager).simulateLocation(place)
        idle()
    }

    @Test fun aPlaceComesWithItsAccuracyAndAge() {
        started()
        comes(6.5f)
        val one = seen.single()
        assertEquals(listOf(42.5, 75.7, 6.5), listOf(one.latDeg, one.lonDeg, one.accuracyM))
        assertTrue("${one.at}", one.at <= noon.minusNanos(AGE_NS) && one.at > noon.minusSeconds(9))
    }

    @Test fun aPlaceThatDoesNotSayHowGoodItIsDoesNotCount() {
        started()
        comes(null)
        assertTrue(seen.isEmpty())
    }

    @Test fun itIsSwitchedOff() {
        started()
        receiver.stop()
        comes(6.5f)
        assertTrue(seen.isEmpty() && shadowOf(manager).getLocationUpdateListeners(LocationManager.GPS_PROVIDER).isEmpty())
    }

    @Test fun leaveThatWasTakenBackIsNoFault() {
        switchedOn(true)
        shadowOf(app).denyPermissions(Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION)
        receiver.start(seen::add)
        receiver.stop()
    }

    @Test fun switchedOffItIsNotThere() {
        switchedOn(false)
        assertFalse(receiver.isThere)
        switchedOn(true)
        assertTrue(receiver.isThere)
    }

    private companion object {
        const val AGE_NS = 3_000_000_000L
    }
}

package gatepost.field.phone

import java.time.Clock
import java.time.Instant
import java.time.ZoneId

/** The clock of the phone, in the zone that the phone is in now. */
object PhoneClock : Clock() {
    override fun getZone(): ZoneId = ZoneId.systemDefault()

    override fun withZone(zone: ZoneId): Clock = system(zone)

    override fun instant(): Instant = Instant.now()
}

package gatepost.field.flows

import android.Manifest
import android.content.pm.PackageManager
import gatepost.field.audit.putRecords
import gatepost.field.look.Caution
import gatepost.field.phone.Senses
import gatepost.field.standsAbove
import gatepost.field.texts
import gatepost.field.tree
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** The phone as a witness: asked for at a touch, shown beside the fix, missed by nobody where it is refused. */
@RunWith(RobolectricTestRunner::class)
class PhoneFlowTest {
    private val senses = Senses()
    private val places = arrayOf(Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION)

    @Before fun lend() {
        senses.lend()
    }

    @After fun giveBack() = Senses.giveBack()

    private fun walkerAfter(records: Int): Walker {
        putRecords(records)
        return Walker()
    }

    private fun Walker.answer(result: Int) {
        if (result == PackageManager.PERMISSION_GRANTED) shadowOf(RuntimeEnvironment.getApplication()).grantPermissions(*places)
        val asked = shadowOf(activity).lastRequestedPermission!!
        assertEquals(places.toList(), asked.requestedPermissions.toList())
        activity.onRequestPermissionsResult(asked.requestCode, places, intArrayOf(result, result))
    }

    @Test fun nothingIsAskedForBeforeItIsTouched() = walkerAfter(FIXED).run {
        assertNull(shadowOf(activity).lastRequestedPermission)
        assertFalse(senses.receiver.isOn || senses.needle.isOn)
        touch("Phone's place")
        answer(PackageManager.PERMISSION_GRANTED)
        sees("Not found yet")
        assertTrue(senses.receiver.isOn)
    }

    @Test fun thePhonesPlaceStandsBesideTheFixAndCanBeHeldAgainstIt() = walkerAfter(FIXED).run {
        touch("Phone's place")
        answer(PackageManager.PERMISSION_GRANTED)
        senses.receiver.tells(activity)
        sees("A witness, not the judge.")
        val places = activity.snapshot.fix!!.places.map { it.mgrs }
        touch("Hold it against the fix")
        assertEquals("fits", activity.snapshot.check!!.verdict)
        assertEquals("the fix stays as it was", places, activity.snapshot.fix!!.places.map { it.mgrs })
    }

    @Test fun anOldPlaceIsToldToBeOld() = walkerAfter(FIXED).run {
        touch("Phone's place")
        answer(PackageManager.PERMISSION_GRANTED)
        senses.receiver.tells(activity, secondsAgo = 600)
        sees("That place is old")
    }

    @Test fun refusedAPlaceIsTyped() = walkerAfter(FIXED).run {
        touch("Phone's place")
        answer(PackageManager.PERMISSION_DENIED)
        sees("The phone may not tell its place. Type a grid reference.")
        touch("Phone's place")
        answer(PackageManager.PERMISSION_DENIED)
        touch("Grid reference from the map or a receiver")
        words("43TEG 5691 4962")
        touch("Hold it against the fix")
        assertEquals("fits", activity.snapshot.check!!.verdict)
    }

    @Test fun leaveThatWasRefusedMayBeGivenLater() = walkerAfter(FIXED).run {
        touch("Phone's place")
        answer(PackageManager.PERMISSION_DENIED)
        touch("Phone's place")
        answer(PackageManager.PERMISSION_GRANTED)
        senses.receiver.tells(activity)
        sees("A witness, not the judge.")
    }

    @Test fun withoutAReceiverAPlaceIsTyped() = walkerAfter(FIXED).run {
        senses.receiver.isThere = false
        touch("Phone's place")
        answer(PackageManager.PERMISSION_GRANTED)
        sees("This phone finds no place")
    }

    @Test fun itIsSwitchedOffWhenNobodyLooks() = walkerAfter(FIXED).run {
        touch("Phone's place")
        answer(PackageManager.PERMISSION_GRANTED)
        touch("Check it")
        assertFalse(senses.receiver.isOn)
        touch("Leave it")
        assertTrue(senses.receiver.isOn)
        kill()
        assertFalse(senses.receiver.isOn)
    }

    @Test fun metalNearByIsToldBeforeTheFirstBearing() = walkerAfter(1).run {
        touch("Velm Road")
        touch("Try the phone for metal near by")
        sees("Hold the phone flat and still.")
        senses.needle.feels(activity, 214.0)
        sees("they agree")
        senses.needle.feels(activity, 214.0, times = 2.0)
        sees("metal or a current is near")
        val caution = tree(activity.page.content).filterIsInstance<Caution>().filter { it.isShown }.last()
        assertTrue("the caution stands before what is read", caution.text.startsWith("Metal may turn your needle") && caution.standsAbove(find("Sorn chapel")))
        touch("Sorn chapel")
        sees("Metal may turn your needle")
    }

    @Test fun thePhonesHeadingIsTakenAsABearing() = walkerAfter(1).run {
        touch("Velm Road")
        touch("Sorn chapel")
        touch("Phone flat")
        senses.needle.feels(activity, 16.0)
        sees("The phone says 016°\u00a0mag")
        touch("Take it")
        sees("016°\u00a0mag")
        touch("Weigh it in")
        assertEquals("016°\u00a0mag", activity.snapshot.fix!!.sightings.single().bearingTold)
        assertEquals(gatepost.field.book.Compass.PHONE, activity.draft.compass)
    }

    /** The pad names what is read with, and what the phone said is given back for one's own compass. */
    @Test fun theInstrumentIsNamedAndSetBack() = walkerAfter(1).run {
        touch("Velm Road")
        touch("Read with: baseplate compass")
        touch("Sorn chapel")
        sees("Read with: sighting compass")
        touch("Phone flat")
        senses.needle.feels(activity, 16.0)
        touch("Take it")
        kill()
        sees("Read with: phone")
        touch("By my compass")
        sees("Read with: sighting compass")
        sees("___°")
        assertEquals(gatepost.field.book.Compass.SIGHTING, activity.draft.compass)
    }

    /** A heading of which the spread is not known cannot be taken. */
    @Test fun anUnsureHeadingIsNotTaken() = walkerAfter(1).run {
        touch("Velm Road")
        touch("Sorn chapel")
        touch("Phone flat")
        var unsure = 0
        for (percent in 100..125) {
            senses.needle.feels(activity, 16.0, times = percent / 100.0)
            val seen = texts(activity.page)
            if (seen.none { "spread not known" in it }) continue
            unsure++
            assertTrue("$percent: $seen", seen.none { it == "Take it" })
        }
        assertTrue("$unsure", unsure > 0)
    }

    @Test fun withoutANeedleABearingIsTyped() = walkerAfter(1).run {
        senses.needle.isThere = false
        touch("Velm Road")
        touch("Sorn chapel")
        touch("Phone flat")
        sees("This phone feels no magnetic field")
    }

    private companion object {
        /** Records of the walk up to the fix. */
        const val FIXED = 4
    }
}

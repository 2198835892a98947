package gatepost.field.flows

import gatepost.bridge.Stage
import gatepost.field.texts
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** From no sheet to the kept car, by touch, killed at every step. */
@RunWith(RobolectricTestRunner::class)
class BesideFlowTest {
    private val walker = Walker()
    private val snapshot get() = walker.activity.snapshot

    private fun Walker.sightsChapel() {
        touch("Velm valley")
        kill()
        touches = 0
        touch("Velm Road")
        touch("Read with: baseplate compass")
        kill()
        sees("Read with: sighting compass")
        touch("Sorn chapel")
        figures("01")
        kill()
        sees("01_°\u00a0mag")
        figures("6")
        touch("Weigh it in")
    }

    @Test fun fromTheSheetToTheCar() = walker.run {
        sightsChapel()
        assertTrue("$touches touches to the first fix", touches <= 6)
        assertEquals(1, snapshot.fix!!.sightings.size)
        kill()
        sees(snapshot.strip.sure)
        touches = 0
        touch("Hallik mast")
        figures("088")
        kill()
        touch("Weigh it in")
        assertTrue("$touches touches to one more sighting", touches <= 3)
        assertEquals(listOf("Sorn chapel", "Hallik mast"), snapshot.fix!!.sightings.map { it.landmark })
        sees(snapshot.fix!!.places.single().reference.substringAfter(" "))
        touch("Check it")
        words("43TEG 5691 49")
        kill()
        words("43TEG 5691 4962")
        touch("Hold it against the fix")
        assertNotNull(snapshot.check)
        kill()
        touch("Here stands the car")
        assertEquals(Stage.ON_FOOT, snapshot.stage)
    }

    @Test fun aRefusalSaysWhyAndKeepsWhatWasTyped() = walker.run {
        touch("Velm valley")
        touch("Velm Road")
        touch("Old kiln")
        figures("777")
        touch("Weigh it in")
        sees("is not between 0 and 360")
        sees("777°\u00a0mag")
        touch("Clear")
        figures("04")
        touch("Last off")
        sees("0__°\u00a0mag")
        touch("Grid north")
        sees("0__°\u00a0grid")
    }

    @Test fun aMisfitIsReadAgainAndGivesWay() = walker.run {
        sightsChapel()
        touch("Hallik mast")
        figures("088")
        touch("Weigh it in")
        touch("Old kiln")
        figures("140")
        touch("Weigh it in")
        sees("does not fit, 140")
        val fix = snapshot.fix!!
        touch(fix.mindedFirst.first())
        kill()
        fix.cautions.forEach { sees(it) }
        touch("Leave it")
        kill()
        touch("Read Old kiln again")
        figures("062")
        touch("Weigh it in")
        assertEquals(listOf("Sorn chapel", "Hallik mast", "Old kiln"), snapshot.fix!!.sightings.map { it.landmark })
    }

    /** Where several places are left each is told once, and which of them is kept is asked. */
    @Test fun oneOfSeveralPlacesIsKept() = walker.run {
        sightsChapel()
        val places = snapshot.fix!!.places.map { it.told }
        val seen = texts(activity.page.content)
        places.forEach { place -> assertEquals(place, 1, seen.count { place in it }) }
        touch("Here stands the car")
        kill()
        sees("At which of these places")
        touch(places.last())
        assertEquals(Stage.ON_FOOT, snapshot.stage)
        assertEquals(places.last(), snapshot.car!!.place!!.told)
    }

    @Test fun twoTouchesTakeBackAFix() = walker.run {
        sightsChapel()
        kill()
        touches = 0
        undo()
        touch("Strike it")
        assertEquals(2, touches)
        assertEquals(null, snapshot.fix)
    }

    @Test fun aSheetIsTypedAsText() = walker.run {
        touch("Paste or type a sheet")
        words("name = ")
        touch("Carry it")
        sees("cannot be read")
        words(gatepost.field.repositoryFile("tests/demo/velm-valley.toml").readText())
        kill()
        touch("Carry it")
        assertEquals("Velm valley", snapshot.sheet!!.name)
    }
}

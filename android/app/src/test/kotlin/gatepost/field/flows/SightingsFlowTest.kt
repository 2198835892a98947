package gatepost.field.flows

import gatepost.bridge.Record
import gatepost.field.book.Draft
import gatepost.field.book.What
import gatepost.field.tiltedPlain
import java.util.Base64
import org.json.JSONArray
import org.json.JSONObject
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** What can be told besides a bearing, by touch, killed between the questions; and taken back again. */
@RunWith(RobolectricTestRunner::class)
class SightingsFlowTest {
    private val walker = Walker()
    private val fix get() = walker.activity.snapshot.fix!!
    private val whats get() = fix.accounts.map { it.what }

    private fun Walker.sights(landmark: String, figures: String) {
        touch(landmark)
        figures(figures)
        touch("Weigh it in")
    }

    private fun Walker.onTheRoad() {
        touch("Velm valley")
        touch("Velm Road")
        sights("Sorn chapel", "016")
        touches = 0
    }

    private fun Walker.tells(kind: String) {
        touch("More sightings")
        touch(kind)
        kill()
    }

    @Test fun seenAndNotSeenAreOneTouchEach() = walker.run {
        onTheRoad()
        touch("Not seen: Torn Top")
        assertEquals(1, touches)
        assertEquals(listOf("bearing", "seen"), whats)
        kill()
        touch("Seen: Old kiln")
        assertEquals(listOf("bearing", "seen", "seen"), whats)
    }

    @Test fun whatIsSeenIsAFirstSightingToo() = walker.run {
        touch("Velm valley")
        touch("Velm Road")
        touch("Seen: Sorn chapel")
        assertEquals(listOf("seen"), whats)
        sees(fix.field.first())
    }

    @Test fun eachSightingIsTakenBackByOneTouch() = walker.run {
        onTheRoad()
        touch("Not seen: Torn Top")
        sights("Hallik mast", "088")
        kill()
        touch(fix.accounts[1].told)
        assertEquals(listOf("bearing", "bearing"), whats)
        touch(fix.accounts[0].told)
        assertEquals(listOf("Hallik mast"), fix.sightings.map { it.landmark })
        undo()
        assertEquals("undone, what was told is there again", listOf("bearing", "bearing"), whats)
        touch("Not seen: Torn Top")
        assertEquals(listOf("Sorn chapel", "Hallik mast"), fix.sightings.map { it.landmark })
    }

    @Test fun theBearingAlongTheLine() = walker.run {
        onTheRoad()
        touch("Read the bearing along the line")
        figures("01")
        kill()
        sees("01_°\u00a0mag")
        figures("0")
        touch("Weigh it in")
        assertEquals(listOf("bearing", "line-run"), whats)
        assertTrue("$touches touches", touches <= 3)
    }

    @Test fun aLandmarkThatMayBeOneOfSeveral() = walker.run {
        onTheRoad()
        tells("A landmark that may be one of several")
        touch("Hallik mast")
        touch("Old kiln")
        kill()
        sees("it may be this one")
        touch("Note it")
        figures("088")
        kill()
        touch("Weigh it in")
        val identity = fix.accounts.last().identity
        assertEquals(setOf("Hallik mast", "Old kiln"), identity.map { it.landmark }.toSet())
        sees(fix.accounts.last().told)
        sees("\u00a0%")
    }

    @Test fun theTripMeterFromAKnownPoint() = walker.run {
        onTheRoad()
        tells("Trip meter from a known point")
        touch("Ossel bridge")
        figures("900")
        kill()
        sees("900\u00a0m")
        touch("Note it")
        touch("Towards Milestone 4")
        assertEquals(listOf("bearing", "measured"), whats)
        sees(fix.field.first())
    }

    @Test fun aKnownPointIsNamedAndTheCoreNamesThoseThatThereAre() = walker.run {
        touch("Velm valley")
        touch("Velm Road")
        tells("Paces from a known point")
        touch("Note it")
        sees("It has: Ossel bridge, Milestone 4")
        words("Ossel bridge")
        kill()
        touch("Note it")
        figures("300")
        touch("Note it")
        touch("I do not know which way")
        assertEquals(listOf("measured"), whats)
    }

    @Test fun whatIsHere() = walker.run {
        onTheRoad()
        tells("What is here?")
        touch("A bridge")
        assertEquals(listOf("bearing", "here-kind"), whats)
        touch(fix.accounts.last().told)
        tells("What is here?")
        touch("Ossel bridge")
        assertEquals(listOf("bearing", "here"), whats)
    }

    @Test fun onWhichSide() = walker.run {
        onTheRoad()
        tells("On which side of you is a landmark?")
        touch("Hallik mast")
        touch("Right")
        kill()
        touch("Towards Milestone 4")
        assertEquals(listOf("bearing", "side"), whats)
    }

    @Test fun anAngleADistanceAndAPlace() = walker.run {
        onTheRoad()
        tells("Angle between two landmarks")
        touch("Sorn chapel")
        touch("Hallik mast")
        figures("72")
        kill()
        sees("72\u00a0degrees")
        touch("Weigh it in")
        tells("Distance to a landmark")
        touch("Hallik mast")
        figures("1100")
        touch("Weigh it in")
        tells("A place that somebody else reads")
        words("43TEG 5691 4962")
        kill()
        touch("Weigh it in")
        assertEquals(listOf("bearing", "angle", "distance", "witness"), whats)
    }

    @Test fun withoutHeightsTheGroundIsRefusedAndWhatWasTypedStays() = walker.run {
        onTheRoad()
        tells("Altimeter")
        figures("1720")
        touch("Weigh it in")
        sees("This sheet has no heights")
        sees("1720\u00a0m")
    }

    @Test fun whatTheGroundShows() = walker.run {
        onTheRoad()
        activity.tell { Record.Import(it, "valley.asc", HEIGHTS, "EPSG:32643", null, null, null, null, null) }
        tells("Altimeter")
        figures("1720")
        touch("Weigh it in")
        tells("What does the ground do towards a bearing?")
        touch("It rises")
        kill()
        figures("090")
        touch("Weigh it in")
        tells("Bearing that the slope under you falls to")
        figures("270")
        touch("Weigh it in")
        tells("A landform at a bearing")
        touch("Hill")
        figures("040")
        touch("Weigh it in")
        assertEquals(listOf("bearing", "height", "slope", "aspect", "landform"), whats)
    }

    @Test fun theKeyBackGoesBackByOneQuestion() = walker.run {
        onTheRoad()
        tells("Distance to a landmark")
        touch("Hallik mast")
        back()
        sees("Which landmark?")
        back()
        assertTrue(activity.draft.asked == null)
    }

    @Test fun aPlaceThatWasCheckedIsWeighedIn() = walker.run {
        onTheRoad()
        touch("Check it")
        words("43TEG 6591 4962")
        touch("Hold it against the fix")
        sees("The other place lies")
        sees("Two figures exchanged")
        kill()
        sees("The other place lies")
        undo()
        touch("Strike it")
        touch("Check it")
        words("43TEG 5691 4962")
        touch("Hold it against the fix")
        kill()
        touch("Weigh this place in")
        assertEquals(listOf("bearing", "witness"), whats)
    }

    @Test fun aDraftOfAnEarlierReleaseKeepsItsBearings() {
        val old = JSONObject().put("open", "NOTHING").put("line", "Velm Road").put("readings", JSONArray(listOf("Sorn chapel", "016 mag")))
        val read = Draft.of(old.toString())
        assertEquals(listOf("Sorn chapel", "016 mag"), read.takes.single().notes.single().said)
        assertEquals(What.BEARING, read.takes.single().notes.single().what)
        assertEquals("Velm Road", read.line)
        assertEquals("it is written anew and read again", read, Draft.of(read.text()))
    }

    private companion object {
        /** A tilted plain with a hill in it over the demo's valley: an ESRI ASCII grid, posts 100 m apart. */
        val HEIGHTS: String = Base64.getEncoder().encodeToString(tiltedPlain().toByteArray())
    }
}

package gatepost.field.flows

import android.widget.EditText
import gatepost.bridge.Record
import gatepost.field.repositoryFile
import gatepost.field.tell
import gatepost.field.texts
import gatepost.field.tree
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** What is told behind one button besides known points and the ground, killed between the questions. */
@RunWith(RobolectricTestRunner::class)
class MoreSightingsFlowTest {
    private val walker = Walker()
    private val fix get() = walker.activity.snapshot.fix!!
    private val whats get() = walker.whats

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

    @Test fun oneLandmarkTwiceWithARunBetween() = walker.run {
        onTheRoad()
        tells("One landmark twice, with a run between")
        touch("Hallik mast")
        figures("070")
        kill()
        touch("Note it")
        figures("600")
        touch("Note it")
        kill()
        touch("Towards Milestone 4")
        figures("088")
        kill()
        sees("088°\u00a0mag")
        touch("Weigh it in")
        assertEquals(listOf("bearing", "running"), whats)
    }

    /** Two readings of one landmark: each row tells its own, and only the one that does not fit gives way. */
    @Test fun aLandmarkReadTwice() = walker.run {
        onTheRoad()
        for (figures in listOf("088", "088", "128")) {
            touch("Hallik mast")
            figures(figures)
            touch("Weigh it in")
        }
        sees("128°\u00a0mag")
        touch("Read Hallik mast again")
        figures("088")
        touch("Weigh it in")
        assertEquals(List(4) { "bearing" }, whats)
        assertTrue(texts(activity.page.content).none { "128°" in it })
    }

    /** The bearing along the line that does not fit is asked for again, and gives way to the one read then. */
    @Test fun theLineIsReadAgain() = walker.run {
        onTheRoad()
        touch("Hallik mast")
        figures("088")
        touch("Weigh it in")
        tells("Read the bearing along the line")
        figures("049")
        touch("Weigh it in")
        kill()
        touch("Read the bearing along the line again")
        figures("319")
        touch("Weigh it in")
        assertEquals(listOf("bearing", "bearing", "line-run"), whats)
        assertTrue(texts(activity.page.foot).none { "again" in it })
    }

    /** Of a sheet with forty lines more not all are listed; the others are found by a part of their names, one or several. */
    @Test fun aLineThatIsNotListed() = walker.run {
        val rides = (10 until 50).joinToString("") { "[[line]]\nname = \"Ride $it\"\nkind = \"track\"\npoints = [\"56$it 49$it\", \"57$it 49$it\"]\n" }
        activity.tell { at -> Record.Carry(at, "toml", repositoryFile("tests/demo/velm-valley.toml").readText() + rides) }
        assertTrue(texts(activity.page.content).none { it == "Ride 12" })
        kill()
        touch("Not sure: one of several")
        sees("Which lines may it be?")
        for (ride in listOf("Ride 11", "Ride 12")) {
            words(ride.lowercase())
            touch("Look it up")
            kill()
            touch(ride)
        }
        kill()
        sees("Ride 11")
        touch("Note it")
        touch("Hallik mast")
        figures("060")
        touch("Weigh it in")
        assertEquals(listOf("Ride 11", "Ride 12"), fix.lines.map { it.name }.sorted())
    }

    /** Of a sheet with forty landmarks not all are listed; the others are found by a part of their names. */
    @Test fun aLandmarkThatIsNotListed() = walker.run {
        val posts = (10 until 50).joinToString("") { "[[landmark]]\nname = \"Post $it\"\nkind = \"post\"\nat = \"57$it 49$it\"\n" }
        activity.tell { at -> Record.Carry(at, "toml", repositoryFile("tests/demo/velm-valley.toml").readText() + posts) }
        touch("Velm Road")
        assertEquals("Part of a name (20 more)", tree(activity.page.content).filterIsInstance<EditText>().single().hint.toString())
        assertTrue(texts(activity.page.content).none { it == "Post 45" })
        words("post 45")
        touch("Look it up")
        kill()
        sees("One landmark is so named.")
        touch("Post 45")
        figures("105")
        touch("Weigh it in")
        assertEquals("Post 45", fix.sightings.single().landmark)
        assertTrue("$touches touches", touches <= 5)
    }

    @Test fun aHalfToldSightingIsThereAgain() = walker.run {
        onTheRoad()
        tells("Distance to a landmark")
        touch("Hallik mast")
        figures("11")
        touch("Leave it")
        kill()
        tells("Distance to a landmark")
        sees("11\u00a0m")
        figures("00")
        touch("Weigh it in")
        assertEquals(listOf("bearing", "distance"), whats)
        tells("Distance to a landmark")
        sees("Which landmark?")
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
}

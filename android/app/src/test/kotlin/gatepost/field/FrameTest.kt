package gatepost.field

import android.database.sqlite.SQLiteDatabase
import android.os.Bundle
import gatepost.bridge.Record
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.audit.afterRecords
import gatepost.field.audit.findings
import gatepost.field.audit.putRecords
import gatepost.field.book.title
import gatepost.field.cases.walkRecords
import gatepost.field.look.Lighting
import gatepost.field.phone.PhoneClock
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import java.io.File
import java.time.Clock
import java.time.Instant
import java.time.ZoneId
import java.time.ZoneOffset
import java.util.TimeZone
import org.robolectric.RuntimeEnvironment

@RunWith(RobolectricTestRunner::class)
class FrameTest {
    private fun FieldActivity.place() = title.toString()

    private fun FieldActivity.said() = texts(page.content)

    @Test fun anEmptyBookSaysWhatIsMissing() {
        val activity = launch().get()
        assertEquals(label(Stage.BEFORE.title), activity.place())
        assertTrue("${activity.said()}", activity.said().size > 1)
        assertEquals("the strip has a text in every cell", emptyList<String>(), texts(activity.page.strip).filter { it.lines().size < 3 })
    }

    @Test fun theWalkIsShownWhereItStopped() {
        val activity = afterRecords(walkRecords().size, Lighting.DAY)
        assertEquals(label(Stage.ON_FOOT.title), activity.place())
        assertTrue("${activity.said()}", activity.said().size > 1)
    }

    private fun FieldActivity.undo() = tap(tree(page.placeRow).last { it.isClickable })

    @Test fun twoTouchesStrikeAnOlderEntry() {
        val activity = afterRecords(KEPT, Lighting.DAY)
        activity.undo()
        assertEquals(label("label-strike"), buttons(activity.page.foot).last().text)
        assertEquals("nothing is struck yet", label(Stage.ON_FOOT.title), activity.place())
        tap(buttons(activity.page.foot).last())
        assertEquals(label(Stage.BESIDE_THE_LINE.title), activity.place())
    }

    @Test fun oneTouchStrikesAnEntryJustMade() {
        val activity = afterRecords(FIXED, Lighting.DAY)
        activity.tell { Record.Keep(it, null, null) }
        assertEquals(label(Stage.ON_FOOT.title), activity.place())
        activity.undo()
        assertEquals(label(Stage.BESIDE_THE_LINE.title), activity.place())
    }

    @Test fun aKilledAppOpensWhereItWas() {
        val controller = Robolectric.buildActivity(FieldActivity::class.java)
        afterRecords(KEPT, Lighting.DAY)
        controller.setup()
        val state = Bundle()
        controller.pause().stop().saveInstanceState(state).destroy()
        val again = Robolectric.buildActivity(FieldActivity::class.java).setup(state).get()
        assertEquals(label(Stage.ON_FOOT.title), again.place())
    }

    @Test fun aFileThatIsNoLogbookIsToldAndLeftAlone() {
        val file = File(RuntimeEnvironment.getApplication().filesDir, "field.gatepost").apply { writeText("not a logbook. ".repeat(99)) }
        val activity = launch().get()
        assertEquals(2, activity.said().size)
        assertTrue(file.readText().startsWith("not a logbook"))
        assertEquals(emptyList<String>(), activity.findings(Lighting.DAY, name = "no-book-day"))
        tap(buttons(activity.page.content).single { it.text == label("label-keep-aside") })
        assertEquals(label(Stage.BEFORE.title), activity.place())
        assertTrue("${activity.said()}", activity.said().first() == label("label-kept-aside", "kept-aside-1.gatepost"))
        assertTrue(File(file.parentFile, "kept-aside-1.gatepost").readText().startsWith("not a logbook"))
        activity.tell { Record.Carry(it, "toml", repositoryFile("tests/demo/velm-valley.toml").readText()) }
        assertEquals("the new one is kept", label(Stage.BESIDE_THE_LINE.title), launch().get().place())
    }

    /** A second one that is kept aside takes no other's place. */
    @Test fun nothingIsKeptOverAnother() {
        val folder = RuntimeEnvironment.getApplication().filesDir
        for (number in 1..2) {
            File(folder, "field.gatepost").apply { writeText("no logbook $number. ".repeat(99)) }
            val activity = launch().get()
            tap(buttons(activity.page.content).single { it.text == label("label-keep-aside") })
            activity.end()
        }
        assertEquals(listOf("1", "2"), (1..2).map { File(folder, "kept-aside-$it.gatepost").readText().removePrefix("no logbook ").take(1) })
    }

    /** What is half done goes on where the book does not keep it, and that is told. */
    @Test fun aDraftThatIsNotKeptIsTold() {
        putRecords(KEPT)
        val file = File(RuntimeEnvironment.getApplication().filesDir, "field.gatepost")
        val flags = SQLiteDatabase.OPEN_READWRITE or SQLiteDatabase.NO_LOCALIZED_COLLATORS
        SQLiteDatabase.openDatabase(file.path, null, flags).use { it.execSQL("CREATE TRIGGER full BEFORE INSERT ON draft BEGIN SELECT RAISE(ABORT, 'no room'); END") }
        val activity = launch().get()
        val before = activity.said()
        activity.go(activity.draft.copy(bearing = "052 mag"))
        assertTrue("${activity.said()}", "no room" in activity.said().first())
        activity.keep(activity.draft.copy(count = 1))
        assertTrue("${activity.said()}", "no room" in activity.said().first() && before.none { "no room" in it })
        assertEquals(1, activity.draft.count)
    }

    /** Times of day are told by the zone that the phone is in now. */
    @Test fun aJourneyIntoAnotherZoneIsTaken() {
        val clock = Traveller()
        val controller = launch(clock)
        controller.get().tell { Record.Carry(it, "toml", repositoryFile("tests/demo/velm-valley.toml").readText()) }
        val before = controller.get().snapshot.strip.lightNote
        clock.hours = 2
        controller.pause().stop().start().resume()
        val after = controller.get().snapshot.strip.lightNote
        assertTrue("$before, $after", before != after && after.any { it.isDigit() })
        TimeZone.getDefault().let { home ->
            TimeZone.setDefault(TimeZone.getTimeZone("GMT+03:00"))
            assertEquals(ZoneId.of("GMT+03:00").rules, PhoneClock.zone.rules)
            TimeZone.setDefault(home)
        }
    }

    private class Traveller(var hours: Int = 6) : Clock() {
        override fun getZone(): ZoneId = ZoneOffset.ofHours(hours)

        override fun withZone(zone: ZoneId): Clock = fixed(instant(), zone)

        override fun instant(): Instant = Instant.parse("2026-09-12T04:00:00Z")
    }

    @Test fun twoTouchesSwitchToNight() {
        val controller = launch()
        val activity = controller.get()
        tap(tree(activity.page.strip).last { it.isClickable })
        tap(buttons(activity.page.content).single { it.text == label("label-light-night") })
        assertEquals(Lighting.NIGHT, Lighting.of(controller.get()))
        assertEquals(Lighting.NIGHT, Lighting.of(launch().get()))
    }

    @Test @Config(qualifiers = "+night") fun aPhoneSetToNightOpensByNight() = assertEquals(Lighting.NIGHT, Lighting.of(launch().get()))

    private companion object {
        /** Records of the walk up to the kept car. */
        const val KEPT = 5

        /** Records of the walk up to the fix before it. */
        const val FIXED = 4
    }
}

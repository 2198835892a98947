package gatepost.field.flows

import android.app.Activity
import android.content.Intent
import android.net.Uri
import gatepost.bridge.FieldBook
import gatepost.bridge.IncomingFile
import gatepost.bridge.OpenConfig
import gatepost.bridge.Record
import gatepost.field.book.Bringing
import gatepost.field.idle
import gatepost.field.repositoryFile
import gatepost.field.tiltedPlain
import java.io.ByteArrayInputStream
import java.util.concurrent.Executor
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf

/** A file with heights, chosen on the phone: how far it is, stopped, and brought in. The system's chooser is a stand-in. */
@RunWith(RobolectricTestRunner::class)
class BringFlowTest {
    private val waiting = ArrayDeque<Runnable>()

    @Before fun holdBack() {
        Bringing.background = Executor { waiting.add(it) }
    }

    @After fun letGo() {
        Bringing.background = Executor { Thread(it).start() }
    }

    private fun Walker.beforeTheTrip() {
        touch("Velm valley")
        touch("Beside the line, place 2 of 5")
        touch("Before")
    }

    private fun Walker.chooses(bytes: ByteArray, key: String = "Bring in a file") {
        touch(key)
        val file = Uri.parse("content://files/valley.asc")
        shadowOf(activity.contentResolver).registerInputStream(file, ByteArrayInputStream(bytes))
        val asked = shadowOf(activity).nextStartedActivityForResult.intent
        assertEquals(Intent.ACTION_OPEN_DOCUMENT, asked.action)
        shadowOf(activity).receiveResult(asked, Activity.RESULT_OK, Intent().setData(file))
        idle()
    }

    private fun work() {
        waiting.removeFirst().run()
        idle()
    }

    private fun Walker.heights() = activity.snapshot.sheet!!.ground.joinToString(" ")

    @Test fun heightsAreBroughtIn() = Walker().run {
        beforeTheTrip()
        val without = heights()
        chooses(tiltedPlain().toByteArray())
        sees("The file is being read")
        sees("0\u00a0%")
        work()
        sees("Where do the heights come from?")
        touch("Laser from the air")
        touch("Mostly forest")
        words("An invented survey")
        touch("Bring it in")
        work()
        sees("does not say in which grid")
        touch("UTM 43 north")
        work()
        assertEquals(told("laser", "forest"), heights())
        assertEquals(4, listOf(without, told("laser", "forest"), told("laser", "open"), told(null, null)).distinct().size)
        val known = heights()
        kill()
        assertEquals(known, heights())
    }

    /** What the walker says of heights reaches the core, and gives their spread. */
    private fun told(source: String?, cover: String?) = FieldBook.open(OpenConfig()).run {
        val at = "2026-09-12T08:00:00Z"
        take(Record.Carry(at, "toml", repositoryFile("tests/demo/velm-valley.toml").readText()))
        val grid = snapshot().sheet!!.grid
        bring(at, IncomingFile("valley.asc", tiltedPlain().toByteArray(), grid, null, source, cover, "An invented survey"), null).snapshot.sheet!!.ground.joinToString(" ")
    }

    /** A phone that is turned asks on, with what was said so far; so does one whose screen was left for a while. */
    @Test fun aTurnedPhoneKeepsTheFile() = Walker().run {
        beforeTheTrip()
        chooses(tiltedPlain().toByteArray())
        work()
        turnPhone()
        sees("Where do the heights come from?")
        touch("Laser from the air")
        turnPhone()
        sees("What covers the ground there?")
        touch("Mostly forest")
        words("An invented survey")
        turnPhone()
        touch("Bring it in")
        turnPhone()
        work()
        sees("Whose data is it?")
        touch("Bring it in")
        work()
        turnPhone()
        sees("does not say in which grid")
        touch("UTM 43 north")
        work()
        assertEquals(told("laser", "forest"), heights())
        turnPhone()
        sees("Which line are you on?")
    }

    /** A file with a sheet is read off the thread that draws, too. */
    @Test fun aSheetIsOpened() = Walker().run {
        chooses(repositoryFile("tests/demo/velm-valley.toml").readBytes(), "Open a sheet file")
        sees("The file is being read")
        work()
        assertEquals("Velm valley", activity.snapshot.sheet?.name)
        touch("Velm Road")
    }

    @Test fun stoppedItChangesNothing() = Walker().run {
        beforeTheTrip()
        val before = activity.snapshot.sheet
        chooses(lanes())
        work()
        sees("Whose data is it?")
        touch("Bring it in")
        touch("Stop")
        work()
        sees("cancelled")
        assertEquals(before, activity.snapshot.sheet)
        sees("Bring in a file")
    }

    @Test fun whatIsNoFileOfTheKindIsRefused() = Walker().run {
        beforeTheTrip()
        chooses(ByteArray(0))
        work()
        touch("Not known")
        touch("Mostly open")
        touch("Bring it in")
        work()
        sees("valley.asc")
        sees("Bring in a file")
    }

    /** Lines enough for the core to look up from them. */
    private fun lanes(): ByteArray {
        val lanes = (0 until 2000).joinToString(",") { """{"type":"Feature","properties":{"name":"Lane $it","highway":"track"},"geometry":{"type":"LineString","coordinates":[[${14 + it / 1e4},46.0],[${14 + it / 1e4},46.01]]}}""" }
        return """{"type":"FeatureCollection","features":[$lanes]}""".toByteArray()
    }
}

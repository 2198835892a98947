package gatepost.field.cases

import gatepost.bridge.FieldBook
import gatepost.bridge.GatepostException
import gatepost.bridge.OpenConfig
import java.io.File
import org.json.JSONObject
import org.junit.Assert.assertEquals
import org.junit.Assert.assertThrows
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment

@RunWith(RobolectricTestRunner::class)
class MainJobTest {
    private val folder: File = RuntimeEnvironment.getApplication().filesDir

    @Test fun theWholeJobWithTheBookShutAfterEveryRecord() {
        val tally = Tally()
        for (record in walkRecords()) {
            val reply = tellOnce(File(folder, "walk.gatepost"), record)
            tally.check("main job: ${record.get("do")}", reply.getBoolean("ok")) { "${valueAt(reply, "refusal")}" }
            if (record.get("do") == "back") wayBack(tally, reply.getJSONObject("snapshot"))
        }
        tally.close("Main job")
    }

    private fun wayBack(tally: Tally, snapshot: JSONObject) {
        val way = snapshot.getJSONObject("way_back")
        val walked = snapshot.objects("legs").map { it.getInt("number") }
        tally.check("way back closes on the fix", way.getDouble("closes_m") < 1e-6) { "${way.get("closes_m")}" }
        tally.check("way back has every leg", way.objects("legs").map { it.getInt("of_leg") } == walked.reversed()) { "$way" }
    }

    @Test fun aShutBookRefuses() {
        val book = fresh(null)
        book.shut()
        assertThrows(GatepostException.Shut::class.java) { book.tell("{}") }
    }

    @Test fun aTextFileIsNoLogbook() {
        val file = File(folder, "notes.gatepost").apply { writeText("no logbook, but long enough to look at".repeat(50)) }
        val trouble = assertThrows(GatepostException.Logbook::class.java) { FieldBook.open(OpenConfig(file.path)) }
        assertEquals("logbook-damaged", trouble.code)
    }
}

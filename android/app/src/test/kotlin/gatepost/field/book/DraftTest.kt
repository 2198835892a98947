package gatepost.field.book

import org.json.JSONArray
import org.json.JSONObject
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

@RunWith(RobolectricTestRunner::class)
class DraftTest {
    @Test fun aDraftOfAnEarlierReleaseKeepsItsBearings() {
        val old = JSONObject().put("open", "NOTHING").put("line", "Velm Road").put("readings", JSONArray(listOf("Sorn chapel", "016 mag")))
        val read = Draft.of(old.toString())
        assertEquals(listOf("Sorn chapel", "016 mag"), read.takes.single().notes.single().said)
        assertEquals(What.BEARING, read.takes.single().notes.single().what)
        assertEquals("Velm Road", read.line)
        assertEquals("it is written anew and read again", read, Draft.of(read.text()))
    }
}

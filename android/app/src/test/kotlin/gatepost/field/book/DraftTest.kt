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

    @Test fun aCheckedPlaceOfAnEarlierReleaseIsRead() {
        val old = JSONObject().put("takes", JSONArray()).put("checked", JSONArray(listOf("43TEG 5691 4962", "20.0")))
        assertEquals(listOf(Checked("43TEG 5691 4962", "20.0")), Draft.of(old.toString()).checks)
    }

    /** Each kind is laid by once, and goes on where it was. */
    @Test fun whatIsLaidByGoesOn() {
        val half = Draft().asking(What.DISTANCE).copy(answers = listOf("Hallik mast"), typed = "11")
        val left = Draft.of(half.left().asking(What.TRIP).copy(answers = listOf("Ford")).left().text())
        assertEquals(half.copy(laid = left.laid.drop(1)), left.asking(What.DISTANCE))
        assertEquals(listOf("Ford"), left.asking(What.TRIP).answers)
        assertEquals("begun anew", emptyList<String>(), left.asking(What.PACES).answers)
    }
}

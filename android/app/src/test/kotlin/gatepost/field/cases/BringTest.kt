package gatepost.field.cases

import gatepost.bridge.GatepostException
import gatepost.bridge.IncomingFile
import gatepost.bridge.Watch
import org.junit.Assert.assertEquals
import org.junit.Assert.assertThrows
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** A file with a watch: progress is told and grows; one that is broken off leaves everything as it was. */
@RunWith(RobolectricTestRunner::class)
class BringTest {
    private val at = "2026-09-12T08:10:00Z"

    private class Watched(private val most: Int) : Watch {
        val shares = mutableListOf<Double>()

        override fun goesOn(share: Double): Boolean {
            shares += share
            return shares.size < most
        }
    }

    private fun lane(number: Int): String {
        val east = 14.0 + number / 1e4
        return """{"type":"Feature","properties":{"name":"Lane $number","highway":"track"},
            "geometry":{"type":"LineString","coordinates":[[$east,46.0],[$east,46.01]]}}"""
    }

    @Test fun aFileWithAWatch() {
        val tally = Tally()
        val file = """{"type":"FeatureCollection","features":[${(0 until 2000).joinToString(",") { lane(it) }}]}""".toByteArray()
        val book = fresh(null)
        val watch = Watched(Int.MAX_VALUE)
        val reply = book.bring(at, IncomingFile("lanes.geojson", file), watch)
        tally.check("brought", reply.snapshot.sheet?.run { lines.size to linesLeft } == 24 to 1976u)
        tally.check("progress", watch.shares.size > 2 && watch.shares == watch.shares.sorted() && watch.shares.last() <= 1.0)
        val before = book.snapshot()
        for (most in listOf(1, watch.shares.size / 2)) {
            val refused = assertThrows(GatepostException.Refused::class.java) {
                book.bring(at, IncomingFile("again.geojson", file, credit = "nobody"), Watched(most))
            }
            assertEquals("import-stopped", refused.code)
            tally.check("nothing changed", book.snapshot() == before)
        }
        tally.close("Bring")
    }
}

package gatepost.bench

import gatepost.bridge.FieldBook
import gatepost.bridge.OpenConfig
import gatepost.bridge.Record
import gatepost.bridge.SightingRecord
import gatepost.bridge.label
import gatepost.field.chart.ChartReader
import java.io.File

/* The Kotlin half of the bench of the boundary: the same calls as direct.rs, through the binding and JNA. Microseconds. */

private const val WARM_UP = 200
private const val MEASURED = 200
private const val SMALL_CALLS = 2000

/** The figure is that of the quickest twentieth, as in direct.rs. */
private const val QUICK = 20

fun main(arguments: Array<String>) {
    val (plain, woven) = arguments.map { File(it).readText() }
    val book = onSheet(plain)
    report("fix", quickMicros { book.take(fix()) })
    report("snapshot", quickMicros { book.snapshot() })
    report("call", quickMicros(SMALL_CALLS) { label("label-undo", "") })
    val drawn = onSheet(woven)
    drawn.take(fix())
    report("chart", quickMicros { drawn.chart("fix", 360.0, 640.0, 14.0) })
    val bytes = drawn.chart("fix", 360.0, 640.0, 14.0)
    report("decode", quickMicros { ChartReader(bytes).chart() })
}

private fun onSheet(text: String) = FieldBook.open(OpenConfig()).also { it.take(Record.Carry("2026-07-01T09:00:00Z", "geojson", text)) }

private fun fix() = Record.Fix(
    "2026-07-01T09:30:00Z", "Long Road", null, null, null, "sighting",
    listOf(SightingRecord.Bearing("North tower", null, null, null, "356 mag", null), SightingRecord.Bearing("East tower", null, null, null, "041 mag", null)),
)

private fun report(name: String, micros: Double) = println("$name %.1f".format(java.util.Locale.ROOT, micros))

private inline fun quickMicros(count: Int = MEASURED, call: () -> Any): Double {
    var kept = 0
    repeat(if (count == MEASURED) WARM_UP else count) { kept += call().hashCode() }
    val times = LongArray(count) {
        val start = System.nanoTime()
        val made = call()
        (System.nanoTime() - start).also { kept += made.hashCode() }
    }
    check(kept != 1) { "never: it keeps the calls from being left out" }
    times.sort()
    return times[count / QUICK] / 1000.0
}

package gatepost.field.place

import gatepost.bridge.SightingRecord
import gatepost.field.book.Note
import gatepost.field.book.What

private const val DOUBLE = "double"

/** The note as the core takes it. */
fun Note.record(): SightingRecord = when (what) {
    What.BEARING -> SightingRecord.Bearing(text(0), null, null, null, text(1), null)
    What.SEEN -> SightingRecord.Seen(text(0))
    What.NOT_SEEN -> SightingRecord.NotSeen(text(0))
    What.LINE_RUN -> SightingRecord.LineRun(text(0), null)
    What.ONE_OF -> SightingRecord.Bearing(null, text(0).lines(), null, null, text(1), null)
    What.RUNNING -> SightingRecord.Running(text(0), text(1), text(4), figure(2), null, null, told(3), null)
    What.TRIP -> SightingRecord.Trip(text(0), figure(1), null, text(3) == UNTIL_FULL, null, told(2))
    What.PACES -> SightingRecord.Paces(text(0), figure(1), DOUBLE, told(2))
    What.HERE -> SightingRecord.Here(text(0), null, null)
    What.HERE_KIND -> SightingRecord.Here(null, text(0), null)
    What.SIDE -> SightingRecord.Side(text(0), text(1), told(2))
    What.ANGLE -> SightingRecord.Angle(text(0), text(1), figure(2), null)
    What.DISTANCE -> SightingRecord.Distance(text(0), figure(1), null)
    What.WITNESS -> SightingRecord.Witness(text(0), number(1))
    What.SLOPE, What.HEIGHT, What.HEIGHT_SET, What.ASPECT, What.LANDFORM -> ground()
}

/** What the ground shows. */
private fun Note.ground(): SightingRecord = when (what) {
    What.SLOPE -> SightingRecord.Slope(text(0), text(1), null, null, null)
    What.HEIGHT_SET -> SightingRecord.Height(figure(3), null, text(0), number(1), number(2), null)
    What.ASPECT -> SightingRecord.Aspect(text(0), null)
    What.LANDFORM -> SightingRecord.Landform(text(0), text(1), null, number(2), null)
    else -> SightingRecord.Height(figure(0), null, null, null, null, null)
}

private fun Note.text(at: Int) = said.getOrElse(at) { "" }

/** None where nothing was answered. */
private fun Note.told(at: Int) = text(at).ifEmpty { null }

private fun Note.number(at: Int) = told(at)?.toDoubleOrNull()

/** A figure that was not typed is none, and the core says so. */
private fun Note.figure(at: Int) = number(at) ?: Double.NaN

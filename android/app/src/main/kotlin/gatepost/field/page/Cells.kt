package gatepost.field.page

import android.content.Context
import gatepost.bridge.Snapshot
import gatepost.bridge.label

/** The strip of a snapshot: the core's own texts under the names of the cells. Without a book nothing is known. */
fun cells(snapshot: Snapshot?): List<Cell> {
    val strip = snapshot?.strip ?: return listOf("label-sure", "label-home", "label-light").map(::unknown)
    return listOf(
        Cell(label("label-sure"), strip.sure, strip.sureNote, fullLabel = strip.sureLabel, isOld = strip.sureIsOld),
        Cell(label("label-home"), strip.home, strip.homeNote, isOld = strip.homeIsOld),
        Cell(label("label-light"), strip.light, strip.lightNote, staysWhenLarge = snapshot.light == null),
    )
}

private fun unknown(name: String) = Cell(label(name), label("label-not-known"), label("label-no-book"))

package gatepost.field.page

import android.content.Context
import gatepost.bridge.Snapshot
import gatepost.field.R

/** The strip of a snapshot: the core's own texts under the names of the cells. Without a book nothing is known. */
fun Context.cells(snapshot: Snapshot?): List<Cell> {
    val strip = snapshot?.strip ?: return listOf(R.string.sure, R.string.home, R.string.light).map(::unknown)
    val sure = getString(if (SPREAD in strip.sure) R.string.sure_95 else R.string.sure)
    return listOf(
        Cell(getString(R.string.sure), strip.sure.unparted(), strip.sureNote, fullLabel = sure),
        Cell(getString(R.string.home), strip.home, strip.homeNote.unparted()),
        Cell(getString(R.string.light), strip.light, strip.lightNote, staysWhenLarge = snapshot.light == null),
    )
}

private fun String.unparted() = replace("$SPREAD ", "$SPREAD\u00a0")

private fun Context.unknown(label: Int) = Cell(getString(label), getString(R.string.unknown), getString(R.string.unknown_under))

private const val SPREAD = '±'

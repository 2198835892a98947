package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.SheetView
import gatepost.bridge.Snapshot
import gatepost.field.book.Draft
import gatepost.field.book.Note
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.look.Standing

/** On which line one stands, as it is told with a fix: on one, on one of several, or on none. */
class On(val line: String?, val lines: List<String>?, val none: Boolean?)

/** That of the fix; before one, what was chosen; nothing where that is still to be asked. */
fun Hand.standsOn(): On? {
    val fix = snapshot.fix
    return when {
        snapshot.openFix != null -> On(null, null, true)
        fix != null -> if (fix.lines.size > 1) On(null, fix.lines.map { it.name }, null) else On(fix.line, null, null)
        else -> draft.on(snapshot.sheet)
    }
}

/** What was chosen, of the lines that the sheet has; those of a large sheet are not all at hand. */
fun Draft.on(sheet: SheetView?): On? {
    val known = sheet?.lines.orEmpty().map { it.name }
    val isThere = { name: String -> name in known || (name.isNotEmpty() && sheet != null && sheet.linesLeft > 0u) }
    val several = lines.filter(isThere)
    return when {
        onNoLine -> On(null, null, true)
        several.size > 1 -> On(null, several, null)
        else -> (several.singleOrNull() ?: line.takeIf(isThere) ?: known.singleOrNull())?.let { On(it, null, null) }
    }
}

/** When the fix was taken. */
val Snapshot.fixedAt get() = fix?.atUnixMs ?: openFix?.atUnixMs

/** The sightings of the fix as they were told; where that is not known any more, the bearings as the core has them. */
fun Hand.notes(): List<Note> {
    val at = snapshot.fixedAt ?: return emptyList()
    return draft.takes.lastOrNull { it.atUnixMs == at }?.notes ?: draft.takes.lastOrNull { it.atUnixMs == 0L }?.notes?.let(::ofOld) ?: asTaken()
}

/** Sent, and killed before the draft that knows the fix's time: all of it, where the fix holds as many; of an old draft as many as it holds. */
private fun Hand.ofOld(typed: List<Note>): List<Note>? {
    if ((snapshot.fix?.accounts ?: snapshot.openFix?.sightings)?.size == typed.size) return typed
    val taken = snapshot.fix?.sightings.orEmpty().map { it.landmark }
    return typed.take(taken.size).takeIf { all -> all.map { it.said.first() } == taken }
}

private fun Hand.asTaken(): List<Note> {
    val onLine = snapshot.fix?.sightings.orEmpty().map { Note(What.BEARING, it.landmark, "${it.bearingDegMag} $MAG") }
    val open = snapshot.openFix?.sightings.orEmpty().mapNotNull { one -> one.read?.takeIf { one.what == BEARING }?.let { Note(What.BEARING, one.of, "$it $GRID") } }
    return onLine + open
}

/** Takes the fix with these sightings, which are in the draft before it is taken; refused, the screen stays as it is. */
fun Hand.weigh(notes: List<Note>, on: On? = standsOn(), then: Draft = draft.shut()) {
    keep(draft.sent(notes))
    val after: (Snapshot) -> Draft = { now -> now.fixedAt?.let { then.taken(it, notes) } ?: then }
    tell(after) { Record.Fix(it, on?.line, on?.lines, null, on?.none, draft.compass.word, notes.map(Note::record)) }
}

/** The fix with one sighting more. What does not fit gives way to the same read again. */
fun Hand.weighIn(note: Note) {
    val verdicts = snapshot.fix?.accounts?.map { it.verdict } ?: snapshot.openFix?.sightings.orEmpty().map { it.verdict }
    val isMisfit = { number: Int -> verdicts.getOrNull(number)?.let(::standing) == Standing.MISFIT }
    weigh(notes().filterIndexed { number, earlier -> !(isMisfit(number) && note.isAgain(earlier)) } + note)
}

private const val BEARING = "bearing"

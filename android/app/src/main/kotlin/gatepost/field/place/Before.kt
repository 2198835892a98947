package gatepost.field.place

import android.view.View
import gatepost.bridge.Record
import gatepost.bridge.SheetRecord
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Open
import gatepost.field.book.Part
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.answer
import gatepost.field.look.field
import gatepost.field.look.line
import gatepost.field.look.said

/** The sheet that comes with the app. Its valley is invented. */
private const val DEMO = "velm-valley.toml"

/** Before: which sheet is carried. */
fun Hand.before(): Shown {
    val demo = context.assets.open(DEMO).bufferedReader().use { it.readText() }
    return Shown(
        context.answer(draft.said) + tripBefore() + listOf(
            context.line(R.style.Text_Heading, label("label-which-sheet")),
            again(),
            Row(context, null, label("label-demo-sheet"), label("label-demo-note")) { carry(demo) },
            Row(context, null, label("label-sheet-by-hand"), label("label-sheet-by-hand-note")) { go(draft.typing(Part.SHEET)) },
            Row(context, null, label("label-type-sheet"), label("label-sheet-field")) { go(draft.typingSheet()) },
        ),
        listOf(Step(label("label-open-sheet"), ::openSheet)),
    )
}

/** What becomes of a trip on which nothing is walked yet. */
private fun Hand.tripBefore(): List<View> =
    listOfNotNull(snapshot.sheet?.takeIf { snapshot.stage == Stage.BESIDE_THE_LINE }?.let { context.said(label("label-trip-ends", it.name)) })

/** Another trip on the sheet of the last one, with its heights. */
private fun Hand.again(): View? {
    val sheet = snapshot.sheet?.takeIf { snapshot.stage == Stage.AFTERWARDS } ?: return null
    return Row(context, null, label("label-again-on", sheet.name), label("label-again-note")) {
        tell(draft.ofNextTrip()) { Record.Sheet(SheetRecord(it, null, null, null, null, null, null, null, emptyList(), emptyList(), emptyList(), emptyList(), emptyList())) }
    }
}

/** A sheet pasted or typed as text. */
fun Hand.sheetTyped(): Shown {
    val typed = context.field(label("label-sheet-field"), draft.words, 8) { keep(draft.copy(words = it)) }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-type-sheet")), typed), listOf(Step(label("label-carry")) { carry(draft.words) }))
}

/** Another sheet begins another trip: nothing half done goes along. */
fun Hand.carry(text: String) {
    tell(draft.ofNextTrip()) { Record.Carry(it, if (text.trimStart().startsWith("{")) "geojson" else "toml", text) }
}

/** The sheet that is carried: its grid, its norths, the pace that the trip counts with, and the compass. */
fun Hand.sheetCarried(): List<View?> {
    val sheet = snapshot.sheet ?: return emptyList()
    return listOf(
        context.line(R.style.Text_Heading, sheet.name),
        context.line(R.style.Text_Label, sheet.grid),
        Row(context, null, label("label-pace"), snapshot.pace.told) { go(draft.opened(Open.PACE)) },
        Row(context, null, label("label-add-to-sheet"), "") { go(draft.opened(Open.PARTS)) }.takeIf { snapshot.car == null },
        Row(context, null, label("label-bring"), label("label-bring-note")) { bringFile() }.takeIf { snapshot.car == null },
        otherSheet(),
    ) + compassChecked() + norths() + sheet.ground.map { context.said(it, R.style.Text_Label) }
}

/** Another sheet, as long as nothing is walked; then why not. */
private fun Hand.otherSheet(): View? = when {
    snapshot.stage == Stage.AFTERWARDS -> null
    snapshot.car != null -> context.said(label("label-other-sheet-later"), R.style.Text_Label)
    else -> Row(context, null, label("label-other-sheet"), label("label-other-sheet-note")) { go(draft.opened(Open.SHEETS)) }
}

/** Where north lies on this sheet today. */
fun Hand.norths(): List<View> {
    val said = snapshot.sheet?.norths.orEmpty().map { context.said(it, R.style.Text_Label) }
    return if (said.isEmpty()) said else listOf(context.line(R.style.Text_Strong, label("label-norths"))) + said
}

/** How many double paces the walker takes to 100 m. */
fun Hand.pacePad(): Shown {
    val pad = Pad(this, label("label-how-many-paces"), Asks.COUNT)
    return Shown(listOf(pad), listOf(Step(label("label-set-pace")) { tell(draft.left()) { Record.Pace(it, draft.typed.toDoubleOrNull(), null, null) } }))
}

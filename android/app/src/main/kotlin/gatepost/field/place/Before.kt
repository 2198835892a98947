package gatepost.field.place

import gatepost.bridge.Record
import gatepost.field.R
import gatepost.field.book.Draft
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.field
import gatepost.field.look.line

/** The sheet that comes with the app. Its valley is invented. */
private const val DEMO = "velm-valley.toml"

/** Before: which sheet is carried. */
fun Hand.before(): Shown {
    val demo = context.assets.open(DEMO).bufferedReader().use { it.readText() }
    return Shown(
        listOf(
            draft.said.firstOrNull()?.let { context.line(R.style.Text_Heading, it) },
            context.line(R.style.Text_Heading, context.getString(R.string.which_sheet)),
            Row(context, null, context.getString(R.string.demo_sheet), context.getString(R.string.demo_sheet_note)) { carry("toml", demo) },
        ),
        listOf(Step(context.getString(R.string.type_sheet)) { go(draft.opened(Open.SHEET)) }),
    )
}

/** A sheet pasted or typed as text. */
fun Hand.sheetTyped(): Shown {
    val typed = context.field(context.getString(R.string.sheet_field), draft.words, 8) { keep(draft.copy(words = it)) }
    val take = Step(context.getString(R.string.carry_it)) { carry(if (draft.words.trimStart().startsWith("{")) "geojson" else "toml", draft.words) }
    return Shown(listOf(context.line(R.style.Text_Heading, context.getString(R.string.type_sheet)), typed), listOf(take))
}

/** Another sheet begins another trip: nothing half done goes along. */
private fun Hand.carry(format: String, text: String) {
    tell(Draft()) { Record.Carry(it, format, text) }
}

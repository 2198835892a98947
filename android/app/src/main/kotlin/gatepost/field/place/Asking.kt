package gatepost.field.place

import android.view.View
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Note
import gatepost.field.book.Open
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.button
import gatepost.field.look.field
import gatepost.field.look.line

/** Everything that can be told besides bearings, behind one button. */
fun Hand.moreButton() = context.button(R.style.Outlined, label("label-more-sightings")) { go(draft.opened(Open.MORE)) }

/** What is told; a touch asks its first question. */
fun Hand.moreSightings(): Shown {
    val kinds = if (standsOn()?.none == true) inTheOpen else onLine
    val rows = kinds.map { kind -> Row(context, null, label(kind.title), "") { go(draft.asking(kind)) } }
    return Shown(listOf(context.line(R.style.Text_Heading, label("label-more-sightings"))) + rows, emptyList())
}

/** The question that comes next. */
fun Hand.asked(): Shown {
    val question = questions().getOrNull(draft.answers.size) ?: return moreSightings()
    return when (question.way) {
        Way.BEARING -> pad(question, Asks.SIGHT) { typedBearing() }
        Way.PACES -> pad(question, Asks.COUNT) { draft.typed }
        Way.METRES -> pad(question, Asks.METRES) { draft.typed }
        Way.DEGREES -> pad(question, Asks.DEGREES) { draft.typed }
        Way.LANDMARK -> listed(question, landmarks().filter { it.first !in draft.answers }.map { (name, kindOf) -> answer(name, kindOf) { answered(name) } })
        Way.LANDMARKS -> listed(question, marking(landmarks()), next { draft.marked.joinToString("\n") }.takeIf { draft.marked.size > 1 })
        Way.CHOICE -> listed(question, question.choices.map { (word, name) -> answer(label(name)) { answered(word) } })
        Way.HERE -> listed(question, kindsHere.map { (word, name) -> answer(label(name)) { answered(word, What.HERE_KIND) } } + points { it } + named(), next(::namedPoint))
        Way.POINT -> listed(question, points { it } + named(), next(::namedPoint))
        Way.TOWARDS -> listed(question, points { label("label-towards", it) } + answer(label("label-either-way")) { answered("") } + named(), next(::namedPoint))
        Way.LINE -> listed(question, snapshot.sheet?.lines.orEmpty().map { line -> answer(line.name, line.kind) { answered(line.name) } })
        Way.WORDS -> listed(question, listOf(context.field(label(question.title), draft.words, 1) { keep(draft.copy(words = it)) }), next { draft.words.trim() })
        Way.REFERENCES -> listed(question, listOf(context.field(label("label-references-field"), draft.words, LINES) { keep(draft.copy(words = it)) }), next { draft.words })
        Way.PLACE -> listed(question, listOf(context.field(label("label-check-field"), draft.words, 1) { keep(draft.copy(words = it)) }), next { draft.words })
    }
}

private fun Hand.questions() = draft.part?.questions ?: draft.asked?.questions.orEmpty()

private fun Hand.landmarks() = snapshot.sights.map { it.landmark to it.kind }

private fun Hand.pad(question: Question, asks: Asks, typed: () -> String) = Shown(listOf(Pad(this, label(question.title), asks)), listOf(next(typed)))

private fun Hand.listed(question: Question, views: List<View>, next: Step? = null) =
    Shown(listOf(context.line(R.style.Text_Heading, label(question.title))) + views, listOfNotNull(next))

private fun Hand.answer(name: String, under: String = "", act: () -> Unit) = Row(context, null, name, under, act)

/** The last answer weighs it in; those before it lead to the next question. */
private fun Hand.next(answer: () -> String): Step {
    val isLast = draft.answers.size + 1 == questions().size && draft.part == null
    return Step(label(if (isLast) "label-weigh-in" else "label-note-it")) { answered(answer()) }
}

/** A known point as it was named. Where nothing was, the core refuses the whole and names those that there are. */
private fun Hand.namedPoint() = draft.words.trim()

private fun Hand.answered(answer: String, kind: What? = draft.asked) {
    val answers = draft.answers + answer
    val all = draft.part?.questions ?: kind?.questions.orEmpty()
    if (kind != null && all[draft.answers.size].way == Way.POINT && answer.isEmpty()) weighIn(Note(kind, answers + ONE))
    else if (answers.size < all.size) go(draft.copy(answers = answers, typed = "", words = "", onGrid = false, marked = emptyList())) else draft.part?.let { add(it, answers) } ?: kind?.let { weighIn(Note(it, answers)) }
}

/** Known points that the fix or what was told so far has named. */
private fun Hand.points(name: (String) -> String) = known().filter { it !in draft.answers }.map { point -> answer(name(point)) { answered(point) } }

private fun Hand.known(): List<String> {
    val places = snapshot.fix?.places.orEmpty().flatMap { listOfNotNull(it.from, it.towards) }
    val drawn = chart("fix", 1.0, 1.0, 1.0)?.targets.orEmpty().filter { it.isKnownPoint }.map { it.name }
    val crossings = snapshot.fix?.sightings.orEmpty().flatMap { it.crossings }.map { it.from }
    val told = draft.takes.flatMap { it.notes }.filter { it.what in fromKnown }.map { it.said.first() }
    return (places + drawn + crossings + told).filter { it.isNotEmpty() }.distinct()
}

private val fromKnown = setOf(What.TRIP, What.PACES, What.HERE)

/** Another one, by its name on the sheet. */
private fun Hand.named(): View = context.field(label("label-name-of-point"), draft.words, 1) { keep(draft.copy(words = it)) }

/** A count that no core refuses. */
private const val ONE = "1"

private const val LINES = 5

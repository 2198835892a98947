package gatepost.field.place

import android.view.View
import gatepost.bridge.KnownPointView
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.Note
import gatepost.field.book.Open
import gatepost.field.book.Part
import gatepost.field.book.What
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.button
import gatepost.field.look.field
import gatepost.field.look.line
import gatepost.field.look.said

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
        Way.HOURS -> pad(question, Asks.HOURS) { draft.typed }
        Way.NEAR -> listed(question, anywhere())
        Way.LANDMARK -> listed(question, landmarks())
        Way.LANDMARKS -> listed(question, landmarksFound().run { byName(this) + marking(listed.map { it.landmark to it.kind }) }, next { draft.marked.joinToString("\n") }.takeIf { draft.marked.size > 1 })
        Way.CHOICE -> listed(question, question.choices.map { (word, name) -> answer(label(name)) { answered(word) } })
        Way.HERE -> listed(question, kindsHere.map { (word, name) -> answer(label(name)) { answered(word, What.HERE_KIND) } } + points(known()) { it })
        Way.POINT -> listed(question, from())
        Way.TOWARDS -> listed(question, points(known()) { label("label-towards", it) } + answer(label("label-either-way")) { answered("") })
        Way.LINE -> listed(question, linesFound().run { byName(this) + listed.map { line -> answer(line.name, line.kind) { answered(line.name) } } })
        Way.WORDS -> listed(question, listOf(context.field(label(question.title), draft.words, 1) { keep(draft.copy(words = it)) }), next { draft.words.trim() })
        Way.REFERENCES -> listed(question, listOf(context.field(label("label-references-field"), draft.words, LINES) { keep(draft.copy(words = it)) }), next { draft.words })
        Way.PLACE -> listed(question, listOf(context.field(label("label-check-field"), draft.words, 1) { keep(draft.copy(words = it)) }), next { draft.words })
    }
}

private fun Hand.questions() = draft.part?.questions ?: draft.asked?.questions.orEmpty()

/** The left one is not the right one too. */
private fun Hand.landmarks(): List<View> {
    val found = landmarksFound()
    return byName(found) + found.listed.filter { it.landmark !in draft.answers }.map { answer(it.landmark, it.kind) { answered(it.landmark) } }
}

/** Without a figure there is no answer, where one is asked for. */
private fun Hand.pad(question: Question, asks: Asks, typed: () -> String): Shown {
    val isNeeded = question.way.isFigure && !question.isOptional
    val lacks = label("label-figure-needed").takeIf { isNeeded && draft.typed.isEmpty() }
    return Shown(listOf(Pad(this, title(question), asks, isNeeded), questionBefore()), listOf(next(typed)).filter { lacks == null }, lacks = lacks)
}

/** The way to the question before, with its answer to be mended. */
private fun Hand.questionBefore(): View? = context.button(R.style.Outlined, label("label-go-back")) { go(draft.back()) }.takeIf { draft.answers.isNotEmpty() }

private fun Hand.listed(question: Question, views: List<View>, next: Step? = null) =
    Shown(listOf(context.line(R.style.Text_Heading, title(question))) + views + questionBefore(), listOfNotNull(next))

/** What is asked, of what was answered first. */
private fun Hand.title(question: Question) = label(question.title, draft.answers.firstOrNull().orEmpty())

private fun Hand.answer(name: String, under: String = "", act: () -> Unit) = Row(context, null, name, under, act)

/** The last answer weighs it in; those before it lead to the next question. */
private fun Hand.next(answer: () -> String): Step {
    val isLast = draft.answers.size + 1 == questions().size && draft.part == null
    return Step(label(if (isLast) "label-weigh-in" else "label-note-it")) { answered(answer()) }
}

private fun Hand.answered(answer: String, kind: What? = draft.asked) {
    val answers = draft.answers + answer
    val all = draft.part?.questions ?: kind?.questions.orEmpty()
    if (answers.size < all.size) go(draft.copy(answers = answers, typed = "", words = "", onGrid = false, marked = emptyList())) else draft.part?.let { add(it, answers) } ?: kind?.let { weighIn(Note(it, answers)) }
}

/** Any known point, or a landmark. */
private fun Hand.anywhere(): List<View> {
    val (points, landmarks) = pointsFound(emptyList()) to landmarksFound()
    val names = (points.listed.map { it.name } + landmarks.listed.map { it.landmark }).distinct()
    return byName(Found(names, points.left + landmarks.left, points.said + landmarks.said)) + names.map { answer(it) { answered(it) } }
}

/** The known points of the line that one stands on; where something was counted from one, the others of its lines. */
private fun Hand.known(): Found<KnownPointView> {
    val from = questions().zip(draft.answers).firstOrNull { (question, _) -> question.way == Way.POINT }?.second
    return pointsFound(standsOn()?.run { lines ?: listOfNotNull(line) }.orEmpty(), from)
}

/** A row for each, and the way to those that are not listed. */
private fun Hand.points(found: Found<KnownPointView>, name: (String) -> String): List<View> = byName(found) + found.listed.map { point -> answer(name(point.name), kind(point)) { answered(point.name) } }

/** Where there is none, the way to one. */
private fun Hand.from(): List<View> = known().let { found ->
    if (found.listed.isNotEmpty() || found.left > 0u) return points(found) { it }
    listOf(context.said(label("label-no-known-point")), answer(label("label-add-point")) { go(draft.typing(Part.POINT)) })
}

/** What it is where lines meet, and on which line when that is not sure. */
private fun Hand.kind(point: KnownPointView): String {
    val kind = kindsMet.firstOrNull { it.first == point.kind }?.let { label(it.second) }
    return listOfNotNull(kind, point.line.takeIf { standsOn()?.line == null }).joinToString(", ")
}

private const val LINES = 5

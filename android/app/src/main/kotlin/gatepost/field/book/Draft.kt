package gatepost.field.book

import gatepost.bridge.CheckView
import gatepost.bridge.Snapshot
import gatepost.bridge.Stage
import org.json.JSONArray
import org.json.JSONException
import org.json.JSONObject

/** The screens that open over a place. */
enum class Open {
    NOTHING, SHEETS, SHEET, PARTS, PART, LINE, LINES, PAD, CHECK, MORE, ASK, KEEP, MIND, TURN, MET, DETOUR, PACE, READ, KNOWN, WHERE, BACK, PLACES, LOOK;

    /** Whether it is left without doing it; the others name their own way on. */
    val isLeft get() = this in SHEETS..KNOWN || this == PLACES
}

/** What bearings are read with, by the core's word for it. */
enum class Compass(val word: String, val title: String) {
    BASEPLATE("baseplate", "label-instrument-baseplate"),
    SIGHTING("sighting", "label-instrument-sighting"),
    QUICK("quick", "label-instrument-quick"),
    PHONE("phone", "label-instrument-phone");

    fun next() = values()[(ordinal + 1) % values().size]
}

/** What a compass that is being checked said to a point, and the bearing that the map has for it. */
data class Trial(val read: String, val known: String)

/** A place that was held against the fix, its spread where that was told, and what the core said of it; nothing as long as that is not known. */
data class Checked(val place: String, val spreadM: String = "", val told: String = "")

/** What is half done. The core keeps it as a text through a kill; what the text looks like is this class's own affair. */
data class Draft(
    val open: Open = Open.NOTHING,
    /** The place that is looked at while the trip is in another. */
    val looked: Stage? = null,
    /** The line one stands on, or all that it may be, or that it is none; and what is being sighted. */
    val line: String = "",
    val lines: List<String> = emptyList(),
    val onNoLine: Boolean = false,
    val landmark: String = "",
    /** Figures of a bearing or a count, and words, as far as they are typed. */
    val typed: String = "",
    val words: String = "",
    val onGrid: Boolean = false,
    val inMils: Boolean = false,
    val compass: Compass = Compass.BASEPLATE,
    /** What was read with before the phone's heading was taken. */
    val own: Compass = Compass.BASEPLATE,
    /** What is being told besides a bearing: its kind, the answers so far, and what is marked of several. */
    val asked: What? = null,
    val part: Part? = null,
    val answers: List<String> = emptyList(),
    val marked: List<String> = emptyList(),
    /** The sightings of the last fixes as they were told. */
    val takes: List<Take> = emptyList(),
    /** The places that were held against the fix last. */
    val checks: List<Checked> = emptyList(),
    val trials: List<Trial> = emptyList(),
    /** The leg that is being walked. */
    val bearing: String = "",
    val count: Int = 0,
    val met: String = "",
    val side: String = "",
    val out: String = "",
    /** What the core said last. */
    val said: List<String> = emptyList(),
    /** This text as it was before each of the last legs was closed: striking a leg brings it back. */
    val past: List<String> = emptyList(),
    /** What was left half told: texts like this one, each with one screen alone. */
    val laid: List<String> = emptyList(),
    /** How far the trip was when this was kept. */
    val at: String = "",
) {
    /** With nothing opened over the place and nothing half typed. */
    fun shut() = copy(open = Open.NOTHING, looked = null, typed = "", words = "", onGrid = false, landmark = "", asked = null, part = null, answers = emptyList(), marked = emptyList())

    /** With what was opened left again: what is set *Before* is left for that place, what is half told is laid by. */
    fun left() = if (open in Open.PACE..Open.KNOWN) lookingAt(Stage.BEFORE) else laidBy().shut()

    private fun laidBy(): Draft {
        val isHalf = open in laying && (typed.isNotEmpty() || words.isNotEmpty() || answers.isNotEmpty() || marked.isNotEmpty())
        val half = Draft(open = open, asked = asked, part = part, typed = typed, words = words, onGrid = onGrid, answers = answers, marked = marked)
        return if (isHalf) copy(laid = (laid.filterNot { of(it).isAs(this) } + half.text()).takeLast(LAID)) else this
    }

    private fun isAs(other: Draft) = open == other.open && asked == other.asked && part == other.part

    /** What was laid by of it goes on. */
    private fun resumed(): Draft {
        val half = laid.lastOrNull { of(it).isAs(this) } ?: return this
        return of(half).run { this@Draft.copy(typed = typed, words = words, onGrid = onGrid, answers = answers, marked = marked, laid = this@Draft.laid - half) }
    }

    /** Goes on with a sheet as a text, or begins it. */
    fun typingSheet() = opened(Open.SHEET).resumed()

    /** One question back; without one, left. What was answered is there to be mended. */
    fun back() = if (open in asking && answers.isNotEmpty()) copy(answers = answers.dropLast(1), words = answers.last(), typed = "", marked = emptyList()) else left()

    /** Begins to type a part of a sheet, or goes on with it. */
    fun typing(part: Part) = opened(Open.PART).copy(part = part).resumed()

    /** Begins to tell a sighting, or goes on with it. */
    fun asking(what: What) = opened(Open.ASK).copy(asked = what).resumed()

    /** With the notes that a fix is about to be taken with. */
    fun sent(notes: List<Note>) = copy(takes = (takes.filter { it.atUnixMs != 0L } + Take(0L, notes)).takeLast(TAKES))

    /** With the notes that the fix of this time was taken with. */
    fun taken(atUnixMs: Long, notes: List<Note>) = copy(takes = (takes.filter { it.atUnixMs != 0L } + Take(atUnixMs, notes)).takeLast(TAKES))

    /** As it is where things stand at this [mark] now: an entry that was made since, and of which no draft tells, has taken the leg. */
    fun since(mark: String): Draft = when {
        at.isEmpty() || at == mark -> this
        isOneLegOn(mark) -> legClosed(this).copy(at = mark)
        else -> copy(count = 0, met = "", side = "", out = "", past = emptyList(), at = mark)
    }

    /** Whether a leg more, out or back, is all that the log has gone on. */
    private fun isOneLegOn(mark: String): Boolean {
        val (then, now) = listOf(at, mark).map { it.split(' ') }
        val legs = { of: List<String> -> of.drop(1).sumOf { it.toIntOrNull() ?: 0 } }
        return then.first() == now.first() && legs(now) == legs(then) + 1
    }

    /** Nothing half done goes along to another trip. */
    fun ofNextTrip() = Draft(compass = compass, own = own, inMils = inMils)

    fun opened(screen: Open) = shut().copy(open = screen)

    fun lookingAt(place: Stage) = opened(Open.LOOK).copy(looked = place)

    /** Begins the next leg. */
    fun legClosed(walked: Draft) =
        copy(count = 0, met = "", side = "", out = "", past = (past + walked.shut().copy(past = emptyList(), said = emptyList(), takes = emptyList(), checks = emptyList(), laid = emptyList()).text()).takeLast(PAST))

    /** The leg before this one, walked again. */
    private fun legStruck(): Draft = if (past.isEmpty()) this else of(past.last()).copy(past = past.dropLast(1), said = said, takes = takes, checks = checks, laid = laid)

    /** As it is once an undo has come from how things stood [before] to [now]: a struck leg, out or back, is walked again with its count. */
    fun undone(before: Snapshot, now: Snapshot): Draft = when {
        now.legsLogged < before.legsLogged -> shut().legStruck()
        before.stage == Stage.WAY_BACK && now.stage == Stage.ON_FOOT -> shut().copy(count = 0)
        else -> shut()
    }

    /** The last place that was held against the fix, as long as it is the one of this [check]. */
    fun checked(check: CheckView) = checks.lastOrNull { it.told == check.told } ?: checks.lastOrNull { it.told.isEmpty() }

    /** With a place that is about to be held against the fix, or that the core has told of. */
    fun checking(one: Checked) = copy(checks = (checks.filter { it.told.isNotEmpty() } + one).takeLast(CHECKS))

    fun text(): String = JSONObject()
        .put("open", open.name).put("looked", looked?.name.orEmpty()).put("line", line).put("landmark", landmark).put("typed", typed).put("words", words)
        .put("onGrid", onGrid).put("inMils", inMils).put("compass", compass.name)
        .put("bearing", bearing).put("count", count).put("met", met).put("side", side).put("out", out)
        .put("lines", JSONArray(lines)).put("onNoLine", onNoLine).put("asked", asked?.name.orEmpty()).put("part", part?.name.orEmpty()).put("answers", JSONArray(answers)).put("marked", JSONArray(marked))
        .put("takes", JSONArray(takes.map { it.json() })).put("checks", JSONArray(checks.map { JSONArray(listOf(it.place, it.spreadM, it.told)) }))
        .put("own", own.name).put("laid", JSONArray(laid))
        .put("trials", JSONArray(trials.flatMap { listOf(it.read, it.known) }))
        .put("said", JSONArray(said)).put("past", JSONArray(past)).put("at", at).toString()

    companion object {
        private const val PAST = 20
        private const val CHECKS = 5
        private const val LAID = 8
        private val asking = listOf(Open.ASK, Open.PART)
        private val laying = asking + Open.SHEET
        private const val TAKES = 20

        /** A text of another form, or of a newer release, counts as nothing half done. */
        fun of(text: String): Draft = try {
            if (text.isEmpty()) Draft() else read(JSONObject(text))
        } catch (strange: JSONException) {
            Draft()
        }

        private fun read(from: JSONObject) = Draft(
            from.one("open", Open.values()) ?: Open.NOTHING, from.one("looked", Stage.values()),
            from.optString("line"), from.texts("lines"), from.optBoolean("onNoLine"), from.optString("landmark"), from.optString("typed"), from.optString("words"),
            from.optBoolean("onGrid"), from.optBoolean("inMils"), from.one("compass", Compass.values()) ?: Compass.BASEPLATE, from.one("own", Compass.values()) ?: Compass.BASEPLATE,
            from.one("asked", What.values()), from.one("part", Part.values()), from.texts("answers"), from.texts("marked"), takes(from), checks(from),
            from.texts("trials").chunked(2) { Trial(it.first(), it.last()) },
            from.optString("bearing"), from.optInt("count"), from.optString("met"), from.optString("side"), from.optString("out"),
            from.texts("said"), from.texts("past"), from.texts("laid"), from.optString("at"),
        )

        /** Earlier drafts kept the bearings of the last fix alone. */
        private fun takes(from: JSONObject): List<Take> {
            val all = from.optJSONArray("takes") ?: return listOf(Take(0, from.texts("readings").chunked(2) { Note(What.BEARING, it.toList()) }))
            return List(all.length(), all::optJSONArray).filterNotNull().map { Take.of(it) }
        }

        /** Earlier drafts kept the last place alone. */
        private fun checks(from: JSONObject): List<Checked> {
            val all = from.optJSONArray("checks") ?: return from.texts("checked").takeIf { it.isNotEmpty() }?.let { listOf(Checked(it.first(), it.getOrElse(1) { "" })) }.orEmpty()
            return List(all.length(), all::optJSONArray).filterNotNull().map { Checked(it.optString(0), it.optString(1), it.optString(2)) }
        }

        private fun <T : Enum<T>> JSONObject.one(name: String, all: Array<T>) = all.firstOrNull { it.name == optString(name) }

        private fun JSONObject.texts(name: String) = optJSONArray(name)?.let { all -> List(all.length(), all::optString) }.orEmpty()
    }
}

/** How far the trip is, for a draft to know whether an entry was made since. */
val Snapshot.mark get() = "$stage ${legs.size} ${wayBack?.walked.takeIf { stage == Stage.WAY_BACK }}"

/** How many legs the log holds, out and back. */
private val Snapshot.legsLogged get() = legs.size + (wayBack?.walked?.toInt() ?: 0)

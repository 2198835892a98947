package gatepost.field.audit

import android.app.Activity
import android.content.Intent
import android.net.Uri
import gatepost.bridge.Stage
import gatepost.field.FieldActivity
import gatepost.field.book.Bringing
import gatepost.field.book.Checked
import gatepost.field.book.Compass
import gatepost.field.book.Draft
import gatepost.field.book.Note
import gatepost.field.book.Open
import gatepost.field.book.Part
import gatepost.field.book.Trial
import gatepost.field.book.What
import gatepost.field.cases.tellAll
import gatepost.field.cases.tellOnce
import gatepost.field.cases.walkRecords
import gatepost.field.idle
import gatepost.field.launch
import gatepost.field.look.Lighting
import gatepost.field.phone.Senses
import gatepost.field.tiltedPlain
import gatepost.field.tree
import java.io.ByteArrayInputStream
import java.io.File
import java.time.Clock
import java.time.Instant
import java.time.OffsetDateTime
import java.time.ZoneOffset
import java.util.Base64
import java.util.concurrent.Executor
import org.json.JSONObject
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** Logbooks of scenes as they were left, and when. The same for every look, so each is written once. */
private val books = HashMap<String, Pair<ByteArray, Instant>>()

private val logbook get() = File(RuntimeEnvironment.getApplication().filesDir, "field.gatepost")

/** Takes so many records of the demo's walk, and more, into the app's book; says when the last was told. */
fun putRecords(count: Int, vararg more: String): Instant {
    val walked = walkRecords().take(count)
    val last = walked.lastOrNull()?.getString("at") ?: START
    val told = walked + more.map { record(it).put("at", LATER) }
    for ((record, reply) in told.zip(tellAll(logbook, told))) check(reply.getBoolean("ok")) { record }
    return OffsetDateTime.parse(if (more.isEmpty()) last else LATER).toInstant()
}

/** A command by its word, or a whole record. */
private fun record(told: String) = if (told.startsWith("{")) JSONObject(told) else JSONObject().put("do", told)

private const val START = "2026-09-12T08:00:00Z"
private const val LATER = "2026-09-12T10:00:00Z"

/** The walk's own time of day, east of Greenwich. */
private fun clock(at: Instant) = Clock.fixed(at, ZoneOffset.ofHours(6))

/** A screen as it is found after a kill, so many seconds later: so many records, what else was told, what was half done; and what the phone tells then. */
class Scene(
    val name: String, private val records: Int, private val draft: Draft, private vararg val more: String,
    val isWalking: Boolean = false, private val later: Long = 100, private val phone: (Senses.(FieldActivity) -> Unit)? = null,
) {
    fun open(light: Lighting): FieldActivity {
        logbook.parentFile!!.listFiles()!!.filter { it.name.startsWith(logbook.name) }.forEach { it.delete() }
        val (book, last) = books.getOrPut(name) { written() }
        logbook.writeBytes(book)
        val clock = clock(last.plusSeconds(later))
        light.keep(RuntimeEnvironment.getApplication())
        val senses = Senses(clock).lend()
        return launch(clock).get().also { phone?.invoke(senses, it) }.also { Senses.giveBack() }.also { idle() }
    }

    private fun written(): Pair<ByteArray, Instant> {
        val last = putRecords(records, *more)
        tellOnce(logbook, JSONObject().put("do", "draft").put("text", draft.text()))
        check(logbook.parentFile!!.listFiles()!!.none { it.name.startsWith("${logbook.name}-") }) { "the book of $name was not shut whole" }
        return logbook.readBytes() to last
    }
}

private val onRoad = Draft(line = "Velm Road")
private val pad = onRoad.copy(open = Open.PAD, landmark = "Hallik mast", typed = "11")
private val trials = listOf(Trial("020 mag", "014 grid"), Trial("110 mag", "104 grid"), Trial("200 mag", "195 grid"))
private val walking = Draft(bearing = "031 mag", count = 70)
private val asked = onRoad.copy(open = Open.ASK)
private const val CHAPEL = """{"landmark":"Sorn chapel","bearing":"016 mag"}"""
private const val MAST = """{"landmark":"Hallik mast","bearing":"088 mag"}"""
private const val ONE_OF = """{"one_of":["Hallik mast","Old kiln"],"bearing":"088 mag"}"""
private const val KILN = """{"landmark":"Old kiln","bearing":"062 mag"}"""
private const val RUN = """{"what":"running","landmark":"Hallik mast","first":"080 mag","second":"100 mag","run_m":300}"""
private const val ALONG = """{"what":"line-run","bearing":"080 mag"}"""
private const val NOT_SEEN = """{"what":"not-seen","landmark":"Torn Top"}"""

/** A fix from these sightings. */
private fun fix(on: String, vararg sightings: String) = """{"do":"fix",$on,"instrument":"sighting","sightings":[${sightings.joinToString(",")}]}"""

private const val ON_ROAD = """"line":"Velm Road""""
private const val ON_ONE_OF = """"lines":["Velm Road","Issa Creek"]"""
private const val IN_OPEN = """"open":true"""

/** The notes that the fix of the scene was taken with. */
private fun told(vararg notes: Note) = onRoad.taken(OffsetDateTime.parse(LATER).toInstant().toEpochMilli(), notes.toList())

private val backLegs = Array(5) { "reached" }

private val placeTold: Senses.(FieldActivity) -> Unit = {
    it.phone.place.answered(true)
    receiver.tells(it, north = 0.0002, secondsAgo = 12)
}

private fun felt(times: Double): Senses.(FieldActivity) -> Unit = {
    it.phone.field.ask()
    needle.feels(it, 88.0, times)
}

private val HEIGHTS = """{"do":"import","name":"valley.asc","grid":"EPSG:32643","base64":"${Base64.getEncoder().encodeToString(tiltedPlain().toByteArray())}"}"""

/** The landforms near were asked for aside of what is drawn, and have come. */
private val landformsTold: Senses.(FieldActivity) -> Unit = {
    val until = System.nanoTime() + 10_000_000_000
    while (it.near.known() == null && System.nanoTime() < until) idle()
    check(!it.near.known()?.landforms.isNullOrEmpty()) { "no landforms" }
}

/** A file with heights is chosen, and read by this reader. */
private fun FieldActivity.chooseHeights(reader: Executor) {
    val before = Bringing.background
    Bringing.background = reader
    bringFile()
    val file = Uri.parse("content://files/valley.asc")
    shadowOf(contentResolver).registerInputStream(file, ByteArrayInputStream("ncols 2".toByteArray()))
    shadowOf(this).receiveResult(shadowOf(this).nextStartedActivityForResult.intent, Activity.RESULT_OK, Intent().setData(file))
    Bringing.background = before
    idle()
}

/** It is being read, and does not get on. */
private val fileOnItsWay: Senses.(FieldActivity) -> Unit = { it.chooseHeights { } }

/** It was read, and is asked about; these answers are given. */
private fun fileAsked(vararg answers: String): Senses.(FieldActivity) -> Unit = { window ->
    window.chooseHeights { it.run() }
    for (answer in answers) tree(window.page).first { it.contentDescription?.startsWith(answer) == true }.performClick()
    idle()
}

/** So many more lines, landmarks and known points on the sheet that not all are listed. */
private val LARGE = (10 until 50).let { numbers ->
    val rides = numbers.joinToString(",") { """{"name":"Ride $it","kind":"track","points":["56$it 49$it","57$it 49$it"]}""" }
    val posts = numbers.joinToString(",") { """{"name":"Post $it","kind":"post","at":"57$it 49$it"}""" }
    val stones = numbers.joinToString(",") { """{"name":"Stone $it","on":"Issa Creek","at":"${5632 + it / 8} ${4860 + it}"}""" }
    """{"do":"sheet","lines":[$rides],"landmarks":[$posts],"known_points":[$stones]}"""
}

/** Every screen of the five places. */
val scenes = listOf(
    Scene("before", 0, Draft()),
    Scene("before-sheet", 0, Draft(open = Open.SHEET, words = "name = \"Here\"")),
    Scene("hand-name", 0, Draft(open = Open.PART, part = Part.SHEET, words = "Aln")),
    Scene("hand-points", 0, Draft(open = Open.PART, part = Part.SHEET, answers = listOf("Aln moor", "43TEG", "Mill lane", "track"), words = "5560 4895,")),
    Scene("hand-kind", 1, Draft(open = Open.PART, part = Part.LANDMARK, answers = listOf("Gull mast"))),
    Scene("hand-high", 1, Draft(open = Open.PART, part = Part.LANDMARK, answers = listOf("Gull mast", "mast", "5800 4958"), typed = "45")),
    Scene("hand-parts", 1, Draft(open = Open.PARTS)),
    Scene("hand-strike", 1, Draft(open = Open.PARTS, marked = listOf("Issa Creek"))),
    Scene("beside-lines", 1, Draft()),
    Scene("large-lines", 1, Draft(), LARGE),
    Scene("large-found", 1, Draft(open = Open.LINES, marked = listOf("Ride 12"), words = "ride 3"), LARGE),
    Scene("large-sights", 1, onRoad.copy(words = "post 4"), LARGE),
    Scene("large-points", 1, Draft(line = "Issa Creek", open = Open.ASK, asked = What.PACES), LARGE),
    Scene("large-none", 1, Draft(line = "Issa Creek", open = Open.ASK, asked = What.HEIGHT_SET, words = "nowhere"), LARGE),
    Scene("beside0", 1, onRoad),
    Scene("beside0-metal", 1, onRoad, phone = felt(1.6)),
    Scene("pad", 1, pad),
    Scene("pad-mils", 1, pad.copy(inMils = true)),
    Scene("pad-phone", 1, pad.copy(typed = ""), phone = felt(1.0)),
    Scene("pad-taken", 1, pad.copy(compass = Compass.PHONE, typed = "088"), phone = felt(1.0)),
    Scene("pad-metal", 1, pad.copy(typed = ""), phone = felt(1.6)),
    Scene("beside1", 3, onRoad),
    Scene("beside2", 4, onRoad, phone = placeTold),
    Scene("check", 4, onRoad.copy(open = Open.CHECK, words = "43TEG 5691 4962")),
    Scene("lines-marked", 1, Draft(open = Open.LINES, marked = listOf("Velm Road"))),
    Scene("beside0-lines", 1, Draft(lines = listOf("Velm Road", "Issa Creek"))),
    Scene("beside0-open", 1, Draft(onNoLine = true)),
    Scene("more", 1, onRoad.copy(open = Open.MORE)),
    Scene("ask-landmarks", 1, asked.copy(asked = What.ONE_OF, marked = listOf("Old kiln"))),
    Scene("ask-point", 3, asked.copy(asked = What.TRIP)),
    Scene("ask-metres", 3, asked.copy(asked = What.TRIP, answers = listOf("Ossel bridge"), typed = "900")),
    Scene("ask-towards", 3, asked.copy(asked = What.TRIP, answers = listOf("Ossel bridge", "900"))),
    Scene("ask-figure", 3, asked.copy(asked = What.TRIP, answers = listOf("Ossel bridge", "900", ""))),
    Scene("ask-here", 3, asked.copy(asked = What.HERE)),
    Scene("ask-first", 3, asked.copy(asked = What.RUNNING, answers = listOf("Hallik mast"), typed = "07")),
    Scene("ask-set", 3, asked.copy(asked = What.HEIGHT_SET)),
    Scene("ask-hours", 3, asked.copy(asked = What.HEIGHT_SET, answers = listOf("Ossel bridge", "1650"), typed = "2")),
    Scene("ask-side", 3, asked.copy(asked = What.SIDE, answers = listOf("Hallik mast"))),
    Scene("ask-landform", 3, asked.copy(asked = What.LANDFORM)),
    Scene("ask-line", 3, asked.copy(asked = What.LINE_RUN, typed = "01")),
    Scene("ask-lacks", 3, asked.copy(asked = What.DISTANCE, answers = listOf("Hallik mast"))),
    Scene("ask-degrees", 3, asked.copy(asked = What.ANGLE, answers = listOf("Sorn chapel", "Hallik mast"), typed = "72")),
    Scene("ask-place", 3, asked.copy(asked = What.WITNESS, words = "43TEG 5691 4962")),
    Scene("beside-lines2", 1, Draft(), fix(ON_ONE_OF, CHAPEL)),
    Scene("beside-told", 1, told(Note(What.BEARING, "Sorn chapel", "016 mag"), Note(What.NOT_SEEN, "Torn Top"), Note(What.ONE_OF, "Hallik mast\nOld kiln", "088 mag")), fix(ON_ROAD, CHAPEL, NOT_SEEN, ONE_OF)),
    Scene("beside-slip", 1, onRoad, fix(ON_ROAD, CHAPEL, MAST, """{"landmark":"Old kiln","bearing":"242 mag"}""", """{"landmark":"Torn Top","bearing":"040 mag"}""")),
    Scene("beside-minded", 1, onRoad.copy(open = Open.MIND), fix(ON_ROAD, CHAPEL, MAST, """{"landmark":"Old kiln","bearing":"242 mag"}""")),
    Scene("beside-keep", 3, onRoad.copy(open = Open.KEEP)),
    Scene("beside-run", 1, onRoad, fix(ON_ROAD, CHAPEL, RUN)),
    Scene("beside-along", 1, onRoad, fix(ON_ROAD, CHAPEL, MAST, ALONG)),
    Scene("beside-checked", 1, onRoad.copy(checks = listOf(Checked("43TEG 6591 4962"))), fix(ON_ROAD, CHAPEL, MAST), """{"do":"check","place":"43TEG 6591 4962"}"""),
    Scene("beside-near", 1, onRoad, HEIGHTS, fix(ON_ROAD, CHAPEL, MAST), phone = landformsTold),
    Scene("open1", 1, Draft(), fix(IN_OPEN, CHAPEL)),
    Scene("open2", 1, Draft(), fix(IN_OPEN, CHAPEL, MAST)),
    Scene("open3", 1, Draft(), fix(IN_OPEN, CHAPEL, MAST, KILN)),
    Scene("open-misfit", 1, Draft(), fix(IN_OPEN, CHAPEL, MAST, """{"landmark":"Old kiln","bearing":"092 mag"}""")),
    Scene("places", 4, onRoad.copy(open = Open.PLACES)),
    Scene("look-before", 4, onRoad.lookingAt(Stage.BEFORE)),
    Scene("bringing", 1, onRoad.lookingAt(Stage.BEFORE), phone = fileOnItsWay),
    Scene("file-source", 1, onRoad.lookingAt(Stage.BEFORE), phone = fileAsked()),
    Scene("file-cover", 1, onRoad.lookingAt(Stage.BEFORE), phone = fileAsked("Laser")),
    Scene("file-credit", 1, onRoad.lookingAt(Stage.BEFORE), phone = fileAsked("Laser", "Mostly forest")),
    Scene("other-sheet", 4, onRoad.copy(open = Open.SHEETS)),
    Scene("look-ahead", 4, onRoad.lookingAt(Stage.WAY_BACK)),
    Scene("compass", 4, onRoad.lookingAt(Stage.BEFORE).copy(trials = trials)),
    Scene("compass-read", 4, onRoad.copy(open = Open.READ, typed = "2")),
    Scene("compass-known", 4, onRoad.copy(open = Open.KNOWN, typed = "01", words = "020 mag", onGrid = true, trials = trials.take(1))),
    Scene("pace", 4, onRoad.copy(open = Open.PACE, typed = "6")),
    Scene("foot-first", 5, Draft(), isWalking = true),
    Scene("foot", 7, walking, isWalking = true),
    Scene("foot-old", 7, walking, isWalking = true, later = 1500),
    Scene("turn", 7, walking.copy(open = Open.TURN, typed = "34"), isWalking = true),
    Scene("turn-mils", 7, walking.copy(open = Open.TURN, typed = "3200", inMils = true), isWalking = true),
    Scene("met", 7, walking.copy(open = Open.MET, words = "old fence"), isWalking = true),
    Scene("detour", 7, walking.copy(open = Open.DETOUR, typed = "40"), isWalking = true),
    Scene("where", 9, walking.copy(open = Open.WHERE), isWalking = true),
    Scene("chart", 10, walking, isWalking = true, phone = { it.showChart("walk") }),
    Scene("look-after", 10, walking.lookingAt(Stage.AFTERWARDS)),
    Scene("ways", 10, Draft(bearing = "024 mag", open = Open.BACK), isWalking = true),
    Scene("follow", 10, Draft(count = 28), "turn-round", "reached", isWalking = true),
    Scene("atline", 10, Draft(), "turn-round", *backLegs, isWalking = true),
    Scene("after", 10, Draft(), "turn-round", *backLegs, "close"),
    Scene("after-closed", 10, Draft(), "close"),
    Scene("after-next", 10, Draft(open = Open.SHEETS), "close"),
)

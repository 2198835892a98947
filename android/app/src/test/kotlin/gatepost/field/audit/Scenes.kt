package gatepost.field.audit

import gatepost.field.FieldActivity
import gatepost.field.book.Draft
import gatepost.field.book.Open
import gatepost.field.cases.tellOnce
import gatepost.field.cases.walkRecords
import gatepost.field.launch
import gatepost.field.look.Lighting
import java.io.File
import org.json.JSONObject
import org.robolectric.RuntimeEnvironment

private val logbook get() = File(RuntimeEnvironment.getApplication().filesDir, "field.gatepost")

/** Takes so many records of the demo's walk, and more, into the app's book. */
fun putRecords(count: Int, vararg more: String) {
    walkRecords().take(count).forEach { tellOnce(logbook, it) }
    for (command in more) check(tellOnce(logbook, JSONObject().put("do", command).put("at", "2026-09-12T10:00:00Z")).getBoolean("ok")) { command }
}

/** A screen as it is found after a kill: so many records, what else was told, what was half done. */
class Scene(val name: String, private val records: Int, private val draft: Draft, private vararg val more: String, val isWalking: Boolean = false) {
    fun open(light: Lighting): FieldActivity {
        logbook.parentFile!!.listFiles()!!.filter { it.name.startsWith(logbook.name) }.forEach { it.delete() }
        putRecords(records, *more)
        tellOnce(logbook, JSONObject().put("do", "draft").put("text", draft.text()))
        light.keep(RuntimeEnvironment.getApplication())
        return launch().get()
    }
}

private val onRoad = Draft(line = "Velm Road")
private val walking = Draft(bearing = "031 mag", count = 70)
private val backLegs = Array(5) { "reached" }

/** Every screen of the five places. */
val scenes = listOf(
    Scene("before", 0, Draft()),
    Scene("before-sheet", 0, Draft(open = Open.SHEET, words = "name = \"Here\"")),
    Scene("beside-lines", 1, Draft()),
    Scene("beside0", 1, onRoad),
    Scene("pad", 1, onRoad.copy(open = Open.PAD, landmark = "Hallik mast", typed = "11")),
    Scene("beside1", 3, onRoad),
    Scene("beside2", 4, onRoad),
    Scene("check", 4, onRoad.copy(open = Open.CHECK, words = "43TEG 5691 4962")),
    Scene("foot-first", 5, Draft(), isWalking = true),
    Scene("foot", 7, walking, isWalking = true),
    Scene("turn", 7, walking.copy(open = Open.TURN, typed = "34"), isWalking = true),
    Scene("met", 7, walking.copy(open = Open.MET, words = "old fence"), isWalking = true),
    Scene("detour", 7, walking.copy(open = Open.DETOUR, typed = "40"), isWalking = true),
    Scene("where", 9, walking.copy(open = Open.WHERE), isWalking = true),
    Scene("ways", 10, Draft(bearing = "024 mag", open = Open.BACK), isWalking = true),
    Scene("follow", 10, Draft(), "turn-round", "reached", isWalking = true),
    Scene("atline", 10, Draft(), "turn-round", *backLegs, isWalking = true),
    Scene("after", 10, Draft(), "turn-round", *backLegs, "close"),
)

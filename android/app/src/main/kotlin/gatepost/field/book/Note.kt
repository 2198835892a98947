package gatepost.field.book

import org.json.JSONArray

/** What kind of sighting a note holds. The names stand in drafts that are kept. */
enum class What {
    BEARING, SEEN, NOT_SEEN, LINE_RUN, ONE_OF, TRIP, HERE, HERE_KIND, SIDE, SLOPE, HEIGHT, ASPECT, LANDFORM, ANGLE, DISTANCE, PACES, WITNESS, RUNNING, HEIGHT_SET
}

/** What a sheet that is made by hand gets: its name with a first line, and then more. The names stand in drafts that are kept. */
enum class Part { SHEET, LINE, LANDMARK, POINT }

/** A sighting as the walker told it: its answers in the order of the questions. Several names in one answer stand on a line each. */
data class Note(val what: What, val said: List<String>) {
    constructor(what: What, vararg said: String) : this(what, said.toList())

    /** Whether it may be a bearing to this landmark. */
    fun isBearingTo(landmark: String) = (what == What.BEARING || what == What.ONE_OF) && landmark in said.first().lines()

    /** Whether it tells the same again: a bearing to the same landmark, the bearing along the line, the landmark of a running fix. */
    fun isAgain(earlier: Note) = when (what) {
        What.BEARING -> earlier.isBearingTo(said.first())
        What.LINE_RUN -> earlier.what == What.LINE_RUN
        What.RUNNING -> earlier.what == What.RUNNING && earlier.said.first() == said.first()
        else -> false
    }

    /** Whether a bearing to it or a look for it was told. */
    fun isOf(landmark: String) = (what == What.BEARING || what == What.SEEN || what == What.NOT_SEEN) && said.first() == landmark
}

/** The notes that a fix was taken with. The fix's time tells which fix it was; 0 in drafts that did not keep it. */
data class Take(val atUnixMs: Long, val notes: List<Note>) {
    fun json(): JSONArray = JSONArray().put(atUnixMs).put(JSONArray(notes.map { JSONArray(listOf(it.what.name) + it.said) }))

    companion object {
        fun of(from: JSONArray) = Take(from.optLong(0), from.optJSONArray(1)?.let { all -> List(all.length()) { note(all.optJSONArray(it)) } }.orEmpty().filterNotNull())

        private fun note(from: JSONArray?): Note? {
            val parts = from?.let { all -> List(all.length(), all::optString) }.orEmpty()
            val what = What.values().firstOrNull { it.name == parts.firstOrNull() } ?: return null
            return Note(what, parts.drop(1))
        }
    }
}

package gatepost.field.cases

import gatepost.bridge.FieldBook
import gatepost.bridge.OpenConfig
import org.json.JSONArray
import org.json.JSONObject
import org.json.JSONTokener

/** Any JSON value as text. */
fun written(value: Any?): String = when (value) {
    null -> "null"
    is String -> JSONObject.quote(value)
    is Number -> JSONObject.numberToString(value)
    else -> value.toString()
}

/** Any JSON value from text. */
fun read(text: String): Any = JSONTokener(text).nextValue()

/** One record, one reply. */
fun FieldBook.reply(record: Any?) = JSONObject(tell(written(record)))

/** A field book in memory that has taken some records. */
fun fresh(before: JSONArray?): FieldBook = FieldBook.open(OpenConfig()).apply {
    before?.values()?.forEach { check(reply(it).getBoolean("ok")) { "not taken beforehand: $it" } }
}

fun JSONArray.values(): List<Any?> = List(length()) { opt(it) }

fun JSONObject.objects(name: String): List<JSONObject> = optJSONArray(name)?.values().orEmpty().map { it as JSONObject }

/** The value at a dotted path; null when there is none. */
fun valueAt(reply: Any?, path: String): Any? = path.split('.').fold(reply) { at, part ->
    when (at) {
        is JSONObject -> at.opt(part)
        is JSONArray -> part.toIntOrNull()?.let(at::opt)
        else -> null
    }
}.takeUnless { it == JSONObject.NULL }

/** Numbers within their tolerance, everything else exactly. */
fun equal(found: Any?, wanted: Any?, within: Double?): Boolean = when {
    found is Number && wanted is Number -> within != null && Math.abs(found.toDouble() - wanted.toDouble()) <= within
    else -> written(found) == written(wanted.takeUnless { it == JSONObject.NULL })
}

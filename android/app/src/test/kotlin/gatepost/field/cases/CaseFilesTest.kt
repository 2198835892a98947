package gatepost.field.cases

import gatepost.field.repositoryFile
import org.json.JSONObject
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** The case files through the binding, as the other languages run them: the expected values stand in the files alone. */
@RunWith(RobolectricTestRunner::class)
class CaseFilesTest {
    @Test fun everyCaseFileHolds() {
        val tally = Tally()
        val files = repositoryFile("tests/vectors").walk().filter { it.extension == "json" }.sorted().toList()
        for (file in files) {
            runCaseFile(tally, JSONObject(file.readText()))
        }
        tally.close("Case files (${files.size})")
    }

    @Test fun theComparisonBites() {
        val found = listOf(equal(1, 1.2, 0.1), equal(1, 1, null), equal("1", 1, 1.0), equal(null, 1, 1.0), equal(true, "true", null))
        assertEquals(List(found.size) { false }, found)
        assertEquals(listOf(true, true, true), listOf(equal(1, 1.05, 0.1), equal("a", "a", null), equal(null, JSONObject.NULL, null)))
    }

    private fun runCaseFile(tally: Tally, file: JSONObject) {
        val topic = file.getString("topic")
        val tolerance = file.optJSONObject("tolerance") ?: JSONObject()
        for (case in file.objects("cases")) {
            val reply = answer(case)
            val expect = case.getJSONObject("expect")
            for (where in expect.keys()) {
                val found = valueAt(reply, where)
                val held = equal(found, expect.get(where), within(tolerance, where))
                tally.check("$topic case ${case.get("id")} $where", held) { "$found instead of ${expect.get(where)}" }
            }
        }
        for (case in file.objects("invalid")) {
            val code = valueAt(answer(case), "refusal.code")
            tally.check("$topic invalid ${case.get("id")}", code == case.getString("refusal")) { "$code instead of ${case.get("refusal")}" }
        }
    }

    private fun answer(case: JSONObject): JSONObject {
        val book = fresh(case.optJSONArray("before"))
        return book.use { it.reply(case.opt("record")) }
    }

    /** Tolerances stand under the whole dotted path, as one name. */
    private fun within(tolerance: JSONObject, where: String) = if (tolerance.has(where)) tolerance.getDouble(where) else null
}

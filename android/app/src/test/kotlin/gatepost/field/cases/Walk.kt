package gatepost.field.cases

import gatepost.bridge.FieldBook
import gatepost.bridge.OpenConfig
import gatepost.field.repositoryFile
import java.io.File
import org.json.JSONObject

/** The demo's walk: fix, keep, five legs with one detour, and the way back. */
fun walkRecords(): List<JSONObject> = repositoryFile("tests/demo/walk.jsonl").readLines().map(::JSONObject).onEach { record ->
    val file = record.remove("file") ?: return@onEach
    record.put("text", repositoryFile(file as String).readText()).put("format", "toml")
}

/** Takes one record into a book file that is opened for it and shut after it. */
fun tellOnce(path: File, record: JSONObject): JSONObject = tellAll(path, listOf(record)).single()

/** Takes records into a book file that is opened for them and shut after them. */
fun tellAll(path: File, records: List<JSONObject>): List<JSONObject> {
    val book = FieldBook.open(OpenConfig(path.path))
    return records.map(book::reply).also {
        book.shut()
        book.close()
    }
}

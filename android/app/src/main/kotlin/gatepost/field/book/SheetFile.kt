package gatepost.field.book

import android.app.Activity
import android.content.ActivityNotFoundException
import android.content.ContentResolver
import android.content.Intent
import android.provider.OpenableColumns
import java.io.IOException
import java.io.InputStream

/** What a file is chosen for: a sheet, or what is brought onto it. */
const val SHEET_FILE = 1
const val BROUGHT_FILE = 3

/** Asks the system's own chooser for a file, which needs no leave; [without] one, something else is done. */
fun Activity.chooseFile(what: Int, without: () -> Unit) = try {
    startActivityForResult(Intent(Intent.ACTION_OPEN_DOCUMENT).addCategory(Intent.CATEGORY_OPENABLE).setType("*/*"), what)
} catch (lacking: ActivityNotFoundException) {
    without()
}

/** A file that the system's chooser gave. */
class ChosenFile(private val from: ContentResolver, private val chosen: Intent) {
    fun bytes() = bytesOf { chosen.data?.let(from::openInputStream) }

    fun read() = ReadFile(name(), bytes())

    fun text() = bytes().toString(Charsets.UTF_8)

    /** What it is called, which tells the core where a tile of heights lies. */
    fun name(): String = named() ?: chosen.data?.lastPathSegment.orEmpty()

    /** Who lends the file may take it back, its name too. */
    private fun named(): String? = try {
        chosen.data?.let { from.query(it, arrayOf(OpenableColumns.DISPLAY_NAME), null, null, null) }?.use { if (it.moveToFirst()) it.getString(0) else null }
    } catch (withheld: SecurityException) {
        null
    }
}

/** What stands in a file. One that cannot be read is handed on empty; the core says what is wrong with it. */
private fun bytesOf(open: () -> InputStream?): ByteArray = try {
    open()?.use { it.readBytes() } ?: ByteArray(0)
} catch (unreadable: IOException) {
    ByteArray(0)
} catch (withheld: SecurityException) {
    ByteArray(0)
}

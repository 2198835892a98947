package gatepost.field.book

import java.io.IOException
import java.io.InputStream

/** What stands in a file. One that cannot be read is handed on empty; the core says what is wrong with it. */
fun textOf(open: () -> InputStream?): String = try {
    open()?.bufferedReader()?.use { it.readText() }.orEmpty()
} catch (unreadable: IOException) {
    ""
} catch (withheld: SecurityException) {
    ""
}

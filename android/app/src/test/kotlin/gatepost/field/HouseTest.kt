package gatepost.field

import java.io.File
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test

/** The shell stays thin: no arithmetic of the trade, no foreign library, short files. */
class HouseTest {
    private val shell = kotlin("android/app/src/main/kotlin")
    private val tests = kotlin("android/app/src/test/kotlin")

    private fun kotlin(folder: String) = repositoryFile(folder).walk().filter { it.extension == "kt" }.toList()

    private fun found(files: List<File>, word: Regex) = files.filter { word.containsMatchIn(it.readText()) }.map { it.name }

    @Test fun nothingIsReckonedHere() =
        assertEquals(emptyList<String>(), found(shell, Regex("""\b(sin|cos|tan|atan2?|sqrt|hypot|toRadians|toDegrees|PI)\b|kotlin\.math|\bMath\.|\.\w*(Deg(Mag|Grid|True)?|M|Paces|share)\s*[-+*/%]\s""")))

    /** What is shown alone has a name of its own in the core. Of a refusal there is one sentence. */
    @Test fun noSentenceIsPickedByItsPlaceOrItsWords() {
        val picks = Regex("""(draft|told|reply)\??\.said\??\.(last|drop|take|get|single|find|filter)|\.field(\[|\.(first|last|drop|take|get))|substring(Before|After)|'±'""")
        assertEquals(emptyList<String>(), found(shell, picks))
        assertTrue(listOf("told.said.last()", "fix.field[0]", "told?.said?.drop(1)", "text.substringBefore(' ')").all(picks::containsMatchIn))
    }

    @Test fun onlyTheSystemsOwnControls() = assertEquals(emptyList<String>(), found(shell, Regex("""import (androidx|com\.google|java\.net|javax\.net|android\.net|android\.webkit)\b""")))

    @Test fun coloursComeFromTheTheme() = assertEquals(emptyList<String>(), found(shell, Regex("""#[0-9A-Fa-f]{6}|Color\.(rgb|parseColor|[A-Z]{3,})|0x[Ff]{2}""")))

    @Test fun filesStayShort() {
        for (files in listOf(shell, tests)) {
            val lengths = files.map { it.readLines().size }.sorted()
            assertTrue("median ${lengths[lengths.size / 2]}", lengths[lengths.size / 2] <= 60)
            assertTrue("longest ${lengths.last()}", lengths.last() <= 250)
        }
    }
}

package gatepost.field.cases

import org.junit.Assert.assertTrue

/** Counts what held and keeps what did not. */
class Tally {
    private val failed = mutableListOf<String>()
    var passed = 0
        private set

    fun check(what: String, held: Boolean, told: () -> String = { "" }) {
        if (held) passed++ else failed += "$what: ${told()}"
    }

    /** Fails with everything that did not hold; says how much did. */
    fun close(what: String) {
        assertTrue("${failed.size} of ${failed.size + passed} failed\n" + failed.joinToString("\n"), failed.isEmpty())
        assertTrue("nothing was checked", passed > 0)
        println("$what: $passed checks")
    }
}

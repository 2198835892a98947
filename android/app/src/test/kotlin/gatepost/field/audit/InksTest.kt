package gatepost.field.audit

import android.view.ContextThemeWrapper
import gatepost.field.R
import gatepost.field.contrast
import gatepost.field.look.Lighting
import gatepost.field.look.ink
import gatepost.field.repositoryFile
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment

@RunWith(RobolectricTestRunner::class)
class InksTest {
    private val app = RuntimeEnvironment.getApplication()
    private val themes = Lighting.values().associateWith { ContextThemeWrapper(app, it.theme) }
    private val row = Regex("""Ink::(\w+) => \["(#\w+)", "(#\w+)", "(#\w+)"]""")

    /** `LegWalked` in the core is `ink_leg_walked` here. */
    private fun role(ink: String): Int {
        val name = ink.replace(Regex("(?<=[a-z])[A-Z]"), "_$0").lowercase()
        return app.resources.getIdentifier("ink_$name", "attr", app.packageName).also { assertTrue("no role for $ink", it != 0) }
    }

    @Test fun everyInkOfTheCoreHasItsColourInEveryLight() {
        val rows = row.findAll(repositoryFile("core/src/chart/inks.rs").readText()).toList()
        assertTrue("the core's table was not found", rows.size > 10)
        for (found in rows) themes.values.forEachIndexed { light, theme ->
            assertEquals(found.groupValues[1], found.groupValues[light + 2], "#%06X".format(theme.ink(role(found.groupValues[1])) and 0xFFFFFF))
        }
    }

    @Test fun lettersStandOutFromTheirGround() {
        val pairs = listOf(
            R.attr.ink_text to R.attr.ink_paper, R.attr.ink_text_muted to R.attr.ink_paper, R.attr.ink_text to R.attr.ink_surface,
            R.attr.ink_text_muted to R.attr.ink_surface, R.attr.ink_control_text to R.attr.ink_control,
            R.attr.ink_primary_text to R.attr.ink_primary, R.attr.ink_warning to R.attr.ink_paper,
        )
        for ((light, theme) in themes) for ((ink, ground) in pairs) {
            val found = contrast(theme.ink(ink), theme.ink(ground))
            assertTrue("$light ${app.resources.getResourceEntryName(ink)}: $found", found >= if (light == Lighting.NIGHT) 4.5 else 7.0)
        }
    }

    @Test fun linesStandOutFromThePaper() {
        for ((light, theme) in themes) for (ink in listOf(R.attr.ink_control_edge, R.attr.ink_primary_edge, R.attr.ink_focus)) {
            val found = contrast(theme.ink(ink), theme.ink(R.attr.ink_paper))
            assertTrue("$light ${app.resources.getResourceEntryName(ink)}: $found", found >= if (light == Lighting.NIGHT) 3.0 else 4.5)
        }
    }
}

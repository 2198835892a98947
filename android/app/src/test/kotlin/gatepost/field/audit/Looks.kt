package gatepost.field.audit

import android.graphics.Bitmap
import gatepost.field.FieldActivity
import gatepost.field.draw
import gatepost.field.end
import gatepost.field.idle
import gatepost.field.look.Lighting
import gatepost.field.save
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue

private const val BY_DAY = 7.0
private const val BY_NIGHT = 4.5

/** Looks of which all of a page is kept in pictures: of the others its top is enough. */
private val unrolled = setOf("day", "night", "200")

/** What is wrong with a screen, from the top of the page to its end; its picture is kept under a [name], those below the top with a number. */
fun FieldActivity.findings(light: Lighting, isWalking: Boolean = false, name: String? = null, isUnrolled: Boolean = false): List<String> {
    val found = mutableSetOf<String>()
    val least = if (light == Lighting.NIGHT) BY_NIGHT else BY_DAY
    var number = 1
    do {
        val audit = Audit(window!!.decorView, least, page.takeIf { isWalking })
        if (name != null && (number == 1 || isUnrolled)) keep(audit.picture, if (number == 1) name else "$name-$number")
        number++
        found += audit.findings()
    } while (rollOn())
    return found.toList()
}

/** Every screen of the five places, the full frame, and the choice of the light; their pictures are kept where the look is [called]. */
fun audit(light: Lighting, called: String? = null) {
    val found = scenes.flatMap { scene ->
        val window = scene.open(light)
        window.findings(light, scene.isWalking, called?.let { "${scene.name}-$it" }, called in unrolled).map { "${scene.name}: $it" }.also { window.end() }
    }.toMutableList()
    val activity = scenes.single { it.name == "ways" }.open(light)
    activity.fullFrame()
    found += activity.findings(light).map { "full: $it" }
    activity.page.strip.onOpen(null)
    idle()
    found += activity.findings(light, name = called?.let { "light-$it" }).map { "light: $it" }
    assertEquals(emptyList<String>(), found)
}

/** Pictures for the eye. The test itself only sees whether they are blank. */
fun FieldActivity.shoot(name: String) {
    idle()
    keep(draw(window!!.decorView), name)
}

private fun keep(picture: Bitmap, name: String) {
    save(picture, name)
    assertTrue("$name is blank", hasMoreColours(picture.pixels(), 20))
}

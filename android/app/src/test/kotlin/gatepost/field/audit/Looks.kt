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

/** What is wrong with a screen, from the top of the page to its end; its picture is kept under a [name]. */
fun FieldActivity.findings(light: Lighting, isWalking: Boolean = false, name: String? = null): List<String> {
    val found = mutableSetOf<String>()
    val least = if (light == Lighting.NIGHT) BY_NIGHT else BY_DAY
    var first = name
    do {
        val audit = Audit(window!!.decorView, least, page.takeIf { isWalking })
        first?.let { keep(audit.picture, it) }
        first = null
        found += audit.findings()
    } while (rollOn())
    return found.toList()
}

/** Every screen of the five places, the full frame, and the choice of the light; their pictures are kept where the look is [called]. */
fun audit(light: Lighting, called: String? = null) {
    val found = scenes.flatMap { scene ->
        val window = scene.open(light)
        window.findings(light, scene.isWalking, called?.let { "${scene.name}-$it" }).map { "${scene.name}: $it" }.also { window.end() }
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
    assertTrue("$name is blank", colours(picture.pixels()) > 20)
}

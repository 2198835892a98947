package gatepost.field.audit

import android.graphics.Bitmap
import gatepost.field.FieldActivity
import gatepost.field.draw
import gatepost.field.idle
import gatepost.field.look.Lighting
import gatepost.field.save
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

/** Pictures for the eye. The test itself only sees whether they are blank. */
@RunWith(RobolectricTestRunner::class)
class ShotsTest {
    private fun FieldActivity.shoot(name: String) {
        idle()
        val picture = draw(window!!.decorView)
        save(picture, name)
        assertTrue("$name is blank", colours(picture) > 20)
    }

    /** All of them, or those named by `-Dgatepost.scenes=beside0,pad`. */
    private fun asked() = System.getProperty("gatepost.scenes")?.split(",") ?: scenes.map { it.name }

    private fun colours(picture: Bitmap) =
        IntArray(picture.width * picture.height).also { picture.getPixels(it, 0, picture.width, 0, 0, picture.width, picture.height) }.toSet().size

    private fun shoot(light: Lighting, name: String) {
        for (scene in scenes.filter { it.name in asked() }) scene.open(light).shoot("${scene.name}-$name")
        val activity = afterRecords(0, light)
        activity.page.strip.onOpen(null)
        activity.shoot("light-$name")
    }

    /** Coarse enough for the README. */
    @Test @Config(qualifiers = "w360dp-h740dp-port-hdpi") fun small() = listOf(Lighting.DAY to "small", Lighting.NIGHT to "small-night").forEach { (light, name) -> shoot(light, name) }

    @Test fun day() = shoot(Lighting.DAY, "day")

    @Test fun night() = shoot(Lighting.NIGHT, "night")

    @Test fun high() = shoot(Lighting.HIGH, "high")

    @Test @Config(fontScale = 2f) fun hugeText() = shoot(Lighting.DAY, "200")

    @Test @Config(fontScale = 2f) fun hugeTextByNight() = shoot(Lighting.NIGHT, "200-night")

    @Test @Config(qualifiers = "w320dp-h533dp-port-hdpi", fontScale = 1.3f) fun narrow() = shoot(Lighting.DAY, "narrow-130")

    @Test @Config(qualifiers = "w412dp-h915dp-port-xxhdpi") fun large() = shoot(Lighting.DAY, "large")

    @Test @Config(qualifiers = "w740dp-h360dp-land-xhdpi") fun acrossTheHand() = shoot(Lighting.DAY, "land")

    @Test @Config(qualifiers = "ar-rXB-ldrtl-w360dp-h740dp-port-xhdpi") fun fromRightToLeft() = shoot(Lighting.DAY, "rtl")
}

package gatepost.field.audit

import gatepost.field.end
import gatepost.field.look.Lighting
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

/** The README's pictures, coarse enough for it. */
@RunWith(RobolectricTestRunner::class)
class ShotsTest {
    /** Those of the README, or the scenes named by `-Dgatepost.scenes=beside0,pad`. */
    private fun asked() = (System.getProperty("gatepost.scenes") ?: "beside0,beside1,ask-here,open2,pad,foot,where,follow").split(",")

    @Test @Config(qualifiers = "w360dp-h740dp-port-hdpi") fun small() = listOf(Lighting.DAY to "small", Lighting.NIGHT to "small-night").forEach { (light, name) ->
        for (scene in scenes.filter { it.name in asked() }) scene.open(light).run { shoot("${scene.name}-$name"); end() }
    }
}

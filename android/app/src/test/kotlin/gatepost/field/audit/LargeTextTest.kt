package gatepost.field.audit

import gatepost.field.look.Lighting
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

/** Every screen in larger text; by 1.3 it is seen with the light that has the highest contrast (AuditTest). */
@RunWith(RobolectricTestRunner::class)
class LargeTextTest {
    @Test @Config(fontScale = 1.5f) fun rowsBegin() = audit(Lighting.DAY)

    @Test @Config(fontScale = 2f) fun huge() = audit(Lighting.DAY, "200")

    @Test @Config(fontScale = 2f) fun hugeByNight() = audit(Lighting.NIGHT, "200-night")
}

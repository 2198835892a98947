package androidx.test.platform.app

import android.app.Instrumentation
import android.os.Bundle

object InstrumentationRegistry {
    private var held: Instrumentation? = null
    private var given = Bundle()

    @JvmStatic fun registerInstance(instrumentation: Instrumentation?, arguments: Bundle?) {
        held = instrumentation
        given = arguments ?: Bundle()
    }

    @JvmStatic fun getInstrumentation() = checkNotNull(held)

    @JvmStatic fun getArguments() = Bundle(given)
}

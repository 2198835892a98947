package androidx.test.runner.intent

import android.app.Instrumentation
import android.content.Intent

fun interface IntentCallback {
    fun onIntentSent(intent: Intent)
}

fun interface IntentStubber {
    fun getActivityResultForIntent(intent: Intent): Instrumentation.ActivityResult?
}

interface IntentMonitor {
    fun addIntentCallback(callback: IntentCallback)
    fun removeIntentCallback(callback: IntentCallback)
}

object IntentMonitorRegistry {
    private var held: IntentMonitor? = null

    @JvmStatic fun registerInstance(monitor: IntentMonitor?) {
        held = monitor
    }

    @JvmStatic fun getInstance() = checkNotNull(held)
}

object IntentStubberRegistry {
    @JvmStatic fun isLoaded() = false

    @JvmStatic fun getInstance(): IntentStubber? = null
}

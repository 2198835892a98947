package androidx.test.internal.runner.intent

import android.content.Intent
import androidx.test.runner.intent.IntentCallback
import androidx.test.runner.intent.IntentMonitor

class IntentMonitorImpl : IntentMonitor {
    private val callbacks = mutableListOf<IntentCallback>()

    fun signalIntent(intent: Intent) = callbacks.toList().forEach { it.onIntentSent(Intent(intent)) }

    override fun addIntentCallback(callback: IntentCallback) {
        callbacks += callback
    }

    override fun removeIntentCallback(callback: IntentCallback) {
        callbacks -= callback
    }
}

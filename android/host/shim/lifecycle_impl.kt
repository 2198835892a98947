package androidx.test.internal.runner.lifecycle

import android.app.Activity
import android.app.Application
import androidx.test.runner.lifecycle.ActivityLifecycleCallback
import androidx.test.runner.lifecycle.ActivityLifecycleMonitor
import androidx.test.runner.lifecycle.ApplicationLifecycleCallback
import androidx.test.runner.lifecycle.ApplicationLifecycleMonitor
import androidx.test.runner.lifecycle.ApplicationStage
import androidx.test.runner.lifecycle.Stage
import java.util.WeakHashMap

class ActivityLifecycleMonitorImpl : ActivityLifecycleMonitor {
    private val stages = WeakHashMap<Activity, Stage>()
    private val callbacks = mutableListOf<ActivityLifecycleCallback>()

    fun signalLifecycleChange(stage: Stage, activity: Activity) {
        stages[activity] = stage
        callbacks.toList().forEach { it.onActivityLifecycleChanged(activity, stage) }
    }

    override fun addLifecycleCallback(callback: ActivityLifecycleCallback) {
        callbacks += callback
    }

    override fun removeLifecycleCallback(callback: ActivityLifecycleCallback) {
        callbacks -= callback
    }

    override fun getLifecycleStageOf(activity: Activity) = stages[activity]

    override fun getActivitiesInStage(stage: Stage) = stages.filterValues { it == stage }.keys
}

class ApplicationLifecycleMonitorImpl : ApplicationLifecycleMonitor {
    fun signalLifecycleChange(@Suppress("unused") app: Application, @Suppress("unused") stage: ApplicationStage) = Unit

    override fun addLifecycleCallback(callback: ApplicationLifecycleCallback) = Unit

    override fun removeLifecycleCallback(callback: ApplicationLifecycleCallback) = Unit
}

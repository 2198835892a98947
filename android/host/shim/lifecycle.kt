/*
 * Robolectric reports its activities to a small part of a test library that the central repository does not serve.
 * This folder stands in for that part, with the names that Robolectric asks for and nothing else.
 */
package androidx.test.runner.lifecycle

import android.app.Activity
import android.app.Application

enum class Stage { PRE_ON_CREATE, CREATED, STARTED, RESUMED, PAUSED, STOPPED, RESTARTED, DESTROYED }

enum class ApplicationStage { PRE_ON_CREATE, CREATED }

fun interface ActivityLifecycleCallback {
    fun onActivityLifecycleChanged(activity: Activity, stage: Stage)
}

fun interface ApplicationLifecycleCallback {
    fun onApplicationLifecycleChanged(app: Application, stage: ApplicationStage)
}

interface ActivityLifecycleMonitor {
    fun addLifecycleCallback(callback: ActivityLifecycleCallback)
    fun removeLifecycleCallback(callback: ActivityLifecycleCallback)
    fun getLifecycleStageOf(activity: Activity): Stage?
    fun getActivitiesInStage(stage: Stage): Collection<Activity>
}

interface ApplicationLifecycleMonitor {
    fun addLifecycleCallback(callback: ApplicationLifecycleCallback)
    fun removeLifecycleCallback(callback: ApplicationLifecycleCallback)
}

object ActivityLifecycleMonitorRegistry {
    private var held: ActivityLifecycleMonitor? = null

    @JvmStatic fun registerInstance(monitor: ActivityLifecycleMonitor?) {
        held = monitor
    }

    @JvmStatic fun getInstance() = checkNotNull(held)
}

object ApplicationLifecycleMonitorRegistry {
    private var held: ApplicationLifecycleMonitor? = null

    @JvmStatic fun registerInstance(monitor: ApplicationLifecycleMonitor?) {
        held = monitor
    }

    @JvmStatic fun getInstance() = checkNotNull(held)
}

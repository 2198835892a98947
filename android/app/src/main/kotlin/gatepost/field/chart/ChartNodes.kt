package gatepost.field.chart

import android.graphics.Rect
import android.os.Bundle
import android.view.MotionEvent
import android.view.View
import android.view.accessibility.AccessibilityEvent
import android.view.accessibility.AccessibilityManager
import android.view.accessibility.AccessibilityNodeInfo
import android.view.accessibility.AccessibilityNodeProvider

/** The parts of a chart for a screen reader: one for each target, with the core's words for it. */
class ChartNodes(private val view: ChartView) : AccessibilityNodeProvider() {
    private val manager = view.context.getSystemService(AccessibilityManager::class.java)
    private val targets get() = view.chart?.targets.orEmpty()
    private var focused = NONE
    private var hovered = NONE

    @Suppress("DEPRECATION")
    override fun createAccessibilityNodeInfo(id: Int): AccessibilityNodeInfo? {
        if (id == HOST_VIEW_ID) return AccessibilityNodeInfo.obtain(view).also { whole ->
            view.onInitializeAccessibilityNodeInfo(whole)
            targets.indices.forEach { whole.addChild(view, it) }
        }
        return targets.getOrNull(id)?.let { part(it, id) }
    }

    @Suppress("DEPRECATION")
    private fun part(target: Target, id: Int) = AccessibilityNodeInfo.obtain(view, id).apply {
        packageName = view.context.packageName
        className = View::class.java.name
        contentDescription = target.spoken
        setParent(view)
        isEnabled = true
        isVisibleToUser = view.isShown
        isAccessibilityFocused = focused == id
        addAction(if (focused == id) AccessibilityNodeInfo.AccessibilityAction.ACTION_CLEAR_ACCESSIBILITY_FOCUS else AccessibilityNodeInfo.AccessibilityAction.ACTION_ACCESSIBILITY_FOCUS)
        val at = view.placeOf(target)
        setBoundsInParent(at)
        setBoundsInScreen(Rect(at).apply { val corner = IntArray(2).also(view::getLocationOnScreen); offset(corner[0], corner[1]) })
    }

    override fun performAction(id: Int, action: Int, with: Bundle?): Boolean = when {
        id == HOST_VIEW_ID -> view.performAccessibilityAction(action, with)
        action == AccessibilityNodeInfo.ACTION_ACCESSIBILITY_FOCUS -> focus(id, AccessibilityEvent.TYPE_VIEW_ACCESSIBILITY_FOCUSED, id)
        action == AccessibilityNodeInfo.ACTION_CLEAR_ACCESSIBILITY_FOCUS -> focus(NONE, AccessibilityEvent.TYPE_VIEW_ACCESSIBILITY_FOCUS_CLEARED, id)
        else -> false
    }

    private fun focus(now: Int, kind: Int, id: Int): Boolean {
        focused = now
        view.invalidate()
        tell(kind, id)
        return true
    }

    /** A finger that explores by touch; false where it is on no target. */
    fun hovered(event: MotionEvent): Boolean {
        if (manager?.isTouchExplorationEnabled != true) return false
        val left = event.action == MotionEvent.ACTION_HOVER_EXIT
        val under = if (left) NONE else targets.indices.firstOrNull { view.placeOf(targets[it]).contains(event.x.toInt(), event.y.toInt()) } ?: NONE
        if (under != hovered && hovered != NONE) tell(AccessibilityEvent.TYPE_VIEW_HOVER_EXIT, hovered)
        if (under != hovered && under != NONE) tell(AccessibilityEvent.TYPE_VIEW_HOVER_ENTER, under)
        hovered = under
        return under != NONE
    }

    @Suppress("DEPRECATION")
    private fun tell(kind: Int, id: Int) {
        if (manager?.isEnabled != true) return
        val event = AccessibilityEvent.obtain(kind)
        event.packageName = view.context.packageName
        event.className = View::class.java.name
        event.contentDescription = targets.getOrNull(id)?.spoken
        event.setSource(view, id)
        view.parent?.requestSendAccessibilityEvent(view, event)
    }

    private companion object {
        /** Not the number of a target; -1 is the whole view. */
        const val NONE = -2
    }
}

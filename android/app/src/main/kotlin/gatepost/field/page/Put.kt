package gatepost.field.page

import android.view.View
import gatepost.field.R
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Caution
import gatepost.field.look.button
import gatepost.field.look.hasLargeText
import gatepost.field.look.isAcross
import gatepost.field.look.isTight

/**
 * Puts a screen on the page, under a [caution] if there is one. The way to [leave] it stands in the foot, or below all where the
 * foot is full. With [isAlone] the place row makes room; so it does for what takes the height that is left where there is little of it.
 */
fun Page.put(shown: Shown, caution: String?, leave: Step?, isAlone: Boolean) {
    val isFull = context.hasLargeText() || context.isAcross() || shown.steps.size > 1
    val below = leave?.takeIf { isFull }?.let { context.button(R.style.Outlined_Walking, it.label, it.act) }
    fill(listOfNotNull(caution?.let { Caution(context, it) }) + shown.views.filterNotNull() + listOfNotNull(below), shown.grows)
    foot.show(shown.steps, leave.takeUnless { isFull }, shown.lacks)
    val needsRoom = shown.grows != null && (context.hasLargeText() || context.isTight()) || shown.isTall && context.isTight()
    placeRow.visibility = if (isAlone || needsRoom) View.GONE else View.VISIBLE
}

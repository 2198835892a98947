package gatepost.field.place

import android.content.Context
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.button

/** Without a logbook: it is tried again, or one that no second try opens is kept aside for a new one. */
fun Context.noBook(isUnreadable: Boolean, keepAside: () -> Unit, again: () -> Unit): Shown {
    val aside = button(R.style.Outlined_Walking, label("label-keep-aside"), keepAside)
    return Shown(listOf(aside).filter { isUnreadable }, listOf(Step(label("label-open-book"), again)))
}

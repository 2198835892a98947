package gatepost.field.look

import android.app.Activity
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.hand.Shown

/** Which light is read by; a touch keeps it and begins the window anew in it. */
fun Activity.lights(): Shown {
    val choices = Lighting.values().map { light ->
        button(R.style.Outlined, label(light.title)) {
            light.keep(this)
            recreate()
        }
    }
    return Shown(listOf(line(R.style.Text_Heading, label("label-which-light"))) + choices, emptyList())
}

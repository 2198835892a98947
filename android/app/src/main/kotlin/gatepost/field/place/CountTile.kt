package gatepost.field.place

import android.content.Context
import android.view.Gravity
import android.view.KeyEvent
import android.view.View
import android.widget.LinearLayout
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.look.grow
import gatepost.field.look.hasLargeText
import gatepost.field.look.line
import gatepost.field.look.px

/** Whether this is a key of the volume; pressed, it counts by one. */
fun View.isCountedBy(event: KeyEvent): Boolean {
    val isVolume = event.keyCode == KeyEvent.KEYCODE_VOLUME_UP || event.keyCode == KeyEvent.KEYCODE_VOLUME_DOWN
    if (isVolume && event.action == KeyEvent.ACTION_DOWN && event.repeatCount == 0) performClick()
    return isVolume
}

/** The big count, or a [small] one beside other keys; a touch anywhere on it is one pace more, and so is a volume key. [more] counts it. */
class CountTile(context: Context, small: Boolean, private val more: () -> Int) : LinearLayout(context) {
    private val figure = context.line(R.style.Text_Heading).apply { if (small) grow(R.dimen.count_small, R.dimen.count_small) else grow(R.dimen.count, R.dimen.count_at_200); includeFontPadding = false }

    init {
        orientation = VERTICAL
        gravity = Gravity.CENTER
        minimumHeight = context.px(if (small) R.dimen.target_walking else R.dimen.tile_least)
        setBackgroundResource(R.drawable.outlined)
        setPadding(0, context.px(R.dimen.tight), 0, context.px(R.dimen.tight))
        isFocusable = true
        isClickable = true
        setOnClickListener { show(more()) }
        val kind = context.line(R.style.Text_Label, label(if (small || context.hasLargeText()) "label-double-paces" else "label-tap-counts")).apply { gravity = Gravity.CENTER }
        for (view in listOf<View>(figure, kind)) addView(view, LayoutParams(LayoutParams.WRAP_CONTENT, LayoutParams.WRAP_CONTENT))
    }

    fun show(count: Int) {
        figure.text = "$count"
        contentDescription = label("label-counts-one-more", "$count")
    }
}

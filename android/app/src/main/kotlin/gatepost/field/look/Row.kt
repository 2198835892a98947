package gatepost.field.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.view.Gravity
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import gatepost.field.R

/** A row of a list with a ruled line under it: a mark, a name, a note. With [act] the whole of it is one target. */
class Row(context: Context, mark: Mark?, name: CharSequence, note: CharSequence, act: (() -> Unit)?) : LinearLayout(context) {
    private val fine = Paint().apply { color = context.ink(R.attr.ink_divider); strokeWidth = context.px(R.dimen.divider).toFloat() }

    init {
        gravity = Gravity.CENTER_VERTICAL
        minimumHeight = context.px(R.dimen.row)
        setPaddingRelative(0, context.px(R.dimen.close), 0, context.px(R.dimen.close))
        val gap = context.px(R.dimen.between_targets)
        if (mark != null) addView(mark, LayoutParams(WRAP_CONTENT, WRAP_CONTENT).apply { marginEnd = gap })
        val words = LinearLayout(context).apply { orientation = VERTICAL }
        if (name.isNotEmpty()) words.addView(context.line(R.style.Text_Strong, name))
        if (note.isNotEmpty()) words.addView(context.line(R.style.Text_Label, note))
        addView(words, LayoutParams(0, WRAP_CONTENT, 1f))
        setWillNotDraw(false)
        if (act != null) becomePart(listOf(name, note).filter { it.isNotEmpty() }.joinToString(context.getString(R.string.between_words)), act)
    }

    override fun onDraw(canvas: Canvas) {
        super.onDraw(canvas)
        val y = height - fine.strokeWidth
        canvas.drawLine(0f, y, width.toFloat(), y, fine)
    }
}

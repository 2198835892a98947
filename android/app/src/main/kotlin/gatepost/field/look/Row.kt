package gatepost.field.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.text.SpannableString
import android.text.Spanned
import android.text.style.StrikethroughSpan
import android.view.Gravity
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import gatepost.field.R

/** A row of a list with a ruled line under it: a mark, a name, a note. With [act] the whole of it is one target. */
class Row private constructor(context: Context, private val mark: Mark?, private val name: CharSequence, note: CharSequence, private val act: (() -> Unit)?, style: Int) :
    LinearLayout(context) {
    constructor(context: Context, mark: Mark?, name: CharSequence, note: CharSequence, act: (() -> Unit)?) : this(context, mark, name, note, act, R.style.Text_Strong)

    private val fine = Paint().apply { color = context.ink(R.attr.ink_divider); strokeWidth = context.px(R.dimen.divider).toFloat() }
    private val under = context.line(R.style.Text_Label)

    init {
        gravity = Gravity.CENTER_VERTICAL
        minimumHeight = context.px(R.dimen.row)
        setPaddingRelative(0, context.px(R.dimen.close), 0, context.px(R.dimen.close))
        val gap = context.px(R.dimen.between_targets)
        if (mark != null) addView(mark, LayoutParams(WRAP_CONTENT, WRAP_CONTENT).apply { marginEnd = gap })
        val words = LinearLayout(context).apply { orientation = VERTICAL }
        if (name.isNotEmpty()) words.addView(context.line(style, name))
        words.addView(under)
        addView(words, LayoutParams(0, WRAP_CONTENT, 1f))
        setWillNotDraw(false)
        show(note)
    }

    /** Another note; one that is out of date is struck through and stays legible. */
    fun show(note: CharSequence, standing: Standing? = null, isOld: Boolean = false) {
        under.text = if (isOld) SpannableString(note).apply { setSpan(StrikethroughSpan(), 0, length, Spanned.SPAN_EXCLUSIVE_EXCLUSIVE) } else note
        under.visibility = if (note.isEmpty()) GONE else VISIBLE
        if (standing != null) mark?.standing = standing
        if (act != null) becomePart(listOf(name, note).filter { it.isNotEmpty() }.joinToString(", "), act)
    }

    override fun onDraw(canvas: Canvas) {
        super.onDraw(canvas)
        val y = height - fine.strokeWidth
        canvas.drawLine(0f, y, width.toFloat(), y, fine)
    }

    companion object {
        /** A sentence in place of the name, which is not bold. */
        fun ofSentence(context: Context, mark: Mark?, said: CharSequence, note: CharSequence, act: (() -> Unit)?) = Row(context, mark, said, note, act, R.style.Text_Body)
    }
}

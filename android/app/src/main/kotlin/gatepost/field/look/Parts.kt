package gatepost.field.look

import android.content.Context
import android.text.Editable
import android.text.InputType
import android.text.TextWatcher
import android.view.Gravity
import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.view.inputmethod.EditorInfo
import android.widget.EditText
import android.widget.LinearLayout
import android.widget.TextView
import gatepost.bridge.label
import gatepost.bridge.referenceTold
import gatepost.field.R

/** The one value that is read at a glance. */
fun Context.glance(value: CharSequence): TextView = line(R.style.Text_Heading, value).apply {
    grow(R.dimen.glance, R.dimen.glance_at_200)
    includeFontPadding = false
}

/** A sentence of the core. */
fun Context.said(sentence: String, style: Int = R.style.Text_Body): TextView = line(style, sentence)

/** Sentences of the core; the first is the answer. */
fun Context.answer(sentences: List<String>, first: Int = R.style.Text_Heading): List<View> =
    sentences.mapIndexed { number, sentence -> said(sentence, if (number == 0) first else R.style.Text_Body) }

/** The answer stands first where large text or a short screen leaves no room for the drawing above it. */
fun <V : View?> Context.drawnAbove(drawn: List<V>, answer: List<V>): List<V> = if (hasLargeText() || isShort()) answer + drawn else drawn + answer

/** A grid reference at a glance; its zone, if it has one, stands above it. */
fun Context.reference(spaced: String): List<View> = referenceTold(spaced).run {
    val title = if (zone.isEmpty()) label("label-reference") else label("label-grid-reference", zone)
    listOf(line(R.style.Text_Label, title), glance(square))
}

/** Views side by side in equal parts; one below the other when the text is large and [mayStack]. */
fun Context.abreast(views: List<View>, mayStack: Boolean = false): LinearLayout = LinearLayout(this).apply {
    val stacked = mayStack && hasLargeText()
    orientation = if (stacked) LinearLayout.VERTICAL else LinearLayout.HORIZONTAL
    val gap = px(R.dimen.between_targets)
    views.forEachIndexed { number, view ->
        val place = if (stacked) LinearLayout.LayoutParams(MATCH_PARENT, WRAP_CONTENT) else LinearLayout.LayoutParams(0, MATCH_PARENT, 1f)
        if (number > 0) if (stacked) place.topMargin = gap else place.marginStart = gap
        addView(view, place)
    }
}

/** A field for words. [label] says what belongs in it; each change is passed on. */
fun Context.field(label: CharSequence, typed: String, lines: Int, changed: (String) -> Unit): EditText = EditText(this, null, 0, R.style.Field).apply {
    hint = label
    contentDescription = null
    inputType = InputType.TYPE_CLASS_TEXT or InputType.TYPE_TEXT_FLAG_NO_SUGGESTIONS or (if (lines > 1) InputType.TYPE_TEXT_FLAG_MULTI_LINE else 0)
    // One line of words wraps too, and so does its hint: nothing runs off the screen.
    setHorizontallyScrolling(false)
    maxLines = MOST_LINES
    minLines = lines
    if (lines > 1) gravity = Gravity.TOP or Gravity.START
    isSaveEnabled = false
    setText(typed)
    addTextChangedListener(object : TextWatcher {
        override fun beforeTextChanged(text: CharSequence?, at: Int, count: Int, after: Int) = Unit
        override fun onTextChanged(text: CharSequence?, at: Int, before: Int, count: Int) = Unit
        override fun afterTextChanged(text: Editable) = changed(text.toString())
    })
}

/** A field for a part of a name; the keyboard's key [looks] it up. */
fun Context.searchField(label: CharSequence, typed: String, looks: () -> Unit, changed: (String) -> Unit): EditText = field(label, typed, 1, changed).apply {
    imeOptions = EditorInfo.IME_ACTION_SEARCH
    setOnEditorActionListener { _, action, _ -> (action == EditorInfo.IME_ACTION_SEARCH).also { if (it) looks() } }
}

private const val MOST_LINES = 12

package gatepost.field.place

import android.view.View
import android.view.ViewGroup.LayoutParams.MATCH_PARENT
import android.view.ViewGroup.LayoutParams.WRAP_CONTENT
import android.widget.LinearLayout
import gatepost.field.R
import gatepost.field.hand.Hand
import gatepost.field.look.px
import gatepost.field.phone.Witness

/** A part of a screen that follows a sense of the phone while it is shown. What it says anew is not read out each time. */
abstract class Witnessing(protected val hand: Hand, private val witness: Witness) : LinearLayout(hand.context) {
    private val follow = ::show
    private val again = object : Runnable {
        override fun run() {
            show()
            postDelayed(this, AGES_MS)
        }
    }

    init {
        orientation = VERTICAL
    }

    /** Shows what is told now. */
    protected abstract fun show()

    protected fun add(vararg views: View) {
        for (view in views) addView(view, LayoutParams(MATCH_PARENT, WRAP_CONTENT).apply { if (view !== views.first()) topMargin = context.px(R.dimen.close) })
    }

    override fun onAttachedToWindow() {
        super.onAttachedToWindow()
        witness.watch(follow)
        again.run()
    }

    override fun onDetachedFromWindow() {
        super.onDetachedFromWindow()
        witness.unwatch(follow)
        removeCallbacks(again)
    }

    override fun notifySubtreeAccessibilityStateChanged(child: View, source: View, type: Int) = Unit

    private companion object {
        const val AGES_MS = 10_000L
    }
}

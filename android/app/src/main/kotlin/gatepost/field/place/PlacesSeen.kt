package gatepost.field.place

import android.view.View
import gatepost.bridge.Record
import gatepost.bridge.Stage
import gatepost.bridge.label
import gatepost.field.R
import gatepost.field.book.places
import gatepost.field.book.title
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown
import gatepost.field.hand.Step
import gatepost.field.look.Row
import gatepost.field.look.button
import gatepost.field.look.line
import gatepost.field.look.px
import gatepost.field.look.said

/** The five places in a list; a touch shows one, the trip stays where it is. */
fun Hand.placesListed(): Shown {
    val rows = places.map { place ->
        val isHere = place == snapshot.stage
        Row(context, null, label(place.title), if (isHere) label("label-here-now") else "") { go(if (isHere) draft.shut() else draft.lookingAt(place)) }
            .apply { minimumHeight = context.px(R.dimen.target_walking) }
    }
    return Shown(rows, emptyList())
}

/** Another place than the one that the trip is in: to be read, with the way back to the trip in the foot. */
fun Hand.looked(): Shown {
    val inside = when (draft.looked) {
        Stage.BEFORE -> sheetCarried()
        Stage.BESIDE_THE_LINE -> fixRead()
        Stage.ON_FOOT -> if (snapshot.car == null) emptyList() else legsWalked()
        Stage.WAY_BACK -> if (snapshot.legs.isEmpty()) emptyList() else wayTold()
        Stage.AFTERWARDS -> endOfTrip()
        null -> emptyList()
    }
    val views = inside.ifEmpty { listOf(context.said(label("label-place-empty"))) }
    return Shown(views, listOf(Step(label(snapshot.stage.title)) { go(draft.shut()) }))
}

private fun Hand.endOfTrip(): List<View?> {
    if (snapshot.car == null) return emptyList()
    val close = context.button(R.style.Outlined, label("label-close-trip")) { tell(draft.shut()) { Record.Close(it) } }
    return legsWalked() + close.takeIf { snapshot.stage != Stage.AFTERWARDS }
}

package gatepost.field.place

import gatepost.bridge.Stage
import gatepost.field.book.Open
import gatepost.field.hand.Hand
import gatepost.field.hand.Shown

/** The screen of the place that the trip is in, or what is open over it. */
fun Hand.screen(): Shown = everywhere() ?: when (snapshot.stage) {
    Stage.BEFORE -> if (draft.open == Open.SHEET) sheetTyped() else before()
    Stage.BESIDE_THE_LINE -> when (draft.open) {
        Open.SHEETS -> before()
        Open.SHEET -> sheetTyped()
        Open.PAD -> sightPad()
        Open.CHECK -> checkTyped()
        Open.LINE -> lines()
        Open.LINES -> linesMarked()
        Open.MORE -> moreSightings()
        Open.ASK -> asked()
        Open.KEEP -> placesToKeep()
        else -> besideTheLine()
    }
    Stage.ON_FOOT -> when (draft.open) {
        Open.TURN -> turnPad()
        Open.MET -> metTyped()
        Open.DETOUR -> detourPad()
        Open.WHERE -> whereAmI()
        Open.BACK -> wayBackShown()
        else -> if (snapshot.legs.isEmpty() && draft.bearing.isEmpty()) turnPad() else onFoot()
    }
    Stage.WAY_BACK -> if (draft.open == Open.WHERE) whereAmI() else wayBack()
    Stage.AFTERWARDS -> when (draft.open) {
        Open.SHEET -> sheetTyped()
        Open.SHEETS -> before()
        else -> afterwards()
    }
}

/** What may be open over any place. */
private fun Hand.everywhere(): Shown? = when (draft.open) {
    Open.PLACES -> placesListed()
    Open.LOOK -> looked()
    Open.MIND -> allMinded()
    Open.PACE -> pacePad()
    Open.PARTS -> sheetParts()
    Open.PART -> asked()
    Open.READ -> compassRead()
    Open.KNOWN -> compassKnown()
    else -> null
}

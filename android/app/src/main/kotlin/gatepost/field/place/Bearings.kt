package gatepost.field.place

import gatepost.field.book.Draft
import gatepost.field.hand.Hand

/** The core's words for norths and units. */
const val MAG = "mag"
const val GRID = "grid"
const val MIL = "mil"

/** The north that is typed from. */
val Draft.north get() = if (onGrid) GRID else MAG

/** What is typed, with its unit and north, as the core reads it: "214 mag", "3200 mil mag". */
fun Hand.typedBearing() = listOfNotNull(draft.typed, MIL.takeIf { draft.inMils }, draft.north).joinToString(" ")

/** The same with all its figures: "52 mag" is walked as 052. */
fun Hand.paddedBearing(): String {
    val most = if (draft.inMils) 4 else 3
    return if (draft.typed.isEmpty()) typedBearing() else typedBearing().padStart(typedBearing().length + most - draft.typed.length, '0')
}

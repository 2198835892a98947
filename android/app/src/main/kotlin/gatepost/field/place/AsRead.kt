package gatepost.field.place

import gatepost.bridge.Record
import gatepost.bridge.TurnRecord

/** Asks whether the core can read a bearing: it keeps nothing and is refused when the text is none with its north. */
fun asRead(bearing: String): Record =
    Record.Turn(
        TurnRecord(
            bearing = bearing,
            to = MAG,
            unit = null,
            spreadDeg = null,
            declinationDeg = 0.0,
            declinationSpreadDeg = null,
            convergenceDeg = 0.0,
            convergenceSpreadDeg = null,
            place = null,
            date = null,
            grid = null,
        ),
    )

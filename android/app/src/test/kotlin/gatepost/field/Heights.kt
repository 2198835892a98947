package gatepost.field

import kotlin.math.exp

private const val WEST = 553_500
private const val SOUTH = 4_646_500
private const val POST = 100
private const val COLUMNS = 75
private const val ROWS = 65

/** Invented heights over the demo's valley: a plain that rises to the east, with a hill in it and a knob. An ESRI ASCII grid on UTM 43 north. */
fun tiltedPlain(): String {
    val rows = (ROWS - 1 downTo 0).map { row -> (0 until COLUMNS).joinToString(" ") { "${height(WEST + POST * it, SOUTH + POST * row)}" } }
    return "ncols $COLUMNS\nnrows $ROWS\nxllcorner $WEST\nyllcorner $SOUTH\ncellsize $POST\nNODATA_value -9999\n${rows.joinToString("\n")}\n"
}

private fun height(east: Int, north: Int): Int {
    val (right, up) = (east - 557_680) / 500.0 to (north - 4_650_460) / 500.0
    val (beside, above) = (east - 557_200) / 150.0 to (north - 4_650_000) / 150.0
    return (1500 + 0.06 * (east - WEST) + 60 * exp(-right * right - up * up) + 50 * exp(-beside * beside - above * above)).toInt()
}

package gatepost.field.chart

/** A drawing of the core, read from its bytes; the layout is that of `core/src/chart/bytes.rs`. Lengths are dp. */
class Chart(val items: List<Item>, val targets: List<Target>, val spoken: String)

class Stroke(val ink: Int, val width: Float, val cap: Int, val dashes: FloatArray)

/** How a shape is painted: the filling first. */
class Look(val stroke: Stroke?, val fill: Int?)

sealed class Item {
    /** Points are x and y in turn. */
    class Path(val points: FloatArray, val closed: Boolean, val look: Look) : Item()

    class Circle(val x: Float, val y: Float, val radius: Float, val look: Look) : Item()

    class Text(
        val x: Float, val y: Float, val size: Float, val rotation: Float, val anchor: Int, val ink: Int,
        val halo: Boolean, val italic: Boolean, val bold: Boolean, val text: String,
    ) : Item()

    class Clip(val x: Float, val y: Float, val width: Float, val height: Float, val items: List<Item>) : Item()
}

/** A part of the drawing with its words; where it lies on it. */
class Target(val area: Area, val kind: Int, val number: Int, val name: String, val spoken: String) {
    val isStretch get() = kind == 0
    val isTurn get() = kind == 3
    val isCar get() = kind == 4
}

class Area(val x: Float, val y: Float, val width: Float, val height: Float)

package gatepost.field.chart

import java.nio.ByteBuffer
import java.nio.ByteOrder

/** Reads the core's bytes. An unknown code means that core and shell are of different releases. */
class ChartReader(bytes: ByteArray) {
    private val from = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN)

    fun chart(): Chart {
        require(String(ByteArray(MARK.length).also(from::get)) == MARK) { "no chart" }
        repeat(2) { from.float }
        return Chart(items(), targets(), text())
    }

    private fun byte() = from.get().toInt()

    private fun floats(count: Int) = FloatArray(count) { from.float }

    private fun text() = String(ByteArray(from.int).also(from::get))

    private fun items(): List<Item> = List(from.int) { item() }

    private fun item(): Item = when (val code = byte()) {
        1 -> path()
        2 -> circle()
        3 -> words()
        4 -> floats(4).let { (x, y, width, height) -> Item.Clip(x, y, width, height, items()) }
        else -> error("no such item: $code")
    }

    private fun path(): Item {
        val flags = byte()
        val look = look(flags)
        return Item.Path(floats(from.int * 2), flags.has(1), look)
    }

    private fun circle(): Item {
        val flags = byte()
        val (x, y, radius) = floats(3)
        return Item.Circle(x, y, radius, look(flags))
    }

    private fun words(): Item {
        val (x, y, size, rotation) = floats(4)
        val anchor = byte()
        val ink = byte()
        val flags = byte()
        return Item.Text(x, y, size, rotation, anchor, ink, flags.has(1), flags.has(2), flags.has(4), text())
    }

    private fun look(flags: Int) = Look(if (flags.has(2)) stroke() else null, if (flags.has(4)) byte() else null)

    private fun stroke() = Stroke(byte(), from.float, byte(), floats(from.int))

    private fun targets() = List(from.int) {
        val (x, y, width, height) = floats(4)
        Target(Area(x, y, width, height), byte(), from.int, text(), text())
    }

    private fun Int.has(flag: Int) = and(flag) != 0

    private companion object {
        const val MARK = "GPC1"
    }
}

package gatepost.field.chart

import android.content.Context
import android.graphics.Canvas
import android.graphics.DashPathEffect
import android.graphics.Paint
import android.graphics.Path
import android.graphics.Typeface
import gatepost.field.R
import gatepost.field.look.ink

/** Paints what the core has drawn, in the inks of the theme. It decides nothing. */
class ChartPainter(context: Context) {
    private val inks = ROLES.map(context::ink)
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG).apply { strokeJoin = Paint.Join.ROUND }

    fun paint(canvas: Canvas, items: List<Item>): Unit = items.forEach { item ->
        when (item) {
            is Item.Path -> path(item).let { path -> shape(item.look) { canvas.drawPath(path, paint) } }
            is Item.Circle -> shape(item.look) { canvas.drawCircle(item.x, item.y, item.radius, paint) }
            is Item.Text -> words(canvas, item)
            is Item.Clip -> {
                val whole = canvas.save()
                canvas.clipRect(item.x, item.y, item.x + item.width, item.y + item.height)
                paint(canvas, item.items)
                canvas.restoreToCount(whole)
            }
        }
    }

    private fun path(item: Item.Path) = Path().apply {
        for (at in item.points.indices step 2) {
            if (at == 0) moveTo(item.points[0], item.points[1]) else lineTo(item.points[at], item.points[at + 1])
        }
        if (item.closed) close()
    }

    private fun shape(look: Look, draw: () -> Unit) {
        look.fill?.let { fill(it); draw() }
        look.stroke?.let { stroke(it.ink, it.width, CAPS[it.cap], it.dashes); draw() }
    }

    private fun fill(ink: Int) {
        paint.style = Paint.Style.FILL
        paint.pathEffect = null
        paint.color = inks[ink]
    }

    private fun stroke(ink: Int, width: Float, cap: Paint.Cap, dashes: FloatArray) {
        paint.style = Paint.Style.STROKE
        paint.color = inks[ink]
        paint.strokeWidth = width
        paint.strokeCap = cap
        paint.pathEffect = if (dashes.isEmpty()) null else DashPathEffect(dashes, 0f)
    }

    private fun words(canvas: Canvas, item: Item.Text) {
        paint.textSize = item.size
        paint.textAlign = ALIGNS[item.anchor]
        paint.typeface = Typeface.create(Typeface.SANS_SERIF, (if (item.bold) Typeface.BOLD else 0) or (if (item.italic) Typeface.ITALIC else 0))
        val whole = canvas.save()
        canvas.rotate(item.rotation, item.x, item.y)
        if (item.halo) {
            stroke(0, 2 * HALO, Paint.Cap.ROUND, FloatArray(0))
            canvas.drawText(item.text, item.x, item.y, paint)
        }
        fill(item.ink)
        canvas.drawText(item.text, item.x, item.y, paint)
        canvas.restoreToCount(whole)
    }

    private companion object {
        const val HALO = 2f
        val CAPS = listOf(Paint.Cap.BUTT, Paint.Cap.ROUND, Paint.Cap.SQUARE)
        val ALIGNS = listOf(Paint.Align.LEFT, Paint.Align.CENTER, Paint.Align.RIGHT)

        /** In the order of the core's inks. */
        val ROLES = listOf(
            R.attr.ink_paper, R.attr.ink_works, R.attr.ink_landmark, R.attr.ink_contour, R.attr.ink_water, R.attr.ink_sighting,
            R.attr.ink_stretch, R.attr.ink_spread, R.attr.ink_leg_walked, R.attr.ink_leg_ahead, R.attr.ink_way_back, R.attr.ink_car,
            R.attr.ink_text, R.attr.ink_text_muted, R.attr.ink_warning, R.attr.ink_divider,
        )
    }
}

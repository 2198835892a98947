package gatepost.field.look

import android.content.Context
import android.content.res.Configuration
import gatepost.field.R

/** The light that the walker reads by. Until one is chosen, the system's own night setting decides. */
enum class Lighting(val theme: Int, val title: String) {
    DAY(R.style.Gatepost_Day, "label-light-day"),
    NIGHT(R.style.Gatepost_Night, "label-light-night"),
    HIGH(R.style.Gatepost_High, "label-light-high");

    /** Keeps this light for this start and the next ones. */
    fun keep(context: Context) = kept(context).edit().putString(KEY, name).apply()

    companion object {
        private const val KEY = "lighting"

        fun of(context: Context): Lighting {
            val name = kept(context).getString(KEY, null)
            return values().firstOrNull { it.name == name } ?: if (isNight(context)) NIGHT else DAY
        }

        private fun kept(context: Context) = context.getSharedPreferences("look", Context.MODE_PRIVATE)!!

        private fun isNight(context: Context): Boolean {
            val mode = context.resources.configuration.uiMode and Configuration.UI_MODE_NIGHT_MASK
            return mode == Configuration.UI_MODE_NIGHT_YES
        }
    }
}

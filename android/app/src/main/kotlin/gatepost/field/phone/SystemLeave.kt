package gatepost.field.phone

import android.Manifest
import android.app.Activity
import android.content.pm.PackageManager

/** The system's own question for the phone's place. Asked only when the walker touches what uses it. */
class SystemLeave(private val window: Activity) : Leave {
    override val isGiven get() = window.checkSelfPermission(PLACE.first()) == PackageManager.PERMISSION_GRANTED

    override fun ask() = window.requestPermissions(PLACE, PHONE_PLACE)

    companion object {
        private const val PHONE_PLACE = 2
        private val PLACE = arrayOf(Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION)

        /** What the walker answered; nothing where another question was meant. */
        fun answer(request: Int, results: IntArray): Boolean? = (PackageManager.PERMISSION_GRANTED in results.toList()).takeIf { request == PHONE_PLACE }
    }
}

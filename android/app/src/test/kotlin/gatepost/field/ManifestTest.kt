package gatepost.field

import android.Manifest
import android.content.pm.FeatureInfo
import android.content.pm.PackageManager
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment

@RunWith(RobolectricTestRunner::class)
class ManifestTest {
    private val app = RuntimeEnvironment.getApplication()
    private val info = app.packageManager.getPackageInfo(app.packageName, PackageManager.GET_ACTIVITIES or PackageManager.GET_PERMISSIONS)

    @Test fun theManifestIsTheOneOfThisTree() {
        assertEquals("gatepost.field", app.packageName)
        assertEquals(listOf(FieldActivity::class.java.name), info.activities!!.map { it.name })
        assertEquals(System.getProperty("gatepost.min.sdk"), "${app.applicationInfo.minSdkVersion}")
        assertEquals(System.getProperty("gatepost.target.sdk"), "${app.applicationInfo.targetSdkVersion}")
    }

    /**
     * Above all no network; a permission that is added some day is added here with its reason. A counted pace answers by a vibration;
     * the phone's place is a witness beside the fix, and the system takes the fine one only together with the coarse one.
     */
    @Test fun onlyTheseAreAskedFor() = assertEquals(
        setOf(Manifest.permission.VIBRATE, Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION),
        info.requestedPermissions.orEmpty().toSet(),
    )

    @Test fun aPhoneWithoutAnySenseIsServed() =
        assertEquals(emptyList<String>(), app.packageManager.getPackageInfo(app.packageName, PackageManager.GET_CONFIGURATIONS).reqFeatures.orEmpty().filter { it.flags and FeatureInfo.FLAG_REQUIRED != 0 }.map { it.name })
}

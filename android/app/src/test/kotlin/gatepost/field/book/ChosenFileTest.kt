package gatepost.field.book

import android.content.ContentProvider
import android.content.ContentValues
import android.content.Intent
import android.database.Cursor
import android.net.Uri
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.shadows.ShadowContentResolver

@RunWith(RobolectricTestRunner::class)
class ChosenFileTest {
    /** Who lends a file may take it back between the choice and the reading. */
    @Test fun aFileThatIsWithheldHasTheNameOfItsAddress() {
        ShadowContentResolver.registerProviderInternal("lender", Withholding())
        val chosen = ChosenFile(RuntimeEnvironment.getApplication().contentResolver, Intent().setData(Uri.parse("content://lender/valley.asc")))
        assertEquals("valley.asc", chosen.name())
    }

    private class Withholding : ContentProvider() {
        override fun onCreate() = true

        override fun query(uri: Uri, columns: Array<String>?, which: String?, of: Array<String>?, order: String?): Cursor? = throw SecurityException("withheld")

        override fun getType(uri: Uri): String? = null

        override fun insert(uri: Uri, values: ContentValues?): Uri? = null

        override fun delete(uri: Uri, which: String?, of: Array<String>?) = 0

        override fun update(uri: Uri, values: ContentValues?, which: String?, of: Array<String>?) = 0
    }
}

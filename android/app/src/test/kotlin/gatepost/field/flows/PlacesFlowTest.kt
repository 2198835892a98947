package gatepost.field.flows

import gatepost.bridge.Stage
import gatepost.field.audit.putRecords
import gatepost.field.chart.ChartView
import gatepost.field.tree
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** The other places, looked at without leaving the one that the trip is in; the chart on the whole screen. */
@RunWith(RobolectricTestRunner::class)
class PlacesFlowTest {
    private fun walkerAfter(records: Int): Walker {
        putRecords(records)
        return Walker()
    }

    private fun Walker.looksAt(place: String) {
        touch("On foot, place 3 of 5")
        touch(place)
    }

    @Test fun eachPlaceCanBeLookedAt() = walkerAfter(LEGS).run {
        looksAt("Before")
        sees("North on this sheet")
        sees("To carry another sheet, close this trip first.")
        kill()
        sees("North on this sheet")
        touch("On foot")
        looksAt("Beside the line")
        sees("Does it fit?")
        touch("On foot")
        looksAt("Way back")
        sees("Way back, the log reversed")
        touch("On foot")
        looksAt("Afterwards")
        sees("Leg 5: 024°\u00a0mag, 110\u00a0double paces")
        touch("On foot")
        assertEquals(Stage.ON_FOOT, activity.snapshot.stage)
        assertEquals("nothing was logged by looking", 5, activity.snapshot.legs.size)
    }

    @Test fun aTripIsClosedWithoutTheWayBack() = walkerAfter(LEGS).run {
        looksAt("Afterwards")
        touch("Close the trip")
        assertEquals(Stage.AFTERWARDS, activity.snapshot.stage)
        sees("Closing error, if you are back at the car")
        sees(activity.snapshot.after!!.closing!!.offTold)
        activity.snapshot.legs.forEach { sees(it.told) }
    }

    /** As long as nothing is walked. */
    @Test fun aWrongSheetIsLeft() = walkerAfter(FIXED).run {
        touch("Beside the line, place 2 of 5")
        touch("Before")
        touch("Carry another sheet")
        sees("The trip on Velm valley ends when you carry another sheet.")
        kill()
        touch("Leave it")
        assertTrue(activity.snapshot.fix != null)
        touch("Beside the line, place 2 of 5")
        touch("Before")
        touch("Carry another sheet")
        touch("Velm valley")
        assertEquals(Stage.BESIDE_THE_LINE, activity.snapshot.stage)
        assertTrue("another trip", activity.snapshot.fix == null)
    }

    @Test fun thePaceIsSet() = walkerAfter(LEGS).run {
        looksAt("Before")
        touch("Pace")
        figures("65")
        kill()
        touch("Set the pace")
        assertEquals(65.0, activity.snapshot.pace.doublePacesPer100M, 0.0)
    }

    @Test fun theChartOpensAndComesCloser() = walkerAfter(LEGS).run {
        touch("Where am\u00a0I")
        val small = chart()
        assertTrue(small.contentDescription.toString(), small.contentDescription.startsWith(small.chart!!.spoken) && small.contentDescription.endsWith("Opens the chart full screen"))
        touch(small.contentDescription.toString())
        val whole = chart()
        assertTrue(whole.height > small.height)
        val before = whole.placeOf(whole.chart!!.targets.single { it.isCar }).width()
        for (key in listOf("Closer", "To me", "To the car", "Wider")) touch(key)
        touch("To the car")
        val car = whole.placeOf(whole.chart!!.targets.single { it.isCar })
        assertTrue("$car in ${whole.width} x ${whole.height}", car.centerX() in 0..whole.width && car.centerY() in 0..whole.height && before > 0)
        touch("Leave it")
        sees("By reckoning you are at")
    }

    @Test fun aScreenReaderFindsEachPartOfTheChart() = walkerAfter(LEGS).run {
        touch("Where am\u00a0I")
        val chart = chart()
        val nodes = chart.accessibilityNodeProvider
        val spoken = chart.chart!!.targets.indices.map { nodes.createAccessibilityNodeInfo(it)!!.contentDescription.toString() }
        assertEquals(chart.chart!!.targets.map { it.spoken }, spoken)
        assertTrue("$spoken", spoken.size > 5)
        assertEquals(spoken.size, nodes.createAccessibilityNodeInfo(-1)!!.childCount)
    }

    private fun Walker.chart() = tree(activity.page).filterIsInstance<ChartView>().single()

    private companion object {
        /** Records of the walk up to the fix. */
        const val FIXED = 4

        /** Records of the walk up to its last leg. */
        const val LEGS = 10
    }
}

package gatepost.field.place

import gatepost.field.book.What

/** A display that shows a figure until the next one is full. */
const val UNTIL_FULL = "until-full"

/** How a question is answered. */
enum class Way {
    LANDMARK, LANDMARKS, HERE, POINT, TOWARDS, CHOICE, BEARING, PACES, METRES, DEGREES, HOURS, PLACE, NEAR, WORDS, REFERENCES, LINE;

    /** Whether figures answer it, of a number. */
    val isFigure get() = this == PACES || this == METRES || this == DEGREES || this == HOURS
}

/** One question, and the words of the core that answer it with their labels, where it is one of a few; an optional one may be left without a figure. */
class Question(val title: String, val way: Way, val choices: List<Pair<String, String>> = emptyList(), val isOptional: Boolean = false)

private val sides = listOf(LEFT to "label-left", RIGHT to "label-right", "ahead" to "label-ahead", "behind" to "label-behind")
private val trends = listOf("rises" to "label-rises", "falls" to "label-falls", "level" to "label-level")
private val figures = listOf("nearest" to "label-figure-nearest", UNTIL_FULL to "label-figure-until-full")
private val landforms = listOf(
    "hill" to "label-hill", "saddle" to "label-saddle", "ridge" to "label-ridge", "spur" to "label-spur",
    "valley" to "label-valley", "draw" to "label-draw", "depression" to "label-depression", "cliff" to "label-cliff",
)

/** What may be here by its kind. */
val kindsHere = listOf(
    "junction" to "label-junction", "bridge" to "label-bridge", "bend" to "label-bend",
    "crossroads" to "label-crossroads", "stream" to "label-stream", "ford" to "label-ford",
)

/** What a known point is where lines meet: what may be here, and where lines meet that nobody walks. */
val kindsMet = kindsHere + listOf(
    "confluence" to "label-confluence", "fence-corner" to "label-fence-corner", "fence" to "label-fence-meets",
    "ridge" to "label-ridge-meets", "wire" to "label-wire", "levels" to "label-levels",
)

/** What can be told besides a bearing to a landmark and what is seen, the most useful first. */
val onLine = listOf(
    What.LINE_RUN, What.ONE_OF, What.TRIP, What.HERE, What.SIDE, What.SLOPE, What.HEIGHT, What.HEIGHT_SET, What.ASPECT, What.LANDFORM, What.ANGLE, What.DISTANCE, What.RUNNING, What.PACES, What.WITNESS,
)

/** Of these, what says something of one who stands on no line. */
val inTheOpen = onLine - setOf(What.LINE_RUN, What.TRIP, What.HERE, What.SIDE, What.RUNNING, What.PACES)

/** What it is called in the list. */
val What.title: String
    get() = when (this) {
        What.LINE_RUN -> "label-read-the-line"
        What.ONE_OF -> "label-may-be-one-of"
        What.TRIP -> "label-trip-meter"
        What.HERE, What.HERE_KIND -> "label-what-is-here"
        What.SIDE -> "label-on-which-side"
        What.SLOPE -> "label-ground-towards"
        What.HEIGHT -> "label-altimeter"
        What.HEIGHT_SET -> "label-altimeter-set"
        What.ASPECT -> "label-slope-falls-to"
        What.LANDFORM -> "label-landform-at"
        What.ANGLE -> "label-angle-between"
        What.DISTANCE -> "label-distance-to"
        What.PACES -> "label-paces-from"
        What.RUNNING -> "label-running-fix"
        What.WITNESS -> "label-independent-place"
        What.BEARING -> "label-which-landmark"
        What.SEEN -> "label-seen"
        What.NOT_SEEN -> "label-not-seen"
    }

private val which = Question("label-which-landmark", Way.LANDMARK)
private val from = Question("label-from-which-point", Way.POINT)
private val above = Question("label-metres-above-sea", Way.METRES)
private val onward = Question("label-towards-which-point", Way.TOWARDS)

/** Its questions, one after the other. */
val What.questions: List<Question>
    get() = when (this) {
        What.BEARING -> listOf(which, Question("label-bearing-to-it", Way.BEARING))
        What.SEEN, What.NOT_SEEN -> listOf(which)
        What.LINE_RUN -> listOf(Question("label-along-the-line", Way.BEARING))
        What.ONE_OF -> listOf(Question("label-which-of-these", Way.LANDMARKS), Question("label-bearing-to-it", Way.BEARING))
        What.TRIP -> listOf(from, Question("label-how-many-metres", Way.METRES), onward, Question("label-its-last-figure", Way.CHOICE, figures))
        What.PACES -> listOf(from, Question("label-how-many-double-paces", Way.PACES), onward)
        What.HERE, What.HERE_KIND -> listOf(Question("label-what-is-here", Way.HERE))
        What.SIDE -> listOf(which, Question("label-side-of-it", Way.CHOICE, sides), Question("label-facing-which-point", Way.TOWARDS))
        What.SLOPE -> listOf(Question("label-ground-towards", Way.CHOICE, trends), Question("label-towards-which-bearing", Way.BEARING))
        What.HEIGHT -> listOf(above)
        What.HEIGHT_SET -> listOf(Question("label-where-set", Way.NEAR), Question("label-set-to", Way.METRES, isOptional = true), Question("label-hours-since", Way.HOURS), above)
        What.ASPECT -> listOf(Question("label-slope-falls-to", Way.BEARING))
        What.LANDFORM -> listOf(Question("label-which-landform", Way.CHOICE, landforms), Question("label-bearing-to-it", Way.BEARING), Question("label-how-far-about", Way.METRES, isOptional = true))
        What.ANGLE -> listOf(Question("label-left-landmark", Way.LANDMARK), Question("label-right-landmark", Way.LANDMARK), Question("label-how-many-degrees", Way.DEGREES))
        What.DISTANCE -> listOf(which, Question("label-how-many-metres", Way.METRES))
        What.RUNNING -> listOf(which, Question("label-first-bearing", Way.BEARING), Question("label-run-metres", Way.METRES), Question("label-run-towards", Way.TOWARDS), Question("label-second-bearing", Way.BEARING))
        What.WITNESS -> listOf(Question("label-independent-place", Way.PLACE))
    }

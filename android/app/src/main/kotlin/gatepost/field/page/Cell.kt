package gatepost.field.page

/** One cell of the strip: what it tells, its value with the spread, and its age or what else stands under it. */
data class Cell(
    val label: String,
    val value: String,
    val under: String,
    /** The label where there is room for more, and when it is spoken. */
    val fullLabel: String = label,
    /** False for what goes when the text is large. */
    val staysWhenLarge: Boolean = true,
    /** True when the value is past its limit: it is struck through and stays legible. */
    val isOld: Boolean = false,
)

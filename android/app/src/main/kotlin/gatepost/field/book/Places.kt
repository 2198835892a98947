package gatepost.field.book

import gatepost.bridge.Stage

/** The five places are the stages of the job, in their order. */
val places: List<Stage> = Stage.values().toList()

/** The name of the place, a label of the core. */
val Stage.title: String
    get() = when (this) {
        Stage.BEFORE -> "label-place-before"
        Stage.BESIDE_THE_LINE -> "label-place-beside"
        Stage.ON_FOOT -> "label-place-on-foot"
        Stage.WAY_BACK -> "label-place-way-back"
        Stage.AFTERWARDS -> "label-place-afterwards"
    }

/** Those in which one walks: what is touched there is larger. */
val walkingPlaces = listOf(Stage.ON_FOOT, Stage.WAY_BACK)

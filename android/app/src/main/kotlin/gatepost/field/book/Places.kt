package gatepost.field.book

import gatepost.bridge.Stage
import gatepost.field.R

/** The five places are the stages of the job, in their order. */
val places: List<Stage> = Stage.values().toList()

/** The name of the place, a string. */
val Stage.title: Int
    get() = when (this) {
        Stage.BEFORE -> R.string.place_before
        Stage.BESIDE_THE_LINE -> R.string.place_beside
        Stage.ON_FOOT -> R.string.place_on_foot
        Stage.WAY_BACK -> R.string.place_way_back
        Stage.AFTERWARDS -> R.string.place_afterwards
    }

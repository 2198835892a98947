package gatepost.field.flows

/** A bearing to a landmark, weighed in. */
fun Walker.sights(landmark: String, figures: String) {
    touch(landmark)
    figures(figures)
    touch("Weigh it in")
}

/** On the demo's road with one bearing read; touches count from here. */
fun Walker.onTheRoad() {
    touch("Velm valley")
    touch("Velm Road")
    sights("Sorn chapel", "016")
    touches = 0
}

/** Opens the first question of another kind of sighting, and is killed there. */
fun Walker.tells(kind: String) {
    touch("More sightings")
    touch(kind)
    kill()
}

/** The kinds of the sightings that the fix holds. */
val Walker.whats get() = activity.snapshot.fix!!.accounts.map { it.what }

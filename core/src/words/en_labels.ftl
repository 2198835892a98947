# Names of places, controls and fields of the shells, in English. `name` is what a control speaks of.



# Names of places, controls and fields of the shells, in English. `name` is what a control speaks of.

## The frame
label-place-before = Before
label-place-beside = Beside the line
label-place-on-foot = On foot
label-place-way-back = Way back
label-place-afterwards = Afterwards
label-place-number = place { $name } of 5
label-opens-places = Opens the list of places
label-here-now = the trip is here
label-place-empty = The trip has not come to this yet.
label-undo = Undo
label-undo-what = Undo: { $name }
label-would-strike = The last entry: { $name }. Struck through, it stays in the logbook.
label-strike = Strike it
label-leave = Leave it
label-sure = Sure
label-sure-95 = Sure, 95{"\u00A0"}%
label-home = Home
label-light = Light
label-not-known = not known
label-no-book = no book
label-open-book = Open the logbook again
label-which-light = Which light do you read by?
label-light-day = Day: black on paper
label-light-night = Night: dim red on black
label-light-high = High: greatest contrast

## Before
label-which-sheet = Which sheet do you carry?
label-demo-sheet = Velm valley
label-demo-note = An invented valley, to try things out
label-open-sheet = Open a sheet file
label-type-sheet = Paste or type a sheet
label-sheet-field = The text of the sheet: TOML or GeoJSON
label-carry = Carry it
label-norths = North on this sheet
label-pace = Pace
label-how-many-paces = How many double paces to 100 m?
label-set-pace = Set the pace
label-to-the-line = Go to the line

## Beside the line
label-which-line = Which line are you on?
label-on-line = On { $name }
label-change-line = Another line
label-read-with = Read with: { $name }
label-instrument-baseplate = baseplate compass
label-instrument-sighting = sighting compass
label-instrument-quick = quick look
label-instrument-phone = phone
label-what-do-you-see = What do you see?
label-sight = Sight { $name }
label-sight-next = Sight next: { $name }
label-read-again = Read { $name } again
label-bearing-to = Bearing from here to { $name }
label-weigh-in = Weigh it in
label-last-off = Last off
label-clear = Clear
label-in-mils = In mils
label-in-degrees = In deg
label-grid-north = Grid north
label-magnetic-north = Mag north
label-does-it-fit = Does it fit?
label-fits = fits
label-doubtful = doubtful
label-misfit = does not fit
label-check-it = Check it
label-checked = Checked place
label-check-field = Grid reference from the map or a receiver
label-hold-against = Hold it against the fix
label-here-stands-the-car = Here stands the car
label-new-fix = Begin a new fix
label-add-to-fix = Add to this fix
label-grid-reference = Grid reference, { $name }

## What the phone believes
label-phone-place = Phone's place
label-phone-place-ask = Show where the phone believes it is
label-phone-place-waits = Not found yet. Hold the phone in the open.
label-phone-place-refused = The phone may not tell its place. Type a grid reference.
label-phone-place-none = This phone finds no place, or it is switched off. Type a grid reference.
label-phone-flat = Phone flat
label-phone-field = Try the phone for metal near by
label-phone-field-waits = Hold the phone flat and still.
label-phone-field-none = This phone feels no magnetic field. Read your compass and type.
label-phone-says = The phone says { $name }
label-take-it = Take it

## On foot
label-leg-walk = Leg { $name }, walk
label-met-what = met { $name }
label-round-left = round left { $name }
label-round-right = round right { $name }
label-not-set = not set
label-double-paces = double paces
label-paces-counted = { $name } double paces
label-tap-counts = double paces; tap or volume key
label-counts-one-more = { $name } double paces. Counts one more
label-ten-more = Count + 10
label-one-less = One less
label-met = Met
label-detour = Detour
label-turn = Turn
label-way-back = Way back
label-which-bearing = Which bearing do you walk?
label-walk-it = Walk it
label-what-was-met = What was met here?
label-met-field = A word or two: fence, creek
label-note-it = Note it
label-how-far-out = How far out, and to which side?
label-left = Left
label-right = Right
label-where-am-i = Where am{"\u00A0"}I
label-since-turn = At the last turn. Not in it:
label-walk-on = Walk on

## Way back and afterwards
label-follow-log = Follow the log
label-back-along = Back along leg { $name }, walk
label-to-go = { $name } to go
label-then = Then
label-turn-here = Turn here
label-at-the-line = At the line
label-found-car = Found the car
label-legs-walked = Legs walked
label-leg-number = Leg { $name }
label-close-trip = Close the trip
label-next-trip = Next trip

## The chart
label-chart-closer = Closer
label-chart-wider = Wider
label-chart-to-me = To me
label-chart-to-car = To the car
label-chart-opens = Opens the chart full screen

## iOS
label-go-back = Back
label-check-compass = Check my compass
label-compass-reads = What does your compass say to a point you know?
label-compass-known = Which bearing does the map have for it?
label-keep-compass = Keep it: take the error off

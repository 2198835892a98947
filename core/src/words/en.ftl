# Every sentence a person reads, in English.
# Numbers arrive with their unit; ± is always the half-width at 95 %.

north-mag = mag
north-grid = grid
north-true = true

## The fix
fix-place = { $doubt ->
    [doubted] One reading may be false. By all of them you
   *[none] You
  } stand { $shape ->
    [between] on { $line } between { $low } and { $high }, likeliest at { $reference }, ± { $across } across it (95 %).
   *[about] at { $reference }, ± { $spread } along { $line } and ± { $across } across it (95 %).
  }
fix-several = { $doubt ->
    [doubted] One reading may be false. All readings together
   *[none] The readings
  } leave { $count } places on { $line }. Sight something that tells them apart.
fix-doubtful = The limits do not hold: { $share } is left for standing elsewhere on { $line }. Take another sighting.
fix-place-of-several = { $share }: { $reference }, ± { $spread } along { $line } and ± { $across } across it (95 %).
fix-along = That is lat { $lat }°, lon { $lon }°, { $distance } ± { $spread } along the line from { $from }; straight from there it bears { $bearing }. The limits lie at { $low } and { $high } (95 %).
fix-along-towards = That is lat { $lat }°, lon { $lon }°, { $distance } ± { $spread } along the line from { $from } towards { $towards }; straight from there it bears { $bearing }. The limits lie at { $low } and { $high } (95 %).
fix-along-start = That is lat { $lat }°, lon { $lon }°, { $distance } ± { $spread } along the line from its first point. The limits lie at { $low } and { $high } (95 %).
fix-elsewhere = { $share } is left for standing elsewhere on { $line }: a reading that is plainly wrong.
fix-norths = Declination { $declination } { $declination-side ->
    [west] west
   *[east] east
 } ± { $spread } (95 %, { $by ->
    [model] World Magnetic Model
    [diagram] the sheet's own diagram
   *[nearest-day] by the nearest day that the World Magnetic Model holds for
 }), convergence { $convergence } { $convergence-side ->
    [west] west
   *[east] east
 }: grid-magnetic angle { $angle } { $angle-side ->
    [west] west
   *[east] east
 }.
check-told = { $square ->
    [wide] The middle of the square of { $side } that was told
   *[point] The other place
 } lies { $distance } from { $from ->
    [log] where the log puts you
   *[fix] place { $number } of the fix
 }, on { $bearing }: { $verdict ->
    [fits] it fits (chance { $chance })
    [doubtful] doubtful, only { $chance } by chance; look again
   *[misfit] it does not fit, { $chance } by chance; one of the two is wrong
 }.
field-place = { $doubt ->
    [doubted] One reading may be false. By all of them you
   *[none] You
  } stand { $shape ->
    [between] on { $line } between { $low } and { $high } (95 %), likeliest at { $reference }.
   *[about] at { $reference } on { $line }, ± { $spread } (95 %).
  }
field-likeliest = You most likely stand at { $reference } on { $line }, ± { $spread } ({ $share }).
field-places = { $doubt ->
    [doubted] One reading may be false. By all of them you
   *[none] You
  } may stand in { $count } places{ $on ->
    [one] {" "}on { $line }
   *[several] {" "}on more than one line
 }.
field-open-place = { $doubt ->
    [doubted] One reading may be false. By all of them you
   *[none] You
  } stand at { $reference }, ± { $spread } (95 %).
field-open-region = { $doubt ->
    [doubted] One reading may be false. By all of them you
   *[none] You
  } stand at most { $spread } from { $reference } (95 %).
field-open-likeliest = You most likely stand at { $reference }, ± { $spread } ({ $share }).
field-open-region-likeliest = You most likely stand at most { $spread } from { $reference } ({ $share }).
field-open-places = { $doubt ->
    [doubted] One reading may be false. By all of them you
   *[none] You
  } may stand in { $count } places.
field-open-nowhere = You may stand anywhere on the sheet.
field-nowhere = You may stand anywhere on the line.
field-slip = Something does not fit: look again at { observed }.
field-slip-line = You may stand on { $other }: look whether this is your line.
field-slip-reversed = All bearings seem read from the wrong end of the needle: look again.
field-slip-sides = The sides fit if you faced the other way: face along the line and look again.
field-slip-feet = Distances and heights seem told in feet: look at their unit.
field-slip-landmarks = { $one } and { $other } seem taken for each other: look again which is which.
field-slip-north = All bearings seem counted from another north: look at your dial.
field-slip-maybe = Something may have been misread: look again first at { $observed }.
field-slip-all = All bearings seem turned alike: { $first ->
    [norths] look which north the dial is set to, then read again.
   *[needle] step away from metal and read again.
  }
field-misfit = Look again at { observed }: it does not fit.
field-doubtful = Look again at { observed }: it fits badly.
field-alone = { $count ->
    [one] One sighting alone
   *[other] One thing alone tells where you stand
 }: nothing confirms it yet.
field-meet = Two lines of position always meet somewhere: nothing confirms the place yet.
field-fits = { $count ->
    [2] Both sightings fit.
   *[other] All { $count } sightings fit.
 }
field-next = { $doubt ->
    [doubted] If it reads the same again, { $what ->
        [line-run] read the bearing along the line
       *[bearing] sight { $landmark }
      }
   *[none] Next { $what ->
        [line-run] read the bearing along the line
       *[bearing] sight { $landmark }
      }
 }: it would leave { $left } of { $now } in all.
field-undecided = Do not keep a place yet: nothing near tells them apart. Go on to where something does, and take the fix there.
field-again = Read it again before you keep a place: no further sighting helps much.
field-keep = No further sighting helps much: check it another way, then keep it.
next-told = { $what ->
    [line-run] To take next: the bearing along the line; it { $gain }.
   *[bearing] To take next: a bearing to { $landmark }; it { $gain }.
 }
check-misread = The fix itself holds only if nothing was misread: make the reading again that was named with it.
check-log-off = You have walked since the fix: either a leg of the log is off, or this place is, or it is one from before. Look at the last legs, and read the place again.
check-taken-in = It stays a witness, not mixed in. To weigh it in, take the fix again with it among the sightings.
witness-slip-exchanged = Two figures exchanged ({ $chance })? { $meant } would lie { $distance } from the fix. Read the reference again.
witness-slip-misread = One figure misread ({ $chance })? { $meant } would lie { $distance } from the fix. Read the reference again.
witness-slip-swapped = { $counted ->
    [degrees] Latitude and longitude exchanged
   *[grid] Easting and northing swapped
 } ({ $chance })? { $meant } would lie { $distance } from the fix. { $counted ->
    [degrees] Write the latitude first.
   *[grid] Read right, then up.
 }
witness-slip-square = Other letters of the 100 km square ({ $chance })? { $meant } would lie { $distance } from the fix. Read the letters on the sheet.
witness-slip-datum = Counted on another datum ({ $chance })? On { $datum } it would lie { $distance } from the fix. Compare the receiver's datum with the sheet's margin.
witness-slip-corner = The corner of a wider square told as a point ({ $chance })? Its middle would lie { $distance } from the fix. Leave out the noughts at the end.
witness-slip-stale = A position from before ({ $chance })? It lies where you may have been, { $distance } from the fix. Wait for a new one.
witness-slip-fix-wrong = { $order ->
    [first] The fix is wrong
   *[other] Or the fix is wrong
 } ({ $chance }): the place lies { $where ->
    [line] on its line, { $distance } away
   *[open] { $distance } from it
  }. Make its sightings again.
witness-slip-of-fix = { $order ->
    [first] { $shared ->
        [yes] The readings of the fix share a slip
       *[no] { $of } was misread in the fix
      }
   *[other] { $shared ->
        [yes] Or the readings of the fix share a slip
       *[no] Or { $of } was misread in the fix
      }
 } ({ $chance }): read aright it would put you at { $meant }, { $distance } from the place. Make that reading again and take the fix anew.
witness-slip-off-line = { $order ->
    [first] You stand beside the line
   *[other] Or you stand beside the line
 } ({ $chance }): the place lies { $distance } from the fix. Look whether this is the line that you took it for.
witness-slip-other-line = { $order ->
    [first] You stand on { $line }
   *[other] Or you stand on { $line }
 } ({ $chance }): there the sightings of the fix would put you at { $meant }, { $distance } from the place. Look which line it is.
witness-slip-unknown = Most likely the place was read or told wrongly in some other way ({ $chance }): no slip that is known explains it as well. Read it again, by another landmark.
witness-slip-none = No known slip explains it. Read both again, by another landmark.
fix-sighted = { $landmark }: read { $reading }, that is { $grid }, ± { $spread } with compass, model and map in it; back bearing { $back } ({ $back-mag }).
fix-crossing = Crossing { $number }: { $reference }, { $distance } from it, cut { $cut }, ± { $spread } along the line by this bearing alone.

## The walk
kept-unsure = It is only the likeliest of { $count } places ({ $share }): what is reckoned from here holds only if it is the right one.
kept-doubted = The { $name } may stand elsewhere: the readings of its fix do not agree. Read again before you walk off, and come back by landmarks on the map.
kept-in-the-open = Here stands the { $name }: { $reference }, ± { $spread } in the longest direction (95 %). The log begins.
kept = Here stands the { $name }: { $reference }, ± { $spread } along the line (95 %). The log begins.
paces-told = { $count } double paces
double-paces = { $count } double paces ({ $metres })
single-paces = { $count } single paces ({ $metres })
leg-logged = Leg { $number }: { $bearing }, { $distance }{ $detour ->
    [left] , round to the left by { $out }
    [right] , round to the right by { $out }
   *[none] {""}
 }{ $has-met ->
    [yes] , to { $met }
   *[no] {""}
 }. Reckoned ± { $spread } from the start (95 %).
here = By reckoning you are at { $reference }, within { $major } the long way and { $minor } across (95 %).
here-home = The { $car } is { $distance } ± { $spread } away: { $magnetic }, { $grid }, ± { $off }.
here-round = By reckoning that is where the { $car } stands: the legs lead round to it.
here-at-car = You are at the { $car }: nothing is walked yet.

## The way back
way-head = Way back, the log reversed: { $legs ->
    [one] one leg
   *[other] { $legs } legs
 }, { $walk } to walk{ $longer ->
    [yes] {" "}with the detours
   *[no] {""}
 }.
way-leg = { $number }. Walk { $magnetic } ({ $grid }), { $paces } double paces ({ $metres }){ $detour ->
    [left] , going round to the left by { $out-paces } double paces ({ $out })
    [right] , going round to the right by { $out-paces } double paces ({ $out })
   *[none] {""}
 }, to { $goal ->
    [car] the { $met }
    [met] { $met }
   *[turn] the next turn
 }. By then { $total-paces } double paces, { $total }. (Leg { $of-leg } of the log.)
way-leg-goal = { $detour ->
    [left] Go round to the left by { $out-paces } double paces ({ $out }), to
    [right] Go round to the right by { $out-paces } double paces ({ $out }), to
   *[none] To
 } { $goal ->
    [car] the { $met }
    [met] { $met }
   *[turn] the next turn
 }: { $metres } in all.
way-miss = At the end look for the { $car } within ± { $miss } (95 %), ± { $along } along { $line }.
way-miss-open = At the end look for the { $car } within ± { $miss } (95 %).
way-closes = The reversed bearings close on the start to { $closes } m.
way-at-end-open = Look for the { $car } up to { $along } around here (95 %), { $paces } double paces. The log leads to the car itself.
way-at-line = At { $line }: look for the { $car } { $along } each way (95 %), { $paces } double paces. The log leads to the car itself.

## Afterwards
after-logged = { $legs ->
    [one] One leg
   *[other] { $legs } legs
 }, { $total } of log{ $longer ->
    [yes] , { $walk } with the detours
   *[no] {""}
 }; set out from the fix of { $from }, the last leg closed at { $to }.
after-closing = If you are back at the { $car }, the legs miss it by { $off } in { $total }{ $ratio ->
    [0] {""}
   *[other] , one in { $ratio }
 }. By their spread they miss it by up to { $expected } (95 %): { $verdict ->
    [fits] they close as they should
    [doubtful] doubtful, look again at the longest leg
   *[misfit] look for a leg whose bearing or count is off
 }.
after-followed = The log was followed back to its end. It leads to the { $car } within ± { $miss } (95 %); how far beside it you came out is not logged.
after-turned = The log was followed back for { $walked } of { $legs } legs.

## Cautions
norths-by-diagram = { $date } is outside the magnetic model (2020-01-01 to 2029-12-31): magnetic bearings are turned by the sheet's own diagram alone, { $wrong ->
    [yes] and it lies farther from the model than both are good for: do not turn bearings by it before its figures, signs and year have been compared with the margin
   *[no] { $old ->
        [yes] { $age } years old: do not rely on them, sight in angles, or take a bearing whose answer is known
        [future] which is printed for a later year: check the year and the date
       *[no] { $age ->
            [0] less than a year old
            [one] one year old
           *[other] { $age } years old
         }: check them by a bearing whose answer is known
     }
 }.
norths-by-nearest-day = { $date } is outside the magnetic model (2020-01-01 to 2029-12-31): what is told from magnetic north is only rough, and magnetic bearings cannot be used. Check the date; use grid or true bearings, or give the sheet its printed north diagram.
norths-of-year = { $date } is a year without a day: its middle is meant, and what the declination changes in half a year is in its ±.
norths-printed-turned = With the other sign of { $sign ->
    [angle] its angle
    [change] its yearly change
   *[both] its angle and its yearly change
 } it would agree with the model: east is positive, west is negative. As it was given it differs by { $differs }.
norths-printed-other-day = { $own ->
    [yes] In { $day }, its own year, the sheet's diagram lies
   *[no] Brought to { $day }, the day of the model nearest to its own year, the sheet's diagram lies
 } { $differs } from the model{ $wrong ->
    [beyond] , which is more than both are good for, ± { $joint } together (95 %): do not turn bearings by it before its figures, signs and year have been compared with the margin
    [yes] , and both are good to ± { $joint } together (95 %): do not turn bearings by it before its figures, signs and year have been compared with the margin
   *[no] , no more than both are good for, ± { $joint } together (95 %)
 }.
norths-printed = The sheet's diagram ({ $year }) brought to { $date } { $has-change ->
    [yes] by { $change }′ a year, east positive
   *[no] without a yearly change, as none was given; that may make up ± { $unchanged } since its year
 }: grid-magnetic angle { $angle } ± { $spread } (95 %), { $differs } from the model{ $wrong ->
    [beyond] , which is more than both are good for, ± { $joint } together (95 %): do not turn bearings by it before its figures, signs and year have been compared with the margin
    [yes] : do not turn bearings by it before its figures, signs and year have been compared with the margin
   *[no] {""}
 }{ $old ->
    [yes] . It is { $age } years old: do not rely on it
    [future] . It is printed for a later year: check the year and the date
   *[no] . It is { $age ->
        [0] less than a year
        [one] one year
       *[other] { $age } years
     } old
 }.
caution-estimate = A fix is an estimate: check it against the ground and a second method before you move. Stand clear of traffic; keep the compass 18 m from vehicles, 55 m from power lines, 10 m from wire.
caution-poor-cut = { $landmark } cuts the line at only { $cut }: the place slides far along it. Sight something nearer to square.
caution-several-places = Do not choose between { $count } places by liking. Take another sighting.
caution-misfit = { $landmark } does not fit by { $by }. Read it again, away from iron, and check which landmark it is.
caution-other-misfit = At the likeliest place { observed } does not fit{ $off ->
    [metres] {" "}by { $by }
    [degrees] {" "}by { $by }
   *[none] {""}
 }. Check what was read and what it was of.
caution-far = { $landmark } is far: the earth's curve hides its lowest { $hidden } from a level sight. Be sure that it is the one you see.
caution-weak-field = The level part of the earth's field, which turns a needle, is weak here: a compass may swing and lie. Check by another method.
caution-blackout = A compass cannot be relied on here: the magnetic pole is near. Use another method.
caution-anywhere = What was told says hardly anything about where along the line you stand: sight a landmark, or tell what is here.
caution-run-at-bend = The run of the line is told near a bend: it is weighed over 100 m of the line, and the place may lie some 50 m to either side of what is told. Read it at your feet, not towards a far point, where the line runs straight, or tell the bend.
caution-namesake = The sheet also has { $other }, { $apart } from { $landmark }: is it really { $landmark } that you sighted? If it may be either, tell both.
caution-hidden = By the heights { $landmark } should not be in sight from there: is it really this one, and do the heights hold?
caution-at-end = The limits reach an end of the line as the sheet has it: the line may go on beyond.
caution-way-back = Keep paper map and compass. Turn back in time before dark; mind water and steep ground. Lost? Stay, be seen, signal in threes. Local law, land managers and rescue services have the last word.

caution-first-bearing = Stand 18 m from vehicles, 55 m from power lines, 10 m from wire, clear of traffic.
caution-walk-back = Keep map and compass. Mind dark, water and steep ground.
caution-lost = Not found? Stay, be seen, signal in threes.

## What the phone believes
attraction-told = The phone feels { $strength } ± { $strength-spread } µT, dip { $dip } ± { $dip-spread }, as phones are usually off; the model has { $model-strength } ± { $model-strength-spread } µT, dip { $model-dip } ± { $model-dip-spread } (all ± 95 %): { $verdict ->
    [clean] within these spreads they agree (odds that metal or a current is near: { $share })
    [doubtful] metal or a current may be near (odds { $share })
   *[attracted] metal or a current is near (odds { $share })
 }.
attraction-heading = The phone's top edge points to { $heading }.
attraction-no-heading = The phone is not held flat enough to tell where its top edge points.
attraction-units = No place on earth has such a field: is it in microtesla, with x right, y to the top edge and z out of the screen?
attraction-axes = With the vertical turned round the reading would agree: check that the vertical points away from the ground and the axes are x right, y to the top edge, z out of the screen.
attraction-step = Metal may turn your needle: read 18 m from vehicles, 55 m from power lines, 10 m from wire.
attraction-clean = Agreement is no proof: iron close by can still turn the needle. Keep 18 m from vehicles, 55 m from power lines, 10 m from wire.
attraction-vertical = Give the vertical once: up points away from the ground, down towards it.
attraction-moved = The vertical is { $length } long, and gravity is 9.8 m/s²: the phone was moved, or another unit is meant. Hold it still and read again.
attraction-unreadable = The field (microtesla) and the vertical (any unit) need three numbers each, not all nothing: x right, y to the top edge, z out of the screen. Hold the phone still and read again.
place-missing = The place is missing. Give a grid reference, or latitude and longitude.
witness-told = The phone says { $reference }, ± { $spread } (95 %, its own claim), { $age }{ $verdict ->
    [none] {""}
    [fits] : { $distance } from the fix on { $bearing }, it fits
    [doubtful] : { $distance } from the fix on { $bearing }, doubtful
   *[misfit] : { $distance } from the fix on { $bearing }, it does not fit
 }. A witness, not the judge.
witness-stale = That place is old: it may be where you were. Wait for a new one.

## Desk
carried = Sheet { $name }: { $lines ->
    [one] one line
   *[other] { $lines } lines
 }, { $landmarks ->
    [one] one landmark
   *[other] { $landmarks } landmarks
 }, grid { $grid }. A trip is open on it.
pace-set = Pace { $count } double paces to 100 m, ± { $spread } double paces (95 %).{ $has-legs ->
    [yes] {" "}The legs already counted in paces are reckoned with it too.
   *[no] {""}
 }
undo-what = { $what ->
    [pace] pace
    [compass] compass check
    [fix] fix
    [check] check
    [keep] place of the car
    [leg] leg
    [turn-round] turning back
    [reached] leg back
    [close] end of trip
   *[other] last entry
 }
undone = Struck: { $what ->
    [pace] the pace
    [compass] the compass check
    [fix] the last fix
    [check] the check
    [keep] the place of the car
    [leg] the last leg
    [turn-round] the turning back
    [reached] the end of a leg back
    [close] the end of the trip
   *[other] the last entry
 }. It stays in the logbook, struck through.
closed = The trip is closed and kept in the logbook.
norths-told = Declination { $declination } ± { $spread } (95 %), convergence of { $grid } { $convergence }: grid-magnetic angle { $angle }; east is positive.{ $field ->
    [no] {""}
   *[yes] {" "}The field points { $dip } ± { $dip-spread } { $field ->
        [above] above
       *[below] below
     } the horizon; its level part is { $horizontal } ± { $horizontal-spread }{"\u00A0"}nT, the whole { $total } ± { $total-spread }{"\u00A0"}nT (95 %, { $model }).
 }
light-told = { $sun ->
    [touches] The sun touches the horizon about { $touches }: too flat to tell to the minute when it { $then ->
        [rises] rises
       *[sets] sets
     }, or whether it does
    [sets] Sunset { $sunset }{ $sure ->
        [yes] , ± { $half } min (95 %)
       *[no] , but the sun grazes the horizon: it may set much earlier or later, or not at all
     }
    [up] The sun stays up for a day
    [rises] The sun is down and rises { $sunrise }
    [shows] The sun is below the level, but by the heights of the sheet it still shows here; over the level it rises { $sunrise }
   *[down] The sun stays down for a day
 }; { $civil ->
    [darkens] dark for walking { $dark } (end of civil twilight)
    [light] it does not get dark for walking within a day
    [dawns] it is dark, light for walking { $dawn } (beginning of civil twilight)
   *[dark] it is dark and stays dark for a day
 }; by { $zone } to the nearest minute, and on a level horizon{ $ground ->
    [yes] {""}
   *[no] : hills shorten the day, a summit lengthens it
 }.
light-over-ground = { $bound ->
    [no] By the heights of the sheet
   *[yes] By the heights there are
 } the sun goes behind the ground { $time }{ $sure ->
    [yes] , ± { $half } min (95 %){ $bound ->
        [no] {""}
       *[yes] , at the latest
     }, and sooner behind a rise within 100{"\u00A0"}m of you, trees or houses
   *[no] , but for all that the heights tell it only grazes the ground: it may go much earlier or later, or not at all
 }: { $side ->
    [above] the ground stands { $horizon } high there
    [below] the horizon lies { $horizon } below the level there
   *[level] the horizon is level there
 }, on { $bearing }. The heights reach { $reach } that way{ $gap ->
    [yes] {" "}and have a gap
   *[no] {""}
 }{ $far ->
    [yes] ; ground { $hill } higher than you could hide the sun sooner from as far as { $enough }. Bring in heights that reach farther: an import with the borders of a wider area (at the desk --area)
   *[no] {""}
 }{ $near ->
    [yes] . The ground about you is rough, and the posts of the heights do not show all of it: what rises nearer than { $step } could hide the sun sooner. Look for yourself, or bring in finer heights
   *[no] {""}
 }.
light-height-of-sheet = Your height of { $typed } is not used: by the heights of the sheet this place lies { $height } high, and the sun is reckoned from there.
light-gap = { $bound ->
    [yes] at least{" "}
   *[no] {""}
 }{ $ends ->
    [from] from { $from } on
    [until] until { $to }
   *[both] { $from } to { $to }
 }
light-gap-and = { $all } and { $next }
light-gaps-before = Before that the ground hides the sun { $gaps }.
light-gaps = By the heights of the sheet the ground hides the sun { $gaps }.
light-over-day = By the heights of the sheet the sun stays over the ground for a day.
light-behind-day = By the heights of the sheet the sun is behind the ground for a day.
light-behind-ground = By the heights of the sheet the sun is behind the ground already.
day-over-ground = { $date } over the ground: { $shows ->
    [no] no sun
    [long] the sun is hidden { $gaps }
   *[between] { $rises ->
        [yes] sun from { $sunrise }
        [bound] sun from { $sunrise } at the earliest
       *[no] sun
     }{ $sets ->
        [yes] , until { $sunset }
        [bound] , until { $sunset } at the latest
       *[no] {""}
     }{ $hidden ->
        [yes] , hidden { $gaps }
       *[no] {""}
     }
 }.
light-off-heights = The heights of the sheet do not hold this place: nothing is told of hills that hide the sun. Bring in heights that reach it.
light-ground-caution = { $sure ->
    [none] Ground
    [yes] Times over the ground are good to ± { $half } min (95 %) by the heights, but ground
   *[no] Times over the ground may be off by hours, as for all that the heights tell the sun only grazes it, and ground
 } beyond the heights, a rise within 100{"\u00A0"}m of you, trees and houses let the sun come later and go earlier.
place-zone-edge = { $what ->
    [square] The square lies on a zone's edge: its middle belongs to { $zone ->
        [UPS] the polar area
       *[other] zone { $zone }
     }. It is
   *[coordinates] These coordinates lie on the edge of { $typed ->
        [UPS] the polar area
       *[other] zone { $typed }
     } and belong to { $zone ->
        [UPS] the polar area
       *[other] zone { $zone }
     }. They are
 } told by { $grid }.
place-zone-beyond = { $what ->
    [square] This square lies
   *[coordinates] These coordinates lie
 } { $far } beyond { $typed ->
    [UPS] the polar area
   *[other] zone { $typed }
 }, in { $zone ->
    [UPS] the polar area
   *[other] zone { $zone }
 }. { $what ->
    [square] It is
   *[coordinates] They are
 } told by { $grid }. Check the zone and the figures.
place-told = { $reference } is lat { $lat }°, lon { $lon }° ({ $wide ->
    [yes] WGS 84
   *[no] { $dms }, WGS 84
 }); { $grid }: { $first } { $first-side ->
    [west] west
    [south] south
    [north] north
   *[east] east
 }, { $second } { $second-side ->
    [west] west
    [south] south
    [north] north
   *[east] east
 }{ $unit ->
    [metre] {""}
   *[other] {" "}by the { $unit }
 }{ $beside ->
    [own] , reference { $own }
    [zone] ; in its own zone { $own }
   *[none] {""}
 }.
place-square = It is a square of { $side }: its middle is told, off by at most { $half } to east and to north.
place-stated = The uncertainty of { $stated } that the link states is taken as one sigma to east or west and to north or south: how often it holds the link does not say.
place-named = { $name } stands on the sheet, which knows it to ± { $spread } (95 %).
place-order = The first number is taken for the easting, as maps print it. The register of { $grid } has the northing first: if that is how these were written, exchange them, and the place is { $other }, { $far } from here.
place-half = The { $letter } behind the zone of "{ $typed }" is read as the { $letter ->
    [N] northern
   *[other] southern
 } half of the earth, as its northing does not lie in the latitude band { $letter }. If a band was meant, check the northing and the letter.
place-step = As it was written it may be off by up to { $half } to east or west and to north or south: its last figure is worth { $side }.
reference-other-datum = A reference with a zone counts on WGS 84. Off a map of { $grid }, whose numbers lie { $off } from those here, it would mean another place: { $form ->
    [lettered] write that map's own two letters and figures, or its easting and northing
    [zone] leave its zone out, or give that map's own easting and northing
   *[own] give that map's own easting and northing
 }.
place-outside-zone = This place lies { $far } outside { $grid }, farther than maps are counted on in one zone: check the grid and every figure.
place-square-without-land = No land that { $grid } is made for lies in its square { $square }: check the letters and every figure.
place-beyond-letters = This place lies beyond the squares of { $grid } that have letters: its two numbers are told.
place-outside-area = This place lies { $far } outside the area that { $grid } is made for: check every figure, and the grid. How good its numbers are there nobody states.
place-far-from-meridian = This place lies { $far } from the middle meridian of { $grid }, farther than maps are counted on from one: check every figure of the easting, and the grid.
place-stretched = Here lengths of { $grid } are { $share } too { $side ->
    [short] short
   *[long] long
 }: maps of this place are not measured in it. Check every figure, and the grid.
place-far-from-sheet = "{ $typed }" lies { $far } from everything on the sheet: { $part ->
    [figures] its { $number ->
        [west] westing
        [south] southing
        [north] northing
       *[east] easting
     } has { $figures } figures, on the sheet it has { $usual }.
    [both-figures] count the figures of both its numbers.
    [zone] its zone is not that of the sheet.
    [half] check north and south.
    [letters] check its square letters.
    [number] check the figures of its { $number ->
        [west] westing
        [south] southing
        [north] northing
       *[east] easting
     }.
    [latitude] check its latitude.
    [longitude] check its longitude.
   *[all] check every figure.
 }
place-five-and-five = "{ $typed }" is read as the reference { $reference }, to the metre, off the sheet. If coordinates were meant, its { $part ->
    [easting] easting
   *[northing] northing
 } lacks a figure: on the sheet it has six.
place-other-square = "{ $typed }" is read as { $reference }, in another 100 km square than those of the sheet, as it lies nearest there. If that is wrong, write its square letters.
place-old-letters = { $old } is the square as maps of { $grid } letter it; its figures are read on their datum. On WGS 84 the square of these figures is { $new }.
sheet-old-letters = Old maps of { $grid } letter the squares of MGRS otherwise than WGS 84 does: { $old } here where that has { $new }. Both are read; figures without letters need neither.
place-few-figures = The { $number ->
    [west] westing
    [south] southing
    [north] northing
   *[east] easting
 } of "{ $typed }" has { $figures } figures, which is right only near the edge of { $grid }: in its middle it has { $usual }. If one was lost the place is far off: compare it with the map.
datum-shift-told = { $grid } counts on another datum than WGS 84, and the shift between them is good to { $accuracy }{ $has-area ->
    [no] {""}
   *[yes] {" "}within { $area }; beside that nobody states it
 }. Compare a place that you know with the map.
datum-shift-disputed = Two shifts between WGS 84 and the datum of { $grid } may hold at this place and lead { $apart } apart: places may be off by { $accuracy }. The one used { $has-area ->
    [no] is good to { $stated }
   *[yes] is good to { $stated } within { $area }
 }, as its publisher states; the other is made for { $other }. In which of them this place lies is not known here: compare a place that you know with the map.
datum-shift-not-stated = The shift between WGS 84 and the datum of { $grid } { $has-area ->
    [no] is registered
   *[yes] is registered for { $area }
 } without a figure of what it is good to: places may be off by tens of metres or more. Compare a place that you know with the map.
datum-shift-borrowed = No shift between WGS 84 and the datum of { $grid } is made for this place: the one used is made for { $area }. How good it is here nobody states: check the grid, and compare a place that you know with the map.
datum-shift-file = The file { $files }, by which { $grid } shifts its datum, is not in this program, and its definition goes on without: latitudes and longitudes are taken for those of WGS 84, and places may be off by hundreds of metres. Give the grid's EPSG number, whose shift states what it is good to, or +towgs84= in place of +nadgrids=.
datum-not-named = The definition of { $grid } names an ellipsoid and no datum: its latitudes and longitudes are taken for those of WGS 84, which may be some metres off.
datum-shift-of-definition = The shift between WGS 84 and the datum of { $grid } is the one in its definition; how good it is nobody states.
between-same = Both ends are the same place as written, ± { $spread } (95 %): no bearing leads from one to the other.
between-spread = Both places as written: ± { $distance } in distance and ± { $bearing } in bearing (95 %).
between-magnetic = The magnetic bearing is also off by what { $by ->
    [model] the World Magnetic Model
   *[diagram] the sheet's diagram brought to that date
 } is: ± { $spread } (95 %).
between-too-near = The places as written are good to ± { $spread } (95 %) and lie { $distance } apart: no bearing can be told from one to the other. Give more digits.
between-undetermined = { $distance } to the other side of the earth: no bearing is determined. For all that is known of the two places, ways that leave on { $one } and on { $other } are equally short.
between-antipodes = The far place lies { $apart } from the point opposite on the earth: about there a bearing turns fast with the places. Turned by 1° the way ends { $off } away.
between-pole = One end is at a pole: bearings there change from step to step. Count them from a grid.
between-told = { $distance } on { $true }, { $grid } ({ $named }){ $has-magnetic ->
    [yes] , { $magnetic }
   *[no] {""}
 }; back { $back }.
sun-told = The sun stands on { $azimuth }, { $elevation } { $side ->
    [below] below
   *[above] above
 } a level horizon (± { $half }, air { $air ->
    [given] as given
   *[usual] as usual
 }).
sun-pole = At a pole every direction is one: this bearing counts from the meridian that was given.
day-told = { $date }{ $zone ->
    [UTC] {" "}of the place, times
   *[other] {""}
 } by { $zone }: { $polar ->
    [day] the sun stays up all day
    [night] the sun stays down all day
   *[none] { $noon ->
        [touches] the sun touches the horizon about { $sunset }, too flat to tell to the minute or whether it rises
        [both] the sun touches the horizon about { $sunrise } and { $sunset }, too flat to tell to the minute or whether it sets
       *[above] { $has-sunrise ->
            [yes] sunrise { $sunrise }
            [touches] the sun touches the horizon about { $sunrise }, too flat to tell to the minute or whether it rises
           *[no] no sunrise
         }, { $has-sunset ->
            [yes] sunset { $sunset }
            [touches] the sun touches the horizon about { $sunset }, too flat to tell to the minute or whether it sets
           *[no] no sunset
         }
     }
 }; { $civil-polar ->
    [day] civil twilight does not end
    [night] no civil twilight, the sun stays more than 6° down
   *[none] civil twilight { $has-civil ->
        [yes] from { $dawn }
       *[no] has no beginning
     } { $has-dusk ->
        [yes] to { $dusk }
       *[no] and no end
     }
 }; { $nautical-polar ->
    [day] nautical twilight does not end
    [night] no nautical twilight, the sun stays more than 12° down
   *[none] nautical { $has-nautical-dawn ->
        [yes] from { $nautical-dawn }
       *[no] has no beginning
     } { $has-nautical-dusk ->
        [yes] to { $nautical-dusk }
       *[no] and no end
     }
 }.
mean-told = Mean of { $count } readings: { $bearing } ± { $spread } (95 %). { $agree ->
    [yes] All read the same; what they share is not in it.
   *[no] One reading strays { $one } (one sigma); number { $which } lies { $widest } off.
 }
mean-wild = { $wild ->
    [one] Number { $which } stands out of the others, which agree: read it again. Without it the
   *[other] Numbers { $which } stand out of the others, which agree: read them again. Without them the
 } mean of { $count } readings is { $bearing } ± { $spread } (95 %).
mean-reversed = Number { $which }, { $read }, points the other way and is left out: the wrong end of the needle? Read it again.
compass-told = This compass reads { $error } too { $side ->
    [low] low
   *[high] high
 }, ± { $spread } (95 %{ $by ->
    [declination] , with what the declination may be off
   *[readings] {""}
 }), from { $count ->
    [one] one known bearing
   *[other] { $count } known bearings
 }. Any one reading by itself strays by ± { $reading } (95 %) about that.
compass-station = Station { $station }: { $verdict ->
    [clean] free of local attraction of { $worth } or more as far as the readings tell
    [attracted] iron or a current turns the needle here (odds { $share })
   *[unknown] whether iron turns the needle here is not to be told (odds { $share }); read more lines from it
 }{ $side ->
    [untold] . By how much is not to be told
   *[told] . { $verdict ->
        [unknown] If it does, it reads
       *[known] It reads
     } { $attraction } ± { $spread } (95 %) too { $side ->
        [low] low
       *[high] high
     }
 }.
compass-leg = The line from { $from } to { $to }: its fore and its reversed back bearing differ by { $closure }, { $agrees ->
    [yes] no more than such readings scatter
   *[no] more than such readings scatter
 }. { $verdict ->
    [clean] No iron turns the needle by { $worth } or more at one end alone; what turns it alike at both does not show.
   *[unknown] Whether iron turns the needle at one of its ends (odds { $share } for each), and at which, is not to be told: read more lines from both.
 }
compass-taken-off = Your compass was checked: it reads { $error } ± { $spread } (95 %) too { $side ->
    [low] low
   *[high] high
 }, and that is taken off. What the declination may be off is counted beside it.
compass-by-grid = Bearings with grid count from grid north of { $grid }, { $convergence } { $side } of true north there.
turn-compass-kept = Your { $instrument } compass, as it was checked, reads { $error } ± { $spread } (95 %) too { $side ->
    [low] low
   *[high] high
 }, which is not in this: { $way ->
    [from] with it taken off what was read this is { $other }
   *[to] set { $other } on that one
 }.
compass-kept = Kept: from now on this error is taken off what you read with the { $instrument } compass.
compass-kept-wide = The error is known to ± { $spread } (95 %) only, less surely than that of a { $instrument } compass which was never checked (± { $unchecked }): read more known bearings and keep again.
compass-wide-not-kept = No error is kept: { $error } ± { $spread } (95 %) says less of this compass than what a { $instrument } compass is off unchecked (± { $unchecked }), and taking it off would make later bearings worse. Read more known bearings, away from iron, and check each that strays.
compass-sun-down = The sun could not be sighted at { $time }: it stood { $below } below the horizon there. Check the time, its zone and the place.
compass-sun-no-bearing = The sun of { $time } tells no compass error: { $why ->
    [high] it stood { $height } high, where a sight held aslant by one degree turns its bearing by { $aslant }. Sight it when it stands low.
   *[watch] what the watch and the place may be off moves its bearing by ± { $half } (95 %). Take the time to the second, the place from the map, and sight it when it stands low.
 }
compass-error-implausible = { $error } is no error that a sound compass has{ $kind ->
    [reversed] : it looks as if the wrong end of the needle was read
   *[wrong] : the place, the time or the point sighted may be another
 }. Read again.
compass-error-unusual = { $error } is much for a compass{ $kind ->
    [declination] , and as much as the declination here: is it set on the compass, or set the wrong way? Set it to 0 and read again
   *[other] : look for iron and currents near, a declination set on it, a wrong point sighted. Read again elsewhere
 } before you keep it.
compass-error-not-kept = { $error } is no error that a sound compass has{ $kind ->
    [reversed] : it looks as if the wrong end of the needle was read
   *[wrong] : the place, the time or the point sighted may be another
 }. It was not kept; read again.
compass-blackout-not-kept = No error can be kept here: the magnetic pole is near and the needle cannot be relied on. Check the compass elsewhere.
compass-nothing-to-keep = No error can be kept: no reading has a known answer. Sight a point whose bearing is known.
compass-known-needed = A reading needs its answer: the known bearing, a point sighted, or the time when the sun was sighted. Give one.
compass-place-needed = A point is sighted from a place that is known without this compass; a fix came from it. Give the place where you stand.
compass-points-too-near = The sighted point is too near for its grid reference. Sight one farther off, or give more digits.
compass-read-not-magnetic = "{ $name }" is no compass reading: it counts from magnetic north. Write mag.
compass-no-readings = There are no readings. Give a bearing whose answer is known, or a line read from both ends.
compass-no-known-bearing = No reading has a known answer: what the compass itself reads wrong stays unknown.
compass-one-known-bearing = One known bearing alone: the compass and this one reading cannot be told apart. Read another.
compass-known-where-attracted = Known bearings were read only where iron turns the needle. Read one elsewhere.
compass-strays = The readings contradict each other: one strays ± { $spread } where such a compass usually strays ± { $usual } (95 %): iron is near, or one was read wrongly. Read again elsewhere.
compass-wild = { $wild ->
    [one] Known reading { $which } lies { $off } from what the others agree on: iron near, or read wrongly? Without it this compass
   *[other] Known readings { $which } stand out, the first by { $off }, of what the others agree on: iron near, or read wrongly? Without them this compass
 } reads { $error } too { $side ->
    [low] low
   *[high] high
 }, ± { $spread } (95 %). Read again what stands out.
compass-wild-not-kept = { $wild ->
    [one] Known reading { $which } lies { $off } from what the others agree on: it would bend the error. Leave it out (then { $error } too { $side ->
        [low] low
       *[high] high
     }), or read it again.
   *[other] Known readings { $which } stand out of what the others agree on: they would bend the error. Leave them out (then { $error } too { $side ->
        [low] low
       *[high] high
     }), or read them again.
 } Nothing was kept.
compass-sun-high = { $suns ->
    [one] The sun
   *[other] The hardest of { $suns } suns to sight, that
 } at { $time } stood { $height } high and its bearing went on by { $rate } a minute: { $runs ->
    [yes] the watch must be right, and a sight held aslant turns it too
   *[no] a sight held aslant turns it
 }. Sight the sun when it stands low.
compass-sun-time = By a clock { $hours } h { $side ->
    [earlier] earlier
   *[later] later
 } the error would be { $error }: is the time of the sun right, its zone, and summer time?
compass-sun-hour = Here the sun's bearing goes on by about { $rate } an hour: a wrong time, zone or date would look like such an error.
compass-reversed = Known reading { $which } points the other way and is left out: the wrong end of the needle? Read it again.
compass-scattered = The known readings do not point one way: something was read wrongly. Read again.
compass-one-station = All known bearings were read at station { $station }: iron there would look like an error of the compass. Read some elsewhere.
compass-line-contradicts = { $turned ->
    [yes] Fore and back bearing of the line from { $from } to { $to } are nearly the same: was the back bearing turned round already, or the wrong end of the needle read? Tell it as it was read, or read it again.
   *[no] The bearings of the line from { $from } to { $to } contradict each other or the rest. Read it again from both ends; a back bearing is told as it was read, not turned round.
 }
compass-number-unusable = A spread must lie between 0 and 90 degrees. Check the numbers.
compass-line-unusable = A line needs two stations with different names, not "{ $station }" alone.
compass-too-many-stations = There are more than 100 stations or lines. Check a part of them.
mean-too-few = A mean needs two readings or more.
mean-mixed-norths = The readings count from different norths. Turn them to one first.
mean-no-direction = The readings lie so far apart for their number that no mean can be told. Read again, and more than two.
sun-time-outside = The sun is reckoned for the years { $first } to { $last } (from the calendar's first whole year to where NASA's estimate of the earth's rotation ends). Check the date.
sun-height-outside = The height must lie between -1000 m and 100 km. Check it.
light-air-thin = { $pressure } hPa is the air of no mountain, and the sun is reckoned through it as it was told{ $inches ->
    [yes] . Is it inches of mercury? Those are { $meant } hPa: give that
   *[no] : give the pressure at the place in hectopascal, about 1013 at the sea
 }.
sun-air-outside = The air cannot be so: the pressure must be above 0 and at most 2000 hPa, the temperature from -100 to 100 °C. Check it.
turn-told = { $from } is { $bearing }{ $sure ->
    [whole] , ± { $spread } (95 %)
    [turning] , ± { $spread } (95 %) by the angles between the norths; how well it was read is not in that
    [unknown] {" "}(how far it may be off is not told: the spread of an angle that was given is not known)
   *[none] {""}
 }; its back bearing is { $back }{ $has-angle ->
    [yes] {" "}(grid-magnetic angle { $angle }, east positive)
   *[no] {""}
 }.
turn-by-place = By the declination there, { $declination } ± { $spread } (95 %; east positive), on { $date }.
turn-by-grid = Grid north of { $grid } lies { $convergence } { $side } of true north there.
turn-spread-alone = A spread of the { $angle ->
    [declination] declination was given, but no declination
   *[convergence] convergence was given, but no convergence
 }: give both in degrees, or leave the spread out.
turn-diagram-needed = From { $from } to { $to } north the { $lacking ->
    [both] declination and the convergence are
    [declination] declination is
   *[convergence] convergence is
 } needed: give { $lacking ->
    [both] both in degrees, or the place and the date
    [declination] it in degrees, or the place and the date
   *[convergence] it in degrees, or the place
 }.
reckon-told = { $legs ->
    [one] One leg
   *[other] { $legs } legs
 }, { $walked } walked: { $direct } on { $bearing } from the start, ± { $spread } (95 %).
reckon-closed = { $legs ->
    [one] One leg
   *[other] { $legs } legs
 }, { $walked } walked: they lead back to the start, ± { $spread } (95 %).

## Refusals: what is wrong, where, and what to do
record-unreadable = This record cannot be read: { $json ->
    [no] it is not one of JSON, such as {"{"}"do":"where"{"}"} on one line ({ $detail })
   *[yes] { $detail }
 }. Nothing was changed.
time-missing = The record lacks its time. Add "at", such as "2026-07-01T09:30:00Z".
bearing-out-of-range = The bearing "{ $typed }" is not between 0 and 360 degrees. Read it again; the circle has 6400 mil or 400 gon.
bearing-comma = The bearing "{ $typed }" has a comma. Write decimals with a point, such as "214.5 mag".
bearing-quarter = The bearing "{ $typed }" goes beyond its quarter: from N or S at most 90 degrees towards E or W.
bearing-minutes = The bearing "{ $typed }" has minutes or seconds of 60 or more. Read it again.
bearing-blank = The bearing "{ $typed }" may be { $joined } or degrees and minutes parted by a blank. Write it without the blank, or with its marks, such as 12°05' mag.
bearing-unreadable = The bearing "{ $typed }" cannot be read{ $part ->
    [north] : "{ $odd }" is no north, that is mag, grid or true
    [unit] : "{ $odd }" is no unit, that is mil, gon or deg
    [letter] : "{ $odd }" may be a unit or a north; write °{ $odd }, or the north in full: mag, grid or true
    [other-north] : it names two norths
    [character] : its "{ $odd }" does not belong in figures
    [figures] : it has no figures
    [first] : "{ $odd }" must stand behind the figures
    [behind] : one north stands behind the figures, and nothing behind it
    [quarter] : a bearing in quarters begins with N or S and ends with E or W
    [quarter-unit] : a bearing in quarters counts degrees; leave "{ $odd }" out, or write the whole bearing in it
    [blanks] : its figures do not make one number
    [range] : it has two numbers; type one reading, or take the mean of both first
   *[other] {""}
 }. Write the figures and the north, such as "214 mag", "3200 mil mag", "S36E grid".
bearing-without-north = The bearing "{ $typed }" lacks its north. Add mag, grid or true, such as "214 mag".
unit-unknown = "{ $name }" is no unit of bearings. Write deg, mil, gon or quadrant.
printed-norths-unreadable = The printed north diagram cannot be: { $figure ->
    [angle] { $typed }° is no angle between norths: they lie at most 180° apart. Give it in degrees, east positive
    [year] { $typed } is not the year of a map, 1800 to 2100
    [change] its change of { $typed } minutes a year is more than 120, and no declination moves so fast where maps are used. Give minutes of arc, east positive
   *[both] give its declination or its grid-magnetic angle in degrees, one of the two
 }.
north-unknown = "{ $name }" is no north. Write mag, grid or true.
part-short = { $part ->
    [part-no-comma] no comma between latitude and longitude
    [part-commas] more than one comma
    [part-comma-in-reference] a comma in a grid reference
    [part-one-figure] minutes or seconds of one figure
    [part-square-missing] the two square letters are missing
    [part-letter-missing] two letters behind the zone where three belong
    [part-coordinates-alone] the zone is missing before easting and northing
    [part-unit] a unit behind its numbers
    [part-power-of-ten] a power of ten
    [part-thousands] commas part thousands
    [part-zone-behind] its zone or letters stand behind its figures
    [part-zone-order] a letter before the zone
    [part-half-word] no north, south or band behind the zone
    [part-word-beside] a word beside easting and northing
    [part-axis-letters] other letters than E and N
    [part-one-number] one number alone
    [part-beside-angles] more than latitude and longitude
    [part-sign-beside-letter] a sign with one angle, a letter with the other
    [part-angle-unit] no degrees
    [part-marks] marks of degrees, minutes and seconds out of order
    [part-decimals-inside] decimals before the last of degrees, minutes and seconds
    [part-run-together] degrees and minutes run together in unlike figures
    [part-hemisphere] N or S and E or W, one each
    [part-one-angle] one angle alone
    [part-sign-and-letter] a minus and a letter
    [part-two-squares] square letters missing: { $one } or { $other }
    [part-half-or-band] S may be the southern half or a band
    [part-easting] easting out of range
    [part-northing] northing out of range
    [part-swapped] its two numbers look exchanged
    [part-signs] a minus too many or too few
    [part-band-northing] northing and latitude band do not fit
    [part-grid] no such grid
    [part-square-a] after A no such square letters
    [part-square-b] after B no such square letters
    [part-square-y] after Y no such square letters
    [part-square-z] after Z no such square letters
    [part-ups-square] square letters out of the polar area
    [part-ups-area] out of the polar area
    [part-ups-half] letter and easting name different halves
    [part-point] a point among the figures
    [part-look-alike] "{ $character }" of another alphabet
    [part-look-alike-figure] "{ $character }" among the figures
    [part-half-letter] no N or S, E or W
    [part-latitude-beyond] latitude beyond 90°
    [part-latitude-longitude-beyond] latitude beyond 90°
    [part-longitude-beyond] longitude beyond 180°
    [part-letter-alone] one letter alone
    [part-latitude-no-figures] no figures before the comma
    [part-longitude-no-figures] no figures behind the comma
    [part-latitude] no latitude
    [part-longitude] no longitude
    [part-empty] empty
    [part-no-digits] no digits
    [part-too-many-digits] more than ten digits
    [part-odd-digits] an odd number of digits
    [part-unequal-groups] easting and northing of different length
    [part-no-zone] no zone and square letters, and the sheet has no "beginning"
    [part-zone] no zone from 1 to 60
    [part-band] no such latitude band
    [part-column-1] a first square letter that is none of A to H
    [part-column-2] a first square letter that is none of J to R without O
    [part-column-3] a first square letter that is none of S to Z
    [part-row] a second square letter that is none of A to V without I and O
    [part-square] no such square in this grid
    [part-square-band] square and band do not fit
    [part-outside-grid] outside the grid
    [part-few-figures] numbers with too few figures
    [part-grid-unreckoned] a grid that PROJ cannot reckon in
    [part-zone-svalbard] zones 32, 34 and 36 do not exist in band X
    [part-no-half] north, south or a band is missing after the zone
    [part-no-figures] no figures
    [part-metres-as-degrees] no degrees; easting and northing need their zone or grid
    [part-beginning] the "beginning" is no zone, band and two square letters
    [part-beginning-short] the "beginning" lacks its square letters
    [part-beginning-beside-grid] the "beginning" is none of the grid named: leave it out, or write it before the digits
    [part-ambiguous] latitude and longitude, or a short reference
    [part-two-points] a number with two points
    [part-half] no length behind ±
    [part-half-beside-zone] a length behind ±
    [part-grouped] figures in three groups or more
    [part-no-pole] north or south is missing after UPS
    [part-letters-not-here] no square about here has its two letters
    [part-zone-missing] the zone is missing before the square letters
    [part-web-link] an address of the web
    [part-geo] no latitude and longitude in the link
    [part-geo-system] the link counts in another system than wgs84
    [part-geo-uncertainty] the uncertainty of the link is no number
    [part-geo-search] the link holds a search
    [part-characters] "{ $character }" does not belong there
   *[part-letters] letters among the figures
 }
reference-unreadable = The place "{ $typed }" cannot be read: { $part ->
    [part-no-comma] numbers with a point or a sign are latitude and longitude: a comma must stand between them, or N or S, E or W behind them
    [part-comma-in-reference] no comma stands in a grid reference or between its letters and figures: write a blank there
    [part-one-figure] its minutes or seconds have one figure where two belong: write 45 06, or 45.1 for decimals
    [part-square-missing] the two square letters between zone and figures are missing
    [part-letter-missing] behind its zone stand two letters where three belong: the band and the two square letters
    [part-coordinates-alone] these look like easting and northing, whose zone or grid is missing: write zone and band before them, or name the grid
    [part-datum] the name of a datum or a grid stands in it: leave that out. Latitude and longitude count here on WGS 84, or ETRS89, which is the same within a metre; off a map of another datum or grid write its easting and northing alone, and give the grid apart (at the desk --grid, such as EPSG:2056)
    [part-metres-run-together] easting and northing run together: write them as two numbers
    [part-digits-or-angles] two numbers may be latitude and longitude, which need a comma between them or N or S, E or W behind them, or the digits of a reference, which need equally many and zone and square letters before them
    [part-many-figures] an angle has more than three numbers: degrees, minutes and seconds are the most
    [part-no-degrees] its degrees are missing: write them before the minutes, 0° where there are none
    [part-unit] a unit stands behind its numbers: write them alone and in full, in the unit of the grid, metres for a zone of UTM; that grid or zone must be named
    [part-power-of-ten] a number is written as a power of ten: write its figures in full
    [part-thousands] commas part the thousands of its numbers: write each without them
    [part-zone-behind] its zone or square letters stand behind its figures: they belong before them
    [part-zone-order] a letter stands before its zone: first comes the zone, then the band, then the two square letters
    [part-half-word] between its zone and its numbers belong north, south or the letter of a band, and nothing else
    [part-word-beside] beside its easting and northing stands a word or a letter that is not read there: write the two numbers alone, and name the grid apart
    [part-axis-letters] the letters with its numbers are not those of easting and northing: write E and N, or the numbers alone
    [part-one-number] one number stands alone: easting and northing are needed
    [part-beside-angles] more stands in it than latitude and longitude, such as a height or a zone: write the two angles alone
    [part-sign-beside-letter] one angle has a sign and the other a letter: write N or S and E or W with both, or signs and a comma between them
    [part-angle-unit] latitude and longitude are counted in degrees, and another unit stands in it: turn them into degrees
    [part-marks] its marks do not stand in the order ° for degrees, ' for minutes, " for seconds: write them so, or blanks between the figures
    [part-decimals-inside] a point stands before the last of its degrees, minutes and seconds: only the last of them has decimals
    [part-run-together] its degrees and minutes run together and may be parted in more than one way: write two figures for degrees of latitude, three for those of longitude and two for minutes, or blanks between them
    [part-commas] one comma stands between latitude and longitude; write decimals with a point
    [part-hemisphere] latitude needs N or S, longitude E or W, one each
    [part-one-angle] it has one angle: latitude and longitude are needed
    [part-sign-and-letter] an angle has a minus or its letter, not both
    [part-half-or-band] S may be the southern half or the band S: write south, or give latitude and longitude
    [part-easting] the easting is out of the zone's range
    [part-northing] the northing is out of the range of that half
    [part-swapped] its two numbers look exchanged
    [part-signs] its signs look wrong: with a minus put before a number, or taken away, it lies in the grid
    [part-band-northing] the northing does not lie in that latitude band
    [part-grid] the sheet's grid is not known
    [part-square-a] after A the first square letter is one of J K L P Q R S T U X Y Z and the second none of I and O
    [part-square-b] after B the first square letter is one of A B C F G H J K L P Q R and the second none of I and O
    [part-square-y] after Y the first square letter is one of R S T U X Y Z and the second one of A to P without I and O
    [part-square-z] after Z the first square letter is one of A B C F G H J and the second one of A to P without I and O
    [part-ups-square] its two square letters lead out of the polar area, which begins at 84° N and 80° S: check them, or write the zone
    [part-ups-area] it lies out of the polar area, which begins at 84° N and 80° S: check the figures, or write the zone
    [part-ups-half] its letter and its easting name different halves of the polar area: A and Y are the half up to 2000000 east, B and Z the half from there on
    [part-point] a point stands among its figures: a grid reference has whole figures alone, and no point parts thousands
    [part-look-alike] its "{ $character }" is of another alphabet and only looks like { $meant }: type the Latin letter
    [part-look-alike-figure] among its figures stands "{ $character }": write the figure { $meant }, if that was meant
    [part-half-letter] latitude needs N or S and longitude E or W: O, which is east in one language and west in another, and words are not read
    [part-latitude-beyond] its latitude, the first angle, is beyond 90°; the longitude comes second, up to 180°
    [part-latitude-longitude-beyond] its latitude, the first angle, is beyond 90°; latitude and longitude may be exchanged
    [part-longitude-beyond] its longitude, the second angle, is beyond 180°
    [part-letter-alone] one letter alone names no square here: only the two letters of the British grid are read, and those of MGRS behind a zone
    [part-latitude-no-figures] no figures stand for its latitude, before the comma: write degrees with a point
    [part-longitude-no-figures] no figures stand for its longitude, behind the comma: write degrees with a point
    [part-latitude] its latitude is no angle; minutes and seconds have two figures and are below 60
    [part-longitude] its longitude is no angle; minutes and seconds have two figures and are below 60
    [part-empty] there is nothing in it
    [part-no-digits] the digits are missing
    [part-too-many-digits] it has more than ten digits
    [part-odd-digits] it has an odd number of digits; easting and northing need the same number
    [part-unequal-groups] easting and northing differ in their number of digits
    [part-no-zone] zone and square letters are missing and the sheet does not say them
    [part-zone] it does not begin with a zone from 1 to 60
    [part-band] the letter after the zone is no latitude band (C to X without I and O)
    [part-column-1] its first square letter is none of A to H, which this zone has
    [part-column-2] its first square letter is none of J to R without O, which this zone has
    [part-column-3] its first square letter is none of S to Z, which this zone has
    [part-row] its second square letter is none of A to V without I and O
    [part-square] its two square letters are none of this grid, which has A to Z without I, not all of them everywhere
    [part-square-band] the two square letters do not belong to this latitude band
    [part-outside-grid] it lies outside the grid
    [part-few-figures] its numbers have fewer figures than those of this grid: the small ones that a map leaves out at its edges belong to them, and so does a zone that leads the easting
    [part-grid-unreckoned] PROJ knows the grid by name and cannot reckon in it
    [part-zone-svalbard] zones 32, 34 and 36 do not exist in band X: zones 31, 33, 35 and 37 are widened
    [part-no-half] after the zone its half or band is missing: write north, south or the band's letter
    [part-no-figures] there are no figures in it
    [part-no-such-name] there are no figures in it, and nothing on the sheet has this name
    [part-odd-in-angle] its "{ $character }" does not belong in latitude and longitude: part degrees, minutes and seconds by blanks or by ° ' ", and write nothing around them
    [part-metres-as-degrees] these are no degrees; for easting and northing name their zone or grid
    [part-beginning] the beginning given with it is none: it is a zone, a band and two square letters
    [part-beginning-square] the beginning given with it names no square: its two square letters do not belong to that zone and band
    [part-beginning-short] the beginning given with it lacks the two square letters
    [part-beginning-beside-grid] the grid does not count by zone and square letters, and the beginning given with it is not used there: leave the beginning out where numbers of the grid are meant, else write it before the digits
    [part-two-squares] its square letters are missing: it may be { $one } or { $other }; write them
    [part-ambiguous] it may be latitude and longitude or the digits of a short reference: leave out the comma, or write decimals
    [part-two-points] a number in it has two points: one point stands before the decimals, none parts thousands, and blanks part numbers
    [part-half-beside-zone] behind a zone the figures themselves tell how fine they are: leave ± and its length out
    [part-half] behind ± stands half the side of its square, in m or ft, up to 50 km: ±50 m
    [part-grouped] its figures stand in three groups or more: write easting and northing as one number each without blanks in it; latitude and longitude need N or S, E or W
    [part-no-pole] after UPS its pole is missing: write north or south
    [part-letters-not-here] no square of the sheet or beside it has its two letters; those of the British National Grid are read where EPSG:27700 is the grid
    [part-zone-missing] its zone is missing before the two square letters, and no sheet says it; those of the British National Grid are read where EPSG:27700 is the grid
    [part-web-link] an address of the web is not read, as no network is asked: type the figures that stand in it
    [part-geo] a geo link holds latitude and longitude as plain degrees parted by a comma, and perhaps a height
    [part-geo-system] its crs names another system of coordinates than wgs84: ask for the link in wgs84, or name that grid and type its numbers
    [part-geo-uncertainty] its u, the uncertainty, is a number of metres
    [part-geo-search] what stands behind ? in the link is a search for another program, not a place: take latitude and longitude out of it
    [part-characters] its "{ $character }" does not belong in a grid reference
   *[part-letters] behind zone, band and the two square letters figures alone belong
 }. Write { $form ->
    [lettered] { $reference }, { $numbers } (easting first)
    [own] easting and northing of the grid as two numbers, the easting first{ $has-numbers ->
        [yes] {" "}({ $numbers })
       *[no] {""}
     }
    [west-south] westing and southing of the grid as two numbers, the westing first{ $has-numbers ->
        [yes] {" "}({ $numbers })
       *[no] {""}
     }
    [south-west] southing and westing of the grid as two numbers, the southing first{ $has-numbers ->
        [yes] {" "}({ $numbers })
       *[no] {""}
     }
   *[mgrs] { $reference }, { $coordinates }
 }, or { $degrees }.
line-unknown = No line "{ $name }" on the sheet. { $has ->
    [no] It has none.
   *[yes] It has: { $known }.
 }
line-needed = The sheet has several lines: say which one you stand on. It has: { $known }.
landmark-unknown = No landmark "{ $name }" on the sheet. { $has ->
    [no] It has none.
   *[yes] It has: { $known }.
 }
instrument-unknown = "{ $name }" is no instrument. Write sighting, baseplate, quick or phone.
spread-unreadable = The spread { $typed } is not between 0.1 and 45 degrees. Give one standard deviation of the reading.
no-sighting = Nothing was sighted. Give a landmark and its bearing.
too-many-sightings = { $count } sightings are too many for one fix: give 60 at most.
fits-nowhere = No place on { $line } fits { observed }{ $off ->
    [metres] : where it fits best, it is off by { $by }
    [degrees] : where it fits best, it is off by { $by }
   *[none] {""}
 }{ $end ->
    [end] , at an end of the line as the sheet has it
   *[within] {""}
 }. { $slip ->
    [other-way] It fits if you came the other way along the line. Read
    [bearings-exchanged] It fits if its two bearings are exchanged. Read
    [reversed] It fits with one bearing read the other way round, { $meant }. Read
    [dial-reversed] It fits if the dial runs the other way, { $meant }. Read
    [quadrant] It fits if one bearing was counted in its quarter, { $meant }. Read
    [gradians] It fits if the dial shows gradians, { $meant }. Read
    [mils] It fits if the dial shows mils, { $meant }. Read
    [exchanged] It fits with two figures of one bearing exchanged, { $meant }. Read
    [misread] It fits if one bearing was { $meant }. Read
   *[none] Read
 } it again, check what it was of, and whether you stand on another line or beside it.
no-crossing = The bearing { $reading } to { $landmark } meets { $line } nowhere; it misses by { $miss }. { $slip ->
    [all-reversed] Nor does any other; turned round (this one { $meant }), all of them meet it: did you follow the wrong end of the needle, or read back bearings? Read them again, check
    [reversed] Turned round, { $meant }, it would meet: did you follow the wrong end of the needle? Read it again, check
    [dial-reversed] On a dial that runs the other way, { $meant }, it would meet: look which way its figures grow. Read it again, check
    [quadrant] Counted in its quarter, { $meant }, it would meet: say north or south, east or west with it. Read it again, check
    [gradians] On a dial of gradians, { $meant }, it would meet: look whether it goes to 400. Read it again, check
    [mils] On a dial of mils, { $meant }, it would meet: look whether it goes to 6400. Read it again, check
    [exchanged] With two figures exchanged, { $meant }, it would meet: read the dial again. Check
    [misread] As { $meant } it would meet: read the figures of the dial again. Check
   *[none] Read it again, check
 } the landmark and the line.
stretch-unknown = The fix has no place number { $number }; it has { $count }.
sheet-needed = No sheet is carried yet. Give one first.
fix-needed = There is no fix yet. Take one first.
keep-needed = The log has no start yet. Keep a fix as the place of the car first.
trip-needed = No trip is open. Carry a sheet to open one.
trip-open = A trip is being walked. Close it before another sheet is carried.
leg-needed = No leg is logged yet: you stand at the start. Log a leg first.
way-back-begun = The way back is begun. Undo it first to log more legs.
way-back-needed = The way back is not begun. Turn round first.
log-walked = The log is walked back to its end. Look along the line, then close the trip.
already-kept = The car's place is kept already. Undo it first, or close the trip.
nothing-to-undo = There is nothing to undo in this trip. What came onto the sheet is struck off it by its name.
distance-missing = The leg lacks its distance. Give paces with their kind, or metres.
detour-missing = The detour lacks its distance. Give paces or metres.
pace-missing = The pace is missing. Give double or single paces to 100 m.
pace-twice = Double and single paces are both given. Give one of them.
distance-twice = Paces and metres are both given. Give one of them.
distance-unreadable = The distance { $typed } is not more than 0 and at most 100000. Count or measure it again.
pace-kind-unknown = "{ $name }" is no kind of pace. Write single or double.
pace-unreadable = A pace of { $typed } to 100 m cannot be: it must be between 20 and 500, with a spread below 50 %.
side-unknown = "{ $name }" is no side. Write left or right.
sun-time-needed = The sun moves on by about 15° an hour: "{ $name }" needs the hour too. Write it as 2026-07-01T09:30:00Z.
date-unreadable = The date or time "{ $typed }" { $lacks ->
    [zone] lacks its zone: Z for UTC, or hours and minutes such as +02:00.
    [seconds] lacks its seconds.
    [day] lacks its day.
    [year] has a year of one or two figures: write all four.
   *[none] cannot be read, or is no day of the calendar.
 } Write { $or-year ->
    [yes] a year alone, 2026, whose middle is then meant, or a day, 2026-07-01, or
   *[no] 2026-07-01, or
 } a time with its zone: 2026-07-01T09:30:00Z, 2026-07-01T11:30:00+02:00.
date-outside-model = The date { $date } is outside the magnetic model (2020-01-01 to 2029-12-31). Check the date; a fix also takes grid and true bearings, and magnetic ones where the sheet has its printed diagram.
height-outside-model = The height is outside the magnetic model (-1 to 850 km). Give metres above the ellipsoid.
grid-turned = The grid { $grid } does not count to east and north. Of grids that count west and south the numbers that are typed are read; in a file their order and signs cannot be relied on. Choose another grid of the area; save a file by WGS 84.
grid-shift-file = The grid { $grid } shifts its datum by the file { $files }, which is not in this program, and files beside it are not read. Unshifted its places would be off by up to some hundreds of metres. Give the grid's EPSG number, whose shift states what it is good to, or +towgs84= with the datum's three or seven parameters in place of +nadgrids=.
grid-of-degrees = { $grid } is no grid of eastings and northings. Give one such as EPSG:27700, or none: degrees then count as those of WGS 84, and those of another datum lie some hundred metres off; turn them first.
grid-unknown = { $half ->
    [missing] The grid "{ $grid }" is not known. Is it a zone? It needs its half of the world: write { $zone }N north of the equator, { $zone }S south of it.
   *[told] The grid "{ $grid }" is not known. Give an EPSG code such as EPSG:27700, or a zone such as 33N.
 }
place-grid = Grid north of { $grid } lies { $convergence } { $side } of true north there; a kilometre at sea level is { $mapped } m on it.
grid-unreckoned = PROJ knows { $grid } by name, but has no mathematics for its projection: no place can be told in it. Choose another grid of that area, or UTM.
place-outside-grid = The grid { $grid } does not reach this place. Choose the grid printed on the sheet.
theme-unknown = "{ $name }" is no theme. Write day, night or high.
number-typed = this is no number. Write figures, with a point where one is needed, such as 12.5
number-not-finite = a plain number is needed
number-whole = this is no whole number, 0 or more. Write figures alone, such as 8
angle-typed = this is no angle. Write degrees, such as -12.5, or degrees and minutes with their side, such as 12°30'W
unit-typed = this is no unit of bearings. Write deg, mil, gon or quadrant
option-off = { $option } cannot be "{ $value }": { $why }.
digits-unreadable = A grid reference is written with 2, 4, 6, 8 or 10 digits. Give one of these.
sheet-line-kind = { $record } cannot be drawn: "{ $typed }" is no kind of line. Say road, track, path, creek, river, canal, ridge, cliff, fence, wall, hedge, cutline, railway, power line or cableway.
number-unreadable = "{ $name }" must be a number from { $low } to { $high }.
file-missing = The file "{ $path }" cannot be opened: { $why ->
    [absent] there is none of that name. Check the name.
    [folder] it is a folder. Name a file in it.
    [forbidden] you may not read it. Ask its owner, or copy it to a folder of your own.
    [text] its text is not in UTF-8. Save it in UTF-8.
   *[told] { $detail }. Check its name.
 }
input-unreadable = Standard input cannot be read: { $detail }.
file-too-large = The file "{ $path }" is larger than { $most } MB. Cut it to the area.
file-unwritable = The file "{ $path }" cannot be written: { $detail }.
output-logbook = "{ $path }" is the logbook, or belongs to it: nothing is written there, for the trip would be lost. Name another file.
output-taken = A file "{ $path }" is there that this program did not write so: it is left as it is. Name another file, or move that one away.
output-replaced = "{ $path }" is written anew. If it was changed by hand since this program wrote it, that is gone: keep such a drawing under another name.
sheet-format-unknown = A sheet is read from .geojson, .json or .toml, not from "{ $name }".
sheet-unreadable = The sheet cannot be read{ $line ->
    [0] {""}
   *[other] {" "}at its line { $line }
 }: { $why ->
    [kind] { $detail } stands where something else belongs
    [missing] "{ $detail }" is missing
   *[told] { $detail }
 }.
sheet-record = The sheet cannot be taken, record { $record }: { $fault ->
    [fault-no-name] it has no name
    [fault-two-points] a line needs two points or more
    [fault-spread] its spread must be from 0 to 10000 m
    [fault-height] its height above the ground must be from 0 to 1000 m
    [fault-scale] its scale is the number under the printed one, from 1000 to 1000000
    [fault-year] its printed_year must be from 1800 to 2100
    [fault-spot-height] a spot height is height_m, from -500 to 9000 m, or height_ft, not both
    [fault-spot-name] nothing on the sheet has that name; a spot height stands at a grid reference, or at a landmark or known point of the sheet
   *[fault-on-no-line] it names a line that the sheet does not have
 }. Nothing was taken.
sheet-place = The sheet cannot be taken, record { $record }: the place "{ $typed }" is wrong ({ part-short }). Nothing was taken.
sheet-too-large = The sheet holds { $megabytes } MB; 32 MB are taken at most. Cut it to the area, or import it.
sheet-without-line = The sheet holds no line. Add the road, track or creek to stand on, or take the fix in the open.
known-point-off-line = The named point "{ $name }" lies more than 300 m from its line. Check its place and the line it names.
sheet-at-pole = The sheet lies within a degree of a pole: a compass and this plane cannot serve there.
line-too-short = The line "{ $name }" needs two different points.
name-twice = The name "{ $name }" stands twice on the sheet. Give each its own.
sheet-too-wide = "{ $name }" lies more than 300 km from the sheet's middle. Check its place.
logbook-newer = The logbook was written by a newer release. Use that one; the file was left as it is.
logbook-busy = Another program is writing in the logbook. Wait a moment and try again.
logbook-foreign = The file is a database of another program, not a logbook. Name another file; it was left as it is.
logbook-damaged = The logbook cannot be read: { $detail }. It was left as it is; keep a copy and start a new one.
sighting-no-number = A number of sighting { $nth } is none. Type its figure, or leave the sighting out.
logbook-unwritable = The logbook cannot be opened or written: { $detail }. Check the folder and the space left.
book-shut = The field book is shut. Open it again.
internal = Something went wrong inside. The logbook is intact; please report what you did.

## Chart
chart-grid-north = grid N
chart-fix-spoken = { $line }: { $count ->
    [one] one likely place
   *[other] { $count } likely places
 }, the likeliest { $share } at { $reference }.
chart-ground-spoken = { $name } with its ground, a contour every { $interval } { $unit ->
    [feet] feet
   *[metres] m
 }.
chart-interval = contours { $interval }{"\u00A0"}{ $unit ->
    [feet] ft
   *[metres] m
 }
chart-no-heights = hatched: no heights
chart-height = { $height }{ $unit ->
    [feet] {"\u00A0"}ft
    [metres] {"\u00A0"}m
   *[own] {""}
 }
chart-open-spoken = { $count ->
    [one] One likely place
   *[other] { $count } likely areas, the likeliest
  } at { $reference }, within { $major } (95 %).
chart-walk-spoken = { $legs ->
    [one] One leg
   *[other] { $legs } legs
 } walked from the { $car }; reckoned within { $major } (95 %).

## Help of the command
help = Fix a place beside a road by map and compass, log the walk, follow the log back.
help-logbook = The logbook file; it is made when it is not there
help-json = Answer with the whole reply as one line of JSON
help-unit = How bearings are written: deg, mil, gon or quadrant; deg when left out
help-at = When it happened, such as 2026-07-01T09:30:00Z; now when left out
help-sheet = Carry a sheet: lines, landmarks and the grid of the area
help-sheet-file = A .geojson file, or a .toml file of typed grid references
help-pace = Set your pace
help-pace-double = Double paces to 100 m
help-pace-single = Single paces to 100 m
help-pace-spread-percent = One standard deviation of that figure, in per cent
help-fix = Take a fix on a line, or in the open, from bearings to landmarks and all else that was observed
help-fix-on = The line you stand on; needed when the sheet has several
help-fix-sight = A landmark and its bearing with the north, such as "Sorn chapel" "214 mag"; may be given again
help-fix-spread-deg = One standard deviation of a reading in degrees; the instrument's own when left out
help-fix-or = Another line that it may be; may be given again
help-fix-one-of = Landmarks that it may be, parted by commas, and the bearing; may be given again
help-fix-rough = Roughly where a feature lies, and the bearing to it; may be given again
help-fix-rough-spread-m = How roughly, one sigma in metres; 50 when left out
help-fix-running = A landmark, its bearing before and after a run along the line, and the run in metres; its length counts as 3 % off (one standard deviation)
help-fix-line-run = The bearing of the line itself here, either way; near a bend whichever piece fits it within 100 m
help-fix-angle = The degrees from a left landmark to a right one; no north is needed
help-fix-side = A landmark and on which side it stands as you face along the line: left, right, ahead or behind
help-fix-seen = A landmark that is in sight
help-fix-not-seen = A landmark that was looked for and is not in sight
help-fix-witness = An independent place to be weighed in: a receiver's, or a reference that another one read
help-fix-here = A known point of the line that is here
help-fix-open = On no line: the place is sought in the open
help-fix-here-kind = Any of a kind is here: bend, junction, crossroads, bridge, ford or stream
help-fix-distance = A landmark and how far it is in metres
help-fix-distance-spread-m = One standard deviation of the distances in metres; a quarter of each, as by eye, when left out
help-fix-slope = What the ground does towards a bearing: rises, falls or level, and the bearing with its north
help-fix-steep = The same with the degrees of the slope, 4° off by one standard deviation
help-fix-landform = A landform (hill, saddle, ridge, spur, valley, draw, depression, cliff), its bearing (10° off by one standard deviation) and rough distance in metres (half as much again or two thirds)
help-fix-landform-here = A landform that is stood on
help-fix-aspect = The bearing that the slope underfoot falls towards, 20° off by one standard deviation
help-fix-height = What the altimeter reads, in metres above the sea
help-fix-height-spread-m = One standard deviation of its reading in metres; 30 when left out, 5 when it was set
help-fix-height-set-at = Where it was set: a known point, a landmark or a place
help-fix-height-set-m = What it was set to there; the height of that place on the sheet when left out
help-fix-height-hours = Hours since it was set
help-fix-height-drift-m = One standard deviation of its drift in metres an hour; 5 when left out
help-fix-trip = A known point and the metres that the trip meter shows since then; its scale counts as 2 % off (one standard deviation)
help-fix-trip-step-m = The step of the trip meter's display in metres; 100 when left out
help-fix-trip-cuts-off = The display shows a figure until the next one is full, as digital ones mostly do; without this and --trip-nearest both are weighed
help-fix-trip-nearest = The display shows the nearest figure
help-fix-paced = A known point and the paces since then along the line; they are off by the spread of your pace (gatepost pace)
help-fix-pace-kind = double or single; double when left out
help-fix-towards = The known point that was driven, walked or faced towards
help-fix-instrument = sighting (a reading 1.5° by one standard deviation, the error that all readings share 1°), baseplate (2.5°, 1.5°), quick (at the waist: 5°, 2°) or phone (5°, 4°); baseplate when left out
help-keep = Keep a place of the last fix: here stands the car, the log begins
help-keep-place = Which place of the fix, from 1; the likeliest when left out
help-keep-name = Your word for what stands there; car when left out
help-leg = Log a leg
help-leg-bearing = The bearing walked with its north, such as "063 mag"
help-leg-paces = How many paces
help-leg-pace-kind = double or single; double when left out
help-leg-metres = How many metres, instead of paces
help-leg-detour = A box walked round something: left or right, and how far out, in the leg's own unit
help-leg-met = What was met at the end
help-where = Show where you are by reckoning, and how far it is home
help-back = Show the way back: the log in reverse
help-undo = Strike the last entry
help-close = Close the trip
help-chart = Draw a chart of the fix or of the walk as SVG
help-chart-of = fix, walk, or ground for the sheet over its contours
help-chart-file = The SVG file to write
help-chart-theme = day, night or high; day when left out
help-norths = Tell declination, convergence and grid-magnetic angle at a place and date
help-norths-place = A grid reference, "lat, lon" in degrees, or a name on the sheet
help-norths-date = Such as 2026-07-01; of a year alone its middle is meant
help-norths-height-m = Metres above the ellipsoid; 0 when left out
help-norths-printed-declination-deg = The declination in the map's margin, degrees, east positive
help-norths-printed-grid-magnetic-deg = Or the grid-magnetic angle there, degrees, east positive
help-norths-printed-year = The year that the margin names, such as 1994 or 1994.5; of a whole one its middle is meant
help-norths-printed-change-min = Its annual change, minutes of arc, east positive; none when left out
help-between = Tell distance and bearings from one place to another
help-between-from = A grid reference, coordinates, "lat, lon" in degrees, or a name on the sheet
help-between-to = The same
help-between-grid = An EPSG code or a zone such as 33N; UTM or UPS of the first place when left out
help-between-date = The date of the magnetic bearing; none is told when left out
help-norths-grid = An EPSG code or a zone such as 33N; UTM or UPS of the place when left out
help-place = Tell a place as grid reference, latitude and longitude, and in a grid
help-place-place = A grid reference, UTM coordinates, two numbers in the given grid, latitude and longitude, a geo: link, or a name on the sheet
help-place-beginning = Zone and square letters that complete a short reference, such as 33TVM
help-place-digits = Digits of the grid reference: 2, 4, 6, 8 or 10
help-place-grid = An EPSG code or a zone such as 33N; UTM or UPS of the place when left out
help-turn = Turn a bearing from one north to another
help-turn-bearing = The bearing with its north, such as "190 mag"
help-turn-to = mag, grid or true
help-turn-spread-deg = One standard deviation of the bearing as it was read, degrees
help-turn-declination-deg = Declination, east positive, such as -12.5 or 12°30'W; that of the place when left out
help-turn-declination-spread-deg = One standard deviation of it, degrees
help-turn-convergence-deg = Grid convergence, east positive; that of the grid at the place when left out
help-turn-convergence-spread-deg = One standard deviation of it, degrees
help-turn-place = The place, or its name on the sheet: it tells the norths there
help-turn-date = The date of the declination at the place; today when left out
help-turn-grid = The grid whose north is meant there; the sheet's, else that of the zone, when left out
help-records = Take records as JSON Lines on standard input, one reply a line

chart-plus-minus = ± { $spread }
fix-place-told = { $share } at { $reference }, ± { $spread } along { $line } (95 %).
chart-stretch-spoken = { $share } at { $reference }, ± { $spread } along the line (95 %).
chart-turn-spoken = Turn { $number }{ $has-met ->
    [yes] , { $met }
   *[no] {""}
 }.
chart-drawn = The chart is drawn.
chart-unknown = "{ $name }" is no chart. Ask for fix, walk or ground.

## Help of the command, continued
help-import = Bring a file in: lines and landmarks onto the sheet, or heights under it
help-import-file = GeoJSON, GPX, KML, GeoPackage or OpenStreetMap PBF; heights as .hgt, .asc or GeoTIFF
help-import-grid = The grid of heights whose file does not say it, by its EPSG number, with "+" and the number of their vertical system when they are feet; 4326 for degrees. Without it a .prj file beside an ASCII grid is read
help-import-area = Only what lies inside; degrees
help-import-source = Where heights come from: srtm, aster, third-arc-second or laser; it gives their spread
help-import-cover = What covers the ground there: open or forest
help-import-credit = Whom to name for the data; kept with the sheet
help-draw = Make a sheet by hand, or add to the open one: lines, landmarks and spot heights read off the paper map
help-draw-name = The name of a new sheet; the open one is added to when left out
help-draw-beginning = Zone and square letters that complete short references
help-draw-grid = The grid printed on the map, by its EPSG number or UTM zone
help-draw-scale = The number under the printed scale: 24000 for 1:24,000
help-draw-printed-year = The year of the map
help-draw-printed-declination-deg = The declination in the map's margin, degrees, east positive
help-draw-printed-grid-magnetic-deg = Or the grid-magnetic angle there, degrees, east positive
help-draw-diagram-year = The year that the margin names for it
help-draw-printed-change-min = Its annual change, minutes of arc, east positive
help-draw-line = A line: its kind, its name and the grid references of its points
help-draw-landmark = A landmark: its kind, its name and its grid reference; how far it may be off (95 %) may stand behind the reference: "574 976 ± 60 m"
help-draw-height-m = Height of the landmarks above the ground in metres
help-draw-known = A named point: the line it lies on, its name and its grid reference
help-draw-spot-ft = The same in feet above the sea
help-draw-spot = A spot height: a grid reference or a name on the sheet, and metres above the sea
help-draw-strike = Take a line, known point, landmark or, by the name of their file, the heights off the sheet
help-photo = Lay a photo of the paper map over its grid, and tell the places of spots on it
help-photo-mark = A grid crossing: pixels from the left and upper edge, and its reference
help-photo-tap = A spot: pixels from the left and upper edge
help-photo-grid = The grid printed on the map; that of the sheet or of the first crossing when left out
help-photo-kind = affine for a scan, projective for a photo taken aslant; by the number of crossings when left out
help-import-kinds = Only these kinds: road, creek, summit, mast, church and so on
help-seen = Tell what should be seen from a place: landmarks in sight, hidden or in doubt, and the landforms near; light is taken to bend by 0.13 of the earth's curve
help-sights = Tell the landmarks that may be sighted, with bearing and distance from the last fix; of a large sheet those with a word in their names
help-sights-named = A part of the name, small letters or large, with accents or without; all when left out
help-lines = Tell the lines of the sheet; of a large sheet those with a word in their names
help-lines-named = A part of the name, small letters or large, with accents or without; all when left out
help-points = Tell the known points of the sheet's lines, named ones and where lines meet; of a large sheet those with a word in their names
help-points-named = A part of the name, small letters or large, with accents or without; all when left out
help-points-line = Only of this line; may be given again
help-points-from = A known point: the others of the lines that it lies on
help-seen-to = The north from which bearings are told: mag, grid or true; mag when left out
help-ground-to = The north from which bearings are told: mag, grid or true; true when left out
help-seen-place = A grid reference, "lat, lon" in degrees, or a name on the sheet; where you stand by the walk or the fix when left out
help-seen-eye-m = Height of the eye above the ground in metres; 1.7 when left out
help-seen-within-m = Landmarks farther than this are left out, metres; 10000 when left out
help-profile = Tell the heights along the way from one place to another
help-profile-from = A grid reference, "lat, lon" in degrees, or a name on the sheet
help-profile-to = A grid reference, "lat, lon" in degrees, or a name on the sheet
help-profile-step-m = From height to height in metres; as far as from post to post when left out
help-ground = Tell how the ground lies at a place: its height, its slope, and where it rises and falls
help-ground-place = A grid reference, "lat, lon" in degrees, or a name on the sheet; where you stand by the walk or the fix when left out
help-contours = Write the contours of the sheet's heights as GeoJSON or SVG
help-contours-file = The file to write: .svg for a drawing, else GeoJSON
help-contours-interval-m = From contour to contour in metres; 10 when left out
help-contours-interval-ft = The same in feet; 40 when left out on a sheet whose grid is in feet
help-profile-eye-m = Height of an eye above the ground at the beginning in metres: tells what it cannot see of the way
help-contours-theme = day, night or high, for a drawing; day when left out
help-check = Hold another place against the last fix: read off the map, or told by a receiver
help-check-place = A grid reference, "lat, lon" in degrees, or a name on the sheet
help-check-spread-m = One standard deviation per axis in metres; that of the reference's square when left out
help-turn-round = Begin the way back: tells the first leg
help-reached = The end of this leg of the way back is reached: tells the next
help-compass = Check your compass: what it reads too much, and where iron turns the needle
help-compass-place = Where it is checked; where the trip is when left out
help-compass-instrument = sighting, baseplate, quick or phone, each worth what fix says; baseplate when left out
help-compass-reading-spread-deg = One standard deviation of a reading in degrees; the instrument's own when left out
help-compass-known = What was read and the known bearing, such as "214 mag" "207.5 grid"; may be given again
help-compass-point = What was read to a point and its place, such as "214 mag" "33T VK 5696 4953", or its name on the sheet; may be given again
help-compass-sun = What was read to the sun and when; may be given again
help-compass-time-spread-s = One standard deviation of the times of the sun in seconds; 30 when left out
help-compass-line = A line read from both ends: two stations, the fore and the back bearing; may be given again
help-compass-grid = The grid from whose north known bearings with grid are counted, an EPSG code or a zone such as 33N; the sheet's, else UTM or UPS of the place, when left out
help-compass-keep = Keep the error: it is taken off what is read with this instrument from now on
help-mean = Tell the mean of several readings of one bearing, and which strays most
help-mean-bearings = The readings, each with its north, such as "214 mag"
help-attraction = Tell whether metal or a current is near and where a phone points: its magnetometer against the model
help-attraction-field-ut = The magnetic field at the phone, microtesla: x right, y to the top edge, z out of the screen
help-attraction-up = The direction away from the ground in the same axes, in any unit
help-attraction-place = A grid reference, "lat, lon" in degrees, or a name on the sheet; where the trip is when left out
help-witness = Hold a receiver's place beside the fix; nothing is written
help-witness-lat = Degrees north, WGS 84
help-witness-lon = Degrees east, WGS 84
help-witness-accuracy-m = The receiver's own claim: a radius that holds 68 %, metres
help-witness-seen-at = When the receiver saw it; the time of asking when left out
help-light = Tell where the sun stands, sunrise, sunset and twilight at a place
help-light-height-m = Metres above the sea, for the sun's height; where the heights of the sheet hold the place, theirs counts, else 0 when left out
help-light-pressure-hpa = Pressure of the air there in hectopascal; the standard atmosphere's when left out
help-light-temperature-c = Its temperature in degrees Celsius; the standard atmosphere's when left out
help-light-place = A grid reference, "lat, lon" in degrees, or a name on the sheet

## The strip and the lists of a shell
sight-listed = { $landmark }: { $told }.
sights-all = { $count ->
    [one] The sheet has one landmark.
   *[other] The sheet has { $count } landmarks{ $left ->
        [0] .
       *[other] : these and { $left } more. Type a part of a name.
      }
 }
line-listed = { $line }: { $kind }, { $length }.
lines-all = { $count ->
    [one] The sheet has one line.
   *[other] The sheet has { $count } lines{ $left ->
        [0] .
       *[other] : these and { $left } more. Type a part of a name.
      }
 }
lines-named = { $count ->
    [0] No line of the sheet is so named. Type less of the name.
    [one] One line is so named.
   *[other] { $count } lines are so named{ $left ->
        [0] .
       *[other] : these and { $left } more. Type more of the name.
      }
 }
point-listed = { $point }: { $along } along { $line }.
points-all = { $count ->
    [0] No point there has a name yet, and no line meets another there. Add one to the sheet, or tell something else.
    [one] One point is known there.
   *[other] { $count } points are known there{ $left ->
        [0] .
       *[other] : these and { $left } more. Type a part of a name.
      }
 }
points-named = { $count ->
    [0] No known point there is so named. Type less of the name.
    [one] One known point there is so named.
   *[other] { $count } known points there are so named{ $left ->
        [0] .
       *[other] : these and { $left } more. Type more of the name.
      }
 }
sights-named = { $count ->
    [0] No landmark of the sheet is so named. Type less of the name.
    [one] One landmark is so named.
   *[other] { $count } landmarks are so named{ $left ->
        [0] .
       *[other] : these and { $left } more. Type more of the name.
      }
 }
strip-sure = Sure
strip-sure-of = Sure, { $share }
strip-no-fix = no fix
strip-take-fix = yet
strip-not-sure = not sure
strip-look-again = read again
strip-places = { $count } places
age-now = now
age-seconds = { $count } s old
age-minutes = { $count } min old
age-hours = { $count } h old
strip-home-unset = not set
strip-home-mark = mark the car
strip-home-at-car = at the car
strip-light = { $hours } h { $minutes } min
strip-dark = dark { $clock }
light-behind-at = the sun goes behind the ground { $clock }
light-behind-by = the sun goes behind the ground by { $clock }
light-behind-now = the sun is behind the ground
light-comes-again = { $told } and comes out again { $clock }
strip-sun-until = sun to { $clock }{ $latest ->
    [yes] {" "}at most
   *[no] {""}
 }{ $comes ->
    [yes] , again { $again }
   *[no] {""}
 }, { $dark }
strip-sun-behind = { $comes ->
    [yes] sun again { $again }
   *[no] sun behind hills
 }, { $dark }
strip-light-none = not known
strip-light-none-note = yet
sight-read = read { $reading }
sight-expected = about { $bearing }, { $distance }
next-settles = would leave one place: { $left } of { $now } in all (95 %)
next-narrows = would leave { $left } of { $now } in all (95 %)

heights-layout = These heights have no usable grid: give at least two columns and two rows, and steps greater than nothing.
heights-too-many = These heights, together with those that they are joined with or in the whole rectangle that they span, have { $posts } posts; at most { $most } are held. Cut them to the area of the sheet, or strike those that are there off the sheet first.
heights-count = These heights have room for { $posts } posts but hold { $values } values. The file is cut short or not what it says.

# Sightings of every kind
sightings-contradict = "{ $name }" is told in two ways that cannot both be: as seen and as not seen, or on two sides. Leave one of them out.
sighted-what = Say what was sighted: one landmark, a list of those it may be, or a rough place. Give one of the three.
run-twice = Say how the run went: on a bearing, or along the line towards a known point. Give one of the two.
known-point-unknown = No known point "{ $name }" on this line. { $has ->
    [no] It has none.
   *[yes] It has: { $known }.
 }
quarter-unknown = "{ $name }" is no side. Say left, right, ahead or behind.
trend-unknown = "{ $name }" is nothing that the ground does. Say rises, level or falls.
slope-level = Level ground has no steepness. Leave the degrees out, or say rises or falls.
landform-unknown = "{ $name }" is no landform known here. Say one of: { $known }.
landform-where = A distance alone does not say where the landform is. Give its bearing with the north as well, or leave the distance out when you stand on it.
altimeter-set = The sheet has no height for the place where the altimeter was set. Say what it was set to there, in metres.
heights-elsewhere = The heights of this sheet do not reach here, so they cannot tell this sighting. Leave it out, or bring in heights of this area.
here-kind-unknown = "{ $name }" is no kind of place known here. Say one of: { $known }.
here-kind-none = The sheet shows nothing of the kind "{ $name }" on this line. Leave it out, or name a known point.
angle-of-one = An angle goes from one landmark to another: "{ $name }" was given twice. Name two.
towards-itself = "{ $name }" was given both as where it was counted from and as the way that was gone. Name another known point that lies that way.
open-says-nothing = Nothing of what was told says where you stand: without heights, what is seen or not seen tells nothing. Take a bearing, an angle or a distance to a landmark.
here-what = Say what is here: a known point by its name, or any of a kind. Give one of the two.
open-with-line = A fix in the open stands on no line. Leave the line out, or take the fix on it.
sighting-needs-line = A sighting of the kind "{ $name }" counts along a line and says nothing in the open. Leave it out, or name the line.
lines-twice = Name one line, or all that it may be, not both.
line-odds = Give the odds of the lines as positive numbers, one for each line named.

# Slips: what a tutor would say, and what to read again
slip-reversed = { $of }: { $told } fits if it was read the wrong way round, { $meant } ({ $chance }). Which end of the needle did you follow? Read it again.
slip-misread = { $of }: { $told } fits if { $meant } was meant ({ $chance }). Read the figures of the dial again.
slip-exchanged = { $of }: { $told } fits if two figures are exchanged, { $meant } ({ $chance }). Read it again.
slip-dial-reversed = { $of }: { $told } fits if the dial runs the other way, { $meant } ({ $chance }). Look which way its figures grow.
slip-quadrant = { $of }: { $told } fits if it was counted in its quarter, { $meant } ({ $chance }). Say north or south, east or west with it.
slip-gradians = { $of }: { $told } fits if the dial shows gradians, { $meant } ({ $chance }). Look whether it goes to 400.
slip-mils = { $of }: { $told } fits if the dial shows mils, { $meant } ({ $chance }). Look whether it goes to 6400.
slip-other-landmark = { $told } fits { $other } better than { $of } ({ $chance }). Look at both again: are you sure which one it was?
slip-other-north = All bearings fit if they were counted from { $meant-north ->
    [mag] magnetic
    [grid] grid
   *[true] true
  } north, not { $told-north ->
    [mag] magnetic
    [grid] grid
   *[true] true
  } north ({ $chance }). Which north is your dial set to?
slip-wrong-way = All bearings fit if { $told-north ->
    [mag] the dial is set off for declination to the wrong side
    [grid] the grid-magnetic angle was applied the wrong way round
   *[true] the declination was applied the wrong way round
  } ({ $chance }). { $told-north ->
    [mag] Look at its setting
   *[other] Turn them again
  }.
slip-twice = All bearings fit if { $told-north ->
    [grid] the grid-magnetic angle
   *[true] the declination
  } was applied twice ({ $chance }). Is the dial set off for it, and did you turn them again?
slip-deflected = All bearings are turned alike ({ $chance }){ $way ->
    [much] , read too much by about { $turned } ± { $turned-spread }
    [little] , read too little by about { $turned } ± { $turned-spread }
   *[unknown] {""}
  }: metal or current near, or declination left out? Step away 18 m from vehicles, 55 m from power lines, and read again.
slip-again = The same goes for the other { $count ->
    [one] reading.
   *[other] { $count } readings.
  }
slip-also = It fits as well { $kind ->
    [other-north] if { $meant-north ->
        [mag] magnetic
        [grid] grid
       *[true] true
      } north was meant.
    [wrong-way] if the angle between the norths was applied the wrong way round.
    [deflected] if metal or a current turned the needle: step away 18 m from vehicles, 55 m from power lines, and read again.
    [twice] if the angle between the norths was applied twice.
    [reversed] if it was read the wrong way round, { $meant }: which end of the needle did you follow?
    [tens] if { $meant } was meant: read the figures of the dial again.
    [hundreds] if { $meant } was meant: read the figures of the dial again.
    [exchanged] with two figures exchanged, { $meant }: read the figures of the dial again.
    [dial-reversed] if the dial runs the other way, { $meant }: look which way its figures grow.
    [quadrant] if it was counted in its quarter, { $meant }: say north or south, east or west with it.
    [gradians] if the dial shows gradians, { $meant }: look whether it goes to 400.
    [mils] if the dial shows mils, { $meant }: look whether it goes to 6400.
    [bearings-exchanged] with its two bearings exchanged: which one did you read first?
    [pace-kind] if single and double paces were mixed up: how do you count?
    [lost-hundred] if a hundred was lost or counted twice: check the tally.
    [point] if the trip meter's point was read elsewhere, a tenth or ten times as far: read it again.
    [miles-kilometres] if miles and kilometres were mixed up: what does the trip meter count?
    [counted] if it was counted from { $other }: from which point did you count?
    [here] if you stand at { $other }: look again which of the two it is.
   *[other-way] if you came the other way: which way did you come?
 }
slip-then = If so, you would stand at { $reference }{ $where ->
    [line] {" "}on { $line }
   *[open] {""}
  }, ± { $spread } (95 %).
slip-pace-kind = The paces fit if single and double paces were mixed up ({ $chance }). How do you count?
slip-lost-hundred = The paces fit if a hundred was lost or counted twice ({ $chance }). Check the tally.
slip-point = The trip meter fits if its point was read elsewhere, a tenth or ten times as far ({ $chance }). Read it again.
slip-miles-kilometres = The trip meter fits if miles and kilometres were mixed up ({ $chance }). What does it count?
slip-feet = { $what ->
    [height] The altimeter fits if it shows feet
    [distance] The distance to { $of } fits if it was in feet
   *[all] Distances and heights fit if they were in feet
  } ({ $chance }). In which unit did you read?
slip-other-point = { $what ->
    [counted] The distance fits if it was counted from { $other } ({ $chance }). From which point did you count?
   *[here] Everything fits if you stand at { $other } ({ $chance }). Look again which of the two it is.
 }
slip-other-way = What you measured along the line fits if you came the other way ({ $chance }). Which way did you come?
slip-all-reversed = All bearings fit if they were read from the wrong end of the needle ({ $chance }). Turn them round by 180° only after you have looked again.
slip-bearings-exchanged = { $of }: the run fits if its two bearings are exchanged ({ $chance }). Which one did you read first?
slip-faced-other-way = The sides fit if you faced the other way along the line ({ $chance }). Face along the line and look again.
slip-landmarks-exchanged = The bearings fit if { $one } and { $other } were taken for each other ({ $chance }). Look at both again: which is which?
slip-marks-exchanged = { $of }: the angle fits if it was counted from the right one to the left ({ $chance }). Name the left one first.
slip-other-line = { $heard ->
    [all] Everything
   *[part] What can be told there, all but the distance from { $of },
 } fits better on { $other } ({ $chance }). Are you sure which line you stand on? Look which way it runs, how wide it is and what it crosses.
slip-misplaced = The place { $of } { $kind ->
    [exchanged] fits if two figures are exchanged: { $meant }
    [misread] fits if one figure was misread: { $meant }
    [swapped] fits with its two numbers the other way round: { $meant }
    [square] fits with other letters: { $meant }
    [datum] fits if it was counted on { $meant }
    [corner] fits as the corner of a wider square
    [stale] may be a position from before
   *[unknown] is wrong, for no reason that is known
  } ({ $chance }). { $kind ->
    [stale] Wait for a new one.
   *[other] Read it again.
  }
slip-other-side = { $of } fits on the other side of the line ({ $chance }). Face along the line and look again.

# What each sighting gave
account-identity = The bearing to { $of } is most likely to { $likeliest } ({ $share }).
observed = { $what ->
    [bearing] the bearing to { $of }
    [running] the running fix on { $of }
    [line-run] the run of the line
    [angle] the angle { $of }
    [side] the side of { $of }
    [seen] { $of } in sight or not
    [here] the known point { $of } here
    [measured] the distance from { $of }
    [distance] the distance to { $of }
    [slope] the slope towards { $of }
    [landform] the { $of }
    [aspect] the slope underfoot that falls to { $of }
    [height] the altimeter
    [here-kind] the { $of } here
    [witness] the independent place { $of }
   *[other] what the ground shows
  }
account-moves = Without { observed } the likeliest place would move { $moves }.
account-only = All there is: { observed }.
account-fit = { $off ->
    [metres] There it is off by { $by }{ $verdict ->
        [misfit] : it does not fit.
        [doubtful] : doubtful.
       *[fits] : it fits.
     }
    [degrees] There it is off by { $by }{ $verdict ->
        [misfit] : it does not fit.
        [doubtful] : doubtful.
       *[fits] : it fits.
     }
   *[none] There it { $verdict ->
        [misfit] does not fit.
        [doubtful] fits badly: doubtful.
       *[fits] fits.
     }
 }
slip-limits = The places and limits told hold only if nothing was misread. Read again and take the fix anew before you rely on them.
minded-misfit = Before that, rely on no place told here.
minded-possible = Look again at { observed }: it may have been misread.
slip-possible = { $some ->
    [made] Something was misread; the sightings cannot tell for sure what.
   *[maybe] Something may have been misread; the other sightings cannot tell for sure.
  }
# The earth
datum-shift-unknown = No shift between WGS 84 and the datum of { $grid } is known here: places may be off by hundreds of metres.

## Ready texts of the phones
heading-told = { $bearing } ±{"\u00A0"}{ $spread } (95{"\u00A0"}%), if no iron turns it
heading-unsure = { $bearing }, spread not known
pace-told = { $count }{"\u00A0"}double paces to 100{"\u00A0"}m, ±{"\u00A0"}{ $spread } (95{"\u00A0"}%)
age-unknown = age not known
strip-light-dark = dark
strip-light-from = light { $clock }
strip-light-all-day = all day
strip-light-no-dark = no dark
paces-to-go = { $count ->
    [one] one double pace to go
   *[other] { $count }{"\u00A0"}double paces to go
 }
paces-full = counted to the end
paces-past = { $count ->
    [one] one double pace past the end
   *[other] { $count }{"\u00A0"}double paces past the end
 }

## Landforms
landform-told = { $kind ->
    [hill] A hill
    [saddle] A saddle
    [ridge] A ridge
    [spur] A spur
    [valley] A valley
    [draw] A draw
    [depression] A depression
   *[cliff] A cliff
 } { $here ->
    [yes] is where you stand
   *[no] { $distance } away, bearing { $bearing }
 }, { $kind ->
    [cliff] up to{" "}
   *[other] {""}
 }{ $relief } { $kind ->
    [hill] above the low beside it
    [saddle] below the hill beside it
    [ridge] above its sides
    [spur] above its sides
    [valley] below its sides
    [draw] below its sides
    [depression] deep
   *[cliff] high
 }{ $trend ->
    [rises] {""}: the ground rises at it
    [falls] {""}: the ground falls at it
    [underfoot] {""}: the ground falls towards { $way }
   *[level] {""}
 }{ $extent ->
    [all] {""}; it stands on all sides but for gaps narrower than 30°, and this is where it comes nearest
    [wide] {""}; it runs from { $from } round by { $middle } to { $to }, and this is where it comes nearest
   *[narrow] {""}
 }{ $doubtful ->
    [yes] {""}; it may be no more than an error of the heights
   *[no] {""}
 }.
ground-rise-told = Towards { $bearing } the ground { $trend ->
    [rises] rises by { $height } over { $distance }, { $slope } on the whole
    [falls] falls by { $height } over { $distance }, { $slope } on the whole
   *[level] is level over { $distance }
 } { $sure ->
    [no] at the likeliest, but these heights cannot tell it (chance { $chance })
   *[yes] (chance { $chance } with the heights as good as they are)
 }.
ground-way-told = On that way it { $side ->
    [below] lies up to { $height } lower
   *[above] stands up to { $height } higher
 } than at both of its ends.
ground-aspect-told = Over the ground close around, the slope is { $slope } and falls towards { $bearing }, ± { $spread } (95 %) by the heights.
ground-aspect-unsure = These heights cannot tell one way that the ground here falls: it is all but level, or a top, a low or a saddle, from which it falls or rises on several sides.
cut-or-fill-told = { $kind ->
    [cut] A cut
   *[fill] A fill
 } from { $from } to { $to } along { $line }, { $relief } { $kind ->
    [cut] deep
   *[fill] high
 }{ $doubtful ->
    [yes] {""}; it may be no more than an error of the heights
   *[no] {""}
 }.
landform-posts-too-far = These heights stand too far apart to show cuts and fills: they need a height every 10 m or closer. Look at the sheet instead, or carry finer heights.

# Heights from files
heights-file-unknown = { $name } holds no heights that can be read. Take a .hgt tile, an ASCII grid (.asc) or a GeoTIFF (.tif).
heights-file-packed = { $name } is packed. Unpack it first and take the file inside.
heights-file-too-large = This file has { $megabytes } MB; at most { $most } MB are read. Cut it to the area of the sheet.
heights-file-name = The name { $name } does not tell where the tile lies. Name it by its south-western corner, such as N46E013.hgt.
heights-file-length = { $name } has { $bytes } bytes, which is no whole tile: 2884802 or 25934402 are. Fetch it again.
heights-file-line = The heights cannot be read, line { $line }: { $fault ->
    [fault-asc-comma] write decimals with a point, not a comma
    [fault-asc-no-number] there is no number where one must be
    [fault-asc-word] the word is none of an ASCII grid's header
    [fault-asc-twice] the header says this twice
    [fault-asc-size] the header must give ncols and nrows, whole numbers
    [fault-asc-corner] the header must give xllcorner and yllcorner, or xllcenter and yllcenter
    [fault-asc-step] the header must give cellsize, a length greater than nothing
    [fault-asc-few] heights are missing, here or before: there are fewer than columns times rows
    [fault-asc-many] here or before stand more heights than columns times rows
   *[fault-asc-height] no ground is so high or so low; if that number stands for no height, name it as NODATA_value at the top of the file
}. Nothing was taken.
heights-file-packing = The heights are packed by { $kind }, which is not read. Save the file packed by deflate or LZW, or not packed.
heights-file-numbers = The picture does not hold one height to a pixel. Take a file of one band of whole numbers or of 32 or 64 bit decimals.
heights-file-no-place = The picture does not say where on the earth it lies. Take a GeoTIFF with its corner and pixel size.
heights-file-turned = The rows of the picture do not run from west to east with north at the top. Save it upright.
heights-file-unit = The heights are in the unit { $unit }, which is not known. Save them in metres.
heights-file-scaled = The heights are stored by a scale or an offset. Save them as plain metres.
heights-file-masked = Part of the picture is masked out. Save it with a number for no height instead.
heights-file-image-damaged = The picture cannot be read { $row ->
    [0] at its beginning
   *[other] from row { $row } on
}: { $ends ->
    [early] the file ends there
   *[there] { $detail }
}. Fetch it again.
heights-file-grid-outside = The numbers of this file lie where the grid { $grid } has no places: it is not the one in which the file was made. Name that one.
heights-file-post = No ground has the height { $number } (column { $column }, row { $row }). If that number stands for no height, save the file anew with it named so.
heights-file-rough = { $count } posts stand far above or below all their neighbours, steeper than 76° on every side, as no ground does: these numbers are no heights. Take a file of heights, not a picture of them.
heights-spikes = { $count ->
    [one] One post stands far above or below all its neighbours, steeper than 76° on every side, as no ground does, and counts as a gap
   *[other] { $count } posts stand far above or below all their neighbours, alone or two side by side, steeper than 76° on every side, as no ground does, and count as gaps. The first
 }: at { $place } with { $height }, where the nearest in height of those around has { $beside }. If the map shows a needle of rock there, these heights do not.
heights-flat-block = { $count ->
    [one] A block of { $posts } posts, { $across } by { $down }, lies
   *[other] { $count } blocks lie
 } all at one height within walls of 100 m and more from post to post on every side, as no lake and no ground does, and { $count ->
    [one] counts as a gap: around
   *[other] count as gaps. The first, of { $posts } posts, { $across } by { $down }: around
 } { $place } with { $height }. The file may have no height there and not say so: take another file, or say which number stands for no height when saving it.
heights-ellipsoidal = The file counts its heights from the ellipsoid, not from the sea: they differ from those of the map by up to 100 m, all nearly alike. Hold them against a spot height of the map; slopes and sights are as good, a height read off the map or by altimeter does not fit.
heights-from-ellipsoid = Mind that these heights are counted from the ellipsoid, not from the sea: heights above the sea, as the map and an altimeter have them, differ from them by up to 100 m, all nearly alike.
altimeter-ellipsoid = The heights of this sheet are counted from the ellipsoid, not from the sea, and may be 100 m off what an altimeter reads: this reading cannot be held against them. Say at which known point it was set and to what height, so that the climb from there counts alone, or bring in heights above the sea.
heights-below-sea = Half of these heights lie { $median } or more below the sea. Only a few depressions on land do, so the file may hold depths, or heights with the sign turned: hold them against a spot height of the map, and strike them off the sheet if they are wrong.
heights-8-bits = The numbers of this file have 8 bits, 256 steps at most, as pictures have them, such as shaded relief. If it is one, strike it off the sheet; of heights take a file of 16 bits or more.
heights-shades = These numbers lie between 0 and 255, and water would stand all over them as it does on no ground: so do the shades of a picture, such as shaded relief; tree tops may. If the file is a picture, strike it off the sheet and take a file of heights; else hold it against a spot height of the map.
heights-file-gaps = The file has no height for the area of the sheet: gaps alone. Take another file, or say which number stands for no height when saving it.
heights-file-pieces = The picture is stored in strips or tiles too large to be read. Save it in tiles of 256 or 512 pixels.
heights-file-grid-own = The file describes a grid of its own and gives no number of the EPSG register for it, so that it cannot be taken at its word. Name the grid when you know its number, such as EPSG:2154, or save the file in a grid that has one, best the UTM grid of the area.
heights-file-grid-needed = The file does not say in which grid its heights lie. Name the grid, such as EPSG:2154, or say that it is in degrees.
heights-file-grid-of-numbers = The file does not say in which grid its heights lie, and its corner ({ $west } east, { $north } north) is none in degrees. Name the grid that its maker states, by its EPSG number such as EPSG:2154, or lay the .prj file of the same name beside it.
heights-file-unit-needed = The file does not say whether its heights are metres or feet, and the grid { $grid } does not count in metres. Name the grid together with its heights: EPSG:2227+6360 for US survey feet, EPSG:2227+5703 for metres, with the number of the grid in front.
heights-file-units-differ = The file names two units for its heights. Save it with one, best in metres.
heights-file-depths = The numbers of this file are depths, counted downwards. Take a file of heights.
heights-file-datum = The heights lie by { $code }, whose degrees are not those of WGS 84. Save them by WGS 84 or in a grid.
heights-file-not-degrees = The corners of these heights are no degrees. Name the grid in which they lie.
heights-file-outside = No heights of this file lie in the area. Take the file of that area.
heights-tiles-differ = The heights of file { $tile } do not go with those of the first: they stand in another grid, in other steps or between its posts. Take each by itself.
heights-tiles-none = No heights were given. Take at least one file.
heights-file-cancelled = The import was cancelled. Nothing was changed.

# The photographed map
photo-too-few = Only { $marks } grid crossings are marked; mark at least { $needed }, spread over the photo.
photo-too-many = { $marks } grid crossings are marked; at most { $most } are taken.
photo-in-line = The marks stand in a line. Mark crossings that lie apart both ways, near the corners.
photo-twice = Marks { $first } and { $second } stand on one spot or have one grid reference. Take one of them away.
photo-pixels-unreadable = "{ $typed }" is no place on the photo. Write pixels from its left or upper edge, such as 1204.5.
photo-no-number = A mark, spread or square is not a usable number. Type it again.
photo-no-view = No view of a flat sheet fits these marks. Check their grid references, beginning with the last one typed.
photo-beyond = This spot of the photo shows nothing of the sheet. Tap on the map itself.
photo-unchecked = There are just enough marks to lay the photo, so a wrong one cannot show. Mark one or two more.
photo-unchecked-slant = Three marks cannot show whether the photo was taken aslant, nor whether one of them is wrong. What is told of the spread counts a slight slant; a photo from the side may be off by several times as much. Mark four or more crossings near the corners, six for a photo taken aslant; only for a scan three will do (kind affine).
photo-slant = The marks do not fit as a scan or from square above ({ $pixels } pixels), but do as seen aslant: lay the photo so (kind projective). One more mark, or two, then shows whether { $instead ->
    [0] one of them is wrong instead
   *[other] mark { $instead } is wrong instead: look again at its spot and its reference
 }.
photo-slant-or-wrong = The four marks do not fit as a scan or from square above ({ $pixels } pixels). Either the photo was taken aslant or one of them is wrong: seen aslant any four fit, so they cannot tell. Look again at the spot and the reference of each and mark two crossings more before you use a place. Only if you know that it was taken aslant, lay it so (kind projective).
photo-mirrored = So laid, the map is mirrored, as no photo shows it: right and down, or easting and northing, are exchanged in the marks. Check all of them before you use a place.
photo-one-wrong = { $first ->
    [0] The marks do not fit each other ({ $pixels } pixels), and with so few it cannot be told which is wrong. Look again at the spot and the reference of each, or mark two crossings more.
   *[other] The marks do not fit each other ({ $pixels } pixels): mark { $first } or mark { $second } is wrong. Look again at the spot and the reference of both, or mark one more crossing apart from them.
 }
photo-slip = Mark { $mark } does not fit the others: by them the reference typed for it lies { $across ->
    [0] {""}
    [one] one square too far { $across-way }
   *[other] { $across } squares too far { $across-way }
}{ $along ->
    [0] {""}
   *[other] { $across ->
        [0] {""}
       *[other] {" "}and{" "}
    }{ $along ->
        [one] one square too far { $along-way }
       *[other] { $along } squares too far { $along-way }
    }
}. Read that crossing's numbers on the paper again; if they are right, its spot was marked on another crossing.
photo-misfit = Mark { $mark } does not fit the others: by them its crossing lies { $pixels } pixels { $way ->
    [up] above
    [up-right] above and to the right of
    [right] to the right of
    [down-right] below and to the right of
    [down] below
    [down-left] below and to the left of
    [left] to the left of
   *[up-left] above and to the left of
 } the spot that was marked, { $off } on the ground. Enlarge the photo and mark it again there, or check its reference.
photo-loose = The marks fit badly ({ $pixels } pixels), { $first ->
    [0] and no single one explains it. Check all of them
   *[other] and mark { $first } explains most of it, though not for sure. Check its spot and its reference first, then the others
 }; lay the paper flat and take the photo from above.
photo-off-lines = Mark { $mark } names a square of another grid than the sheet's. Name the grid that is printed on the map, or check the reference.
photo-crossing = Mark { $mark } cannot be read: "{ $typed }" is wrong ({ part-short }). Type the reference of the crossing again.
photo-kind-unknown = "{ $name }" is no way to lay a photo. Say affine for a scan, projective for a photo taken aslant.
photo-laid = { $marks } grid crossings lay the photo over { $grid } ({ $kind ->
    [affine] as a scan or from square above
   *[projective] as seen aslant
 }). A spot tapped in their middle is good to ± { $spread } (95 %); the map's own error comes on top.
photo-mark-told = Mark { $mark }, { $crossing }: { $pixels } pixels ({ $off }) off the fit of all marks.
photo-place-told = { $name }: { $reference }, ± { $spread } (95 %).
photo-outside = This spot lies outside the marks, where the photo is not held. Mark a crossing beyond it.

## Lines and landmarks from files
import-unknown-format = This file is none that can be read. Give GeoJSON, GPX, KML, GeoPackage or OpenStreetMap PBF, not packed in an archive.
import-unreadable = The file cannot be read{ $line ->
    [0] {""}
   *[other] {" "}at its line { $line }
 }: { $why ->
    [ends] it ends too early
    [kind] { $detail } stands where something else belongs
    [not-utf-8] its text is not in UTF-8
    [without] its outermost element is not { $detail }
    [dtd] it declares its own elements and entities (<!DOCTYPE …>), which is not read; take that out
    [entity] an "&" in it begins the name of no character that is known; where it is meant itself, write &amp;
    [damaged] it is damaged
    [broken] its { $detail } breaks off or is wrong there
    [no-type] it has no member "type", as GeoJSON has one
    [topojson] it is TopoJSON, which is not read; have it written out as GeoJSON
    [no-features] it holds no features of a GeoPackage
    [no-table] it names { $detail }, which it does not have
    [views] all its layers are views, not tables of their own ({ $detail }); save them as tables in the program that made it
   *[told] { $detail }
 }. Nothing was taken. Get the file again, or write it out anew.
import-record = The file cannot be taken: { $part ->
    [at-track] track
    [at-route] route
    [at-waypoint] waypoint
    [at-placemark] placemark
    [at-row] row
    [at-node] node
    [at-way] way
    [at-relation] relation
    [at-block] block
    [at-sheet] member
   *[at-feature] feature
 } { $record } { $fault ->
    [fault-place-off-earth] has a position that is no latitude and longitude in degrees
    [fault-no-position] has a position without two numbers
    [fault-unknown-geometry] has a geometry that cannot be read
    [fault-curved] is curved: have it written out with straight pieces
    [fault-no-number] has a word such as NaN where a number belongs
    [fault-cut] ends before its time or contradicts itself
    [fault-nested] is nested too deep
    [fault-unknown-grid] is in a grid that is not known by its number
    [fault-too-many-grids] is in yet another grid, after as many of them as one file may use
    [fault-packed] is packed in a way that is not read
    [fault-swollen] is larger than is taken
    [fault-wrong-spread] has a spread that is not from 0 to 10000 m
    [fault-no-such-line] stands on a line that the file does not have
   *[fault-needs-more] is no feature with its properties
 }. Nothing was taken. Put it right or take it out.
import-area = The area encloses nothing. Give its south, west, north and east borders in degrees.
import-area-off = The area needs four borders that are degrees: south and north from -90 to 90, west and east from -180 to 180. Give them in the order south, west, north, east.
import-too-large = The file holds { $megabytes } MB; { $most } MB of this format are taken at most. Cut it to the area.
import-too-many = { $of ->
    [points] The lines of the sheet would have more than { $most } points together, the most that it holds. Name a smaller area or fewer kinds, or draw the lines with fewer points.
    [together] The file holds more than is taken: { $lines } lines and { $landmarks } landmarks, and { $most } of both together at most. Name a smaller area or fewer kinds.
   *[sort] The file holds more than is taken: at most { $most } of one sort. Name a smaller area or fewer kinds.
 }
import-stopped = The import was cancelled. Nothing was changed.
import-stopped-late = It was too late to cancel: the import was being written already, and is done. Strike what it brought if you do not want it.
import-ended = Ended at once. If the import was not written to its end by then, nothing of it is on the sheet.

## Sightlines, profiles and contours
sight-outside = It cannot be told whether this is in sight: the heights do not reach from here to there. Add the heights that are missing.
sight-void = It cannot be told whether this is in sight: the ground between has a gap in its heights. Look for yourself.
sight-spread = It cannot be told whether this is in sight: the heights are not good enough to decide it. Look for yourself.
profile-step = This step is no length to walk by: give a longer one, in metres.
profile-too-many = This profile would have { $samples } heights; at most { $most } are told. Take a longer step.
profile-outside = One end of this profile has no place in the grid of the heights. Choose ends inside the sheet.
contour-interval = This is no contour interval: give a height greater than nothing, and a base that is a height.
contour-interval-twice = Give the interval in metres or in feet, not both.
contour-too-many = This interval would give { $levels } contours; at most { $most } are drawn. Take a larger interval.

## The fix in the open
open-place = You stand at { $reference }, within { $major } along { $along } and { $minor } across that ({ $share }; lat { $lat }°, lon { $lon }°).
open-region = { $share }: about { $reference }, at most { $reach } from it, longest along { $along }, { $hectares } ha (lat { $lat }°, lon { $lon }°).
open-seen-bearing = { $landmark }: read { $read }, off by { $off } of ± { $spread }, { $distance } away.
open-seen-angle = Angle { $landmark }: read { $read }, off by { $off } of ± { $spread }, the nearer { $distance } away.
open-seen-distance = Distance to { $landmark }: read { $read }, off by { $off } of ± { $spread }, { $distance } by the sheet.
open-ground = { $what ->
    [seen] { $of } in sight
    [not-seen] { $of } not in sight
    [slope] The slope towards { $of }
    [landform] The { $of }
    [aspect] The slope underfoot that falls to { $of }
    [witness] The independent place { $of }
   *[height] The altimeter
  }: there it fits { $fits } of what it does where it fits best.
open-ground-unknown = { $what ->
    [seen] { $of } in sight
   *[not-seen] { $of } not in sight
  }: without heights this tells nothing.
open-no-area = There is no area to look for the place in. Give a sheet, or corners that lie apart.
open-unusable = Sighting { $number } cannot be weighed: give a landmark, two different ones for an angle, and a spread or distance greater than nothing.
open-nowhere = No place of the area agrees with what was sighted. Check each sighting, and whether the area is the right one.
open-poor-cut = The bearings cut at only { $cut }: the place slides up to { $reach }. Sight something nearer to square.
open-danger-circle = You are near the circle through the three marks: the place slides { $times } times as far as an angle there is wide, up to { $reach }. Measure an angle to another mark, or a bearing.
open-on-danger-circle = The angles fit every place of the circle through the three marks, so they fix none. Measure an angle to another mark, or a bearing.
open-in-line = You are in one line with the three marks: the angles fit every place on it. Measure an angle to a mark beside the line, or a bearing.
open-several = Do not choose between { $count } regions by liking. Take another sighting.
open-too-few = What was measured leaves a strip or a ring, not one place. Take another sighting.
open-misfit = { $landmark } does not fit: it is off by { $sigmas } times its spread. Measure it again and check which landmark it is.
open-shared-turn = All bearings meet if each was read too { $side } by { $turn } ± { $spread }. Look for iron near the compass and check the declination that was used; the place told takes only a usual error into account.
open-shared-turn-or-one = All bearings meet if each was read too { $side } by { $turn } ± { $spread }; one wrong reading would look the same ({ $rivals }). Look for iron near the compass, check the declination, and read those again.
open-hidden-where-met = The readings meet where { $landmark } should not be in sight by the heights; the place told lies beside that, where it is. Is it really this one, and do the heights hold?
open-not-round = The angles go once round and add up to { $sum }, not to 360°: one of them is misread. Measure them again, each from its left landmark to its right one.
open-beyond-area = The sightings meet outside of the area that was looked at: 2 km around everything on the sheet. Check each sighting, and where its landmark stands on the sheet.
open-at-edge = The place reaches the edge of the area that was looked at: it may lie beyond.
open-elsewhere = { $share } is left for standing elsewhere, if a reading is plainly wrong: the limits told hold less than 95 % of the whole. Take another sighting.
resection-on-circle = The two angles fit every place of the circle through the three marks. Choose another mark.
resection-in-line = Marks and place lie in one line: the two angles fit every place on it. Choose another mark.
resection-nowhere = No place shows these two angles between the marks in this order. Check the order and both angles.

## Files brought in
base64-unreadable = The file did not arrive whole: its text is no base 64. Bring it in again.
import-car-kept = A place is kept on this sheet, and the sheet may not change under it. Close the trip first, then bring the file in.
import-kind-unknown = "{ $name }" is no kind of line or landmark. Say road, track, path, creek, river, ridge, fence, summit, mast, tower, church or building, for instance.
import-empty = { $name } is empty: it holds no byte. Get the file again.
import-packed = { $name } is packed. Unpack it and bring in the file inside; of a .kmz that is the .kml.
import-osm-xml = { $name } is OpenStreetMap data as XML, which is not read. Get it, or save it, as .osm.pbf.
import-utf-16 = { $name } is written in UTF-16. Save it in UTF-8 and bring it in again.
import-neither = { $name } is none of the files that can be read. Give GeoJSON, GPX, KML, GeoPackage or OpenStreetMap PBF for lines and landmarks; .hgt, .asc or GeoTIFF for heights. Unpack it first when it is packed.
import-nothing = { $name } has nothing for the sheet: { $left ->
    [0] it holds no line, landmark or named point
    [one] its one record is not wanted, lies outside the area or says nothing a walker can use
   *[other] its { $left } records are not wanted, lie outside the area or say nothing a walker can use
 }. Nothing was taken. Name another area or other kinds.
import-features = From { $name }: { $lines ->
    [one] one line
   *[other] { $lines } lines
 }, { $landmarks ->
    [one] one landmark
   *[other] { $landmarks } landmarks
 }, { $known ->
    [one] one named point
   *[other] { $known } named points
 }{ $already ->
    [0] {""}
    [one] {"; "}one was already on the sheet, or came twice
   *[other] {"; "}{ $already } were already on the sheet, or came twice
 }; { $left ->
    [0] { $layers ->
        [0] no record
       *[other] {""}
     }
    [one] one of { $records } records
   *[other] { $left } of { $records } records
 }{ $both ->
    [yes] {" and "}
   *[no] {""}
 }{ $layers ->
    [0] {""}
    [one] one layer
   *[other] { $layers } layers
 } left out.
import-far = The file cannot be taken: its "{ $name }" at { $place } (latitude, longitude) lies { $distance } from { $from ->
    [file] where most of the file lies
   *[sheet] the middle of the sheet
 }, and a sheet reaches 300 km from its middle. { $more ->
    [0] {""}
    [one] One more lies away: { $others }.{" "}
   *[other] { $more } more lie away: { $others }.{" "}
 }{ $exchanged ->
    [yes] With latitude and longitude exchanged it would lie near: the file may have them the other way round. Exchange them there, in GeoJSON the longitude comes first.
   *[no] { $from ->
        [file] Check its place, or name the area that you want.
       *[sheet] Check its place, or begin a new sheet with it.
     }
 }
import-far-off = What came in lies { $distance } from all that was on the sheet before. If it should lie near, latitude and longitude may be exchanged in the file, or its grid may be another: strike it off the sheet and put the file right. If it is of another area, begin a new sheet with it.
import-kind-unsaid = { $count ->
    [one] One line says no kind and is
   *[other] { $count } lines say no kind and are
 } taken as { $kind }: { $names }. If one is something else, such as a river, name its kind: the data item "kind" in KML, <type> in GPX, "kind" in GeoJSON and wherever lines are typed.
import-kinds-odd = Of a kind not known here (how many of each, and as what they are taken): { $list }. Where that is wrong, name the kinds anew in the file, or bring in only those you want.
import-gone = { $count ->
    [one] One road, building or other thing that is planned, being built or gone is
   *[other] { $count } roads, buildings and other things that are planned, being built or gone are
 } left out.
import-cut = { $count ->
    [one] One way or outline lacks
   *[other] { $count } ways or outlines lack
 } points that the file does not hold, as at the edge of a part cut out of a bigger file: { $names }. A way breaks off there, with fewer than two points it is left out, and so is an outline that does not close. Where you need them, cut the part anew with whole ways, or wider.
import-covered-water = { $count ->
    [one] One stretch of water that runs 100 m or more under the ground is
   *[other] { $count } stretches of water that run 100 m or more under the ground are
 } left out, { $metres } in all: nobody sees it.
import-covered-way = { $count ->
    [one] One stretch of road, path or railway runs
   *[other] { $count } stretches of road, path or railway run
 } 100 m or more under the ground, { $metres } in all. It stays part of its line, as distances count on through it; nobody takes bearings there, so pass over a place that a fix tells in a tunnel.
import-heights-odd = { $count ->
    [one] One height above the ground cannot be read or cannot be, and the usual one of its kind stands for it
   *[other] { $count } heights above the ground cannot be read or cannot be, and the usual ones of their kinds stand for them
 }: { $names }. Write metres with a point, above 0 and up to 1000.
import-unfolded = { $count ->
    [one] One line comes over its own ground again, there and back or round after round
   *[other] { $count } lines come over their own ground again, there and back or round after round
 }: that is one way, taken once, and distances along it count it once. So much of the length was walked again: { $names }.
import-shared = { $count ->
    [one] One line has a stretch that another of its name has, or one with a name where it has none
   *[other] { $count } lines have stretches that others of their names have, or others with a name where they have none
 }, point by point: that ground is taken once: { $names }.
import-in-common = Lines of two names that run over the same ground, point by point, stay whole under both: { $names }. Who stands there stands on both: name one of them when you take a fix.
import-level-alone = { $count ->
    [one] One way has a level of its own and is on no bridge and in no tunnel
   *[other] { $count } ways have a level of their own and are on no bridge and in no tunnel
 } by the file: { $names }. Where such a way crosses another and both have no point in common they do not meet; what leads one over the other nobody says, so that it counts as neither junction nor bridge. Look on the paper.
import-differing = { $count ->
    [one] One landmark is on the sheet already, but otherwise than in the file, and stays as it is there
   *[other] { $count } landmarks are on the sheet already, but otherwise than in the file, and stay as they are there
 } (on the sheet → in the file): { $names }. To have it as in the file, strike it off the sheet and bring the file in again.
import-differing-lines = { $count ->
    [one] One line is on the sheet already, but under another name or kind than in the file, and stays as it is there
   *[other] { $count } lines are on the sheet already, but under other names or kinds than in the file, and stay as they are there
 } (on the sheet → in the file): { $names }. To have it as in the file, strike it off the sheet and bring the file in again.
import-other-course = { $count ->
    [one] One line is on the sheet already, but runs otherwise in the file, and stays as it is there
   *[other] { $count } lines are on the sheet already, but run otherwise in the file, and stay as they are there
 } (how far apart at the most): { $names }. To have it as in the file, strike it off the sheet and bring the file in again.
import-beside = { $count ->
    [one] One line or landmark of the file has the name and kind of one on the sheet, but lies elsewhere, and came in beside it
   *[other] { $count } lines or landmarks of the file have the names and kinds of some on the sheet, but lie elsewhere, and came in beside them
 } (on the sheet → new, how far off): { $names }. If both are the same thing, strike the one that is wrong off the sheet.
import-twins = { $count ->
    [one] One line or landmark of the file came in although it may be one on the sheet that the file does not have where it is
   *[other] { $count } lines or landmarks of the file came in although they may be some on the sheet that the file does not have where they are
 }: of the same name and another kind, or of the same kind in the same place under another name (on the sheet → new, how far off): { $names }. If both are the same thing, strike the one that is wrong off the sheet.
import-single = { $count ->
    [one] One line of the file has stretches of a single point, which lead nowhere and are left out
   *[other] { $count } lines of the file have stretches of a single point, which lead nowhere and are left out
 } (how many): { $names }.
import-head-unused = The file also says something of the sheet itself, its name, grid, spread or norths, and says it otherwise than the open sheet, which keeps its own. To have those of the file, make a new sheet from it.
import-shift-in-spread = What came in from there counts as less sure by that: { $spread } stand in the spread of each of its lines and landmarks.
import-views = { $count ->
    [one] One layer of the file is a view, not a table of its own, and was left out
   *[other] { $count } layers of the file are views, not tables of their own, and were left out
 }: { $names }. To have it, save it as a table of its own in the program that made it.
import-log-left = { $name } is still being written, or was not closed: a part of it stands in { $log } beside it. Nothing was taken. Close it in the program that wrote it, or save it there anew as one file, and bring it in again.
import-log-unseen = This GeoPackage was written with a log beside it, a file of its name that ends in -wal. If there is one, what stands in it alone was not read: close the file in the program that wrote it, or save it there anew as one file, and bring it in again.
import-in-pieces = { $count ->
    [one] One name is that of several pieces that do not join, numbered from 2 on
   *[other] { $count } names are those of several pieces that do not join, numbered from 2 on
 }: gaps in the data, branches, or ways of one name in several places (how many pieces): { $names }. A fix on the plain name weighs all its pieces; name one with its number to stand on that alone.
fix-pieces = { $line } lies on the sheet in { $count } pieces, { $first } to { $last }: all are weighed. Who knows which it is names that one alone.
import-left = Left out, as not wanted, outside the area or of no use on a sheet: { $names }.
import-left-kinds = Left out, as of no kind that is sighted or followed on a sheet (how many of each): { $list }. To have one of them, give it a kind of the sheet in the file, as in "kind": "landmark".
import-placeless = { $count ->
    [one] One record has no place, or an empty one, and is
   *[other] { $count } records have no place, or an empty one, and are
 } left out: { $names }.
import-in-part = { $count ->
    [one] Of one record an area or a line is left out, as it
   *[other] Of { $count } records an area or a line is left out, as it
 } says no kind of a sheet; the rest came in: { $names }.
import-links = { $count ->
    [one] One link to another file is not followed
   *[other] { $count } links to other files are not followed
 }: { $names }. Get what it leads to as a file of its own and bring that in.
import-same-names = { $count ->
    [one] One name is that of several landmarks of the file, numbered from 2 on
   *[other] { $count } names are those of several landmarks of the file, numbered from 2 on
 } (how many): { $names }. Name the one that you see with its number; where you cannot tell which it is, name them all, as one of several.
import-unnamed = { $count ->
    [one] One landmark has neither a name nor a kind in the file and is called
   *[other] { $count } landmarks have neither a name nor a kind in the file and are called
 } { $names }. If the file has their names under another word, write them under "name".
import-spread = { $count ->
    [one] For one landmark the file states no spread of its place. It counts
   *[other] For { $count } landmarks the file states no spread of their places. They count
 } as ± { $spread } (95 %), the error of the map included. Where you know better, state one sigma in metres as "spread_m".
import-all-there = From { $name }: nothing new. { $already ->
    [one] What it holds was already on the sheet
   *[other] All { $already } that it holds were already on the sheet
 }, which stays as it is{ $left ->
    [0] {""}
    [one] {"; "}one of { $records } records is left out
   *[other] {"; "}{ $left } of { $records } records are left out
 }{ $layers ->
    [0] {""}
    [one] {"; "}one layer is left out
   *[other] {"; "}{ $layers } layers are left out
 }.
import-fix-anew = The sheet has changed: take the fix again.
import-progress = Read: { $share }. Nothing is changed yet, and breaking off here (Ctrl-C) changes nothing.
import-heights = From { $name }: heights in { $rows } rows of { $columns } posts, { $even ->
    [no] { $east } apart from west to east and { $south } from north to south
   *[yes] { $east } apart
 }; one height may be wrong by { $spread } (one standard deviation).
import-heights-own-grid = The file says itself that its heights lie in { $own }, and so they were taken: { $named }, as named for it, was not used. If the file is wrong, save it anew in the right grid.
import-heights-prj = The .prj file beside it says { $beside }{ $units ->
    [differ] {", in the unit "}{ $beside-unit }
   *[same] {""}
 }; { $named }{ $units ->
    [differ] {", in the unit "}{ $named-unit }
   *[same] {""}
 }, as named for it, was taken all the same. If that is wrong, strike these heights off the sheet and bring them in again without naming a grid.
import-heights-prj-unit = The .prj file beside it counts heights in a unit of { $beside } m; they were taken in one of { $taken } m, by the grid that was named. If that is wrong, strike these heights off the sheet and bring them in again without naming a grid, or name the heights too, such as EPSG:2227+6360.
import-heights-outside = These heights lie { $far } outside of what { $grid } is made for. If the file was made in another grid they stand in a wrong place: hold them against a spot height of the map, else strike them off the sheet and name the right grid.
import-prj-odd = The .prj file beside { $name } cannot be understood: it must hold the coordinate system of the heights as its maker writes it. Lay the right one there, or name the grid by its EPSG number, such as EPSG:2154, which then counts instead.
import-outside = What { $of ->
    [layer] the layer { $layer } of this file holds
   *[file] this file holds
 } lies { $far } outside of what { $grid } is made for. If it was made in another grid it stands in a wrong place: hold it against the map, else strike it off the sheet and have it written in latitude and longitude.
import-heights-gaps = { $few ->
    [yes] Less than 0.1 %
   *[no] { $share }
 } of the heights that are kept have no height: gaps of the file. There and close by nothing can be told.
import-heights-left-out = { $by ->
    [area] { $share } of the file lies outside of the area that was named, and was left out.
   *[sheet] Heights up to { $beyond } around what is on the sheet were kept; { $share } of the file lies farther off and was left out. To keep more, such as hills that hide the sun, bring it in again with the borders of a wider area (at the desk --area SOUTH WEST NORTH EAST).
 }
import-heights-joined = They are joined with the heights from { $source }{ $wider ->
    [yes] {"; "}all together count as wrong by { $spread }, as the less sure of them are
   *[no] {""}
}.
import-heights-seam = They have no post in common with those that are there, so that nothing shows whether both count from one level{ $seam ->
    [apart] , and they nowhere meet: hold each against a spot height of the map.
    [even] . Where they meet the ground goes on with a step of { $step }, no more than slopes and spreads make.
   *[step] , and where they meet the new ones step { $side ->
        [down] down
       *[up] up
     } by { $step }, more than the { $allowed } that slopes and spreads make. One of the files counts from another level or is wrong there: what is told of rises, sights and contours over the seam is not the ground's. Hold both against spot heights of the map, and strike the wrong ones off the sheet.
 }
import-heights-spacing = { $source ->
    [srtm] Heights of SRTM
    [aster] Heights of ASTER
    [third-arc-second] Heights of the 1/3 arc-second grid
   *[laser] Heights by laser scanning
 } are published with posts { $range ->
    [up-to] up to { $widest } apart
    [between] { $closest } to { $widest } apart
   *[one] { $widest } apart
 }; these stand { $spacing } apart. The spread of that source, { $spread }, was taken as it was named: if they come from elsewhere they may be off by more, and so may what is told of sights and landforms. Strike them off the sheet then, and bring them in again with their own source, or with none.
import-heights-common = { $count ->
    [one] One post has
   *[other] { $count } posts have
} a height in both, of which the new one stands; they differ by { $median } (median), by { $worst } at the worst.
sheet-name-open = The open sheet is called { $name } already. Leave the name out to add to it, or give the new sheet another name.
sheet-put-away = The sheet { $name } was put away for it and is not opened again from here: bring its file in, or type it, anew when you need it.
sheet-name-needed = This is a new sheet: give it a name, with a first line or landmark.
sheet-place-needed = A sheet needs a first line or landmark, to know where it lies. Add one.
sheet-continued = { $record }: { $typed } is read as { $reference }, next to the place before it, over the edge of the square that was told. If that is wrong, write its square letters.
sheet-place-far = { $record }: "{ $typed }" lies { $far } from the rest of the sheet: { $part ->
    [figures] its { $number ->
        [west] westing
        [south] southing
        [north] northing
       *[east] easting
     } has { $figures } figures, there it has { $usual }.
    [both-figures] count the figures of both its numbers.
    [zone] its zone is not that of the sheet.
    [half] check north and south.
    [letters] check its square letters.
    [number] check the figures of its { $number ->
        [west] westing
        [south] southing
        [north] northing
       *[east] easting
     }.
    [latitude] check its latitude.
    [longitude] check its longitude.
   *[all] check every figure.
 }
sheet-zone-typed = Its grid is { $grid }, the zone of the references as they were typed; its middle lies in zone { $zone }. If the map prints another grid, name that.
sheet-other-datum = { $grid } counts on another datum than WGS 84: the same numbers lie { $off } apart here. References with a zone (MGRS, UTM) are read on WGS 84: off this map { $form ->
    [lettered] write its own two letters and figures, or its easting and northing
    [zone] leave the zone out, then they are read on the map's own datum, or give its own easting and northing
   *[own] give its own easting and northing
 }.
sheet-line-to-come = No line is on the sheet yet. A fix in the open needs none; for a fix on a line add the road, track or creek to stand on.
sheet-undo = Undo does not take this back: strike lines, points and landmarks off the sheet by their names.
sheet-strike-unknown = Nothing on the sheet is called "{ $name }". Write the name as the sheet has it.
sheet-credit = Data: { $credit }.
paper-scale = The map is printed at 1:{ $scale }.
paper-year = { $old ->
    [yes] The map is of { $year }, { $age } years old: what was built or felled since is not on it, and a north diagram that it prints is not to be relied on
    [future] The map is said to be of { $year }, a year to come: check the year, and the date
   *[no] The map is of { $year }: what was built or felled since is not on it
 }.
spots-waiting = { $count ->
    [one] One spot height is
   *[other] { $count } spot heights are
 } on the sheet; they will show how far its heights can be trusted once there are some.
spots-told = { $count ->
    [one] Against one spot height of the map
   *[other] Against { $count } spot heights of the map
 } the heights of the sheet lie { $way ->
    [level] neither too high nor too low
    [below] { $mean } too low
   *[above] { $mean } too high
 } on average; each is off by about { $off }. { $agree ->
    [well] That is as good as such heights are.
    [bias] So many are not off the same way by chance, which leaves their mean within { $within }: the heights of the file, or those of the map, are wrong by about { $mean } throughout. Find out from which level the file counts; heights above the ellipsoid instead of the sea do this. An altimeter set by the map does not go with such heights.
    [feet] One of the two seems to be in feet where the other is in metres. Check the spot heights, then the file.
   *[off] That is more than such heights may be wrong. { $count ->
        [one] {""}
       *[other] Farthest off is { $worst }, where they lie { $far } { $side ->
            [below] too low
           *[above] too high
         }.{" "}
     }Check the spot heights, then the file.
 }
spots-two = { $spot } has two spot heights, { $first } and { $other }. Find out on the paper which is right, strike "{ $spot }" off the sheet and type it anew.
heights-source-unknown = "{ $name }" is no source of heights. Say srtm, aster, third-arc-second, laser or unknown.
heights-cover-unknown = "{ $name }" is no cover of the ground. Say open or forest.
import-terms-of-heights = Grid, source and cover are asked of heights. This file has lines and landmarks: they were passed over.
import-terms-of-features = Kinds choose among lines and landmarks. This file has heights: they were passed over.
import-heights-instead = They stand in the place of the heights from { $source }, which are no finer and reach no farther.
import-heights-worse = { $name } would take the place of the heights from { $source }, for a sheet holds heights of one grid only, and { $why ->
    [coarser] its posts stand { $new } apart, not { $old }
   *[narrower] it leaves out ground that they know
 }. Nothing was changed. To take { $name } all the same, strike "{ $source }" off the sheet first.
heights-contradict = { $name } and the heights from { $source } contradict each other: where both have a height ({ $count ->
    [one] one post
   *[other] { $count } posts
}) they differ by { $median } (median), by { $worst } at the worst, and their spreads allow { $allowed }. One of the two is wrong, counts from another level or in another unit. Nothing was changed. If those from { $source } are the wrong ones, strike "{ $source }" off the sheet and bring { $name } again.
heights-undo = Undo does not take heights back: strike "{ $source }" off the sheet to be rid of them.
heights-struck = The heights from { $source } are struck off the sheet.

## What should be seen
height-unreadable = The height "{ $typed }" is no number. Write metres above the sea with a point, such as 412.5.
heights-needed = This sheet has no heights. Bring some in: a file of .hgt, .asc or GeoTIFF.
seen-from = From { $place }, by the heights of the sheet:
seen-landmark-here = { $landmark }: you stand at it.
seen-landmark = { $landmark }: { $sight }, { $bearing }, { $distance }{ $usual ->
    [yes] {" "}(its own height is not known; { $height }, usual for its kind, is taken)
   *[no] {""}
}.
sight-expected-seen = { $expected }, { $sight }
sight-word = { $seen ->
    [in-sight] in sight
    [hidden] hidden by ground { $off } off
   *[uncertain] { $known ->
        [yes] perhaps hidden ({ $chance } in sight)
        [hardly] probably hidden ({ $chance } in sight), though it clears the ground by the heights as they stand{ $gap ->
            [none] {""}
           *[other] , which have a gap on the way, { $gap } off
         }
       *[no] not to be told from the heights{ $gap ->
            [none] {""}
           *[other] , which have a gap on the way, { $gap } off
         }
     }
 }
seen-off-heights = This place lies outside the heights of the sheet, or in a gap of them: nothing can be told from there. Bring in heights that reach it, or name another place.
seen-heights-end = The heights of the sheet end { $distance } from here: landforms near that end and beyond it cannot be told. Bring in heights that reach farther.
seen-no-landform = By { $gap ->
    [yes] the heights that are known
   *[no] these heights
 } no landform stands out within { $distance } of here.
seen-gap = A gap in the heights begins { $from } from here: of the ground within { $distance }, { $share } has no height. What stands there is not known, and landforms in the gap and near it cannot be told. Bring in heights without the gap.
seen-more-cliffs = { $count ->
    [one] One more cliff stands { $nearest } from here, { $height } high{ $falling ->
        [none] {""}
       *[all] , and the ground falls away at it
     }. It is
   *[other] { $count } more cliffs stand within { $distance } of here, the nearest { $nearest } off, up to { $height } high{ $falling ->
        [none] {""}
        [all] , and the ground falls away at all of them
       *[some] , and the ground falls away at { $falls } of them
     }. They are
 } not told one by one: look at the contours before you walk on.
seen-cliffs = Cliffs lower than about { $height } may not show in heights { $spacing } apart, nor may narrow ones, and no slope below 45° is told as a cliff, however high: mind the ground itself.
seen-more-of-kind = { $count } { $kind ->
    [hill] { $count ->
        [one] hill
       *[other] hills
    }
    [saddle] { $count ->
        [one] saddle
       *[other] saddles
    }
    [spur] { $count ->
        [one] spur
       *[other] spurs
    }
    [draw] { $count ->
        [one] draw
       *[other] draws
    }
   *[depression] { $count ->
        [one] depression
       *[other] depressions
    }
 } (the nearest { $nearest } off)
seen-more-landforms = Not told one by one, though no farther than { $distance }: { $list }. Take none of them for one that is told.
seen-caution = Trees and buildings are not in the heights: they can hide what should be seen.
heights-told = Heights from { $source }: { $across } from west to east, { $down } from north to south, a post every { $even ->
    [no] { $east } and { $south }
   *[yes] { $east }
 }; one height may be wrong by { $spread } (one standard deviation).
heights-credit = Heights: { $credit }.
stand-unknown = Nothing says where you stand: there is no fix yet. Name the place, or take a fix first.
ground-unknown = The height there is not known: it lies outside the heights of the sheet, or in a gap. Name another place.
ground-rise-unknown = Towards { $bearing } it is not known what the ground does over { $distance }: the heights end there, or have a gap.
ground-part-unknown = The heights end near here, or have a gap: { $slope ->
    [told] {""}
   *[untold] the slope close around cannot be told{ $rises ->
        [told] {""}
       *[untold] , and{" "}
     }
 }{ $rises ->
    [told] {""}
   *[untold] in none of the 8 directions is it known what the ground does over { $distance }
 }.
ground-height-told = At { $place } the ground is { $height } high, give or take { $spread } (one standard deviation).
profile-told = { $length } on the flat: { $climb } up and { $descent } down, counted from height to height.
profile-heights = It begins { $begin ->
    [unknown] where no height is known
   *[other] at { $begin }
 } and ends { $end ->
    [unknown] where no height is known
   *[other] at { $end }
 }; its highest place, { $highest }, lies { $highest-at } from the beginning, its lowest, { $lowest }, { $lowest-at } from it.
profile-errors = One height may be wrong by { $spread } (one standard deviation). On level ground such errors alone would make about { $errors } up and as much down on this way{ $all ->
    [yes] : beyond the difference between both ends, what is counted up and down may be nothing else.
   *[no] , less on a slope: so much of what is counted may be none of the ground.
 }
profile-steepest = Steepest { $way ->
    [down] down
   *[up] up
 } by { $slope }, { $from } from the beginning; errors of the heights may make up to { $spread } of that.
profile-steepest-unsure = How steep its steepest part is cannot be told: the { $slope } counted { $from } from the beginning may be errors of the heights and nothing else.
profile-dead = { $count ->
    [0] { $doubt ->
        [spread] No stretch of the way is surely dead ground to the eye.
        [gap] The eye sees all of the ground up to where a gap in the heights begins, { $until } off.
       *[none] The eye sees all of the ground on the way.
     }
    [one] One stretch of the way, { $hidden } long, is dead ground to the eye; it begins { $first } off.
   *[other] { $count } stretches of the way, { $hidden } together, are dead ground to the eye; the first begins { $first } off.
 }
profile-perhaps-dead = Of { $length } of the way, from { $until } off on, it cannot be told whether the eye sees them: the heights may be wrong by more than decides it.
profile-untold = From { $until } off, where a gap in the heights begins, it cannot be told of { $length } of the way whether the eye sees them: what stands in the gap may hide them.
profile-gaps = About { $length } of the way lie outside of the heights of the sheet, or in a gap of them: what is there is not counted.
profile-end-unknown = At "{ $name }" no height is known: it lies outside of the heights of the sheet, or in a gap of them, and what an eye sees on the way cannot be told. Name another place, or leave the height of the eye out.
profile-off-heights = Nowhere on this way is a height known: it lies outside of the heights of the sheet, or in a gap of them. Bring in heights that reach it, or name other places.
contours-too-fine = The contours would have more than { $most } places together, more than are told at once. Ask for a wider interval, or strike these heights off the sheet and bring in those of a smaller area.
contours-fine = Heights that may be wrong by { $spread } (one standard deviation) carry contours { $least } apart and wider, so that nine places of ten lie within half an interval; of finer ones the bends and rings may be errors.
contours-blank = { $share } of the sheet has no height: without contours, yet not level{ $drawn ->
    [yes] ; it is hatched in the drawing
   *[no] {""}
 }.
contours-told = { $count ->
    [one] One contour
   *[other] { $count } contours
 }, { $unit ->
    [feet] { $interval }{"\u00A0"}feet
   *[metres] { $interval }{"\u00A0"}m
 } apart.

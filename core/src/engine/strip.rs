//! The strip that every place of a shell shows.

use super::light::SunAndGround;
use super::show::TripLight;
use super::state::Trip;
use super::view::StripView;
use crate::earth::Instant;
use crate::homeward::Home;
use crate::words::Words;

/// Beside the line a fix is out of date after so long: one is taken to have gone on. Common practice, no source.
const FIX_LASTS_S: f64 = 3_600.0;
/// On foot a place is out of date after so long without another turn: at 3 km/h it lies a kilometre behind. Common practice,
/// no source.
const TURN_LASTS_S: f64 = 1_200.0;

/// What the limits of a place hold unless much is left for standing elsewhere.
const WITHIN_LIMITS: f64 = 0.95;

/// A place as it was last known.
struct Known {
    /// How many places the fix leaves.
    count: usize,
    /// Half-width, metres.
    half_m: f64,
    /// How much of the probability lies within it.
    share: f64,
    at: Instant,
    lasts_s: f64,
    /// Whether its readings speak against each other: no place is to be relied on.
    is_contradicted: bool,
}

impl Known {
    /// Past its limit; so is what is of no known age.
    fn is_old(&self, now: Option<Instant>) -> bool {
        now.is_none_or(|now| now.seconds_since(self.at) > self.lasts_s)
    }
}

/// The strip of a trip at a time.
pub(super) fn view(trip: Option<&Trip>, now: Option<Instant>, light: Option<&TripLight>, words: &Words) -> StripView {
    let reckoned = trip.and_then(reckoned);
    let home_is_old = reckoned.as_ref().is_some_and(|(known, ..)| known.is_old(now));
    let (home, home_note) = words.strip_home(reckoned.as_ref().map(|(_, home, walked_95_m)| (*home, *walked_95_m)));
    let on_foot = reckoned.map(|(known, ..)| known).filter(|_| trip.is_some_and(|trip| !trip.legs.is_empty()));
    let place = on_foot.or_else(|| trip.and_then(fixed));
    let is_contradicted = place.as_ref().is_some_and(|known| known.is_contradicted);
    let (sure, sure_note) = match &place {
        Some(_) if is_contradicted => words.strip_not_sure(),
        known => words.strip_sure(known.as_ref().map(|known| (known.count, known.half_m, known.at)), now),
    };
    let sure_label = words.strip_sure_label(place.as_ref().filter(|known| known.count == 1 && !is_contradicted).map(|known| known.share));
    let (light, light_note) = now.zip(light).map_or_else(
        || words.strip_no_light(),
        |(now, light)| {
            let is_behind = matches!(light.ground, SunAndGround::Behind(_));
            words.strip_light(now, &light.level, (light.ground.until(), light.ground.again()), is_behind)
        },
    );
    let sure_is_old = place.is_some_and(|known| known.is_old(now));
    StripView { sure_label, sure, sure_note, sure_is_old, home, home_note, home_is_old, light, light_note }
}

/// On foot: the greater half-axis of the reckoned place, the way home from it, and the greater half-axis of the walk alone.
fn reckoned(trip: &Trip) -> Option<(Known, Option<Home>, f64)> {
    let (car, _, here) = trip.here()?;
    let (half_m, at) = (here.half_axes_95_m.0, trip.known_at(car));
    let known = Known { count: 1, half_m, share: WITHIN_LIMITS, at, lasts_s: TURN_LASTS_S, is_contradicted: false };
    Some((known, here.home, here.walked_95_m))
}

/// Beside the line: the fix. Once the car's place is kept one walks away from it.
fn fixed(trip: &Trip) -> Option<Known> {
    let lasts_s = if trip.car.is_some() { TURN_LASTS_S } else { FIX_LASTS_S };
    if let Some(taken) = &trip.open {
        let (places, best) = (&taken.report.places, taken.report.places.first()?);
        let share = if taken.fix.is_much_elsewhere() { best.share } else { WITHIN_LIMITS };
        let is_contradicted = taken.fix.is_contradicted(&taken.slips);
        return Some(Known { count: places.len(), half_m: best.reach_m, share, at: taken.at, lasts_s, is_contradicted });
    }
    let taken = trip.fix.as_deref()?;
    let best = taken.fix.stretches.first()?;
    let share = if taken.fix.is_much_elsewhere() { best.share } else { WITHIN_LIMITS };
    let (count, half_m) = (taken.fix.stretches.len(), best.half_width_95_m());
    Some(Known { count, half_m, share, at: taken.at, lasts_s, is_contradicted: taken.fix.is_contradicted(&taken.slips) })
}

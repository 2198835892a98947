//! The strip that every place of a shell shows.

use super::state::Trip;
use super::view::StripView;
use crate::earth::{Instant, light_from};
use crate::words::Words;

/// The strip of a trip at a time.
pub(super) fn view(trip: Option<&Trip>, now: Option<Instant>, words: &Words) -> StripView {
    let (sure, sure_note) = sure(trip, now, words);
    let here = trip.and_then(Trip::here);
    let home = here.as_ref().map(|(_, _, here)| here.home);
    let (home, home_note) = words.strip_home(home);
    let dark = trip.zip(now).and_then(|(trip, now)| light_from(trip.sheet.frame.origin(), now).dark);
    let (light, light_note) = words.strip_light(now, dark);
    StripView { sure, sure_note, home, home_note, light, light_note }
}

/// On foot the greater half-axis of the reckoned place, beside the line the fix.
fn sure(trip: Option<&Trip>, now: Option<Instant>, words: &Words) -> (String, String) {
    let Some(trip) = trip else { return words.strip_sure(None, now) };
    if let Some((car, _, here)) = trip.here().filter(|_| !trip.legs.is_empty()) {
        let at = trip.legs.last().map_or(car.taken.at, |(at, _)| *at);
        return words.strip_sure(Some((1, here.half_axes_95_m.0, at)), now);
    }
    let fix = trip.fix.as_deref().and_then(|taken| {
        let best = taken.fix.stretches.first()?;
        Some((taken.fix.stretches.len(), best.half_width_95_m(), taken.at))
    });
    words.strip_sure(fix, now)
}

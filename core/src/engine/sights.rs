//! What can be sighted from the likeliest place, and what to sight next.

use super::answer::Answer;
use super::commands::Done;
use super::listed::{LISTED, is_named, of_named, told};
use super::state::Trip;
use super::view::{NextSightView, SightView};
use super::{Engine, Refusal};
use crate::earth::{Compass, Norths};
use crate::fix::{NextSight, NextWhat};
use crate::ground::{Seen, Sight};
use crate::measure::{NamedBearing, Point};
use crate::sheet::Landmark;
use crate::words::Words;

/// The landmarks that a walker is shown: those that were read, and the first [`LISTED`] of the others; and how many are left.
pub(super) fn listed(trip: &Trip, words: &Words) -> (Vec<SightView>, u32) {
    first(views(trip, words))
}

fn first(all: Vec<SightView>) -> (Vec<SightView>, u32) {
    let (count, mut room) = (all.len(), LISTED);
    let listed: Vec<SightView> = all
        .into_iter()
        .filter(|one| {
            let has_room = room > 0;
            room -= usize::from(has_room && !one.sighted);
            one.sighted || has_room
        })
        .collect();
    let left = u32::try_from(count - listed.len()).unwrap_or(u32::MAX);
    (listed, left)
}

impl Engine {
    /// The landmarks with these words in their names, in the order of the list.
    pub(super) fn sights(&self, named: &str) -> Result<Done, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let found = views(trip, &self.words).into_iter().filter(|one| is_named(&one.landmark, named)).collect();
        let (sights, left) = first(found);
        let rows = sights.iter().map(|one| self.words.sight_listed(&one.landmark, &one.told)).collect();
        let said = told(&self.words, of_named(named, "sights-all", "sights-named"), left, rows);
        Ok(Done::answered(said, Answer::Sights { sights, left }))
    }
}

/// Every landmark of the sheet, nearest first once there is a fix; those that the ground hides come last.
fn views(trip: &Trip, words: &Words) -> Vec<SightView> {
    let asked = Asked { from: from(trip), words };
    let sight = |index: usize| asked.from.as_ref().and_then(|from| from.sights.get(index).copied());
    let landmarks = trip.sheet.landmarks.iter().enumerate().map(|(index, landmark)| (landmark, sight(index)));
    let mut all: Vec<(bool, SightView)> =
        landmarks.map(|(landmark, sight)| (sight.is_some_and(|sight| sight.seen == Seen::Hidden), asked.view(landmark, sight))).collect();
    all.sort_by(|(a_hidden, a), (b_hidden, b)| {
        a_hidden.cmp(b_hidden).then(a.distance_m.unwrap_or(0.0).total_cmp(&b.distance_m.unwrap_or(0.0)))
    });
    all.into_iter().map(|(_, view)| view).collect()
}

/// The likeliest place, and what is known from there.
struct From<'a> {
    at: Point,
    norths: &'a Norths,
    sights: &'a [Sight],
    /// Landmarks with their readings.
    read: Vec<(&'a str, NamedBearing)>,
}

fn from(trip: &Trip) -> Option<From<'_>> {
    let (at, norths) = trip.fixed_at(0)?;
    if let Some(taken) = trip.open.as_deref() {
        let read = taken.told.iter().filter_map(|one| Some((one.of.as_str(), one.read?))).collect();
        return Some(From { at, norths, sights: &taken.sights, read });
    }
    let taken = trip.fix.as_deref()?;
    let read = taken.fix.sighted.iter().map(|one| (one.landmark.as_str(), one.reading)).collect();
    Some(From { at, norths, sights: &taken.sights, read })
}

/// From where it is sighted, and in which words it is told.
struct Asked<'a> {
    from: Option<From<'a>>,
    words: &'a Words,
}

impl Asked<'_> {
    fn view(&self, landmark: &Landmark, sight: Option<Sight>) -> SightView {
        let expected = self.from.as_ref().map(|from| {
            let ray = landmark.at.minus(from.at);
            (from.norths.to_magnetic(ray.bearing_deg(), from.at), ray.length_m())
        });
        let reading = self.from.as_ref().and_then(|from| from.read.iter().find(|(name, _)| *name == landmark.name));
        let told = match (reading, expected) {
            (Some((_, reading)), _) => self.words.sight_read(*reading),
            (None, Some((bearing, distance_m))) => self.words.sight_expected(NamedBearing::Magnetic(bearing), distance_m, sight.as_ref()),
            (None, None) => landmark.kind.clone(),
        };
        SightView {
            landmark: landmark.name.clone(),
            kind: landmark.kind.clone(),
            bearing_deg_mag: expected.map(|(bearing, _)| bearing.degrees()),
            distance_m: expected.map(|(_, distance_m)| distance_m),
            sighted: reading.is_some(),
            in_sight: sight.and_then(|sight| sight.chance),
            told,
        }
    }
}

/// What to sight next before the car's place is kept.
pub(super) fn next(trip: &Trip, words: &Words) -> Vec<NextSightView> {
    if trip.car.is_some() {
        return Vec::new();
    }
    let in_the_open = trip.open.iter().flat_map(|taken| &taken.next);
    trip.fix.iter().flat_map(|taken| &taken.next).chain(in_the_open).map(|next| next_view(next, words)).collect()
}

fn next_view(next: &NextSight, words: &Words) -> NextSightView {
    let (what, landmark) = match &next.what {
        NextWhat::Bearing(landmark) => ("bearing", landmark.clone()),
        NextWhat::LineRun => ("line-run", String::new()),
    };
    NextSightView {
        what: what.into(),
        landmark,
        leaves_m: next.leaves_m,
        now_m: next.now_m,
        in_sight: next.in_sight,
        settles: next.settles,
        told: words.next_sight(next),
    }
}

//! What can be sighted from the likeliest place, and what to sight next.

use super::state::{TakenFix, Trip};
use super::view::{NextSightView, SightView};
use crate::earth::Compass;
use crate::fix::{NextSight, NextWhat};
use crate::ground::{Seen, Sight};
use crate::measure::{NamedBearing, Point};
use crate::sheet::Landmark;
use crate::words::Words;

/// Every landmark of the sheet, nearest first once there is a fix; those that the ground hides come last.
pub(super) fn views(trip: &Trip, words: &Words) -> Vec<SightView> {
    let from = trip.fix.as_deref().and_then(|taken| taken.fix.stretches.first().map(|stretch| (taken, stretch.best.at)));
    let asked = Asked { from, words };
    let sight = |index: usize| from.and_then(|(taken, _)| taken.sights.get(index).copied());
    let landmarks = trip.sheet.landmarks.iter().enumerate().map(|(index, landmark)| (landmark, sight(index)));
    let mut all: Vec<(bool, SightView)> =
        landmarks.map(|(landmark, sight)| (sight.is_some_and(|sight| sight.seen == Seen::Hidden), asked.view(landmark, sight))).collect();
    all.sort_by(|(a_hidden, a), (b_hidden, b)| {
        a_hidden.cmp(b_hidden).then(a.distance_m.unwrap_or(0.0).total_cmp(&b.distance_m.unwrap_or(0.0)))
    });
    all.into_iter().map(|(_, view)| view).collect()
}

/// From where it is sighted, and in which words it is told.
struct Asked<'a> {
    from: Option<(&'a TakenFix, Point)>,
    words: &'a Words,
}

impl Asked<'_> {
    fn view(&self, landmark: &Landmark, sight: Option<Sight>) -> SightView {
        let expected = self.from.map(|(taken, at)| {
            let ray = landmark.at.minus(at);
            (taken.norths.to_magnetic(ray.bearing_deg(), at), ray.length_m())
        });
        let reading = self.from.and_then(|(taken, _)| taken.fix.sighted.iter().find(|one| one.landmark == landmark.name));
        let told = match (reading, expected) {
            (Some(one), _) => self.words.sight_read(one.reading),
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
    let taken = trip.fix.as_deref().filter(|_| trip.car.is_none());
    taken.map_or_else(Vec::new, |taken| taken.next.iter().map(|next| next_view(next, words)).collect())
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

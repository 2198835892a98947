//! What can be sighted from the likeliest place, and what to sight next.

use super::state::{TakenFix, Trip};
use super::view::{NextSightView, SightView};
use crate::earth::Compass;
use crate::measure::NamedBearing;
use crate::sheet::Landmark;
use crate::words::Words;

/// Every landmark of the sheet, nearest first once there is a fix.
pub(super) fn views(trip: &Trip, words: &Words) -> Vec<SightView> {
    let taken = trip.fix.as_deref();
    let mut all: Vec<SightView> = trip.sheet.landmarks.iter().map(|landmark| view(landmark, taken, words)).collect();
    all.sort_by(|a, b| a.distance_m.unwrap_or(0.0).total_cmp(&b.distance_m.unwrap_or(0.0)));
    all
}

fn view(landmark: &Landmark, taken: Option<&TakenFix>, words: &Words) -> SightView {
    let from = taken.and_then(|taken| taken.fix.stretches.first().map(|stretch| (taken, stretch.best.at)));
    let seen = from.map(|(taken, at)| {
        let ray = landmark.at.minus(at);
        (taken.norths.to_magnetic(ray.bearing_deg(), at), ray.length_m())
    });
    let reading = taken.and_then(|taken| taken.fix.sighted.iter().find(|one| one.landmark == landmark.name));
    let told = match (reading, seen) {
        (Some(one), _) => words.sight_read(one.reading),
        (None, Some((bearing, distance_m))) => words.sight_expected(NamedBearing::Magnetic(bearing), distance_m),
        (None, None) => landmark.kind.clone(),
    };
    SightView {
        landmark: landmark.name.clone(),
        kind: landmark.kind.clone(),
        bearing_deg_mag: seen.map(|(bearing, _)| bearing.degrees()),
        distance_m: seen.map(|(_, distance_m)| distance_m),
        sighted: reading.is_some(),
        told,
    }
}

/// What to sight next before the car's place is kept.
pub(super) fn next(trip: &Trip, words: &Words) -> Option<NextSightView> {
    let taken = trip.fix.as_deref().filter(|_| trip.car.is_none())?;
    let next = taken.fix.next_sight(&trip.sheet, &taken.trust)?;
    let told = words.next_sight(&next);
    Some(NextSightView { landmark: next.landmark, leaves_95_m: next.leaves_95_m, settles: next.settles, told })
}

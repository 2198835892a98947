//! What all sightings would have been without a slip that several of them share.

use super::SlipKind;
use crate::fix::directed::SAME_SIGMAS;
use crate::fix::{BearingSighting, Facing, Sighting, Way};
use crate::measure::{NamedBearing, signed_difference_deg};
use crate::sheet::Landmark;

/// At most so many landmarks are asked about as exchanged with each other.
const MOST_EXCHANGED: usize = 6;
/// At most so many pairs of landmarks are asked about as misread alike.
const MOST_PAIRS: usize = 6;

/// All sides told as if one had faced the other way; nothing where fewer than two are told.
pub(super) fn faced_other_way(sightings: &[Sighting]) -> Option<Vec<Sighting>> {
    let turned = |sighting: &Sighting| {
        let mut turned = sighting.clone();
        if let Sighting::Side { facing, .. } = &mut turned {
            *facing = facing.turned();
        }
        turned
    };
    let is_side = |sighting: &&Sighting| matches!(sighting, Sighting::Side { facing, .. } if *facing != Facing::Way(Way::Either));
    (sightings.iter().filter(is_side).count() > 1).then(|| sightings.iter().map(turned).collect())
}

/// Any two sure landmarks exchanged with each other in all bearings of them, with their names; among how many pairs.
pub(in crate::fix) fn exchanged_marks(sightings: &[Sighting]) -> Vec<(SlipKind, Vec<Sighting>)> {
    let mut marks: Vec<&Landmark> = Vec::new();
    for sighting in sightings {
        if let Sighting::Bearing(bearing) = sighting
            && let Some(mark) = bearing.sure()
            && marks.iter().all(|other| other.name != mark.name)
        {
            marks.push(mark);
        }
    }
    marks.truncate(MOST_EXCHANGED);
    let with = |one: &Landmark, other: &Landmark| {
        let exchange = |sighting: &Sighting| {
            let mut meant = sighting.clone();
            if let Sighting::Bearing(bearing) = &mut meant {
                match bearing.sure().map(|mark| mark.name.as_str()) {
                    Some(name) if name == one.name => bearing.candidates = vec![other.clone()],
                    Some(name) if name == other.name => bearing.candidates = vec![one.clone()],
                    Some(_) | None => {}
                }
            }
            meant
        };
        let kind = SlipKind::LandmarksExchanged { one: one.name.clone(), other: other.name.clone() };
        (kind, sightings.iter().map(exchange).collect())
    };
    let pairs = marks.iter().enumerate().flat_map(|(index, one)| marks.iter().skip(index + 1).map(move |other| (*one, *other)));
    pairs.map(|(one, other)| with(one, other)).collect()
}

/// The bearings that are readings of one sure landmark and say the same: each list in the order of the sightings, two at the least.
pub(in crate::fix) fn repeated<'a>(
    bearings: impl Iterator<Item = (usize, &'a BearingSighting)>,
    own_deg: impl Fn(Option<f64>) -> f64,
) -> Vec<Vec<usize>> {
    let mut all: Vec<(&BearingSighting, Vec<usize>)> = Vec::new();
    for (index, bearing) in bearings.filter(|(_, bearing)| bearing.sure().is_some()) {
        let is_again = |first: &BearingSighting| {
            let apart_deg = signed_difference_deg(first.reading.degrees(), bearing.reading.degrees()).abs();
            first.candidates == bearing.candidates
                && first.reading.north() == bearing.reading.north()
                && apart_deg <= SAME_SIGMAS * own_deg(first.spread_deg).hypot(own_deg(bearing.spread_deg))
        };
        match all.iter_mut().find(|(first, _)| is_again(first)) {
            Some((_, indices)) => indices.push(index),
            None => all.push((bearing, vec![index])),
        }
    }
    all.into_iter().map(|(_, indices)| indices).filter(|indices| indices.len() > 1).collect()
}

/// Any two of the landmarks that were read several times: what spoils the figures of one spoils those of the other.
pub(in crate::fix) fn of_two(repeated: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let pairs = repeated.iter().enumerate().flat_map(|(index, one)| repeated.iter().skip(index + 1).map(move |other| (one, other)));
    pairs.take(MOST_PAIRS).map(|(one, other)| one.iter().chain(other).copied().collect()).collect()
}

/// All bearings turned round; nothing where fewer than two are told.
pub(in crate::fix) fn all_reversed(sightings: &[Sighting]) -> Option<Vec<Sighting>> {
    let round = |reading: NamedBearing| NamedBearing::new(reading.degrees() + 180.0, reading.north());
    let turned = |sighting: &Sighting| {
        let mut turned = sighting.clone();
        if let Sighting::Bearing(bearing) = &mut turned {
            bearing.reading = round(bearing.reading);
        }
        turned
    };
    let bearings = sightings.iter().filter(|sighting| matches!(sighting, Sighting::Bearing(_))).count();
    (bearings > 1).then(|| sightings.iter().map(turned).collect())
}

/// All that was told in metres as if it had been in feet; nothing where fewer than two are told.
pub(super) fn all_in_feet(sightings: &[Sighting]) -> Option<Vec<Sighting>> {
    let feet = |sighting: &Sighting| {
        let Sighting::Ground(ground) = sighting else { return None };
        ground.in_feet.as_deref().cloned().map(Sighting::Ground)
    };
    let all: Vec<Option<Sighting>> = sightings.iter().map(feet).collect();
    let meant = sightings.iter().zip(&all).map(|(told, feet)| feet.as_ref().unwrap_or(told).clone());
    (all.iter().flatten().count() > 1).then(|| meant.collect())
}

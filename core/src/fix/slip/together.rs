//! What all sightings would have been without a slip that several of them share.

use super::SlipKind;
use crate::earth::Norths;
use crate::fix::{BearingSighting, Facing, Sighting, Way};
use crate::measure::{NamedBearing, North, Point, signed_difference_deg};
use crate::sheet::Landmark;

/// At most so many landmarks are asked about as exchanged with each other.
const MOST_EXCHANGED: usize = 6;

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

/// All readings of one north as if they had been counted from another, and by how much that turns them; nothing when none is told so.
pub(in crate::fix) fn other_north(
    sightings: &[Sighting],
    told: North,
    meant: North,
    norths: &Norths,
    at: Point,
) -> Option<(Vec<Sighting>, f64)> {
    let turned = |reading: NamedBearing| if reading.north() == told { NamedBearing::new(reading.degrees(), meant) } else { reading };
    let diagram = norths.diagram(at);
    let shift = signed_difference_deg(
        diagram.to_true(NamedBearing::new(0.0, meant)).degrees(),
        diagram.to_true(NamedBearing::new(0.0, told)).degrees(),
    );
    all_readings(sightings, told, turned).map(|all| (all, shift.abs()))
}

/// All grid readings as if the grid-magnetic angle had been taken off where it should be added.
pub(in crate::fix) fn wrong_way(sightings: &[Sighting], norths: &Norths, at: Point) -> Option<(Vec<Sighting>, f64)> {
    let twice_deg = 2.0 * norths.diagram(at).grid_magnetic_deg();
    let turned = |reading: NamedBearing| {
        if reading.north() == North::Grid { NamedBearing::new(reading.degrees() + twice_deg, North::Grid) } else { reading }
    };
    all_readings(sightings, North::Grid, turned).map(|all| (all, twice_deg.abs()))
}

fn all_readings(sightings: &[Sighting], told: North, turned: impl Fn(NamedBearing) -> NamedBearing) -> Option<Vec<Sighting>> {
    let mut any = false;
    let all = sightings.iter().map(|sighting| match sighting {
        Sighting::Bearing(bearing) => {
            any |= bearing.reading.north() == told;
            Sighting::Bearing(BearingSighting { reading: turned(bearing.reading), ..bearing.clone() })
        }
        Sighting::Running(_)
        | Sighting::LineRun { .. }
        | Sighting::Angle { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => sighting.clone(),
    });
    let all: Vec<Sighting> = all.collect();
    any.then_some(all)
}

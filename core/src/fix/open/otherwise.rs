//! Every way in which one sighting in the open may have gone wrong.

use super::scene::{OpenGround, OpenSighting};
use crate::earth::Norths;
use crate::fix::slip::{Meant, of_sighting};
use crate::fix::{Sighting, SlipKind};
use crate::measure::{NamedBearing, Point};
use crate::sheet::Landmark;

/// What a sighting would have been without a slip.
pub(super) struct Otherwise<'a> {
    pub(super) kind: SlipKind,
    pub(super) sighting: OpenSighting<'a>,
    /// By how much the bearing differs from what was told, degrees; or the distance or height, metres.
    pub(super) shift: f64,
    /// Among how many of its kind: each has its part of the chance.
    pub(super) among: f64,
    /// The bearing as it was told, and as it would have been.
    pub(super) read: Option<(NamedBearing, NamedBearing)>,
    /// As it would be told on a line.
    pub(super) said: Option<Sighting>,
}

/// All of them, as seen from near a place. A slip that changes nothing is none.
pub(super) fn otherwise<'a>(sighting: &OpenSighting<'a>, landmarks: &[Landmark], from: Point, norths: &Norths) -> Vec<Otherwise<'a>> {
    let on_a_line = match sighting {
        OpenSighting::Bearing(bearing) => Sighting::Bearing(bearing.clone()),
        OpenSighting::Angle { left, right, angle_deg, spread_deg } => {
            Sighting::Angle { left: left.clone(), right: right.clone(), angle_deg: *angle_deg, spread_deg: *spread_deg }
        }
        OpenSighting::Ground(ground) => return in_feet(sighting, from).into_iter().chain(misplaced(*ground)).collect(),
        OpenSighting::Distance { .. } => return in_feet(sighting, from).into_iter().collect(),
    };
    let of = |meant: Meant| {
        let (said, sighting) = (meant.sighting.clone(), in_the_open(meant.sighting)?);
        Some(Otherwise { kind: meant.kind, sighting, shift: meant.shift, among: meant.among, read: meant.read, said: Some(said) })
    };
    of_sighting(&on_a_line, landmarks, from, norths).into_iter().filter_map(of).collect()
}

/// Feet told as metres.
fn in_feet<'a>(sighting: &OpenSighting<'a>, from: Point) -> Option<Otherwise<'a>> {
    let feet = sighting.in_feet()?;
    let shift = off_m(sighting, from)?.0 - off_m(&feet, from)?.0;
    Some(Otherwise { kind: SlipKind::Feet, sighting: feet, shift: shift.abs(), among: 1.0, read: None, said: None })
}

/// An independent place told wrongly: by how much is told by the others.
fn misplaced<'a>(ground: OpenGround<'a>) -> impl Iterator<Item = Otherwise<'a>> {
    ground.with_slips().map(|(slip, told)| Otherwise {
        kind: SlipKind::Misplaced(slip.kind.clone()),
        sighting: OpenSighting::Ground(told),
        shift: f64::INFINITY,
        among: 1.0 / slip.share,
        read: None,
        said: None,
    })
}

/// By how much a sighting in metres is off at a place, and one sigma of that.
pub(super) fn off_m(sighting: &OpenSighting<'_>, at: Point) -> Option<(f64, f64)> {
    match sighting {
        OpenSighting::Distance { landmark, distance_m, spread_m } => {
            Some((distance_m - landmark.at.minus(at).length_m(), spread_m.hypot(landmark.spread_m)))
        }
        OpenSighting::Ground(ground) => ground.off_m.and_then(|off_m| off_m(at)),
        OpenSighting::Bearing(_) | OpenSighting::Angle { .. } => None,
    }
}

/// A bearing or an angle that would be told on a line: the same slips spoil it.
fn in_the_open<'a>(sighting: Sighting) -> Option<OpenSighting<'a>> {
    match sighting {
        Sighting::Bearing(bearing) => Some(OpenSighting::Bearing(bearing)),
        Sighting::Angle { left, right, angle_deg, spread_deg } => Some(OpenSighting::Angle { left, right, angle_deg, spread_deg }),
        Sighting::Running(_)
        | Sighting::LineRun { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => None,
    }
}

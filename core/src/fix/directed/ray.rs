//! A reading as a ray from a landmark: where it meets the line, and how sharp it can be.

use super::{Candidate, Reading, in_degrees};
use crate::measure::{Point, signed_difference_deg};
use crate::sheet::LinePlace;

/// A reading of a group to its first candidate, as its crossings with the line are looked for.
#[derive(Debug, Clone, Copy)]
pub(in crate::fix) struct Ray<'a> {
    pub(in crate::fix) reading: &'a Reading,
    pub(in crate::fix) candidate: &'a Candidate<'a>,
    pub(in crate::fix) shared_deg: f64,
}

impl Ray<'_> {
    /// The landmark's place.
    pub(in crate::fix) fn mark(&self) -> Point {
        self.candidate.mark
    }

    /// The reading as a bearing of the plane, at a share of the way along a piece of the line.
    pub(in crate::fix) fn piece_plane_deg(&self, piece: usize, share: f64) -> f64 {
        self.reading.piece_plane_deg(piece, share)
    }

    /// One sigma of the reading and the shared error, degrees, without the map's part.
    pub(in crate::fix) fn reading_spread_deg(&self) -> f64 {
        self.reading.own_deg.hypot(self.shared_deg)
    }

    /// One sigma of the map's part across the ray, metres: landmark and line.
    pub(in crate::fix) fn map_spread_m(&self) -> f64 {
        self.candidate.map_m
    }

    /// One sigma of the whole bearing at a place, degrees.
    pub(in crate::fix) fn angle_spread_deg(&self, place: LinePlace) -> f64 {
        let distance_m = self.mark().minus(place.at).length_m();
        self.reading_spread_deg().hypot(in_degrees(self.map_spread_m(), distance_m))
    }

    /// The reading minus the sheet's bearing, degrees, at a share of the way along a piece.
    pub(in crate::fix) fn residual_deg(&self, piece: usize, share: f64, place: LinePlace) -> f64 {
        signed_difference_deg(self.piece_plane_deg(piece, share), self.mark().minus(place.at).bearing_deg())
    }
}

/// How sharp the readings of one group can be, along a line.
#[derive(Debug, Clone)]
pub(in crate::fix) struct Sharp {
    pub(super) candidates: Vec<SharpCandidate>,
    pub(super) readings: f64,
    /// Where a single reading points and how far it reaches; nothing when that is all around.
    pub(super) aim: Option<Cone>,
}

/// Where a reading points from anywhere along a line, and how far aside of that anything still matters.
#[derive(Debug, Clone, Copy)]
pub(in crate::fix) struct Cone {
    pub(super) direction: Point,
    pub(super) reach_rad: f64,
    pub(super) cos: f64,
}

/// A step of this share of a reading's reach brings nothing from outside of it to its middle.
const FAR_SHARE: f64 = 0.35;
/// A candidate that is nearer than so many of its own spreads may be in reach on any side.
const NEAR_SPREADS: f64 = 30.0;

/// How sharp a reading of one candidate can be.
#[derive(Debug, Clone, Copy)]
pub(in crate::fix) struct SharpCandidate {
    pub(super) mark: Point,
    pub(super) own_rad2: f64,
    pub(super) map_m2: f64,
    pub(super) run_m: f64,
}

impl Sharp {
    /// One over the square of the smallest spread that the readings leave at a place, by what may be in reach there; and how far one may
    /// go before the nearest candidate that is not comes well into it, metres.
    pub(in crate::fix) fn at(&self, at: Point) -> (f64, f64) {
        let (mut least_m2, mut far_m2) = (f64::INFINITY, f64::INFINITY);
        for one in &self.candidates {
            let ray = one.mark.minus(at);
            let far2 = ray.dot(ray);
            let may_reach =
                |cone: Cone| cone.direction.dot(ray) >= cone.cos * far2.sqrt() || far2 < NEAR_SPREADS * NEAR_SPREADS * one.map_m2;
            if self.aim.is_none_or(may_reach) {
                least_m2 = one.spread_m2(at).min(least_m2);
            } else {
                far_m2 = far2.min(far_m2);
            }
        }
        let step_share = self.aim.map_or(1.0, |cone| FAR_SHARE * cone.reach_rad);
        (self.readings / least_m2, far_m2.sqrt() * step_share)
    }
}

impl SharpCandidate {
    /// The square of the smallest spread that it leaves at a place, square metres: were the line at a right angle to the ray.
    fn spread_m2(&self, at: Point) -> f64 {
        let ray = self.mark.minus(at);
        let mut distance_m2 = ray.dot(ray);
        if self.run_m > 0.0 {
            distance_m2 = (distance_m2.sqrt() - self.run_m).max(0.0).powi(2);
        }
        distance_m2 * self.own_rad2 + self.map_m2
    }
}

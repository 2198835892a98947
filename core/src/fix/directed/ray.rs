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

/// How sharp a reading of one candidate can be.
#[derive(Debug, Clone, Copy)]
pub(in crate::fix) struct Sharp {
    pub(super) mark: Point,
    pub(super) own_rad2: f64,
    pub(super) map_m2: f64,
    pub(super) run_m: f64,
}

impl Sharp {
    /// The square of the smallest spread that it leaves at a place, square metres: were the line at a right angle to the ray.
    pub(in crate::fix) fn spread_m2(&self, at: Point) -> f64 {
        let ray = self.mark.minus(at);
        let mut distance_m2 = ray.dot(ray);
        if self.run_m > 0.0 {
            distance_m2 = (distance_m2.sqrt() - self.run_m).max(0.0).powi(2);
        }
        distance_m2 * self.own_rad2 + self.map_m2
    }
}

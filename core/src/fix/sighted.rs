//! Bearings as the fix sees them.

use super::crossing::cut_deg;
use super::directed::Ray;
use super::{Crossing, Verdict};
use crate::measure::{NamedBearing, signed_difference_deg, wrap_deg};
use crate::sheet::{Line, LinePlace};

/// A sighting as the fix sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighted {
    /// Which of the scene's sightings, from 0.
    pub sighting: usize,
    /// The landmark's name.
    pub landmark: String,
    /// What was read.
    pub reading: NamedBearing,
    /// Every crossing of its back bearing with the line, in the line's order.
    pub crossings: Vec<Crossing>,
    /// At the best place: the reading as a bearing of the plane, degrees.
    pub plane_deg: f64,
    /// At the best place: reading minus the bearing that the sheet gives, degrees.
    pub residual_deg: f64,
    /// At the best place: one sigma of the reading, everything included, degrees.
    pub spread_deg: f64,
    /// At the best place: metres to the landmark.
    pub distance_m: f64,
    /// At the best place: angle between bearing and line, degrees.
    pub cut_deg: f64,
}

impl Sighted {
    /// Whether the reading fits the likeliest place: by chance it lies outside two sigmas one time in twenty, outside 2.6 one in a hundred.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        Verdict::of_sigmas(self.residual_deg.abs() / self.spread_deg)
    }
}

/// A bearing as it looks from the best place of its line.
pub(super) fn describe(
    sighting: usize,
    line: &Line,
    landmark: &str,
    reading: NamedBearing,
    from: &Ray<'_>,
    crossings: Vec<Crossing>,
    best: LinePlace,
) -> Sighted {
    let ray = from.mark().minus(best.at);
    let on_piece = line.pieces().enumerate().find(|(_, (_, end))| best.along_m <= end.along_m);
    let plane_deg = on_piece
        .map_or(0.0, |(piece, (start, end))| from.piece_plane_deg(piece, (best.along_m - start.along_m) / (end.along_m - start.along_m)));
    Sighted {
        sighting,
        landmark: landmark.into(),
        reading,
        crossings,
        plane_deg: wrap_deg(plane_deg),
        residual_deg: signed_difference_deg(plane_deg, ray.bearing_deg()),
        spread_deg: from.angle_spread_deg(best),
        distance_m: ray.length_m(),
        cut_deg: cut_deg(ray, best.direction),
    }
}

//! Bearings as read, prepared for a line, and told after the fix.

use super::crossing::cut_deg;
use super::{Crossing, Trust, Verdict};
use crate::earth::{Compass, Norths};
use crate::measure::{NamedBearing, Point, signed_difference_deg, wrap_deg};
use crate::sheet::{Landmark, Line, LinePlace};

/// A bearing read to a landmark.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingSighting {
    /// What was sighted.
    pub landmark: Landmark,
    /// What was read.
    pub reading: NamedBearing,
    /// One sigma of the reading, degrees; the instrument's own when none is given.
    pub spread_deg: Option<f64>,
}

/// A landmark so near that its own spread is wider than this tells nothing about the direction, degrees.
const MOST_SPREAD_DEG: f64 = 90.0;

/// A sighting prepared for one line: the bearing in the plane at each vertex, and the spreads.
#[derive(Debug, Clone)]
pub(super) struct SightedFrom {
    mark: Point,
    mark_spread_m: f64,
    line_spread_m: f64,
    /// How often this landmark was read here.
    readings: f64,
    plane_deg: Vec<f64>,
    pub(super) own_deg: f64,
    pub(super) shared_deg: f64,
}

impl SightedFrom {
    pub(super) fn new(line: &Line, sighting: &BearingSighting, norths: &Norths, trust: &Trust, readings: usize) -> Self {
        let rounding_deg = trust.graduation_deg / 12f64.sqrt();
        Self {
            mark: sighting.landmark.at,
            mark_spread_m: sighting.landmark.spread_m,
            line_spread_m: line.spread_m,
            readings: readings as f64,
            plane_deg: line.points().map(|at| norths.to_plane_deg(sighting.reading, at)).collect(),
            own_deg: sighting.spread_deg.unwrap_or(trust.reading_spread_deg).hypot(rounding_deg),
            shared_deg: trust.shared_spread_deg.hypot(norths.declination_spread_deg()),
        }
    }

    /// The landmark's place.
    pub(super) fn mark(&self) -> Point {
        self.mark
    }

    /// The reading as a bearing of the plane, at a share of the way along a piece of the line.
    pub(super) fn piece_plane_deg(&self, piece: usize, share: f64) -> f64 {
        match (self.plane_deg.get(piece), self.plane_deg.get(piece + 1)) {
            (Some(start), Some(end)) => start + (end - start) * share,
            _ => 0.0,
        }
    }

    /// One sigma of the reading and the shared error, degrees, without the map's part.
    pub(super) fn reading_spread_deg(&self) -> f64 {
        self.own_deg.hypot(self.shared_deg)
    }

    /// One sigma of the map's part across the ray, metres: landmark and line.
    pub(super) fn map_spread_m(&self, place: LinePlace) -> f64 {
        let ray = self.mark.minus(place.at);
        self.mark_spread_m.hypot(self.line_spread_m * cut_deg(ray, place.direction).to_radians().cos())
    }

    /// The same in the bearing, degrees.
    fn map_spread_deg(&self, place: LinePlace) -> f64 {
        let distance_m = self.mark.minus(place.at).length_m().max(1.0);
        (self.map_spread_m(place) / distance_m).to_degrees().min(MOST_SPREAD_DEG)
    }

    /// One sigma of the reading beside the shared error, degrees, for weighing it with others.
    ///
    /// All readings of one landmark have the same map error: it is counted so that it does not shrink with their number.
    pub(super) fn own_spread_deg(&self, place: LinePlace) -> f64 {
        self.own_deg.hypot(self.map_spread_deg(place) * self.readings.sqrt())
    }

    /// One sigma of the whole bearing at a place, degrees.
    pub(super) fn angle_spread_deg(&self, place: LinePlace) -> f64 {
        self.own_deg.hypot(self.map_spread_deg(place)).hypot(self.shared_deg)
    }

    pub(super) fn residual_deg(&self, piece: usize, share: f64, place: LinePlace) -> f64 {
        signed_difference_deg(self.piece_plane_deg(piece, share), self.mark.minus(place.at).bearing_deg())
    }
}

/// A sighting as the fix sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighted {
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

/// A residual of more sigmas than this is doubtful, and of more than the second a misfit.
const DOUBTFUL_SIGMAS: f64 = 1.96;
/// See [`DOUBTFUL_SIGMAS`].
const MISFIT_SIGMAS: f64 = 2.576;

impl Sighted {
    /// Whether the reading fits the likeliest place: by chance it lies outside two sigmas one time in twenty, outside 2.6 one in a hundred.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        let sigmas = self.residual_deg.abs() / self.spread_deg;
        if sigmas > MISFIT_SIGMAS {
            Verdict::Misfit
        } else if sigmas > DOUBTFUL_SIGMAS {
            Verdict::Doubtful
        } else {
            Verdict::Fits
        }
    }
}

/// The sighting as it looks from the best place.
pub(super) fn describe(line: &Line, sighting: &BearingSighting, from: &SightedFrom, crossings: Vec<Crossing>, best: LinePlace) -> Sighted {
    let ray = from.mark.minus(best.at);
    let on_piece = line.pieces().enumerate().find(|(_, (_, end))| best.along_m <= end.along_m);
    let plane_deg = on_piece
        .map_or(0.0, |(piece, (start, end))| from.piece_plane_deg(piece, (best.along_m - start.along_m) / (end.along_m - start.along_m)));
    Sighted {
        landmark: sighting.landmark.name.clone(),
        reading: sighting.reading,
        crossings,
        plane_deg: wrap_deg(plane_deg),
        residual_deg: signed_difference_deg(plane_deg, ray.bearing_deg()),
        spread_deg: from.angle_spread_deg(best),
        distance_m: ray.length_m(),
        cut_deg: cut_deg(ray, best.direction),
    }
}

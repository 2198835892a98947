//! Shapes as the readers find them, and the middle of an area.

use super::error::Fault;
use crate::earth::LatLon;

/// Latitude and longitude in degrees on WGS 84.
pub(super) type Pos = (f64, f64);

/// Any geometry, collections opened: single points, lines, and areas as rings of which the first is the outer one.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Shape {
    pub(super) points: Vec<Pos>,
    pub(super) lines: Vec<Vec<Pos>>,
    pub(super) areas: Vec<Vec<Vec<Pos>>>,
}

impl Shape {
    /// One of its places.
    pub(super) fn first(&self) -> Option<Pos> {
        let lines = self.lines.iter().chain(self.areas.iter().flatten()).flatten();
        self.points.iter().chain(lines).next().copied()
    }

    /// Whether there is no place in it.
    pub(super) fn is_nothing(&self) -> bool {
        self.first().is_none()
    }
}

/// A place, checked.
pub(super) fn checked(lat: f64, lon: f64) -> Result<Pos, Fault> {
    LatLon::new(lat, lon).map(|_| (lat, lon)).map_err(|_| Fault::OffEarth)
}

/// Metres to a degree of latitude, near enough for tolerances and sizes (6371 km sphere).
pub(super) const METRES_PER_DEG: f64 = 111_195.0;

/// East and north of `from` in metres, near enough for tolerances and sizes.
pub(super) fn metres_from(from: Pos, at: Pos) -> (f64, f64) {
    let lon = (at.1 - from.1 + 180.0).rem_euclid(360.0) - 180.0;
    (lon * METRES_PER_DEG * from.0.to_radians().cos(), (at.0 - from.0) * METRES_PER_DEG)
}

/// Metres between two places, near enough for tolerances and sizes.
pub(super) fn distance_m(a: Pos, b: Pos) -> f64 {
    let (east, north) = metres_from(a, b);
    east.hypot(north)
}

/// A place part of the way from `a` to `b`, in latitude and longitude.
pub(super) fn between(a: Pos, b: Pos, share: f64) -> Pos {
    match share {
        share if share <= 0.0 => a,
        share if share >= 1.0 => b,
        share => {
            let step = (b.1 - a.1 + 180.0).rem_euclid(360.0) - 180.0;
            (a.0 + (b.0 - a.0) * share, (a.1 + step * share + 180.0).rem_euclid(360.0) - 180.0)
        }
    }
}

/// How far a place is from a line, metres; infinite when it is clearly farther than `within_m`.
pub(super) fn from_line_m(at: Pos, line: &[Pos], within_m: f64) -> f64 {
    let metres: Vec<(f64, f64)> = line.iter().map(|point| metres_from(at, *point)).collect();
    let distance = |pair: &[(f64, f64)]| match pair {
        [a, b] => to_segment(*a, *b, within_m),
        _ => f64::INFINITY,
    };
    metres.windows(2).map(distance).fold(f64::INFINITY, f64::min)
}

/// From the origin to a straight piece, metres.
fn to_segment(a: (f64, f64), b: (f64, f64), within_m: f64) -> f64 {
    let beside = |a: f64, b: f64| a.min(b) > within_m || a.max(b) < -within_m;
    if beside(a.0, b.0) || beside(a.1, b.1) {
        return f64::INFINITY;
    }
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let share = (-(a.0 * dx + a.1 * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
    let share = if share.is_finite() { share } else { 0.0 };
    (a.0 + dx * share).hypot(a.1 + dy * share)
}

/// How long a line is, metres.
pub(super) fn along_m(line: &[Pos]) -> f64 {
    line.windows(2).map(|pair| if let [a, b] = pair { distance_m(*a, *b) } else { 0.0 }).sum()
}

/// The place halfway along a line.
pub(super) fn halfway(line: &[Pos]) -> Option<Pos> {
    let first = *line.first()?;
    let half = along_m(line) / 2.0;
    let mut gone = 0.0;
    for pair in line.windows(2) {
        let step = along_m(pair);
        if let [a, b] = pair
            && gone + step >= half
            && step > 0.0
        {
            return Some(between(*a, *b, (half - gone) / step));
        }
        gone += step;
    }
    Some(first)
}

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

/// The place halfway along a line.
pub(super) fn halfway(line: &[Pos]) -> Option<Pos> {
    let first = *line.first()?;
    let metres = |pair: &[Pos]| match pair {
        [a, b] => {
            let (east, north) = metres_from(*a, *b);
            east.hypot(north)
        }
        _ => 0.0,
    };
    let half = line.windows(2).map(metres).sum::<f64>() / 2.0;
    let mut gone = 0.0;
    for pair in line.windows(2) {
        let step = metres(pair);
        if let [a, b] = pair
            && gone + step >= half
            && step > 0.0
        {
            let share = (half - gone) / step;
            let lon = a.1 + ((b.1 - a.1 + 180.0).rem_euclid(360.0) - 180.0) * share;
            return Some((a.0 + (b.0 - a.0) * share, (lon + 180.0).rem_euclid(360.0) - 180.0));
        }
        gone += step;
    }
    Some(first)
}

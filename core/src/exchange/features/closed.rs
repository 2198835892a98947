//! The middle of an area and how wide it is.

use super::shape::{METRES_PER_DEG, Pos};

/// An area's middle, and how far a sighted point of it may lie from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Middle {
    pub(super) at: Pos,
    /// One sigma per axis: that of a point anywhere in a square of the same area, side / √12, metres.
    pub(super) spread_m: f64,
}

/// The centroid of rings, the first the outer one and the others holes; a ring without area counts by its first point.
///
/// # Units
/// Degrees; the plane of latitude and longitude serves, since a centroid moves with any stretching of the plane.
///
/// # References
/// The shoelace formula.
pub(super) fn middle(rings: &[Vec<Pos>]) -> Option<Middle> {
    let from = *rings.first()?.first()?;
    let outer = moments(rings.first()?, from);
    let holes = rings.iter().skip(1).map(|ring| moments(ring, from));
    let all = holes.fold(outer, |sum, hole| [sum[0] - hole[0], sum[1] - hole[1], sum[2] - hole[2]]);
    let [twice, lat, lon] = if all[0] > 0.0 { all } else { outer };
    if twice <= 0.0 {
        return Some(Middle { at: from, spread_m: 0.0 });
    }
    let at = (from.0 + lat / (3.0 * twice), (from.1 + lon / (3.0 * twice) + 180.0).rem_euclid(360.0) - 180.0);
    let area_m2 = twice / 2.0 * METRES_PER_DEG * METRES_PER_DEG * from.0.to_radians().cos();
    Some(Middle { at, spread_m: (area_m2 / 12.0).max(0.0).sqrt() })
}

/// Twice the area of a ring and six times its first moments in latitude and longitude around a place, as if it ran
/// so that the area is positive.
fn moments(ring: &[Pos], from: Pos) -> [f64; 3] {
    let around = |at: &Pos| (at.0 - from.0, (at.1 - from.1 + 180.0).rem_euclid(360.0) - 180.0);
    let next = ring.iter().skip(1).chain(ring.first());
    let sums = ring.iter().zip(next).fold([0.0; 3], |[twice, lat, lon], (a, b)| {
        let (a, b) = (around(a), around(b));
        let cross = a.1 * b.0 - b.1 * a.0;
        [twice + cross, lat + (a.0 + b.0) * cross, lon + (a.1 + b.1) * cross]
    });
    if sums[0] < 0.0 { sums.map(|sum| -sum) } else { sums }
}

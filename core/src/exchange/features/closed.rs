//! The middle of an area and how wide it is.

use super::shape::{METRES_PER_DEG, Pos};

/// An area's middle, and how far a sighted point of it may lie from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Middle {
    pub(super) at: Pos,
    /// One sigma per axis: that of a point anywhere in a square of the same area, side / √12, metres.
    pub(super) spread_m: f64,
}

/// The centroid of rings, the first the outer one and the others holes; a ring without area counts by its first point, one
/// that crosses itself so that its centroid lies outside it by the middle of the box around it.
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
    let (centroid, [lats, lons]) = ((lat / (3.0 * twice), lon / (3.0 * twice)), sides(rings.first()?, from));
    let is_inside = (lats.0..=lats.1).contains(&centroid.0) && (lons.0..=lons.1).contains(&centroid.1);
    let (middle, square_deg) = if is_inside {
        (centroid, twice / 2.0)
    } else {
        ((f64::midpoint(lats.0, lats.1), f64::midpoint(lons.0, lons.1)), (lats.1 - lats.0) * (lons.1 - lons.0))
    };
    let at = (from.0 + middle.0, (from.1 + middle.1 + 180.0).rem_euclid(360.0) - 180.0);
    let area_m2 = square_deg * METRES_PER_DEG * METRES_PER_DEG * from.0.to_radians().cos();
    Some(Middle { at, spread_m: (area_m2 / 12.0).max(0.0).sqrt() })
}

/// A place from another, degrees of latitude and of longitude the shorter way round.
fn around(at: Pos, from: Pos) -> Pos {
    (at.0 - from.0, (at.1 - from.1 + 180.0).rem_euclid(360.0) - 180.0)
}

/// The least and the most of a ring's latitudes and longitudes around a place, degrees.
fn sides(ring: &[Pos], from: Pos) -> [(f64, f64); 2] {
    let wider = |side: (f64, f64), figure: f64| (side.0.min(figure), side.1.max(figure));
    let all = ring.iter().map(|at| around(*at, from));
    all.fold([(0.0, 0.0); 2], |[lats, lons], (lat, lon)| [wider(lats, lat), wider(lons, lon)])
}

/// Twice the area of a ring and six times its first moments in latitude and longitude around a place, as if it ran
/// so that the area is positive.
fn moments(ring: &[Pos], from: Pos) -> [f64; 3] {
    let next = ring.iter().skip(1).chain(ring.first());
    let sums = ring.iter().zip(next).fold([0.0; 3], |[twice, lat, lon], (a, b)| {
        let (a, b) = (around(*a, from), around(*b, from));
        let cross = a.1 * b.0 - b.1 * a.0;
        [twice + cross, lat + (a.0 + b.0) * cross, lon + (a.1 + b.1) * cross]
    });
    if sums[0] < 0.0 { sums.map(|sum| -sum) } else { sums }
}

#[cfg(test)]
mod tests {
    use super::middle;

    /// By hand: a square of 0.2 degrees; the same with a bow tie of nearly the same areas, whose shoelace centroid lies
    /// hundreds of degrees away.
    #[test]
    fn the_middle_lies_within_the_ring_even_when_it_crosses_itself() {
        let square = vec![(46.0, 13.0), (46.2, 13.0), (46.2, 13.2), (46.0, 13.2)];
        assert!(middle(&[square]).is_some_and(|middle| (middle.at.0 - 46.1).abs() < 1e-9 && (middle.at.1 - 13.1).abs() < 1e-9));
        let crossed = vec![(46.0, 12.0), (42.0, 13.1), (4.1, 13.1), (46.0, 13.0)];
        let middle = middle(&[crossed]);
        assert!(middle.is_some_and(|middle| (middle.at.0 - 25.05).abs() < 1e-9 && (middle.at.1 - 12.55).abs() < 1e-9), "{middle:?}");
    }
}

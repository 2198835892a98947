//! Every place where a bearing to a landmark crosses the line: modified resection.

use super::directed::Ray;
use crate::measure::{LINE_95, Point, signed_difference_deg};
use crate::sheet::{Line, LinePlace};

/// One place where the back bearing from a landmark crosses the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Where on the line.
    pub place: LinePlace,
    /// Metres to the landmark.
    pub distance_m: f64,
    /// Angle between bearing and line, degrees, 0 to 90.
    pub cut_deg: f64,
    /// One sigma along the line, metres: `sqrt((d·sigma)² + landmark² + (line·cos cut)²) / sin cut`.
    pub spread_along_m: f64,
}

impl Crossing {
    /// Half-width of the 95 % limits along the line that this bearing alone gives, metres.
    #[must_use]
    pub fn half_width_95_m(&self) -> f64 {
        LINE_95 * self.spread_along_m
    }
}

/// Nearer than this one stands at the landmark itself, and a bearing has no meaning, metres.
const NEAREST_M: f64 = 0.5;

/// Angle between a direction and a line, degrees, 0 to 90.
pub(super) fn cut_deg(ray: Point, direction: Point) -> f64 {
    ray.cross(direction).abs().atan2(ray.dot(direction).abs()).to_degrees()
}

/// All crossings, in the line's order.
///
/// A crossing exactly on a vertex of the line, or where a ring begins, is counted once; where the landmark itself stands there is none.
pub(super) fn crossings(line: &Line, from: &Ray<'_>) -> Vec<Crossing> {
    let mut found: Vec<Crossing> = Vec::new();
    for (index, (start, end)) in line.pieces().enumerate() {
        let Some(place) = crossing_of_piece(index, start, end, from) else { continue };
        let near = from.mark().minus(place.at).length_m() < NEAREST_M;
        let is_again = |other: &Crossing| line.way_m(other.place.along_m, place.along_m).abs() < 1e-6;
        let again = [found.first(), found.last()].into_iter().flatten().any(is_again);
        if !again && !near {
            found.push(describe(place, from, line.length_m()));
        }
    }
    found
}

/// The residual turns less than 180° along a straight piece, so it has at most one zero there, or comes to the reading from behind.
fn crossing_of_piece(index: usize, start: LinePlace, end: LinePlace, from: &Ray<'_>) -> Option<LinePlace> {
    let length_m = end.along_m - start.along_m;
    let residual = |share: f64| {
        let at = start.at.plus(start.direction.times(share * length_m));
        signed_difference_deg(from.piece_plane_deg(index, share), from.mark().minus(at).bearing_deg())
    };
    let (mut low, mut high) = (0.0, 1.0);
    let (first, last) = (residual(low), residual(high));
    if first * last > 0.0 || (first - last).abs() >= 180.0 {
        return None;
    }
    while high - low > 1e-12 {
        let middle = f64::midpoint(low, high);
        if residual(middle) * first > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
        if (high - low) * length_m < 1e-9 {
            break;
        }
    }
    let share = f64::midpoint(low, high);
    if residual(share).abs() > 90.0 {
        return None;
    }
    let along = share * length_m;
    Some(LinePlace { along_m: start.along_m + along, at: start.at.plus(start.direction.times(along)), direction: start.direction })
}

/// The spread ends with the line: beyond it there is nowhere to stand.
fn describe(place: LinePlace, from: &Ray<'_>, line_m: f64) -> Crossing {
    let ray = from.mark().minus(place.at);
    let distance_m = ray.length_m();
    let cut_deg = cut_deg(ray, place.direction);
    let sin_cut = cut_deg.to_radians().sin().max(1e-6);
    let across_ray_m = (from.reading_spread_deg().to_radians() * distance_m).hypot(from.map_spread_m());
    Crossing { place, distance_m, cut_deg, spread_along_m: (across_ray_m / sin_cut).min(line_m) }
}

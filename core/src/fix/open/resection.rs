//! Three-mark resection: the place from which three marks are seen under two measured angles. No north enters.

use crate::measure::{Message, Point, Telling, signed_difference_deg};

/// Angles that the place found does not show to this are those of another place behind a mark, degrees.
const SAME_DEG: f64 = 1e-6;
/// Below this share of their lengths two directions count as one.
const PARALLEL: f64 = 1e-9;

/// Why two angles between three marks give no place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ResectionError {
    /// Any place on the circle through the three marks shows these angles: the danger circle.
    #[error("resection-on-circle")]
    OnCircle,
    /// Marks and place lie in one line: any place on it shows these angles.
    #[error("resection-in-line")]
    InLine,
    /// No place shows these angles, in this order.
    #[error("resection-nowhere")]
    Nowhere,
}

impl Telling for ResectionError {
    fn message(&self) -> Message {
        Message::new(match self {
            Self::OnCircle => "resection-on-circle",
            Self::InLine => "resection-in-line",
            Self::Nowhere => "resection-nowhere",
        })
    }
}

/// The place that sees the angle from the first mark to the second and from the second to the third, both clockwise.
///
/// Each angle holds the place on a circle through its two marks. Inverted about the second mark both circles are straight
/// lines, which cross in one point; a straight angle needs no case of its own.
///
/// # Units
/// Metres of the plane; degrees, 0 to 360.
///
/// # Accuracy
/// Exact but for rounding, which the nearness of the circle through the marks magnifies.
///
/// # Errors
/// [`ResectionError`] when the angles leave a circle or a line of places, or none.
///
/// # References
/// The three-point problem of Snellius and Pothenot; examples with printed answers in `tests/tables/fix/open_ground.json`.
pub fn resect(marks: [Point; 3], angles_deg: [f64; 2]) -> Result<Point, ResectionError> {
    let [first, middle, third] = marks;
    let [(sin1, cos1), (sin2, cos2)] = angles_deg.map(|angle| angle.to_radians().sin_cos());
    let (one, two) = (first.minus(middle), third.minus(middle));
    // For a step P from the middle mark: sin1 |P|² = k1·P and sin2 |P|² = k2·P.
    let k1 = one.times(sin1).minus(one.right().times(cos1));
    let k2 = two.times(sin2).plus(two.right().times(cos2));
    let turn = k1.cross(k2);
    if turn.abs() <= PARALLEL * k1.length_m() * k2.length_m() {
        return Err(undetermined(k1.times(sin2).minus(k2.times(sin1)), [sin1, sin2], k1.length_m().max(k2.length_m())));
    }
    let inverse = Point::new(sin2 * k1.north_m - sin1 * k2.north_m, sin1 * k2.east_m - sin2 * k1.east_m).times(1.0 / turn);
    let place = middle.plus(inverse.times(1.0 / inverse.dot(inverse)));
    let shows = |from: Point, to: Point, angle_deg: f64| {
        let seen_deg = to.minus(place).bearing_deg() - from.minus(place).bearing_deg();
        signed_difference_deg(seen_deg, angle_deg).abs() < SAME_DEG
    };
    let fits = shows(first, middle, angles_deg[0]) && shows(middle, third, angles_deg[1]);
    if fits { Ok(place) } else { Err(ResectionError::Nowhere) }
}

/// Two circles that touch each other in the middle mark: one and the same, a line, or with no other place in common.
fn undetermined(gap: Point, sines: [f64; 2], size: f64) -> ResectionError {
    if sines.iter().all(|sine| sine.abs() < PARALLEL) {
        ResectionError::InLine
    } else if gap.length_m() <= 1e-6 * size {
        ResectionError::OnCircle
    } else {
        ResectionError::Nowhere
    }
}

/// Centre and radius of the circle from whose places two marks are seen under an angle, clockwise; nothing for a straight angle.
pub(super) fn circle_of_angle(left: Point, right: Point, angle_deg: f64) -> Option<(Point, f64)> {
    let (sin, cos) = angle_deg.to_radians().sin_cos();
    let chord = right.minus(left);
    let centre = left.plus(chord.times(0.5)).plus(chord.right().times(0.5 * cos / sin));
    let radius_m = chord.length_m() / (2.0 * sin.abs());
    (sin.abs() > 1e-9).then_some((centre, radius_m))
}

/// Centre and radius of the circle through three points; nothing when they stand in line.
pub(super) fn circle_through(points: [Point; 3]) -> Option<(Point, f64)> {
    let [first, second, third] = points;
    let (one, two) = (second.minus(first), third.minus(first));
    let twice = 2.0 * one.cross(two);
    if twice.abs() <= 2.0 * PARALLEL * one.length_m() * two.length_m() {
        return None;
    }
    let centre = two.right().times(one.dot(one)).minus(one.right().times(two.dot(two))).times(-1.0 / twice);
    Some((first.plus(centre), centre.length_m()))
}

/// Where two circles meet; where they miss each other, the place between them.
pub(super) fn circles_meet(one: (Point, f64), two: (Point, f64)) -> Vec<Point> {
    let gap = two.0.minus(one.0);
    let gap_m = gap.length_m();
    if gap_m < 1e-6 {
        return Vec::new();
    }
    let along = gap.times(1.0 / gap_m);
    let middle_m = (gap_m * gap_m + one.1 * one.1 - two.1 * two.1) / (2.0 * gap_m);
    let half_m = (one.1 * one.1 - middle_m * middle_m).max(0.0).sqrt();
    [-half_m, half_m].map(|aside_m| one.0.plus(along.times(middle_m)).plus(along.right().times(aside_m))).to_vec()
}

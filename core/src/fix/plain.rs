//! Sightings in which no compass enters, prepared for one line: each gives a likelihood at a place.

use super::scene::Scene;
use super::{MeasuredSighting, Quarter, Sighting, Table, Trust, Way};
use crate::measure::{Point, normal_density, normal_share, signed_difference_deg};
use crate::sheet::{Landmark, Line, LinePlace};

/// Share of plainly wrong answers among sightings without a compass, as among bearings (common practice, no source).
const WRONG: f64 = 0.02;
/// How well a person tells left from right or ahead from behind near the edge, one sigma, degrees (common practice, no source).
const SIDE_SPREAD_DEG: f64 = 10.0;

/// One sighting without a compass on one line.
#[derive(Debug, Clone)]
pub(super) enum Plain<'a> {
    Here {
        alongs_m: Vec<f64>,
        spread_m: f64,
        even: f64,
    },
    Measured {
        from_m: Vec<f64>,
        measured: &'a MeasuredSighting,
        even: f64,
    },
    /// The line lacks the known point that was counted from: it says nothing there.
    Silent(f64),
    Side {
        landmark: &'a Landmark,
        quarter: Quarter,
        facing: Way,
    },
    Angle {
        left: &'a Landmark,
        right: &'a Landmark,
        angle_deg: f64,
        spread_deg: f64,
        line_spread_m: f64,
    },
    Ground(&'a Table),
}

/// The sightings of a scene without a compass, for one of its lines, with their numbers.
pub(super) fn plains<'a>(scene: &'a Scene<'a>, line_index: usize, line: &Line) -> Vec<(usize, Plain<'a>)> {
    let one = |(index, sighting)| plain(scene, line_index, line, sighting).map(|plain| (index, plain));
    scene.sightings.iter().enumerate().filter_map(one).collect()
}

fn plain<'a>(scene: &'a Scene<'a>, line_index: usize, line: &Line, sighting: &'a Sighting) -> Option<Plain<'a>> {
    let even = 1.0 / scene.length_m();
    match sighting {
        Sighting::Here { places, spread_m } => {
            let alongs_m = places.iter().filter(|spot| spot.line == line_index).map(|spot| spot.along_m).collect();
            Some(Plain::Here { alongs_m, spread_m: *spread_m, even })
        }
        Sighting::Measured(measured) => Some(measured_on(scene, line_index, measured, even)),
        Sighting::Side { landmark, quarter, facing } => Some(Plain::Side { landmark, quarter: *quarter, facing: *facing }),
        Sighting::Angle { left, right, angle_deg, spread_deg } => {
            let spread_deg = spread_deg.unwrap_or_else(|| angle_spread_deg(&scene.trust));
            Some(Plain::Angle { left, right, angle_deg: *angle_deg, spread_deg, line_spread_m: line.spread_m })
        }
        Sighting::Ground(tables) => tables.get(line_index).map(Plain::Ground),
        Sighting::Bearing(_) | Sighting::Running(_) | Sighting::LineRun { .. } => None,
    }
}

/// An angle is two readings; what they share falls out.
fn angle_spread_deg(trust: &Trust) -> f64 {
    trust.reading_spread_deg.hypot(trust.graduation_deg / 12f64.sqrt()) * 2f64.sqrt()
}

fn measured_on<'a>(scene: &Scene<'_>, line_index: usize, measured: &'a MeasuredSighting, even: f64) -> Plain<'a> {
    let from_m: Vec<f64> = measured.from.iter().filter(|spot| spot.line == line_index).map(|spot| spot.along_m).collect();
    if from_m.is_empty() { Plain::Silent(mean_elsewhere(scene, measured, even)) } else { Plain::Measured { from_m, measured, even } }
}

/// The mean likelihood over the lines that do have the known point: with it, silence neither favours a line nor speaks against it.
fn mean_elsewhere(scene: &Scene<'_>, measured: &MeasuredSighting, even: f64) -> f64 {
    let mut lines: Vec<usize> = measured.from.iter().map(|spot| spot.line).collect();
    lines.dedup();
    let lengths: f64 = lines.iter().filter_map(|line| scene.lines.get(*line)).map(|choice| choice.line.length_m()).sum();
    // Over a line the part that fits sums to about one for each way that is open.
    if lengths > 0.0 { (1.0 - WRONG) / lengths + WRONG * even } else { even }
}

impl Plain<'_> {
    /// Natural logarithm of the likelihood at a place.
    pub(super) fn ln_at(&self, place: LinePlace) -> f64 {
        match self {
            Self::Here { alongs_m, spread_m, even } => {
                let fits: f64 = alongs_m.iter().map(|along_m| normal_density(place.along_m - along_m, *spread_m)).sum();
                ((1.0 - WRONG) * fits / alongs_m.len().max(1) as f64 + WRONG * even).ln()
            }
            Self::Measured { from_m, measured, even } => {
                let fits: f64 = from_m.iter().map(|from_m| measured_fits(measured, place.along_m - from_m)).sum();
                ((1.0 - WRONG) * fits / from_m.len() as f64 + WRONG * even).ln()
            }
            Self::Silent(likelihood) => likelihood.ln(),
            Self::Side { landmark, quarter, facing } => side_likelihood(landmark, *quarter, *facing, place).ln(),
            Self::Angle { left, right, angle_deg, spread_deg, line_spread_m } => {
                angle_likelihood((left, right), *angle_deg, *spread_deg, *line_spread_m, place).ln()
            }
            Self::Ground(table) => table.at(place.along_m).max(f64::MIN_POSITIVE).ln(),
        }
    }
}

/// Density of the reading for one who is `onward_m` from the known point, negative when behind it.
fn measured_fits(measured: &MeasuredSighting, onward_m: f64) -> f64 {
    let share = match measured.way {
        Way::Onward => f64::from(u8::from(onward_m >= 0.0)),
        Way::Backward => f64::from(u8::from(onward_m <= 0.0)),
        Way::Either => 0.5,
    };
    let truth_m = onward_m.abs();
    let spread_m = (truth_m * measured.scale_share).max(1e-3);
    let off_m = measured.distance_m - truth_m;
    if measured.step_m <= 0.0 {
        return share * normal_density(off_m, spread_m.max(0.5));
    }
    let half_m = measured.step_m / 2.0;
    share * (normal_share((off_m + half_m) / spread_m) - normal_share((off_m - half_m) / spread_m)) / measured.step_m
}

fn side_likelihood(landmark: &Landmark, quarter: Quarter, facing: Way, place: LinePlace) -> f64 {
    let ray = landmark.at.minus(place.at);
    let of = |direction: Point| {
        let relative_deg = signed_difference_deg(ray.bearing_deg(), direction.bearing_deg());
        // Degrees inside the half circle that was named, negative outside.
        let inside_deg = match quarter {
            Quarter::Ahead => 90.0 - relative_deg.abs(),
            Quarter::Behind => relative_deg.abs() - 90.0,
            Quarter::Right => 90.0 - (relative_deg - 90.0).abs().min(360.0 - (relative_deg - 90.0).abs()),
            Quarter::Left => 90.0 - (relative_deg + 90.0).abs().min(360.0 - (relative_deg + 90.0).abs()),
        };
        let map_deg = (landmark.spread_m / ray.length_m().max(1.0)).to_degrees();
        normal_share(inside_deg / SIDE_SPREAD_DEG.hypot(map_deg))
    };
    let fits = match facing {
        Way::Onward => of(place.direction),
        Way::Backward => of(place.direction.times(-1.0)),
        Way::Either => f64::midpoint(of(place.direction), of(place.direction.times(-1.0))),
    };
    (1.0 - WRONG) * fits + WRONG / 2.0
}

fn angle_likelihood(marks: (&Landmark, &Landmark), angle_deg: f64, spread_deg: f64, line_spread_m: f64, place: LinePlace) -> f64 {
    let (left, right) = (marks.0.at.minus(place.at), marks.1.at.minus(place.at));
    let map_deg = |landmark: &Landmark, ray: Point| (landmark.spread_m / ray.length_m().max(1.0)).to_degrees().min(90.0);
    let moved_deg = turned_by_step_deg(left, right, place.direction.right()) * line_spread_m;
    let whole_deg = spread_deg.hypot(map_deg(marks.0, left)).hypot(map_deg(marks.1, right)).hypot(moved_deg);
    let residual_deg = signed_difference_deg(angle_deg, right.bearing_deg() - left.bearing_deg());
    (1.0 - WRONG) * normal_density(residual_deg, whole_deg) + WRONG / 360.0
}

/// By how many degrees the angle between two rays changes for a step of one metre.
fn turned_by_step_deg(left: Point, right: Point, step: Point) -> f64 {
    let turn = |ray: Point| (ray.cross(step) / ray.dot(ray).max(1.0)).to_degrees();
    turn(right) - turn(left)
}

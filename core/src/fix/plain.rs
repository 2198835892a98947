//! Sightings in which no compass enters, prepared for one line: each gives a likelihood at a place.

use super::directed::{LEAST_CHANCE, chord};
use super::said::witness_tail_told;
use super::scene::{Scene, WRONG_READING};
use super::{Facing, Fits, Quarter, Sighting, Table, Trust, Way};
use crate::measure::{Point, normal_density, normal_share, signed_difference_deg};
use crate::sheet::{Landmark, Line, LinePlace};

/// Share of plainly wrong answers, as among bearings.
const WRONG: f64 = 0.02;
/// Chance of overlooking a landmark that is in sight and looked for.
const OVERLOOKED: f64 = 0.05;
/// Share of distances and known points that are plainly wrong by no slip that has a name, spread evenly over the lines. So few outweigh
/// a bearing, and give way to three that agree (common practice, no source).
pub(super) const WRONG_PLACE: f64 = 1e-5;

/// One sighting without a compass on one line.
#[derive(Debug, Clone)]
pub(super) enum Plain<'a> {
    /// Its places, on a ring each also a round earlier and later, and how many there are.
    Here {
        alongs_m: Vec<f64>,
        count: usize,
        spread_m: f64,
        even: f64,
    },
    Side {
        landmark: &'a Landmark,
        quarter: Quarter,
        facing: Facings<'a>,
        spread_deg: f64,
        line: &'a Line,
    },
    Angle {
        left: &'a Landmark,
        right: &'a Landmark,
        angle_deg: f64,
        spread_deg: f64,
        line_spread_m: f64,
        /// How many angles of the scene are between these landmarks: the map's error, which they share, is as much wider in each.
        again: f64,
    },
    Seen(&'a Table),
    NotSeen(&'a Table),
    Ground {
        table: &'a Table,
        fits: &'a Fits,
        line: usize,
        /// What the likelihood has too much where a wrong place is a slip of its own.
        less: f64,
    },
}

/// Which way is faced along one of the scene's lines.
#[derive(Debug, Clone, Copy)]
pub(super) struct Facings<'a>(&'a Facing, usize, &'a Line);

impl Facings<'_> {
    pub(super) fn at(self, place: LinePlace) -> Way {
        self.0.at(self.1, self.2, place.along_m)
    }
}

/// A sighting prepared for one line; nothing for one with a compass, and for a distance, which is counted with its like.
pub(super) fn plain<'a>(scene: &'a Scene<'a>, line_index: usize, line: &'a Line, sighting: &'a Sighting) -> Option<Plain<'a>> {
    let even = 1.0 / scene.length_m();
    match sighting {
        Sighting::Here { places, spread_m, .. } => {
            let on = || places.iter().filter(|spot| spot.line == line_index);
            let alongs_m = on().flat_map(|spot| line.passes_m(spot.along_m)).collect();
            Some(Plain::Here { alongs_m, count: on().count(), spread_m: *spread_m, even })
        }
        Sighting::Side { landmark, quarter, facing, spread_deg } => {
            Some(Plain::Side { landmark, quarter: *quarter, facing: Facings(facing, line_index, line), spread_deg: *spread_deg, line })
        }
        Sighting::Angle { left, right, angle_deg, spread_deg } => {
            let spread_deg = spread_deg.unwrap_or_else(|| angle_spread_deg(&scene.trust));
            let is_same =
                |one: &&Sighting| matches!(one, Sighting::Angle { left: l, right: r, .. } if l.name == left.name && r.name == right.name);
            let again = scene.sightings.iter().filter(is_same).count() as f64;
            Some(Plain::Angle { left, right, angle_deg: *angle_deg, spread_deg, line_spread_m: line.spread_m, again })
        }
        Sighting::Seen { landmark, seen: false } => scene.chance(&landmark.name, line_index).map(Plain::NotSeen),
        Sighting::Ground(ground) => {
            let is_slip = !ground.misplaced.is_empty() && scene.wrong_share < WRONG_READING;
            let less = if is_slip { witness_tail_told() } else { 0.0 };
            ground.tables.get(line_index).map(|table| Plain::Ground { table, fits: &ground.fits, line: line_index, less })
        }
        Sighting::Seen { seen: true, .. }
        | Sighting::Measured(_)
        | Sighting::Bearing(_)
        | Sighting::Running(_)
        | Sighting::LineRun { .. } => None,
    }
}

/// An angle is two readings; what they share falls out.
fn angle_spread_deg(trust: &Trust) -> f64 {
    trust.own_deg(None) * 2f64.sqrt()
}

impl Plain<'_> {
    /// The likelihood at a place.
    pub(super) fn at(&self, place: LinePlace) -> f64 {
        match self {
            Self::Here { alongs_m, count, spread_m, even } => {
                let fits: f64 = alongs_m.iter().map(|along_m| normal_density(place.along_m - along_m, *spread_m)).sum();
                or_wrong(fits / (*count).max(1) as f64, *even)
            }
            Self::Side { landmark, quarter, facing, spread_deg, line } => {
                side_likelihood(side_sigmas(landmark, *quarter, *spread_deg, line, place), facing.at(place))
            }
            Self::Angle { left, right, angle_deg, spread_deg, line_spread_m, again } => {
                angle_likelihood(angle_off((left, right), (*angle_deg, *spread_deg), (*line_spread_m, *again), place))
            }
            Self::Seen(chance) => seen_likelihood(chance.at(place.along_m), true),
            Self::NotSeen(chance) => seen_likelihood(chance.at(place.along_m), false),
            Self::Ground { table, less, .. } => (table.at(place.along_m) - less).max(f64::MIN_POSITIVE),
        }
    }
}

/// How likely it was to see, or not to see, what is in sight with a chance: what was seen is never ruled out, what is in sight may be
/// overlooked.
#[must_use]
pub fn seen_likelihood(chance: f64, seen: bool) -> f64 {
    if seen { chance.max(LEAST_CHANCE) } else { 1.0 - (1.0 - OVERLOOKED) * chance.clamp(0.0, 1.0) }
}

/// A likelihood, or a plainly wrong place or distance, equally likely everywhere.
pub(super) fn or_wrong(fits: f64, even: f64) -> f64 {
    (1.0 - WRONG_PLACE) * fits + WRONG_PLACE * even
}

/// By how many of its sigmas the landmark lies on the side that was named, for one who faces onward, and one who faces backward; the
/// walker's eye and both places on the map are in the sigma.
pub(super) fn side_sigmas(landmark: &Landmark, quarter: Quarter, spread_deg: f64, line: &Line, place: LinePlace) -> (f64, f64) {
    let ray = landmark.at.minus(place.at);
    let chord = chord(line, place);
    let along = chord.times(1.0 / chord.length_m().max(1e-9));
    let spread_m = landmark.spread_m.hypot(line.spread_m).hypot(ray.length_m() * spread_deg.to_radians());
    let of = |facing: Point| {
        let margin_m = match quarter {
            Quarter::Ahead => facing.dot(ray),
            Quarter::Behind => -facing.dot(ray),
            Quarter::Right => facing.cross(ray),
            Quarter::Left => -facing.cross(ray),
        };
        margin_m / spread_m.max(1e-6)
    };
    (of(along), of(along.times(-1.0)))
}

fn side_likelihood((onward, backward): (f64, f64), facing: Way) -> f64 {
    let fits = match facing {
        Way::Onward => normal_share(onward),
        Way::Backward => normal_share(backward),
        Way::Either => f64::midpoint(normal_share(onward), normal_share(backward)),
    };
    (1.0 - WRONG) * fits + WRONG / 2.0
}

/// The angle as told minus the one at a place, and one sigma of it, degrees.
pub(super) fn angle_off(
    marks: (&Landmark, &Landmark),
    (angle_deg, spread_deg): (f64, f64),
    (line_spread_m, again): (f64, f64),
    place: LinePlace,
) -> (f64, f64) {
    let (left, right) = (marks.0.at.minus(place.at), marks.1.at.minus(place.at));
    // Radians by which a ray turns for a step of one metre, as a vector across it.
    let turn = |ray: Point| ray.right().times(1.0 / ray.dot(ray).max(1.0));
    let map_rad = (marks.0.spread_m * turn(left).length_m())
        .hypot(marks.1.spread_m * turn(right).length_m())
        .hypot(line_spread_m * turn(right).minus(turn(left)).length_m());
    let residual_deg = signed_difference_deg(angle_deg, right.bearing_deg() - left.bearing_deg());
    (residual_deg, spread_deg.hypot(map_rad.to_degrees() * again.sqrt()))
}

fn angle_likelihood((residual_deg, spread_deg): (f64, f64)) -> f64 {
    (1.0 - WRONG) * normal_density(residual_deg, spread_deg) + WRONG / 360.0
}

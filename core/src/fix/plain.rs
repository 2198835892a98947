//! Sightings in which no compass enters, prepared for one line: each gives a likelihood at a place.

use super::directed::{LEAST_CHANCE, chord};
use super::scene::Scene;
use super::{Facing, Fits, MeasuredSighting, Quarter, Sighting, Table, Trust, Way};
use crate::measure::{Point, normal_density, normal_share, signed_difference_deg};
use crate::sheet::{Landmark, Line, LinePlace};

/// Share of plainly wrong answers, as among bearings.
const WRONG: f64 = 0.02;
/// Chance of overlooking a landmark that is in sight and looked for.
const OVERLOOKED: f64 = 0.05;
/// Share of distances and known points that are plainly wrong by no slip that has a name, spread evenly over the lines. So few outweigh
/// a bearing, and give way to three that agree (common practice, no source).
const WRONG_PLACE: f64 = 1e-5;
/// Likelihoods are multiplied as long as they and their product stay above this: then one logarithm serves for all.
const LEAST_FACTOR: f64 = 1e-100;
/// Between two places at which a likelihood is summed over another line, metres.
const SUM_STEP_M: f64 = 2.0;

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
    Measured {
        from_m: Starts,
        measured: &'a MeasuredSighting,
        even: f64,
    },
    /// The line lacks the known point that was counted from: it says nothing there.
    Silent(f64),
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
    },
    Seen(&'a Table),
    NotSeen(&'a Table),
    Ground {
        table: &'a Table,
        fits: &'a Fits,
        line: usize,
    },
}

/// Where a distance was counted from, and which way: on a ring each also a round earlier and later; and how many there are.
#[derive(Debug, Clone)]
pub(super) struct Starts {
    pub(super) from_m: Vec<(f64, Way)>,
    count: f64,
}

/// Which way is faced along one of the scene's lines.
#[derive(Debug, Clone, Copy)]
pub(super) struct Facings<'a>(&'a Facing, usize, &'a Line);

impl Facings<'_> {
    pub(super) fn at(self, place: LinePlace) -> Way {
        self.0.at(self.1, self.2, place.along_m)
    }
}

/// The sightings of a scene without a compass, and that what was sighted is in sight, for one of its lines.
#[derive(Debug)]
pub(super) struct Plains<'a> {
    /// Each with the sightings that it rests on: without all of them it is gone.
    all: Vec<(Vec<usize>, Plain<'a>)>,
}

pub(super) fn plains<'a>(scene: &'a Scene<'a>, line_index: usize, line: &'a Line) -> Plains<'a> {
    let sightings = scene.sightings.iter().enumerate();
    let told = sightings.filter_map(|(index, sighting)| Some((vec![index], plain(scene, line_index, line, sighting)?)));
    let chance = |(name, of): (&str, Vec<usize>)| Some((of, Plain::Seen(scene.chance(name, line_index)?)));
    let in_sight = seen(scene).into_iter().filter_map(chance);
    Plains { all: told.chain(in_sight).collect() }
}

impl Plains<'_> {
    /// Natural logarithm of the likelihood of all at a place.
    pub(super) fn ln_at(&self, place: LinePlace) -> f64 {
        let (mut product, mut log) = (1.0, 0.0);
        for (_, plain) in &self.all {
            let likelihood = plain.at(place);
            if likelihood < LEAST_FACTOR || product < LEAST_FACTOR {
                (product, log) = (likelihood, log + f64::ln(product));
            } else {
                product *= likelihood;
            }
        }
        log + product.ln()
    }

    /// The logarithm of each alone at a place.
    pub(super) fn each_ln_at(&self, place: LinePlace) -> impl Iterator<Item = f64> + '_ {
        self.all.iter().map(move |(_, plain)| plain.at(place).ln())
    }

    /// What a sighting itself says, not that its landmark is in sight: unless that is all it says.
    pub(super) fn of(&self, sighting: usize) -> Option<&Plain<'_>> {
        self.all.iter().find(|(of, _)| of.contains(&sighting)).map(|(_, plain)| plain)
    }

    /// Which of them are gone without a sighting, by their number in [`Plains::each_ln_at`].
    pub(super) fn gone_without(&self, sighting: usize) -> Vec<usize> {
        self.all.iter().enumerate().filter(|(_, (of, _))| of.as_slice() == [sighting]).map(|(index, _)| index).collect()
    }
}

/// The landmarks that are surely among what was seen, each once, with the sightings of it.
fn seen<'a>(scene: &'a Scene<'_>) -> Vec<(&'a str, Vec<usize>)> {
    let mut names: Vec<(&str, Vec<usize>)> = Vec::new();
    for (index, sighting) in scene.sightings.iter().enumerate() {
        let found: Vec<&Landmark> = match sighting {
            Sighting::Bearing(bearing) => bearing.sure().into_iter().collect(),
            Sighting::Running(running) => vec![&running.landmark],
            Sighting::Angle { left, right, .. } => vec![left, right],
            Sighting::Side { landmark, .. } | Sighting::Seen { landmark, seen: true } => vec![landmark],
            Sighting::Seen { seen: false, .. }
            | Sighting::LineRun { .. }
            | Sighting::Here { .. }
            | Sighting::Measured(_)
            | Sighting::Ground(_) => Vec::new(),
        };
        for landmark in found {
            match names.iter_mut().find(|(name, _)| *name == landmark.name) {
                Some((_, of)) if of.contains(&index) => {}
                Some((_, of)) => of.push(index),
                None => names.push((&landmark.name, vec![index])),
            }
        }
    }
    names
}

fn plain<'a>(scene: &'a Scene<'a>, line_index: usize, line: &'a Line, sighting: &'a Sighting) -> Option<Plain<'a>> {
    let even = 1.0 / scene.length_m();
    match sighting {
        Sighting::Here { places, spread_m, .. } => {
            let on = || places.iter().filter(|spot| spot.line == line_index);
            let alongs_m = on().flat_map(|spot| line.passes_m(spot.along_m)).collect();
            Some(Plain::Here { alongs_m, count: on().count(), spread_m: *spread_m, even })
        }
        Sighting::Measured(measured) => Some(measured_on(scene, (line_index, line), measured, even)),
        Sighting::Side { landmark, quarter, facing, spread_deg } => {
            Some(Plain::Side { landmark, quarter: *quarter, facing: Facings(facing, line_index, line), spread_deg: *spread_deg, line })
        }
        Sighting::Angle { left, right, angle_deg, spread_deg } => {
            let spread_deg = spread_deg.unwrap_or_else(|| angle_spread_deg(&scene.trust));
            Some(Plain::Angle { left, right, angle_deg: *angle_deg, spread_deg, line_spread_m: line.spread_m })
        }
        Sighting::Seen { landmark, seen: false } => scene.chance(&landmark.name, line_index).map(Plain::NotSeen),
        Sighting::Ground(ground) => {
            ground.tables.get(line_index).map(|table| Plain::Ground { table, fits: &ground.fits, line: line_index })
        }
        Sighting::Seen { seen: true, .. } | Sighting::Bearing(_) | Sighting::Running(_) | Sighting::LineRun { .. } => None,
    }
}

/// An angle is two readings; what they share falls out.
fn angle_spread_deg(trust: &Trust) -> f64 {
    trust.reading_spread_deg.hypot(trust.graduation_deg / 12f64.sqrt()) * 2f64.sqrt()
}

/// Where it was counted from on a line; nothing where the line lacks the point.
fn starts(measured: &MeasuredSighting, (line_index, line): (usize, &Line)) -> Option<Starts> {
    let on = || measured.from.iter().filter(|(spot, _)| spot.line == line_index);
    let from_m: Vec<(f64, Way)> = on().flat_map(|(spot, way)| line.passes_m(spot.along_m).map(|along_m| (along_m, *way))).collect();
    (!from_m.is_empty()).then(|| Starts { from_m, count: on().count() as f64 })
}

fn measured_on<'a>(scene: &Scene<'_>, on: (usize, &Line), measured: &'a MeasuredSighting, even: f64) -> Plain<'a> {
    match starts(measured, on) {
        None => Plain::Silent(mean_elsewhere(scene, measured, even)),
        Some(from_m) => Plain::Measured { from_m, measured, even },
    }
}

/// The mean likelihood over the lines that do have the known point: with it, silence neither favours a line nor speaks against it.
fn mean_elsewhere(scene: &Scene<'_>, measured: &MeasuredSighting, even: f64) -> f64 {
    let (mut sum, mut mass) = (0.0, 0.0);
    for ((index, choice), prior) in scene.lines.iter().enumerate().zip(scene.prior_per_m()) {
        let places = (choice.line.length_m() / SUM_STEP_M).ceil();
        if let Some(from_m) = starts(measured, (index, choice.line)) {
            let step_m = choice.line.length_m() / places;
            let along = (0..places as usize).map(|place| (place as f64 + 0.5) * step_m);
            sum += along.map(|along_m| prior * step_m * measured_likelihood(&from_m, measured, even, along_m)).sum::<f64>();
            mass += prior * choice.line.length_m();
        }
    }
    if mass > 0.0 { sum / mass } else { even }
}

impl Plain<'_> {
    /// The likelihood at a place.
    fn at(&self, place: LinePlace) -> f64 {
        match self {
            Self::Here { alongs_m, count, spread_m, even } => {
                let fits: f64 = alongs_m.iter().map(|along_m| normal_density(place.along_m - along_m, *spread_m)).sum();
                or_wrong(fits / (*count).max(1) as f64, *even)
            }
            Self::Measured { from_m, measured, even } => measured_likelihood(from_m, measured, *even, place.along_m),
            Self::Silent(likelihood) => *likelihood,
            Self::Side { landmark, quarter, facing, spread_deg, line } => {
                side_likelihood(side_sigmas(landmark, *quarter, *spread_deg, line, place), facing.at(place))
            }
            Self::Angle { left, right, angle_deg, spread_deg, line_spread_m } => {
                angle_likelihood(angle_off((left, right), (*angle_deg, *spread_deg), *line_spread_m, place))
            }
            Self::Seen(chance) => seen_likelihood(chance.at(place.along_m), true),
            Self::NotSeen(chance) => seen_likelihood(chance.at(place.along_m), false),
            Self::Ground { table, .. } => table.at(place.along_m).max(f64::MIN_POSITIVE),
        }
    }
}

/// How likely it was to see, or not to see, what is in sight with a chance: what was seen is never ruled out, what is in sight may be
/// overlooked.
#[must_use]
pub fn seen_likelihood(chance: f64, seen: bool) -> f64 {
    if seen { chance.max(LEAST_CHANCE) } else { 1.0 - (1.0 - OVERLOOKED) * chance.clamp(0.0, 1.0) }
}

/// What was measured minus how far it is from a known point, metres, and how many of its sigmas that is more than the half step of its
/// display; endless when it was travelled the other way.
pub(super) fn measured_off(measured: &MeasuredSighting, way: Way, onward_m: f64) -> (f64, f64) {
    let truth_m = onward_m.abs();
    let off_m = measured.distance_m - truth_m;
    let other_way = match way {
        Way::Onward => onward_m < 0.0,
        Way::Backward => onward_m > 0.0,
        Way::Either => false,
    };
    let beyond_m = (off_m.abs() - measured.step_m / 2.0).max(0.0);
    (off_m, if other_way { f64::INFINITY } else { beyond_m / (truth_m * measured.scale_share).max(1e-6) })
}

fn measured_likelihood(starts: &Starts, measured: &MeasuredSighting, even: f64, along_m: f64) -> f64 {
    let fits: f64 = starts.from_m.iter().map(|(from_m, way)| measured_fits(measured, *way, along_m - from_m)).sum();
    or_wrong(fits / starts.count, even)
}

/// A likelihood, or a plainly wrong place or distance, equally likely everywhere.
fn or_wrong(fits: f64, even: f64) -> f64 {
    (1.0 - WRONG_PLACE) * fits + WRONG_PLACE * even
}

/// Density of the reading for one who is `onward_m` from the known point, negative when behind it.
fn measured_fits(measured: &MeasuredSighting, way: Way, onward_m: f64) -> f64 {
    let share = match way {
        Way::Onward => f64::from(u8::from(onward_m >= 0.0)),
        Way::Backward => f64::from(u8::from(onward_m <= 0.0)),
        Way::Either => 0.5,
    };
    let truth_m = onward_m.abs();
    let spread_m = (truth_m * measured.scale_share).max(1e-6);
    let off_m = measured.distance_m - truth_m;
    if measured.step_m <= 0.0 {
        return share * normal_density(off_m, spread_m);
    }
    let half_m = measured.step_m / 2.0;
    share * (normal_share((off_m + half_m) / spread_m) - normal_share((off_m - half_m) / spread_m)) / measured.step_m
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
    line_spread_m: f64,
    place: LinePlace,
) -> (f64, f64) {
    let (left, right) = (marks.0.at.minus(place.at), marks.1.at.minus(place.at));
    // Radians by which a ray turns for a step of one metre, as a vector across it.
    let turn = |ray: Point| ray.right().times(1.0 / ray.dot(ray).max(1.0));
    let map_rad = (marks.0.spread_m * turn(left).length_m())
        .hypot(marks.1.spread_m * turn(right).length_m())
        .hypot(line_spread_m * turn(right).minus(turn(left)).length_m());
    let residual_deg = signed_difference_deg(angle_deg, right.bearing_deg() - left.bearing_deg());
    (residual_deg, spread_deg.hypot(map_rad.to_degrees()))
}

fn angle_likelihood((residual_deg, spread_deg): (f64, f64)) -> f64 {
    (1.0 - WRONG) * normal_density(residual_deg, spread_deg) + WRONG / 360.0
}

//! One reading of a compass, and where it was made.

use super::ray::Cone;
use super::{OnPiece, SAME_SIGMAS};
use crate::earth::Compass;
use crate::fix::scene::Scene;
use crate::fix::{Facing, Run, RunningSighting, Sighting, Way};
use crate::measure::{NamedBearing, North, Point, signed_difference_deg};
use crate::sheet::{Line, LinePlace};

/// A residual of this many of its own sigmas and that many shared ones leaves only the chance of a wrong reading:
/// the normal part is then below 1e-8 of its peak.
const REACH_SIGMAS: (f64, f64) = (6.0, 4.5);

/// Readings that turn apart by less than this along a line do not turn apart, degrees.
const ALIKE_DEG: f64 = 0.01;

/// A reading as a bearing of the plane at each vertex of a line, and where it was read.
#[derive(Debug, Clone)]
pub(in crate::fix) struct Reading {
    /// Which of the scene's sightings it is of.
    pub(in crate::fix) sighting: usize,
    plane_deg: Vec<f64>,
    /// One sigma, degrees: the reading and its rounding.
    pub(in crate::fix) own_deg: f64,
    /// Where it was read, before the run to here.
    pub(super) before: Option<Before>,
}

/// Where a reading was made, seen from here.
#[derive(Debug, Clone)]
pub(super) struct Before {
    pub(super) run: BackRun,
    /// One sigma of that place along the run, metres.
    lengthwise_m: f64,
    /// The same across it.
    crosswise_m: f64,
}

#[derive(Debug, Clone)]
pub(super) enum BackRun {
    /// So many metres along one of the scene's lines, against the way that was gone.
    Along { run_m: f64, gone: Facing, line: usize },
    /// A step of the plane, walked by the compass.
    Step(Point),
}

impl BackRun {
    pub(super) fn length_m(&self) -> f64 {
        match self {
            Self::Along { run_m, .. } => *run_m,
            Self::Step(step) => step.length_m(),
        }
    }

    /// Where it began for one who stands at a place now. Where it is not known which way was gone, both may be asked for.
    fn from(&self, on: &Line, place: LinePlace, way: Option<Way>) -> Point {
        match self {
            Self::Step(step) => place.at.plus(*step),
            Self::Along { run_m, gone, line } => {
                let was_onward = way.unwrap_or_else(|| gone.at(*line, on, place.along_m)) != Way::Backward;
                beyond_ends(on, place.along_m + if was_onward { -run_m } else { *run_m })
            }
        }
    }
}

impl Before {
    /// One sigma across a ray from there, metres, and how much a reading along it grows with the shared compass error.
    pub(super) fn across(&self, ray: Point) -> (f64, f64) {
        let BackRun::Step(back) = &self.run else { return (self.lengthwise_m, 1.0) };
        let (aside, distance_m, run_m) = (ray.right().times(1.0 / ray.length_m()), ray.length_m(), back.length_m());
        let course = back.times(-1.0 / run_m);
        let across_m = (course.dot(aside) * self.lengthwise_m).hypot(course.right().dot(aside) * self.crosswise_m);
        // What turns the compass turns the run as well: the place lies aside of where the reading puts it.
        (across_m, 1.0 - course.right().dot(aside) * run_m / distance_m)
    }
}

/// What turns a bearing into one of the plane at each vertex of a line, asked once for each north.
pub(super) struct Turns<'a> {
    pub(super) scene: &'a Scene<'a>,
    pub(super) line: &'a Line,
    asked: Vec<(North, Vec<f64>)>,
}

impl<'a> Turns<'a> {
    pub(super) fn new(scene: &'a Scene<'a>, line: &'a Line) -> Self {
        Self { scene, line, asked: Vec::new() }
    }

    fn plane_deg(&mut self, reading: NamedBearing) -> Vec<f64> {
        let north = reading.north();
        if !self.asked.iter().any(|(asked, _)| *asked == north) {
            let turn = |at: Point| self.scene.norths.to_plane_deg(NamedBearing::new(0.0, north), at);
            self.asked.push((north, self.line.points().map(turn).collect()));
        }
        let turns = self.asked.iter().find(|(asked, _)| *asked == north);
        turns.map(|(_, turns)| turns.iter().map(|turn| reading.degrees() + turn).collect()).unwrap_or_default()
    }

    /// A reading at each vertex of the line.
    pub(super) fn reading(&mut self, sighting: usize, reading: NamedBearing, spread_deg: Option<f64>) -> Reading {
        let own_deg = self.scene.trust.own_deg(spread_deg);
        Reading { sighting, plane_deg: self.plane_deg(reading), own_deg, before: None }
    }
}

impl Reading {
    /// A reading as one bearing of the plane everywhere.
    #[cfg(test)]
    pub(super) fn of_plane(sighting: usize, plane_deg: f64, own_deg: f64) -> Self {
        Self { sighting, plane_deg: vec![plane_deg; 2], own_deg, before: None }
    }

    /// By how much it grows with the shared compass error, at the most: a run walked by the same compass may double it.
    pub(in crate::fix) fn gain_at_most(&self) -> f64 {
        if self.before.is_some() { 2.0 } else { 1.0 }
    }

    /// The reading as a bearing of the plane, at a share of the way along a piece of the line.
    pub(in crate::fix) fn piece_plane_deg(&self, piece: usize, share: f64) -> f64 {
        match (self.plane_deg.get(piece), self.plane_deg.get(piece + 1)) {
            (Some(start), Some(end)) => start + (end - start) * share,
            _ => 0.0,
        }
    }

    /// By how much it is turned from another reading that was made at the same place, all along the line alike, degrees.
    pub(super) fn turned_from(&self, other: &Self) -> Option<f64> {
        let turns = || self.plane_deg.iter().zip(&other.plane_deg).map(|(own, other)| signed_difference_deg(*own, *other));
        let first_deg = turns().next()?;
        let alike = turns().all(|turned_deg| signed_difference_deg(turned_deg, first_deg).abs() < ALIKE_DEG);
        (alike && self.before.is_none() && other.before.is_none()).then_some(first_deg)
    }

    /// Where it was read by one who stands at a place now, and went there by a way if that is not known.
    pub(super) fn origin(&self, line: &Line, place: LinePlace, way: Option<Way>) -> Point {
        self.before.as_ref().map_or(place.at, |before| before.run.from(line, place, way))
    }

    /// Whether it was made before a run of which nobody said which way it went, for one who stands at a place now.
    pub(super) fn is_either_way(&self, on: &Line, place: LinePlace) -> bool {
        match self.before.as_ref().map(|before| &before.run) {
            Some(BackRun::Along { gone, line, .. }) => gone.at(*line, on, place.along_m) == Way::Either,
            Some(BackRun::Step(_)) | None => false,
        }
    }

    /// Where it points from anywhere along the line, and how far it reaches; nothing when that is all around, or when it was made
    /// elsewhere.
    pub(super) fn cone(&self, shared_deg: f64, wider_deg: f64) -> Option<Cone> {
        let (first, last) = (*self.plane_deg.first()?, *self.plane_deg.last()?);
        let turned_deg = self.plane_deg.iter().map(|deg| (deg - first).abs()).fold(0.0, f64::max);
        let reach_deg = REACH_SIGMAS.0 * self.own_deg + REACH_SIGMAS.1 * shared_deg + turned_deg + wider_deg;
        let within = self.before.is_none() && reach_deg <= 80.0;
        let reach_rad = reach_deg.to_radians();
        within.then(|| Cone { direction: Point::polar(1.0, f64::midpoint(first, last)), reach_rad, cos: reach_rad.cos() })
    }

    /// The reading as a bearing of the plane at a place; in the middle of a piece when it was read elsewhere.
    pub(super) fn at(&self, spot: &OnPiece) -> f64 {
        self.piece_plane_deg(spot.piece, spot.share)
    }
}

/// A place of a line; beyond an end, straight on from it.
fn beyond_ends(line: &Line, along_m: f64) -> Point {
    let place = line.at(along_m);
    place.at.plus(place.direction.times(line.along_m(along_m) - place.along_m))
}

/// Both readings of a running fix, for one of the scene's lines.
pub(super) fn running_readings(turns: &mut Turns<'_>, line_index: usize, index: usize, running: &RunningSighting) -> Vec<Reading> {
    let (scene, line) = (turns.scene, turns.line);
    let mut first = turns.reading(index, running.first, running.spread_deg);
    // What is read twice over one run shares the run's error: it is as much wider in each that it does not shrink with their number.
    let again = scene.sightings.iter().filter(|other| is_over_the_same_run(running, other, first.own_deg)).count() as f64;
    let lengthwise_m = running.run_m * running.run_spread_share * again.sqrt();
    let (run, crosswise_m) = match &running.run {
        Run::Along(gone) => (BackRun::Along { run_m: running.run_m, gone: gone.clone(), line: line_index }, 0.0),
        Run::Straight(bearing) => {
            let middle = line.at(line.length_m() / 2.0).at;
            let step = Point::polar(-running.run_m, scene.norths.to_plane_deg(*bearing, middle));
            (BackRun::Step(step), running.run_m * first.own_deg.to_radians() * again.sqrt())
        }
    };
    first.before = Some(Before { run, lengthwise_m, crosswise_m });
    vec![first, turns.reading(index, running.second, running.spread_deg)]
}

/// Whether a sighting is a running fix over the same run: it ends here, as every run does, and is as long and went the same way.
fn is_over_the_same_run(running: &RunningSighting, other: &Sighting, own_deg: f64) -> bool {
    let Sighting::Running(other) = other else { return false };
    let spread_m = |one: &RunningSighting| one.run_m * one.run_spread_share;
    let same_way = match (&running.run, &other.run) {
        (Run::Straight(course), Run::Straight(again)) => {
            let apart_deg = signed_difference_deg(course.degrees(), again.degrees()).abs();
            course.north() == again.north() && apart_deg <= SAME_SIGMAS * 2f64.sqrt() * own_deg
        }
        (run, again) => run == again,
    };
    same_way && (running.run_m - other.run_m).abs() <= SAME_SIGMAS * spread_m(running).hypot(spread_m(other))
}

/// The direction of a reading at a place, and how far to its sides anything still matters.
#[derive(Debug, Clone, Copy)]
pub(super) struct Aim {
    direction: Point,
    /// Metres aside for a metre ahead; nothing when it reaches all around.
    slope: Option<f64>,
}

impl Aim {
    /// `wider_deg`: how far readings that are told with it are turned from it.
    pub(super) fn new(reading: &Reading, spot: &OnPiece, (shared_deg, wider_deg): (f64, f64)) -> Self {
        let reach_deg = REACH_SIGMAS.0 * reading.own_deg + REACH_SIGMAS.1 * shared_deg + wider_deg;
        let slope = (reach_deg <= 80.0).then(|| reach_deg.to_radians().tan());
        Self { direction: Point::polar(1.0, reading.at(spot)), slope }
    }

    /// Whether a ray is out of reach, without an arc tangent.
    pub(super) fn is_far(self, ray: Point, map_m: f64) -> bool {
        let Some(slope) = self.slope else { return false };
        let (ahead_m, aside_m) = (self.direction.dot(ray), self.direction.cross(ray).abs());
        let reach_m = 2.0 * REACH_SIGMAS.0 * map_m;
        aside_m > ahead_m.max(0.0) * slope + reach_m || ahead_m < -reach_m
    }
}

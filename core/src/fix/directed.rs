//! Readings of a compass, prepared for one line: everything in which the error that they share enters.

use super::scene::Scene;
use super::{BearingSighting, Run, RunningSighting, Sighting, Table, Way};
use crate::earth::Compass;
use crate::measure::{NamedBearing, Point, signed_difference_deg};
use crate::sheet::{Landmark, Line, LinePlace};

/// A landmark so near that its own spread is wider than this tells nothing about the direction, degrees.
const MOST_SPREAD_DEG: f64 = 90.0;
/// A run of the line is held against the chord of this length about the place, metres.
const CHORD_M: f64 = 100.0;
/// Least chance that what was sighted is in sight: it was sighted, after all.
pub(super) const LEAST_CHANCE: f64 = 0.005;
/// A residual of this many of its own sigmas and that many shared ones leaves only the chance of a wrong reading:
/// the normal part is then below 1e-8 of its peak.
const REACH_SIGMAS: (f64, f64) = (6.0, 4.5);

/// A reading as a bearing of the plane at each vertex of a line, and where it was read.
#[derive(Debug, Clone)]
pub(super) struct Reading {
    plane_deg: Vec<f64>,
    /// One sigma, degrees: the reading and its rounding.
    pub(super) own_deg: f64,
    /// Where it was read, before the run to here.
    before: Option<Before>,
}

/// Where a reading was made, seen from here.
#[derive(Debug, Clone, Copy)]
struct Before {
    run: BackRun,
    /// One sigma of that place along the run, metres.
    lengthwise_m: f64,
    /// The same across it.
    crosswise_m: f64,
}

#[derive(Debug, Clone, Copy)]
enum BackRun {
    /// So many metres along the line; negative when it lies behind.
    Along(f64),
    /// A step of the plane, walked by the compass.
    Step(Point),
}

impl Before {
    /// One sigma across a ray from there, metres, and how much a reading along it grows with the shared compass error.
    fn across(self, ray: Point) -> (f64, f64) {
        let BackRun::Step(back) = self.run else { return (self.lengthwise_m, 1.0) };
        let (aside, distance_m, run_m) = (ray.right().times(1.0 / ray.length_m()), ray.length_m(), back.length_m());
        let course = back.times(-1.0 / run_m);
        let across_m = (course.dot(aside) * self.lengthwise_m).hypot(course.right().dot(aside) * self.crosswise_m);
        // What turns the compass turns the run as well: the place lies aside of where the reading puts it.
        (across_m, 1.0 - course.right().dot(aside) * run_m / distance_m)
    }
}

/// What may have been sighted.
#[derive(Debug, Clone)]
pub(super) struct Candidate<'a> {
    pub(super) name: &'a str,
    pub(super) mark: Point,
    spread_m: f64,
    chance: Option<&'a Table>,
}

/// All readings of one thing: they share its identity and the error of its place on the map.
#[derive(Debug, Clone)]
pub(super) struct Group<'a> {
    /// Which sightings of the scene it is made of.
    pub(super) sightings: Vec<usize>,
    pub(super) candidates: Vec<Candidate<'a>>,
    pub(super) readings: Vec<Reading>,
    line: &'a Line,
    of_line: bool,
}

/// What one candidate leaves at a place: residuals in reach with their sigmas, and the sigma of the map's part.
#[derive(Debug, Clone)]
pub(super) struct Lobe {
    pub(super) candidate: usize,
    /// Chance of this identity, in sight.
    pub(super) weight: f64,
    pub(super) residuals: Residuals,
    pub(super) map_deg: f64,
}

/// A reading against what the sheet says.
#[derive(Debug, Clone, Copy)]
pub(super) struct Residual {
    /// Reading minus the sheet's bearing, degrees.
    pub(super) deg: f64,
    /// One sigma of the reading itself, degrees.
    pub(super) own_deg: f64,
    /// By how much it grows with the shared compass error: 1, unless a run was walked by the same compass.
    pub(super) gain: f64,
    /// The same for the map error that the readings of a group share, as it looks from here.
    pub(super) map_gain: f64,
}

/// Residuals of a group's readings. Most groups have one; no list is made for it.
#[derive(Debug, Clone)]
pub(super) enum Residuals {
    One(Residual),
    Several(Vec<Residual>),
}

impl Reading {
    fn new(scene: &Scene<'_>, line: &Line, reading: NamedBearing, spread_deg: Option<f64>) -> Self {
        let rounding_deg = scene.trust.graduation_deg / 12f64.sqrt();
        Self {
            plane_deg: line.points().map(|at| scene.norths.to_plane_deg(reading, at)).collect(),
            own_deg: spread_deg.unwrap_or(scene.trust.reading_spread_deg).hypot(rounding_deg),
            before: None,
        }
    }

    /// The reading as a bearing of the plane, at a share of the way along a piece of the line.
    pub(super) fn piece_plane_deg(&self, piece: usize, share: f64) -> f64 {
        match (self.plane_deg.get(piece), self.plane_deg.get(piece + 1)) {
            (Some(start), Some(end)) => start + (end - start) * share,
            _ => 0.0,
        }
    }

    /// Where it was read by one who stands at a place now.
    fn origin(&self, line: &Line, place: LinePlace) -> Point {
        match self.before.map(|before| before.run) {
            None => place.at,
            Some(BackRun::Along(metres)) => line.at(place.along_m + metres).at,
            Some(BackRun::Step(step)) => place.at.plus(step),
        }
    }

    /// The reading as a bearing of the plane at a place; in the middle of a piece when it was read elsewhere.
    fn at(&self, spot: &OnPiece) -> f64 {
        self.piece_plane_deg(spot.piece, spot.share)
    }
}

/// A place of a line together with the piece it lies on.
#[derive(Debug, Clone, Copy)]
pub(super) struct OnPiece {
    pub(super) piece: usize,
    /// Share of the piece that lies before the place.
    pub(super) share: f64,
    pub(super) place: LinePlace,
}

/// All compass readings of a scene, grouped by what was sighted, for one of its lines.
pub(super) fn groups<'a>(scene: &'a Scene<'a>, line_index: usize, line: &'a Line) -> Vec<Group<'a>> {
    let mut all: Vec<Group<'a>> = Vec::new();
    for (index, sighting) in scene.sightings.iter().enumerate() {
        let Some(group) = group(scene, line_index, line, index, sighting) else { continue };
        match all.iter_mut().find(|other| other.is_same(&group)) {
            Some(other) => {
                other.readings.extend(group.readings);
                other.sightings.push(index);
            }
            None => all.push(group),
        }
    }
    all
}

fn group<'a>(scene: &'a Scene<'a>, line_index: usize, line: &'a Line, index: usize, sighting: &'a Sighting) -> Option<Group<'a>> {
    let mark = |landmark: &'a Landmark| Candidate {
        name: &landmark.name,
        mark: landmark.at,
        spread_m: landmark.spread_m,
        chance: scene.chance(&landmark.name, line_index),
    };
    let (candidates, readings, of_line) = match sighting {
        Sighting::Bearing(BearingSighting { candidates, reading, spread_deg }) => {
            (candidates.iter().map(mark).collect(), vec![Reading::new(scene, line, *reading, *spread_deg)], false)
        }
        Sighting::Running(running) => (vec![mark(&running.landmark)], running_readings(scene, line, running), false),
        Sighting::LineRun { reading, spread_deg } => (Vec::new(), vec![Reading::new(scene, line, *reading, *spread_deg)], true),
        Sighting::Angle { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => {
            return None;
        }
    };
    Some(Group { sightings: vec![index], candidates, readings, line, of_line })
}

fn running_readings(scene: &Scene<'_>, line: &Line, running: &RunningSighting) -> Vec<Reading> {
    let mut first = Reading::new(scene, line, running.first, running.spread_deg);
    let lengthwise_m = running.run_m * running.run_spread_share;
    let (run, crosswise_m) = match running.run {
        Run::Along(Way::Backward) => (BackRun::Along(running.run_m), 0.0),
        Run::Along(Way::Onward | Way::Either) => (BackRun::Along(-running.run_m), 0.0),
        Run::Straight(bearing) => {
            let middle = line.at(line.length_m() / 2.0).at;
            let step = Point::polar(-running.run_m, scene.norths.to_plane_deg(bearing, middle));
            (BackRun::Step(step), running.run_m * first.own_deg.to_radians())
        }
    };
    first.before = Some(Before { run, lengthwise_m, crosswise_m });
    vec![first, Reading::new(scene, line, running.second, running.spread_deg)]
}

impl Group<'_> {
    fn is_same(&self, other: &Self) -> bool {
        let seen = |group: &Self| group.candidates.iter().map(|one| (one.name.to_owned(), one.mark)).collect::<Vec<_>>();
        !self.of_line && !other.of_line && seen(self) == seen(other)
    }

    /// The rays of a bearing's readings that were made here: nothing for the run of a line.
    pub(super) fn rays(&self, shared_deg: f64) -> Vec<Ray<'_>> {
        let here = self.readings.iter().filter(|reading| reading.before.is_none());
        let first = self.candidates.first();
        here.filter_map(|reading| Some(Ray { group: self, reading, candidate: first?, shared_deg })).collect()
    }

    /// The smallest spread that a reading of any candidate can leave anywhere on the line, metres: at the right angle, from the nearest place.
    pub(super) fn sharpest_m(&self) -> f64 {
        let own_deg = self.readings.iter().map(|reading| reading.own_deg).fold(f64::INFINITY, f64::min);
        let nearest = |one: &Candidate<'_>| {
            let off_m = self.line.nearest(one.mark).at.minus(one.mark).length_m();
            (off_m * own_deg.to_radians()).hypot(one.spread_m)
        };
        self.candidates.iter().map(nearest).fold(f64::INFINITY, f64::min)
    }

    /// Whether it is the run of the line, which a bend changes within metres.
    pub(super) fn is_of_line(&self) -> bool {
        self.of_line
    }

    /// How many degrees the directions go round in: a line runs both ways.
    pub(super) fn round_deg(&self) -> f64 {
        if self.of_line { 180.0 } else { 360.0 }
    }

    /// Chance of all identities together, in sight: what is left when every reading is plainly wrong.
    pub(super) fn whole_weight(&self, place: LinePlace) -> f64 {
        if self.of_line { 1.0 } else { (0..self.candidates.len()).map(|index| self.weight(index, place)).sum() }
    }

    pub(super) fn weight(&self, candidate: usize, place: LinePlace) -> f64 {
        if self.candidates.len() == 1 {
            // That a sure landmark is in sight is weighed once for all that was seen of it.
            return 1.0;
        }
        let chance = self.candidates.get(candidate).and_then(|one| one.chance);
        chance.map_or(1.0, |table| table.at(place.along_m).max(LEAST_CHANCE)) / self.candidates.len() as f64
    }

    /// What the candidates within reach leave at a place.
    pub(super) fn lobes(&self, spot: &OnPiece, shared_deg: f64, found: &mut Vec<Lobe>) {
        if self.of_line {
            found.extend(self.line_lobe(spot));
            return;
        }
        for (candidate, one) in self.candidates.iter().enumerate() {
            let ray = one.mark.minus(spot.place.at);
            let map_m = self.map_m(one);
            let far = self.readings.iter().all(|reading| reading.before.is_none() && is_far(reading, spot, ray, map_m, shared_deg));
            if !far {
                found.push(self.lobe(candidate, one, spot, map_m));
            }
        }
    }

    fn lobe(&self, candidate: usize, one: &Candidate<'_>, spot: &OnPiece, map_m: f64) -> Lobe {
        let residual = |reading: &Reading| {
            let ray = one.mark.minus(reading.origin(self.line, spot.place));
            let deg = signed_difference_deg(reading.at(spot), ray.bearing_deg());
            let Some(before) = reading.before else { return Residual { deg, own_deg: reading.own_deg, gain: 1.0, map_gain: 1.0 } };
            let (run_m, gain) = before.across(ray);
            // Seen from another side, only a part of the map error is the same.
            let here = one.mark.minus(spot.place.at);
            let turned_rad = (ray.bearing_deg() - here.bearing_deg()).to_radians();
            let other_deg = in_degrees(map_m * turned_rad.sin().abs(), ray.length_m());
            let own_deg = reading.own_deg.hypot(in_degrees(run_m, ray.length_m())).hypot(other_deg);
            Residual { deg, own_deg, gain, map_gain: turned_rad.cos() * here.length_m() / ray.length_m().max(1.0) }
        };
        let distance_m = one.mark.minus(spot.place.at).length_m();
        Lobe {
            candidate,
            weight: self.weight(candidate, spot.place),
            residuals: match self.readings.as_slice() {
                [only] => Residuals::One(residual(only)),
                several => Residuals::Several(several.iter().map(residual).collect()),
            },
            map_deg: in_degrees(map_m, distance_m),
        }
    }

    fn line_lobe(&self, spot: &OnPiece) -> Option<Lobe> {
        let reading = self.readings.first()?;
        let folded = signed_difference_deg(2.0 * reading.at(spot), 2.0 * self.chord_deg(spot.place)) / 2.0;
        Some(Lobe {
            candidate: 0,
            weight: 1.0,
            residuals: Residuals::One(Residual { deg: folded, own_deg: reading.own_deg, gain: 1.0, map_gain: 1.0 }),
            map_deg: 0.0,
        })
    }

    fn chord_deg(&self, place: LinePlace) -> f64 {
        chord(self.line, place).bearing_deg()
    }

    /// One sigma of the map's part across any ray, metres: landmark and line, each so far off in either axis.
    fn map_m(&self, one: &Candidate<'_>) -> f64 {
        one.spread_m.hypot(self.line.spread_m)
    }
}

/// A reading of a group to its first candidate, as its crossings with the line are looked for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ray<'a> {
    pub(super) group: &'a Group<'a>,
    pub(super) reading: &'a Reading,
    pub(super) candidate: &'a Candidate<'a>,
    pub(super) shared_deg: f64,
}

impl Ray<'_> {
    /// The landmark's place.
    pub(super) fn mark(&self) -> Point {
        self.candidate.mark
    }

    /// The reading as a bearing of the plane, at a share of the way along a piece of the line.
    pub(super) fn piece_plane_deg(&self, piece: usize, share: f64) -> f64 {
        self.reading.piece_plane_deg(piece, share)
    }

    /// One sigma of the reading and the shared error, degrees, without the map's part.
    pub(super) fn reading_spread_deg(&self) -> f64 {
        self.reading.own_deg.hypot(self.shared_deg)
    }

    /// One sigma of the map's part across the ray, metres: landmark and line.
    pub(super) fn map_spread_m(&self) -> f64 {
        self.group.map_m(self.candidate)
    }

    /// One sigma of the whole bearing at a place, degrees.
    pub(super) fn angle_spread_deg(&self, place: LinePlace) -> f64 {
        let distance_m = self.mark().minus(place.at).length_m();
        self.reading_spread_deg().hypot(in_degrees(self.map_spread_m(), distance_m))
    }

    /// The reading minus the sheet's bearing, degrees, at a share of the way along a piece.
    pub(super) fn residual_deg(&self, piece: usize, share: f64, place: LinePlace) -> f64 {
        signed_difference_deg(self.piece_plane_deg(piece, share), self.mark().minus(place.at).bearing_deg())
    }
}

/// The chord of the line about a place, cut off at its ends.
pub(super) fn chord(line: &Line, place: LinePlace) -> Point {
    line.at(place.along_m + CHORD_M / 2.0).at.minus(line.at(place.along_m - CHORD_M / 2.0).at)
}

fn in_degrees(across_m: f64, distance_m: f64) -> f64 {
    (across_m / distance_m.max(1.0)).to_degrees().min(MOST_SPREAD_DEG)
}

/// Whether a reading is out of reach of a ray, without an arc tangent.
fn is_far(reading: &Reading, spot: &OnPiece, ray: Point, map_m: f64, shared_deg: f64) -> bool {
    let reach_deg = REACH_SIGMAS.0 * reading.own_deg + REACH_SIGMAS.1 * shared_deg;
    if reach_deg > 80.0 {
        return false;
    }
    let direction = Point::polar(1.0, reading.at(spot));
    let (ahead_m, aside_m) = (direction.dot(ray), direction.cross(ray).abs());
    let reach_m = 2.0 * REACH_SIGMAS.0 * map_m;
    aside_m > ahead_m.max(0.0) * reach_deg.to_radians().tan() + reach_m || ahead_m < -reach_m
}

//! Readings of a compass, prepared for one line: everything in which the error that they share enters.

mod ray;
mod reading;
mod repeated;
mod run;

use std::sync::Arc;

use self::ray::{Cone, SharpCandidate};
pub(super) use self::ray::{Ray, Sharp};
pub(super) use self::reading::Reading;
use self::reading::{Aim, Turns, running_readings};
pub(super) use self::repeated::{Repeated, map_nodes};
pub(super) use self::run::{Look, REACH_M as RUN_REACH_M, chord, folded_deg, looks, off_deg, unsure_deg};
use super::scene::Scene;
use super::{BearingSighting, Sighting, Table, Way};
use crate::measure::{Point, signed_difference_deg};
use crate::sheet::{Landmark, Line, LinePlace};

/// A landmark so near that its own spread is wider than this tells nothing about the direction, degrees.
const MOST_SPREAD_DEG: f64 = 90.0;
/// Least chance that what was sighted is in sight: it was sighted, after all.
pub(super) const LEAST_CHANCE: f64 = 0.005;
/// What differs by more than this many sigmas is no look at the same thing again: bearings to one of several landmarks were taken to two of
/// them, distances to one landmark disagree, runs were two.
pub(super) const SAME_SIGMAS: f64 = 3.0;

/// What may have been sighted.
#[derive(Debug, Clone)]
pub(super) struct Candidate<'a> {
    pub(super) name: &'a str,
    pub(super) mark: Point,
    spread_m: f64,
    /// One sigma of the map's part across any ray, metres: landmark and line, each so far off in either axis.
    map_m: f64,
    chance: Option<&'a Table>,
}

/// All readings of one thing: they share its identity and the error of its place on the map.
#[derive(Debug, Clone)]
pub(super) struct Group<'a> {
    /// Which sightings of the scene it is made of.
    pub(super) sightings: Vec<usize>,
    pub(super) candidates: Vec<Candidate<'a>>,
    pub(super) readings: Vec<Reading>,
    /// Several readings that were all made here, together.
    pub(super) repeated: Option<Arc<Repeated>>,
    /// Its number among the groups, and that of the first of them with the same candidates.
    pub(super) number: usize,
    pub(super) kin: usize,
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
    /// That of the first of several that are told together.
    Together(Residual),
}

impl Residuals {
    pub(super) fn as_slice(&self) -> &[Residual] {
        match self {
            Self::One(one) | Self::Together(one) => std::slice::from_ref(one),
            Self::Several(several) => several,
        }
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
    let mut turns = Turns::new(scene, line);
    for (index, sighting) in scene.sightings.iter().enumerate() {
        let Some(group) = group(&mut turns, line_index, index, sighting) else { continue };
        match all.iter_mut().find(|other| other.is_same(&group)) {
            Some(other) => {
                other.readings.extend(group.readings);
                other.sightings.push(index);
            }
            None => all.push(group),
        }
    }
    for number in 0..all.len() {
        let kin = all.iter().take(number).position(|other| all.get(number).is_some_and(|group| other.has_candidates_of(group)));
        if let Some(group) = all.get_mut(number) {
            (group.number, group.kin) = (number, kin.unwrap_or(number));
            group.repeated = Repeated::of(&group.readings, scene.wrong_share).map(Arc::new);
        }
    }
    all
}

fn group<'a>(turns: &mut Turns<'a>, line_index: usize, index: usize, sighting: &'a Sighting) -> Option<Group<'a>> {
    let (scene, line) = (turns.scene, turns.line);
    let mark = |landmark: &'a Landmark| Candidate {
        name: &landmark.name,
        mark: landmark.at,
        spread_m: landmark.spread_m,
        map_m: landmark.spread_m.hypot(line.spread_m),
        chance: scene.chance(&landmark.name, line_index),
    };
    let (candidates, readings, of_line) = match sighting {
        Sighting::Bearing(BearingSighting { candidates, reading, spread_deg }) => {
            (candidates.iter().map(mark).collect(), vec![turns.reading(index, *reading, *spread_deg)], false)
        }
        Sighting::Running(running) => (vec![mark(&running.landmark)], running_readings(turns, line_index, index, running), false),
        Sighting::LineRun { reading, spread_deg } => (Vec::new(), vec![turns.reading(index, *reading, *spread_deg)], true),
        Sighting::Angle { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => {
            return None;
        }
    };
    Some(Group { sightings: vec![index], candidates, readings, repeated: None, number: 0, kin: 0, line, of_line })
}

impl Group<'_> {
    /// Whether both are of one thing: the same landmark, or readings so near each other that they were taken of the same one of several.
    fn is_same(&self, other: &Self) -> bool {
        self.has_candidates_of(other) && (self.candidates.len() == 1 || self.is_read_as(other))
    }

    fn has_candidates_of(&self, other: &Self) -> bool {
        let (own, others) = (&self.candidates, &other.candidates);
        let same = own.len() == others.len() && own.iter().zip(others).all(|(one, two)| one.name == two.name && one.mark == two.mark);
        same && !self.of_line && !other.of_line
    }

    fn is_read_as(&self, other: &Self) -> bool {
        let pairs = self.readings.iter().flat_map(|one| other.readings.iter().map(move |two| (one, two)));
        pairs.into_iter().all(|(one, two)| {
            let apart_deg = signed_difference_deg(one.piece_plane_deg(0, 0.0), two.piece_plane_deg(0, 0.0)).abs();
            apart_deg <= SAME_SIGMAS * one.own_deg.hypot(two.own_deg)
        })
    }

    /// The same without one sighting; nothing when it has no part in it.
    pub(super) fn without(&self, sighting: usize) -> Option<Self> {
        if !self.sightings.contains(&sighting) {
            return None;
        }
        let mut rest = self.clone();
        rest.sightings.retain(|one| *one != sighting);
        rest.readings.retain(|one| one.sighting != sighting);
        rest.repeated = self.repeated.as_ref().and_then(|all| all.without(sighting)).map(Arc::new);
        Some(rest)
    }

    /// The rays of a bearing's readings that were made here: nothing for the run of a line.
    pub(super) fn rays(&self, shared_deg: f64) -> Vec<Ray<'_>> {
        let here = self.readings.iter().filter(|reading| reading.before.is_none());
        let first = self.candidates.first();
        here.filter_map(|reading| Some(Ray { reading, candidate: first?, shared_deg })).collect()
    }

    /// One sigma of the sharpest reading itself, degrees.
    pub(super) fn own_deg(&self) -> f64 {
        self.readings.iter().map(|reading| reading.own_deg).fold(f64::INFINITY, f64::min)
    }

    /// The smallest spread that a reading of any candidate with this sigma can leave anywhere on the line, metres: at the right angle, from
    /// the nearest place.
    pub(super) fn sharpest_m(&self, own_deg: f64) -> f64 {
        let nearest = |one: &Candidate<'_>| {
            let off_m = self.line.nearest(one.mark).at.minus(one.mark).length_m();
            (off_m * own_deg.to_radians()).hypot(one.spread_m)
        };
        self.candidates.iter().map(nearest).fold(f64::INFINITY, f64::min)
    }

    /// The same at any place of the line.
    pub(super) fn sharp(&self, shared_deg: f64) -> Sharp {
        let own_deg = self.own_deg();
        let run_m =
            self.readings.iter().filter_map(|reading| reading.before.as_ref()).map(|before| before.run.length_m()).fold(0.0, f64::max);
        let of = |one: &Candidate<'_>| SharpCandidate {
            mark: one.mark,
            own_rad2: own_deg.to_radians().powi(2),
            map_m2: one.spread_m * one.spread_m,
            run_m,
        };
        Sharp { candidates: self.candidates.iter().map(of).collect(), readings: self.readings.len() as f64, aim: self.cone(shared_deg) }
    }

    /// Where its readings point: of several, the first, widened by how far the others are from it.
    fn cone(&self, shared_deg: f64) -> Option<Cone> {
        let first = self.readings.first()?;
        let here = self.readings.iter().all(|reading| reading.before.is_none());
        let apart = |other: &Reading| signed_difference_deg(other.piece_plane_deg(0, 0.0), first.piece_plane_deg(0, 0.0)).abs();
        let widest_deg = self.readings.iter().map(apart).fold(0.0, f64::max);
        if here { first.cone(shared_deg, widest_deg) } else { None }
    }

    /// Whether it is the run of the line, which a bend changes within metres.
    pub(super) fn is_of_line(&self) -> bool {
        self.of_line
    }

    /// How many degrees the directions go round in: a line runs both ways.
    pub(super) fn round_deg(&self) -> f64 {
        if self.of_line { 180.0 } else { 360.0 }
    }

    /// The chance of each identity, in sight. What is left of their sum when every reading is plainly wrong is the whole.
    pub(super) fn weights(&self, place: LinePlace, into: &mut Vec<f64>) {
        into.clear();
        if self.of_line || self.candidates.len() == 1 {
            // That a sure landmark is in sight is weighed once for all that was seen of it.
            into.push(1.0);
            return;
        }
        let even = 1.0 / self.candidates.len() as f64;
        let chance = |one: &Candidate<'_>| one.chance.map_or(1.0, |table| table.at(place.along_m).max(LEAST_CHANCE));
        into.extend(self.candidates.iter().map(|one| even * chance(one)));
    }

    /// What the candidates within reach leave at a place.
    pub(super) fn lobes(&self, spot: &OnPiece, shared_deg: f64, weights: &[f64], found: &mut Vec<Lobe>) {
        if self.of_line {
            found.extend(self.line_lobe(spot));
            return;
        }
        if let Some(repeated) = &self.repeated {
            found.extend(self.repeated_lobes(repeated, spot, shared_deg, weights));
            return;
        }
        let here = self.readings.iter().all(|reading| reading.before.is_none());
        let aims: Vec<Aim> = self.readings.iter().filter(|_| here).map(|reading| Aim::new(reading, spot, (shared_deg, 0.0))).collect();
        for ((candidate, one), weight) in self.candidates.iter().enumerate().zip(weights) {
            let ray = one.mark.minus(spot.place.at);
            if aims.is_empty() || !aims.iter().all(|aim| aim.is_far(ray, one.map_m)) {
                self.either_way(spot.place).for_each(|(way, share)| found.push(self.lobe((candidate, one), spot, way, share * weight)));
            }
        }
    }

    /// The same for readings that are told together.
    fn repeated_lobes(&self, repeated: &Repeated, spot: &OnPiece, shared_deg: f64, weights: &[f64]) -> impl Iterator<Item = Lobe> {
        let aim = Aim::new(&repeated.lead, spot, (shared_deg, repeated.widest_deg()));
        let read_deg = repeated.lead.at(spot);
        let near = self.candidates.iter().zip(weights).enumerate().filter_map(move |(candidate, (one, weight))| {
            let ray = one.mark.minus(spot.place.at);
            let first = Residual {
                deg: signed_difference_deg(read_deg, ray.bearing_deg()),
                own_deg: repeated.lead.own_deg,
                gain: 1.0,
                map_gain: 1.0,
            };
            let map_deg = in_degrees(one.map_m, ray.dot(ray).sqrt());
            (!aim.is_far(ray, one.map_m)).then_some(Lobe { candidate, weight: *weight, residuals: Residuals::Together(first), map_deg })
        });
        near.collect::<Vec<_>>().into_iter()
    }

    /// The ways that may have been gone to a place, with their shares: one that is not named where it is known or nothing was run.
    fn either_way(&self, place: LinePlace) -> impl Iterator<Item = (Option<Way>, f64)> + use<> {
        let ways: &[(Option<Way>, f64)] = if self.readings.iter().any(|reading| reading.is_either_way(self.line, place)) {
            &[(Some(Way::Onward), 0.5), (Some(Way::Backward), 0.5)]
        } else {
            &[(None, 1.0)]
        };
        ways.iter().copied()
    }

    /// What one candidate, or the first where it is not known which, leaves at a place, and the readings in the same order.
    pub(super) fn against(&self, spot: &OnPiece, candidate: Option<&str>) -> Option<(Lobe, &[Reading])> {
        if self.of_line {
            return self.line_lobe(spot).map(|lobe| (lobe, self.readings.as_slice()));
        }
        let named = self.candidates.iter().position(|one| Some(one.name) == candidate).unwrap_or(0);
        let one = self.candidates.get(named)?;
        let lobes = self.either_way(spot.place).map(|(way, share)| self.lobe((named, one), spot, way, share));
        let off = |lobe: &Lobe| lobe.residuals.as_slice().iter().map(|residual| (residual.deg / residual.own_deg).abs()).sum::<f64>();
        Some((lobes.min_by(|a, b| off(a).total_cmp(&off(b)))?, &self.readings))
    }

    fn lobe(&self, (candidate, one): (usize, &Candidate<'_>), spot: &OnPiece, way: Option<Way>, weight: f64) -> Lobe {
        let residual = |reading: &Reading| {
            let ray = one.mark.minus(reading.origin(self.line, spot.place, way));
            let deg = signed_difference_deg(reading.at(spot), ray.bearing_deg());
            let Some(before) = &reading.before else { return Residual { deg, own_deg: reading.own_deg, gain: 1.0, map_gain: 1.0 } };
            let (run_m, gain) = before.across(ray);
            // Seen from another side, only a part of the map error is the same.
            let here = one.mark.minus(spot.place.at);
            let turned_rad = (ray.bearing_deg() - here.bearing_deg()).to_radians();
            let other_deg = in_degrees(one.map_m * turned_rad.sin().abs(), ray.length_m());
            let own_deg = reading.own_deg.hypot(in_degrees(run_m, ray.length_m())).hypot(other_deg);
            Residual { deg, own_deg, gain, map_gain: turned_rad.cos() * here.length_m() / ray.length_m().max(1.0) }
        };
        let here = one.mark.minus(spot.place.at);
        // As `length_m`, in a tenth of its time.
        let distance_m = here.dot(here).sqrt();
        Lobe {
            candidate,
            weight,
            residuals: match self.readings.as_slice() {
                [only] => Residuals::One(residual(only)),
                several => Residuals::Several(several.iter().map(residual).collect()),
            },
            map_deg: in_degrees(one.map_m, distance_m),
        }
    }

    fn line_lobe(&self, spot: &OnPiece) -> Option<Lobe> {
        let reading = self.readings.first()?;
        let deg = off_deg(self.line, spot.place, reading.at(spot));
        let residuals = Residuals::One(Residual { deg, own_deg: reading.own_deg, gain: 1.0, map_gain: 1.0 });
        Some(Lobe { candidate: 0, weight: 1.0, residuals, map_deg: 0.0 })
    }
}

fn in_degrees(across_m: f64, distance_m: f64) -> f64 {
    (across_m / distance_m.max(1.0)).to_degrees().min(MOST_SPREAD_DEG)
}

//! All that was observed without a compass, for one of a scene's lines: what says the same twice is heard once.

use super::counted::Counted;
use super::plain::{Plain, plain};
use super::scene::Scene;
use super::{Counter, MeasuredSighting, Sighting};
use crate::sheet::{Landmark, Line, LinePlace};

/// Likelihoods are multiplied as long as they and their product stay above this: then one logarithm serves for all.
const LEAST_FACTOR: f64 = 1e-100;

/// The sightings of a scene without a compass, and that what was sighted is in sight, for one of its lines.
#[derive(Debug)]
pub(super) struct Plains<'a> {
    all: Vec<Entry<'a>>,
}

/// What some of the sightings say together.
#[derive(Debug)]
struct Entry<'a> {
    /// The sightings that it rests on: without all of them it is gone.
    of: Vec<usize>,
    says: Says<'a>,
}

#[derive(Debug)]
enum Says<'a> {
    Once(Plain<'a>),
    /// The same thing, looked at again, one for each sighting: its errors are those of the eye and of the sheet, and looking again does
    /// not lessen them. All together count as one.
    Again(Vec<Plain<'a>>),
    /// Distances of one instrument.
    Counted(Counted<'a>),
    /// The line lacks the known points that were counted from: nothing is said there, and this much speaks neither for nor against it.
    Silent(f64),
}

pub(super) fn plains<'a>(scene: &'a Scene<'a>, line_index: usize, line: &'a Line) -> Plains<'a> {
    let mut all: Vec<Entry<'a>> = Vec::new();
    for (index, sighting) in scene.sightings.iter().enumerate() {
        let Some(one) = plain(scene, line_index, line, sighting) else { continue };
        let first = |entry: &Entry<'_>| entry.of.first().and_then(|first| scene.sightings.get(*first));
        match all.iter_mut().find(|entry| first(entry).is_some_and(|first| is_again(first, sighting))) {
            Some(entry) => entry.again(index, one),
            None => all.push(Entry { of: vec![index], says: Says::Once(one) }),
        }
    }
    let chance = |(name, of): (&str, Vec<usize>)| Some(Entry { of, says: Says::Once(Plain::Seen(scene.chance(name, line_index)?)) });
    let in_sight = seen(scene).into_iter().filter_map(chance);
    all.extend(counted(scene, line_index, line));
    all.extend(in_sight);
    Plains { all }
}

/// Whether a sighting tells nothing new beside another: its errors are those of the eye, of the air pressure and of the sheet.
fn is_again(one: &Sighting, other: &Sighting) -> bool {
    match (one, other) {
        (Sighting::Side { landmark, quarter, .. }, Sighting::Side { landmark: again, quarter: told, .. }) => {
            landmark.name == again.name && quarter == told
        }
        (Sighting::Seen { landmark, seen: false }, Sighting::Seen { landmark: again, seen: false }) => landmark.name == again.name,
        (Sighting::Here { known, .. }, Sighting::Here { known: again, .. }) => known == again,
        (Sighting::Ground(ground), Sighting::Ground(again)) => ground.is_again(again),
        _ => false,
    }
}

/// The distances by trip meter, and those by paces.
fn counted<'a>(scene: &'a Scene<'a>, line_index: usize, line: &Line) -> Vec<Entry<'a>> {
    let even = 1.0 / scene.length_m();
    let mut found = Vec::new();
    for by_meter in [true, false] {
        let of = |(index, sighting): (usize, &'a Sighting)| {
            let Sighting::Measured(measured) = sighting else { return None };
            (matches!(measured.counter, Counter::Meter { .. }) == by_meter).then_some((index, measured))
        };
        let all: Vec<(usize, &MeasuredSighting)> = scene.sightings.iter().enumerate().filter_map(of).collect();
        let on = Counted::on(&all, line_index, line, even);
        let of = on.sightings();
        let (heard, unheard): (Vec<_>, Vec<_>) = all.into_iter().partition(|(index, _)| of.contains(index));
        if !heard.is_empty() {
            found.push(Entry { of, says: Says::Counted(on) });
        }
        if !unheard.is_empty() {
            let of = unheard.iter().map(|(index, _)| *index).collect();
            found.push(Entry { of, says: Says::Silent(Counted::mean(scene, &unheard, even)) });
        }
    }
    found
}

impl<'a> Entry<'a> {
    fn again(&mut self, sighting: usize, plain: Plain<'a>) {
        self.of.push(sighting);
        match &mut self.says {
            Says::Again(all) => all.push(plain),
            Says::Once(first) => self.says = Says::Again(vec![first.clone(), plain]),
            Says::Counted(_) | Says::Silent(_) => {}
        }
    }

    /// The likelihood at a place.
    fn at(&self, place: LinePlace) -> f64 {
        match &self.says {
            Says::Once(plain) => plain.at(place),
            Says::Again(all) => (all.iter().map(|plain| plain.at(place).ln()).sum::<f64>() / all.len() as f64).exp(),
            Says::Counted(counted) => counted.at(place.along_m, None),
            Says::Silent(likelihood) => *likelihood,
        }
    }

    /// Its logarithm at a place without one of its sightings.
    fn ln_without(&self, sighting: usize, place: LinePlace) -> f64 {
        match &self.says {
            _ if self.of.as_slice() == [sighting] => 0.0,
            Says::Again(all) => {
                let others = self.of.iter().zip(all).filter(|(of, _)| **of != sighting);
                others.map(|(_, plain)| plain.at(place).ln()).sum::<f64>() / (all.len() - 1) as f64
            }
            Says::Counted(counted) => counted.at(place.along_m, Some(sighting)).ln(),
            Says::Once(_) | Says::Silent(_) => self.at(place).ln(),
        }
    }
}

impl Plains<'_> {
    /// How many things are looked up at each place.
    pub(super) fn count(&self) -> usize {
        self.all.len()
    }

    /// Natural logarithm of the likelihood of all at a place.
    pub(super) fn ln_at(&self, place: LinePlace) -> f64 {
        let (mut product, mut log) = (1.0, 0.0);
        for entry in &self.all {
            let likelihood = entry.at(place);
            if likelihood < LEAST_FACTOR || product < LEAST_FACTOR {
                (product, log) = (likelihood, log + f64::ln(product));
            } else {
                product *= likelihood;
            }
        }
        log + product.ln()
    }

    /// The same, and by how much less it is without each of the sightings, in the scene's order.
    pub(super) fn apart_at(&self, place: LinePlace, sightings: usize) -> (f64, Vec<f64>) {
        let (mut whole, mut gone) = (0.0, vec![0.0; sightings]);
        for entry in &self.all {
            let ln = entry.at(place).ln();
            whole += ln;
            for sighting in &entry.of {
                if let Some(gone) = gone.get_mut(*sighting) {
                    *gone += ln - entry.ln_without(*sighting, place);
                }
            }
        }
        (whole, gone)
    }

    /// What a sighting itself says, not that its landmark is in sight: unless that is all it says.
    pub(super) fn of(&self, sighting: usize) -> Option<Said<'_>> {
        let entry = self.all.iter().find(|entry| entry.of.contains(&sighting))?;
        match &entry.says {
            Says::Once(plain) => Some(Said::Plain(plain)),
            Says::Again(all) => entry.of.iter().zip(all).find(|(of, _)| **of == sighting).map(|(_, plain)| Said::Plain(plain)),
            Says::Counted(counted) => Some(Said::Counted(counted)),
            Says::Silent(_) => None,
        }
    }
}

/// What one sighting says.
pub(super) enum Said<'a> {
    Plain(&'a Plain<'a>),
    Counted(&'a Counted<'a>),
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

//! What each sighting gave to a fix: how far the fix would move without it, and what it most likely saw.

use super::scene::{Choice, Scene};
use super::weigh::{OnLine, Steps, Weighed, weigh};
use super::{Sighting, Stretch};

/// Entries of the coarser table that a fix without one sighting is looked up in, at the most, on each line.
const COARSE_STEPS: f64 = 2_000.0;

/// One sighting's part in a fix.
#[derive(Debug, Clone, PartialEq)]
pub struct Account {
    /// Which of the scene's sightings, from 0.
    pub sighting: usize,
    /// Its kind: bearing, running, line-run, angle, side, seen, here, measured, or that of what the ground says.
    pub what: &'static str,
    /// What it is of, as the walker named it; empty for what has no name.
    pub of: String,
    /// By how many metres the likeliest place would move without it; nothing when it is the only one.
    pub moves_m: Option<f64>,
    /// Probability that is left at the likeliest place without it, against now, as a ratio of densities; below 1 it speaks for the place.
    pub without: Option<f64>,
    /// For a landmark that may be one of several: the odds of each, likeliest first.
    pub identity: Vec<(String, f64)>,
}

impl Account {
    /// The likeliest identity.
    #[must_use]
    pub fn likeliest(&self) -> Option<&str> {
        self.identity.first().map(|(name, _)| name.as_str())
    }
}

pub(super) fn accounts(scene: &Scene<'_>, weighed: &Weighed, steps: &[Steps], best: &Stretch) -> Vec<Account> {
    let prepared: Vec<OnLine<'_>> = scene.lines.iter().enumerate().map(|(index, choice)| OnLine::new(scene, index, choice.line)).collect();
    (0..scene.sightings.len())
        .map(|sighting| {
            let without = (scene.sightings.len() > 1).then(|| without(scene, sighting, weighed, steps, best)).flatten();
            Account {
                sighting,
                what: scene.sightings.get(sighting).map_or("", Sighting::word),
                of: scene.sightings.get(sighting).map_or_else(String::new, Sighting::named),
                moves_m: without.map(|(moves_m, _)| moves_m),
                without: without.map(|(_, ratio)| ratio),
                identity: identity(&prepared, weighed, sighting),
            }
        })
        .collect()
}

/// The fix without one sighting: how far off its likeliest place lies, and the density that it leaves at ours.
fn without(scene: &Scene<'_>, sighting: usize, weighed: &Weighed, steps: &[Steps], best: &Stretch) -> Option<(f64, f64)> {
    let mut fewer = scene.clone();
    fewer.sightings.remove(sighting);
    let coarser = |(choice, steps): (&Choice<'_>, &Steps)| steps.coarser(choice.line, COARSE_STEPS);
    let coarse: Vec<Steps> = scene.lines.iter().zip(steps).map(coarser).collect();
    let other = weigh(&fewer, &coarse)?;
    let peak = |weighed: &Weighed| {
        let places = weighed.lines.iter().enumerate().filter_map(|(line, one)| {
            let most = one.odds.per_m.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?;
            Some((line, one.odds.along_m(most.0), *most.1))
        });
        places.max_by(|a, b| a.2.total_cmp(&b.2))
    };
    let (line, along_m, _) = peak(&other)?;
    let there = scene.lines.get(line)?.line.at(along_m).at;
    let density = |weighed: &Weighed| weighed.lines.get(best.line).map_or(0.0, |one| one.odds.density(best.best.along_m));
    Some((there.minus(best.best.at).length_m(), density(&other) / density(weighed).max(f64::MIN_POSITIVE)))
}

/// The odds of what a sighting saw, the places and the shared error summed out.
fn identity(prepared: &[OnLine<'_>], weighed: &Weighed, sighting: usize) -> Vec<(String, f64)> {
    let mut all: Vec<(String, f64)> = Vec::new();
    for (line, odds) in prepared.iter().zip(&weighed.lines) {
        for (name, share) in line.identity(sighting, &odds.odds) {
            match all.iter_mut().find(|(other, _)| *other == name) {
                Some((_, sum)) => *sum += share,
                None => all.push((name, share)),
            }
        }
    }
    let total: f64 = all.iter().map(|(_, share)| share).sum();
    all.iter_mut().for_each(|(_, share)| *share /= total);
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    all
}

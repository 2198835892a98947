//! What each sighting gave to a fix: how far the fix would move without it, and what it most likely saw.

use super::curve::{Between, Curve};
use super::fit::fits;
use super::on_line::OnLine;
use super::scene::Scene;
use super::steps::Steps;
use super::weigh::{Weighed, Weighing, normalised};
use super::{Fit, Sighting, Stretch, told_apart};

/// Entries of the coarser table that a fix without one sighting is looked up in, at the most, on each line.
const COARSE_STEPS: f64 = 2_000.0;

/// One sighting's part in a fix.
#[derive(Debug, Clone, PartialEq)]
pub struct Account {
    /// Which of the scene's sightings, from 0.
    pub sighting: usize,
    /// Its kind: bearing, running, line-run, angle, side, seen, here, measured, or that of what the ground says.
    pub what: &'static str,
    /// What it is of, as the walker named it; empty for what has no name. Of several alike, with its number in the list, from 1.
    pub of: String,
    /// How it fits the likeliest place; nothing when it says nothing there.
    pub fit: Option<Fit>,
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

/// Every sighting's part, in the scene's order.
pub(super) fn accounts(scene: &Scene<'_>, weighing: &Weighing<'_>, weighed: &Weighed, best: &Stretch) -> Vec<Account> {
    let mut accounts = without_fits(scene, weighing, weighed, best);
    let fits = weighing.prepared.get(best.line).map(|line| fits(line, best.best, &accounts)).unwrap_or_default();
    accounts.iter_mut().zip(fits).for_each(|(account, fit)| account.fit = fit);
    accounts
}

fn without_fits(scene: &Scene<'_>, weighing: &Weighing<'_>, weighed: &Weighed, best: &Stretch) -> Vec<Account> {
    let several = scene.sightings.len() > 1;
    let apart: Vec<Apart<'_>> =
        if several { weighing.lines().map(|line| Apart::new(line, scene.sightings.len())).collect() } else { Vec::new() };
    let names = told_apart(scene.sightings.iter().enumerate().map(|(index, one)| (index, one.word(), one.named())));
    let identities = identities(weighing, weighed, scene.sightings.len());
    identities
        .into_iter()
        .enumerate()
        .map(|(sighting, identity)| {
            let without = if several { without(scene, sighting, &apart, weighed, best) } else { None };
            Account {
                sighting,
                what: scene.sightings.get(sighting).map_or("", Sighting::word),
                of: names.get(sighting).cloned().unwrap_or_default(),
                fit: None,
                moves_m: without.map(|(moves_m, _)| moves_m),
                without: without.map(|(_, ratio)| ratio),
                identity,
            }
        })
        .collect()
}

/// What was observed along one line, each sighting for itself, at the middles of steps.
struct Apart<'a> {
    curve: &'a Curve,
    ln_prior: f64,
    step_m: f64,
    places: Vec<Between>,
    /// The sightings with readings, in the order of the curve.
    directed: Vec<usize>,
    /// All without a compass at every place, and by how much less that is without each sighting.
    plains: Vec<(f64, Vec<f64>)>,
}

impl<'a> Apart<'a> {
    fn new((line, curve, ln_prior): (&'a OnLine<'a>, &'a Curve, f64), sightings: usize) -> Self {
        let (count, step_m) = Steps::coarse(line.line, COARSE_STEPS).told(line.line);
        let mut cursor = curve.cursor();
        let middles = || (0..count).map(|index| (index as f64 + 0.5) * step_m);
        let spots = middles().filter_map(|along_m| line.spot(along_m));
        Self {
            curve,
            ln_prior,
            step_m,
            places: middles().map(|along_m| cursor.at(along_m)).collect(),
            directed: line.directed_sightings(),
            plains: spots.map(|spot| line.plains.apart_at(spot.place, sightings)).collect(),
        }
    }

    /// The logarithm of what is left without one sighting, at the middle of each step.
    fn without(&self, sighting: usize) -> (f64, Vec<f64>) {
        let readings = self.directed.iter().position(|one| *one == sighting).and_then(|index| self.curve.without.get(index));
        let readings = readings.unwrap_or(&self.curve.ln);
        let places = self.places.iter().zip(&self.plains);
        let log = |(place, (whole, gone)): (&Between, &(f64, Vec<f64>))| {
            let plain = whole - gone.get(sighting).copied().unwrap_or(0.0);
            self.ln_prior + plain + place.of(readings)
        };
        (self.step_m, places.map(log).collect())
    }
}

/// The fix without one sighting: how far off its likeliest place lies, and the density that it leaves at ours.
fn without(scene: &Scene<'_>, sighting: usize, apart: &[Apart<'_>], weighed: &Weighed, best: &Stretch) -> Option<(f64, f64)> {
    let other = normalised(apart.iter().map(|line| line.without(sighting)).collect())?;
    let places = other.lines.iter().enumerate().filter_map(|(line, one)| {
        let most = one.odds.per_m.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?;
        Some((line, one.odds.along_m(most.0), *most.1))
    });
    let (line, along_m, _) = places.max_by(|a, b| a.2.total_cmp(&b.2))?;
    let there = scene.lines.get(line)?.line.at(along_m).at;
    let density = |weighed: &Weighed| weighed.lines.get(best.line).map_or(0.0, |one| one.odds.density(best.best.along_m));
    Some((there.minus(best.best.at).length_m(), density(&other) / density(weighed).max(f64::MIN_POSITIVE)))
}

/// The odds of what each sighting saw, the places and the shared error summed out; nothing for one that is sure.
fn identities(weighing: &Weighing<'_>, weighed: &Weighed, sightings: usize) -> Vec<Vec<(String, f64)>> {
    let mut all: Vec<Vec<(String, f64)>> = vec![Vec::new(); sightings];
    for (line, odds) in weighing.prepared.iter().zip(&weighed.lines) {
        for (group, shares) in line.identities(&odds.odds) {
            let Some(group) = line.groups.get(group) else { continue };
            for sighting in &group.sightings {
                let Some(sums) = all.get_mut(*sighting) else { continue };
                for (candidate, share) in group.candidates.iter().zip(&shares) {
                    match sums.iter_mut().find(|(name, _)| *name == candidate.name) {
                        Some((_, sum)) => *sum += share,
                        None => sums.push((candidate.name.to_owned(), *share)),
                    }
                }
            }
        }
    }
    for sums in &mut all {
        let total: f64 = sums.iter().map(|(_, share)| share).sum();
        sums.iter_mut().for_each(|(_, share)| *share /= total);
        sums.sort_by(|a, b| b.1.total_cmp(&a.1));
    }
    all
}

//! The likelihood of everything observed along the lines, the compass error that the readings share summed out.

use super::curve::Curve;
use super::odds::{LineOdds, Odds};
use super::on_line::OnLine;
use super::scene::Scene;
use super::shared::Here;
use super::steps::Steps;

/// Where less than this share of the peak is left, the curves are fine enough.
const LEAST_OF_PEAK: f64 = 1e-4;

/// What the weighing gives: the odds along each line, and how well all of it was foretold.
#[derive(Debug)]
pub(super) struct Weighed {
    pub(super) lines: Vec<LineOdds>,
    /// Natural logarithm of the chance of all readings, the places summed out; only differences have a meaning.
    pub(super) ln_evidence: f64,
    /// What the probability per metre nowhere exceeds when every compass reading that tells places apart is plainly wrong; endless where that was not asked.
    pub(super) unread_per_m: f64,
}

/// A scene prepared for each of its lines, one pair of steps for each, and what the compass readings say along them.
#[derive(Debug)]
pub(super) struct Weighing<'a> {
    pub(super) prepared: Vec<OnLine<'a>>,
    pub(super) curves: Vec<Curve>,
    steps: Vec<Steps>,
    ln_prior: Vec<f64>,
    /// What was observed without a compass along each line, in the middle of each step that is told.
    plains: Vec<Vec<f64>>,
}

/// The lines of a scene, each with its sightings.
pub(super) fn prepared<'a>(scene: &'a Scene<'a>) -> Vec<OnLine<'a>> {
    scene.lines.iter().enumerate().map(|(index, choice)| OnLine::new(scene, index, choice.line)).collect()
}

impl<'a> Weighing<'a> {
    /// With `apart`, it is also reckoned what is left without each sighting.
    pub(super) fn new(scene: &Scene<'_>, prepared: Vec<OnLine<'a>>, steps: &[Steps], apart: bool) -> Self {
        let curves = prepared.iter().zip(steps).map(|(line, steps)| line.curve(*steps, apart)).collect();
        let plains = prepared.iter().zip(steps).map(|(line, steps)| line.plain_logs(*steps)).collect();
        let ln_prior = scene.prior_per_m().into_iter().map(f64::ln).collect();
        Self { prepared, curves, steps: steps.to_vec(), ln_prior, plains }
    }

    /// Each line with its curve, and the logarithm of the odds of a metre of it beforehand.
    pub(super) fn lines(&self) -> impl Iterator<Item = (&OnLine<'a>, &Curve, f64)> {
        self.prepared.iter().zip(&self.curves).zip(&self.ln_prior).map(|((line, curve), ln_prior)| (line, curve, *ln_prior))
    }

    pub(super) fn weighed(&self) -> Option<Weighed> {
        // What the readings say is told as a multiple of that; what they say everywhere, as the run of a straight line does, tells no place.
        let ln_anywhere = self.curves.iter().flat_map(|curve| &curve.ln).copied().reduce(f64::min).map_or(0.0, |least| least.max(0.0));
        let unread = self.ln_prior.iter().zip(&self.plains).flat_map(|(ln_prior, plains)| plains.iter().map(move |plain| ln_prior + plain));
        let ln_unread = unread.fold(f64::NEG_INFINITY, f64::max);
        let logs = self.lines().zip(self.steps.iter().zip(&self.plains)).map(|((line, curve, ln_prior), (steps, plains))| {
            let (step_m, mut logs) = line.logs(curve, plains, *steps);
            logs.iter_mut().for_each(|log| *log += ln_prior);
            (step_m, logs)
        });
        let weighed = normalised(logs.collect())?;
        Some(Weighed { unread_per_m: (ln_unread + ln_anywhere - weighed.ln_evidence).exp(), ..weighed })
    }

    /// The same with finer steps, taken where there is anything to stand on.
    pub(super) fn finer(self, steps: &[Steps], weighed: &Weighed) -> Self {
        let peak = weighed.lines.iter().map(|line| line.odds.peak()).fold(0.0, f64::max);
        let lines = self.prepared.iter().zip(&self.curves).zip(steps.iter().zip(&weighed.lines));
        let curves = lines.map(|((line, curve), (steps, weighed))| {
            let odds = &weighed.odds;
            let place = |along_m: f64| (along_m / odds.step_m) as usize;
            let matters = |before: f64, after: f64| {
                let entries = odds.per_m.get(place(before)..=place(after).min(odds.per_m.len().saturating_sub(1)));
                entries.unwrap_or_default().iter().any(|density| *density > peak * LEAST_OF_PEAK)
            };
            line.refined(curve, steps.widest_m(), matters)
        });
        let curves = curves.collect();
        let mut plains = self.plains;
        for ((line, plains), (before, steps)) in self.prepared.iter().zip(&mut plains).zip(self.steps.iter().zip(steps)) {
            // Where as many steps are told as before, the places are the same.
            if before.told(line.line) != steps.told(line.line) {
                *plains = line.plain_logs(*steps);
            }
        }
        Self { curves, plains, steps: steps.to_vec(), prepared: self.prepared, ln_prior: self.ln_prior }
    }
}

/// The odds along every line of a scene, one pair of steps for each line.
pub(super) fn weigh(scene: &Scene<'_>, steps: &[Steps]) -> Option<Weighed> {
    Weighing::new(scene, prepared(scene), steps, false).weighed()
}

/// As [`Weighed::ln_evidence`], summed over some of the steps of each line only; all readings are weighed at each of them.
pub(super) fn ln_evidence_on(scene: &Scene<'_>, step_m: &[f64], kept: &[Vec<usize>]) -> Option<f64> {
    let mut logs: Vec<f64> = Vec::new();
    let mut here = Here::default();
    for ((line, prior), (step_m, kept)) in prepared(scene).iter().zip(scene.prior_per_m()).zip(step_m.iter().zip(kept)) {
        let groups = line.all_groups();
        let spots = kept.iter().filter_map(|step| line.spot((*step as f64 + 0.5) * step_m));
        logs.extend(spots.map(|spot| line.ln_at(&spot, &mut here, &groups) + (prior * step_m).ln()));
    }
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    most.is_finite().then(|| most + logs.iter().map(|log| (log - most).exp()).sum::<f64>().ln())
}

/// Odds from logarithms at equal steps of each line.
pub(super) fn normalised(logs: Vec<(f64, Vec<f64>)>) -> Option<Weighed> {
    let most = logs.iter().flat_map(|(_, logs)| logs).copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<(f64, Vec<f64>)> =
        logs.into_iter().map(|(step_m, logs)| (step_m, logs.into_iter().map(|log| (log - most).exp()).collect())).collect();
    let total: f64 = weights.iter().map(|(step_m, weights)| step_m * weights.iter().sum::<f64>()).sum();
    if !(most.is_finite() && total.is_finite() && total > 0.0) {
        return None;
    }
    let lines = weights.into_iter().map(|(step_m, weights)| {
        let per_m: Vec<f64> = weights.into_iter().map(|weight| weight / total).collect();
        LineOdds { share: per_m.iter().sum::<f64>() * step_m, odds: Odds { step_m, per_m } }
    });
    Some(Weighed { lines: lines.collect(), ln_evidence: most + total.ln(), unread_per_m: f64::INFINITY })
}

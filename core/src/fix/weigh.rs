//! The likelihood of everything observed along the lines, the compass error that the readings share summed out.

use super::Table;
use super::directed::{Group, Lobe, OnPiece, Residual, Residuals, groups};
use super::odds::{LineOdds, Odds};
use super::plain::{Plain, plains};
use super::scene::Scene;
use crate::measure::{normal_density, normal_nodes, signed_difference_deg};
use crate::sheet::{Line, LinePlace};

/// Most entries of an odds table.
const MOST_STEPS: f64 = 40_000.0;
/// Widest step at which compass readings are weighed, metres: bends of the line are not passed over.
const WIDEST_M: f64 = 4.0;
/// Nodes over the shared compass error: at least, and at most.
const SHARED_NODES: (f64, f64) = (19.0, 301.0);
/// Nodes over the map error that several readings of one landmark share.
const MAP_NODES: (f64, f64) = (9.0, 201.0);
/// Most places that the identity of a landmark is summed over, on each line.
const IDENTITY_PLACES: usize = 500;

/// What the weighing gives: the odds along each line, and how well all of it was foretold.
pub(super) struct Weighed {
    pub(super) lines: Vec<LineOdds>,
    /// Natural logarithm of the chance of all readings, the places summed out; only differences have a meaning.
    pub(super) ln_evidence: f64,
}

/// How finely a line is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Steps {
    /// Between the places that are told, metres.
    told_m: f64,
    /// Between the places where compass readings are weighed, metres; their logarithms are taken to run straight between.
    weighed_m: f64,
}

impl Steps {
    /// Places every metre, nearer where a crossing is sharper, farther only on lines beyond 40 km. Compass readings are weighed at an
    /// eighth of the sharpest spread that all together can leave: the density between is then within 0.4 % of the peak.
    pub(super) fn of(line: &Line, sharpest_m: f64, readings: usize) -> Self {
        let told_m = (sharpest_m / 8.0).min(1.0).max(line.length_m() / MOST_STEPS);
        let weighed_m = (sharpest_m / 8.0 / (readings.max(1) as f64).sqrt()).clamp(told_m, WIDEST_M.max(told_m));
        Self { told_m, weighed_m }
    }

    /// Steps for what is left when everything is weighed together: an eighth of its spread, as far as a line has room for.
    pub(super) fn finer(self, line: &Line, spread_m: f64) -> Self {
        let told_m = self.told_m.min((spread_m / 8.0).max(line.length_m() / MOST_STEPS));
        Self { told_m, weighed_m: self.weighed_m.min((spread_m / 4.0).max(told_m)) }
    }

    /// So coarse that a line has about so many places.
    pub(super) fn coarse(line: &Line, most: f64) -> Self {
        let told_m = (line.length_m() / most).max(1.0);
        Self { told_m, weighed_m: told_m }
    }

    /// The same, so coarse that a line has at most so many places.
    pub(super) fn coarser(self, line: &Line, most: f64) -> Self {
        let least_m = line.length_m() / most;
        Self { told_m: self.told_m.max(least_m), weighed_m: self.weighed_m.max(least_m) }
    }
}

/// The odds along every line of a scene, one pair of steps for each line.
pub(super) fn weigh(scene: &Scene<'_>, steps: &[Steps]) -> Option<Weighed> {
    let prior = scene.prior_per_m();
    let lines = scene.lines.iter().zip(steps).enumerate();
    let logs: Vec<(f64, Vec<f64>)> = lines
        .zip(&prior)
        .map(|((index, (choice, steps)), prior)| {
            let (step_m, mut logs) = OnLine::new(scene, index, choice.line).logs(*steps);
            logs.iter_mut().for_each(|log| *log += prior.ln());
            (step_m, logs)
        })
        .collect();
    normalised(logs)
}

/// As [`Weighed::ln_evidence`], summed over some of the steps of each line only; all readings are weighed at each of them.
pub(super) fn ln_evidence_on(scene: &Scene<'_>, step_m: &[f64], kept: &[Vec<usize>]) -> Option<f64> {
    let prior = scene.prior_per_m();
    let mut logs: Vec<f64> = Vec::new();
    for (index, (choice, prior)) in scene.lines.iter().zip(&prior).enumerate() {
        let (step_m, kept) = (step_m.get(index)?, kept.get(index)?);
        let line = OnLine::new(scene, index, choice.line);
        let spots = kept.iter().filter_map(|step| line.spot((*step as f64 + 0.5) * step_m));
        logs.extend(spots.map(|spot| line.ln_at(&spot) + (prior * step_m).ln()));
    }
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    most.is_finite().then(|| most + logs.iter().map(|log| (log - most).exp()).sum::<f64>().ln())
}

fn normalised(logs: Vec<(f64, Vec<f64>)>) -> Option<Weighed> {
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
    Some(Weighed { lines: lines.collect(), ln_evidence: most + total.ln() })
}

/// A scene's sightings prepared for one of its lines.
pub(super) struct OnLine<'a> {
    line: &'a Line,
    groups: Vec<Group<'a>>,
    plains: Vec<Plain<'a>>,
    shared: Shared,
}

impl<'a> OnLine<'a> {
    pub(super) fn new(scene: &'a Scene<'a>, index: usize, line: &'a Line) -> Self {
        let groups = groups(scene, index, line);
        let shared_deg = scene.trust.shared_spread_deg.hypot(scene.norths.declination_spread_deg());
        Self { line, plains: plains(scene, index, line), shared: Shared::over(&groups, shared_deg, scene.wrong_share), groups }
    }

    /// The length of a step, and the log-likelihood in the middle of each.
    fn logs(&self, steps: Steps) -> (f64, Vec<f64>) {
        let (weighed_m, weighed) = self.along(steps.weighed_m, |spot| self.shared.ln_likelihood(&self.groups, spot));
        let directed = Table { step_m: weighed_m, values: weighed };
        // The table's first value stands half a step in.
        let (step_m, logs) = self.along(steps.told_m, |spot| {
            let plain: f64 = self.plains.iter().map(|plain| plain.ln_at(spot.place)).sum();
            plain + directed.at(spot.place.along_m - weighed_m / 2.0)
        });
        (step_m, logs)
    }

    fn ln_at(&self, spot: &OnPiece) -> f64 {
        self.plains.iter().map(|plain| plain.ln_at(spot.place)).sum::<f64>() + self.shared.ln_likelihood(&self.groups, spot)
    }

    /// A value in the middle of each of the equal steps along the line.
    fn along(&self, wanted_step_m: f64, value: impl Fn(&OnPiece) -> f64) -> (f64, Vec<f64>) {
        let count = (self.line.length_m() / wanted_step_m).ceil().max(1.0);
        let step_m = self.line.length_m() / count;
        let mut values = Vec::with_capacity(count as usize);
        for (piece, (start, end)) in self.line.pieces().enumerate() {
            let length_m = end.along_m - start.along_m;
            while let Some(along_m) = Some((values.len() as f64 + 0.5) * step_m).filter(|along_m| *along_m <= end.along_m) {
                let inside_m = along_m - start.along_m;
                let place = LinePlace { along_m, at: start.at.plus(start.direction.times(inside_m)), direction: start.direction };
                values.push(value(&OnPiece { piece, share: inside_m / length_m, place }));
            }
        }
        (step_m, values)
    }

    /// The names of what a sighting may have seen, each with its share of the probability on this line; nothing for one that is sure.
    pub(super) fn identity(&self, sighting: usize, odds: &Odds) -> Vec<(String, f64)> {
        let wanted = self.groups.iter().position(|group| group.sightings.contains(&sighting) && group.candidates.len() > 1);
        let Some((wanted, group)) = wanted.and_then(|index| Some((index, self.groups.get(index)?))) else { return Vec::new() };
        let mut shares = vec![0.0; group.candidates.len()];
        let stride = (odds.per_m.len() / IDENTITY_PLACES).max(1);
        for (index, density) in odds.per_m.iter().enumerate().step_by(stride) {
            if let Some(spot) = self.spot(odds.along_m(index)) {
                let given = self.shared.identities(&self.groups, wanted, &spot);
                shares.iter_mut().zip(given).for_each(|(share, given)| *share += density * given);
            }
        }
        group.candidates.iter().map(|one| one.name.to_owned()).zip(shares).collect()
    }

    /// The error that the compass readings share, for one who stands at a place: its mean and one sigma, degrees.
    pub(super) fn shared_deg(&self, along_m: f64) -> (f64, f64) {
        self.spot(along_m).map_or((0.0, self.shared.spread_deg), |spot| self.shared.given_place(&self.groups, &spot))
    }

    fn spot(&self, along_m: f64) -> Option<OnPiece> {
        let on = |(piece, (start, end)): (usize, (LinePlace, LinePlace))| {
            let share = (along_m - start.along_m) / (end.along_m - start.along_m);
            (along_m <= end.along_m).then(|| OnPiece { piece, share, place: self.line.at(along_m) })
        };
        self.line.pieces().enumerate().find_map(on)
    }
}

/// The shared compass error: its sigma in degrees, and nodes close enough together for the sharpest reading.
struct Shared {
    spread_deg: f64,
    nodes: Vec<(f64, f64)>,
    /// Share of readings that are plainly wrong.
    wrong: f64,
}

/// A group with the lobes that are in reach at a place.
struct Near<'a> {
    group: &'a Group<'a>,
    whole: f64,
    wrong: f64,
    lobes: Vec<Lobe>,
}

impl Shared {
    fn over(groups: &[Group<'_>], spread_deg: f64, wrong: f64) -> Self {
        let own = groups.iter().flat_map(|group| &group.readings).map(|reading| reading.own_deg);
        let sharpest_deg = own.fold(f64::INFINITY, f64::min);
        let count = (18.0 * spread_deg / sharpest_deg).clamp(SHARED_NODES.0, SHARED_NODES.1);
        Self { spread_deg, nodes: normal_nodes(spread_deg, count as usize), wrong }
    }

    /// Logarithm of the likelihood of all readings at a place, as a multiple of "all of them wrong".
    fn ln_likelihood(&self, groups: &[Group<'_>], spot: &OnPiece) -> f64 {
        let mut log = 0.0;
        let mut near: Vec<Near<'_>> = Vec::new();
        for group in groups {
            let one = self.near(group, spot);
            if one.lobes.is_empty() { log += one.whole.ln() } else { near.push(one) }
        }
        log + self.of_near(&near).ln()
    }

    /// The odds of each candidate of one group at a place, the shared error summed out.
    fn identities(&self, groups: &[Group<'_>], wanted: usize, spot: &OnPiece) -> Vec<f64> {
        let near: Vec<Near<'_>> = groups.iter().map(|group| self.near(group, spot)).collect();
        let Some(own) = near.get(wanted) else { return Vec::new() };
        let mut odds = vec![0.0; own.group.candidates.len()];
        for (shared, weight) in &self.nodes {
            let others = near.iter().enumerate().filter(|(index, _)| *index != wanted);
            let others: f64 = others.map(|(_, one)| one.given(*shared, 0.0) / one.whole).product();
            for (candidate, share) in odds.iter_mut().enumerate() {
                *share += weight * others * own.of_candidate(candidate, *shared, spot);
            }
        }
        let total: f64 = odds.iter().sum();
        odds.iter_mut().for_each(|share| *share /= total);
        odds
    }

    /// Mean and one sigma of the shared error at a place, degrees.
    fn given_place(&self, groups: &[Group<'_>], spot: &OnPiece) -> (f64, f64) {
        let near: Vec<Near<'_>> = groups.iter().map(|group| self.near(group, spot)).collect();
        let weighed = self.nodes.iter().map(|(shared, weight)| {
            let given: f64 = near.iter().map(|one| one.given(*shared, 0.0) / one.whole).product();
            (*shared, weight * given)
        });
        let weighed: Vec<(f64, f64)> = weighed.collect();
        let total: f64 = weighed.iter().map(|(_, weight)| weight).sum();
        let mean = weighed.iter().map(|(shared, weight)| shared * weight).sum::<f64>() / total;
        let variance = weighed.iter().map(|(shared, weight)| (shared - mean).powi(2) * weight).sum::<f64>() / total;
        (mean, variance.sqrt())
    }

    fn near<'a>(&self, group: &'a Group<'a>, spot: &OnPiece) -> Near<'a> {
        let mut lobes = Vec::new();
        group.lobes(spot, self.spread_deg, &mut lobes);
        Near { group, whole: group.whole_weight(spot.place), wrong: self.wrong, lobes }
    }

    fn of_near(&self, near: &[Near<'_>]) -> f64 {
        match near {
            [] => 1.0,
            [one] if one.lobes.iter().all(|lobe| matches!(lobe.residuals, Residuals::One(..))) => one.given(0.0, self.spread_deg),
            several => {
                let given = |shared: f64| several.iter().map(|one| one.given(shared, 0.0)).product::<f64>();
                self.nodes.iter().map(|(shared, weight)| weight * given(*shared)).sum()
            }
        }
    }
}

impl Near<'_> {
    /// Likelihood of the group's readings if one candidate is what was seen.
    fn of_candidate(&self, candidate: usize, shared_deg: f64, spot: &OnPiece) -> f64 {
        let lobe = self.lobes.iter().find(|lobe| lobe.candidate == candidate);
        lobe.map_or_else(
            || self.group.weight(candidate, spot.place),
            |lobe| lobe.weight * lobe.given(shared_deg, 0.0, self.group.round_deg(), self.wrong),
        )
    }

    /// Likelihood of the group's readings for a shared error, or with its spread taken into a single reading's own.
    fn given(&self, shared_deg: f64, spread_deg: f64) -> f64 {
        let round_deg = self.group.round_deg();
        let in_reach: f64 =
            self.lobes.iter().map(|lobe| lobe.weight * (lobe.given(shared_deg, spread_deg, round_deg, self.wrong) - 1.0)).sum();
        self.whole + in_reach
    }
}

impl Lobe {
    fn given(&self, shared_deg: f64, spread_deg: f64, round_deg: f64, wrong: f64) -> f64 {
        match &self.residuals {
            Residuals::One(one) => {
                let whole_deg = one.own_deg.hypot(self.map_deg).hypot(spread_deg);
                bearing_density(one.deg - one.gain * shared_deg, whole_deg, round_deg, wrong)
            }
            Residuals::Several(several) => {
                let given = |map_deg: f64| {
                    let density = |one: &Residual| {
                        bearing_density(one.deg - one.gain * shared_deg - one.map_gain * map_deg, one.own_deg, round_deg, wrong)
                    };
                    several.iter().map(density).product::<f64>()
                };
                let sharpest_deg = several.iter().map(|one| one.own_deg).fold(f64::INFINITY, f64::min);
                let count = (18.0 * self.map_deg / sharpest_deg).clamp(MAP_NODES.0, MAP_NODES.1);
                normal_nodes(self.map_deg, count as usize).iter().map(|(map_deg, weight)| weight * given(*map_deg)).sum()
            }
        }
    }
}

/// Density of a bearing's residual, normal with a uniform tail, as a multiple of the tail.
///
/// Never below 1, so that the product over many readings cannot vanish.
fn bearing_density(residual_deg: f64, spread_deg: f64, round_deg: f64, wrong: f64) -> f64 {
    let normal = normal_density(signed_difference_deg(residual_deg, 0.0), spread_deg);
    1.0 + (1.0 - wrong) * normal * round_deg / wrong
}

//! What the compass readings say at one place, with the error that they share summed out.

use std::sync::Arc;

use super::bell::Bell;
use super::directed::{Group, Lobe, OnPiece, Repeated, Residual, Residuals, map_nodes};
use crate::measure::normal_nodes;

/// Nodes over the shared compass error: at least, and at most.
const SHARED_NODES: (f64, f64) = (13.0, 301.0);
/// Steps of the nodes in spreads of what all readings together leave of the shared error: the sum is then exact to 1e-5, as
/// `2 exp(-2 (pi / step)²)` (Trefethen and Weideman 2014, SIAM Review 56(3); from memory).
const NODE_STEP: f64 = 1.25;
/// The shared compass error: its sigma in degrees, and nodes close enough together for the sharpest reading.
#[derive(Debug)]
pub(super) struct Shared {
    pub(super) spread_deg: f64,
    nodes: Vec<(f64, f64)>,
    /// Share of readings that are plainly wrong.
    wrong: f64,
}

/// One place, as the groups look from it; kept from place to place, to be filled again.
#[derive(Debug, Default)]
pub(super) struct Here {
    groups: Vec<GroupHere>,
    product: Vec<f64>,
}

/// One group at a place. Likelihoods are multiples of "all of its readings are plainly wrong".
#[derive(Debug, Default)]
struct GroupHere {
    /// Chance of all identities together, in sight.
    whole: f64,
    round_deg: f64,
    /// The first group with the same candidates.
    kin: Option<usize>,
    /// The chance of each candidate, in sight.
    weights: Vec<f64>,
    /// What is in reach of a reading.
    lobes: Vec<Lobe>,
    /// Several readings that were all made here.
    repeated: Option<Arc<Repeated>>,
    /// The likelihood for each node of the shared error.
    given: Vec<f64>,
}

impl Shared {
    pub(super) fn over(groups: &[Group<'_>], spread_deg: f64, wrong: f64) -> Self {
        let readings = groups.iter().flat_map(|group| &group.readings);
        let weight: f64 = readings.map(|reading| (reading.gain_at_most() / reading.own_deg).powi(2)).sum();
        let left = 1.0 / (1.0 + weight * spread_deg * spread_deg).sqrt();
        let count = (1.0 + 9.0 / (NODE_STEP * left)).ceil().clamp(SHARED_NODES.0, SHARED_NODES.1);
        Self { spread_deg, nodes: normal_nodes(spread_deg, count as usize), wrong }
    }

    /// Looks at the groups from a place; the likelihoods by node are reckoned where more than one of them has anything in reach.
    pub(super) fn look<'a>(&self, groups: impl Iterator<Item = &'a Group<'a>>, spot: &OnPiece, here: &mut Here) {
        let mut count = 0;
        for group in groups {
            if here.groups.len() == count {
                here.groups.push(GroupHere::default());
            }
            // Groups with the same candidates see them with the same chances.
            let (before, rest) = here.groups.split_at_mut(count);
            let kin = before.iter().find(|other| other.kin == Some(group.kin));
            if let Some(slot) = rest.first_mut() {
                slot.look(group, spot, self.spread_deg, kin);
            }
            count += 1;
        }
        here.groups.truncate(count);
        let in_reach = here.groups.iter().filter(|group| !group.lobes.is_empty()).count();
        if in_reach > 1 || here.groups.iter().any(|group| !group.is_single()) {
            self.by_node(here);
        }
    }

    fn by_node(&self, here: &mut Here) {
        for group in &mut here.groups {
            let whole = group.whole;
            group.given.clear();
            group.given.resize(self.nodes.len(), whole);
            for lobe in &group.lobes {
                lobe.add(group.repeated.as_deref(), group.round_deg, self, &mut group.given);
            }
        }
    }

    /// Logarithm of the likelihood of all readings of some groups, the shared error summed out.
    pub(super) fn ln_likelihood(&self, here: &mut Here, of: &[usize]) -> f64 {
        let mut out_of_reach = 1.0;
        let (mut near, mut only) = (0, None);
        here.product.clear();
        for group in of.iter().filter_map(|index| here.groups.get(*index)) {
            if group.lobes.is_empty() {
                out_of_reach *= group.whole;
                continue;
            }
            near += 1;
            only = Some(group);
            if here.product.is_empty() {
                here.product.extend_from_slice(&group.given);
            } else {
                here.product.iter_mut().zip(&group.given).for_each(|(product, given)| *product *= given);
            }
        }
        let in_reach = match only {
            None => 1.0,
            Some(group) if near == 1 && group.is_single() => group.spread_by(self),
            Some(_) => self.nodes.iter().zip(&here.product).map(|((_, weight), product)| weight * product).sum(),
        };
        (out_of_reach * in_reach).ln()
    }

    /// The odds of each candidate of every group at a place, the shared error summed out; those of each group sum to 1.
    pub(super) fn identities(&self, groups: &[Group<'_>], spot: &OnPiece, here: &mut Here) -> Vec<Vec<f64>> {
        self.look(groups.iter(), spot, here);
        self.by_node(here);
        (0..groups.len()).filter_map(|wanted| self.identity(here, wanted)).collect()
    }

    fn identity(&self, here: &Here, wanted: usize) -> Option<Vec<f64>> {
        let others = here.groups.iter().enumerate().filter(|(index, _)| *index != wanted).map(|(_, group)| group);
        let by_others = self.weights_given(others);
        let own = here.groups.get(wanted)?;
        let of_all: f64 = by_others.iter().sum();
        let mut odds: Vec<f64> = own.weights.iter().map(|weight| weight * of_all).collect();
        for lobe in &own.lobes {
            let mut given = vec![lobe.weight; self.nodes.len()];
            lobe.add(own.repeated.as_deref(), own.round_deg, self, &mut given);
            if let Some(share) = odds.get_mut(lobe.candidate) {
                *share = given.iter().zip(&by_others).map(|(given, weight)| given * weight).sum();
            }
        }
        let total: f64 = odds.iter().sum();
        odds.iter_mut().for_each(|share| *share /= total);
        Some(odds)
    }

    /// Mean and one sigma of the shared error at a place, degrees.
    pub(super) fn given_place(&self, groups: &[Group<'_>], spot: &OnPiece) -> (f64, f64) {
        let mut here = Here::default();
        self.look(groups.iter(), spot, &mut here);
        self.by_node(&mut here);
        let weights = self.weights_given(here.groups.iter());
        let total: f64 = weights.iter().sum();
        let weighed = || self.nodes.iter().zip(&weights).map(|((shared, _), weight)| (*shared, weight / total));
        let mean: f64 = weighed().map(|(shared, weight)| shared * weight).sum();
        let variance: f64 = weighed().map(|(shared, weight)| (shared - mean).powi(2) * weight).sum();
        (mean, variance.sqrt())
    }

    /// The weight of each node with the likelihood of some groups there.
    fn weights_given<'b>(&self, groups: impl Iterator<Item = &'b GroupHere>) -> Vec<f64> {
        let mut weights: Vec<f64> = self.nodes.iter().map(|(_, weight)| *weight).collect();
        for group in groups {
            weights.iter_mut().zip(&group.given).for_each(|(weight, given)| *weight *= given / group.whole);
        }
        weights
    }
}

impl GroupHere {
    fn look(&mut self, group: &Group<'_>, spot: &OnPiece, shared_deg: f64, kin: Option<&Self>) {
        self.kin = Some(group.kin);
        self.round_deg = group.round_deg();
        self.repeated.clone_from(&group.repeated);
        self.given.clear();
        self.lobes.clear();
        match kin {
            Some(kin) => self.weights.clone_from(&kin.weights),
            None => group.weights(spot.place, &mut self.weights),
        }
        self.whole = self.weights.iter().sum();
        group.lobes(spot, shared_deg, &self.weights, &mut self.lobes);
    }

    /// Whether every candidate in reach was read once only: the shared error then only widens the reading's own.
    fn is_single(&self) -> bool {
        self.lobes.iter().all(|lobe| matches!(lobe.residuals, Residuals::One(_)))
    }

    /// Likelihood of single readings with the spread of the shared error taken into their own.
    fn spread_by(&self, shared: &Shared) -> f64 {
        let above = |lobe: &Lobe| match &lobe.residuals {
            Residuals::One(one) => {
                lobe.weight * Bell::new(one.own_deg.hypot(lobe.map_deg).hypot(shared.spread_deg), self.round_deg, shared.wrong).at(one.deg)
            }
            Residuals::Several(_) | Residuals::Together(_) => 0.0,
        };
        self.whole + self.lobes.iter().map(above).sum::<f64>()
    }
}

impl Lobe {
    /// Adds, for each node of the shared error, by how much more likely the readings are than wrong ones.
    fn add(&self, repeated: Option<&Repeated>, round_deg: f64, shared: &Shared, given: &mut [f64]) {
        match &self.residuals {
            Residuals::Together(first) => {
                if let Some(repeated) = repeated {
                    repeated.add(first.deg, self.map_deg, self.weight, &shared.nodes, given);
                }
            }
            Residuals::One(one) => {
                let bell = Bell::new(root_of_squares(one.own_deg, self.map_deg), round_deg, shared.wrong);
                bell.add(one.deg, one.gain, self.weight, &shared.nodes, given);
            }
            Residuals::Several(several) => self.add_several(several, round_deg, shared, given),
        }
    }

    fn add_several(&self, several: &[Residual], round_deg: f64, shared: &Shared, given: &mut [f64]) {
        let sharpest_deg = several.iter().map(|one| one.own_deg).fold(f64::INFINITY, f64::min);
        let map_nodes = map_nodes(self.map_deg, sharpest_deg / (several.len() as f64).sqrt());
        let (mut one_reading, mut all_readings) = (vec![0.0; given.len()], vec![0.0; given.len()]);
        for (map_deg, weight) in map_nodes {
            all_readings.fill(self.weight * weight);
            for one in several {
                one_reading.fill(1.0);
                let bell = Bell::new(one.own_deg, round_deg, shared.wrong);
                bell.add(one.deg - one.map_gain * map_deg, one.gain, 1.0, &shared.nodes, &mut one_reading);
                all_readings.iter_mut().zip(&one_reading).for_each(|(all, one)| *all *= one);
            }
            given.iter_mut().zip(&all_readings).for_each(|(given, all)| *given += all);
        }
        given.iter_mut().for_each(|given| *given -= self.weight);
    }
}

/// As `hypot`, a tenth of its time; for numbers whose squares are numbers.
fn root_of_squares(one: f64, other: f64) -> f64 {
    (one * one + other * other).sqrt()
}

//! From weights to odds: what the slips on a line and in the open have in common.

use super::alike::says_the_same;
use super::kinds::{Also, Slip, SlipKind, Slips, Then};
use crate::fix::{Sighting, Trust};
use crate::measure::{North, signed_difference_deg};

/// Under "no slip" fewer readings are plainly wrong than in a fix: the named slips are the rest.
pub(in crate::fix) const WRONG_BESIDE_SLIPS: f64 = 0.004;
/// A slip shows when it shifts a reading by this many of the sigmas with which the others foretell it.
pub(in crate::fix) const EXPOSED_SIGMAS: f64 = 4.0;
/// Metal near may turn the needle by about so much, one sigma, degrees (common practice, no source).
pub(in crate::fix) const DEFLECTED_DEG: f64 = 15.0;
/// Slips less likely than this are not reported.
const LEAST_CHANCE: f64 = 0.001;
/// Where one would stand is told for at most so many slips ...
const MOST_THEN: usize = 3;
/// ... that are at least so likely.
const LEAST_THEN: f64 = 0.1;

/// By what an explanation is the same as another.
pub(in crate::fix) enum Like {
    /// In one sighting: what that would have been.
    Sighting(Sighting),
    /// In all readings of a north: what must be added to them, degrees.
    Turned(North, f64),
    /// In all readings, by any turn: whatever turn explains them explains them so too.
    AnyTurn,
    /// By nothing.
    Nothing,
}

/// A slip, how well it foretells everything times how often it happens, and what it changes.
pub(in crate::fix) struct Found<C> {
    pub(in crate::fix) slip: Slip,
    /// How often it happens, this way of several.
    pub(in crate::fix) prior: f64,
    pub(in crate::fix) weight: f64,
    pub(in crate::fix) like: Like,
    pub(in crate::fix) change: C,
}

/// Whether a slip foretells everything as much better as a shift of so many sigmas would make it.
pub(in crate::fix) fn shows(gain: f64) -> bool {
    gain >= (0.5 * EXPOSED_SIGMAS * EXPOSED_SIGMAS).exp()
}

/// A slip that all readings share, its odds not reckoned yet.
pub(in crate::fix) fn of_all(kind: SlipKind, exposed: bool) -> Slip {
    Slip {
        kind,
        also: Vec::new(),
        sighting: None,
        again: Vec::new(),
        of: String::new(),
        told: None,
        meant: None,
        written: String::new(),
        chance: 0.0,
        exposed,
        then: None,
    }
}

/// The slips with their odds, likeliest first, and where one would stand with the likelier ones.
pub(in crate::fix) fn told<C>(found: Vec<Found<C>>, trust: &Trust, then: impl Fn(C) -> Option<Then>) -> Slips {
    let (none, found) = odds(found);
    let found = joined(found, trust);
    let one = |(rank, one): (usize, Found<C>)| {
        let wanted = rank < MOST_THEN && one.slip.chance >= LEAST_THEN;
        Slip { then: if wanted { then(one.change) } else { None }, ..one.slip }
    };
    Slips { none, found: found.into_iter().enumerate().map(one).collect(), on_others: Vec::new() }
}

/// Odds from weights against no slip, likeliest first. Two ways of one slip that would be told alike are one.
fn odds<C>(found: Vec<Found<C>>) -> (f64, Vec<Found<C>>) {
    let prior: f64 = found.iter().map(|one| one.prior).sum::<f64>().min(0.5);
    let none = 1.0 - prior;
    let total: f64 = none + found.iter().map(|one| one.weight).sum::<f64>();
    let mut all: Vec<Found<C>> = Vec::with_capacity(found.len());
    for one in found {
        let alike = |other: &&mut Found<C>| {
            (&other.slip.kind, other.slip.sighting, other.slip.meant) == (&one.slip.kind, one.slip.sighting, one.slip.meant)
                && other.slip.again == one.slip.again
        };
        let Some(other) = all.iter_mut().find(alike) else {
            all.push(one);
            continue;
        };
        if one.weight > other.weight {
            (other.change, other.slip.written) = (one.change, one.slip.written);
        }
        other.weight += one.weight;
        other.slip.exposed |= one.slip.exposed;
    }
    all.iter_mut().for_each(|one| one.slip.chance = one.weight / total);
    all.retain(|one| one.slip.chance >= LEAST_CHANCE);
    all.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    (none / total, all)
}

/// Slips with which a sighting would say the same are one explanation, told with all of them: what speaks for one speaks for the others.
fn joined<C>(found: Vec<Found<C>>, trust: &Trust) -> Vec<Found<C>> {
    let mut all: Vec<Found<C>> = Vec::with_capacity(found.len());
    for one in found {
        match all.iter_mut().find(|other| other.is_alike(&one, trust)) {
            Some(commoner) => commoner.join(one),
            None => all.push(one),
        }
    }
    all.sort_by(|a, b| b.slip.chance.total_cmp(&a.slip.chance));
    all
}

impl<C> Found<C> {
    fn is_alike(&self, other: &Self, trust: &Trust) -> bool {
        match (&self.like, &other.like) {
            (Like::Sighting(one), Like::Sighting(other_one)) => {
                self.slip.sightings().eq(other.slip.sightings()) && says_the_same(one, other_one, trust)
            }
            // As of a sighting: to within one sigma of the error that all of them share.
            (Like::Turned(north, by_deg), Like::Turned(other_north, other_deg)) => {
                north == other_north && signed_difference_deg(*by_deg, *other_deg).abs() <= trust.shared_spread_deg
            }
            (Like::Turned(..), Like::AnyTurn) => true,
            (Like::Sighting(_) | Like::Turned(..) | Like::AnyTurn | Like::Nothing, _) => false,
        }
    }

    fn join(&mut self, other: Self) {
        self.slip.chance += other.slip.chance;
        self.slip.exposed |= other.slip.exposed;
        if self.slip.kinds().all(|kind| *kind != other.slip.kind) {
            self.slip.also.push(Also { kind: other.slip.kind, meant: other.slip.meant });
        }
    }
}

/// One sigma about the mean of values with their shares.
pub(in crate::fix) fn spread(values: &[(f64, f64)]) -> f64 {
    let total: f64 = values.iter().map(|(_, share)| share).sum();
    let mean = values.iter().map(|(value, share)| value * share).sum::<f64>() / total;
    (values.iter().map(|(value, share)| (value - mean).powi(2) * share).sum::<f64>() / total).sqrt()
}

//! What the ground says along lines, as likelihoods.

use super::directed::SAME_SIGMAS;
use super::{Misplaced, WitnessSlipKind};
use crate::sheet::Line;

/// A likelihood along each line, reckoned from the ground by those who know it.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Metres between two entries; the first stands at the line's beginning.
    pub step_m: f64,
    /// The values.
    pub values: Vec<f64>,
}

impl Table {
    /// Chances along each line, with the mean of those known where one is not: unknown ground says nothing for or against a place.
    /// Nothing when none is known.
    #[must_use]
    pub fn of_chances(step_m: f64, lines: Vec<Vec<Option<f64>>>) -> Option<Vec<Self>> {
        let known: Vec<f64> = lines.iter().flatten().filter_map(|chance| *chance).collect();
        if known.is_empty() {
            return None;
        }
        let mean = known.iter().sum::<f64>() / known.len() as f64;
        let table = |line: Vec<Option<f64>>| Self { step_m, values: line.into_iter().map(|chance| chance.unwrap_or(mean)).collect() };
        Some(lines.into_iter().map(table).collect())
    }

    /// The value at a distance along the line, straight between entries; beyond the last, the last.
    #[must_use]
    pub fn at(&self, along_m: f64) -> f64 {
        let position = (along_m / self.step_m).max(0.0);
        let index = (position as usize).min(self.values.len().saturating_sub(1));
        let here = self.values.get(index).copied().unwrap_or(1.0);
        let next = self.values.get(index + 1).copied().unwrap_or(here);
        here + (next - here) * (position - index as f64).clamp(0.0, 1.0)
    }
}

/// A likelihood along lines, with the words for it.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundSighting {
    /// The word for its kind.
    pub what: &'static str,
    /// What it is of, as the walker named it; empty for what has no name.
    pub of: String,
    /// The likelihood along each of the scene's lines.
    pub tables: Vec<Table>,
    /// How well it fits at a place.
    pub fits: Fits,
    /// The same if its figure was in feet; nothing for what is not told in metres.
    pub in_feet: Option<Box<GroundSighting>>,
    /// The same with each slip that an independent place may have been told with: which, its part of the kind's chance, and what it would say.
    pub misplaced: Vec<(WitnessSlipKind, f64, GroundSighting)>,
}

/// How well what the ground says fits at a place of each of the scene's lines.
#[derive(Debug, Clone, PartialEq)]
pub enum Fits {
    /// Against this likelihood, which it nowhere exceeds.
    Most(f64),
    /// By how many metres it is off, and one sigma of that.
    Metres {
        /// What was observed minus what is there, metres.
        off: Vec<Table>,
        /// One sigma, metres.
        spread: Vec<Table>,
    },
}

impl GroundSighting {
    /// An independent place with all slips that it may have been told with, along the scene's lines.
    #[must_use]
    pub fn or_misplaced(mut self, all: Vec<Misplaced>, lines: &[&Line]) -> Self {
        let is_near = |one: &Misplaced| {
            let off_m = |line: &&Line| line.nearest(one.centre()).at.minus(one.centre()).length_m();
            one.reach_m().is_none_or(|reach_m| lines.iter().any(|line| off_m(line) <= reach_m))
        };
        let instead = |one: Misplaced| {
            let tables = super::said::misplaced_along(&one, lines);
            let said = Self { what: "witness", of: one.written, tables, fits: Fits::Most(1.0), in_feet: None, misplaced: Vec::new() };
            (one.kind, one.share, said)
        };
        self.misplaced = all.into_iter().filter(is_near).map(instead).collect();
        self
    }

    /// Whether another is a look at the same again: the same answer, or the same thing measured in metres with no more between the two than
    /// chance leaves. What differs by more disagrees.
    pub(super) fn is_again(&self, other: &Self) -> bool {
        let measured = matches!(self.what, "height" | "distance") && self.of == other.of;
        self.what == other.what && (self.tables == other.tables || measured && self.fits.is_near(&other.fits))
    }
}

impl Fits {
    fn is_near(&self, other: &Self) -> bool {
        let (Self::Metres { off, spread }, Self::Metres { off: other_off, spread: other_spread }) = (self, other) else { return false };
        apart_m(off, other_off) <= SAME_SIGMAS * first(spread).hypot(first(other_spread))
    }

    /// What lies between two measures of one thing, metres: endless where either is none.
    pub(super) fn apart_m(&self, other: &Self) -> f64 {
        match (self, other) {
            (Self::Metres { off, .. }, Self::Metres { off: other_off, .. }) => apart_m(off, other_off),
            _ => f64::INFINITY,
        }
    }
}

fn first(tables: &[Table]) -> f64 {
    tables.first().map_or(0.0, |table| table.at(0.0))
}

/// It is the same at every place.
fn apart_m(off: &[Table], other: &[Table]) -> f64 {
    (first(off) - first(other)).abs()
}

#[cfg(test)]
mod tests {
    #![allow(
        clippy::expect_used,
        clippy::float_cmp,
        clippy::indexing_slicing,
        clippy::panic,
        clippy::unwrap_used,
        reason = "a test may stop where it fails"
    )]

    use super::Table;

    #[test]
    fn unknown_ground_speaks_neither_for_nor_against() {
        let tables = Table::of_chances(20.0, vec![vec![Some(1.0), None], vec![Some(0.4), Some(0.1)]]).unwrap();
        assert_eq!(tables[0].values, [1.0, 0.5], "the mean of 1, 0.4 and 0.1");
        assert_eq!(tables[1].values, [0.4, 0.1]);
        assert_eq!(Table::of_chances(20.0, vec![vec![None, None]]), None);
    }
}

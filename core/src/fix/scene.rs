//! Everything that one fix is taken from.

use std::collections::BTreeMap;

use super::{Sighting, Table, Trust};
use crate::earth::Norths;
use crate::sheet::Line;

/// A line that may be stood on.
#[derive(Debug, Clone, Copy)]
pub struct Choice<'a> {
    /// The line.
    pub line: &'a Line,
    /// The walker's own odds for it against the others, any positive number; by its length when none is given.
    pub odds: Option<f64>,
}

/// Lines, sightings, norths and the instrument of one fix.
#[derive(Debug, Clone)]
pub struct Scene<'a> {
    /// The lines that may be stood on.
    pub lines: Vec<Choice<'a>>,
    /// What was observed.
    pub sightings: Vec<Sighting>,
    /// The norths over the sheet.
    pub norths: &'a Norths,
    /// What a reading with this instrument is worth.
    pub trust: Trust,
    /// The chance that a landmark is in sight, along each line, by its name; always in sight where nothing is told.
    pub in_sight: BTreeMap<String, Vec<Table>>,
    /// Share of readings that are plainly wrong: uniform on the circle.
    pub wrong_share: f64,
}

/// Share of readings that are plainly wrong, in a fix.
pub const WRONG_READING: f64 = 0.02;

impl<'a> Scene<'a> {
    /// A scene on one line.
    #[must_use]
    pub fn on(line: &'a Line, sightings: Vec<Sighting>, norths: &'a Norths, trust: Trust) -> Self {
        Self { lines: vec![Choice { line, odds: None }], sightings, norths, trust, in_sight: BTreeMap::new(), wrong_share: WRONG_READING }
    }

    /// Probability beforehand of a metre of each line: the walker's odds, spread evenly over each line; else the same for every metre of all.
    pub(super) fn prior_per_m(&self) -> Vec<f64> {
        let length = |choice: &Choice<'_>| choice.line.length_m();
        let whole_m: f64 = self.lines.iter().map(length).sum();
        let odds: Vec<f64> = self.lines.iter().map(|choice| choice.odds.unwrap_or(length(choice) / whole_m)).collect();
        let total: f64 = odds.iter().sum();
        self.lines.iter().zip(&odds).map(|(choice, odds)| odds / total / length(choice)).collect()
    }

    /// Metres of all lines together.
    pub(super) fn length_m(&self) -> f64 {
        self.lines.iter().map(|choice| choice.line.length_m()).sum()
    }

    /// The chance that a landmark is in sight along one line; nothing when it is not known.
    pub(super) fn chance(&self, landmark: &str, line: usize) -> Option<&Table> {
        self.in_sight.get(landmark).and_then(|tables| tables.get(line))
    }
}

//! A piece of a line, as it is cut, turned round and joined before the line has its name.

use super::drawn::Stretch;
use super::names::compared;
use super::shape::Pos;

/// A piece of a line before it is joined and named.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Piece {
    pub(super) name: Option<String>,
    /// What it is, in the word that the sheet will show.
    pub(super) word: String,
    pub(super) points: Vec<Pos>,
    pub(super) spread_m: f64,
    /// For each straight piece the level on which it runs, see [`crate::sheet::DraftLine`]; none where all is on the ground.
    pub(super) levels: Vec<i8>,
    /// Whether the file says by common points where it meets another.
    pub(super) noded: bool,
    /// The numbers of the lines that it is made of, once the lines of the file are held against a sheet.
    pub(super) was: Vec<usize>,
}

impl Piece {
    /// A stretch of it.
    pub(super) fn stretch(&self, stretch: Stretch) -> Self {
        let levels = if self.levels.is_empty() { Vec::new() } else { stretch.pieces.iter().map(|piece| self.level(*piece)).collect() };
        let Self { name, word, spread_m, noded, was, .. } = self;
        let (name, word, was) = (name.clone(), word.clone(), was.clone());
        Self { name, word, points: stretch.points, spread_m: *spread_m, levels, noded: *noded, was }
    }

    fn level(&self, piece: usize) -> i8 {
        self.levels.get(piece).copied().unwrap_or_default()
    }

    /// The same the other way round.
    pub(super) fn turn_round(&mut self) {
        self.points.reverse();
        self.levels.reverse();
    }

    /// Goes on with another piece that begins where this one ends.
    pub(super) fn go_on(&mut self, next: Self) {
        let again = usize::from(self.points.last() == next.points.first());
        if !(self.levels.is_empty() && next.levels.is_empty()) {
            self.levels.resize(self.points.len().saturating_sub(again), 0);
            self.levels.extend(next.levels);
        }
        self.points.extend(next.points.into_iter().skip(again));
        if !self.levels.is_empty() {
            self.levels.resize(self.points.len().saturating_sub(1), 0);
        }
        self.spread_m = self.spread_m.max(next.spread_m);
        self.noded &= next.noded;
        self.was.extend(next.was);
    }

    /// The name of the whole, where it is called otherwise on the sheet.
    pub(super) fn part_of(&self, called: &str) -> Option<String> {
        self.name.clone().filter(|whole| compared(whole) != compared(called))
    }

    /// The least number of the lines that it is made of.
    pub(super) fn first_was(&self) -> usize {
        self.was.iter().copied().min().unwrap_or(usize::MAX)
    }
}

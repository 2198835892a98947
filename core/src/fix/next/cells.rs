//! The places of a fix, in cells few enough to be weighed again for every reading that may come.

use crate::fix::odds::levels_of_shares;
use crate::fix::on_line::OnLine;
use crate::fix::scene::Scene;
use crate::fix::{Fix, Odds};
use crate::sheet::{Line, LinePlace};

/// Most cells of all lines together.
const MOST_CELLS: usize = 500;
/// The cells hold this share of the fix.
const KEPT_SHARE: f64 = 0.999;
/// At so many of them, at the least, it is reckoned what the fix says of the compass; between, the nearest serves.
const SHARED_PLACES: usize = 60;

/// A short piece of a line on which one may stand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cell<'a> {
    pub(super) line: &'a Line,
    /// Its middle.
    pub(super) place: LinePlace,
    pub(super) width_m: f64,
    /// Probability of standing in it.
    pub(super) mass: f64,
    /// The error that the compass readings share, as the fix knows it if one stands here: mean and one sigma, degrees.
    pub(super) shared_deg: (f64, f64),
}

/// The cells of a fix, along each line in turn; their masses sum to 1.
pub(super) fn cells<'a>(scene: &'a Scene<'a>, fix: &Fix) -> Vec<Cell<'a>> {
    let [level] = levels_of_shares(fix.lines.iter().map(|line| &line.odds), [KEPT_SHARE]);
    let entries: usize = fix.lines.iter().map(|line| kept(&line.odds, level).count()).sum();
    let stride = entries.div_ceil(MOST_CELLS).max(1);
    let shared_every = (entries / stride / SHARED_PLACES).max(1);
    let mut all = Vec::new();
    for ((index, choice), told) in scene.lines.iter().enumerate().zip(&fix.lines) {
        let prepared = OnLine::new(scene, index, choice.line);
        let mut shared_deg = (0.0, 0.0);
        for (nth, block) in blocks(&told.odds, level, stride).into_iter().enumerate() {
            let along_m = f64::midpoint(block.0 as f64, block.1 as f64 + 1.0) * told.odds.step_m;
            if nth % shared_every == 0 {
                shared_deg = prepared.shared_deg(along_m);
            }
            let mass = told.odds.per_m.get(block.0..=block.1).unwrap_or_default().iter().sum::<f64>() * told.odds.step_m;
            let width_m = (block.1 + 1 - block.0) as f64 * told.odds.step_m;
            all.push(Cell { line: choice.line, place: choice.line.at(along_m), width_m, mass, shared_deg });
        }
    }
    let total: f64 = all.iter().map(|cell| cell.mass).sum();
    all.iter_mut().for_each(|cell| cell.mass /= total);
    all
}

fn kept(odds: &Odds, level: f64) -> impl Iterator<Item = usize> + '_ {
    let dense = odds.per_m.iter().enumerate().filter(move |(_, density)| **density >= level && **density > 0.0);
    dense.map(|(index, _)| index)
}

/// Runs of at most `stride` entries that are kept.
fn blocks(odds: &Odds, level: f64, stride: usize) -> Vec<(usize, usize)> {
    let mut all: Vec<(usize, usize)> = Vec::new();
    for index in kept(odds, level) {
        match all.last_mut() {
            Some((first, last)) if *last + 1 == index && index - *first < stride => *last = index,
            _ => all.push((index, index)),
        }
    }
    all
}

/// So many cells in which one may truly stand, each equally likely.
pub(super) fn truths(cells: &[Cell<'_>], count: usize) -> Vec<usize> {
    let mut found = Vec::with_capacity(count);
    let mut held = 0.0;
    for (index, cell) in cells.iter().enumerate() {
        held += cell.mass;
        while found.len() < count && held >= (found.len() as f64 + 0.5) / count as f64 {
            found.push(index);
        }
    }
    found
}

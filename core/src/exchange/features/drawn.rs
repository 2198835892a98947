//! Stretches that a line of the sheet has drawn already: the same data come in again, or overlap.

use std::ops::Range;

use super::join::JOIN_M;
use super::raster::{Raster, Straight, distance_m, length_m, on_piece, share};
use super::shape::{Pos, metres_from};

/// A stretch in common that is shorter than this is a crossing or a fork rather than a road drawn twice, metres.
pub(super) const LEAST_SHARED_M: f64 = 20.0;
/// What is left between two stretches in common, or before and after one, is rounding when it is shorter than this, metres.
const LEAST_LEFT_M: f64 = 2.0 * JOIN_M;
/// Most straight pieces about one that are looked at, and most pairs together, so that a file made to take time cannot.
const MOST_NEAR: usize = 200;
const MOST_PAIRS: usize = 100_000_000;

/// A stretch of a line: its points, and the straight piece of the line that each of its own is part of.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stretch {
    pub(super) points: Vec<Pos>,
    pub(super) pieces: Vec<usize>,
}

/// A part of one straight piece, by its shares of it, and whether an earlier line lies there too.
struct Part {
    piece: usize,
    shares: Range<f64>,
    length_m: f64,
    shared: bool,
}

/// Lines of more points than this together are taken as they are, so that a file made to take memory cannot.
const MOST_POINTS: usize = 500_000;

/// For each line from the `first` on, its stretches that lie on no line before the first; a line of which nothing is left has none.
///
/// # Accuracy
/// Lines lie on each other within [`JOIN_M`]; so files that are written with five decimals or more do.
pub(super) fn new_stretches(lines: &[&[Pos]], first: usize) -> Vec<Vec<Stretch>> {
    let whole = |line: &[Pos]| vec![Stretch { points: line.to_vec(), pieces: (0..line.len().saturating_sub(1)).collect() }];
    let new = lines.get(first..).unwrap_or_default();
    let origin = lines.iter().find_map(|line| line.first());
    let (Some(origin), true) = (origin, lines.len() > 1 && lines.iter().map(|line| line.len()).sum::<usize>() <= MOST_POINTS) else {
        return new.iter().map(|line| whole(line)).collect();
    };
    let plane: Vec<Vec<(f64, f64)>> = lines.iter().map(|line| line.iter().map(|at| metres_from(*origin, *at)).collect()).collect();
    let raster = Raster::of(&plane, JOIN_M);
    let mut left = MOST_PAIRS;
    let of_line = |(number, line): (usize, &&[Pos])| {
        let mut parts = raster.parts(&plane, (number, first), &mut left);
        if parts.iter().all(|part| !part.shared) {
            return whole(line);
        }
        settle(&mut parts);
        stretches(line, &parts)
    };
    lines.iter().enumerate().skip(first).map(of_line).collect()
}

impl Raster {
    /// The line cut where pieces of those before the first begin or end beside it.
    fn parts(&self, plane: &[Vec<(f64, f64)>], (number, first): (usize, usize), left: &mut usize) -> Vec<Part> {
        let line = plane.get(number).map(Vec::as_slice).unwrap_or_default();
        let mut parts = Vec::new();
        for (piece, pair) in line.windows(2).enumerate() {
            let near = self.near(plane, first, pair, left);
            let whole_m = length_m(pair);
            let ends = near.iter().flat_map(|(a, b)| [*a, *b]);
            let beside = ends.filter(|at| distance_m(*at, pair) <= JOIN_M).map(|at| share(at, pair));
            let mut cuts: Vec<f64> = beside.filter(|share| *share > 0.0 && *share < 1.0).chain([0.0, 1.0]).collect();
            cuts.sort_by(f64::total_cmp);
            cuts.dedup();
            parts.extend(cuts.windows(2).filter_map(|cut| {
                let [from, to] = *cut else { return None };
                let shared = is_shared(pair, from..to, &near);
                Some(Part { piece, shares: from..to, length_m: whole_m * (to - from), shared })
            }));
        }
        parts
    }

    /// Pieces of lines before the first in the cells of a piece.
    fn near(&self, plane: &[Vec<(f64, f64)>], first: usize, pair: &[(f64, f64)], left: &mut usize) -> Vec<Straight> {
        let earlier = self.beside(pair).filter(|(line, _)| *line < first);
        let mut found: Vec<(usize, usize)> = earlier.take(MOST_NEAR.min(*left)).collect();
        *left -= found.len();
        found.sort_unstable();
        found.dedup();
        let piece = |(line, piece): (usize, usize)| {
            let points = plane.get(line)?.get(piece..)?;
            if let [a, b, ..] = points { Some((*a, *b)) } else { None }
        };
        found.into_iter().filter_map(piece).collect()
    }
}

/// Whether five places of a part each lie on a piece of an earlier line.
fn is_shared(pair: &[(f64, f64)], shares: Range<f64>, near: &[Straight]) -> bool {
    let [a, b] = pair else { return false };
    [0.0, 0.25, 0.5, 0.75, 1.0].iter().all(|step| {
        let share = shares.start + (shares.end - shares.start) * step;
        let at = (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
        near.iter().any(|(a, b)| distance_m(at, &[*a, *b]) <= JOIN_M)
    })
}

/// Takes short stretches for what their neighbours are: a crossing is no road drawn twice, and rounding is no road.
fn settle(parts: &mut [Part]) {
    for run in parts.chunk_by_mut(|a, b| a.shared == b.shared) {
        let long_m: f64 = run.iter().map(|part| part.length_m).sum();
        if run.first().is_some_and(|part| !part.shared) && long_m < LEAST_LEFT_M {
            run.iter_mut().for_each(|part| part.shared = true);
        }
    }
    let whole = parts.iter().all(|part| part.shared);
    for run in parts.chunk_by_mut(|a, b| a.shared == b.shared) {
        let long_m: f64 = run.iter().map(|part| part.length_m).sum();
        if !whole && run.first().is_some_and(|part| part.shared) && long_m < LEAST_SHARED_M {
            run.iter_mut().for_each(|part| part.shared = false);
        }
    }
}

/// The stretches that are left, in degrees.
fn stretches(line: &[Pos], parts: &[Part]) -> Vec<Stretch> {
    let runs = parts.chunk_by(|a, b| a.shared == b.shared).filter(|run| run.first().is_some_and(|part| !part.shared));
    let stretch = |run: &[Part]| {
        let first = run.first()?;
        let mut stretch = Stretch { points: vec![on_piece(line, first.piece, first.shares.start)?], pieces: Vec::new() };
        for pair in run.windows(2) {
            if let [part, next] = pair
                && part.piece != next.piece
            {
                stretch.points.push(*line.get(next.piece)?);
                stretch.pieces.push(part.piece);
            }
        }
        let last = run.last()?;
        stretch.points.push(on_piece(line, last.piece, last.shares.end)?);
        stretch.pieces.push(last.piece);
        Some(stretch)
    };
    runs.filter_map(stretch).collect()
}

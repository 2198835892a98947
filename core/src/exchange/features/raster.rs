//! Straight pieces of lines by the cells of a raster, so that those about a place are found without looking at all.

use std::collections::HashMap;

use super::shape::{Pos, between};

/// Least width of a cell of the raster, metres.
const LEAST_CELL_M: f64 = 100.0;

/// A straight piece in metres.
pub(super) type Straight = ((f64, f64), (f64, f64));

/// Straight pieces of lines in a plane of metres, by the cells that they pass through.
pub(super) struct Raster {
    /// So far from a piece something may still lie beside it, metres.
    within_m: f64,
    cell_m: f64,
    cells: HashMap<(i64, i64), Vec<(u32, u32)>>,
}

impl Raster {
    /// The pieces of lines, of which what lies within so many metres is asked for.
    pub(super) fn of(plane: &[Vec<(f64, f64)>], within_m: f64) -> Self {
        let pieces: usize = plane.iter().map(|line| line.len().saturating_sub(1)).sum();
        let whole_m: f64 = plane.iter().flat_map(|line| line.windows(2)).map(length_m).sum();
        let cell_m = (whole_m / pieces.max(1) as f64).max(LEAST_CELL_M);
        let mut raster = Self { within_m, cell_m, cells: HashMap::new() };
        for (number, line) in plane.iter().enumerate() {
            for (piece, pair) in line.windows(2).enumerate() {
                for cell in raster.passed(pair) {
                    raster.cells.entry(cell).or_default().push((number as u32, piece as u32));
                }
            }
        }
        raster
    }

    /// The cells that a straight piece comes near to, row by row.
    fn passed(&self, pair: &[(f64, f64)]) -> Vec<(i64, i64)> {
        let [a, b] = pair else { return Vec::new() };
        let (a, b) = if a.1 <= b.1 { (*a, *b) } else { (*b, *a) };
        let cell = |metres: f64| (metres / self.cell_m).floor() as i64;
        let east_at = |north_m: f64| a.0 + (b.0 - a.0) * ((north_m - a.1) / (b.1 - a.1)).clamp(0.0, 1.0);
        let (first, last) = (cell(a.1 - self.within_m), cell(b.1 + self.within_m));
        let level = b.1 - a.1 <= 2.0 * self.within_m;
        let row_cells = |row: i64| {
            let (low_m, high_m) = (row as f64 * self.cell_m - self.within_m, (row + 1) as f64 * self.cell_m + self.within_m);
            let (low, high) = if level { (a.0, b.0) } else { (east_at(low_m), east_at(high_m)) };
            (cell(low.min(high) - self.within_m)..=cell(low.max(high) + self.within_m)).map(move |column| (column, row))
        };
        (first..=last).flat_map(row_cells).collect()
    }

    /// The pieces in the cells that a straight piece comes near to, by their lines and numbers; some more than once.
    pub(super) fn beside(&self, pair: &[(f64, f64)]) -> impl Iterator<Item = (usize, usize)> {
        let passed = self.passed(pair).into_iter();
        passed.filter_map(|cell| self.cells.get(&cell)).flatten().map(|(line, piece)| (*line as usize, *piece as usize))
    }
}

/// A place on a straight piece of a line.
pub(super) fn on_piece(line: &[Pos], piece: usize, share: f64) -> Option<Pos> {
    Some(between(*line.get(piece)?, *line.get(piece + 1)?, share))
}

/// The length of a straight piece, metres.
pub(super) fn length_m(pair: &[(f64, f64)]) -> f64 {
    if let [a, b] = pair { (b.0 - a.0).hypot(b.1 - a.1) } else { 0.0 }
}

/// Where along a straight piece its nearest place to a point is, 0 to 1.
pub(super) fn share(at: (f64, f64), pair: &[(f64, f64)]) -> f64 {
    let [a, b] = pair else { return 0.0 };
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let share = ((at.0 - a.0) * dx + (at.1 - a.1) * dy) / (dx * dx + dy * dy);
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 }
}

/// How far a place is from a straight piece, metres.
pub(super) fn distance_m(at: (f64, f64), pair: &[(f64, f64)]) -> f64 {
    let [a, b] = pair else { return f64::INFINITY };
    let share = share(at, pair);
    (a.0 + (b.0 - a.0) * share - at.0).hypot(a.1 + (b.1 - a.1) * share - at.1)
}

//! The steepest ground around every block of cells, so that what was found from one eye can be held for the next ones.

use super::spacing::Spacing;
use super::{Heights, Layout};

/// Cells to a side of a block.
pub(super) const SIDE: usize = 8;

/// Blocks of 8 cells to a side, each with the steepest ground in it and in the blocks around it.
#[derive(Debug, Clone)]
pub(super) struct Steep {
    columns: usize,
    steepest: Vec<f32>,
}

impl Steep {
    /// The steepest ground of every block, as rise in a metre; infinite where heights lack.
    pub(super) fn over(heights: &Heights, spacing: &Spacing) -> Self {
        let layout = heights.layout();
        let columns = (layout.columns - 1).div_ceil(SIDE);
        let mut squares = Vec::with_capacity(columns * (layout.rows - 1).div_ceil(SIDE));
        for start in (0..layout.rows - 1).step_by(SIDE) {
            let lines = heights.values_m().chunks_exact(layout.columns).skip(start).take(SIDE + 1);
            let (east_m, south_m) = narrowest_m(spacing, start, layout);
            squares.append(&mut band(&lines.collect::<Vec<_>>(), columns, (1.0 / east_m as f32, 1.0 / south_m as f32)));
        }
        Self { columns, steepest: around(&squares, columns).into_iter().map(f32::sqrt).collect() }
    }

    /// The steepest ground at a cell and for at least eight cells around.
    pub(super) fn at(&self, column: usize, row: usize) -> f64 {
        let block = (row / SIDE) * self.columns + (column / SIDE).min(self.columns - 1);
        self.steepest.get(block).map_or(f64::INFINITY, |steep| f64::from(*steep))
    }
}

fn narrowest_m(spacing: &Spacing, row: usize, layout: &Layout) -> (f64, f64) {
    let [first, last] = [row, (row + SIDE).min(layout.rows - 1)].map(|row| spacing.at(row as f64));
    (first.0.min(last.0), first.1.min(last.1))
}

/// The squares of the steepest ground in one row of blocks.
fn band(lines: &[&[f32]], columns: usize, per_m: (f32, f32)) -> Vec<f32> {
    let mut east = vec![0.0_f32; columns];
    let mut south = vec![0.0_f32; columns];
    for line in lines {
        for (block, steepest) in east.iter_mut().enumerate() {
            let posts = line.get(block * SIDE..(block * SIDE + SIDE + 1).min(line.len())).unwrap_or(&[]);
            *steepest = posts.windows(2).fold(*steepest, |best, pair| steeper(best, pair, per_m.0));
        }
    }
    for pair in lines.windows(2) {
        let [upper, lower] = pair else { continue };
        for (block, steepest) in south.iter_mut().enumerate() {
            let range = block * SIDE..(block * SIDE + SIDE + 1).min(upper.len());
            let (up, low) = (upper.get(range.clone()).unwrap_or(&[]), lower.get(range).unwrap_or(&[]));
            *steepest = up.iter().zip(low).fold(*steepest, |best, (a, b)| steeper(best, &[*a, *b], per_m.1));
        }
    }
    east.iter().zip(&south).map(|(east, south)| east * east + south * south).collect()
}

fn steeper(best: f32, pair: &[f32], per_m: f32) -> f32 {
    let [a, b] = pair else { return best };
    let steep = (a - b).abs() * per_m;
    if steep.is_nan() { f32::INFINITY } else { best.max(steep) }
}

/// The greatest value of every block and the eight around it.
fn around(values: &[f32], columns: usize) -> Vec<f32> {
    let beside = |line: &[f32], i: usize| {
        let from = i.saturating_sub(1);
        line.iter().skip(from).take(i + 2 - from).fold(0.0_f32, |best, value| best.max(*value))
    };
    let wide: Vec<Vec<f32>> = values.chunks_exact(columns).map(|line| (0..columns).map(|i| beside(line, i)).collect()).collect();
    let tall = |row: usize, column: usize| {
        let from = row.saturating_sub(1);
        let lines = wide.iter().skip(from).take(row + 2 - from);
        lines.fold(0.0_f32, |best, line| best.max(line.get(column).copied().unwrap_or(0.0)))
    };
    (0..wide.len()).flat_map(|row| (0..columns).map(move |column| (row, column))).map(|(row, column)| tall(row, column)).collect()
}

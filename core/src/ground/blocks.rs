//! The highest ground of every block of cells, so that most of a sight can be passed over.

use super::Heights;

/// Blocks of `2^shift` cells to a side, each with the highest of its posts, edges included.
#[derive(Debug, Clone)]
pub(super) struct Blocks {
    pub(super) shift: u32,
    columns: usize,
    highest_m: Vec<f32>,
}

/// Each kind of block is eight times as wide as the one below.
const SHIFTS: [u32; 3] = [3, 6, 9];

/// The highest, where a void is higher than everything: ground that is not known is never passed over.
fn higher(a: f32, b: f32) -> f32 {
    let b = if b.is_nan() { f32::INFINITY } else { b };
    if b > a { b } else { a }
}

impl Blocks {
    /// Blocks of 8, 64 and 512 cells.
    pub(super) fn over(heights: &Heights) -> Vec<Self> {
        let layout = heights.layout();
        let mut made: Vec<Self> = Vec::new();
        for shift in SHIFTS {
            let blocks = match made.last() {
                None => Self::gathered(heights.values_m(), layout.columns, 1 << shift, true, shift),
                Some(finer) => Self::gathered(&finer.highest_m, finer.columns, 8, false, shift),
            };
            made.push(blocks);
        }
        made
    }

    /// Gathers `side` by `side` values each, of posts the far edges too.
    fn gathered(values: &[f32], width: usize, side: usize, edges: bool, shift: u32) -> Self {
        let extra = usize::from(edges);
        let columns = (width - extra).div_ceil(side);
        let mut highest_m = Vec::new();
        let mut start = 0;
        while (start + extra) * width < values.len() {
            let mut down = vec![f32::NEG_INFINITY; width];
            for line in values.chunks_exact(width).skip(start).take(side + extra) {
                for (best, value) in down.iter_mut().zip(line) {
                    *best = higher(*best, *value);
                }
            }
            let of_block = |block: usize| down.iter().skip(block * side).take(side + extra).copied().fold(f32::NEG_INFINITY, higher);
            highest_m.extend((0..columns).map(of_block));
            start += side;
        }
        Self { shift, columns, highest_m }
    }

    /// The highest ground of the block that holds a cell; infinite where it is not known.
    pub(super) fn highest_m(&self, column: usize, row: usize) -> f64 {
        let block = (row >> self.shift) * self.columns + (column >> self.shift);
        self.highest_m.get(block).map_or(f64::INFINITY, |value| f64::from(*value))
    }
}

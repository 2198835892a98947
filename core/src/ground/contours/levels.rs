//! Which cells each contour goes through.

use super::{ContourError, Heights, INDEX_EVERY, Interval, MOST_LEVELS};

/// The level of a void.
pub(super) const VOID: i32 = i32::MIN;

/// Every post's level, and the cells of each contour. A post is above contour `k` when its level is `k` or more.
pub(super) struct Levels {
    interval: Interval,
    lowest: i32,
    pub(super) of_post: Vec<i32>,
    cells: Vec<Vec<u32>>,
}

impl Levels {
    pub(super) fn of(heights: &Heights, interval: Interval) -> Result<Self, ContourError> {
        let sound = interval.interval_m.is_finite() && interval.interval_m > 0.0 && interval.base_m.is_finite();
        if !sound {
            return Err(ContourError::Interval);
        }
        let (low, high) = range(heights.values_m());
        let level = |height_m: f32| ((f64::from(height_m) - interval.base_m) / interval.interval_m).floor();
        let (lowest, highest) = if low <= high { (level(low), level(high)) } else { (0.0, 0.0) };
        if highest - lowest > MOST_LEVELS as f64 || highest.abs().max(lowest.abs()) > 1e9 {
            return Err(ContourError::TooMany((highest - lowest) as usize));
        }
        let of_post = heights.values_m().iter().map(|value| if value.is_nan() { VOID } else { level(*value) as i32 }).collect();
        let mut levels = Self { interval, lowest: lowest as i32, of_post, cells: vec![Vec::new(); (highest - lowest) as usize + 1] };
        levels.gather(heights.layout().columns);
        Ok(levels)
    }

    /// Notes each cell with every contour that goes through it.
    fn gather(&mut self, columns: usize) {
        let rows: Vec<&[i32]> = self.of_post.chunks_exact(columns).collect();
        for (row, pair) in rows.windows(2).enumerate() {
            let [upper, lower] = pair else { continue };
            for (column, (up, low)) in upper.windows(2).zip(lower.windows(2)).enumerate() {
                let ([a, b], [c, d]) = (up, low) else { continue };
                let (least, most) = ((*a).min(*b).min(*c).min(*d), (*a).max(*b).max(*c).max(*d));
                if least == most || least == VOID {
                    continue;
                }
                let first = (least - self.lowest) as usize + 1;
                for cells in self.cells.iter_mut().skip(first).take((most - least) as usize) {
                    cells.push((row * columns + column) as u32);
                }
            }
        }
    }

    /// Each contour's level with its cells, named by the number of their north-western post; they are handed over.
    pub(super) fn take_cells(&mut self) -> impl Iterator<Item = (i32, Vec<u32>)> + use<> {
        let lowest = self.lowest;
        std::mem::take(&mut self.cells).into_iter().enumerate().map(move |(i, cells)| (lowest + i as i32, cells))
    }

    pub(super) fn height_m(&self, level: i32) -> f64 {
        self.interval.base_m + f64::from(level) * self.interval.interval_m
    }

    pub(super) fn is_index(level: i32) -> bool {
        i64::from(level) % INDEX_EVERY == 0
    }
}

fn range(values: &[f32]) -> (f32, f32) {
    values.iter().fold((f32::INFINITY, f32::NEG_INFINITY), |(low, high), value| (low.min(*value), high.max(*value)))
}

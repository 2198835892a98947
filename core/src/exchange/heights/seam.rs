//! Where two files of heights meet without a post in common: whether the ground goes on from one to the other.

use super::join::begin;
use crate::ground::Heights;
use crate::measure::{Arg, Message, Telling};

/// Fewer places of the seam tell nothing.
const FEWEST: usize = 3;
/// How far the median of the seam may be off by chance, in its sigmas, and what the median of many normal numbers has of one's sigma over the
/// root of their count: `sqrt(pi / 2)`.
const SIGMAS: f64 = 3.0;
const OF_MEDIAN: f64 = 1.2533;
/// Sigma of a normal number by the median of the sizes.
const BY_MEDIAN: f64 = 1.4826;
/// The ground's own bends hang together over so many posts along the seam (own choice).
const BENDS: f64 = 4.0;

/// Two files side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seam {
    /// Places where both have two heights in a row.
    pub count: usize,
    /// Median of the steps up from the old file to the new one, less what the slopes on both sides make, metres.
    pub step_m: f64,
    /// The greatest step that the ground's bends and the spreads of both leave to chance, metres.
    pub allowed_m: f64,
}

impl Seam {
    /// The seam of two files; nothing when they stand in other lattices.
    ///
    /// # Accuracy
    /// The errors of one correlation length are one, and the step may be one sigma of the difference at the least, as a file's own bias is
    /// part of its spread. Common practice, no source.
    #[must_use]
    pub fn of(new: &Heights, old: &Heights) -> Option<Self> {
        let corner = begin(old.layout(), new.layout())?;
        let (columns, rows) = (new.layout().columns as i64, new.layout().rows as i64);
        let new_m = |column: i64, row: i64| new.post_m(usize::try_from(column).ok()?, usize::try_from(row).ok()?);
        let old_m = |column: i64, row: i64| {
            let (column, row) = (column + corner.column as i64, row + corner.row as i64);
            old.post_m(usize::try_from(column).ok()?, usize::try_from(row).ok()?)
        };
        let step = |(column, row, right, down): (i64, i64, i64, i64)| {
            let (last_m, first_m) = (old_m(column + right, row + down)?, new_m(column, row)?);
            let (before_m, after_m) = (old_m(column + 2 * right, row + 2 * down)?, new_m(column - right, row - down)?);
            Some(first_m - last_m - ((last_m - before_m) + (after_m - first_m)) / 2.0)
        };
        let sides = (0..rows).flat_map(|row| [(0, row, -1, 0), (columns - 1, row, 1, 0)]);
        let ends = (0..columns).flat_map(|column| [(column, 0, 0, -1), (column, rows - 1, 0, 1)]);
        let mut steps_m: Vec<f64> = sides.chain(ends).filter_map(step).collect();
        let (count, step_m) = (steps_m.len(), median(&mut steps_m));
        let mut off_m: Vec<f64> = steps_m.iter().map(|one| (one - step_m).abs()).collect();
        let bends_m = OF_MEDIAN * BY_MEDIAN * median(&mut off_m) / (count as f64 / BENDS).max(1.0).sqrt();
        let (east_m, south_m) = new.layout().spacing_in_middle_m().ok()?;
        let correlation_m = new.spread().correlation_m.max(old.spread().correlation_m);
        let independent = (count as f64 * east_m.max(south_m) / correlation_m).max(1.0);
        let sigma_m = new.spread().sigma_m.hypot(old.spread().sigma_m);
        let allowed_m = sigma_m * (SIGMAS / independent.sqrt()).max(1.0) + SIGMAS * bends_m;
        Some(Self { count, step_m, allowed_m })
    }

    /// The word by which the sentence selects what is told.
    fn word(&self) -> &'static str {
        if self.count < FEWEST {
            "apart"
        } else if self.goes_on() {
            "even"
        } else {
            "step"
        }
    }

    /// Whether the ground goes on over the seam by no more of a step than is left to chance.
    #[must_use]
    pub fn goes_on(&self) -> bool {
        self.step_m.abs() <= self.allowed_m
    }
}

fn median(numbers: &mut [f64]) -> f64 {
    let middle = numbers.len() / 2;
    if numbers.is_empty() { 0.0 } else { *numbers.select_nth_unstable_by(middle, f64::total_cmp).1 }
}

impl Telling for Seam {
    fn message(&self) -> Message {
        Message::new("import-heights-seam")
            .text("seam", self.word())
            .text("side", if self.step_m < 0.0 { "down" } else { "up" })
            .with("step", Arg::Height(self.step_m.abs(), 1))
            .with("allowed", Arg::Height(self.allowed_m, 1))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::Seam;
    use crate::ground::{HeightSpread, Heights, Lattice, Layout};

    /// Posts every 0.001 degrees, about 77 and 111 m, at 46 N, in columns and rows from 14 E.
    fn tile(first: usize, columns: usize, sigma_m: f64, height_m: impl Fn(f64, f64) -> f64) -> Heights {
        let west = 14.0 + 0.001 * first as f64;
        let layout = Layout { lattice: Lattice::Geographic, columns, rows: 60, west, north: 46.0, step_east: 0.001, step_south: 0.001 };
        let at = |i: usize| height_m((first + i % columns) as f64, (i / columns) as f64) as f32;
        Heights::new(layout, HeightSpread { sigma_m, correlation_m: 300.0 }, (0..columns * 60).map(at).collect()).unwrap()
    }

    /// By construction: a steep, bent slope that goes on over the seam, and the same with the new file set higher.
    #[test]
    fn a_step_at_the_seam_is_told_from_a_slope() {
        let slope = |column: f64, row: f64| 20.0 * column - 3.0 * row + 30.0 * (column / 9.0).sin() * (row / 7.0).cos();
        let old = tile(0, 40, 3.0, slope);
        let even = Seam::of(&tile(40, 30, 4.0, slope), &old).unwrap();
        assert!(even.count == 60 && even.goes_on() && even.step_m.abs() < 1.0, "{even:?}");
        // 60 posts of 111 m are 22 times 300 m, 3 / sqrt(22) is less than one sigma: 5 m of 3 and 4 m, and what the bends add.
        assert!((5.0..7.0).contains(&even.allowed_m), "{even:?}");
        for up_m in [14.0, -14.0] {
            let step = Seam::of(&tile(40, 30, 4.0, |column, row| slope(column, row) + up_m), &old).unwrap();
            assert!(!step.goes_on() && (step.step_m - up_m).abs() < 1.0, "{step:?}");
            // The other way round the step goes the other way.
            let back = Seam::of(&old, &tile(40, 30, 4.0, |column, row| slope(column, row) + up_m)).unwrap();
            assert!((back.step_m + up_m).abs() < 1.0, "{back:?}");
        }
        let apart = Seam::of(&tile(45, 30, 4.0, slope), &old).unwrap();
        assert_eq!((apart.count, apart.word()), (0, "apart"));
    }
}

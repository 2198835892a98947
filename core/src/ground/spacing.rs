//! Metres from post to post over a whole grid, looked up by row.

use super::{Layout, Post};
use crate::earth::GridError;

/// Rows from one worked-out spacing to the next; between them it is linear.
const ROWS_APART: usize = 128;

/// How far apart the posts of a grid stand on the ground.
#[derive(Debug, Clone)]
pub(super) struct Spacing {
    known: Vec<(f64, f64)>,
    last_row: f64,
}

impl Spacing {
    /// The spacings of a grid, worked out along its middle column.
    ///
    /// # Accuracy
    /// A degree grid: 1e-6 of the distance up to 30 km. A grid of eastings and northings: the scale changes
    /// from the middle column to the sides, by 1e-3 over a whole zone of UTM.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no place for one of its posts.
    pub(super) fn over(layout: &Layout) -> Result<Self, GridError> {
        let last_row = (layout.rows - 1) as f64;
        let count = (layout.rows - 1).div_ceil(ROWS_APART) + 1;
        let column = (layout.columns - 1) as f64 / 2.0;
        let row = |i: usize| last_row * i as f64 / (count - 1) as f64;
        let known: Result<Vec<_>, _> = (0..count).map(|i| layout.spacing_m(Post { column, row: row(i) })).collect();
        Ok(Self { known: known?, last_row })
    }

    /// Metres from column to column and from row to row, at a row.
    pub(super) fn at(&self, row: f64) -> (f64, f64) {
        let place = (row / self.last_row).clamp(0.0, 1.0) * (self.known.len() - 1) as f64;
        let before = place.floor();
        let known = |i: f64| self.known.get(i as usize).or(self.known.last()).copied().unwrap_or((f64::NAN, f64::NAN));
        let ((east, south), (next_east, next_south)) = (known(before), known(before + 1.0));
        let share = place - before;
        (east + (next_east - east) * share, south + (next_south - south) * share)
    }

    /// Metres along the straight line between two posts.
    pub(super) fn between_m(&self, from: Post, to: Post) -> f64 {
        let (east_m, south_m) = self.at(f64::midpoint(from.row, to.row));
        ((to.column - from.column) * east_m).hypot((to.row - from.row) * south_m)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used, reason = "a test may stop where it fails")]

    use super::Spacing;
    use crate::earth::geodesic_between;
    use crate::ground::{Lattice, Layout, Post};

    /// Geodesics by `geographiclib-rs` 0.2.7.
    #[test]
    fn distances_between_posts_are_those_of_geodesics() {
        let step = 1.0 / 3600.0;
        let layout =
            Layout { lattice: Lattice::Geographic, columns: 3601, rows: 3601, west: 7.0, north: 47.0, step_east: step, step_south: step };
        let spacing = Spacing::over(&layout).expect("on the earth");
        for (a, b) in [((100.0, 50.0), (400.0, 900.0)), ((1800.5, 1700.25), (2100.0, 1750.0)), ((3000.0, 3500.0), (2000.0, 3500.0))] {
            let [from, to] = [a, b].map(|(column, row)| Post { column, row });
            let [start, end] = [from, to].map(|post| layout.place_of(post).expect("on the earth"));
            let ratio = spacing.between_m(from, to) / geodesic_between(start, end).0;
            assert!((ratio - 1.0).abs() < 2e-6, "{a:?} {b:?}: {ratio}");
        }
    }
}

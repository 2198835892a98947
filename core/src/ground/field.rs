//! The errors of heights over a grid: each post has its own, related to the others' by their distance, bilinear between.

use super::{HeightSpread, Post};

/// Over so many correlation lengths what two posts share is below 0.0005.
const FAR_LENGTHS: f64 = 8.0;

/// Errors that hang together over less than this hang together with none, metres.
const LEAST_LENGTH_M: f64 = 0.001;

/// Most posts of the table along each axis.
const MOST_POSTS: usize = 128;

/// How errors of a grid's heights hang together.
#[derive(Debug, Clone)]
pub(super) struct Field {
    /// From column to column and from row to row, correlation lengths.
    column: f64,
    row: f64,
    /// What two posts share by the columns and rows between them, so many of each.
    near: Vec<f64>,
    columns: usize,
    rows: usize,
}

/// A place among the posts: its cell, and how far in it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    left: i32,
    top: i32,
    x: f64,
    y: f64,
}

impl Field {
    /// The field over posts that stand so far apart, east and south in metres.
    pub(super) fn over(spread: HeightSpread, (east_m, south_m): (f64, f64)) -> Self {
        let length_m = spread.correlation_m.max(LEAST_LENGTH_M);
        let (column, row) = (east_m / length_m, south_m / length_m);
        let [columns, rows] = [column, row].map(|step| (FAR_LENGTHS / step) as usize + 1).map(|posts| posts.min(MOST_POSTS));
        let near = (0..columns * rows).map(|i| ((i % columns) as f64 * column).hypot((i / columns) as f64 * row));
        Self { column, row, near: near.map(shared_over).collect(), columns, rows }
    }

    /// What two posts share that stand so many columns and rows apart.
    fn posts(&self, columns: u32, rows: u32) -> f64 {
        let (column, row) = (columns as usize, rows as usize);
        if column < self.columns && row < self.rows {
            return self.near.get(row * self.columns + column).copied().unwrap_or(0.0);
        }
        let (across, down) = (f64::from(columns) * self.column, f64::from(rows) * self.row);
        if across.max(down) > FAR_LENGTHS { 0.0 } else { shared_over(across.hypot(down)) }
    }

    /// Covariance of the errors at two places, in squares of the spread of one post.
    ///
    /// The posts of one cell lie from those of another in nine ways only.
    pub(super) fn shared(&self, a: &Spot, b: &Spot) -> f64 {
        let (columns, rows) = (a.left - b.left, a.top - b.top);
        let (across, down) = (ways(a.x, b.x), ways(a.y, b.y));
        let row = |rows: i32| {
            let post = |columns: i32| self.posts(columns.unsigned_abs(), rows.unsigned_abs());
            across[0] * post(columns - 1) + across[1] * post(columns) + across[2] * post(columns + 1)
        };
        down[0] * row(rows - 1) + down[1] * row(rows) + down[2] * row(rows + 1)
    }
}

/// What two posts share over so many correlation lengths.
fn shared_over(lengths: f64) -> f64 {
    if lengths > FAR_LENGTHS { 0.0 } else { (-lengths).exp() }
}

/// The shares of the three ways in which posts of two cells lie along one axis.
fn ways(a: f64, b: f64) -> [f64; 3] {
    [(1.0 - a) * b, (1.0 - a) * (1.0 - b) + a * b, a * (1.0 - b)]
}

impl Spot {
    pub(super) fn at(post: Post) -> Self {
        let (left, top) = (post.column.floor(), post.row.floor());
        Self { left: left as i32, top: top as i32, x: post.column - left, y: post.row - top }
    }
}

#[cfg(test)]
mod tests {
    use super::{Field, Spot};
    use crate::ground::{HeightSpread, Post};

    /// `NumPy` 2.4.6: the four posts around each place with their bilinear weights, `exp(-distance / 300 m)` between every two.
    #[test]
    fn what_two_places_share_is_the_sum_over_their_posts() {
        let field = Field::over(HeightSpread { sigma_m: 5.0, correlation_m: 300.0 }, (75.0, 92.6));
        let spot = |column, row| Spot::at(Post { column, row });
        for (a, b, wanted) in [
            ((10.0, 20.0), (10.0, 20.0), 1.0),
            ((10.5, 20.5), (10.5, 20.5), 0.796_354_935_142_547_6),
            ((10.25, 20.75), (11.5, 20.5), 0.689_060_638_473_106_4),
            ((10.25, 20.75), (3.0, 29.9), 0.035_183_941_000_206_075),
        ] {
            let found = field.shared(&spot(a.0, a.1), &spot(b.0, b.1));
            assert!((found - wanted).abs() < 1e-9, "{a:?} {b:?}: {found}");
        }
    }
}

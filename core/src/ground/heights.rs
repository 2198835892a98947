//! Heights of the ground: a grid of posts.

use super::layout::{HeightsError, Layout, Post};
use crate::earth::LatLon;

/// How far heights may be wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightSpread {
    /// One sigma of a single height, metres.
    pub sigma_m: f64,
    /// Distance over which the errors of two heights have lost all but 1/e of what they share, metres.
    pub correlation_m: f64,
}

/// Heights of the ground above the sea, metres.
#[derive(Debug, Clone, PartialEq)]
pub struct Heights {
    layout: Layout,
    spread: HeightSpread,
    values_m: Vec<f32>,
}

/// A place beyond the outermost posts by less than this share of a step stands on them: rounding on the way from degrees and back.
const HAIR: f64 = 1e-6;
impl Heights {
    /// Heights row by row from the north-west; NaN is a void.
    ///
    /// # Errors
    /// [`HeightsError`] when layout and values do not fit each other.
    pub fn new(layout: Layout, spread: HeightSpread, values_m: Vec<f32>) -> Result<Self, HeightsError> {
        let posts = layout.posts()?;
        if values_m.len() == posts {
            Ok(Self { layout, spread, values_m })
        } else {
            Err(HeightsError::Count { posts, values: values_m.len() })
        }
    }

    /// Where the posts stand.
    #[must_use]
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// How far the heights may be wrong.
    #[must_use]
    pub fn spread(&self) -> HeightSpread {
        self.spread
    }

    /// All heights row by row from the north-west, NaN where there is none.
    #[must_use]
    pub fn values_m(&self) -> &[f32] {
        &self.values_m
    }

    /// The height of the post in a column and row; `None` outside and at a void.
    #[must_use]
    pub fn post_m(&self, column: usize, row: usize) -> Option<f64> {
        let inside = column < self.layout.columns && row < self.layout.rows;
        let value = inside.then(|| self.values_m.get(row * self.layout.columns + column)).flatten()?;
        (!value.is_nan()).then(|| f64::from(*value))
    }

    /// The height at a place among the posts: bilinear between the four around it.
    ///
    /// `None` outside the grid and where a post that counts is a void.
    #[must_use]
    pub fn at_post_m(&self, post: Post) -> Option<f64> {
        let (columns, rows) = ((self.layout.columns - 1) as f64, (self.layout.rows - 1) as f64);
        let (column, row) = (post.column.clamp(0.0, columns), post.row.clamp(0.0, rows));
        let is_inside = (post.column - column).abs() <= HAIR && (post.row - row).abs() <= HAIR;
        if !is_inside {
            return None;
        }
        let (left, top) = (column.floor().min(columns - 1.0), row.floor().min(rows - 1.0));
        let (east, south) = (column - left, row - top);
        let corners =
            [(0, 0, (1.0 - east) * (1.0 - south)), (1, 0, east * (1.0 - south)), (0, 1, (1.0 - east) * south), (1, 1, east * south)];
        let mut sum_m = 0.0;
        for (right, down, weight) in corners {
            if weight > 0.0 {
                sum_m += weight * self.post_m(left as usize + right, top as usize + down)?;
            }
        }
        Some(sum_m)
    }

    /// The height at a place inside the grid, as [`Heights::at_post_m`] has it; NaN where any of the four posts is a void.
    pub(super) fn quick_m(&self, post: Post) -> f64 {
        let column = (post.column as usize).min(self.layout.columns - 2);
        let row = (post.row as usize).min(self.layout.rows - 2);
        let first = row * self.layout.columns + column;
        let at = |offset: usize| self.values_m.get(first + offset).map_or(f64::NAN, |value| f64::from(*value));
        let (east, south) = (post.column - column as f64, post.row - row as f64);
        let upper = at(0) + (at(1) - at(0)) * east;
        let lower = at(self.layout.columns) + (at(self.layout.columns + 1) - at(self.layout.columns)) * east;
        upper + (lower - upper) * south
    }

    /// The height at a place; `None` outside the grid and at a void.
    #[must_use]
    pub fn at_m(&self, at: LatLon) -> Option<f64> {
        self.at_post_m(self.layout.post_of(at).ok()?)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

    use super::{HeightSpread, Heights, HeightsError, Layout, Post};
    use crate::earth::LatLon;
    use crate::ground::Lattice;

    fn tilted() -> Heights {
        let layout =
            Layout { lattice: Lattice::Geographic, columns: 4, rows: 3, west: 179.9, north: 46.0, step_east: 0.1, step_south: 0.1 };
        let spread = HeightSpread { sigma_m: 5.0, correlation_m: 300.0 };
        let mut values: Vec<f32> = (0..12_u8).map(f32::from).collect();
        values[11] = f32::NAN;
        Heights::new(layout, spread, values).unwrap()
    }

    #[test]
    fn between_posts_heights_are_bilinear_and_voids_are_unknown() {
        let heights = tilted();
        assert!((heights.at_post_m(Post { column: 1.5, row: 0.5 }).unwrap() - 3.5).abs() < 1e-12);
        assert!((heights.at_post_m(Post { column: 3.0, row: 1.0 }).unwrap() - 7.0).abs() < 1e-12, "a void that does not count");
        assert_eq!(heights.at_post_m(Post { column: 2.5, row: 1.5 }), None, "a void that counts");
        assert_eq!(heights.at_post_m(Post { column: 3.01, row: 0.0 }), None, "outside");
        assert_eq!(heights.at_post_m(Post { column: 3.0 + 1e-9, row: -1e-9 }), Some(3.0), "the corner, but for rounding");
        assert_eq!(heights.at_post_m(Post { column: f64::NAN, row: 0.0 }), None);
    }

    #[test]
    fn a_grid_over_the_date_line_is_one_grid() {
        let heights = tilted();
        let west = heights.layout().post_of(LatLon::new(45.95, 179.95).unwrap()).unwrap();
        let east = heights.layout().post_of(LatLon::new(45.95, -179.85).unwrap()).unwrap();
        assert!((west.column - 0.5).abs() < 1e-9 && (east.column - 2.5).abs() < 1e-9 && (east.row - 0.5).abs() < 1e-9);
    }

    #[test]
    fn a_layout_that_cannot_be_is_refused() {
        let layout = Layout { columns: 1, ..tilted().layout().clone() };
        assert_eq!(layout.posts(), Err(HeightsError::Layout));
        let wrong = Heights::new(tilted().layout().clone(), tilted().spread(), vec![0.0; 3]);
        assert_eq!(wrong, Err(HeightsError::Count { posts: 12, values: 3 }));
    }
}

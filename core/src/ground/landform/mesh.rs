//! The posts of a grid with the metres between them.

use crate::earth::GridError;
use crate::ground::{Heights, Post};

/// Heights with the spacing of every row, for work on whole numbers of posts.
pub(super) struct Mesh<'a> {
    pub(super) heights: &'a Heights,
    pub(super) columns: usize,
    pub(super) rows: usize,
    /// Metres from column to column and from row to row, by row. Along a row they change by less than 1e-4 on usual grids.
    spacing_m: Vec<(f64, f64)>,
}

impl<'a> Mesh<'a> {
    pub(super) fn new(heights: &'a Heights) -> Result<Self, GridError> {
        let (columns, rows) = (heights.layout().columns, heights.layout().rows);
        let column = (columns / 2) as f64;
        let of_row = |row: usize| heights.layout().spacing_m(Post { column, row: row as f64 });
        let spacing_m = (0..rows).map(of_row).collect::<Result<_, _>>()?;
        Ok(Self { heights, columns, rows, spacing_m })
    }

    pub(super) fn values_m(&self) -> &[f32] {
        self.heights.values_m()
    }

    /// Height of a post by its place in the list, NaN where there is none.
    pub(super) fn height_m(&self, post: usize) -> f64 {
        self.values_m().get(post).copied().map_or(f64::NAN, f64::from)
    }

    /// Metres from column to column and from row to row.
    pub(super) fn spacing_m(&self, row: usize) -> (f64, f64) {
        self.spacing_m.get(row).copied().unwrap_or((f64::NAN, f64::NAN))
    }

    /// Column and row of a post by its place in the list.
    pub(super) fn place(&self, post: usize) -> (usize, usize) {
        (post % self.columns, post / self.columns)
    }

    pub(super) fn post(&self, post: usize) -> Post {
        let (column, row) = self.place(post);
        Post { column: column as f64, row: row as f64 }
    }

    /// Metres between two posts, by the spacing half-way.
    pub(super) fn apart_m(&self, a: usize, b: usize) -> f64 {
        let ((a_column, a_row), (b_column, b_row)) = (self.place(a), self.place(b));
        let (east_m, south_m) = self.spacing_m(a_row.midpoint(b_row));
        (a_column.abs_diff(b_column) as f64 * east_m).hypot(a_row.abs_diff(b_row) as f64 * south_m)
    }

    /// The up to eight posts around one.
    pub(super) fn neighbours(&self, post: usize) -> impl Iterator<Item = usize> + use<> {
        let (column, row) = self.place(post);
        let (columns, last_column, last_row) = (self.columns, self.columns - 1, self.rows - 1);
        let around = (row.saturating_sub(1)..=(row + 1).min(last_row))
            .flat_map(move |r| (column.saturating_sub(1)..=(column + 1).min(last_column)).map(move |c| r * columns + c));
        around.filter(move |other| *other != post)
    }

    /// Whether ground that is not known begins beside a post.
    pub(super) fn at_the_edge(&self, post: usize) -> bool {
        let (column, row) = self.place(post);
        let border = column == 0 || row == 0 || column + 1 == self.columns || row + 1 == self.rows;
        border || self.neighbours(post).any(|other| self.height_m(other).is_nan())
    }
}

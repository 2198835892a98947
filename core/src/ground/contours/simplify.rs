//! Fewer places for a contour.

use geo::{Coord, LineString, SimplifyIdx};

use super::{Contour, Post};

impl Contour {
    /// The contour with no more places than it needs to stay within a tolerance of the whole one.
    ///
    /// Places are only left out, so those that stay are exact. Neighbouring contours are simplified each for itself and may
    /// touch where they are closer together than twice the tolerance.
    ///
    /// # Units
    /// Metres; `spacing_m` is that from column to column and from row to row there.
    ///
    /// # References
    /// D. H. Douglas and T. K. Peucker (1973), The Canadian Cartographer 10, 112-122; crate `geo` 0.33.1.
    #[must_use]
    pub fn simplified(&self, tolerance_m: f64, spacing_m: (f64, f64)) -> Self {
        let at = |post: &Post| Coord { x: post.column * spacing_m.0, y: post.row * spacing_m.1 };
        let line: LineString<f64> = self.posts.iter().map(at).collect();
        let kept = line.simplify_idx(tolerance_m);
        let mut posts: Vec<Post> = kept.iter().filter_map(|i| self.posts.get(*i).copied()).collect();
        posts.shrink_to_fit();
        // A ring smaller than the tolerance would become a point: it keeps its shape.
        let enough = if self.closed { 4 } else { 2 };
        let posts = if posts.len() >= enough { posts } else { self.posts.clone() };
        Self { posts, ..*self }
    }
}

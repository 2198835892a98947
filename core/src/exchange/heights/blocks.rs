//! Blocks of one height deep within walls: a gap that the file does not call one.

use super::HeightsFileError;
use crate::ground::Heights;

/// A wall is so high from post to post, metres, and no flatter than 45°: no lake lies within such on all its shores (our choice).
const WALL_M: f64 = 100.0;
const WALL_SLOPE: f64 = 1.0;
/// Posts beside one. Where fewer are known, at the border and at voids, the ground may go on as it is.
const SIDES: usize = 4;
/// Fewer posts than this are a spike or none.
const LEAST_POSTS: usize = 4;

/// Posts of one height, side by side.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Block {
    pub(super) posts: Vec<usize>,
    pub(super) height_m: f64,
}

impl Block {
    /// First and last column, first and last row.
    pub(super) fn frame(&self, columns: usize) -> ((usize, usize), (usize, usize)) {
        let span = |of: &dyn Fn(usize) -> usize| {
            let all = || self.posts.iter().map(|post| of(*post));
            (all().min().unwrap_or_default(), all().max().unwrap_or_default())
        };
        (span(&|post| post % columns), span(&|post| post / columns))
    }
}

/// The blocks of one height that are walled on every side.
///
/// # Errors
/// [`HeightsFileError`] where the grid has no coordinates in its middle.
pub(super) fn blocks(heights: &Heights) -> Result<Vec<Block>, HeightsFileError> {
    let (east_m, south_m) = heights.layout().spacing_in_middle_m().map_err(HeightsFileError::Grid)?;
    let wall_m = WALL_M.max(WALL_SLOPE * east_m.max(south_m)) as f32;
    let values_m = heights.values_m();
    let mut seen = vec![false; values_m.len()];
    let mut found = Vec::new();
    for (post, height_m) in values_m.iter().enumerate() {
        if begins(heights, post, *height_m, wall_m) && !seen.get(post).copied().unwrap_or(true) {
            found.extend(walled(heights, post, wall_m, &mut seen));
        }
    }
    Ok(found)
}

/// The heights of the up to four posts beside one, with their places.
fn beside(heights: &Heights, post: usize) -> impl Iterator<Item = (usize, f32)> + '_ {
    let (columns, values_m) = (heights.layout().columns, heights.values_m());
    let column = post % columns;
    let west = (column > 0).then(|| post - 1);
    let east = (column + 1 < columns).then_some(post + 1);
    let others = [west, east, post.checked_sub(columns), Some(post + columns)];
    others.into_iter().flatten().filter_map(|other| values_m.get(other).map(|height_m| (other, *height_m)))
}

/// Whether a post has one of its own height beside it, and a wall above it.
fn begins(heights: &Heights, post: usize, height_m: f32, wall_m: f32) -> bool {
    let mut walls = false;
    let mut alike = false;
    for (_, other_m) in beside(heights, post) {
        let step_m = other_m - height_m;
        walls |= step_m >= wall_m;
        alike |= step_m.abs() <= 0.0;
    }
    walls && alike
}

/// The block around a post, gone through as a whole, when each post beside it is known and stands a wall higher.
fn walled(heights: &Heights, from: usize, wall_m: f32, seen: &mut [bool]) -> Option<Block> {
    let height_m = *heights.values_m().get(from)?;
    let mut open = vec![from];
    let mut posts = Vec::new();
    let mut has_shore = false;
    *seen.get_mut(from)? = true;
    while let Some(post) = open.pop() {
        posts.push(post);
        has_shore |= beside(heights, post).filter(|(_, other_m)| !other_m.is_nan()).count() < SIDES;
        for (other, other_m) in beside(heights, post) {
            let step_m = other_m - height_m;
            if step_m.abs() > 0.0 {
                has_shore |= step_m < wall_m;
            } else if !step_m.is_nan() && !std::mem::replace(seen.get_mut(other)?, true) {
                open.push(other);
            }
        }
    }
    (!has_shore && posts.len() >= LEAST_POSTS).then(|| Block { posts, height_m: f64::from(height_m) })
}

//! Cliffs, as far as the posts stand close enough to show them.

use super::broad::{Broad, HALF_M};
use super::mesh::Mesh;
use super::pieces::Mark;
use super::{LandformKind, LandformScale};
use crate::ground::HeightSpread;

/// Tangent of the slope between neighbouring posts from which ground is a cliff: 45° (common practice, no source).
const STEEP: f64 = 1.0;

/// Least drop of a cliff, metres (common practice, no source).
const LEAST_DROP_M: f64 = 5.0;

/// Ground beside the steep run is its rounded edge as long as it is no flat ground, at least twice as steep as the ground beyond it, and no
/// more than so many posts wide (our choice): an even slope above or below a cliff is none of it.
const FLAT: f64 = 0.2;
const LEAST_RATIO: f64 = 2.0;
const MOST_ROUNDED: usize = 3;

/// Two posts do not differ by more of their sigmas by their errors: one pair in some thousand would, and stands alone (our choice).
const ERROR_SIGMAS: f64 = 4.0;

/// Metres between the broad grounds above and below a cliff that are held against each other.
pub(super) const APART_M: f64 = 2.0 * HALF_M;

/// Posts from the top to the foot of a sheer drop, as heights have it: each is the mean of its cell at least, so that a drop inside a cell
/// goes over two steps, and what a satellite measures reaches a little farther (common practice, no source).
const SMOOTHED_POSTS: f64 = 2.5;

/// The lowest sheer drop that posts so far apart show as a cliff for sure, metres.
#[must_use]
pub fn least_cliff_m(spacing_m: f64) -> f64 {
    LEAST_DROP_M.max(SMOOTHED_POSTS * STEEP * spacing_m)
}

/// How far to trust a cliff that stands out so far, 0 to 1: it can hurt, so it is told with a doubt, not left out.
pub(super) fn strength(spread: HeightSpread, stands_out_m: f64, scale: &LandformScale) -> f64 {
    spread.strength(stands_out_m, APART_M).max(scale.least_strength)
}

/// Ground on which cliffs are looked for.
pub(super) struct Cliffs<'a> {
    mesh: &'a Mesh<'a>,
    broad: &'a Broad,
    /// What the errors of two posts could not make, metres.
    sure_m: f64,
}

impl<'a> Cliffs<'a> {
    pub(super) fn new(mesh: &'a Mesh<'a>, broad: &'a Broad) -> Self {
        Self { mesh, broad, sure_m: ERROR_SIGMAS * std::f64::consts::SQRT_2 * mesh.heights.spread().sigma_m }
    }

    /// The drop of the steep run through a post that has one, with its rounded edges. It stands out by the ground 50 m wide above it over that below
    /// it, less the slope that goes on: what a single post's error makes of it is evened out. At a bent rim that ground holds some of the drop itself: what the errors of two posts
    /// could not make stands out in any case.
    ///
    /// # Accuracy
    /// A drop narrower than two posts is spread over both: posts 10 m apart show a cliff of 10 m, posts 30 m apart one of 30 m or more.
    /// Of an edge rounded over several posts what is flatter than 11° is left out.
    pub(super) fn at(&self, post: usize) -> Option<Mark> {
        let mesh = self.mesh;
        let next = steepest(mesh, post, 1.0)?;
        let end = |from: usize, down: f64| rounded(mesh, run(mesh, from, down), down);
        let (upper, lower) = (end(post, -1.0), end(next, 1.0));
        let drop_m = mesh.height_m(upper) - mesh.height_m(lower);
        let stands_out_m = self.above_slope_m(upper, lower).max(drop_m - self.sure_m).clamp(0.0, drop_m);
        let mark = Mark { kind: LandformKind::Cliff, relief_m: drop_m as f32, stands_out_m: stands_out_m as f32 };
        (drop_m >= LEAST_DROP_M).then_some(mark)
    }

    /// How far the ground above a steep run stands above that below it, less what the ground falls by there that goes on above and below: an even
    /// slope has no cliff.
    fn above_slope_m(&self, upper: usize, lower: usize) -> f64 {
        let (mesh, broad) = (self.mesh, self.broad);
        let out_m = |from: usize, to: usize, out_m: f64| broad.beyond_m(mesh, from, to, out_m);
        let (top_m, foot_m) = (out_m(lower, upper, HALF_M), out_m(upper, lower, HALF_M));
        let falls_m = f64::midpoint(out_m(lower, upper, HALF_M + APART_M) - top_m, foot_m - out_m(upper, lower, HALF_M + APART_M));
        let apart_m = APART_M + mesh.apart_m(upper, lower);
        top_m - foot_m - falls_m.max(0.0) * apart_m / APART_M
    }

    /// The next post down the steep run through a post.
    pub(super) fn below(&self, post: usize) -> Option<usize> {
        steepest(self.mesh, post, 1.0)
    }

    /// The posts that it is looked for on.
    pub(super) fn mesh(&self) -> &'a Mesh<'a> {
        self.mesh
    }

    /// That at every post.
    pub(super) fn marks(&self) -> Vec<Option<Mark>> {
        (0..self.mesh.columns * self.mesh.rows).map(|post| self.at(post)).collect()
    }
}

/// The neighbour that a steep step leads to, the steepest: down with 1, up with -1.
fn steepest(mesh: &Mesh<'_>, post: usize, down: f64) -> Option<usize> {
    step(mesh, post, down, STEEP).map(|(_, other)| other)
}

/// The steepest step from a post that is no less steep than so, by its tangent, and where it leads.
fn step(mesh: &Mesh<'_>, post: usize, down: f64, least: f64) -> Option<(f64, usize)> {
    let height_m = mesh.height_m(post);
    let (_, row) = mesh.place(post);
    let (east_m, south_m) = mesh.spacing_m(row);
    let near_m = east_m.min(south_m);
    let steep = mesh.neighbours(post).filter_map(|other| {
        let drop_m = down * (height_m - mesh.height_m(other));
        // Most steps are not steep even over the shortest way: their length need not be known.
        let tangent = if drop_m >= least * near_m { drop_m / mesh.apart_m(post, other) } else { 0.0 };
        (tangent >= least).then_some((tangent, other))
    });
    steep.max_by(|a, b| a.0.total_cmp(&b.0))
}

/// The end of the rounded edge beside the end of a steep run.
fn rounded(mesh: &Mesh<'_>, from: usize, down: f64) -> usize {
    let mut end = from;
    for _ in 0..MOST_ROUNDED {
        let Some((tangent, next)) = step(mesh, end, down, FLAT) else { break };
        let beyond = step(mesh, next, down, FLAT / LEAST_RATIO).map_or(0.0, |(beyond, _)| beyond);
        if tangent < LEAST_RATIO * beyond {
            break;
        }
        end = next;
    }
    end
}

/// The last post of a steep run.
fn run(mesh: &Mesh<'_>, from: usize, down: f64) -> usize {
    std::iter::successors(Some(from), |post| steepest(mesh, *post, down)).last().unwrap_or(from)
}

//! Cliffs, as far as the posts stand close enough to show them.

use super::LandformKind;
use super::mesh::Mesh;
use super::pieces::Marked;

/// Tangent of the slope between neighbouring posts from which ground is a cliff: 45° (common practice, no source).
const STEEP: f64 = 1.0;

/// Least drop of a cliff, metres (common practice, no source).
const LEAST_DROP_M: f64 = 5.0;

/// The drop of the steep run through every post that has one.
///
/// # Accuracy
/// A drop narrower than two posts is spread over both: posts 10 m apart show a cliff of 10 m, posts 30 m apart one of 30 m or more.
pub(super) fn cliffs(mesh: &Mesh<'_>) -> Vec<Marked> {
    let of_post = |post: usize| {
        let next = steepest(mesh, post, 1.0)?;
        let drop_m = mesh.height_m(run(mesh, post, -1.0)) - mesh.height_m(run(mesh, next, 1.0));
        (drop_m >= LEAST_DROP_M).then_some((LandformKind::Cliff, drop_m as f32))
    };
    (0..mesh.columns * mesh.rows).map(of_post).collect()
}

/// The neighbour that a steep step leads to, the steepest: down with 1, up with -1.
fn steepest(mesh: &Mesh<'_>, post: usize, down: f64) -> Option<usize> {
    let height_m = mesh.height_m(post);
    let (_, row) = mesh.place(post);
    let (east_m, south_m) = mesh.spacing_m(row);
    let near_m = east_m.min(south_m);
    let steep = mesh.neighbours(post).filter_map(|other| {
        let drop_m = down * (height_m - mesh.height_m(other));
        // Most steps are not steep even over the shortest way: their length need not be known.
        let tangent = if drop_m >= STEEP * near_m { drop_m / mesh.apart_m(post, other) } else { 0.0 };
        (tangent >= STEEP).then_some((tangent, other))
    });
    steep.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, other)| other)
}

/// The last post of a steep run.
fn run(mesh: &Mesh<'_>, from: usize, down: f64) -> usize {
    std::iter::successors(Some(from), |post| steepest(mesh, *post, down)).last().unwrap_or(from)
}

//! Which of the joints between hills a walker sees as saddles.

use super::find::Found;
use super::form::Lookout;
use super::islands::Top;
use super::mesh::Mesh;
use super::{LandformKind, LandformScale};

/// The saddle below a hill; `None` when the ground within sight is no saddle.
pub(super) fn saddle(mesh: &Mesh<'_>, top: &Top, relief_m: f64, doubted_m: f64, scale: &LandformScale) -> Option<Found> {
    let post = top.saddle?;
    let (column, row) = mesh.place(post);
    let (rise_m, fall_m) = rise_and_fall(&Lookout::new(mesh, row, scale).look(column)?.extremes_m()?);
    let depth_m = relief_m.min(rise_m);
    let apart_m = mesh.apart_m(post, top.top).min(scale.sight_m);
    Some(Found {
        kind: LandformKind::Saddle,
        post,
        relief_m: depth_m,
        doubted_m: doubted_m.min(depth_m).min(fall_m),
        apart_m,
        reach_m: 0.0,
    })
}

/// Highest and lowest ground along each of eight lines of sight.
type Extremes = [(f32, f32); 8];

/// The lesser rise to two sides and the lesser fall to the two sides between them, chosen so that the least of all is greatest.
fn rise_and_fall(rays: &Extremes) -> (f64, f64) {
    let pairs = (0..8).flat_map(|first| (first + 2..8).map(move |second| (first, second)));
    let of_pair = |(first, second): (usize, usize)| {
        let rise_m = highest(rays, first..first + 1).min(highest(rays, second..second + 1));
        let fall_m = deepest(rays, first + 1..second).min(deepest(rays, second + 1..first + 8));
        (rise_m, fall_m)
    };
    let best = pairs.map(of_pair).max_by(|a, b| a.0.min(a.1).total_cmp(&b.0.min(b.1)));
    best.unwrap_or((0.0, 0.0))
}

fn around(rays: &Extremes, lines: std::ops::Range<usize>) -> impl Iterator<Item = (f32, f32)> {
    lines.filter_map(|line| rays.get(line % 8).copied())
}

fn highest(rays: &Extremes, lines: std::ops::Range<usize>) -> f64 {
    around(rays, lines).map(|(highest_m, _)| f64::from(highest_m)).fold(0.0, f64::max)
}

fn deepest(rays: &Extremes, lines: std::ops::Range<usize>) -> f64 {
    around(rays, lines).map(|(_, lowest_m)| -f64::from(lowest_m)).fold(0.0, f64::max)
}

//! Where a form comes nearest to a walker: its pieces that hang together are one form.

use std::collections::HashMap;

use super::find::Around;
use super::mesh::Mesh;
use super::{Landform, LandformKind};
use crate::earth::{GridError, LatLon, geodesic_between};
use crate::ground::Post;

/// Nearer than this one stands on a form, metres; where posts stand farther apart, nearer than half a cell across (our choice).
pub(super) const UNDERFOOT_M: f64 = 10.0;

/// Every form once, by its piece that comes nearest.
pub(super) fn nearest(mesh: &Mesh<'_>, all: &[(Landform, Vec<usize>)], at: LatLon) -> Result<Vec<Around>, GridError> {
    let eye = mesh.heights.layout().post_of(at)?;
    let mut best: HashMap<usize, (f64, usize, Post)> = HashMap::new();
    for (piece, (form, (landform, posts))) in forms(mesh, all).into_iter().zip(all).enumerate() {
        let post = nearest_of(mesh, posts, eye).unwrap_or(landform.post);
        let metres = away_m(mesh, eye, post);
        let known = best.entry(form).or_insert((metres, piece, post));
        if metres < known.0 {
            *known = (metres, piece, post);
        }
    }
    let (east_m, south_m) = mesh.spacing_m(mesh.rows / 2);
    let here_m = UNDERFOOT_M.max(east_m.hypot(south_m) / 2.0);
    let told = |(_, piece, post): (f64, usize, Post)| {
        let (landform, _) = all.get(piece)?;
        Some(mesh.heights.layout().place_of(post).map(|place| {
            let (distance_m, bearing, _) = geodesic_between(at, place);
            Around { landform: *landform, distance_m, bearing, is_here: distance_m <= here_m }
        }))
    };
    let mut found = best.into_values().filter_map(told).collect::<Result<Vec<_>, GridError>>()?;
    found.sort_by(|a, b| {
        a.landform.post.row.total_cmp(&b.landform.post.row).then(a.landform.post.column.total_cmp(&b.landform.post.column))
    });
    Ok(found)
}

/// The nearest place of a long form: on the way from its nearest post to one of it beside that.
fn nearest_of(mesh: &Mesh<'_>, posts: &[usize], eye: Post) -> Option<Post> {
    let by_distance = |a: &Post, b: &Post| away_m(mesh, eye, *a).total_cmp(&away_m(mesh, eye, *b));
    let post = posts.iter().copied().min_by(|a, b| by_distance(&mesh.post(*a), &mesh.post(*b)))?;
    let (from, (east_m, south_m)) = (mesh.post(post), mesh.spacing_m(mesh.place(post).1));
    let (away_east_m, away_south_m) = ((eye.column - from.column) * east_m, (eye.row - from.row) * south_m);
    let on_the_way = |other: usize| {
        let (columns, rows) = (mesh.post(other).column - from.column, mesh.post(other).row - from.row);
        let (along_east_m, along_south_m) = (columns * east_m, rows * south_m);
        let share = (away_east_m * along_east_m + away_south_m * along_south_m) / along_east_m.hypot(along_south_m).powi(2);
        let share = share.clamp(0.0, 1.0);
        Post { column: from.column + share * columns, row: from.row + share * rows }
    };
    let ways = mesh.neighbours(post).filter(|other| posts.contains(other)).map(on_the_way);
    ways.chain([from]).min_by(by_distance)
}

/// Metres between two places among the posts.
fn away_m(mesh: &Mesh<'_>, from: Post, to: Post) -> f64 {
    let (east_m, south_m) = mesh.spacing_m(to.row.max(0.0) as usize);
    ((to.column - from.column) * east_m).hypot((to.row - from.row) * south_m)
}

/// For every piece the first of those that hang together with it.
fn forms(mesh: &Mesh<'_>, all: &[(Landform, Vec<usize>)]) -> Vec<usize> {
    let mut first: Vec<usize> = (0..all.len()).collect();
    // A post lies on one ridge, spur, valley or draw at the most; a cliff may lie over it.
    for of_cliffs in [false, true] {
        let layer = || all.iter().enumerate().filter(|(_, (landform, _))| (landform.kind == LandformKind::Cliff) == of_cliffs);
        let mut owner: Vec<Option<u32>> = vec![None; mesh.columns * mesh.rows];
        for (piece, post) in layer().flat_map(|(piece, (_, posts))| posts.iter().map(move |post| (piece, *post))) {
            if let Some(of_post) = owner.get_mut(post) {
                *of_post = u32::try_from(piece).ok();
            }
        }
        for (piece, (landform, posts)) in layer() {
            let beside = posts.iter().flat_map(|post| mesh.neighbours(*post)).filter_map(|post| *owner.get(post)?);
            for other in beside.map(|other| other as usize).filter(|other| *other != piece) {
                if all.get(other).is_some_and(|(beside, _)| beside.kind == landform.kind) {
                    join(&mut first, piece, other);
                }
            }
        }
    }
    (0..all.len()).map(|piece| root(&first, piece)).collect()
}

fn join(first: &mut [usize], piece: usize, other: usize) {
    let (one, other) = (root(first, piece), root(first, other));
    if let Some(later) = first.get_mut(one.max(other)) {
        *later = one.min(other);
    }
}

fn root(first: &[usize], piece: usize) -> usize {
    std::iter::successors(Some(piece), |at| first.get(*at).copied().filter(|next| next != at)).last().unwrap_or(piece)
}

//! Where a form comes nearest to a walker: its pieces that hang together are one form.

use std::collections::HashMap;
use std::collections::hash_map::Entry;

use super::crest::crest;
use super::find::Around;
use super::mesh::Mesh;
use super::{Landform, LandformKind};
use crate::earth::{GridError, LatLon, geodesic_between};
use crate::ground::Post;

/// Nearer than this one stands on a form, metres; where posts stand farther apart, nearer than half a cell across (our choice).
pub(super) const UNDERFOOT_M: f64 = 10.0;

/// A piece of a form as it lies from a walker.
struct Near {
    /// Metres to the nearest place that is told, and to the nearest of all its posts.
    metres: f64,
    on_it_m: f64,
    piece: usize,
    post: Post,
}

/// Every form but cliffs once, by its piece that comes nearest.
pub(super) fn nearest(mesh: &Mesh<'_>, all: &[(Landform, Vec<usize>)], form_of: &[usize], at: LatLon) -> Result<Vec<Around>, GridError> {
    let eye = mesh.heights.layout().post_of(at)?;
    let mut best: HashMap<usize, Near> = HashMap::new();
    let others = form_of.iter().zip(all).enumerate().filter(|(_, (_, (landform, _)))| landform.kind != LandformKind::Cliff);
    for (piece, (form, (landform, posts))) in others {
        let edge = nearest_of(mesh, posts, eye).unwrap_or(landform.post);
        let post = nearest_on(mesh, &crest(mesh, landform.kind, posts), eye).unwrap_or(edge);
        let near = Near { metres: away_m(mesh, eye, post), on_it_m: away_m(mesh, eye, edge), piece, post };
        match best.entry(*form) {
            Entry::Vacant(free) => {
                free.insert(near);
            }
            Entry::Occupied(mut known) => {
                let on_it_m = near.on_it_m.min(known.get().on_it_m);
                if near.metres < known.get().metres {
                    known.insert(near);
                }
                known.get_mut().on_it_m = on_it_m;
            }
        }
    }
    let blur_m = blur_m(mesh);
    let told = |near: Near| {
        let (landform, _) = all.get(near.piece)?;
        Some(mesh.heights.layout().place_of(near.post).map(|place| {
            let (distance_m, bearing, _) = geodesic_between(at, place);
            let is_here = near.on_it_m <= UNDERFOOT_M.max(blur_m);
            Around::plain(*landform, (distance_m, bearing), is_here, blur_m)
        }))
    };
    let mut found = best.into_values().filter_map(told).collect::<Result<Vec<_>, GridError>>()?;
    found.sort_by(|a, b| {
        a.landform.post.row.total_cmp(&b.landform.post.row).then(a.landform.post.column.total_cmp(&b.landform.post.column))
    });
    Ok(found)
}

/// How far off what is told by posts may be, metres: half a cell across.
pub(super) fn blur_m(mesh: &Mesh<'_>) -> f64 {
    let (east_m, south_m) = mesh.spacing_m(mesh.rows / 2);
    east_m.hypot(south_m) / 2.0
}

/// The nearest place of a form: on the way from its nearest post to one of it beside that.
pub(super) fn nearest_of(mesh: &Mesh<'_>, posts: &[usize], eye: Post) -> Option<Post> {
    let places: Vec<Post> = posts.iter().map(|post| mesh.post(*post)).collect();
    nearest_on(mesh, &places, eye)
}

/// Places of a line no farther apart than this hang together, steps of the posts along either axis.
const BESIDE: f64 = 1.5;

/// The nearest place on a line of which places are known: on the way from the nearest of them to one beside that.
fn nearest_on(mesh: &Mesh<'_>, places: &[Post], eye: Post) -> Option<Post> {
    let by_distance = |a: &Post, b: &Post| away_m(mesh, eye, *a).total_cmp(&away_m(mesh, eye, *b));
    let from = places.iter().copied().min_by(by_distance)?;
    let (east_m, south_m) = mesh.spacing_m(from.row.max(0.0) as usize);
    let (away_east_m, away_south_m) = ((eye.column - from.column) * east_m, (eye.row - from.row) * south_m);
    let on_the_way = |other: &Post| {
        let (columns, rows) = (other.column - from.column, other.row - from.row);
        let (along_east_m, along_south_m) = (columns * east_m, rows * south_m);
        let length_m = along_east_m.hypot(along_south_m);
        let beside = columns.abs() <= BESIDE && rows.abs() <= BESIDE && length_m > 0.0;
        let share = (away_east_m * along_east_m + away_south_m * along_south_m) / (length_m * length_m);
        let share = share.clamp(0.0, 1.0);
        beside.then_some(Post { column: from.column + share * columns, row: from.row + share * rows })
    };
    places.iter().filter_map(on_the_way).chain([from]).min_by(by_distance)
}

/// Metres between two places among the posts.
pub(super) fn away_m(mesh: &Mesh<'_>, from: Post, to: Post) -> f64 {
    let (east_m, south_m) = mesh.spacing_m(to.row.max(0.0) as usize);
    ((to.column - from.column) * east_m).hypot((to.row - from.row) * south_m)
}

/// For every piece the first of those that hang together with it.
pub(super) fn forms(mesh: &Mesh<'_>, all: &[(Landform, Vec<usize>)]) -> Vec<usize> {
    let mut first: Vec<usize> = (0..all.len()).collect();
    // A post lies on one ridge, spur, valley or draw at the most; a cliff, the top of a hill and the floor of a depression may lie over it.
    let layers = [LandformKind::Cliff, LandformKind::Hill, LandformKind::Depression];
    let over = |kind: LandformKind| layers.contains(&kind).then_some(kind);
    for layered in std::iter::once(None).chain(layers.map(Some)) {
        let layer = || all.iter().enumerate().filter(|(_, (landform, _))| over(landform.kind) == layered);
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

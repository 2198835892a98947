//! All landforms of an area, and those around a place.

use super::broad::Broad;
use super::cliff::Cliffs;
use super::extent::Extent;
use super::faces::faces;
use super::hilltop::{OnTops, with_way_out};
use super::islands::{Side, Top, tops};
use super::mesh::Mesh;
use super::nearest::{UNDERFOOT_M, forms, nearest};
use super::pieces::{Piece, pieces};
use super::saddle::saddle;
use super::window::Surroundings;
use super::{Landform, LandformKind, LandformScale, Trend, cliff, lines};
use crate::earth::{GridError, LatLon, geodesic_between};
use crate::ground::{Heights, Layout, Post};
use crate::measure::TrueBearing;

/// A landform by its post, before its place on the earth is worked out.
pub(super) struct Found {
    pub(super) kind: LandformKind,
    pub(super) post: usize,
    pub(super) relief_m: f64,
    /// The relief that decides whether it is there at all, metres.
    pub(super) doubted_m: f64,
    /// Distance between the heights that make the relief, metres.
    pub(super) apart_m: f64,
    pub(super) reach_m: f64,
    /// All posts of a long one; none of the others.
    pub(super) posts: Vec<usize>,
}

/// A landform seen from a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// The landform.
    pub landform: Landform,
    /// Distance to its point, or to the nearest of it where that is told, metres.
    pub distance_m: f64,
    /// True bearing to there.
    pub bearing: TrueBearing,
    /// Whether the place lies on it, as closely as the posts can tell.
    pub is_here: bool,
    /// Of a cliff: whether the ground rises or falls at it, seen from the place; level where that cannot be told, and on it.
    pub trend: Trend,
    /// Of a cliff on which the place lies: the way that it falls.
    pub falls_towards: Option<TrueBearing>,
    /// How far off the nearest place of it may lie by the posts alone, metres.
    pub blur_m: f64,
    /// Of a cliff: how far it runs around the place.
    pub extent: Extent,
}

impl Around {
    /// One of which no more is told than where it lies.
    pub(super) fn plain(landform: Landform, (distance_m, bearing): (f64, TrueBearing), is_here: bool, blur_m: f64) -> Self {
        Self { landform, distance_m, bearing, is_here, trend: Trend::Level, falls_towards: None, blur_m, extent: Extent::Narrow }
    }
}

/// Every landform of an area, strongest first.
///
/// # Units
/// Metres; places on WGS 84.
///
/// # Accuracy
/// Points stand on posts. Within the sight of the border and of voids no ridge, spur, valley, draw or saddle is found, and a hill's
/// relief is that above the known ground. Saddles are those that part hills: a second one around a closed basin is left out.
/// A narrow valley whose posts stand too far apart to show its bed holds depressions
/// that are not there. While it works it takes about 50 bytes a post: [`landforms_near`] is for a small part of much ground.
///
/// # Errors
/// [`GridError`] when the grid has no place for a post.
///
/// # References
/// Lines of sight: [`super::forms`]. Prominence by a sinking sea: common practice, no source.
pub fn landforms(heights: &Heights, scale: &LandformScale) -> Result<Vec<Landform>, GridError> {
    let mesh = Mesh::new(heights)?;
    let broad = Broad::new(&mesh, scale.around_m);
    Ok(whole(&mesh, &broad, scale)?.into_iter().map(|(landform, _)| landform).collect())
}

/// The same, each with all of its posts if it is a long one.
fn whole(mesh: &Mesh<'_>, broad: &Broad, scale: &LandformScale) -> Result<Vec<(Landform, Vec<usize>)>, GridError> {
    let around = Surroundings::new(mesh, mesh.values_m(), scale.around_m);
    let mut found = hills_and_depressions(mesh, &around, broad, scale);
    let mut marked = lines::lines(mesh, &around, broad, scale);
    let long = pieces(mesh, &mut marked, scale.least_relief_m, scale.sight_m / 2.0);
    found.extend(long.into_iter().map(|piece| of_piece(piece, scale.sight_m)));
    let mut marked = Cliffs::new(mesh, broad).marks();
    let steep = pieces(mesh, &mut marked, 0.0, scale.sight_m / 2.0);
    found.extend(steep.into_iter().map(|piece| of_piece(piece, cliff::APART_M)));
    finish(mesh, found, scale)
}

fn of_piece(piece: Piece, apart_m: f64) -> Found {
    let Piece { kind, post, relief_m, stands_out_m, reach_m, posts } = piece;
    Found { kind, post, relief_m, doubted_m: relief_m.min(stands_out_m), apart_m, reach_m, posts }
}

/// Hills, the saddles between them, and depressions.
fn hills_and_depressions(mesh: &Mesh<'_>, around: &Surroundings, broad: &Broad, scale: &LandformScale) -> Vec<Found> {
    let (mut found, mut on_tops) = (Vec::new(), OnTops::new(mesh));
    for top in tops(mesh, Side::Up, scale.least_relief_m) {
        let relief_m = top.relief_m.min(mesh.height_m(top.top) - around.lowest_m(top.top));
        let doubted_m = relief_m.min(broad.above_m(&top));
        found.extend(saddle(mesh, broad, &top, (relief_m, doubted_m), scale));
        if doubted_m < scale.least_relief_m || mesh.at_the_edge(top.top) {
            continue;
        }
        let top = with_way_out(mesh, top, scale.around_m);
        let relief_m = top.relief_m.min(relief_m);
        let hill = of_top(mesh, LandformKind::Hill, &top, (relief_m, relief_m.min(broad.above_m(&top))), scale);
        found.extend(in_pieces(mesh, &mut on_tops, &hill));
    }
    for low in tops(mesh, Side::Down, scale.least_relief_m) {
        let relief_m = low.relief_m.min(around.highest_m(low.top) - mesh.height_m(low.top));
        let low = of_top(mesh, LandformKind::Depression, &low, (relief_m, relief_m.min(broad.below_m(&low))), scale);
        found.extend(in_pieces(mesh, &mut on_tops, &low));
    }
    found
}

/// A hill by its top, a depression by its floor: each in as many pieces as that is broad.
fn in_pieces(mesh: &Mesh<'_>, on_tops: &mut OnTops, whole: &Found) -> Vec<Found> {
    on_tops.pieces(mesh, whole).into_iter().map(|(post, reach_m, posts)| Found { post, reach_m, posts, ..*whole }).collect()
}

fn of_top(mesh: &Mesh<'_>, kind: LandformKind, top: &Top, (relief_m, doubted_m): (f64, f64), scale: &LandformScale) -> Found {
    let apart_m = top.saddle.map_or(scale.around_m, |saddle| mesh.apart_m(top.top, saddle)).min(scale.around_m);
    Found { kind, post: top.top, relief_m, doubted_m, apart_m, reach_m: 0.0, posts: Vec::new() }
}

fn finish(mesh: &Mesh<'_>, found: Vec<Found>, scale: &LandformScale) -> Result<Vec<(Landform, Vec<usize>)>, GridError> {
    let spread = mesh.heights.spread();
    let own = |one: &Found| spread.strength(one.doubted_m, one.apart_m);
    let is_cliff = |one: &Found| one.kind == LandformKind::Cliff;
    let strength = |one: &Found| if is_cliff(one) { cliff::strength(spread, one.doubted_m, scale) } else { own(one) };
    let kept = |one: &Found| is_cliff(one) || (one.doubted_m >= scale.least_relief_m && strength(one) >= scale.least_strength);
    let finished = |one: Found| -> Result<(Landform, Vec<usize>), GridError> {
        let post = mesh.post(one.post);
        let landform = Landform {
            kind: one.kind,
            at: mesh.heights.layout().place_of(post)?,
            post,
            height_m: mesh.height_m(one.post),
            relief_m: one.relief_m,
            strength: strength(&one),
            reach_m: one.reach_m,
        };
        Ok((landform, one.posts))
    };
    let mut all = found.into_iter().filter(kept).map(finished).collect::<Result<Vec<_>, GridError>>()?;
    all.sort_by(|a, b| b.0.strength.total_cmp(&a.0.strength));
    Ok(all)
}

/// Those landforms that lie within a distance of a place, nearest first.
#[must_use]
pub fn landforms_around(landforms: &[Landform], at: LatLon, within_m: f64) -> Vec<Around> {
    let seen = |landform: &Landform| {
        let (distance_m, bearing, _) = geodesic_between(at, landform.at);
        let is_here = distance_m <= UNDERFOOT_M;
        Around::plain(*landform, (distance_m, bearing), is_here, 0.0)
    };
    let mut around: Vec<Around> = landforms.iter().map(seen).filter(|one| one.distance_m <= within_m).collect();
    around.sort_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
    around
}

/// The landforms within a distance of a place, nearest first, worked out from the heights around it alone.
///
/// # Accuracy
/// That of [`landforms`]; relief is measured on the ground within `within_m` and the surroundings of the scale, twice.
///
/// # Errors
/// [`GridError`] when the grid has no coordinates for the place.
pub fn landforms_near(heights: &Heights, at: LatLon, within_m: f64, scale: &LandformScale) -> Result<Vec<Around>, GridError> {
    of_part(heights, at, within_m, scale, |cut| Ok(landforms_around(&landforms(cut, scale)?, at, within_m)))
}

/// As [`landforms_near`], each form once: pieces of one kind that hang together are one, told by the piece that comes nearest, and its
/// distance is that to the nearest place of its crest or bed, of a cliff, of the flat top of a hill or the flat floor of a depression on or between
/// its posts. Of a cliff each part that falls away from the place or rises before it and hangs together is told, and where that is much higher
/// farther off than where it comes nearest, the nearest place of the high part too; its relief is the greatest drop within 100 m of what is told.
///
/// # Accuracy
/// That of [`landforms`]; that place lies within [`Around::blur_m`] of the form's own nearest on ground without errors.
///
/// # Errors
/// [`GridError`] when the grid has no coordinates for the place.
pub fn landforms_from(heights: &Heights, at: LatLon, within_m: f64, scale: &LandformScale) -> Result<Vec<Around>, GridError> {
    of_part(heights, at, within_m, scale, |cut| {
        let mesh = Mesh::new(cut)?;
        let broad = Broad::new(&mesh, scale.around_m);
        let all = whole(&mesh, &broad, scale)?;
        let form_of = forms(&mesh, &all);
        let mut around = nearest(&mesh, &all, &form_of, at)?;
        around.extend(faces(&Cliffs::new(&mesh, &broad), &all, &form_of, (at, within_m), scale)?);
        around.retain(|one| one.distance_m <= within_m);
        around.sort_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
        Ok(around)
    })
}

/// What is found in the heights around a place, with posts counted among all heights.
fn of_part(
    heights: &Heights,
    at: LatLon,
    within_m: f64,
    scale: &LandformScale,
    find: impl Fn(&Heights) -> Result<Vec<Around>, GridError>,
) -> Result<Vec<Around>, GridError> {
    let Some((cut, first)) = cut_out(heights, at, within_m + 2.0 * scale.around_m.max(scale.sight_m))? else {
        return Ok(Vec::new());
    };
    let mut around = find(&cut)?;
    for one in &mut around {
        one.landform.post = Post { column: one.landform.post.column + first.column, row: one.landform.post.row + first.row };
    }
    Ok(around)
}

/// The heights within a distance of a place, and the post where they begin; `None` where there are none.
fn cut_out(heights: &Heights, at: LatLon, within_m: f64) -> Result<Option<(Heights, Post)>, GridError> {
    let layout = heights.layout();
    let middle = layout.post_of(at)?;
    let (east_m, south_m) = layout.spacing_m(middle)?;
    let (columns, rows) = (within(middle.column, within_m / east_m, layout.columns), within(middle.row, within_m / south_m, layout.rows));
    let lines = heights.values_m().chunks(layout.columns).skip(rows.start).take(rows.len());
    let values = lines.flat_map(|line| line.get(columns.clone()).unwrap_or_default().iter().copied()).collect();
    let part = Layout {
        columns: columns.len(),
        rows: rows.len(),
        west: layout.west + layout.step_east * columns.start as f64,
        north: layout.north - layout.step_south * rows.start as f64,
        ..layout.clone()
    };
    let first = Post { column: columns.start as f64, row: rows.start as f64 };
    Ok(Heights::new(part, heights.spread(), values).ok().map(|cut| (cut, first)))
}

/// Whole places within `half` of one, of so many.
fn within(middle: f64, half: f64, count: usize) -> std::ops::Range<usize> {
    let bound = |place: f64| place.clamp(0.0, count as f64) as usize;
    bound((middle - half).floor())..bound((middle + half).ceil() + 1.0)
}

//! The top of a hill: how far it stands above the way out of its surroundings, and how far it is flat; the floor of a depression likewise.

use std::collections::BinaryHeap;

use super::LandformKind;
use super::find::Found;
use super::islands::Top;
use super::mesh::Mesh;
use super::pieces::{Mark, take};

/// Ground no farther below a summit than this share of the hill's relief, or so many metres where that is less, is its top (our own choice); so far
/// above its lowest post it is the floor of a depression.
const OF_RELIEF: f64 = 0.02;
const AT_LEAST_M: f64 = 1.0;

/// A top that reaches no farther than this from the summit is a point, metres; nor one of few posts. The pieces of one that does reach no farther.
const POINT_M: f64 = 50.0;
const FEW_POSTS: f64 = 2.0;

/// A post by its height, the highest first; of equal ones the first.
#[derive(PartialEq)]
struct ByHeight(f64, usize);

impl Eq for ByHeight {}

impl Ord for ByHeight {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0).then(other.1.cmp(&self.1))
    }
}

impl PartialOrd for ByHeight {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

/// The square of posts around one, and which of them were met.
struct Square {
    columns: std::ops::RangeInclusive<usize>,
    rows: std::ops::RangeInclusive<usize>,
    met: Vec<bool>,
}

impl Square {
    fn around(mesh: &Mesh<'_>, post: usize, around_m: f64) -> Self {
        let (column, row) = mesh.place(post);
        let (east_m, south_m) = mesh.spacing_m(row);
        let (wide, tall) = ((around_m / east_m) as usize, (around_m / south_m) as usize);
        let columns = column.saturating_sub(wide)..=(column + wide).min(mesh.columns - 1);
        let rows = row.saturating_sub(tall)..=(row + tall).min(mesh.rows - 1);
        let met = vec![false; (columns.end() - columns.start() + 1) * (rows.end() - rows.start() + 1)];
        Self { columns, rows, met }
    }

    /// Whether a post lies on the rim, where the surroundings are left.
    fn is_rim(&self, (column, row): (usize, usize)) -> bool {
        [*self.columns.start(), *self.columns.end()].contains(&column) || [*self.rows.start(), *self.rows.end()].contains(&row)
    }

    /// Whether a post is met for the first time; never of one outside.
    fn is_new(&mut self, (column, row): (usize, usize)) -> bool {
        let inside = self.columns.contains(&column) && self.rows.contains(&row);
        let width = self.columns.end() - self.columns.start() + 1;
        let place = inside.then(|| (row - self.rows.start()) * width + column - self.columns.start());
        place.and_then(|place| self.met.get_mut(place)).is_some_and(|met| !std::mem::replace(met, true))
    }
}

/// The top of a hill with the lowest place of the highest way out of its surroundings for a saddle, where that is higher than its own: a crest that
/// runs on as high as it is has no hill on it. Posts without a height are no way.
pub(super) fn with_way_out(mesh: &Mesh<'_>, top: Top, around_m: f64) -> Top {
    let mut square = Square::around(mesh, top.top, around_m);
    let (top_m, mut lowest) = (mesh.height_m(top.top), ByHeight(mesh.height_m(top.top), top.top));
    let mut open = BinaryHeap::from([ByHeight(lowest.0, top.top)]);
    square.is_new(mesh.place(top.top));
    while let Some(next) = open.pop() {
        let ByHeight(height_m, post) = next;
        if top_m - height_m >= top.relief_m {
            return top;
        }
        if height_m < lowest.0 {
            lowest = ByHeight(height_m, post);
        }
        if square.is_rim(mesh.place(post)) {
            return Top { top: top.top, saddle: Some(lowest.1), relief_m: top_m - lowest.0 };
        }
        let on = mesh.neighbours(post).filter(|other| square.is_new(mesh.place(*other)));
        open.extend(on.map(|other| ByHeight(mesh.height_m(other), other)).filter(|one| !one.0.is_nan()));
    }
    top
}

/// The posts on the flat tops of hills and on the flat floors of depressions.
pub(super) struct OnTops(Vec<Option<Mark>>);

impl OnTops {
    pub(super) fn new(mesh: &Mesh<'_>) -> Self {
        Self(vec![None; mesh.columns * mesh.rows])
    }

    /// The top of a hill or the floor of a depression in pieces: the point that stands for each, how far it reaches from that, and its posts; the summit or
    /// the lowest post alone where it is no broader than a point.
    pub(super) fn pieces(&mut self, mesh: &Mesh<'_>, hill: &Found) -> Vec<(usize, f64, Vec<usize>)> {
        let up = if hill.kind == LandformKind::Depression { -1.0 } else { 1.0 };
        let least_m = up * mesh.height_m(hill.post) - (OF_RELIEF * hill.relief_m).max(AT_LEAST_M);
        let (east_m, south_m) = mesh.spacing_m(mesh.place(hill.post).1);
        let point_m = POINT_M.max(FEW_POSTS * east_m.max(south_m));
        let mark = Mark { kind: hill.kind, relief_m: hill.relief_m as f32, stands_out_m: hill.doubted_m as f32 };
        let (mut posts, mut next, mut farthest_m) = (vec![hill.post], 0, 0.0_f64);
        self.mark(hill.post, mark);
        while let Some(post) = posts.get(next).copied() {
            next += 1;
            farthest_m = farthest_m.max(mesh.apart_m(hill.post, post));
            for other in mesh.neighbours(post).filter(|other| up * mesh.height_m(*other) >= least_m) {
                if self.mark(other, mark) {
                    posts.push(other);
                }
            }
        }
        let of_posts: Vec<_> = posts.iter().filter_map(|post| take(mesh, &mut self.0, *post, point_m)).collect();
        if farthest_m < point_m {
            return vec![(hill.post, 0.0, Vec::new())];
        }
        of_posts.into_iter().map(|piece| (piece.post, piece.reach_m, piece.posts)).collect()
    }

    /// Marks a post; whether it was none before.
    fn mark(&mut self, post: usize, mark: Mark) -> bool {
        self.0.get_mut(post).is_some_and(|place| place.replace(mark).is_none())
    }
}

//! Cliffs as they lie around a walker: what falls away from him is told apart from what rises before him, and a high part from a low one.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use super::cliff::{Cliffs, strength};
use super::extent::Extent;
use super::find::Around;
use super::mesh::Mesh;
use super::nearest::{UNDERFOOT_M, away_m, blur_m, nearest_of};
use super::pieces::Mark;
use super::{Landform, LandformKind, LandformScale, Trend};
use crate::earth::{GridError, LatLon, geodesic_between};
use crate::ground::Post;
use crate::measure::{TrueBearing, signed_difference_deg};

/// Posts on both sides of a place of a cliff between which its drop lies, steps of the posts.
const ACROSS: f64 = 1.5;
/// Less than this, and less than this share of the drop, is no rise or fall at a cliff: one looks along it (our own choice).
const LEAST_M: f64 = 1.0;
const LEAST_SHARE: f64 = 0.2;
/// What rises (or falls) over less of a cliff than this is a jag of the posts, metres from its first post to its farthest (our own choice).
const LEAST_REACH_M: f64 = 50.0;
/// Nearer to the walker it is none that reaches over so much of its distance (our own choice).
const LEAST_WIDE: f64 = 0.3;
/// Faces underfoot that fall within so many degrees of each other are one (our own choice).
const SAME_WAY_DEG: f64 = 60.0;
/// A cliff is as high where it comes nearest as it is within so many metres of there (our own choice).
const BESIDE_M: f64 = 100.0;
/// A higher part of a cliff is told besides where it is lower than this share of that where it comes nearest (our own choice).
const AS_HIGH: f64 = 0.8;

/// One post of a cliff as it lies from a walker.
#[derive(Debug, Clone, Copy)]
struct Brink {
    post: usize,
    mark: Mark,
    away_m: f64,
    trend: Trend,
}

/// Where cliffs are told from.
struct Eye<'a> {
    cliffs: &'a Cliffs<'a>,
    mesh: &'a Mesh<'a>,
    at: LatLon,
    post: Post,
    within_m: f64,
    scale: &'a LandformScale,
}

/// Every cliff within a distance of a place: what of it falls away from there, what rises, and of each a part that is much higher than where it comes
/// nearest.
pub(super) fn faces(
    cliffs: &Cliffs<'_>,
    all: &[(Landform, Vec<usize>)],
    form_of: &[usize],
    (at, within_m): (LatLon, f64),
    scale: &LandformScale,
) -> Result<Vec<Around>, GridError> {
    let mesh = cliffs.mesh();
    let eye = Eye { cliffs, mesh, at, post: mesh.heights.layout().post_of(at)?, within_m, scale };
    let mut posts_of: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (form, (_, posts)) in form_of.iter().zip(all).filter(|(_, (landform, _))| landform.kind == LandformKind::Cliff) {
        posts_of.entry(*form).or_default().extend(posts);
    }
    let mut found = Vec::new();
    for posts in posts_of.values() {
        let brinks = sides(mesh, posts.iter().filter_map(|post| eye.brink(*post)).collect());
        let (mut told, mut higher) = (Vec::new(), Vec::new());
        for same in faces_of(mesh, &brinks) {
            let Some(whole) = eye.told(&same, &same)? else { continue };
            let highest_m = same.iter().map(Brink::drop_m).fold(0.0, f64::max);
            if whole.landform.relief_m < AS_HIGH * highest_m {
                let high: Vec<Brink> = same.iter().filter(|brink| brink.drop_m() >= AS_HIGH * highest_m).copied().collect();
                higher.extend(eye.told(&high, &same)?);
            }
            told.push(whole);
        }
        found.extend(once_here(told).into_iter().chain(higher));
    }
    Ok(found)
}

/// Who stands between two sides of a cliff stands on it: of those that fall the same way the first is told.
fn once_here(told: Vec<Around>) -> Vec<Around> {
    let mut kept: Vec<Around> = Vec::new();
    for one in told {
        let is_same = |other: &Around| match (one.falls_towards, other.falls_towards) {
            (Some(way), Some(other)) => signed_difference_deg(way.degrees(), other.degrees()).abs() <= SAME_WAY_DEG,
            (_, None) | (None, _) => false,
        };
        if !kept.iter().any(is_same) {
            kept.push(one);
        }
    }
    kept
}

impl Brink {
    fn drop_m(&self) -> f64 {
        f64::from(self.mark.relief_m)
    }
}

impl Eye<'_> {
    /// A post of a cliff; `None` where it is too far.
    fn brink(&self, post: usize) -> Option<Brink> {
        let away_m = away_m(self.mesh, self.post, self.mesh.post(post));
        let mark = self.cliffs.at(post).filter(|_| away_m <= self.within_m)?;
        let least_m = LEAST_M.max(LEAST_SHARE * f64::from(mark.relief_m));
        Some(Brink { post, mark, away_m, trend: self.trend(self.mesh.post(post), least_m) })
    }

    /// Whether the ground rises or falls at a place of a cliff, as one comes to it.
    fn trend(&self, cliff: Post, least_m: f64) -> Trend {
        let (columns, rows) = (cliff.column - self.post.column, cliff.row - self.post.row);
        let length = columns.hypot(rows);
        let at_m = |steps: f64| {
            let share = if length > 0.0 { steps / length } else { 0.0 };
            self.mesh.heights.at_post_m(Post { column: cliff.column + share * columns, row: cliff.row + share * rows })
        };
        match at_m(ACROSS).zip(at_m(-ACROSS.min(length))).map(|(beyond_m, before_m)| beyond_m - before_m) {
            Some(rise_m) if rise_m >= least_m => Trend::Rises,
            Some(rise_m) if rise_m <= -least_m => Trend::Falls,
            Some(_) | None => Trend::Level,
        }
    }

    /// A part of one side of a cliff by its nearest place; `None` of no posts.
    fn told(&self, part: &[Brink], side: &[Brink]) -> Result<Option<Around>, GridError> {
        let Some(first) = part.iter().min_by(|a, b| a.away_m.total_cmp(&b.away_m)) else { return Ok(None) };
        let (mesh, layout) = (self.mesh, self.mesh.heights.layout());
        let beside = side.iter().filter(|brink| mesh.apart_m(brink.post, first.post) <= BESIDE_M);
        let highest = beside.max_by(|a, b| a.mark.relief_m.total_cmp(&b.mark.relief_m)).unwrap_or(first);
        let posts: Vec<usize> = part.iter().map(|brink| brink.post).collect();
        let nearest = nearest_of(mesh, &posts, self.post).unwrap_or(mesh.post(first.post));
        let (distance_m, bearing, _) = geodesic_between(self.at, layout.place_of(nearest)?);
        let blur_m = blur_m(mesh);
        let is_here = away_m(mesh, self.post, nearest) <= UNDERFOOT_M.max(blur_m);
        let turn_deg = bearing.degrees() - self.bearing_deg(nearest);
        let mut ways: Vec<f64> = posts.iter().map(|post| self.bearing_deg(mesh.post(*post))).collect();
        // Who stands on it has it on every side and learns nothing.
        let extent = if is_here { Extent::Narrow } else { Extent::of(&mut ways, turn_deg) };
        let landform = Landform {
            kind: LandformKind::Cliff,
            at: layout.place_of(mesh.post(highest.post))?,
            post: mesh.post(highest.post),
            height_m: mesh.height_m(highest.post),
            relief_m: highest.drop_m(),
            strength: strength(mesh.heights.spread(), highest.mark.least_m(), self.scale),
            reach_m: posts.iter().map(|post| mesh.apart_m(highest.post, *post)).fold(0.0, f64::max),
        };
        let falls_towards = is_here.then(|| self.falls_towards(part, first)).flatten();
        let trend = if is_here { Trend::Level } else { first.trend };
        Ok(Some(Around { landform, distance_m, bearing, is_here, trend, blur_m, extent, falls_towards }))
    }

    /// The way that a cliff falls about its post that is nearest, on the mean of those beside it.
    fn falls_towards(&self, part: &[Brink], nearest: &Brink) -> Option<TrueBearing> {
        let mesh = self.mesh;
        let beside = part.iter().filter(|brink| mesh.apart_m(brink.post, nearest.post) <= UNDERFOOT_M.max(2.0 * blur_m(mesh)));
        let (mut columns, mut rows) = (0.0, 0.0);
        for (from, to) in beside.filter_map(|brink| Some((mesh.post(brink.post), mesh.post(self.cliffs.below(brink.post)?)))) {
            (columns, rows) = (columns + to.column - from.column, rows + to.row - from.row);
        }
        let (layout, from) = (mesh.heights.layout(), mesh.post(nearest.post));
        let length = columns.hypot(rows);
        let to = Post { column: from.column + columns / length, row: from.row + rows / length };
        let ends = layout.place_of(from).ok().zip(layout.place_of(to).ok()).filter(|_| length > 0.0);
        ends.map(|(from, to)| geodesic_between(from, to).1)
    }

    /// Degrees clockwise from the top of the grid, 0 to 360.
    fn bearing_deg(&self, to: Post) -> f64 {
        let (east_m, south_m) = self.mesh.spacing_m(to.row.max(0.0) as usize);
        ((to.column - self.post.column) * east_m).atan2((self.post.row - to.row) * south_m).to_degrees().rem_euclid(360.0)
    }
}

/// What of a cliff goes one way and hangs together.
fn faces_of(mesh: &Mesh<'_>, brinks: &[Brink]) -> Vec<Vec<Brink>> {
    let by_post: BTreeMap<usize, Brink> = brinks.iter().map(|brink| (brink.post, *brink)).collect();
    let of_trend = |trend: Trend| by_post.values().filter(move |brink| brink.trend == trend).map(|brink| brink.post).collect();
    let runs = [Trend::Falls, Trend::Rises, Trend::Level].into_iter().flat_map(|trend| hanging_together(mesh, of_trend(trend)));
    runs.map(|run| run.iter().filter_map(|post| by_post.get(post).copied()).collect()).collect()
}

/// A cliff by its sides: what is seen along it, and what rises or falls over less of it than a walker would mean, goes with what is beside it. A cliff
/// of no longer side goes one way, as it does where it comes nearest.
fn sides(mesh: &Mesh<'_>, mut brinks: Vec<Brink>) -> Vec<Brink> {
    let Some(nearest) = brinks.iter().min_by(|a, b| a.away_m.total_cmp(&b.away_m)).map(|brink| brink.trend) else { return brinks };
    let read: BTreeMap<usize, Trend> = brinks.iter().map(|brink| (brink.post, brink.trend)).collect();
    let away_m: BTreeMap<usize, f64> = brinks.iter().map(|brink| (brink.post, brink.away_m)).collect();
    let mut told: BTreeMap<usize, Trend> = BTreeMap::new();
    let mut open = VecDeque::new();
    // Where two are as near the side that falls is taken: that hurts more.
    for side in [Trend::Falls, Trend::Rises] {
        let of_side: BTreeSet<usize> = read.iter().filter(|(_, trend)| **trend == side).map(|(post, _)| *post).collect();
        open.extend(hanging_together(mesh, of_side).into_iter().filter(|run| is_side(mesh, run, &away_m)).flatten());
        told.extend(open.iter().filter(|post| read.get(post) == Some(&side)).map(|post| (*post, side)));
    }
    while let Some(post) = open.pop_front() {
        let Some(side) = told.get(&post).copied() else { continue };
        for beside in mesh.neighbours(post).filter(|beside| read.contains_key(beside)) {
            told.entry(beside).or_insert_with(|| {
                open.push_back(beside);
                side
            });
        }
    }
    brinks.iter_mut().for_each(|brink| brink.trend = told.get(&brink.post).copied().unwrap_or(nearest));
    brinks
}

/// Whether posts that hang together are a side of a cliff: no jag, and no part too small to be met by a walker who is so far off.
fn is_side(mesh: &Mesh<'_>, run: &[usize], away_m: &BTreeMap<usize, f64>) -> bool {
    let nearest_m = run.iter().filter_map(|post| away_m.get(post)).copied().fold(f64::INFINITY, f64::min);
    let least_m = LEAST_REACH_M.min(LEAST_WIDE * nearest_m);
    run.first().is_some_and(|first| run.iter().any(|post| mesh.apart_m(*first, *post) >= least_m))
}

/// The posts that hang together, each lot by itself.
fn hanging_together(mesh: &Mesh<'_>, mut posts: BTreeSet<usize>) -> Vec<Vec<usize>> {
    let mut found = Vec::new();
    while let Some(first) = posts.pop_first() {
        let mut run = vec![first];
        let mut next = 0;
        while let Some(post) = run.get(next).copied() {
            run.extend(mesh.neighbours(post).filter(|beside| posts.remove(beside)));
            next += 1;
        }
        found.push(run);
    }
    found
}

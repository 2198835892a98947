//! Which of the joints between hills a walker sees as saddles.
//!
//! Nothing here looks along lines of its own: a crest that runs between them would be missed.

use std::collections::VecDeque;

use super::broad::Broad;
use super::find::Found;
use super::islands::Top;
use super::mesh::Mesh;
use super::rose::DIRECTIONS;
use super::{LandformKind, LandformScale};

/// The saddle below a hill; `None` when the ground within sight is no saddle, or not known.
pub(super) fn saddle(mesh: &Mesh<'_>, broad: &Broad, top: &Top, (relief_m, doubted_m): (f64, f64), scale: &LandformScale) -> Option<Found> {
    let post = top.saddle.filter(|_| doubted_m >= scale.least_relief_m)?;
    let falls_m = falls_m(mesh, broad, post, scale)?;
    let sides = sides(mesh, post, scale);
    let pairs = sides.iter().enumerate().flat_map(|(place, one)| sides.iter().skip(place + 1).map(move |other| (one, other)));
    let of_pair = |(one, other): (&Side, &Side)| {
        let lesser = if one.rise_m < other.rise_m { one } else { other };
        (lesser.rise_m, lesser.apart_m, between_m(&falls_m, one, other))
    };
    let (rise_m, apart_m, fall_m) = pairs.map(of_pair).max_by(|a, b| a.0.min(a.2).total_cmp(&b.0.min(b.2)))?;
    let depth_m = relief_m.min(rise_m);
    Some(Found {
        kind: LandformKind::Saddle,
        post,
        relief_m: depth_m,
        doubted_m: doubted_m.min(depth_m).min(fall_m),
        apart_m,
        reach_m: 0.0,
        posts: Vec::new(),
    })
}

/// The higher ground to one side of a saddle: what hangs together above it.
struct Side {
    /// Its highest ground above the saddle, metres.
    rise_m: f64,
    /// How far that is from the saddle, metres.
    apart_m: f64,
    /// The directions in which it lies within sight.
    directions: [bool; DIRECTIONS],
}

/// Direction in which a post lies from another, of [`DIRECTIONS`], and metres to it.
fn way(mesh: &Mesh<'_>, from: usize, to: usize) -> (usize, f64) {
    let ((from_column, from_row), (column, row)) = (mesh.place(from), mesh.place(to));
    let (east_m, south_m) = mesh.spacing_m(from_row.midpoint(row));
    let (east_m, north_m) = ((column as f64 - from_column as f64) * east_m, (from_row as f64 - row as f64) * south_m);
    let turns = east_m.atan2(north_m).rem_euclid(std::f64::consts::TAU) / std::f64::consts::TAU;
    ((turns * DIRECTIONS as f64).round() as usize % DIRECTIONS, east_m.hypot(north_m))
}

/// The deepest fall of the broad ground within sight in each direction, metres, but for what is level; `None` where the sight leaves the known ground. A
/// post in the bed of a valley that stands above those beside it is no saddle, nor is the all but level ground between two knobs on a plain.
fn falls_m(mesh: &Mesh<'_>, broad: &Broad, post: usize, scale: &LandformScale) -> Option<[f64; DIRECTIONS]> {
    let (sight_m, level) = (scale.sight_m, scale.level_deg.to_radians().tan());
    let ((column, row), height_m) = (mesh.place(post), broad.at_m(post));
    let (east_m, south_m) = mesh.spacing_m(row);
    let (wide, tall) = ((sight_m / east_m) as usize, (sight_m / south_m) as usize);
    if column < wide || row < tall || column + wide >= mesh.columns || row + tall >= mesh.rows {
        return None;
    }
    let mut falls_m = [0.0_f64; DIRECTIONS];
    for other in (row - tall..=row + tall).flat_map(|r| (column - wide..=column + wide).map(move |c| r * mesh.columns + c)) {
        let (direction, away_m) = way(mesh, post, other);
        if away_m <= sight_m {
            let fall_m = height_m - broad.at_m(other);
            let deepest_m = falls_m.get_mut(direction).filter(|_| !fall_m.is_nan())?;
            *deepest_m = if fall_m >= level * away_m { deepest_m.max(fall_m) } else { *deepest_m };
        }
    }
    Some(falls_m)
}

/// Which of the posts around one were met.
struct Seen {
    columns: std::ops::Range<usize>,
    rows: std::ops::Range<usize>,
    met: Vec<bool>,
}

impl Seen {
    fn around(mesh: &Mesh<'_>, post: usize, around_m: f64) -> Self {
        let (column, row) = mesh.place(post);
        let (east_m, south_m) = mesh.spacing_m(row);
        let within = |middle: usize, reach: usize| middle.saturating_sub(reach)..middle + reach + 1;
        let (columns, rows) = (within(column, (around_m / east_m) as usize), within(row, (around_m / south_m) as usize));
        Self { met: vec![false; columns.len() * rows.len()], columns, rows }
    }

    /// Whether a post is met for the first time; never of one outside.
    fn is_new(&mut self, mesh: &Mesh<'_>, post: usize) -> bool {
        let (column, row) = mesh.place(post);
        let inside = self.columns.contains(&column) && self.rows.contains(&row);
        let place = inside.then(|| (row - self.rows.start) * self.columns.len() + column - self.columns.start);
        let met = place.and_then(|place| self.met.get_mut(place));
        met.is_some_and(|met| !std::mem::replace(met, true))
    }
}

/// The sides of a saddle, each followed from post to post as far as the ground around is compared.
fn sides(mesh: &Mesh<'_>, post: usize, scale: &LandformScale) -> Vec<Side> {
    let height_m = mesh.height_m(post);
    // Of posts as high as the saddle those count as higher that the sinking sea laid bare before it.
    let above = |other: usize| mesh.height_m(other) > height_m || (mesh.height_m(other) >= height_m && other < post);
    let mut seen = Seen::around(mesh, post, scale.around_m);
    let mut sides = Vec::new();
    for first in mesh.neighbours(post).filter(|first| above(*first)) {
        if !seen.is_new(mesh, first) {
            continue;
        }
        let mut side = Side { rise_m: 0.0, apart_m: 0.0, directions: [false; DIRECTIONS] };
        let mut open = VecDeque::from([first]);
        while let Some(at) = open.pop_front() {
            let (direction, apart_m) = way(mesh, post, at);
            if let Some(lies) = side.directions.get_mut(direction).filter(|_| apart_m <= scale.sight_m) {
                *lies = true;
            }
            let rise_m = mesh.height_m(at) - height_m;
            if rise_m > side.rise_m {
                (side.rise_m, side.apart_m) = (rise_m, apart_m);
            }
            let on = mesh.neighbours(at).filter(|other| above(*other) && mesh.apart_m(post, *other) <= scale.around_m);
            open.extend(on.filter(|other| seen.is_new(mesh, *other)));
        }
        sides.push(side);
    }
    sides
}

/// The lesser fall of the two between a way to one side and a way to the other, as great as it gets, metres.
fn between_m(falls_m: &[f64; DIRECTIONS], one: &Side, other: &Side) -> f64 {
    let deepest_m = |from: usize, to: usize| {
        let between = falls_m.iter().cycle().skip(from + 1).take((to + DIRECTIONS - from - 1) % DIRECTIONS);
        between.copied().fold(0.0, f64::max)
    };
    let ways = |side: &Side| (0..DIRECTIONS).zip(side.directions).filter_map(|(way, lies)| lies.then_some(way)).collect::<Vec<_>>();
    let others = ways(other);
    let pairs = ways(one).into_iter().flat_map(|first| others.iter().map(move |second| (first, *second)));
    pairs.map(|(first, second)| deepest_m(first, second).min(deepest_m(second, first))).fold(0.0, f64::max)
}

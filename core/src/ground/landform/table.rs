//! Landforms laid out so that many places can be held against one that was seen.

use std::ops::Range;

use super::{Landform, LandformKind};
use crate::earth::LocalFrame;
use crate::measure::{Point, signed_difference_deg};

/// Side of the squares by which landforms are found, metres.
const SQUARE_M: f64 = 250.0;

/// Chance that what a walker says of the ground fits nothing there (common practice, no source).
const WRONG: f64 = 0.02;

/// Beyond so many spreads a landform does not count.
const REACH_SPREADS: f64 = 3.5;

/// Nearer than this the distance to a landform means nothing, metres.
const NEAREST_M: f64 = 20.0;

/// Directions by which the ground that can matter is framed.
const RIMS: u8 = 12;

/// A landform that a walker has seen, roughly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeenLandform {
    /// What it is.
    pub kind: LandformKind,
    /// Bearing from the walker in the plane, degrees.
    pub bearing_deg: f64,
    /// One sigma of the bearing, degrees.
    pub bearing_spread_deg: f64,
    /// Distance from the walker, metres.
    pub distance_m: f64,
    /// The factor by which the distance may be wrong either way, one sigma: 1.5 for an estimate by eye (common practice, no source).
    pub distance_factor: f64,
}

/// A landform in the plane.
#[derive(Debug, Clone, Copy)]
struct Entry {
    at: Point,
    /// What its strength alone takes off the fit: twice the negative logarithm, as if it were the square of spreads.
    weakness: f64,
    /// Square of one sigma of where on it a walker looks, square metres.
    spread_m2: f64,
}

/// Those of one kind, square by square, row by row of squares.
#[derive(Debug, Clone)]
struct Kind {
    kind: LandformKind,
    south_west: Point,
    columns: usize,
    rows: usize,
    entries: Vec<Entry>,
    /// Where the entries of each square begin; one more at the end.
    starts: Vec<usize>,
    widest_m: f64,
}

/// Landforms of an area in the plane of a sheet.
#[derive(Debug, Clone)]
pub struct LandformTable {
    kinds: Vec<Kind>,
}

impl LandformTable {
    /// Lays landforms out in a plane.
    #[must_use]
    pub fn new(landforms: &[Landform], frame: &LocalFrame) -> Self {
        let entry = |landform: &Landform| Entry {
            at: frame.to_plane(landform.at),
            weakness: -2.0 * landform.strength.ln(),
            // Even along its reach.
            spread_m2: landform.reach_m * landform.reach_m / 3.0,
        };
        let of_kind =
            |kind: LandformKind| Kind::new(kind, &landforms.iter().filter(|landform| landform.kind == kind).map(entry).collect::<Vec<_>>());
        Self { kinds: LandformKind::ALL.into_iter().filter_map(of_kind).collect() }
    }

    /// How well a place fits what was seen: 1 where a strong landform of the kind lies just there, 0 where none is near.
    ///
    /// # Units
    /// The eye in metres of the plane, bearings in degrees of the plane.
    ///
    /// # Accuracy
    /// The best of all landforms, not their sum: a long ridge in many pieces is no likelier than a short one. A landform more than
    /// 3.5 spreads off does not count. Bearings and distances are taken as normal, distances in their logarithm; a long landform
    /// widens both by its reach.
    #[must_use]
    pub fn fit(&self, eye: Point, seen: &SeenLandform) -> f64 {
        let Some(kind) = self.kinds.iter().find(|kind| kind.kind == seen.kind) else { return 0.0 };
        let least = kind.within(kind.rim(eye, seen)).fold(f64::INFINITY, |least, entry| entry.misfit(eye, seen, least).min(least));
        (-least / 2.0).exp()
    }

    /// The natural logarithm of how likely it was to see this from a place, against a place where it fits fully; 2 % are plainly wrong.
    #[must_use]
    pub fn log_likelihood(&self, eye: Point, seen: &SeenLandform) -> f64 {
        (WRONG + (1.0 - WRONG) * self.fit(eye, seen)).ln()
    }
}

impl Entry {
    /// The square of spreads between this landform and what was seen, its weakness added; no more than needed to tell that it is not
    /// the least.
    fn misfit(&self, eye: Point, seen: &SeenLandform, least: f64) -> f64 {
        let step = self.at.minus(eye);
        let distance2 = step.dot(step).max(NEAREST_M * NEAREST_M);
        let own2 = self.spread_m2 / distance2;
        let (told_m, factor_ln) = (seen.distance_m.max(NEAREST_M), seen.distance_factor.ln());
        let off_ln = (distance2 / (told_m * told_m)).ln() / 2.0;
        let misfit = self.weakness + share(off_ln * off_ln, factor_ln * factor_ln + own2);
        if misfit >= least {
            return misfit;
        }
        let off_rad = signed_difference_deg(step.bearing_deg(), seen.bearing_deg).to_radians();
        let spread_rad = seen.bearing_spread_deg.to_radians();
        misfit + share(off_rad * off_rad, spread_rad * spread_rad + own2)
    }
}

/// A square in units of its variance; nothing off is nothing, even where there is no spread.
fn share(square: f64, variance: f64) -> f64 {
    if square > 0.0 { square / variance } else { 0.0 }
}

impl Kind {
    fn new(kind: LandformKind, entries: &[Entry]) -> Option<Self> {
        let first = entries.first()?.at;
        let corner = |pick: fn(f64, f64) -> f64| {
            entries.iter().fold(first, |c, e| Point::new(pick(c.east_m, e.at.east_m), pick(c.north_m, e.at.north_m)))
        };
        let (south_west, north_east) = (corner(f64::min), corner(f64::max));
        let count = |length_m: f64| (length_m / SQUARE_M) as usize + 1;
        let size = north_east.minus(south_west);
        let (columns, rows) = (count(size.east_m), count(size.north_m));
        let square = |entry: &Entry| {
            let from = entry.at.minus(south_west);
            (from.north_m / SQUARE_M) as usize * columns + (from.east_m / SQUARE_M) as usize
        };
        let mut entries = entries.to_vec();
        entries.sort_by_key(square);
        let starts = (0..=columns * rows).map(|number| entries.partition_point(|entry| square(entry) < number)).collect();
        let widest_m = entries.iter().map(|entry| entry.spread_m2.sqrt()).fold(0.0, f64::max);
        Some(Self { kind, south_west, columns, rows, entries, starts, widest_m })
    }

    /// The corners, south-west and north-east, of the ground on which a landform can fit what was seen.
    fn rim(&self, eye: Point, seen: &SeenLandform) -> (Point, Point) {
        let far = REACH_SPREADS * seen.distance_factor.ln();
        let (near_m, far_m) = (seen.distance_m.max(NEAREST_M) * (-far).exp(), seen.distance_m.max(NEAREST_M) * far.exp());
        let wide_deg = (REACH_SPREADS * seen.bearing_spread_deg).min(180.0);
        let bearings = (0..=RIMS).map(|rim| seen.bearing_deg + wide_deg * (2.0 * f64::from(rim) / f64::from(RIMS) - 1.0));
        let ends = bearings.flat_map(|bearing| [near_m, far_m].map(|distance_m| eye.plus(Point::polar(distance_m, bearing))));
        let start = Point::new(f64::INFINITY, f64::INFINITY);
        let grow = |(low, high): (Point, Point), end: Point| {
            let least = Point::new(low.east_m.min(end.east_m), low.north_m.min(end.north_m));
            (least, Point::new(high.east_m.max(end.east_m), high.north_m.max(end.north_m)))
        };
        let (low, high) = ends.fold((start, start.times(-1.0)), grow);
        // Between two directions of the rim the arc bulges by 1 - cos(15°) at most.
        let margin_m = REACH_SPREADS * self.widest_m + 0.035 * far_m;
        let margin = Point::new(margin_m, margin_m);
        (low.minus(margin), high.plus(margin))
    }

    fn within(&self, (low, high): (Point, Point)) -> impl Iterator<Item = &Entry> {
        let (low, high) = (low.minus(self.south_west), high.minus(self.south_west));
        let columns = places(low.east_m, high.east_m, self.columns);
        let (first, after) = (columns.start, columns.end.max(columns.start));
        let start = |square: usize| self.starts.get(square).copied().unwrap_or(self.entries.len());
        let of_row = move |row: usize| self.entries.get(start(row * self.columns + first)..start(row * self.columns + after));
        places(low.north_m, high.north_m, self.rows).filter_map(of_row).flatten()
    }
}

/// The squares from one distance to another, of so many.
fn places(low_m: f64, high_m: f64, count: usize) -> Range<usize> {
    // A cast of a negative number gives 0.
    let bound = |squares: f64| (squares as usize).min(count);
    bound((low_m / SQUARE_M).floor())..bound((high_m / SQUARE_M).floor() + 1.0)
}

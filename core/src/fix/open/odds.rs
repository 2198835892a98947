//! The probability over the plane, in cells that are small where it changes.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::likelihood::Likelihood;
use super::scene::Bounds;
use crate::measure::{Covariance, Point};

/// Cells along the longer side of the area, before any is parted.
const FIRST_CELLS: f64 = 32.0;
/// A cell is parted as long as it may hide more than this share of the whole.
const HIDDEN_SHARE: f64 = 1e-4;
/// The same where the odds are only weighed against others.
const ROUGH_SHARE: f64 = 2e-3;
/// Most cells.
const MOST_CELLS: usize = 40_000;

/// A rectangle of the plane with one density.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// Its middle.
    pub at: Point,
    /// Its sides, metres east and north.
    pub sides: Point,
    /// Probability per square metre.
    pub per_m2: f64,
    /// How often it was parted, and its column and row at that size.
    pub(super) place: (u8, u32, u32),
}

/// The probability over the plane; all cells together hold 1.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenOdds {
    /// The cells, densest first. They cover the whole area.
    pub cells: Vec<Cell>,
    /// The likelihood, as a share of what it nowhere exceeds, summed over the area: how well everything was foretold, times square metres.
    pub(super) whole: f64,
}

impl Cell {
    /// Its area, square metres.
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        self.sides.east_m * self.sides.north_m
    }

    /// The probability that it holds.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.per_m2 * self.area_m2()
    }

    /// Whether a place lies in it.
    #[must_use]
    pub fn holds(&self, at: Point) -> bool {
        let step = at.minus(self.at);
        2.0 * step.east_m.abs() <= self.sides.east_m && 2.0 * step.north_m.abs() <= self.sides.north_m
    }

    fn corner(&self, quarter: u32) -> Point {
        let side = |bit: u32| if quarter & bit == 0 { -0.5 } else { 0.5 };
        self.at.plus(Point::new(self.sides.east_m * side(1), self.sides.north_m * side(2)))
    }

    /// Mean, variance and the rest of an even density over the cell are its middle and this.
    fn own_covariance(&self) -> Covariance {
        Covariance { east2: self.sides.east_m.powi(2) / 12.0, east_north: 0.0, north2: self.sides.north_m.powi(2) / 12.0 }
    }
}

/// A cell that may be parted, by how much it may hide.
struct Open {
    hides: f64,
    cell: Cell,
}

impl PartialEq for Open {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Open {}
impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Open {
    fn cmp(&self, other: &Self) -> Ordering {
        self.hides.total_cmp(&other.hides)
    }
}

fn opened(likelihood: &Likelihood<'_>, at: Point, sides: Point, place: (u8, u32, u32)) -> Open {
    let mut cell = Cell { at, sides, per_m2: likelihood.at(at), place };
    let corners = [0, 1, 2, 3].map(|quarter| cell.corner(quarter));
    let bound = likelihood.bound(at, sides.length_m() / 2.0, &corners);
    cell.per_m2 = cell.per_m2.min(f64::MAX);
    Open { hides: (bound - cell.per_m2).max(0.0) * cell.area_m2(), cell }
}

fn parted(likelihood: &Likelihood<'_>, whole: &Cell) -> [Open; 4] {
    let (depth, column, row) = whole.place;
    let sides = whole.sides.times(0.5);
    [0, 1, 2, 3].map(|quarter| {
        let at = whole.at.plus(whole.corner(quarter).minus(whole.at).times(0.5));
        opened(likelihood, at, sides, (depth + 1, 2 * column + (quarter & 1), 2 * row + (quarter >> 1)))
    })
}

fn first_cells(likelihood: &Likelihood<'_>, bounds: &Bounds) -> BinaryHeap<Open> {
    let across = bounds.across();
    let longer_m = across.east_m.max(across.north_m);
    let count = |side_m: f64| (side_m / longer_m * FIRST_CELLS).ceil().max(1.0);
    let (columns, rows) = (count(across.east_m), count(across.north_m));
    let sides = Point::new(across.east_m / columns, across.north_m / rows);
    let middle = |column: u32, row: u32| {
        bounds.low.plus(Point::new((f64::from(column) + 0.5) * sides.east_m, (f64::from(row) + 0.5) * sides.north_m))
    };
    let all = (0..rows as u32).flat_map(|row| (0..columns as u32).map(move |column| (column, row)));
    all.map(|(column, row)| opened(likelihood, middle(column, row), sides, (0, column, row))).collect()
}

impl OpenOdds {
    /// The odds over an area; nothing where nothing is possible.
    ///
    /// The cell that may hide most is parted first: what it holds is foretold from its middle, and what it may hold at most from
    /// how far every residual can fall within it.
    pub(super) fn over(likelihood: &Likelihood<'_>, bounds: &Bounds) -> Option<Self> {
        Self::hiding(HIDDEN_SHARE, likelihood, bounds)
    }

    /// The same in coarser cells: enough to weigh one explanation against another.
    pub(super) fn rough(likelihood: &Likelihood<'_>, bounds: &Bounds) -> Option<Self> {
        Self::hiding(ROUGH_SHARE, likelihood, bounds)
    }

    fn hiding(hidden_share: f64, likelihood: &Likelihood<'_>, bounds: &Bounds) -> Option<Self> {
        let mut open = first_cells(likelihood, bounds);
        let mut held: f64 = open.iter().map(|one| one.cell.share()).sum();
        while open.len() < MOST_CELLS && open.peek().is_some_and(|most| most.hides > hidden_share * held) {
            let Some(most) = open.pop() else { break };
            // Below 2^-28 of the first cells there is nothing to be told any more.
            if most.cell.place.0 >= 28 {
                open.push(Open { hides: 0.0, ..most });
                continue;
            }
            let parts = parted(likelihood, &most.cell);
            held += parts.iter().map(|part| part.cell.share()).sum::<f64>() - most.cell.share();
            open.extend(parts);
        }
        Self::normalised(open.into_iter().map(|one| one.cell).collect())
    }

    fn normalised(mut cells: Vec<Cell>) -> Option<Self> {
        let total: f64 = cells.iter().map(Cell::share).sum();
        if !(total.is_finite() && total > 0.0) {
            return None;
        }
        cells.iter_mut().for_each(|cell| cell.per_m2 /= total);
        cells.sort_by(|a, b| b.per_m2.total_cmp(&a.per_m2));
        Some(Self { cells, whole: total })
    }

    /// Density at a place, per square metre; 0 outside the area.
    #[must_use]
    pub fn density(&self, at: Point) -> f64 {
        self.cells.iter().find(|cell| cell.holds(at)).map_or(0.0, |cell| cell.per_m2)
    }

    /// The greatest density.
    #[must_use]
    pub fn peak(&self) -> f64 {
        self.cells.first().map_or(0.0, |cell| cell.per_m2)
    }

    /// The density above which the cells hold a share of the probability: the highest-density set.
    #[must_use]
    pub fn level_of_share(&self, share: f64) -> f64 {
        let mut held = 0.0;
        let reached = self.cells.iter().find(|cell| {
            held += cell.share();
            held >= share
        });
        reached.map_or(0.0, |cell| cell.per_m2)
    }

    /// The probability within so many sigmas of a place.
    #[must_use]
    pub fn within(&self, at: Point, covariance: Covariance, sigmas: f64) -> f64 {
        let inside = |cell: &&Cell| covariance.chi_square(cell.at.minus(at)).is_some_and(|square| square <= sigmas * sigmas);
        self.cells.iter().filter(inside).map(Cell::share).sum()
    }
}

/// Mean and covariance of some cells; nothing when they hold nothing.
pub(super) fn moments<'a>(cells: impl Iterator<Item = &'a Cell> + Clone) -> Option<(Point, Covariance)> {
    let total: f64 = cells.clone().map(Cell::share).sum();
    let weighted = |sum: Point, cell: &Cell| sum.plus(cell.at.times(cell.share() / total));
    let mean = cells.clone().fold(Point::default(), weighted);
    let spread = |sum: Covariance, cell: &Cell| {
        sum.plus(Covariance::outer(cell.at.minus(mean)).plus(cell.own_covariance()).times(cell.share() / total))
    };
    (total > 0.0).then(|| (mean, cells.fold(Covariance::default(), spread)))
}

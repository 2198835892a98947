//! The probability over the plane, cut into regions that stand apart.

use std::collections::{BTreeMap, HashMap};

use super::odds::{Cell, OpenOdds, moments};
use crate::measure::{Covariance, Point};

/// Places below this share of the greatest density are told together as "elsewhere": one reading is then plainly wrong.
const ELSEWHERE_PEAK: f64 = 0.01;
/// Regions below this share are not told.
const LEAST_SHARE: f64 = 0.001;

/// One of the regions in which one may stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Region {
    /// Probability of standing in it.
    pub share: f64,
    /// Its likeliest place.
    pub best: Point,
    /// The mean of the places in it.
    pub mean: Point,
    /// Their covariance.
    pub covariance: Covariance,
    /// Area of the part that belongs to the 50 % of all places, square metres.
    pub area_50_m2: f64,
    /// Its area, square metres: it belongs to the 95 % of all places.
    pub area_95_m2: f64,
    /// The greatest distance from the likeliest place to another of it, metres.
    pub reach_m: f64,
}

/// Of a normal distribution in the plane, what lies within its 95 % has this share of its variance: `1 - x/2·e^(-x/2) / 0.95` for
/// x = 5.991.
const WITHIN_95: f64 = 0.842_3;

impl Region {
    /// The covariance about the likeliest place, as wide as that of a normal distribution with the same 95 %.
    #[must_use]
    pub fn about_best(&self) -> Covariance {
        self.covariance.times(1.0 / WITHIN_95).plus(Covariance::outer(self.mean.minus(self.best)))
    }
}

/// The regions, likeliest first, and the density above which places belong to them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Regions {
    pub(super) regions: Vec<Region>,
    pub(super) level_95: f64,
    pub(super) level_50: f64,
    /// What all places of that density hold.
    pub(super) holds: f64,
    /// What lies below a hundredth of the peak.
    pub(super) elsewhere: f64,
}

pub(super) fn regions(odds: &OpenOdds) -> Regions {
    let floor = ELSEWHERE_PEAK * odds.peak();
    let near: f64 = odds.cells.iter().filter(|cell| cell.per_m2 >= floor).map(Cell::share).sum();
    // As on a line: the limits hold their share of the whole as long as less than that lies elsewhere.
    let share = |nominal: f64| if near > nominal { nominal } else { nominal * near };
    let (level_95, level_50) = (odds.level_of_share(share(0.95)).max(floor), odds.level_of_share(share(0.5)).max(floor));
    let inside: Vec<&Cell> = odds.cells.iter().take_while(|cell| cell.per_m2 >= level_95).collect();
    let mut regions: Vec<Region> = parts(&inside).iter().filter_map(|part| region(part, level_50)).collect();
    regions.retain(|region| region.share >= LEAST_SHARE);
    regions.sort_by(|a, b| b.share.total_cmp(&a.share));
    Regions { regions, level_95, level_50, holds: inside.iter().map(|cell| cell.share()).sum(), elsewhere: 1.0 - near }
}

fn region(cells: &[&Cell], level_50: f64) -> Option<Region> {
    let best = cells.first()?.at;
    let (mean, covariance) = moments(cells.iter().copied())?;
    let half = cells.iter().filter(|cell| cell.per_m2 >= level_50);
    Some(Region {
        share: cells.iter().map(|cell| cell.share()).sum(),
        best,
        mean,
        covariance,
        area_50_m2: half.map(|cell| cell.area_m2()).sum(),
        area_95_m2: cells.iter().map(|cell| cell.area_m2()).sum(),
        reach_m: cells.iter().map(|cell| cell.at.minus(best).length_m()).fold(0.0, f64::max),
    })
}

/// Cells that touch along a side belong together; the order within a part stays.
fn parts<'a>(cells: &[&'a Cell]) -> Vec<Vec<&'a Cell>> {
    let places: HashMap<(u8, u32, u32), usize> = cells.iter().enumerate().map(|(index, cell)| (cell.place, index)).collect();
    let mut heads: Vec<usize> = (0..cells.len()).collect();
    for (index, cell) in cells.iter().enumerate() {
        for neighbour in neighbours(cell.place).into_iter().filter_map(|place| found(&places, place)) {
            let (one, other) = (head(&mut heads, index), head(&mut heads, neighbour));
            if let Some(slot) = heads.get_mut(one.max(other)) {
                *slot = one.min(other);
            }
        }
    }
    let mut parts: BTreeMap<usize, Vec<&Cell>> = BTreeMap::new();
    for (index, cell) in cells.iter().enumerate() {
        parts.entry(head(&mut heads, index)).or_default().push(cell);
    }
    parts.into_values().collect()
}

fn neighbours((depth, column, row): (u8, u32, u32)) -> Vec<(u8, u32, u32)> {
    let beside = |value: u32| [value.checked_sub(1), value.checked_add(1)].into_iter().flatten();
    let columns = beside(column).map(move |column| (depth, column, row));
    columns.chain(beside(row).map(move |row| (depth, column, row))).collect()
}

/// The cell of this place, or the greater one that covers it; smaller ones find this one themselves.
fn found(places: &HashMap<(u8, u32, u32), usize>, place: (u8, u32, u32)) -> Option<usize> {
    let (depth, column, row) = place;
    (0..=depth).find_map(|up| places.get(&(depth - up, column >> up, row >> up)).copied())
}

fn head(heads: &mut [usize], mut index: usize) -> usize {
    while let Some(next) = heads.get(index).copied().filter(|next| *next != index) {
        // Half the way is left for the next search.
        let after = heads.get(next).copied().unwrap_or(next);
        if let Some(slot) = heads.get_mut(index) {
            *slot = after;
        }
        index = after;
    }
    index
}

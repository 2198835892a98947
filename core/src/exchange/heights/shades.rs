//! Shaded relief that comes as heights: told by the water that would stand in it.
//!
//! Water has cut the ground so that nearly all of it drains: on the measured grid of `tests/landforms` the hollows without an outlet are on
//! the mean 0.1 % as deep as the heights spread, 2 % with every fifth post alone or with noise of 3 m on hills of 100 m. A picture of the
//! same ground is bright on one side of each hill and dark on the other: read as heights, water would stand in it 20 to 30 % as deep, by
//! any direction of the light (measured on 27 November 2026).

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::HeightsFileError;
use crate::ground::Heights;

/// A picture's shades.
const SHADES: std::ops::RangeInclusive<f32> = 0.0..=255.0;
/// Posts farther apart than this, metres, leave out the valleys by which the ground between them drains.
const MOST_SPACING_M: f64 = 100.0;
/// So many posts in a row or column, at least, show whether ground drains; more than so many in all are thinned.
const LEAST_SIDE: usize = 32;
const MOST_POSTS: usize = 100_000;
/// Numbers that differ by less from post to post, root mean square, may be a plain and the errors of its heights, metres.
const LEAST_STEP: f64 = 3.0;
/// Mean depth of standing water against the spread of the heights from which on they are no ground: between the 2 % and the 20 % above.
const LEAST_DEPTH: f64 = 0.1;

/// Whether numbers are as those of a shaded picture. Tree tops and noise on a plain may be so too; ground is not.
///
/// # Errors
/// [`HeightsFileError`] where the grid has no coordinates in its middle.
pub(super) fn are_shades(heights: &Heights) -> Result<bool, HeightsFileError> {
    let (columns, rows) = (heights.layout().columns, heights.layout().rows);
    let (east_m, south_m) = heights.layout().spacing_in_middle_m().map_err(HeightsFileError::Grid)?;
    let known = || heights.values_m().iter().filter(|shade| !shade.is_nan());
    if columns.min(rows) < LEAST_SIDE || east_m.max(south_m) > MOST_SPACING_M || !known().all(|shade| SHADES.contains(shade)) {
        return Ok(false);
    }
    if step_of(heights) < LEAST_STEP {
        return Ok(false);
    }
    let thinned = heights.every((columns * rows).div_ceil(MOST_POSTS).isqrt()).map_err(HeightsFileError::Heights)?;
    Ok(depth_against_spread(&thinned) >= LEAST_DEPTH)
}

/// Root mean square of the differences along rows.
fn step_of(heights: &Heights) -> f64 {
    let pairs = heights.values_m().chunks(heights.layout().columns).flat_map(|row| row.iter().zip(row.iter().skip(1)));
    mean(pairs.map(|(a, b)| f64::from(a - b).powi(2))).sqrt()
}

/// The mean of numbers, voids left out; 0 of none.
fn mean(numbers: impl Iterator<Item = f64>) -> f64 {
    let (sum, count) = numbers.filter(|one| !one.is_nan()).fold((0.0, 0_u32), |(sum, count), one| (sum + one, count + 1));
    if count == 0 { 0.0 } else { sum / f64::from(count) }
}

/// A height in the order of heights.
#[derive(PartialEq)]
struct Level(f32);

impl Eq for Level {}

impl PartialOrd for Level {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Level {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

/// How deep water would stand on the mean, when every void and the border let it out, against the standard deviation of the heights.
///
/// # References
/// R. Barnes, C. Lehman and D. Mulla (2014), Priority-flood, Computers & Geosciences 62, 117-127 (from memory).
fn depth_against_spread(heights: &Heights) -> f64 {
    let (columns, rows, values) = (heights.layout().columns, heights.layout().rows, heights.values_m());
    let at = |post: usize| values.get(post).copied().unwrap_or(f32::NAN);
    let around = |post: usize| {
        let (column, row) = (post % columns, post / columns);
        let beside = move |row: usize| (column.saturating_sub(1)..=(column + 1).min(columns - 1)).map(move |column| row * columns + column);
        (row.saturating_sub(1)..=(row + 1).min(rows - 1)).flat_map(beside)
    };
    let is_outlet = |post: usize| {
        let (column, row) = (post % columns, post / columns);
        column == 0 || row == 0 || column + 1 == columns || row + 1 == rows || around(post).any(|other| at(other).is_nan())
    };
    let mut water: Vec<f32> = vec![f32::NAN; values.len()];
    let mut open = BinaryHeap::new();
    for post in (0..values.len()).filter(|post| !at(*post).is_nan() && is_outlet(*post)) {
        open.push(Reverse((Level(at(post)), post)));
        set(&mut water, post, at(post));
    }
    while let Some(Reverse((Level(level), post))) = open.pop() {
        for other in around(post) {
            let is_new = !at(other).is_nan() && water.get(other).is_some_and(|level| level.is_nan());
            if is_new {
                let level = level.max(at(other));
                set(&mut water, other, level);
                open.push(Reverse((Level(level), other)));
            }
        }
    }
    let depth = mean(water.iter().zip(values).map(|(level, height)| f64::from(level - height)));
    let middle = mean(values.iter().map(|height| f64::from(*height)));
    let spread = mean(values.iter().map(|height| (f64::from(*height) - middle).powi(2))).sqrt();
    if spread > 0.0 { depth / spread } else { 0.0 }
}

fn set(water: &mut [f32], post: usize, level: f32) {
    if let Some(place) = water.get_mut(post) {
        *place = level;
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

    use std::f64::consts::TAU;

    use super::{are_shades, depth_against_spread};
    use crate::ground::{HeightSpread, Heights, Lattice, Layout};

    const SIDE: usize = 60;

    /// Posts 31 m apart, by east and south in posts.
    fn of(height: impl Fn(f64, f64) -> f64) -> Heights {
        let layout = Layout {
            lattice: Lattice::Geographic,
            columns: SIDE,
            rows: SIDE,
            west: 14.0,
            north: 46.0,
            step_east: 4e-4,
            step_south: 2.8e-4,
        };
        let place = |post: usize| (f64::from(u32::try_from(post % SIDE).unwrap()), f64::from(u32::try_from(post / SIDE).unwrap()));
        let values = (0..SIDE * SIDE).map(place).map(|(east, south)| height(east, south) as f32).collect();
        Heights::new(layout, HeightSpread { sigma_m: 5.0, correlation_m: 300.0 }, values).unwrap()
    }

    /// Valleys that drain to the south between ridges, side valleys between spurs: 75 m of relief, posts to 15 m apart in height.
    fn hills(east: f64, south: f64) -> f64 {
        let (across, along) = ((east * TAU / 20.0).cos(), (south * TAU / 12.0).cos());
        180.0 - 1.5 * south + 25.0 * across + 12.0 * along * (1.0 + across)
    }

    /// 255 times the cosine between the ground's normal and a light half-way up in the north-west: the usual formula of shaded relief.
    fn shade(east: f64, south: f64) -> f64 {
        let slope = |a: f64, b: f64| (a - b) / 62.0;
        let to_east = slope(hills(east + 1.0, south), hills(east - 1.0, south));
        let to_south = slope(hills(east, south + 1.0), hills(east, south - 1.0));
        let steep2 = to_east * to_east + to_south * to_south;
        (255.0 * (1.0 + to_east + to_south) / (2.0 + 2.0 * steep2).sqrt()).clamp(0.0, 255.0)
    }

    #[test]
    fn the_shades_of_hills_are_told_and_the_hills_are_not() {
        assert!(!are_shades(&of(hills)).unwrap(), "{}", depth_against_spread(&of(hills)));
        assert!(are_shades(&of(shade)).unwrap(), "{}", depth_against_spread(&of(shade)));
        assert!(!are_shades(&of(|east, south| 2.0 * shade(east, south))).unwrap(), "beyond 255 they are no shades");
    }

    /// By hand: a pit 8 deep on a plane of 10, one post of 3600; spread 8/60 to the third place.
    #[test]
    fn water_stands_where_nothing_drains_it() {
        let pit = of(|east, south| if (east - 30.0).hypot(south - 30.0) < 0.5 { 2.0 } else { 10.0 });
        assert!((depth_against_spread(&pit) - (8.0 / 3600.0) / (8.0 / 60.0)).abs() < 1e-4);
        let drained = of(|east, south| if (south - 30.0).abs() < 0.5 && east > 20.0 { 2.0 } else { 10.0 });
        assert!(depth_against_spread(&drained).abs() < 1e-9);
    }
}

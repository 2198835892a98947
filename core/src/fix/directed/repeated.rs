//! Several readings of one thing, all made here: what they say together of a bearing is the same at every place.

use super::Reading;
use crate::fix::bell::Bell;
use crate::measure::{normal_density, normal_nodes};

/// Entries of the table to one sigma of the sharpest reading: a cubic between their logarithms is then exact to 2e-5 for each reading.
const TO_A_SIGMA: f64 = 12.0;
/// Beyond so many of its sigmas a reading leaves only the chance of a wrong one.
const NOTHING_SIGMAS: f64 = 9.0;
/// A map error of at most this share of the spread that the readings leave together is small: three nodes sum it out to 3e-4 within
/// four of those spreads, and to 4 % where readings of one thing lie seven of them off.
pub(super) const SMALL_SHARE: f64 = 0.25;
/// Nodes over the map error where the readings share no other.
const MAP_NODES: (f64, f64) = (9.0, 201.0);
/// The map error is summed over so many of its sigmas to either side ...
const MAP_SIGMAS: f64 = 4.5;
/// ... in steps of which so many make a sigma, at the least.
const STEPS_TO_A_SIGMA: f64 = 1.5;

/// The likelihood of several readings of one thing, for each turn of the first of them from the thing's bearing.
#[derive(Debug, Clone)]
pub(in crate::fix) struct Repeated {
    /// The first of them; what is left when it is left out is still told by it.
    pub(super) lead: Reading,
    readings: Vec<One>,
    /// The turn of the first entry but one, and from one entry to the next, degrees.
    low_deg: f64,
    step_deg: f64,
    /// Natural logarithms, as multiples of "all are plainly wrong"; nothing beyond.
    ln: Vec<f64>,
    wrong: f64,
}

/// One of the readings.
#[derive(Debug, Clone, Copy)]
struct One {
    sighting: usize,
    /// By how much it is turned from the first, degrees.
    turned_deg: f64,
    own_deg: f64,
}

impl One {
    fn ln_at(self, first_deg: f64, wrong: f64) -> f64 {
        Bell::new(self.own_deg, 360.0, wrong).at(first_deg + self.turned_deg).ln_1p()
    }
}

impl Repeated {
    /// Nothing for one reading, for readings made before a run, and for those that different norths turn apart along the line.
    pub(super) fn of(readings: &[Reading], wrong: f64) -> Option<Self> {
        let (lead, _) = readings.split_first().filter(|(_, others)| !others.is_empty())?;
        let one = |reading: &Reading| {
            let turned_deg = reading.turned_from(lead)?;
            Some(One { sighting: reading.sighting, turned_deg, own_deg: reading.own_deg })
        };
        let all: Vec<One> = readings.iter().map(one).collect::<Option<_>>()?;
        let sharpest_deg = all.iter().map(|one| one.own_deg).fold(f64::INFINITY, f64::min);
        let reach = |one: &One| (-one.turned_deg - NOTHING_SIGMAS * one.own_deg, -one.turned_deg + NOTHING_SIGMAS * one.own_deg);
        let low_deg = all.iter().map(|one| reach(one).0).fold(f64::INFINITY, f64::min);
        let high_deg = all.iter().map(|one| reach(one).1).fold(f64::NEG_INFINITY, f64::max);
        let width_deg = (high_deg - low_deg).min(360.0);
        let count = (width_deg * TO_A_SIGMA / sharpest_deg).ceil().max(4.0);
        let step_deg = width_deg / count;
        let mut found = Self { lead: lead.clone(), readings: all, low_deg, step_deg, ln: vec![0.0; count as usize + 3], wrong };
        for one in found.readings.clone() {
            found.count(one, 1.0);
        }
        Some(found)
    }

    /// Those that are left without one sighting; nothing when fewer than two are.
    pub(super) fn without(&self, sighting: usize) -> Option<Self> {
        let mut rest = self.clone();
        rest.readings.retain(|one| one.sighting != sighting);
        for gone in self.readings.iter().filter(|one| one.sighting == sighting) {
            rest.count(*gone, -1.0);
        }
        (rest.readings.len() > 1).then_some(rest)
    }

    fn count(&mut self, one: One, times: f64) {
        for (index, ln) in self.ln.iter_mut().enumerate() {
            *ln += times * one.ln_at(self.low_deg + (index as f64 - 1.0) * self.step_deg, self.wrong);
        }
    }

    /// The farthest that one of them is turned from the first, degrees.
    pub(super) fn widest_deg(&self) -> f64 {
        self.readings.iter().map(|one| one.turned_deg.abs()).fold(0.0, f64::max)
    }

    /// How much more likely than plainly wrong ones all are when the first is turned by so much from the bearing of what was sighted.
    fn above(&self, first_deg: f64) -> f64 {
        let entry = (first_deg - self.low_deg).rem_euclid(360.0) / self.step_deg;
        let before = entry as usize;
        let Some(&[a, b, c, d]) = self.ln.get(before..before + 4) else { return 0.0 };
        let x = entry - before as f64;
        let cubic = -x * (x - 1.0) * (x - 2.0) / 6.0 * a + (x + 1.0) * (x - 1.0) * (x - 2.0) / 2.0 * b
            - (x + 1.0) * x * (x - 2.0) / 2.0 * c
            + (x + 1.0) * x * (x - 1.0) / 6.0 * d;
        cubic.exp_m1()
    }

    /// Adds that for each node of the shared error, the map's error summed out, when the first is turned by so much.
    pub(in crate::fix) fn add(&self, first_deg: f64, map_deg: f64, weight: f64, nodes: &[(f64, f64)], given: &mut [f64]) {
        let sharpest_deg = self.readings.iter().map(|one| one.own_deg).fold(f64::INFINITY, f64::min) / (self.readings.len() as f64).sqrt();
        match nodes {
            [(first, _), (second, _), ..] if map_deg > SMALL_SHARE * sharpest_deg => {
                self.add_on_lattice((first_deg - first, second - first), map_deg, weight, given);
            }
            _ => {
                let map_nodes = map_nodes(map_deg, sharpest_deg);
                for (given, (shared_deg, _)) in given.iter_mut().zip(nodes) {
                    let above = |(map_deg, share): &(f64, f64)| share * self.above(first_deg - shared_deg - map_deg);
                    *given += weight * map_nodes.iter().map(above).sum::<f64>();
                }
            }
        }
    }

    /// The nodes of both errors lie on one lattice: each of its places is looked up once.
    fn add_on_lattice(&self, (start_deg, step_deg): (f64, f64), map_deg: f64, weight: f64, given: &mut [f64]) {
        let parts = (STEPS_TO_A_SIGMA * step_deg / map_deg).ceil().max(1.0);
        let fine_deg = step_deg / parts;
        let (parts, side) = (parts as usize, (MAP_SIGMAS * map_deg / fine_deg).ceil() as usize);
        let map: Vec<f64> = (0..=2 * side).map(|node| normal_density((node as f64 - side as f64) * fine_deg, map_deg) * fine_deg).collect();
        let total: f64 = map.iter().sum();
        for place in 0..=(given.len().saturating_sub(1) * parts + 2 * side) {
            let above = self.above(start_deg - (place as f64 - side as f64) * fine_deg);
            if above <= 0.0 {
                continue;
            }
            let (above, first) = (weight * above / total, place.saturating_sub(2 * side).div_ceil(parts));
            for (node, given) in given.iter_mut().enumerate().take(place / parts + 1).skip(first) {
                *given += above * map.get(place - node * parts).copied().unwrap_or(0.0);
            }
        }
    }
}

/// Nodes over the map error beside readings that together spread by so much.
///
/// # References
/// Gauss and Hermite's three nodes where it is small (Abramowitz and Stegun 1964, 25.4.46).
pub(in crate::fix) fn map_nodes(map_deg: f64, sharpest_deg: f64) -> Vec<(f64, f64)> {
    if map_deg <= SMALL_SHARE * sharpest_deg {
        let off_deg = 3f64.sqrt() * map_deg;
        return vec![(-off_deg, 1.0 / 6.0), (0.0, 2.0 / 3.0), (off_deg, 1.0 / 6.0)];
    }
    let count = (18.0 * map_deg / sharpest_deg).clamp(MAP_NODES.0, MAP_NODES.1);
    normal_nodes(map_deg, count as usize)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

    use super::{Bell, Reading, Repeated, SMALL_SHARE, map_nodes, normal_nodes};

    /// The sum over both errors as it is defined, by many nodes each.
    fn defined(read_deg: &[f64], own_deg: f64, map_deg: f64, shared_deg: f64) -> f64 {
        let bell = Bell::new(own_deg, 360.0, 0.02);
        let given = |map_deg: f64| read_deg.iter().map(|deg| 1.0 + bell.at(deg - shared_deg - map_deg)).product::<f64>();
        normal_nodes(map_deg, 2_001).into_iter().map(|(map_deg, share)| share * given(map_deg)).sum()
    }

    #[test]
    fn many_readings_of_a_vague_thing_are_summed_as_one_table() {
        let own_deg = 2.6;
        for (read_deg, count) in
            [(vec![31.0, 33.5], 13), (vec![-178.0, 179.0, -179.5, 176.0], 25), (vec![4.0; 40], 61), (vec![5.0, 140.0, 7.0], 19)]
        {
            let readings: Vec<Reading> = read_deg.iter().enumerate().map(|(index, deg)| Reading::of_plane(index, *deg, own_deg)).collect();
            let repeated = Repeated::of(&readings, 0.02).unwrap();
            let nodes = normal_nodes(1.8, count);
            for map_deg in [0.1, 0.4, 2.0, 14.0] {
                let mut given = vec![1.0; nodes.len()];
                repeated.add(*read_deg.first().unwrap(), map_deg, 1.0, &nodes, &mut given);
                // Where both errors are summed, not at every node for itself.
                let sum = |given: &dyn Fn(usize, f64) -> f64| {
                    nodes.iter().enumerate().map(|(index, (deg, share))| share * given(index, *deg)).sum::<f64>()
                };
                let (told, meant) = (sum(&|index, _| given[index]), sum(&|_, deg| defined(&read_deg, own_deg, map_deg, deg)));
                assert!((told / meant - 1.0).abs() < 4e-3, "{read_deg:?} {map_deg}: {told} {meant}");
            }
            let rest = Repeated::of(&readings[1..], 0.02);
            if let (Some(rest), Some(left)) = (rest, repeated.without(0)) {
                let turned_deg = read_deg[1] - read_deg[0];
                for deg in [-3.0, 0.0, 0.7, 5.0] {
                    let (told, meant) = (left.above(deg), rest.above(deg + turned_deg));
                    assert!((told - meant).abs() <= 1e-3 * (1.0 + meant), "{deg}: {told} {meant}");
                }
            }
        }
    }

    #[test]
    fn three_nodes_sum_a_small_map_error_out() {
        let own = 2.6;
        for (readings, within) in
            [(vec![0.5, -1.0], 3e-4), (vec![6.0, 5.0, 5.5], 3e-4), (vec![4.0, 3.0, 4.5, 3.5], 3e-4), (vec![9.0, 8.0, 7.0, 9.5], 0.04)]
        {
            let map = SMALL_SHARE * own / (readings.len() as f64).sqrt();
            let bell = Bell::new(own, 360.0, 0.02);
            let given = |map_deg: f64| readings.iter().map(|deg| 1.0 + bell.at(deg - map_deg)).product::<f64>();
            let sum = |nodes: Vec<(f64, f64)>| nodes.into_iter().map(|(map_deg, weight)| weight * given(map_deg)).sum::<f64>();
            let (few, many) = (sum(map_nodes(map, own / (readings.len() as f64).sqrt())), sum(normal_nodes(map, 201)));
            assert!((few / many - 1.0).abs() < within, "{readings:?}: {few} {many}");
        }
    }
}

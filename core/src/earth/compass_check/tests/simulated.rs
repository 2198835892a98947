//! Simulated checks whose truth is known.

use super::{Pair, check, known, pair, readings};
use crate::earth::compass_check::{Verdict, check_compass};
use crate::measure::{LINE_95, signed_difference_deg, wrap_deg};

/// Numbers as good as normal for these tests, the same on every machine: a multiplicative generator and twelve sums.
struct Dice(u64);

impl Dice {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self, sigma: f64) -> f64 {
        sigma * ((0..12).map(|_| self.uniform()).sum::<f64>() - 6.0)
    }
}

/// Share of 2,000 simulated checks in which the told 95 % held the truth.
fn share(trials: u32, mut held: impl FnMut(&mut Dice) -> bool) -> f64 {
    let mut dice = Dice(20_261_125);
    (0..trials).filter(|_| held(&mut dice)).count() as f64 / f64::from(trials)
}

fn holds_shared_error(dice: &mut Dice, count: usize, believed_deg: f64) -> bool {
    let (error, common) = (dice.normal(3.0), dice.normal(0.4));
    let one = |dice: &mut Dice| {
        let bearing = 360.0 * dice.uniform();
        known("P", bearing + error + dice.normal(1.5), bearing + common)
    };
    let all = (0..count).map(|_| one(dice)).collect();
    let mut given = readings(all, vec![], believed_deg);
    given.declination_spread_deg = 0.4;
    let shared = check_compass(&given).expect("check").shared.expect("shared");
    (shared.error_deg - error).abs() <= shared.half_width_95_deg
}

#[test]
fn the_told_95_percent_hold_the_shared_error() {
    for (count, believed_deg) in [(1, 1.5), (2, 1.5), (3, 1.5), (8, 1.5), (8, 4.0), (20, 1.0)] {
        let held = share(2_000, |dice| holds_shared_error(dice, count, believed_deg));
        assert!((held - 0.95).abs() < 0.02, "{count} readings: {held}");
    }
}

/// Five clean stations in a row, then two that are turned; every line read from both ends.
fn simulated(dice: &mut Dice, attraction: [f64; 2]) -> Vec<Pair> {
    let names = ["A", "B", "C", "D", "E", "F", "G"];
    let at = [0.0, 0.0, 0.0, 0.0, 0.0, attraction[0], attraction[1]];
    let ends = [(0, 1), (1, 2), (2, 3), (3, 4), (0, 2), (4, 5), (3, 5), (5, 6), (2, 6)];
    ends.iter()
        .map(|(i, j)| {
            let bearing = 360.0 * dice.uniform();
            let (fore, back) = (bearing + at[*i] + dice.normal(1.0), bearing + 180.0 + at[*j] + dice.normal(1.0));
            pair(names[*i], names[*j], wrap_deg(fore), wrap_deg(back))
        })
        .collect()
}

#[test]
fn the_told_spread_of_attraction_holds_it() {
    let attraction = [9.0, -7.0];
    let held = share(2_000, |dice| {
        let check = check(vec![], simulated(dice, attraction), 1.0);
        let station = &check.stations[5];
        (station.attraction_deg - attraction[0]).abs() <= LINE_95 * station.spread_deg
    });
    assert!((held - 0.95).abs() < 0.02, "{held}");
}

#[test]
fn clean_stations_are_seldom_accused_and_turned_ones_found() {
    let attraction = [9.0, -7.0];
    let found = share(2_000, |dice| {
        let check = check(vec![], simulated(dice, attraction), 1.0);
        let turned: Vec<bool> = check.stations.iter().map(|station| station.verdict == Verdict::Attracted).collect();
        turned == [false, false, false, false, false, true, true]
    });
    assert!(found > 0.95, "{found}");
}

/// A corrected line is as sure as it says, where the attraction is plain. One as large as the limit of agreement is often
/// not seen and then bends the line by half of itself.
#[test]
fn the_told_spread_of_a_corrected_line_holds_it() {
    let held = share(2_000, |dice| {
        let (bearing, turned) = (360.0 * dice.uniform(), 15.0 + dice.normal(1.0));
        let mut read = |degrees: f64| wrap_deg(degrees + dice.normal(1.0));
        let clean = pair("A", "B", read(40.0), read(220.0));
        let line = pair("B", "C", read(bearing), read(bearing + 180.0 + turned));
        let check = check(vec![], vec![clean, line], 1.0);
        let told = check.lines[1].corrected.map(|told| signed_difference_deg(told.degrees(), bearing).abs());
        told.is_none_or(|off| off <= LINE_95 * check.lines[1].spread_deg)
    });
    assert!((held - 0.95).abs() < 0.02, "{held}");
}

/// Two clean pairs, two attracted stations between them, every line once: nothing but the carrying on joins the pairs.
fn parted(dice: &mut Dice, at: [f64; 6]) -> Vec<Pair> {
    let names = ["A", "B", "C", "D", "E", "F"];
    let line = |(i, j): (usize, usize)| {
        let bearing = 360.0 * dice.uniform();
        let (fore, back) = (bearing + at[i] + dice.normal(1.0), bearing + 180.0 + at[j] + dice.normal(1.0));
        pair(names[i], names[j], wrap_deg(fore), wrap_deg(back))
    };
    [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5)].map(line).to_vec()
}

/// Two pairs agree in 99 % of checks, and each of the two lines in them; the attracted ones are plain.
#[test]
fn clean_pairs_far_apart_are_found_and_the_stations_between_told() {
    let at = [0.0, 0.0, 25.0, -20.0, 0.0, 0.0];
    let found = share(2_000, |dice| {
        let verdicts = check(vec![], parted(dice, at), 1.0).stations.into_iter().map(|station| station.verdict == Verdict::Attracted);
        verdicts.eq([false, false, true, true, false, false])
    });
    assert!(found > 0.95, "{found}");
    let held = share(2_000, |dice| {
        let told = check(vec![], parted(dice, at), 1.0).stations[2].clone();
        told.verdict == Verdict::NotToBeTold || (told.attraction_deg - at[2]).abs() <= LINE_95 * told.spread_deg
    });
    assert!((held - 0.95).abs() < 0.02, "{held}");
}

/// Pairs turned against each other by more than the lines between them scatter are left open, neither is accused.
#[test]
fn pairs_that_contradict_each_other_are_left_open() {
    let at = [0.0, 0.0, 40.0, -20.0, 15.0, 15.0];
    let open = share(2_000, |dice| check(vec![], parted(dice, at), 1.0).stations.iter().all(|s| s.verdict == Verdict::NotToBeTold));
    assert!(open > 0.95, "{open}");
}

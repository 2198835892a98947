//! Simulated checks whose truth is known.

use super::{CompassReadings, Pair, check, known, pair, readings};
use crate::earth::compass_check::{Station, Verdict, check_compass};
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

/// Whether the told 95 % hold the attraction, or none are told.
fn holds(station: &Station, truth_deg: f64) -> bool {
    station.attraction.is_none_or(|told| (told.deg - truth_deg).abs() <= LINE_95 * told.spread_deg)
}

#[test]
fn the_told_spread_of_attraction_holds_it() {
    let attraction = [9.0, -7.0];
    let held = share(2_000, |dice| {
        let check = check(vec![], simulated(dice, attraction), 1.0);
        let station = &check.stations[5];
        holds(station, attraction[0])
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
        holds(&told, at[2])
    });
    assert!((held - 0.95).abs() < 0.02, "{held}");
}

/// Pairs turned against each other by more than the lines between them scatter: four of six stations are turned, two of them
/// alike. That a line was misread explains it as well, so that what is called clean here may not be; nobody is accused wrongly.
#[test]
fn pairs_that_contradict_each_other_are_left_open() {
    let at = [0.0, 0.0, 40.0, -20.0, 15.0, 15.0];
    let verdicts = |dice: &mut Dice| {
        let stations = check(vec![], parted(dice, at), 1.0).stations;
        [0, 1, 4, 5].map(|number: usize| stations[number].verdict)
    };
    let open = share(1_000, |dice| verdicts(dice) == [Verdict::NotToBeTold; 4]);
    assert!(open > 0.78, "{open}");
    let accused = share(1_000, |dice| verdicts(dice).contains(&Verdict::Attracted));
    assert!(accused < 0.01, "{accused}");
}

/// Five stations, every line between them read from both ends, one known bearing at each; one is turned.
fn five(dice: &mut Dice, lines: &[(usize, usize)], turned_deg: f64, spread_deg: f64, known_each: usize) -> CompassReadings {
    let names = ["A", "B", "C", "D", "E"];
    let at = |station: usize| if station == 2 { turned_deg } else { 0.0 };
    let line = |(i, j): &(usize, usize)| {
        let bearing = 360.0 * dice.uniform();
        let (fore, back) = (bearing + at(*i) + dice.normal(spread_deg), bearing + 180.0 + at(*j) + dice.normal(spread_deg));
        pair(names[*i], names[*j], wrap_deg(fore), wrap_deg(back))
    };
    let pairs = lines.iter().map(line).collect();
    let one = |number: usize| {
        let bearing = 360.0 * dice.uniform();
        known(names[number % 5], bearing + 2.0 + at(number % 5) + dice.normal(spread_deg), bearing)
    };
    readings((0..5 * known_each).map(one).collect(), pairs, spread_deg)
}

/// What 1,000 simulated checks made of station C, turned, and of the others, free: shares of them.
#[derive(Debug)]
struct Told {
    named: f64,
    called_clean: f64,
    others_accused: f64,
    held: f64,
    shared_held: f64,
    shared_off_deg: f64,
}

fn told(lines: &[(usize, usize)], turned_deg: f64, spread_deg: f64, known_each: usize) -> Told {
    const TRIALS: usize = 1_000;
    let mut dice = Dice(20_261_125);
    let checks: Vec<_> =
        (0..TRIALS).map(|_| check_compass(&five(&mut dice, lines, turned_deg, spread_deg, known_each)).expect("check")).collect();
    let part = |count: usize| count as f64 / TRIALS as f64;
    let turned_is = |verdict| part(checks.iter().filter(|check| check.stations[2].verdict == verdict).count());
    let others = checks.iter().flat_map(|check| check.stations.iter().enumerate().filter(|(number, _)| *number != 2));
    let shared: Vec<_> = checks.iter().filter_map(|check| check.shared).collect();
    Told {
        named: turned_is(Verdict::Attracted),
        called_clean: turned_is(Verdict::Clean),
        others_accused: part(others.filter(|(_, station)| station.verdict == Verdict::Attracted).count()) / 4.0,
        held: part(checks.iter().filter(|check| holds(&check.stations[2], turned_deg)).count()),
        shared_held: part(shared.iter().filter(|shared| (shared.error_deg - 2.0).abs() <= shared.half_width_95_deg).count()),
        shared_off_deg: shared.iter().map(|shared| shared.error_deg - 2.0).sum::<f64>() / shared.len().max(1) as f64,
    }
}

/// What is read: its name, lines, spread of a reading, known bearings at each station; and the least shares.
type Design<'a> = (&'a str, &'a [(usize, usize)], f64, usize, [f64; 3]);

/// The figures told in [`check_compass`]: least share that must be named, by degrees turned.
#[test]
fn one_turned_station_of_five() {
    let chain: Vec<(usize, usize)> = (0..4).map(|i| (i, i + 1)).collect();
    let ring: Vec<(usize, usize)> = (0..5).map(|i| (i, (i + 1) % 5)).collect();
    let all: Vec<(usize, usize)> = (0..5).flat_map(|i| (i + 1..5).map(move |j| (i, j))).collect();
    let designs: [Design; 6] = [
        ("chain", &chain, 1.5, 0, [0.20, 0.83, 0.98]),
        ("every line", &all, 1.5, 0, [0.70, 0.98, 0.99]),
        ("every line, baseplate", &all, 2.5, 0, [0.13, 0.66, 0.98]),
        ("ring and known", &ring, 1.5, 1, [0.68, 0.98, 0.99]),
        ("one known each", &[], 1.5, 1, [0.16, 0.78, 0.98]),
        ("four known each, baseplate", &[], 2.5, 4, [0.42, 0.94, 0.99]),
    ];
    for (design, lines, spread_deg, known_each, least) in designs {
        for (turned_deg, least) in [5.0, 8.0, 12.0].into_iter().zip(least) {
            let told = told(lines, turned_deg, spread_deg, known_each);
            assert!(told.named >= least && told.called_clean <= 0.09 && told.others_accused <= 0.005, "{design}, {turned_deg}: {told:?}");
            assert!(turned_deg < 8.0 || told.called_clean <= 0.01, "{design}, {turned_deg}: {told:?}");
            assert!(told.held >= 0.92, "{design}, {turned_deg}: {told:?}");
            assert!(known_each == 0 || told.shared_held >= 0.92 && told.shared_off_deg < 0.6, "{design}, {turned_deg}: {told:?}");
        }
        let free = told(lines, 0.0, spread_deg, known_each);
        assert!(free.named <= 0.005 && free.others_accused <= 0.005, "{design}: {free:?}");
    }
}

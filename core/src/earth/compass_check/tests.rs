//! The worked example of the trade, the circle, and simulated checks whose truth is known.

#![allow(clippy::expect_used, clippy::panic, clippy::float_cmp, clippy::indexing_slicing, reason = "a test may stop where it fails")]

use super::{CompassCheck, CompassCheckError, CompassReadings, KnownReading, Pair, Untold, Verdict, check_compass};
use crate::measure::{LINE_95, wrap_deg};

fn dm(degrees: i32, minutes: i32) -> f64 {
    f64::from(degrees) + f64::from(minutes) / 60.0
}

fn pair(from: &str, to: &str, fore_deg_mag: f64, back_deg_mag: f64) -> Pair {
    Pair { from: from.into(), to: to.into(), fore_deg_mag, back_deg_mag }
}

fn known(station: &str, read_deg_mag: f64, known_deg_mag: f64) -> KnownReading {
    KnownReading { station: station.into(), read_deg_mag, known_deg_mag, known_spread_deg: 0.0 }
}

fn readings(known: Vec<KnownReading>, pairs: Vec<Pair>, reading_spread_deg: f64) -> CompassReadings {
    CompassReadings { known, pairs, reading_spread_deg, shared_known_spread_deg: 0.0 }
}

fn check(known: Vec<KnownReading>, pairs: Vec<Pair>, reading_spread_deg: f64) -> CompassCheck {
    check_compass(&readings(known, pairs, reading_spread_deg)).expect("check")
}

fn verdicts(check: &CompassCheck) -> Vec<(&str, Verdict)> {
    check.stations.iter().map(|station| (station.name.as_str(), station.verdict)).collect()
}

/// The traverse of the worked example: bearings read to 2 minutes at A to E.
fn traverse() -> Vec<Pair> {
    vec![
        pair("A", "B", dm(44, 40), dm(225, 20)),
        pair("B", "C", dm(96, 20), dm(274, 18)),
        pair("C", "D", dm(30, 40), dm(212, 2)),
        pair("D", "E", dm(320, 12), dm(140, 12)),
    ]
}

/// Corrections at B -0°40′ and at C +1°22′; corrected bearings 44°40′, 95°40′, 32°02′, 320°12′.
///
/// # References
/// A worked example of compass surveying, correction of local attraction; a page of teaching that names no author.
#[test]
fn the_worked_example_to_the_printed_minute() {
    let check = check(vec![], traverse(), 0.05);
    let attraction: Vec<f64> = check.stations.iter().map(|station| (station.attraction_deg * 60.0).round()).collect();
    assert_eq!(attraction, [0.0, 40.0, -82.0, 0.0, 0.0]);
    use Verdict::{Attracted, Clean};
    assert_eq!(verdicts(&check), [("A", Clean), ("B", Attracted), ("C", Attracted), ("D", Clean), ("E", Clean)]);
    let minutes = |line: &super::CorrectedLine| (line.corrected.expect("told").degrees() * 60.0).round();
    let corrected: Vec<f64> = check.lines.iter().map(minutes).collect();
    assert_eq!(corrected, [dm(44, 40), dm(95, 40), dm(32, 2), dm(320, 12)].map(|degrees| (degrees * 60.0).round()));
    assert_eq!(check.untold, [Untold::NoKnownBearing]);
}

/// The same traverse turned round the circle in steps gives the same attractions.
#[test]
fn the_example_turned_through_north() {
    for turn in 0..36 {
        let turned = |degrees: f64| wrap_deg(degrees + 10.0 * f64::from(turn));
        let pairs = traverse().into_iter().map(|p| pair(&p.from, &p.to, turned(p.fore_deg_mag), turned(p.back_deg_mag)));
        let check = check(vec![], pairs.collect(), 0.05);
        let attraction: Vec<f64> = check.stations.iter().map(|station| (station.attraction_deg * 60.0).round() + 0.0).collect();
        assert_eq!(attraction, [0.0, 40.0, -82.0, 0.0, 0.0], "{turn}");
        let bearing = check.lines[1].corrected.expect("told").degrees();
        assert!((wrap_deg(bearing - turned(dm(95, 40)) + 180.0) - 180.0).abs() < 1e-9);
    }
}

/// Readings of 359, 1 and 0 of a bearing of 357 share an error of 3 degrees and scatter by 1.
#[test]
fn the_shared_error_across_north() {
    let check = check(vec![known("P", 359.0, 357.0), known("P", 1.0, 357.0), known("P", 0.0, 357.0)], vec![], 2.0);
    let shared = check.shared.expect("shared");
    assert!((shared.error_deg - 3.0).abs() < 1e-9 && shared.readings == 3);
    assert!((check.reading.spread_deg - 1.0).abs() < 1e-9 && check.reading.freedom == 2);
    assert!((shared.spread_deg - 1.0 / 3f64.sqrt()).abs() < 1e-9);
    assert!((shared.half_width_95_deg - 4.302_65 / 3f64.sqrt()).abs() < 1e-9);
    assert!(check.untold.is_empty());
}

/// A needle read at its wrong end is a shared error of half a circle, not of nothing.
#[test]
fn the_wrong_end_of_the_needle() {
    let check = check(vec![known("P", 271.0, 90.0), known("P", 269.0, 90.0)], vec![], 2.0);
    assert!((check.shared.expect("shared").error_deg.abs() - 180.0).abs() < 1e-9);
}

#[test]
fn what_known_bearings_share_is_counted_once() {
    let mut given = readings((0..16).map(|i| known("P", 90.0 + f64::from(i % 2), 90.0)).collect(), vec![], 2.0);
    given.shared_known_spread_deg = 0.3;
    let check = check_compass(&given).expect("check");
    let own = check.reading.spread_deg / 4.0;
    assert!((check.shared.expect("shared").spread_deg - own.hypot(0.3)).abs() < 1e-12);
}

/// Known bearings at an attracted station say nothing of the compass; clean and unjudged stations do.
#[test]
fn only_clean_or_unjudged_stations_speak_of_the_compass() {
    let known = vec![known("B", 13.0, 10.0), known("A", 11.0, 10.0), known("elsewhere", 52.0, 50.0)];
    let pairs = vec![pair("A", "C", 30.0, 210.0), pair("A", "B", 90.0, 278.0)];
    let check = check(known, pairs, 1.0);
    let shared = check.shared.expect("shared");
    assert_eq!((shared.error_deg, shared.readings), (1.5, 2));
}

#[test]
fn what_cannot_be_told_is_said() {
    let none = check(vec![], vec![], 1.0);
    assert_eq!((none.shared, none.untold), (None, vec![Untold::NoReadings]));
    let one = check(vec![known("A", 12.0, 10.0)], vec![], 1.0);
    assert_eq!((one.shared.expect("shared").error_deg, one.untold), (2.0, vec![Untold::OneKnownBearing]));
    let apart = vec![known("A", 12.0, 10.0), known("A", 190.0, 10.0)];
    assert_eq!(check(apart, vec![], 1.0).untold, [Untold::Scattered]);
    let lone = check(vec![known("A", 12.0, 10.0)], vec![pair("A", "B", 10.0, 200.0)], 1.0);
    assert_eq!(lone.untold, [Untold::KnownWhereAttracted, Untold::NoAgreement("A".into())]);
    assert_eq!(verdicts(&lone), [("A", Verdict::NotToBeTold), ("B", Verdict::NotToBeTold)]);
    assert_eq!(lone.lines[0].corrected, None);
}

/// Two groups that agree within and not with each other: nobody can say which is turned.
#[test]
fn equal_groups_are_left_open() {
    let pairs = vec![pair("A", "B", 10.0, 190.0), pair("B", "C", 80.0, 270.0), pair("C", "D", 20.0, 200.0)];
    let tied = check(vec![], pairs.clone(), 1.0);
    assert!(tied.untold.contains(&Untold::GroupsTie("A".into())), "{:?}", tied.untold);
    let more = [pairs, vec![pair("D", "E", 5.0, 185.0)]].concat();
    let told = check(vec![], more, 1.0);
    assert_eq!(told.stations[0].attraction_deg, -10.0);
    assert_eq!(told.stations[0].verdict, Verdict::Attracted);
    assert_eq!(told.stations[2].verdict, Verdict::Clean);
}

/// A line that disagrees though both its ends are free by other lines was read wrongly; it does not move the stations.
#[test]
fn a_line_against_the_rest_is_named() {
    let pairs = vec![pair("A", "B", 10.0, 190.0), pair("B", "C", 80.0, 260.0), pair("A", "C", 45.0, 235.0)];
    let check = check(vec![], pairs, 1.0);
    assert!(check.stations.iter().all(|station| station.verdict == Verdict::Clean));
    assert!(check.untold.contains(&Untold::Contradicts { from: "A".into(), to: "C".into() }));
}

#[test]
fn numbers_and_lines_without_meaning_are_refused() {
    let refused = |known, pairs, spread| check_compass(&readings(known, pairs, spread)).err();
    assert_eq!(refused(vec![], vec![], 0.0), Some(CompassCheckError::Number));
    assert_eq!(refused(vec![], vec![], f64::NAN), Some(CompassCheckError::Number));
    assert_eq!(refused(vec![known("A", f64::INFINITY, 1.0)], vec![], 1.0), Some(CompassCheckError::Number));
    assert_eq!(refused(vec![], vec![pair("A", "A", 1.0, 181.0)], 1.0), Some(CompassCheckError::Line("A".into())));
    let many = (0..301).map(|i| pair(&i.to_string(), &(i + 1).to_string(), 1.0, 181.0)).collect();
    assert_eq!(refused(vec![], many, 1.0), Some(CompassCheckError::TooMany));
}

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
    given.shared_known_spread_deg = 0.4;
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
        let told = check.lines[1].corrected.map(|told| crate::measure::signed_difference_deg(told.degrees(), bearing).abs());
        told.is_none_or(|off| off <= LINE_95 * check.lines[1].spread_deg)
    });
    assert!((held - 0.95).abs() < 0.02, "{held}");
}

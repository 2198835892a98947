//! The worked example of the trade, the circle, and what cannot be told.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

mod simulated;
mod told;

use super::{CompassCheck, CompassCheckError, CompassReadings, KnownReading, Pair, Untold, Verdict, check_compass};
use crate::measure::wrap_deg;

fn dm(degrees: i32, minutes: i32) -> f64 {
    f64::from(degrees) + f64::from(minutes) / 60.0
}

fn pair(from: &str, to: &str, fore_deg_mag: f64, back_deg_mag: f64) -> Pair {
    Pair { from: from.into(), to: to.into(), fore_deg_mag, back_deg_mag }
}

fn known(station: &str, read_deg_mag: f64, known_deg_mag: f64) -> KnownReading {
    KnownReading { station: station.into(), read_deg_mag, known_deg_mag, known_spread_deg: 0.0, clock_deg: 0.0, by_declination: true }
}

fn readings(known: Vec<KnownReading>, pairs: Vec<Pair>, reading_spread_deg: f64) -> CompassReadings {
    CompassReadings { known, pairs, reading_spread_deg, declination_spread_deg: 0.0 }
}

fn check(known: Vec<KnownReading>, pairs: Vec<Pair>, reading_spread_deg: f64) -> CompassCheck {
    check_compass(&readings(known, pairs, reading_spread_deg)).expect("check")
}

fn verdicts(check: &CompassCheck) -> Vec<(&str, Verdict)> {
    check.stations.iter().map(|station| (station.name.as_str(), station.verdict)).collect()
}

fn attraction_deg(check: &CompassCheck, number: usize) -> f64 {
    check.stations[number].attraction.expect("told").deg
}

fn attractions_min(check: &CompassCheck) -> Vec<f64> {
    (0..check.stations.len()).map(|number| (attraction_deg(check, number) * 60.0).round() + 0.0).collect()
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
    assert_eq!(attractions_min(&check), [0.0, 40.0, -82.0, 0.0, 0.0]);
    assert!(check.stations.iter().all(|station| station.attraction.is_some_and(|attraction| attraction.spread_deg > 0.04)));
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
        assert_eq!(attractions_min(&check), [0.0, 40.0, -82.0, 0.0, 0.0], "{turn}");
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
    assert_eq!(check.untold, [Untold::OneStation("P".into())]);
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
    given.declination_spread_deg = 0.3;
    let check = check_compass(&given).expect("check");
    let own = check.reading.spread_deg / 4.0;
    assert!((check.shared.expect("shared").spread_deg - own.hypot(0.3)).abs() < 1e-12);
}

/// A bearing known as magnetic needs no declination; of four readings that half rest on it, the mean takes half of it in.
#[test]
fn the_declination_counts_where_it_was_used() {
    let spread_with = |turned: [bool; 4]| {
        let one = |(i, by_declination)| KnownReading { by_declination, ..known("P", 90.0 + f64::from(i % 2), 90.0) };
        let mut given = readings((0..4).zip(turned).map(one).collect(), vec![], 2.0);
        given.declination_spread_deg = 0.4;
        let shared = check_compass(&given).expect("check").shared.expect("shared");
        (shared.spread_deg.powi(2) - shared.own_spread_deg.powi(2)).max(0.0).sqrt()
    };
    assert_eq!(spread_with([false; 4]), 0.0);
    assert!((spread_with([true, false, true, false]) - 0.2).abs() < 1e-12);
    assert!((spread_with([true; 4]) - 0.4).abs() < 1e-12);
}

/// Known bearings at an attracted station say nothing of the compass; clean and unjudged stations do.
#[test]
fn only_clean_or_unjudged_stations_speak_of_the_compass() {
    let known = vec![known("B", 19.5, 10.0), known("A", 11.0, 10.0), known("elsewhere", 52.0, 50.0)];
    let pairs = vec![pair("A", "C", 30.0, 210.0), pair("A", "B", 90.0, 278.0)];
    let check = check(known, pairs, 1.0);
    let shared = check.shared.expect("shared");
    assert!((shared.error_deg - 1.5).abs() < 0.05 && shared.readings == 2, "{shared:?}");
}

#[test]
fn what_cannot_be_told_is_said() {
    let none = check(vec![], vec![], 1.0);
    assert_eq!((none.shared, none.untold), (None, vec![Untold::NoReadings]));
    let one = check(vec![known("A", 12.0, 10.0)], vec![], 1.0);
    assert_eq!((one.shared.expect("shared").error_deg, one.untold), (2.0, vec![Untold::OneKnownBearing]));
    let apart = vec![known("A", 12.0, 10.0), known("A", 190.0, 10.0)];
    assert_eq!(check(apart, vec![], 1.0).untold, [Untold::Scattered]);
    let one_place = check(vec![known("A", 12.0, 10.0), known("A", 91.0, 90.0)], vec![], 1.0);
    assert_eq!(one_place.untold, [Untold::OneStation("A".into())]);
    let lone = check(vec![], vec![pair("A", "B", 10.0, 200.0)], 1.0);
    assert_eq!(lone.untold, [Untold::NoKnownBearing]);
    assert_eq!(verdicts(&lone), [("A", Verdict::NotToBeTold), ("B", Verdict::NotToBeTold)]);
    assert_eq!((lone.stations[0].attraction, lone.lines[0].corrected), (None, None));
}

/// Where the only known bearings were read at a station that lines turn, they say nothing of the compass.
#[test]
fn known_bearings_where_iron_is() {
    let pairs = vec![pair("A", "B", 10.0, 210.0), pair("B", "C", 70.0, 230.0), pair("A", "C", 40.0, 220.0)];
    let check = check(vec![known("B", 32.0, 10.0), known("B", 111.5, 90.0)], pairs, 1.0);
    assert_eq!((check.shared, check.untold), (None, vec![Untold::KnownWhereAttracted]));
}

/// Two groups that agree within and not with each other, by two lines: nobody can say which is turned.
#[test]
fn equal_groups_are_left_open() {
    let between = vec![pair("B", "C", 80.0, 270.0), pair("A", "D", 60.0, 250.0)];
    let pairs = [vec![pair("A", "B", 10.0, 190.0), pair("C", "D", 20.0, 200.0)], between].concat();
    let tied = check(vec![], pairs.clone(), 1.0);
    assert!(tied.stations.iter().all(|station| station.verdict == Verdict::NotToBeTold && station.attraction.is_none()), "{tied:?}");
    assert!(tied.lines[1..].iter().all(|line| line.corrected.is_none()));
    let more = [pairs, vec![pair("D", "E", 5.0, 185.0), pair("E", "C", 55.0, 235.0)]].concat();
    let told = check(vec![], more, 1.0);
    assert!((attraction_deg(&told, 0) + 10.0).abs() < 1e-9);
    assert_eq!(told.stations[0].verdict, Verdict::Attracted, "{told:?}");
    assert_eq!(told.stations[2].verdict, Verdict::Clean);
}

/// The worked example with one more line that agrees, Z to A: two clean pairs, the attracted stations between them. What is
/// printed still holds: Z, A, D and E are clean by their own lines, B and C are carried on from them.
#[test]
fn clean_pairs_behind_attracted_stations_agree() {
    let longer: Vec<Pair> = [vec![pair("Z", "A", 120.0, 300.0)], traverse()].concat();
    let backwards: Vec<Pair> = longer.iter().rev().cloned().collect();
    for pairs in [longer, backwards] {
        let check = check(vec![], pairs, 0.05);
        let minutes = |name: &str| {
            let station = check.stations.iter().find(|station| station.name == name).expect("station");
            ((station.attraction.expect("told").deg * 60.0).round() + 0.0, station.verdict)
        };
        assert_eq!(["Z", "A", "D", "E"].map(minutes), [(0.0, Verdict::Clean); 4]);
        assert_eq!(["B", "C"].map(minutes), [(40.0, Verdict::Attracted), (-82.0, Verdict::Attracted)]);
        assert_eq!(check.untold, [Untold::NoKnownBearing]);
        assert!(check.lines.iter().all(|line| line.corrected.is_some()));
    }
}

/// Pairs A B and E F agree over the attracted C and D; G H, as large as each, is turned against both.
#[test]
fn pairs_that_agree_outweigh_one_that_does_not() {
    let pull = |name: &str| match name {
        "C" => -20.0,
        "D" => 12.0,
        "G" | "H" => 9.0,
        _ => 0.0,
    };
    let line = |(from, to): (&str, &str)| pair(from, to, wrap_deg(350.0 + pull(from)), wrap_deg(170.0 + pull(to)));
    let chain = [("G", "H"), ("H", "A"), ("G", "B"), ("A", "B"), ("B", "C"), ("C", "D"), ("D", "E"), ("E", "F")];
    let check = check(vec![], chain.map(line).to_vec(), 1.0);
    for station in &check.stations {
        assert!((station.attraction.expect("told").deg - pull(&station.name)).abs() < 1e-9, "{station:?}");
        assert_eq!(station.verdict == Verdict::Attracted, pull(&station.name) != 0.0, "{station:?}");
    }
}

/// A needle read at its wrong end at one station of a triangle, whichever way round the lines were written: both its lines
/// are named, and nothing is made of them.
#[test]
fn the_wrong_end_of_the_needle_in_a_closed_traverse() {
    let pairs = vec![pair("A", "B", 10.0, 190.0), pair("B", "C", 130.0, 130.0), pair("C", "A", 70.0, 70.0)];
    let check = check(vec![], pairs, 1.0);
    let named = |from: &str, to: &str| check.untold.contains(&Untold::Contradicts { from: from.into(), to: to.into(), is_turned: true });
    assert!(named("B", "C") && named("C", "A") && !named("A", "B"), "{:?}", check.untold);
    assert_ne!(check.stations[2].verdict, Verdict::Clean);
    assert_eq!((check.lines[1].corrected, check.lines[2].corrected), (None, None));
}

/// A line that disagrees though both its ends are free by other lines was read wrongly; it does not move the stations.
#[test]
fn a_line_against_the_rest_is_named() {
    let pairs = vec![pair("A", "B", 10.0, 190.0), pair("B", "C", 80.0, 260.0), pair("A", "C", 45.0, 235.0)];
    let check = check(vec![], pairs, 1.0);
    assert!(check.stations.iter().all(|station| station.verdict == Verdict::Clean));
    assert!(check.untold.contains(&Untold::Contradicts { from: "A".into(), to: "C".into(), is_turned: false }));
}

#[test]
fn numbers_and_lines_without_meaning_are_refused() {
    let refused = |known, pairs, spread| check_compass(&readings(known, pairs, spread)).err();
    assert_eq!(refused(vec![], vec![], 0.0), Some(CompassCheckError::Number));
    assert_eq!(refused(vec![], vec![], f64::NAN), Some(CompassCheckError::Number));
    assert_eq!(refused(vec![known("A", f64::INFINITY, 1.0)], vec![], 1.0), Some(CompassCheckError::Number));
    assert_eq!(refused(vec![], vec![pair("A", "A", 1.0, 181.0)], 1.0), Some(CompassCheckError::Line("A".into())));
    let many = (0..101).map(|i| pair(&i.to_string(), &(i + 1).to_string(), 1.0, 181.0)).collect();
    assert_eq!(refused(vec![], many, 1.0), Some(CompassCheckError::TooMany));
}

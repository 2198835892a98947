//! Every sentence can be made, and figures look as a person expects.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use super::{Words, numbers};
use crate::fix::Instrument;
use crate::measure::{AngleUnit, Arg, Message, NamedBearing, North};

#[test]
fn the_resource_has_no_errors() {
    for text in [super::ENGLISH, super::ENGLISH_LABELS] {
        assert!(fluent_bundle::FluentResource::try_new(text.into()).is_ok());
    }
}

/// Of two sentences with one name the later would win without a word.
#[test]
fn every_sentence_has_a_name_of_its_own() {
    let mut names: Vec<&str> = Vec::new();
    for line in super::ENGLISH.lines().chain(super::ENGLISH_LABELS.lines()) {
        let name = line.split_once(" =").map(|(name, _)| name).filter(|name| !name.is_empty() && !name.starts_with([' ', '#', '[', '*']));
        names.extend(name);
    }
    let count = names.len();
    names.sort_unstable();
    let twice: Vec<&&str> = names.windows(2).filter(|pair| pair[0] == pair[1]).map(|pair| &pair[0]).collect();
    assert!(count > 500 && twice.is_empty(), "{count}: {twice:?}");
}

#[test]
fn figures() {
    let figures = |degrees, unit| numbers::bearing_figures(degrees, unit, 1);
    assert_eq!(figures(359.96, AngleUnit::Degrees), "000°");
    assert_eq!(figures(-0.0, AngleUnit::Degrees), "000°");
    assert_eq!(figures(-1e-9, AngleUnit::Mils), "0000\u{a0}mil");
    assert_eq!(figures(7.54, AngleUnit::Degrees), "007.5°");
    assert_eq!(figures(359.99, AngleUnit::Mils), "0000\u{a0}mil");
    assert_eq!(figures(19.0, AngleUnit::Mils), "0338\u{a0}mil");
    assert_eq!(figures(200.25, AngleUnit::Gradians), "222.5\u{a0}gon");
    assert_eq!(figures(143.5, AngleUnit::Quadrant), "S\u{a0}36.5°\u{a0}E");
    assert_eq!(numbers::metres(12_345.0), "12.3\u{a0}km");
    assert_eq!(numbers::metres(-0.2), "0\u{a0}m");
    assert_eq!(numbers::share(0.996), ">\u{a0}99\u{a0}%");
    assert_eq!(numbers::share(0.002), "<\u{a0}1\u{a0}%");
}

#[test]
fn a_typed_bearing_is_told_in_its_unit() {
    let words = Words::english();
    for (typed, told) in [
        ("52 mag", "052°\u{a0}mag"),
        ("3200 mil mag", "3200\u{a0}mil\u{a0}mag"),
        ("032.5 grid", "032.5°\u{a0}grid"),
        ("S36E true", "S\u{a0}36°\u{a0}E\u{a0}true"),
        ("north by the barn", "north by the barn"),
    ] {
        assert_eq!(words.typed_bearing(typed), told);
    }
}

#[test]
fn a_number_and_its_unit_never_part() {
    for (part, told) in [
        ("Stand 18 m from wire.", "Stand 18\u{a0}m from wire."),
        (" (95 %), ± ", " (95\u{a0}%), ±\u{a0}"),
        (" double paces", "\u{a0}double paces"),
        ("in 7 minutes, 2 more", "in 7 minutes, 2 more"),
        ("no m here", "no m here"),
    ] {
        assert_eq!(numbers::bound(part), told);
    }
    assert_eq!(Words::english().label("label-how-many-paces", ""), "How many double paces to 100\u{a0}m?");
}

#[test]
fn a_bearing_never_goes_without_its_north() {
    let words = Words::english();
    for (north, word) in [(North::Magnetic, "mag"), (North::Grid, "grid"), (North::True, "true")] {
        assert_eq!(words.bearing(NamedBearing::new(19.0, north)), format!("019°\u{a0}{word}"));
    }
}

#[test]
fn an_unknown_message_shows_its_identifier() {
    assert_eq!(Words::english().say(&Message::new("no-such").with("x", Arg::Count(1))), "no-such");
}

#[test]
fn paces_to_go_are_told_down_to_the_end_and_past_it() {
    let told = |of_leg, counted| Words::english().paces_to_go(of_leg, counted).replace('\u{a0}', " ");
    assert_eq!(told(90.4, 62), "28 double paces to go");
    assert_eq!(told(90.4, 89), "one double pace to go");
    assert_eq!(told(90.4, 90), "counted to the end");
    assert_eq!(told(90.4, 91), "one double pace past the end");
    assert_eq!(told(90.4, 100), "10 double paces past the end");
    assert_eq!(told(f64::NAN, 0), "counted to the end");
}

/// The three ways of writing that a refusal shows are one place, on the walker's sheet where there is one: the square, its middle in
/// metres, and that in degrees. A square of 10 m and a ten-thousandth of a degree lie up to 7 m and 8 m off.
#[test]
fn the_examples_of_a_refusal_are_one_place() {
    use crate::earth::{LatLon, Terms, geodesic_between, read_place};
    use crate::measure::Telling;
    for near in [None, Some((-33.8568, 151.2153)), Some((60.3, 5.3)), Some((86.0, -40.0))] {
        let near = near.and_then(|(lat_deg, lon_deg)| LatLon::new(lat_deg, lon_deg).ok());
        let refusal = read_place("x", &Terms { near, ..Terms::default() }).expect_err("no place");
        let sentence = Words::english().say(&refusal.message());
        let examples = sentence.rsplit("Write ").next().unwrap_or_default().trim_end_matches('.').replace(", or ", ", ");
        let places: Vec<_> = examples.split(", ").map(|one| read_place(one, &Terms::default()).expect(one).at).collect();
        assert_eq!(places.len(), 3, "{examples}");
        let middle = near.unwrap_or(places[0]);
        assert!(places.iter().all(|at| geodesic_between(*at, middle).0 < 16.0), "{places:?}");
    }
}

#[test]
fn a_closure_alone_is_told_once_of_its_leg() {
    use crate::earth::{CompassReadings, Pair, check_compass};
    let pair =
        |from: &str, to: &str, fore_deg_mag: f64, back_deg_mag: f64| Pair { from: from.into(), to: to.into(), fore_deg_mag, back_deg_mag };
    let told = |pairs: Vec<Pair>, reading_spread_deg: f64| {
        let readings = CompassReadings { known: vec![], pairs, reading_spread_deg, declination_spread_deg: 0.0 };
        Words::english().compass(&check_compass(&readings).expect("check"))
    };
    let count = |told: &[String], text: &str| told.iter().filter(|sentence| sentence.contains(text)).count();
    // 1.96 times the root of 2 times 2.5° are 6.9°.
    let off = told(vec![pair("A", "B", 34.0, 220.0)], 2.5);
    assert!(count(&off, "differ by 6.0°") == 1 && count(&off, "Station") == 0, "{off:?}");
    assert!(count(&off, "no more than such readings scatter") == 1 && count(&off, "read more lines from both") == 1, "{off:?}");
    let wide = told(vec![pair("A", "B", 34.0, 222.0)], 1.0);
    assert_eq!(count(&wide, "8.0°, more than such readings scatter"), 1, "{wide:?}");
    let fine = told(vec![pair("A", "B", 34.0, 214.2)], 0.5);
    assert_eq!(count(&fine, "at one end alone"), 1, "{fine:?}");
    let chain = told(vec![pair("A", "B", 34.0, 222.0), pair("B", "C", 100.0, 280.0)], 2.5);
    assert!(count(&chain, "Station") == 3 && count(&chain, "differ by") == 0, "{chain:?}");
}

/// What a reading is worth stands in the help as the fix reckons with it.
#[test]
fn the_help_tells_what_an_instrument_is_worth() {
    let help = Words::english().say_by_name("help-fix-instrument");
    for (name, before) in [("sighting", "a reading "), ("baseplate", ""), ("quick", "at the waist: "), ("phone", "")] {
        let trust = Instrument::named(name).unwrap().trust();
        let (_, told) = help.split_once(&format!("{name} ({before}{}°", trust.reading_spread_deg)).unwrap();
        let (told, _) = told.split_once(')').unwrap();
        assert!(told.ends_with(&format!(" {}°", trust.shared_spread_deg)), "{name}: {told}");
    }
}

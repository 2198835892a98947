//! How places are read and written.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use super::{PlaceError, Terms, degrees_minutes, degrees_minutes_seconds, read_place, utm_of};
use crate::earth::{Grid, LatLon, geodesic_between};

fn at(lat: f64, lon: f64) -> LatLon {
    LatLon::new(lat, lon).expect("on earth")
}

fn part(text: &str, terms: &Terms) -> &'static str {
    match read_place(text, terms) {
        Err(PlaceError::Reference { part, .. }) => part,
        Err(PlaceError::OffEarth { .. }) => "off",
        Ok(reading) => panic!("{text} was read as {reading:?}"),
    }
}

#[test]
fn latitude_and_longitude_are_read_in_every_way_of_writing() {
    let wanted = at(-33.5125, 151.25);
    let ways = [
        "-33.5125, 151.25",
        "33.5125 S 151.25 E",
        "S 33.5125 E 151.25",
        "151.25E 33.5125S",
        "33 30.75 S, 151 15 E",
        "33°30'45\"S 151°15'00\"E",
        "-33 30 45, 151 15 00",
        "33° 30′ 45″ s, 151° 15′ 00″ e",
    ];
    for way in ways {
        let reading = read_place(way, &Terms::default()).expect(way);
        assert!(geodesic_between(reading.at, wanted).0 < 1e-6, "{way}");
    }
}

#[test]
fn what_is_wrong_is_named() {
    let none = Terms::default();
    for (text, wanted) in [
        ("", "part-empty"),
        ("91, 0", "part-off-earth"),
        ("52°30'N 13°24'N", "part-hemisphere"),
        ("52,5, 13,4", "part-commas"),
        ("52 61 N, 13 24 E", "part-latitude"),
        ("61N 456789 4953012", "part-zone"),
        ("33T 456789 1953012", "part-band-northing"),
        ("33N 1956789 4953012", "part-easting"),
        ("33S 456789 4000000", "part-half-or-band"),
        ("5696 4953", "part-no-zone"),
        ("VM 5696 4953", "part-no-zone"),
        ("TVM 5696 4953", "part-zone"),
        ("33IVM 5696 4953", "part-band"),
        ("-33.9 151.2", "part-no-comma"),
        ("33.9 -151.2", "part-no-comma"),
        ("54.5; -3.1", "part-characters"),
        ("33TVM 5696 4953\u{e9}", "part-characters"),
    ] {
        assert_eq!(part(text, &none), wanted, "{text}");
    }
}

#[test]
fn a_short_reference_is_the_nearest_square_of_the_sheet() {
    let near = at(44.72, 14.46);
    let grid = Grid::of_place(near);
    let terms = Terms { grid: Some(&grid), near: Some(near), ..Terms::default() };
    let whole = read_place("33T VK 5696 5253", &Terms::default()).expect("whole");
    for short in ["5696 5253", "VK 5696 5253", "56965253"] {
        let reading = read_place(short, &terms).expect(short);
        assert!(geodesic_between(reading.at, whole.at).0 < 1e-6, "{short}");
    }
    let coordinates = read_place("456965 4952535", &terms).expect("coordinates");
    assert!(geodesic_between(coordinates.at, whole.at).0 < 1e-3);
}

#[test]
fn lettered_references_name_squares_of_the_british_grid() {
    let grid = Grid::named("EPSG:27700").expect("known");
    let terms = Terms { grid: Some(&grid), ..Terms::default() };
    let square = read_place("NN 166 712", &terms).expect("letters");
    let point = read_place("216650 771250", &terms).expect("coordinates");
    assert!(geodesic_between(square.at, point.at).0 < 1e-3);
    assert!((square.square_m - 100.0).abs() < 1e-9);
    assert_eq!(grid.reference(square.at, 6), "NN 166 712");
    assert_eq!(grid.reference(read_place("TG 51409 13177", &terms).expect("letters").at, 10), "TG 51409 13177");
    assert_eq!(part("II 166 712", &terms), "part-square");
    assert_eq!(part("NN 166 71", &terms), "part-unequal-groups");
}

#[test]
fn coordinates_are_rounded_and_carried() {
    assert_eq!(degrees_minutes(at(-33.999_999_99, 0.0)), "34°00.000'S 0°00.000'E");
    assert_eq!(degrees_minutes_seconds(at(52.504_305_6, -13.402_833_3)), "52°30'15.5\"N 13°24'10.2\"W");
    assert_eq!(utm_of(at(90.0, 0.0)), "UPS north 2000000 2000000");
}

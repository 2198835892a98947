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
use crate::measure::Point;

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
        "-33.5125; 151.25",
        "33.5125 S; 151.25 E",
        "-33 30 45, 151 15 00",
        "33° 30′ 45″ s, 151° 15′ 00″ e",
        "33° 30' 45'' S, 151° 15' 00'' E",
        "-33:30:45, 151:15:00",
        "33:30:45S 151:15:00E",
        "33:30.75 s, 151:15 e",
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
        ("91, 0", "part-latitude-longitude-beyond"),
        ("91, 95", "part-latitude-beyond"),
        ("11, 191", "part-longitude-beyond"),
        ("52°30'N 13°24'N", "part-hemisphere"),
        ("52,5, 13,4", "part-commas"),
        ("52 61 N, 13 24 E", "part-latitude"),
        ("61N 456789 4953012", "part-zone"),
        ("0N 2100000 2100000", "part-zone"),
        ("32A 612345 5267890", "part-band"),
        ("utm 32 y 612345 5267890", "part-band"),
        ("33T 456789 1953012", "part-band-northing"),
        ("33N 1956789 4953012", "part-easting"),
        ("33S 456789 4000000", "part-half-or-band"),
        ("33T 4953012 456789", "part-swapped"),
        ("33 south 4953012 456789", "part-swapped"),
        ("33T 4953012 4567890", "part-easting"),
        ("5696 4953", "part-no-zone"),
        ("VM 5696 4953", "part-zone-missing"),
        ("TQ 30 80", "part-zone-missing"),
        ("TVM 5696 4953", "part-zone"),
        ("32X VM 5696 4953", "part-zone-svalbard"),
        ("33 456789 4953012", "part-no-half"),
        ("abc", "part-no-figures"),
        ("456789, 4953012", "part-metres-as-degrees"),
        ("456789,5 4953012", "part-commas"),
        ("36 60 N, 13 24 E", "part-latitude"),
        ("33IVM 5696 4953", "part-band"),
        ("-33.9 151.2", "part-no-comma"),
        ("33.9 -151.2", "part-no-comma"),
        ("47,5; 11,2", "part-commas"),
        ("N 47.5 11.2", "part-hemisphere"),
        ("32T 12345 67890", "part-square-missing"),
        ("32T 612345,5 5267890", "part-commas"),
        ("-5 -5", "part-no-comma"),
        ("33T VK 5696, 4953", "part-comma-in-reference"),
        ("VK 5696, 4953", "part-comma-in-reference"),
        ("A 100 100", "part-square-missing"),
        ("33T 5696 4953", "part-square-missing"),
        ("45 6 N 14 7 E", "part-one-figure"),
        ("45 06 N 14 7 E", "part-one-figure"),
        ("45 60 N 14 07 E", "part-latitude"),
        ("33TVM 5696 4953\u{e9}", "part-characters"),
        ("32TPT l23 678", "part-look-alike-figure"),
        ("32TP\u{422} 123 678", "part-look-alike"),
        ("32TPT 12\u{417} 678", "part-look-alike-figure"),
        ("32TPT 123.4 678.9", "part-point"),
        ("32TPTX 123 678", "part-letters"),
        ("48.8583 N, 2.2945 O", "part-half-letter"),
        ("48.8583 N 2.2945 O", "part-half-letter"),
        ("48.8583 N, 2.2945 Ost", "part-half-letter"),
        ("31U 448251.5.5", "part-two-points"),
        ("31U 448251.5 5.411.932", "part-two-points"),
        ("52.30.15 N 13.24.10 E", "part-two-points"),
        ("31U 448 251 5 411 932", "part-grouped"),
        ("33TVM 56 96 49 53", "part-grouped"),
        ("47 30 15 11 12 00", "part-grouped"),
        ("UPS 2000000 2000000", "part-no-pole"),
        ("https://maps.example/?q=44.7,14.4", "part-web-link"),
        ("UPS 2000000mE 2000000mN", "part-no-pole"),
        ("47:30:15 11:12:00", "part-hemisphere"),
        ("47:30:61, 11:12:00", "part-latitude"),
        ("33TVM 56:49", "part-characters"),
        ("48 N, 2 O", "part-half-letter"),
        ("48°51' Nord 2°17' Ost", "part-half-letter"),
        ("48.8583 pohjoinen, 2.2945 itä", "part-half-letter"),
    ] {
        assert_eq!(part(text, &none), wanted, "{text}");
    }
}

/// Letters of the British grid where it is not the sheet's. On it they are read.
#[test]
fn letters_that_no_square_about_here_has_are_named() {
    let british = Grid::named("EPSG:27700").unwrap();
    let swiss = Grid::named("EPSG:2056").unwrap();
    let near = Terms { near: Some(at(44.7, 14.5)), ..Terms::default() };
    let begins = Terms { beginning: Some("33TVM"), ..Terms::default() };
    let own = Terms { grid: Some(&swiss), near: Some(at(46.9, 7.4)), ..Terms::default() };
    for terms in [&near, &begins, &own] {
        assert_eq!(part("TQ 30 80", terms), "part-letters-not-here");
    }
    assert_eq!(part("TQ 3 0 8 0", &Terms { grid: Some(&british), ..Terms::default() }), "part-grouped");
    assert!(read_place("TQ 30 80", &Terms { grid: Some(&british), ..near }).is_ok());
}

/// 12 m beyond the box of the register; the place by `pyproj` 3.7.2.
#[test]
fn numbers_beside_a_grids_area_are_no_exchanged_ones() {
    let grid = Grid::named("EPSG:26729").unwrap();
    let read = read_place("203521 562486", &Terms { grid: Some(&grid), ..Terms::default() }).expect("read");
    assert!(geodesic_between(read.at, at(32.043_000_220, -86.790_099_915)).0 < 0.01, "{:?}", read.at);
}

/// Letters by `GeographicLib` 2.1.2 (class MGRS); the areas by NGA.STND.0037_2.0.0_GRIDS (2014). What lies outside the areas by
/// `pyproj` 3.7.2: the middle of A JZ 12 34 at 75.3° S, that of Z GP 99 99 at 82.3° N.
#[test]
fn near_a_pole_letters_squares_and_halves_must_be_those_of_the_area() {
    for (text, wanted) in [
        ("AJZ 12 34", "part-ups-square"),
        ("ZGP 99 99", "part-ups-square"),
        ("ZJP 99 99", "part-ups-square"),
        ("AAN 12 34", "part-square-a"),
        ("BZZ 12 34", "part-square-b"),
        ("YAH 12 34", "part-square-y"),
        ("ZMH 12 34", "part-square-z"),
        ("ZIH 12 34", "part-square-z"),
        ("Y 2500000 2000000", "part-ups-half"),
        ("Z 1500000 2000000", "part-ups-half"),
        ("A 2500000 2000000", "part-ups-half"),
        ("Z 2750000 2000000", "part-ups-area"),
        ("UPS south 3250000 2000000", "part-ups-area"),
    ] {
        assert_eq!(part(text, &Terms::default()), wanted, "{text}");
    }
    for text in
        ["Z 2500000 2000000", "Y 2000000 2000000", "Z 2000000 2000000", "ZAA 12 34", "z ah 12 34", "UPS N 2412345 1567890", "BRN 12 34"]
    {
        assert!(read_place(text, &Terms::default()).is_ok(), "{text}");
    }
}

#[test]
fn a_letter_alone_is_named_on_a_grid_that_has_none() {
    for (grid, text) in [("EPSG:29902", "N 333 278"), ("EPSG:29902", "n3338527833"), ("EPSG:27700", "N 333 278")] {
        let grid = Grid::named(grid).expect("by its number");
        assert_eq!(part(text, &Terms { grid: Some(&grid), ..Terms::default() }), "part-letter-alone", "{text}");
    }
}

#[test]
fn what_is_wrong_with_a_beginning_is_named() {
    let with = |beginning| Terms { beginning: Some(beginning), ..Terms::default() };
    for (text, beginning, wanted) in [
        ("5696 4953", "33T", "part-beginning-short"),
        ("5696 4953", "xyz", "part-beginning"),
        ("5696 4953", "99TVM", "part-beginning"),
        ("5696 4953", "!", "part-beginning"),
        ("12, 34", "33TVM", "part-ambiguous"),
    ] {
        assert_eq!(part(text, &with(beginning)), wanted, "{text} {beginning}");
    }
    let whole = read_place("33T VM 5696 4953", &Terms::default()).expect("whole");
    for (text, beginning) in [("VM 5696 4953", "33T"), ("5696 4953", "33T VM"), ("56964953", "33tvm")] {
        assert_eq!(read_place(text, &with(beginning)).expect(text), whole, "{text} {beginning}");
    }
    assert!(read_place("12.5, 34.5", &with("33TVM")).is_ok() && read_place("12, 34", &Terms::default()).is_ok());
}

/// Letters of easting and northing behind or before the numbers, in either order, and the apostrophes of Swiss coordinates.
#[test]
fn coordinates_are_read_as_maps_print_them() {
    let wanted = read_place("33T 456789 4953012", &Terms::default()).expect("plain").at;
    for way in ["33T 456789 mE 4953012 mN", "33T E 456789 N 4953012", "33T N 4953012 E 456789", "33T 4953012 mN 456789 mE"] {
        assert_eq!(read_place(way, &Terms::default()).expect(way).at, wanted, "{way}");
    }
    let swiss = Grid::named("2056").expect("by its number");
    let terms = Terms { grid: Some(&swiss), ..Terms::default() };
    let plain = read_place("2600000 1200000", &terms).expect("plain").at;
    assert_eq!(part("1200000 2600000", &terms), "part-swapped");
    assert_eq!(part("2600000 9200000", &terms), "part-outside-grid");
    let zone_3 = Grid::named("31467").expect("Gauss-Krueger");
    let german = Terms { grid: Some(&zone_3), ..Terms::default() };
    assert_eq!(read_place("R 3500000 H 5400000", &german).expect("letters"), read_place("3500000 5400000", &german).expect("plain"));
    for way in ["2'600'000 1'200'000", "2\u{2019}600\u{2019}000, 1\u{2019}200\u{2019}000", "2600000, 1200000", "E 2600000 N 1200000"] {
        assert_eq!(read_place(way, &terms).expect(way).at, plain, "{way}");
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

/// Corners of squares, by the projection's own numbers, are written as they are: none comes a metre short.
///
/// The corners' latitudes and longitudes are PROJ's (through [`Grid::unproject`]), their MGRS letters and digits follow from the
/// numbers: NGA.STND.0037 cuts eastings and northings.
#[test]
fn a_corner_is_written_as_its_own_square() {
    let mut dice = 7_u64;
    let mut throw = move |span: u64| {
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (dice >> 33) % span
    };
    for (name, low, span) in [
        ("33N", (300_000, 5_000_000), (400_000, 300_000)),
        ("56S", (300_000, 6_100_000), (400_000, 300_000)),
        ("EPSG:32661", (1_700_000, 2_100_000), (600_000, 300_000)),
        ("EPSG:27700", (200_000, 200_000), (300_000, 500_000)),
        ("EPSG:2056", (2_500_000, 1_100_000), (300_000, 150_000)),
        ("EPSG:31468", (4_400_000, 5_300_000), (200_000, 400_000)),
    ] {
        let grid = Grid::named(name).expect("known");
        for _ in 0..300 {
            let (east, north) = (low.0 + throw(span.0), low.1 + throw(span.1));
            let corner = grid.unproject(Point::new(east as f64, north as f64)).expect("there");
            let written = grid.reference(corner, 10);
            let digits: String = written.chars().rev().filter(char::is_ascii_digit).collect::<Vec<_>>().into_iter().rev().collect();
            let wanted = match name {
                "EPSG:2056" | "EPSG:31468" => format!("{east}{north}"),
                _ => format!("{:05}{:05}", east % 100_000, north % 100_000),
            };
            assert!(digits.ends_with(&wanted), "{name} {east} {north}: {written}");
        }
    }
}

/// Two plain numbers are no square: rounded to a tenth of one, they lie within a twentieth of it of the place along each axis.
#[test]
fn plain_numbers_are_rounded_finer_than_a_square() {
    let grid = Grid::named("EPSG:2056").expect("known");
    let place = grid.unproject(Point::new(2_600_438.4, 1_200_175.7)).expect("there");
    let written = [2, 4, 6, 8, 10].map(|digits| grid.reference(place, digits));
    assert_eq!(written, ["2600000 1200000", "2600400 1200200", "2600440 1200180", "2600438 1200176", "2600438 1200175"]);
    let turned = Grid::named("EPSG:5514").expect("known");
    let place = turned.unproject(Point::new(-743_011.0, -1_043_004.0)).expect("there");
    assert_eq!(turned.reference(place, 6), "-743010 -1043000");
}

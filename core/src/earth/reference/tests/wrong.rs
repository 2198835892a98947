//! Which part of a place is named as wrong.

use super::{at, part};
use crate::earth::Grid;
use crate::earth::reference::{Terms, read_place};

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
        ("33TAM 1234 1234", "part-column-3"),
        ("31TJM 1234 1234", "part-column-1"),
        ("32TSM 1234 1234", "part-column-2"),
        ("33TVW 1234 1234", "part-row"),
        ("-33.9 151.2", "part-no-comma"),
        ("33.9 -151.2", "part-no-comma"),
        ("47,5; 11,2", "part-commas"),
        ("N 47.5 11.2", "part-hemisphere"),
        ("32T 12345 67890", "part-square-missing"),
        ("32T 612345,5 5267890", "part-commas"),
        ("-5 -5", "part-no-comma"),
        ("33T VK 5696, 4953", "part-comma-in-reference"),
        ("VK 5696, 4953", "part-comma-in-reference"),
        ("32TPT 14000,06300", "part-comma-in-reference"),
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
        ("456965 4949535", "part-coordinates-alone"),
        ("456965.5 4949535.5", "part-coordinates-alone"),
        ("1e6 2e6", "part-power-of-ten"),
        ("456965 ft 4949535 ft", "part-unit"),
        ("456965 4949535 ft", "part-unit"),
        ("47 N 9 N", "part-hemisphere"),
        ("31DQ4811", "part-letter-missing"),
        ("4730N 1112E", "part-run-together"),
        ("4760N 01112E", "part-latitude"),
        ("4730N 01160E", "part-longitude"),
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
    let plane = Grid::named("EPSG:6677").unwrap();
    let beside = |beginning| Terms { grid: Some(&plane), ..with(beginning) };
    for (text, beginning) in [("812 007", "54SVE"), ("8 0", "54 s ve"), ("81200 00700", "54SVE"), ("812 7", "54SVE"), ("812 007", "VE")] {
        assert_eq!(part(text, &beside(beginning)), "part-beginning-beside-grid", "{text} {beginning}");
    }
    for (text, beginning) in [("-6000 -35000", "54SVE"), ("12000.5 35000", "54SVE"), ("812 007", "54S"), ("812 007", " ")] {
        let alone = read_place(text, &Terms { grid: Some(&plane), ..Terms::default() }).expect(text);
        assert_eq!(read_place(text, &beside(beginning)).expect(text), alone, "{text} {beginning}");
    }
    for text in ["812007", "54SVE 812 007", "VE 812 007"] {
        let whole = read_place("54SVE812007", &Terms::default()).expect(text);
        assert_eq!(read_place(text, &beside("54SVE")).expect(text), whole, "{text}");
    }
    let british = Grid::named("EPSG:27700").unwrap();
    let near = Terms { grid: Some(&british), near: Some(at(51.3, -1.8)), ..with("30UXB") };
    for text in ["812 007", "812007"] {
        assert_eq!(part(text, &near), "part-beginning-beside-grid", "{text}");
        assert!(
            read_place(text, &Terms { beginning: Some("SU"), ..near }).is_ok()
                && read_place(text, &Terms { beginning: None, ..near }).is_ok()
        );
    }
    assert!(read_place("12.5, 34.5", &with("33TVM")).is_ok() && read_place("12, 34", &Terms::default()).is_ok());
}

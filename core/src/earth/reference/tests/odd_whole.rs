//! Texts with a datum, a half too many, numbers that run together, or a beginning beside them: the part that is wrong is named, and what can
//! be read is read.
//!
//! The texts are our own.

use super::{at, part};
use crate::earth::Grid;
use crate::earth::reference::{Terms, half_read, read_place};

#[test]
fn what_is_hidden_by_a_character_out_of_place_is_named() {
    for (text, wanted) in [
        ("19K 451230m 7788910ft", "part-unit"),
        ("19K 451230ft 7788910m", "part-unit"),
        ("-19 59 24 -69 28 12", "part-no-comma"),
        ("-19 59 24 +69 28 12", "part-no-comma"),
        ("-19 59.4 69 28.2", "part-no-comma"),
        ("46 29.929 20 26.311", "part-no-comma"),
        ("19.99S 69.47E W", "part-hemisphere"),
        ("NE 46.5 20.4", "part-hemisphere"),
        ("46.5 N S 20.4 E", "part-hemisphere"),
        ("46.5NN 20.4E", "part-half-letter"),
        ("NAD27 46.5N 20.4E", "part-datum"),
        ("NAD 27 46.5N 20.4E", "part-datum"),
        ("46.5N 20.4E (NAD27)", "part-datum"),
        ("ETRS89 46.5N 20.4E", "part-datum"),
        ("WGS84 46.5N 20.4E", "part-datum"),
        ("WGS 84 46.5, 20.4", "part-datum"),
        ("CH1903 600150 200350", "part-datum"),
        ("EPSG:2056 2600150 1200350", "part-datum"),
        ("2600150 1200350 EPSG 2056", "part-datum"),
        ("19 59 24 10 S 69 28 12 E", "part-many-figures"),
        ("19 59 24 S 69 28 12 10 E", "part-many-figures"),
        ("34T4569155149625", "part-metres-run-together"),
        ("34 T 4569155149625", "part-metres-run-together"),
        ("4569155149625", "part-metres-run-together"),
        ("30'N 24'E", "part-no-degrees"),
        ("46°30'N 24'E", "part-no-degrees"),
        ("zone 19 451230E 7788910N", "part-no-half"),
        ("34 456915E 5149625N", "part-no-half"),
        ("34 E456915 N5149625", "part-no-half"),
        ("E456915 N5149625 34T", "part-zone-behind"),
        ("32N 470000 5227000 ±5 m", "part-half-beside-zone"),
        ("N47.2 E8.6 WGS84", "part-datum"),
        ("47 N E", "part-one-angle"),
        ("S 47 12 30 E", "part-one-angle"),
        ("32TMT697274°", "part-characters"),
        ("7.5E5 5.2e6 32N", "part-power-of-ten"),
        ("47 12 N", "part-one-angle"),
        ("8E", "part-one-angle"),
        ("S 47 12 30", "part-one-angle"),
        ("90 0", "part-digits-or-angles"),
        ("47 92", "part-no-zone"),
        ("5 47", "part-digits-or-angles"),
        ("2600150 1200350 ±50 m", "part-coordinates-alone"),
        ("E 2600150 N 1200350 +/- 50m", "part-coordinates-alone"),
    ] {
        assert_eq!(part(text, &Terms::default()), wanted, "{text}");
    }
}

/// What ends a sentence or a list is no part of the place that stands before it.
#[test]
fn a_mark_that_ends_the_text_is_left_out() {
    let whole = read_place("34T DS 5691 4962", &Terms::default()).unwrap();
    for text in ["34TDS 5691 4962,", "34TDS 5691 4962;", "34TDS 5691 4962.", "34TDS 5691 4962 , "] {
        assert_eq!(read_place(text, &Terms::default()).unwrap(), whole, "{text}");
    }
    assert_eq!(read_place("46.5, 20.4.", &Terms::default()).unwrap().at, at(46.5, 20.4));
    assert_eq!(read_place("46.5 N, 20.4 E;", &Terms::default()).unwrap().at, at(46.5, 20.4));
}

/// Letters of squares and short digits are not taken for a datum.
#[test]
fn squares_are_no_datums() {
    let british = Grid::named("EPSG:27700").unwrap();
    let lettered = Terms { grid: Some(&british), ..Terms::default() };
    assert_eq!(part("SU 387 148 m", &lettered), "part-unit");
    for text in ["SK 42 31", "SK42 31", "HD 72 31", "NT 2012 3456"] {
        assert!(part_or_none(text, &lettered) != Some("part-datum"), "{text}");
    }
    assert_eq!(part("CH 1903 4455", &Terms::default()), "part-zone-missing");
    assert_eq!(part("ED 50 60", &Terms::default()), "part-zone-missing");
}

fn part_or_none(text: &str, terms: &Terms) -> Option<&'static str> {
    read_place(text, terms).err().map(|_| part(text, terms))
}

/// The numbers are the square's own middle: 456915 east and 5149625 north lie in 34T DS by the scheme of NGA.STND.0037, by hand.
#[test]
fn a_beginning_completes_metres_by_its_zone_and_its_fault_is_named() {
    let with = |beginning| Terms { beginning: Some(beginning), ..Terms::default() };
    let whole = read_place("34T 456915 5149625", &Terms::default()).unwrap();
    for beginning in ["34TDS", "34 T DS", "34t", "34T"] {
        assert_eq!(read_place("456915 5149625", &with(beginning)).unwrap(), whole, "{beginning}");
    }
    assert_eq!(read_place("456915E 5149625N", &with("34TDS")).unwrap(), whole);
    for text in ["569274 m", "569 274 m", "569 m 274 m", "569274 km"] {
        assert_eq!(part(text, &with("34TDS")), "part-unit", "{text}");
    }
    assert_eq!(part("456915 5149625", &with("34SDS")), "part-band-northing");
    assert_eq!(part("569 496", &with("34TTT")), "part-beginning-square");
    assert_eq!(part("569 496", &with("34TDW")), "part-beginning-square");
    assert_eq!(part("456915 5149625", &Terms::default()), "part-coordinates-alone");
}

/// The band N lies from 0 to 8 degrees north, S from 32 to 40 (NGA.STND.0037): 388910 north is 3.5 degrees, 3988910 is 36.0, and
/// 4788910 counted from the south 47.1 degrees south (`pyproj` 3.7.2).
#[test]
fn how_the_letter_of_a_half_was_read_is_told_where_it_is_no_band() {
    let none = Terms::default();
    for (text, told) in [
        ("19 N 451230 3988910", Some('N')),
        ("19N 451230 388910", None),
        ("19 north 451230 3988910", None),
        ("19S 451230 4788910", Some('S')),
        ("19 south 451230 4788910", None),
        ("19T 451230 4788910", None),
        ("UPS N 2412345 1567890", None),
        ("19S DV 5123 8891", None),
    ] {
        assert!(read_place(text, &none).is_ok(), "{text}");
        assert_eq!(half_read(text, &none), told, "{text}");
    }
    assert_eq!(part("19S 451230 3988910", &none), "part-half-or-band");
    let near = Terms { near: Some(at(36.0, -69.5)), ..none };
    assert!(read_place("19S 451230 3988910", &near).unwrap().at.lat_deg() > 36.0 && half_read("19S 451230 3988910", &near).is_none());
}

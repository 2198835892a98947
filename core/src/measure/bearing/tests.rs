//! How bearings are typed.

#![allow(clippy::expect_used, reason = "a test may stop where it fails")]

use super::{BearingError, NamedBearing, North, typed_step_deg};
use crate::measure::{Arg, Telling};

#[test]
fn what_is_wrong_with_a_bearing_is_named() {
    let wrong = |text: &str| NamedBearing::parse(text).err();
    assert_eq!(wrong("N91E mag"), Some(BearingError::Quarter("N91E mag".into())));
    assert_eq!(wrong("36 60 mag"), Some(BearingError::Minutes("36 60 mag".into())));
    assert_eq!(wrong("214,5 mag"), Some(BearingError::Comma("214,5 mag".into())));
    assert_eq!(wrong("abc mag"), Some(BearingError::Unreadable("abc mag".into())));
    assert_eq!(wrong("214 north"), Some(BearingError::WithoutNorth("214 north".into())));
    let north = |text: &str| NamedBearing::parse(text).map(NamedBearing::north);
    assert_eq!((north("214 true north"), north("214 Grid North")), (Ok(North::True), Ok(North::Grid)));
}

#[test]
fn the_last_figure_typed_has_a_worth() {
    for (text, wanted) in [("214 mag", 1.0), ("214.5 mag", 0.1), ("3200 mil mag", 0.056_25), ("200.5 gon true", 0.09), ("S36E mag", 1.0)] {
        assert!((typed_step_deg(text) - wanted).abs() < 1e-9, "{text}");
    }
}

/// M and G behind a bare number may be mils and gradians.
#[test]
fn the_letter_of_a_north_is_read_where_it_is_no_unit() {
    for (text, wanted) in [
        ("190°M", North::Magnetic),
        ("190° M", North::Magnetic),
        ("190°T", North::True),
        ("190 T", North::True),
        ("190T", North::True),
        ("190°G", North::Grid),
        ("190 GN", North::Grid),
        ("190°MN", North::Magnetic),
        ("190°M mag", North::Magnetic),
        ("190T true", North::True),
        ("S10°W T", North::True),
        ("189°59.9'M", North::Magnetic),
        ("3377.8 mil GN", North::Grid),
        ("3377.8 mil G", North::Grid),
        ("S10°W M", North::Magnetic),
        ("S10W M", North::Magnetic),
    ] {
        let read = NamedBearing::parse(text);
        assert!(read.is_ok_and(|read| read.north() == wanted && (read.degrees() - 190.0).abs() < 0.01), "{text}");
    }
    assert!((typed_step_deg("190.5°M") - 0.1).abs() < 1e-9);
}

/// By hand: without its blank the text is another bearing, or none.
#[test]
fn a_blank_that_may_mean_two_bearings_is_refused() {
    for text in ["2 14 mag", "3 30 mag", "0 30 true", "2 14.5 mag", "S 0 45 E mag", "1 02 grid"] {
        assert_eq!(NamedBearing::parse(text), Err(BearingError::Blank(text.into())), "{text}");
    }
    let read = [
        "12 30 mag",
        "36 30 true",
        "2°14' mag",
        "306 52 05.4 true",
        "000 00 00 mag",
        "00 30 mag",
        "S 8 05 E mag",
        "2° 14' mag",
        "214 mag",
        " 214  mag ",
    ];
    for text in read {
        assert!(NamedBearing::parse(text).is_ok(), "{text}");
    }
}

/// By hand.
#[test]
fn the_part_of_a_bearing_that_cannot_be_read_is_named() {
    for (text, part, odd) in [
        ("214 mgnetic", "north", "mgnetic"),
        ("214° X", "north", "X"),
        ("1600 NATO mil", "unit", "NATO"),
        ("1600 NATO mil mag", "unit", "NATO"),
        ("190 M", "letter", "M"),
        ("190g", "letter", "G"),
        ("190 M mag", "unit", "M"),
        ("190°M true", "other-north", ""),
        ("190 T grid", "other-north", ""),
        ("3200mils m", "north", "m"),
        ("6300 strich mag", "unit", "strich"),
        ("200g mag", "unit", "g"),
        ("mag 214", "first", "mag"),
        ("36 mag grid", "behind", ""),
        ("214 mag 3", "behind", ""),
        ("E36S mag", "quarter", ""),
        ("N36 mag", "quarter", ""),
        ("S 3 6 E mag", "blanks", ""),
        ("nan mag", "figures", ""),
        ("1 9 0 mag", "blanks", ""),
        ("19O mag", "character", "O"),
        ("1e2 mag", "character", "e"),
        ("\u{ff11}\u{ff12} mag", "character", "\u{ff11}"),
        ("214;mag", "character", ";"),
        ("214-216 mag", "range", ""),
        ("214 \u{2013} 216 mag", "range", ""),
        ("3 200 mil mag", "blanks", ""),
        ("S 640 mil E grid", "quarter-unit", "mil"),
    ] {
        let message = NamedBearing::parse(text).expect_err(text).message();
        let said = |name| message.args.iter().find(|(known, _)| *known == name).map(|(_, arg)| arg.clone());
        assert_eq!((said("part"), said("odd")), (Some(Arg::Text(part.into())), Some(Arg::Text(odd.into()))), "{text}");
    }
}

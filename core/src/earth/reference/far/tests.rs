//! Which part of a place leads away, by hand.

#![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::{FarPart, PlaceDoubt, doubt_of};
use crate::earth::{Grid, LatLon, Terms, read_place};

fn part(text: &str, grid: &Grid, near: (f64, f64)) -> Option<FarPart> {
    let terms = Terms { grid: Some(grid), near: LatLon::new(near.0, near.1).ok(), ..Terms::default() };
    match doubt_of(text, &read_place(text, &terms).unwrap(), &terms, 10_000.0) {
        Some(PlaceDoubt::Far { part, .. }) => Some(part),
        _ => None,
    }
}

/// The sheet's middle is 216650 771250 on the British grid, 457000 4950000 in zone 33: `tests/vectors/earth/own_grids.json` has
/// the projections; what is wrong with each text is by hand.
#[test]
fn the_part_that_leads_away_from_the_sheet_is_named() {
    let (british, utm) = (Grid::named("EPSG:27700").unwrap(), Grid::named("33N").unwrap());
    for (text, wanted) in [
        ("216650 771250", None),
        ("230000 790000", None),
        ("21665 771250", Some(FarPart::EastingFigures(5, 6))),
        ("216650 77125", Some(FarPart::NorthingFigures(5, 6))),
        ("216650 671250", Some(FarPart::Northing)),
        ("316650 771250", Some(FarPart::Easting)),
        ("316650 671250", Some(FarPart::All)),
        ("NO 16650 71250", Some(FarPart::Letters)),
        ("16650 71250", None),
        ("55.797 N 5.004 W", Some(FarPart::Latitude)),
        ("56.797 N 5.004 E", Some(FarPart::Longitude)),
    ] {
        assert_eq!(part(text, &british, (56.796_556, -5.003_930)), wanted, "{text}");
    }
    for (text, wanted) in [
        ("5696 4953", None),
        ("33T WM 5696 4953", Some(FarPart::Letters)),
        ("32T NQ 5696 4953", Some(FarPart::Zone)),
        ("33 north 456960 4553000", Some(FarPart::Northing)),
        ("33 north 456960 495300", Some(FarPart::NorthingFigures(6, 7))),
        ("33 south 456960 9495300", Some(FarPart::Half)),
        ("32 north 456960 4953000", Some(FarPart::Zone)),
    ] {
        assert_eq!(part(text, &utm, (44.7, 14.457)), wanted, "{text}");
    }
}

#[test]
fn without_a_sheet_the_grids_middle_tells_a_number_with_too_few_figures() {
    let doubted = |text: &str, grid: &str| {
        let grid = Grid::named(grid).unwrap();
        let terms = Terms { grid: Some(&grid), ..Terms::default() };
        match doubt_of(text, &read_place(text, &terms).unwrap(), &terms, 0.0) {
            Some(PlaceDoubt::FewFigures { is_easting, figures, .. }) => Some((is_easting, figures)),
            _ => None,
        }
    };
    assert_eq!(doubted("21665 771250", "EPSG:27700"), Some((true, (5, 6))));
    assert_eq!(doubted("216650 77125", "EPSG:27700"), Some((false, (5, 6))));
    assert_eq!(doubted("021665 771250", "EPSG:27700"), None, "a nought that is written is no lost figure");
    assert_eq!(doubted("216650 771250", "EPSG:27700"), None);
    assert_eq!(doubted("2600000 1200000", "EPSG:2056"), None);
}

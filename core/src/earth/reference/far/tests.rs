//! Which part of a place leads away, by hand.

#![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::{FarPart, PlaceDoubt, doubt_of};
use crate::earth::{Axis, Grid, LatLon, Terms, read_place};

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
        ("222000 780000", None),
        ("230000 790000", Some(FarPart::All)),
        ("21665 771250", Some(FarPart::Figures(Axis::East, 5, 6))),
        ("216650 77125", Some(FarPart::Figures(Axis::North, 5, 6))),
        ("216650 671250", Some(FarPart::Number(Axis::North))),
        ("316650 771250", Some(FarPart::Number(Axis::East))),
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
        ("33 north 456960 4553000", Some(FarPart::Number(Axis::North))),
        ("33 north 456960 495300", Some(FarPart::Figures(Axis::North, 6, 7))),
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
            Some(PlaceDoubt::FewFigures { axis, figures, .. }) => Some((axis, figures)),
            _ => None,
        }
    };
    assert_eq!(doubted("21665 771250", "EPSG:27700"), Some((Axis::East, (5, 6))));
    assert_eq!(doubted("216650 77125", "EPSG:27700"), Some((Axis::North, (5, 6))));
    assert_eq!(doubted("021665 771250", "EPSG:27700"), None, "a nought that is written is no lost figure");
    assert_eq!(doubted("216650 771250", "EPSG:27700"), None);
    assert_eq!(doubted("2600000 1200000", "EPSG:2056"), None);
}

/// A grid of small numbers about its own origin, as a survey has it: the sheet's middle is 14500 8400, its places up to 3 km from it. By
/// hand; the middle of the sheet by `pyproj` 3.7.2.
#[test]
fn a_figure_that_was_lost_shows_in_a_grid_of_small_numbers() {
    let grid = Grid::named("+proj=tmerc +lat_0=47.8 +lon_0=9.1 +k=1 +x_0=10000 +y_0=5000 +ellps=GRS80 +towgs84=0,0,0").unwrap();
    let near = grid.unproject(crate::measure::Point::new(14_500.0, 8_400.0)).unwrap();
    let terms = Terms { grid: Some(&grid), near: Some(near), ..Terms::default() };
    for (text, wanted) in [
        ("14500 8400", None),
        ("9900 8400", None),
        ("14500 10400", None),
        ("1450 8400", Some(FarPart::Figures(Axis::East, 4, 5))),
        ("14500 840", Some(FarPart::Figures(Axis::North, 3, 4))),
        ("14500 84000", Some(FarPart::Figures(Axis::North, 5, 4))),
        ("1450 840", Some(FarPart::BothFigures)),
        ("19000 8400", None),
    ] {
        let read = read_place(text, &terms).unwrap();
        let part = match doubt_of(text, &read, &terms, 3_000.0) {
            Some(PlaceDoubt::Far { part, .. }) => Some(part),
            _ => None,
        };
        assert_eq!(part, wanted, "{text}");
    }
}

//! How places are written.

use super::at;
use crate::earth::Grid;
use crate::earth::reference::{degrees_minutes, degrees_minutes_seconds, utm_of};
use crate::measure::Point;

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

/// Two plain numbers are no square: they are cut to a tenth of one, so that none is told that the place has not reached. Exact decimals.
#[test]
fn plain_numbers_are_cut_finer_than_a_square() {
    let grid = Grid::named("EPSG:2056").expect("known");
    let place = grid.unproject(Point::new(2_600_438.4, 1_200_175.7)).expect("there");
    let written = [2, 4, 6, 8, 10].map(|digits| grid.reference(place, digits));
    assert_eq!(written, ["2600000 1200000", "2600400 1200100", "2600430 1200170", "2600438 1200175", "2600438 1200175"]);
    let turned = Grid::named("EPSG:5514").expect("known");
    let place = turned.unproject(Point::new(-743_011.0, -1_043_004.0)).expect("there");
    assert_eq!(turned.reference(place, 6), "-743020 -1043010");
}

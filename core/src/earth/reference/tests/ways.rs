//! The ways of writing that are read.

use super::{at, part};
use crate::earth::reference::{Terms, read_place};
use crate::earth::{Grid, geodesic_between};
use crate::measure::Point;

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
        "3330.75S 15115E",
        "S333045 E1511500",
        "1511500e, 333045s",
    ];
    for way in ways {
        let reading = read_place(way, &Terms::default()).expect(way);
        assert!(geodesic_between(reading.at, wanted).0 < 1e-6, "{way}");
    }
}

/// 12 m beyond the box of the register; the place by `pyproj` 3.7.2.
#[test]
fn numbers_beside_a_grids_area_are_no_exchanged_ones() {
    let grid = Grid::named("EPSG:26729").unwrap();
    let read = read_place("203521 562486", &Terms { grid: Some(&grid), ..Terms::default() }).expect("read");
    assert!(geodesic_between(read.at, at(32.043_000_220, -86.790_099_915)).0 < 0.01, "{:?}", read.at);
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
    let minutes = read_place("4657N 00727E", &terms).expect("no numbers of that grid").at;
    assert!(geodesic_between(minutes, at(46.95, 7.45)).0 < 1e-6);
    assert_eq!(part("1200000 2600000", &terms), "part-swapped");
    assert_eq!(part("2600000 9200000", &terms), "part-outside-grid");
    assert_eq!(part("600 200", &terms), "part-few-figures");
    let zone_3 = Grid::named("31467").expect("Gauss-Krueger");
    let german = Terms { grid: Some(&zone_3), ..Terms::default() };
    for short in ["3567 5928", "567 928", "67800 92800"] {
        assert_eq!(part(short, &german), "part-few-figures", "{short}");
    }
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
    // The figure of squares in the Ordnance Survey's guide, from memory.
    for (typed, without_land) in
        [("SU 123 567", None), ("HP 61 16", None), ("SV 90 11", None), ("SQ 123 456", Some("SQ")), ("HL 1 1", Some("HL"))]
    {
        let at = read_place(typed, &terms).expect("letters").at;
        assert_eq!(grid.square_without_land(at).as_deref(), without_land, "{typed}");
        assert!(!grid.is_beyond_letters(at), "{typed}");
    }
    let west = grid.unproject(Point::new(-20_000.0, 16_000.0)).expect("there");
    assert!(grid.is_beyond_letters(west) && grid.square_without_land(west).is_none());
    assert_eq!(part("NN 166 71", &terms), "part-unequal-groups");
}

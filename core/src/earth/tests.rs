//! The claims that the docs of this room make.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use super::{
    Compass, DatumShift, FarFromMiddle, Grid, GridError, LatLon, LocalFrame, Norths, date_of, geodesic_between, geodesic_from,
    magnetic_field, spaced, zone_and_square,
};
use crate::measure::{Point, TrueBearing, signed_difference_deg};

fn place(lat: f64, lon: f64) -> LatLon {
    LatLon::new(lat, lon).expect("on earth")
}

const ORIGINS: [(f64, f64); 4] = [(36.59, -84.25), (60.0, 5.0), (-41.3, 174.8), (0.0, 179.99)];

#[test]
fn the_plane_keeps_lengths_and_bearings_within_30_km() {
    for (lat, lon) in ORIGINS {
        let frame = LocalFrame::around(place(lat, lon));
        for step in 0..36 {
            let a = Point::polar(30_000.0, f64::from(step) * 10.0);
            // From 0 to 60 km apart; halfway round the rim, where the plane is worst, 34 km are 0.086 m too long.
            let b = Point::polar(30_000.0 - 25.0 * f64::from(step), f64::from(step) * 37.0);
            let (length_m, bearing, _) = geodesic_between(frame.to_earth(a), frame.to_earth(b));
            let flat = b.minus(a);
            assert!((flat.length_m() - length_m).abs() < 0.1, "{lat} {lon} step {step}: {} of {length_m}", flat.length_m());
            let turned = flat.bearing_deg() + frame.true_minus_plane_deg(a);
            let off = signed_difference_deg(turned, bearing.degrees()).abs();
            assert!(length_m < 100.0 || off < 0.0004, "{lat} {lon} step {step}: {off}");
        }
    }
}

#[test]
fn declination_plane_follows_the_model() {
    let date = date_of("2026-07-01").expect("date");
    for (lat, lon) in ORIGINS {
        let frame = LocalFrame::around(place(lat, lon));
        let norths = Norths::over(frame, Grid::of_place(frame.origin()), date).expect("norths");
        for step in 0..12 {
            let point = Point::polar(20_000.0, f64::from(step) * 30.0);
            let model = magnetic_field(frame.to_earth(point), 0.0, date).expect("field").declination_deg;
            assert!((norths.declination_deg(point) - model).abs() < 0.005, "{lat} {lon}");
        }
    }
}

#[test]
fn turning_into_the_plane_and_back_gives_the_same_bearing() {
    let date = date_of("2026-07-01").expect("date");
    let frame = LocalFrame::around(place(60.0, 5.0));
    let norths = Norths::over(frame, Grid::of_place(frame.origin()), date).expect("norths");
    let point = Point::new(12_000.0, -7_000.0);
    for degrees in [0.0, 17.0, 181.5, 359.9] {
        let magnetic = norths.to_magnetic(degrees, point);
        let plane = norths.to_plane_deg(crate::measure::NamedBearing::Magnetic(magnetic), point);
        assert!(signed_difference_deg(plane, degrees).abs() < 1e-9);
        let grid = norths.to_grid(degrees, point);
        let plane = norths.to_plane_deg(crate::measure::NamedBearing::Grid(grid), point);
        assert!(signed_difference_deg(plane, degrees).abs() < 1e-9);
    }
}

/// On NAD27 and ED50 PROJ has several shifts; numbers lead to a place that has them, by the shift of the way there.
/// Where two shifts overlap two places share their numbers, and the other one may be told. The places stand off the borders
/// themselves, which lie on round hundredths of a degree.
#[test]
fn numbers_of_a_grid_lead_back_across_the_borders_of_datum_shifts() {
    let boxes =
        [("EPSG:26719", (42.9, -70.0)), ("EPSG:26720", (48.5, -66.2)), ("EPSG:26710", (38.0, -125.3)), ("EPSG:23030", (43.0, -6.0))];
    for (name, (lat, lon)) in boxes {
        let grid = Grid::named(name).expect("grid");
        for step in 0..400 {
            let at = place(lat + 0.001_234 + 0.002_5 * f64::from(step), lon + 0.061 * f64::from(step % 20));
            let numbers = grid.project(at).expect("numbers");
            let back = grid.unproject(numbers).expect("place");
            let again = grid.project(back).expect("numbers").minus(numbers).length_m();
            assert!(again < 1e-3, "{name} {at:?}: {again}");
            assert!(geodesic_between(at, back).0 < 30.0, "{name} {at:?}");
        }
    }
}

/// Off California no shift to NAD27 is registered; inland one is. UTM on WGS 84 needs none. A PROJ string may bring its own.
///
/// # References
/// Accuracies and steps as `Transformer.get_last_used_operation` of pyproj 3.7.2 with PROJ 9.5.1 tells them at these places.
#[test]
fn what_is_known_of_a_datum_shift_is_told_apart() {
    let stated = |name: &str, lat, lon| Grid::named(name).expect("grid").datum_shift(place(lat, lon)).expect("place");
    assert_eq!(stated("EPSG:26710", 38.706, -125.028), DatumShift::Unknown);
    assert_eq!(stated("EPSG:26710", 38.7, -122.0), DatumShift::Good(7.0));
    assert_eq!(stated("EPSG:32610", 38.706, -125.028), DatumShift::Good(0.0));
    let bessel = "+proj=tmerc +lon_0=9 +x_0=3500000 +ellps=bessel +units=m";
    assert_eq!(stated(bessel, 46.5, 7.5), DatumShift::Unknown);
    assert_eq!(stated(&format!("{bessel} +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7"), 46.5, 7.5), DatumShift::OfDefinition);
    assert_eq!(stated("+proj=utm +zone=32 +ellps=GRS80", 46.5, 7.5), DatumShift::NotNamed);
    // The only shift of CH1903+ is made for Switzerland; 10 km beyond its box PROJ takes it all the same.
    assert_eq!(stated("EPSG:2056", 47.0, 8.0), DatumShift::Good(1.0));
    assert_eq!(stated("EPSG:2056", 47.9, 9.5), DatumShift::Borrowed(1.0));
    let swiss = Grid::named("EPSG:2056").expect("grid").shift_area(place(47.0, 8.0)).expect("registered");
    assert_eq!(Grid::named("EPSG:2985").expect("known").project(place(-66.5, 140.0)), Err(GridError::Unreckoned("EPSG:2985".into())));
    assert_eq!((swiss.told.as_str(), swiss.is_within), ("Liechtenstein; Switzerland", true));
    // Where another country's shift may hold and leads farther apart than is stated, that is told: Portugal's way beside Spain's. Over
    // Denmark a mean of Europe says nothing against its own way, and Tunisia's states more than it differs from that mean.
    let portugal = stated("EPSG:23029", 38.9, -7.0);
    assert!(
        matches!(portugal, DatumShift::Disputed { stated_m, apart_m, accuracy_m } if apart_m > stated_m && accuracy_m >= apart_m),
        "{portugal:?}"
    );
    assert_eq!(stated("EPSG:23032", 56.0, 9.5), DatumShift::Good(1.0));
    assert_eq!(stated("EPSG:23032", 36.8, 10.2), DatumShift::Good(44.0));
    // By 999 m the register says of ED50 over Iraq that nobody knows.
    assert_eq!(stated("EPSG:3893", 33.0, 44.0), DatumShift::NotStated);
    // No file is here: one that may be missing is left out and named, one that may not makes no grid. `@null` is no file.
    let optional = format!("{bessel} +nadgrids=@BETA2007.gsb,@null");
    assert_eq!(stated(&optional, 46.5, 7.5), DatumShift::FileMissing);
    assert_eq!(Grid::named(&optional).expect("grid").missing_shift_files().as_deref(), Some("BETA2007.gsb"));
    assert_eq!(stated(&format!("{bessel} +nadgrids=@null"), 46.5, 7.5), DatumShift::OfDefinition);
    let needed = Grid::named(&format!("{bessel} +nadgrids=BETA2007.gsb,@null"));
    assert!(matches!(needed, Err(GridError::ShiftFile(_, files)) if files == "BETA2007.gsb"));
}

/// Grids that count from Paris and in gradians, and from Ferro: the datum alone moves a place, not the meridian.
///
/// # References
/// Distances on WGS 84 (geographiclib 2.1) between a place and the same latitude and longitude on NTF and on S-JTSK, both from Greenwich,
/// by pyproj 3.7.2 with PROJ 9.5.1.
#[test]
fn a_datum_is_held_beside_wgs_84_from_greenwich() {
    for (name, lat, lon, wanted_m) in [("EPSG:27572", 48.6, 2.337, 53.629), ("EPSG:2065", 50.087, 14.421, 117.034)] {
        let off_m = Grid::named(name).expect("grid").datum_off_m(place(lat, lon)).expect("place");
        assert!((off_m - wanted_m).abs() < 0.01, "{name}: {off_m}");
    }
}

/// By hand, from half a zone of six degrees and from the scale of Mercator's projection, 1 / cos 47.8 = 1.489.
#[test]
fn a_place_far_from_the_middle_of_a_grid_without_an_area_is_doubted() {
    let far = |name: &str, lat, lon| Grid::named(name).expect("grid").far_from_middle(place(lat, lon));
    let german = "+proj=tmerc +lon_0=9 +x_0=3500000 +ellps=bessel";
    assert_eq!(far(german, 47.8, 9.1), None);
    assert!(matches!(far(german, 41.24, -28.38), Some(FarFromMiddle::OfMeridian(away_m)) if (3.1e6..3.2e6).contains(&away_m)));
    assert!(far("+proj=utm +zone=33 +ellps=GRS80 +units=us-ft", 0.5, 18.4).is_none(), "beside the zone, in feet");
    assert!(matches!(far("+proj=merc +ellps=WGS84", 47.8, 9.1), Some(FarFromMiddle::Stretched(share)) if (share - 0.487).abs() < 0.003));
    assert_eq!(far("EPSG:27700", 57.0, -4.0), None);
}

/// Flinders Peak to Buninyong: 54972.271 m, 306° 52′ 05.37″, reverse 127° 10′ 25.07″.
///
/// # References
/// Geocentric Datum of Australia technical manual (inputs from memory, on GRS 80, which differs from WGS 84 by 0.1 mm).
#[test]
fn the_geodesic_from_flinders_peak_to_buninyong() {
    let dms = |d: f64, m: f64, s: f64| d + m / 60.0 + s / 3600.0;
    let flinders = place(-dms(37.0, 57.0, 3.7203), dms(144.0, 25.0, 29.5244));
    let buninyong = place(-dms(37.0, 39.0, 10.1561), dms(143.0, 55.0, 35.3839));
    let (length_m, out, on) = geodesic_between(flinders, buninyong);
    assert!((length_m - 54_972.271).abs() < 0.001, "{length_m}");
    assert!((out.degrees() - dms(306.0, 52.0, 5.37)).abs() < 0.01 / 3600.0);
    assert!((on.back().degrees() - dms(127.0, 10.0, 25.07)).abs() < 0.01 / 3600.0);
    let (there, _) = geodesic_from(flinders, TrueBearing::new(out.degrees()), length_m);
    assert!(geodesic_between(there, buninyong).0 < 1e-6);
}

#[test]
fn references_are_spaced_for_reading() {
    assert_eq!(spaced("33TVM56964953"), "33T VM 5696 4953");
    assert_eq!(spaced("ZAH12"), "Z AH 1 2");
}

/// pyproj 3.7.2 without shift grids: WGS 84 to NAD27, OSGB 1936, CH1903+, ETRS89 and DHDN in degrees, the distance by `Geod` on WGS 84.
#[test]
fn how_far_an_older_datum_lies() {
    for (grid, lat, lon, wanted_m) in [
        ("EPSG:26711", 36.7094, -118.0981, 82.154_521),
        ("EPSG:27700", 51.31, -1.8242, 113.107_521),
        ("EPSG:2056", 46.95, 7.44, 163.899_063),
        ("EPSG:31467", 49.5, 9.2, 143.589_766),
        ("EPSG:25833", 45.0, 15.0, 0.0),
        ("EPSG:32633", 45.0, 15.0, 0.0),
    ] {
        let off_m = Grid::named(grid).unwrap().datum_off_m(place(lat, lon)).unwrap();
        assert!((off_m - wanted_m).abs() < 0.001, "{grid}: {off_m}");
    }
    let bound =
        Grid::named("+proj=tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=3500000 +ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7");
    let off_m = bound.unwrap().datum_off_m(place(49.5, 9.2)).unwrap();
    assert!((off_m - 143.589_766).abs() < 0.1, "the same seven parameters in the definition: {off_m}");
}

#[test]
fn only_a_military_reference_has_a_zone_to_part_off() {
    assert_eq!(zone_and_square("33T VM 5696 4953"), ("33T", "VM 5696 4953"));
    assert_eq!(zone_and_square("Z AH 1 2"), ("Z", "AH 1 2"));
    assert_eq!(zone_and_square("SU 387 148"), ("", "SU 387 148"));
    assert_eq!(zone_and_square("652381 6862047"), ("", "652381 6862047"));
}

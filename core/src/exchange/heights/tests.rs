//! Small files made here; the formats as other programs write them are held in `tests/rasters`.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use std::io::Cursor;
use std::ops::ControlFlow;

use tiff::encoder::{TiffEncoder, colortype};
use tiff::tags::Tag;

use super::{
    Cover, HeightSource, HeightsDoubt, HeightsFileError, ImageFault, LineFault, WantedHeights, doubted, join_heights, read_heights,
};
use crate::earth::{Grid, LatLon};
use crate::ground::{Bounds, HeightSpread, Heights, HeightsError, Lattice, Layout};

fn read(name: &str, bytes: &[u8], wanted: &WantedHeights) -> Result<Heights, HeightsFileError> {
    read_heights(name, bytes, wanted, &mut |_| ControlFlow::Continue(()))
}

fn in_utm() -> WantedHeights {
    WantedHeights { lattice: Some(Lattice::Projected(Grid::named("33N").expect("grid"))), ..WantedHeights::default() }
}

const SMALL: &str = "ncols 3\nnrows 2\nxllcorner 400000\nyllcorner 5100000\ncellsize 50\nNODATA_value -9999\n1 2 3\n4.5 -9999 6\n";

#[test]
fn an_ascii_grid_is_read_with_its_header_in_any_order() {
    let plain = read("a.asc", SMALL.as_bytes(), &in_utm()).expect("reads");
    assert_eq!(plain.values_m()[..4], [1.0, 2.0, 3.0, 4.5]);
    assert_eq!((plain.post_m(1, 1), plain.post_m(2, 1)), (None, Some(6.0)));
    let layout = plain.layout();
    let sum = [layout.west, layout.north, layout.step_east, layout.step_south];
    assert_eq!(sum, [400_025.0, 5_100_075.0, 50.0, 50.0]);
    let turned =
        "\u{feff}CELLSIZE\t50 NODATA_value -9999\r\nYLLCENTER 5100025\r\nxllcenter 400025\r\nNROWS 2 ncols 3 1 2\r\n3\r\n4.5 -9999 6";
    let other = read("a.txt", turned.as_bytes(), &in_utm()).expect("reads");
    assert_eq!((other.layout(), &other.values_m()[..4]), (layout, &plain.values_m()[..4]));
}

#[test]
fn a_wrong_ascii_grid_is_told_by_its_line() {
    let told = |text: &str| match read("a.asc", text.as_bytes(), &in_utm()) {
        Err(HeightsFileError::Line { line, fault }) => (line, fault),
        other => panic!("{text}: {other:?}"),
    };
    for (from, to, line, fault) in [
        ("4.5", "4,5", 8, LineFault::Comma),
        ("4.5", "4.5m", 8, LineFault::NoNumber),
        ("4.5", "\u{7f}é", 8, LineFault::NoNumber),
        ("4.5", "9001", 8, LineFault::Height),
        ("4.5", "1e999", 8, LineFault::Height),
        (" 6\n", "\n\n", 8, LineFault::Few),
        (" 2 3\n4.5", " 2\n4.5", 7, LineFault::Few),
        ("1 2 3\n", "", 7, LineFault::Few),
        (" 6", " 6 7", 8, LineFault::Many),
        ("nrows", "ncols", 2, LineFault::Twice),
        ("nrows 2", "rows 2", 2, LineFault::Word),
        ("nrows 2", "", 6, LineFault::Size),
        ("nrows 2", "nrows", 2, LineFault::NoNumber),
        ("nrows 2", "nrows 2.5", 2, LineFault::Size),
        ("nrows 2", "nrows -2", 2, LineFault::Size),
        ("cellsize 50", "cellsize 0", 5, LineFault::Step),
        ("cellsize 50", "cellsize 50,0", 5, LineFault::Comma),
        ("yllcorner", "dx", 6, LineFault::Corner),
    ] {
        assert_eq!(told(&SMALL.replace(from, to)), (line, fault), "{from} -> {to}");
    }
}

#[test]
fn an_ascii_grid_needs_its_grid_named_and_numbers_that_fit_it() {
    let unnamed = |text: &str| read("a.asc", text.as_bytes(), &WantedHeights::default());
    assert_eq!(unnamed(SMALL), Err(HeightsFileError::GridOfNumbers { west: 400_025.0, north: 5_100_075.0 }));
    assert_eq!(unnamed(&SMALL.replace("400000", "13").replace("5100000", "-46")), Err(HeightsFileError::GridNeeded));
    let degrees = WantedHeights { lattice: Some(Lattice::Geographic), ..WantedHeights::default() };
    assert_eq!(read("a.asc", SMALL.as_bytes(), &degrees), Err(HeightsFileError::NotDegrees));
    let elsewhere = SMALL.replace("400000", "90000000");
    assert!(matches!(read("a.asc", elsewhere.as_bytes(), &in_utm()), Err(HeightsFileError::Grid(_))));
    let one_row = SMALL.replace("nrows 2", "nrows 1");
    assert_eq!(read("a.asc", one_row.as_bytes(), &in_utm()), Err(HeightsFileError::Heights(HeightsError::Layout)));
    let huge = SMALL.replace("nrows 2", "nrows 900000").replace("ncols 3", "ncols 900000").replace("cellsize 50", "cellsize 0.001");
    assert!(matches!(read("a.asc", huge.as_bytes(), &in_utm()), Err(HeightsFileError::Heights(HeightsError::TooMany(_)))));
}

#[test]
fn what_is_no_file_of_heights_is_told() {
    assert_eq!(read("a.asc", b"", &in_utm()), Err(HeightsFileError::Unknown("a.asc".into())));
    assert_eq!(read("N46E013.hgt.zip", b"PK\x03\x04rest", &in_utm()), Err(HeightsFileError::Packed("N46E013.hgt.zip".into())));
    assert_eq!(read("tile.hgt", b"", &in_utm()), Err(HeightsFileError::Name("tile.hgt".into())));
    let short = read("N46E013.hgt", &[0; 100], &in_utm());
    assert_eq!(short, Err(HeightsFileError::Length { name: "N46E013.hgt".into(), bytes: 100 }));
    assert!(matches!(read("a.tif", b"II*\0", &in_utm()), Err(HeightsFileError::Damaged { row: 0, .. })));
}

/// A three-second tile whose heights tell their column and row.
fn tile() -> Vec<u8> {
    (0..1201_i32).flat_map(|row| (0..1201_i32).flat_map(move |column| ((column * 3 + row * 2) as i16 - 400).to_be_bytes())).collect()
}

#[test]
fn a_tile_is_cut_while_it_is_read() {
    let whole = read("N46E013.hgt", &tile(), &WantedHeights::default()).expect("reads");
    let bounds = Bounds { south_west: LatLon::new(46.25, 13.5).unwrap(), north_east: LatLon::new(46.5, 13.75).unwrap() };
    let cut = read("N46E013.hgt", &tile(), &WantedHeights { bounds: Some(bounds), ..WantedHeights::default() }).expect("reads");
    assert_eq!((cut.layout().columns, cut.layout().rows), (303, 303));
    assert_eq!(cut.spread(), HeightSpread { sigma_m: 9.73, correlation_m: 300.0 });
    for (lat, lon) in [(46.25, 13.5), (46.5, 13.75), (46.3333, 13.6111)] {
        let at = LatLon::new(lat, lon).unwrap();
        assert!((cut.at_m(at).unwrap() - whole.at_m(at).unwrap()).abs() < 1e-3, "{lat} {lon}");
        let exact = (lon - 13.0) * 1200.0 * 3.0 + (47.0 - lat) * 1200.0 * 2.0 - 400.0;
        assert!((whole.at_m(at).unwrap() - exact).abs() < 1e-3, "{lat} {lon}");
    }
    let elsewhere = Bounds { south_west: LatLon::new(44.0, 13.5).unwrap(), north_east: LatLon::new(45.0, 13.75).unwrap() };
    let outside = read("N46E013.hgt", &tile(), &WantedHeights { bounds: Some(elsewhere), ..WantedHeights::default() });
    assert_eq!(outside, Err(HeightsFileError::Outside));
}

#[test]
fn a_void_is_no_height_and_a_reading_can_be_broken_off() {
    let mut bytes = tile();
    bytes[..2].copy_from_slice(&i16::MIN.to_be_bytes());
    let heights = read("N46E013.hgt", &bytes, &WantedHeights::default()).expect("reads");
    assert_eq!((heights.post_m(0, 0), heights.post_m(1, 0)), (None, Some(-397.0)));
    let mut told = Vec::new();
    let stopped = read_heights("N46E013.hgt", &bytes, &WantedHeights::default(), &mut |share| {
        told.push(share);
        if share > 0.5 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    assert_eq!(stopped, Err(HeightsFileError::Cancelled));
    assert!(told.len() == 601 && told.is_sorted());
}

#[test]
fn neighbours_share_their_edges() {
    let bounds = Bounds { south_west: LatLon::new(46.9, 13.9).unwrap(), north_east: LatLon::new(47.1, 14.1).unwrap() };
    let wanted = WantedHeights { bounds: Some(bounds), ..WantedHeights::default() };
    let tiles = ["N46E013.hgt", "N47E014.hgt", "N46E014.hgt"].map(|name| read(name, &tile(), &wanted).expect("reads"));
    let (first, second) = (tiles[0].clone(), tiles[1].clone());
    let joined = join_heights(&tiles.each_ref()).expect("joins");
    assert_eq!((joined.layout().columns, joined.layout().rows), (243, 243));
    assert!((joined.layout().west - (13.9 - 1.0 / 1200.0)).abs() < 1e-9 && (joined.layout().north - (47.1 + 1.0 / 1200.0)).abs() < 1e-9);
    assert_eq!(joined.post_m(121, 121), first.post_m(121, 0), "the first tile's height on the shared corner");
    assert_eq!(joined.post_m(122, 0), second.post_m(1, 0));
    assert_eq!(joined.post_m(10, 10), None, "no tile reaches there");
    let coarse = Heights::new(Layout { step_east: 0.01, ..first.layout().clone() }, first.spread(), first.values_m().to_vec()).unwrap();
    assert_eq!(join_heights(&[&first, &coarse]), Err(HeightsFileError::TilesDiffer(2)));
    let off =
        Heights::new(Layout { west: first.layout().west + 0.0004, ..first.layout().clone() }, first.spread(), first.values_m().to_vec());
    assert_eq!(join_heights(&[&first, &off.unwrap()]), Err(HeightsFileError::TilesDiffer(2)));
    assert_eq!(join_heights(&[]), Err(HeightsFileError::NoTiles));
}

#[test]
fn tiles_meet_over_the_date_line() {
    let tiles = ["N46E179.hgt", "N46W180.hgt"].map(|name| read(name, &tile(), &WantedHeights::default()).expect("reads"));
    let joined = join_heights(&tiles.each_ref()).expect("joins");
    assert_eq!((joined.layout().columns, joined.layout().west.to_bits()), (2401, 179.0_f64.to_bits()));
    let far = ["N46E179.hgt", "S40W010.hgt"].map(|name| read(name, &tile(), &WantedHeights::default()).expect("reads"));
    assert!(matches!(join_heights(&far.each_ref()), Err(HeightsFileError::Heights(HeightsError::TooMany(_)))));
}

/// A picture of 3 by 2 heights with the geo tags given.
fn picture(keys: &[u16], tags: &[(u16, &str)], scale: &[f64]) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    let mut encoder = TiffEncoder::new(&mut bytes).expect("encoder");
    let mut image = encoder.new_image::<colortype::GrayI16>(3, 2).expect("image");
    image.encoder().write_tag(Tag::ModelPixelScaleTag, scale).expect("scale");
    image.encoder().write_tag(Tag::ModelTiepointTag, &[0.0, 0.0, 0.0, 400_000.0, 5_100_000.0, 0.0][..]).expect("tie");
    image.encoder().write_tag(Tag::GeoKeyDirectoryTag, keys).expect("keys");
    for (tag, text) in tags {
        image.encoder().write_tag(Tag::from_u16_exhaustive(*tag), *text).expect("text");
    }
    image.write_data(&[1, 2, 3, 4, -32_768, 6]).expect("data");
    bytes.into_inner()
}

const UTM_33: [u16; 16] = [1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32_633];
const SCALE: [f64; 3] = [50.0, 40.0, 0.0];

#[test]
fn a_picture_is_placed_by_its_tags() {
    let heights = read("a.tif", &picture(&UTM_33, &[], &SCALE), &WantedHeights::default()).expect("reads");
    assert_eq!((heights.post_m(0, 1), heights.post_m(1, 1)), (Some(4.0), None));
    let layout = heights.layout();
    assert_eq!([layout.west, layout.north, layout.step_east, layout.step_south], [400_025.0, 5_099_980.0, 50.0, 40.0]);
    assert_eq!(layout.lattice, Lattice::Projected(Grid::named("EPSG:32633").unwrap()));
    let mut points = UTM_33;
    points[11] = 2;
    let heights = read("a.tif", &picture(&points, &[], &SCALE), &WantedHeights::default()).expect("reads");
    assert_eq!((heights.layout().west, heights.layout().north), (400_000.0, 5_100_000.0));
}

#[test]
fn feet_are_turned_into_metres_and_what_is_stored_otherwise_is_refused() {
    let item = |role: &str, text: &str| format!("<GDALMetadata><Item name=\"x\" sample=\"0\" role=\"{role}\">{text}</Item></GDALMetadata>");
    let with = |role: &str, text: &str| read("a.tif", &picture(&UTM_33, &[(42_112, &item(role, text))], &SCALE), &WantedHeights::default());
    let feet = with("unittype", "ft").expect("reads");
    assert!((feet.post_m(2, 1).unwrap() - 6.0 * 0.3048).abs() < 1e-6);
    assert_eq!(with("unittype", "fathom"), Err(HeightsFileError::Image(ImageFault::Unit("fathom".into()))));
    assert_eq!(with("scale", "0.1"), Err(HeightsFileError::Image(ImageFault::Scaled)));
    assert_eq!(with("offset", "100"), Err(HeightsFileError::Image(ImageFault::Scaled)));
    assert!(with("scale", "1").is_ok() && with("offset", "0").is_ok());
}

/// Key 4096 is a vertical system by its EPSG number, 4099 its unit. Units of the systems: EPSG registry v11.
#[test]
fn the_unit_of_heights_is_that_of_the_keys() {
    let first_m = |more: &[u16], wanted: &WantedHeights| {
        let mut keys = UTM_33.to_vec();
        keys[3] += u16::try_from(more.len() / 4).unwrap();
        keys.extend(more);
        read("a.tif", &picture(&keys, &[], &SCALE), wanted).map(|heights| heights.post_m(0, 0).unwrap())
    };
    let plain = WantedHeights::default();
    let us_foot_m = 1200.0 / 3937.0;
    for (more, metres) in [
        (&[4099, 0, 1, 9002][..], 0.3048),
        (&[4099, 0, 1, 9003], us_foot_m),
        (&[4096, 0, 1, 6360], us_foot_m),
        (&[4096, 0, 1, 8228], 0.3048),
        (&[4096, 0, 1, 5703], 1.0),
        (&[4096, 0, 1, 6360, 4099, 0, 1, 9002], 0.3048),
        (&[4096, 0, 1, 5103, 4099, 0, 1, 9003], us_foot_m),
        (&[4096, 0, 1, 32_767, 4099, 0, 1, 9002], 0.3048),
    ] {
        let read_m = first_m(more, &plain).expect("reads");
        assert!((read_m - metres).abs() < 1e-7, "{more:?}: {read_m}");
    }
    let fault = |more: &[u16]| first_m(more, &plain);
    let unit = |code: &str| Err(HeightsFileError::Image(ImageFault::Unit(code.into())));
    assert_eq!(fault(&[4096, 0, 1, 5103]), unit("EPSG:5103"), "a number of the first edition, which names a datum alone");
    assert_eq!(fault(&[4096, 0, 1, 32_767]), unit("EPSG:32767"));
    assert_eq!(fault(&[4099, 0, 1, 9014]), unit("EPSG:9014"));
    assert_eq!(fault(&[4096, 0, 1, 5703, 4099, 0, 1, 9002]), Err(HeightsFileError::Image(ImageFault::Units)));
    assert_eq!(fault(&[4096, 0, 1, 6357]), Err(HeightsFileError::Image(ImageFault::Depths)));
    let named = WantedHeights { unit_m: Some(0.3048), ..plain.clone() };
    assert!((first_m(&[], &named).unwrap() - 0.3048).abs() < 1e-7);
    assert!((first_m(&[4096, 0, 1, 5703], &named).unwrap() - 1.0).abs() < 1e-7, "what the file states counts");
}

/// EPSG registry v11: 4979 and 4937 have a height above the ellipsoid as third axis, 5703 is above the sea; the codes 5001 to 5033 of the
/// first edition of the standard are ellipsoids.
#[test]
fn heights_above_the_ellipsoid_are_read_and_told() {
    for (more, is_told) in [
        (&[4096, 0, 1, 4979][..], true),
        (&[4096, 0, 1, 4937], true),
        (&[4096, 0, 1, 5030, 4099, 0, 1, 9001], true),
        (&[4096, 0, 1, 5703], false),
        (&[], false),
    ] {
        let mut keys = UTM_33.to_vec();
        keys[3] += u16::try_from(more.len() / 4).unwrap();
        keys.extend(more);
        let bytes = picture(&keys, &[], &SCALE);
        let (heights, doubts) = doubted(&bytes, read("a.tif", &bytes, &WantedHeights::default()).expect("reads")).expect("doubted");
        assert!((heights.post_m(0, 0).unwrap() - 1.0).abs() < 1e-7, "{more:?}");
        assert_eq!(doubts.contains(&HeightsDoubt::Ellipsoidal), is_told, "{more:?}: {doubts:?}");
    }
}

#[test]
fn heights_beside_a_grid_in_feet_need_their_unit() {
    let feet = |unit_m: Option<f64>| {
        let lattice = Some(Lattice::Projected(Grid::named("EPSG:2227").expect("grid")));
        let text = SMALL.replace("400000", "6000000").replace("5100000", "2100000");
        read("a.asc", text.as_bytes(), &WantedHeights { lattice, unit_m, ..WantedHeights::default() })
    };
    assert_eq!(feet(None), Err(HeightsFileError::UnitNeeded("EPSG:2227".into())));
    assert!((feet(Some(0.3048)).expect("reads").post_m(2, 0).unwrap() - 3.0 * 0.3048).abs() < 1e-6);
}

#[test]
fn a_picture_without_a_usable_place_is_refused() {
    let bare = |keys: &[u16]| read("a.tif", &picture(keys, &[], &SCALE), &WantedHeights::default());
    assert_eq!(bare(&[1, 1, 0, 0]), Err(HeightsFileError::GridNeeded));
    assert!(read("a.tif", &picture(&[1, 1, 0, 0], &[], &SCALE), &in_utm()).is_ok());
    assert_eq!(bare(&[1, 1, 0, 2, 1024, 0, 1, 2, 2048, 0, 1, 4267]), Err(HeightsFileError::Datum("EPSG:4267".into())));
    assert_eq!(bare(&[1, 1, 0, 2, 1024, 0, 1, 2, 2048, 0, 1, 4326]), Err(HeightsFileError::NotDegrees));
    let unknown = bare(&[1, 1, 0, 2, 1024, 0, 1, 1, 3072, 0, 1, 1]);
    assert!(matches!(unknown, Err(HeightsFileError::Grid(_))), "{unknown:?}");
    for scale in [[-50.0, 40.0, 0.0], [50.0, -40.0, 0.0], [0.0, 40.0, 0.0], [f64::NAN, 40.0, 0.0]] {
        let turned = read("a.tif", &picture(&UTM_33, &[], &scale), &WantedHeights::default());
        assert_eq!(turned, Err(HeightsFileError::Image(ImageFault::Turned)));
    }
    let void = read("a.tif", &picture(&UTM_33, &[(42_113, "6")], &SCALE), &WantedHeights::default());
    assert_eq!(void, Err(HeightsFileError::Post { column: 2, row: 2, number: -32_768.0 }), "a file that names another void");
}

#[test]
fn forest_widens_the_spread_and_a_stated_one_is_kept() {
    let stated = HeightSpread { sigma_m: 2.0, correlation_m: 20.0 };
    for source in [HeightSource::Unknown, HeightSource::Srtm, HeightSource::Aster, HeightSource::ThirdArcSecond, HeightSource::Laser] {
        assert!(source.spread(Cover::Forest).sigma_m > source.spread(Cover::Open).sigma_m);
    }
    // The specification's 16 m at 90 % (two-sided factor 1.645).
    assert!((HeightSource::Srtm.spread(Cover::Open).sigma_m - 16.0 / 1.645).abs() < 0.01);
    assert_eq!(HeightSource::Stated(stated).spread(Cover::Forest), stated);
}

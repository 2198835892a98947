//! A file that is brought in where the sheet has something like it already, and the same file on either way in. Constructed files.

use gatepost_core::engine::{Answer, Brought, Config, Engine, Record, Reply};
use gatepost_core::exchange::{Format, SheetFormat, Wanted, read_features, read_sheet};
use serde_json::{Value, json};

use crate::imports_minded::{plain, told};

const AT: &str = "2026-05-04T08:00:00Z";

fn engine() -> Engine {
    Engine::open(&Config::default()).unwrap()
}

fn bring(engine: &mut Engine, file: &Brought<'_>) -> Reply {
    engine.bring(&Brought { at: Some(AT), ..*file }, &mut |_| true).unwrap()
}

fn features(engine: &mut Engine, features: &[Value]) -> Vec<String> {
    let bytes = json!({ "type": "FeatureCollection", "features": features }).to_string().into_bytes();
    plain(&bring(engine, &Brought { name: "valley.geojson", bytes: &bytes, ..Brought::default() }))
}

fn line(properties: Value, points: Value) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "LineString", "coordinates": points } })
}

fn mark(properties: Value, lon: f64, lat: f64) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "Point", "coordinates": [lon, lat] } })
}

/// Tags of open maps, records without names, heights in two units, a spread, a known point, a line there and back, an area.
fn drawing() -> Vec<Value> {
    let square = json!([[[14.53, 46.0], [14.531, 46.0], [14.531, 46.001], [14.53, 46.001], [14.53, 46.0]]]);
    vec![
        line(json!({ "name": "Mill road", "highway": "tertiary" }), json!([[14.5, 46.0], [14.5, 46.02]])),
        line(json!({ "waterway": "stream" }), json!([[14.51, 46.0], [14.51, 46.02]])),
        line(json!({ "name": "Alder way" }), json!([[14.52, 46.0], [14.52, 46.02], [14.52, 46.0]])),
        mark(json!({ "name": "Far tower", "man_made": "tower", "height": "40 ft", "ele": 512 }), 14.53, 46.01),
        mark(json!({ "name": "Old mast", "kind": "mast", "height_m": 35, "spread_m": 20 }), 14.54, 46.01),
        mark(json!({ "natural": "peak", "ele": "812" }), 14.55, 46.01),
        mark(json!({ "name": "Gate", "on": "Mill road" }), 14.5, 46.01),
        json!({ "type": "Feature", "properties": { "building": "church" }, "geometry": { "type": "Polygon", "coordinates": square } }),
    ]
}

#[test]
fn one_file_makes_one_sheet_on_either_way_in() {
    for head in [json!(null), json!({ "name": "Drawn", "position_spread_m": 8.0, "grid": "EPSG:32633" })] {
        let text = json!({ "type": "FeatureCollection", "sheet": head, "features": drawing() }).to_string();
        let wanted = Wanted { format: Some(Format::GeoJson), ..Wanted::default() };
        let on = &mut |_| gatepost_core::exchange::Continue::On;
        let file = read_features(text.as_bytes(), &wanted, &|_, _| Ok(Vec::new()), on).unwrap();
        let sheet = read_sheet(&text, SheetFormat::GeoJson).unwrap().draft;
        assert_eq!(sheet, file.into_draft("Mill road").0);
        let marks: Vec<_> = sheet.landmarks.iter().map(|mark| (mark.name.as_str(), mark.kind.as_str(), mark.height_m)).collect();
        let expected = [
            ("Far tower", "tower", Some(12.192)),
            ("Old mast", "mast", Some(35.0)),
            ("summit 1", "summit", None),
            ("church 1", "church", None),
        ];
        assert_eq!(marks, expected);
        assert!((sheet.landmarks[1].spread_m - 20.0).abs() < 1e-9);
        let spots: Vec<f64> = sheet.paper.spots.iter().map(|spot| spot.height_m).collect();
        assert_eq!(spots, [512.0, 812.0]);
        // A drawing that speaks of its sheet has that sheet's spread; any other that of such files.
        let usual_m = if head.is_null() { 5.0 } else { 0.0 };
        assert!((sheet.landmarks[0].spread_m - usual_m).abs() < 1e-9, "{:?}", sheet.landmarks[0]);
        // And what is told of it is told on both.
        let carried: Record = serde_json::from_value(json!({ "do": "carry", "at": AT, "format": "geojson", "text": text })).unwrap();
        let carried = engine().tell(&carried).unwrap();
        let brought = bring(&mut engine(), &Brought { name: "Mill road.geojson", bytes: text.as_bytes(), ..Brought::default() });
        assert_eq!(carried.snapshot.sheet, brought.snapshot.sheet);
        for said in ["One line says no kind and is taken as track: Alder way.", "One line comes over its own ground again"] {
            assert!(told(&plain(&carried), said) && told(&plain(&brought), said), "{said}: {:?} {:?}", carried.said, brought.said);
        }
    }
}

/// EPSG register: the shift from DHDN (EPSG:31467) that holds for all of Germany west of the old border is good to 3 m or worse.
#[test]
fn a_coarse_shift_is_told_and_stands_in_the_spreads_on_either_way_in() {
    let crs = json!({ "type": "name", "properties": { "name": "urn:ogc:def:crs:EPSG::31467" } });
    let all = [
        line(json!({ "name": "Mill road", "highway": "track" }), json!([[3_513_000, 5_400_000], [3_514_000, 5_401_000]])),
        mark(json!({ "name": "Old mast", "kind": "mast", "spread_m": 4 }), 3_513_500.0, 5_400_200.0),
    ];
    let text = json!({ "type": "FeatureCollection", "crs": crs, "features": all }).to_string();
    let read = read_sheet(&text, SheetFormat::GeoJson).unwrap();
    let gatepost_core::exchange::GridUsed { grid, at, .. } = &read.grids[0];
    let metres = grid.datum_shift(*at).unwrap().accuracy_m().unwrap();
    assert!(metres >= 1.0, "{metres}");
    assert!((read.draft.landmarks[0].spread_m - 4.0_f64.hypot(metres)).abs() < 1e-9, "{:?}", read.draft.landmarks[0]);
    assert!((read.draft.lines[0].spread_m - 5.0_f64.hypot(metres)).abs() < 1e-9, "{:?}", read.draft.lines[0].spread_m);
    let carried: Record = serde_json::from_value(json!({ "do": "carry", "at": AT, "format": "geojson", "text": text })).unwrap();
    let carried = plain(&engine().tell(&carried).unwrap());
    let brought = plain(&bring(&mut engine(), &Brought { name: "a.geojson", bytes: text.as_bytes(), ..Brought::default() }));
    for said in [carried, brought] {
        assert!(
            told(&said, "shift") && told(&said, "Compare a place that you know with the map") || told(&said, "compare a place"),
            "{said:?}"
        );
        assert!(told(&said, "stand in the spread of each of its lines and landmarks"), "{said:?}");
    }
}

#[test]
fn what_may_be_one_of_the_sheet_is_named() {
    let lane =
        |name: &str, kind: &str, lon: f64| line(json!({ "name": name, "kind": kind }), json!([[lon, 46.0], [lon, 46.01], [lon, 46.02]]));
    let mast = |name: Value, kind: &str, lat: f64| mark(json!({ "name": name, "kind": kind }), 14.52, lat);
    let of = |before: &[Value], after: &[Value]| {
        let mut engine = engine();
        features(&mut engine, before);
        features(&mut engine, after)
    };
    // 0.004 degrees of longitude at 46.01 are 309 m, 0.00003 of latitude 3 m (sphere of 6371 km).
    let moved = of(&[lane("Low Lane", "track", 14.5)], &[lane("Low Lane", "road", 14.504)]);
    assert!(told(&moved, "Low Lane (track) → Low Lane 2 (road), 309 m"), "{moved:?}");
    let renamed = of(&[mast(json!("Old mast"), "mast", 46.01)], &[mast(json!("New mast"), "mast", 46.01003)]);
    assert!(told(&renamed, "Old mast (mast) → New mast (mast), 3 m"), "{renamed:?}");
    let named = of(&[mast(json!(null), "mast", 46.01)], &[mast(json!("New mast"), "mast", 46.01)]);
    assert!(told(&named, "mast 1 (mast) → New mast (mast), 0 m"), "{named:?}");
    let other = of(&[mast(json!("Far point"), "mast", 46.01)], &[mast(json!("Far point"), "tower", 46.02)]);
    assert!(told(&other, "Far point (mast) → Far point 2 (tower), 1112 m"), "{other:?}");
    // A file that has both says itself that they are two.
    let both = of(&[lane("Low Lane", "track", 14.5)], &[lane("Low Lane", "track", 14.5), lane("Low Lane", "road", 14.504)]);
    assert!(!told(&both, "may be"), "{both:?}");
    let both = [mast(json!("Old mast"), "mast", 46.01), mast(json!("New mast"), "mast", 46.01003)];
    assert!(!told(&of(&both[..1], &both), "may be"));
}

#[test]
fn what_a_file_says_of_a_sheet_that_is_open_is_told_to_be_unused() {
    let file = |head: Value| json!({ "type": "FeatureCollection", "sheet": head, "features": drawing() }).to_string();
    let bring_to = |engine: &mut Engine, text: &str| {
        plain(&bring(engine, &Brought { name: "a.geojson", bytes: text.as_bytes(), ..Brought::default() }))
    };
    let mut engine = engine();
    let own = json!({ "name": "Drawn", "position_spread_m": 8.0 });
    assert!(!told(&bring_to(&mut engine, &file(own.clone())), "keeps its own"));
    assert!(!told(&bring_to(&mut engine, &file(own)), "keeps its own"));
    let said = bring_to(&mut engine, &file(json!({ "name": "Drawn", "position_spread_m": 12.0 })));
    assert!(told(&said, "says it otherwise than the open sheet, which keeps its own"), "{said:?}");
}

/// The second stretch has one point; the line came in, and nothing is left out by its name.
#[test]
fn a_stretch_of_one_point_is_told() {
    let point = |lat: f64| format!("<trkpt lat='{lat}' lon='14.5'/>");
    let whole = format!("<trkseg>{}{}</trkseg>", point(46.0), point(46.02));
    let text = format!("<gpx version='1.1'><trk><name>Velm</name>{whole}<trkseg>{}</trkseg></trk></gpx>", point(46.04));
    let said = plain(&bring(&mut engine(), &Brought { name: "velm.gpx", bytes: text.as_bytes(), ..Brought::default() }));
    assert!(told(&said, "stretches of a single point, which lead nowhere and are left out (how many): Velm (1)."), "{said:?}");
}

/// A view beside a table: what is told of layers and of records is one.
#[test]
fn a_view_of_a_geopackage_is_told_as_left_out_once() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("area.gpkg");
    std::fs::copy(gatepost_conformance::root().join("tests/fuzz/seeds/geopackage/whole"), &path).unwrap();
    let brought = |bytes: &[u8]| bring(&mut engine(), &Brought { name: "area.gpkg", bytes, has_no_log: true, ..Brought::default() });
    assert!(told(&plain(&brought(&std::fs::read(&path).unwrap())), "; no record left out."));
    let database = rusqlite::Connection::open(&path).unwrap();
    database
        .execute_batch(
            "CREATE VIEW high AS SELECT * FROM marks;
             INSERT INTO gpkg_contents VALUES ('high', 'features');
             INSERT INTO gpkg_geometry_columns VALUES ('high', 'geom', 'GEOMETRY', 4326);",
        )
        .unwrap();
    drop(database);
    let reply = brought(&std::fs::read(&path).unwrap());
    let said = plain(&reply);
    assert!(told(&said, "; one layer left out.") && !told(&said, "no record left out"), "{said:?}");
    assert!(told(&said, "One layer of the file is a view, not a table of its own, and was left out: high."), "{said:?}");
    assert!(matches!(reply.answer, Some(Answer::ImportedFeatures { landmarks: 1, left_out: 0, .. })), "{:?}", reply.answer);
}

fn on_road() -> Engine {
    let mut engine = engine();
    features(&mut engine, &[line(json!({ "name": "Mill road", "highway": "track" }), json!([[14.5, 46.004], [14.505, 46.006]]))]);
    engine
}

/// One void of 3600 posts is 0.03 %.
#[test]
fn every_gap_is_told_of() {
    let heights = |voids: usize| {
        let posts = "300 ".repeat(3600 - voids) + &"-9999 ".repeat(voids);
        let text = "ncols 60\nnrows 60\nxllcenter 461000\nyllcenter 5094500\ncellsize 20\n".to_owned() + &posts;
        let file = Brought { name: "plane.asc", bytes: text.as_bytes(), grid: Some("EPSG:32633"), ..Brought::default() };
        plain(&bring(&mut on_road(), &file))
    };
    assert!(!told(&heights(0), "gaps of the file"));
    assert!(told(&heights(1), "Less than 0.1 % of the heights that are kept have no height"), "{:?}", heights(1));
    assert!(told(&heights(72), "2 % of the heights that are kept have no height"), "{:?}", heights(72));
}

/// EPSG register: 2227 is California zone 3 in US survey feet, 26943 the same in metres; 6360 counts heights in US survey feet.
#[test]
fn a_prj_file_in_another_unit_names_the_unit() {
    let mut engine = engine();
    let grid = gatepost_core::earth::Grid::named("EPSG:26943").unwrap();
    let at = |east: f64, north: f64| {
        let at = grid.unproject(gatepost_core::measure::Point::new(east, north)).unwrap();
        json!([at.lon_deg(), at.lat_deg()])
    };
    let road = json!([at(1_900_000.0, 600_000.0), at(1_900_300.0, 600_300.0)]);
    features(&mut engine, &[line(json!({ "name": "Mill road", "highway": "track" }), road)]);
    let text = "ncols 60\nnrows 60\nxllcenter 1899500\nyllcenter 599500\ncellsize 20\n".to_owned() + &"300 ".repeat(3600);
    let mut heights = |prj: &str| {
        let file = Brought { name: "a.asc", bytes: text.as_bytes(), grid: Some("EPSG:26943"), prj: Some(prj), ..Brought::default() };
        plain(&bring(&mut engine, &file))
    };
    let said = heights("EPSG:2227");
    assert!(told(&said, "in the unit US survey foot; ") && told(&said, "in the unit metre, as named for it"), "{said:?}");
    let said = heights("EPSG:26943+6360");
    assert!(told(&said, "counts heights in a unit of 0.3048 m; they were taken in one of 1.0000 m"), "{said:?}");
    assert!(!told(&heights("EPSG:26943"), ".prj file"));
}

//! What is told of a file that lies far off, of names that several have or none has, and of spreads that nobody states. Constructed files.

use gatepost_core::engine::{Brought, Config, Engine, Refusal, Reply};
use serde_json::{Value, json};

use crate::imports_minded::{plain, told};

const AT: &str = "2026-05-04T08:00:00Z";

fn engine() -> Engine {
    Engine::open(&Config::default()).unwrap()
}

fn bring(engine: &mut Engine, features: &[Value]) -> Result<Reply, Refusal> {
    let bytes = json!({ "type": "FeatureCollection", "features": features }).to_string().into_bytes();
    engine.bring(&Brought { at: Some(AT), name: "valley.geojson", bytes: &bytes, ..Brought::default() }, &mut |_| true)
}

fn mark(properties: Value, lon: f64, lat: f64) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "Point", "coordinates": [lon, lat] } })
}

fn peak(name: &str, lon: f64, lat: f64) -> Value {
    mark(json!({ "name": name, "natural": "peak" }), lon, lat)
}

fn line(properties: Value, lon: f64) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "LineString", "coordinates": [[lon, 46.0], [lon, 46.02]] } })
}

/// Nine summits and one with its latitude and longitude exchanged, the first, the last or in between.
#[test]
fn of_a_file_the_record_away_from_the_others_is_named() {
    for place in [0, 4, 9] {
        let mut all: Vec<Value> = (0..9).map(|number| peak(&format!("Good {number}"), 14.5 + f64::from(number) / 100.0, 46.0)).collect();
        all.insert(place, peak("Turned", 46.0, 14.5));
        let mut engine = engine();
        let refused = bring(&mut engine, &all).unwrap_err();
        let sentence = refused.view(engine.words()).sentence;
        assert_eq!(refused.code(), "import-far");
        assert!(sentence.contains("\"Turned\" at 14.5000, 46.0000") && !sentence.contains("Good"), "{sentence}");
        assert!(
            sentence.contains("from where most of the file lies") && sentence.contains("latitude and longitude exchanged"),
            "{sentence}"
        );
        all.extend([peak("Lost", 60.0, 46.0), peak("Also lost", 60.0, 47.0)]);
        let sentence = bring(&mut engine, &all).unwrap_err().view(engine.words()).sentence;
        assert!(sentence.contains("2 more lie away: Lost, Also lost.") && !sentence.contains("exchanged"), "{sentence}");
    }
}

/// 3 degrees of a meridian near 47 north are 333.5 km (GRS 80, from memory); a sheet reaches as far when it grows to both sides.
#[test]
fn a_file_far_from_the_sheet_is_taken_and_told() {
    let mut engine = engine();
    let first = bring(&mut engine, &[peak("A", 14.5, 46.0)]).unwrap();
    assert!(!told(&plain(&first), "from all that was on the sheet"), "{:?}", first.said);
    let near = bring(&mut engine, &[peak("B", 14.5, 46.05)]).unwrap();
    assert!(!told(&plain(&near), "from all that was on the sheet"), "{:?}", near.said);
    let far = bring(&mut engine, &[peak("C", 14.5, 49.05), peak("D", 14.5, 49.1)]).unwrap();
    assert!(told(&plain(&far), "What came in lies 333.5 km from all that was on the sheet before."), "{:?}", far.said);
    assert!(told(&plain(&far), "0 lines, 2 landmarks"), "{:?}", far.said);
}

#[test]
fn names_that_several_landmarks_have_or_none_has_are_told_as_the_sheet_has_them() {
    let mut engine = engine();
    let all = [peak("Bald", 14.5, 46.0), peak("bald", 14.6, 46.0), mark(json!({ "nom": "Kirk" }), 14.55, 46.0)];
    let said = plain(&bring(&mut engine, &all).unwrap());
    assert!(told(&said, "One name is that of several landmarks of the file, numbered from 2 on (how many): Bald (2)."), "{said:?}");
    assert!(told(&said, "One landmark has neither a name nor a kind in the file and is called landmark 1."), "{said:?}");
    let more = [mark(json!({}), 14.56, 46.0), line(json!({}), 14.5), line(json!({ "name": "Velm" }), 14.52), line(json!({}), 14.54)];
    let said = plain(&bring(&mut engine, &more).unwrap());
    assert!(told(&said, "is called landmark 2.") && told(&said, "taken as track: track 1, Velm, track 2."), "{said:?}");
    let said = plain(&bring(&mut engine, &[line(json!({}), 14.58)]).unwrap());
    assert!(told(&said, "taken as track: track 3."), "{said:?}");
}

/// The root of 5 m of such files and 5.7 m of a map, squared, is 7.6 m; 1.96 times that are 15 m.
#[test]
fn spreads_that_a_file_does_not_state_are_told_once() {
    let stated = mark(json!({ "name": "Mast", "kind": "mast", "spread_m": 3 }), 14.5, 46.0);
    let said = plain(&bring(&mut engine(), std::slice::from_ref(&stated)).unwrap());
    assert!(!told(&said, "states no spread"), "{said:?}");
    let said = plain(&bring(&mut engine(), &[stated, peak("A", 14.5, 46.01), peak("B", 14.5, 46.02)]).unwrap());
    assert_eq!(said.iter().filter(|one| one.contains("states no spread")).count(), 1, "{said:?}");
    assert!(told(&said, "For 2 landmarks") && told(&said, "They count as ± 15 m (95 %)"), "{said:?}");
}

/// A kind under a tag that no table knows is taken as a landmark, and told like one under `kind`, which is kept.
#[test]
fn kinds_of_landmarks_that_are_not_known_are_told_however_they_are_said() {
    let all =
        [mark(json!({ "name": "Hiss", "natural": "geyser" }), 14.5, 46.0), mark(json!({ "name": "Oak", "kind": "oak" }), 14.5, 46.01)];
    let said = plain(&bring(&mut engine(), &all).unwrap());
    assert!(told(&said, "natural=geyser (1: landmark), oak (1: oak)."), "{said:?}");
}

/// Two layers in grids, one of them on the wrong side of its zone: British National Grid (EPSG:27700) ends at 2 degrees east.
#[test]
fn of_several_layers_the_one_outside_its_grid_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("area.gpkg");
    std::fs::copy(gatepost_conformance::root().join("tests/fuzz/seeds/geopackage/whole"), &path).unwrap();
    let point = |grid: i32, east: f64, north: f64| {
        let head = [b"GP\0\x01".as_slice(), &grid.to_le_bytes(), b"\x01\x01\0\0\0"].concat();
        [head, east.to_le_bytes().to_vec(), north.to_le_bytes().to_vec()].concat()
    };
    let database = rusqlite::Connection::open(&path).unwrap();
    database.execute_batch("DELETE FROM gpkg_contents; DELETE FROM gpkg_geometry_columns;").unwrap();
    for (layer, grid, east, north) in [("home", 32_633, 461_000.0, 5_094_500.0), ("abroad", 27_700, 1_000_000.0, 200_000.0)] {
        database
            .execute_batch(&format!(
                "INSERT OR REPLACE INTO gpkg_spatial_ref_sys (srs_name, srs_id, organization, organization_coordsys_id, definition)
                 VALUES ('', {grid}, 'EPSG', {grid}, '');
                 INSERT INTO gpkg_contents (table_name, data_type) VALUES ('{layer}', 'features');
                 INSERT INTO gpkg_geometry_columns VALUES ('{layer}', 'geom', 'GEOMETRY', {grid});
                 CREATE TABLE {layer} (fid INTEGER PRIMARY KEY, geom BLOB, name TEXT);"
            ))
            .unwrap();
        database.execute(&format!("INSERT INTO {layer} VALUES (1, ?1, '{layer}')"), [point(grid, east, north)]).unwrap();
    }
    drop(database);
    let bytes = std::fs::read(&path).unwrap();
    // Both together are no sheet; each alone is one.
    let file = Brought { at: Some(AT), name: "area.gpkg", bytes: &bytes, has_no_log: true, ..Brought::default() };
    let area = |borders: &[f64]| plain(&engine().bring(&Brought { area_deg: Some(borders), ..file }, &mut |_| true).unwrap());
    for borders in [[45.0, 14.0, 47.0, 15.0], [40.0, 0.0, 60.0, 10.0]] {
        let said = area(&borders);
        assert!(told(&said, "What the layer abroad of this file holds lies"), "{said:?}");
        assert!(!told(&said, "the layer home"), "{said:?}");
    }
}

//! What is told where a file and the sheet, or a file and what is named for it, do not say the same. Constructed files.

use gatepost_core::engine::{Brought, Config, Engine, Record, Reply};
use gatepost_core::exchange::checked_size;
use gatepost_core::sheet::{DraftLine, SheetDraft};
use serde_json::{Value, json};

const AT: &str = "2026-05-04T08:00:00Z";

fn engine() -> Engine {
    Engine::open(&Config::default()).unwrap()
}

fn bring(engine: &mut Engine, file: &Brought<'_>) -> Vec<String> {
    plain(&engine.bring(&Brought { at: Some(AT), ..*file }, &mut |_| true).unwrap())
}

fn tell(engine: &mut Engine, record: Value) -> Vec<String> {
    let record: Record = serde_json::from_value(record).unwrap();
    plain(&engine.tell(&record).unwrap())
}

/// What is said, its blanks all plain.
pub(crate) fn plain(reply: &Reply) -> Vec<String> {
    reply.said.iter().map(|said| said.replace('\u{a0}', " ")).collect()
}

/// Whether one of the sentences has a text in it.
pub(crate) fn told(said: &[String], what: &str) -> bool {
    said.iter().any(|one| one.contains(what))
}

fn features(engine: &mut Engine, features: &[Value]) -> Vec<String> {
    let bytes = json!({ "type": "FeatureCollection", "features": features }).to_string().into_bytes();
    bring(engine, &Brought { name: "valley.geojson", bytes: &bytes, ..Brought::default() })
}

fn line(properties: Value, points: Value) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "LineString", "coordinates": points } })
}

fn mark(properties: Value) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "Point", "coordinates": [14.52, 46.01] } })
}

#[test]
fn a_landmark_that_the_file_tells_otherwise_than_the_sheet_is_named() {
    let road = line(json!({ "name": "Mill road", "highway": "tertiary" }), json!([[14.5, 46.0], [14.5, 46.02]]));
    let mast = |kind: &str, height: Value| mark(json!({ "name": "Old mast", "kind": kind, "height_m": height }));
    let mut engine = engine();
    features(&mut engine, &[road.clone(), mast("mast", json!(30))]);
    assert!(!told(&features(&mut engine, &[mast("mast", json!(30))]), "otherwise"));
    assert!(!told(&features(&mut engine, &[mast("mast", json!(null))]), "otherwise"), "nothing is said of the height");
    let higher = features(&mut engine, &[mast("mast", json!(45))]);
    assert!(told(&higher, "One landmark is on the sheet already, but otherwise than in the file"), "{higher:?}");
    assert!(told(&higher, "Old mast (30 m → 45 m)"), "{higher:?}");
    let other = features(&mut engine, &[mast("tower", json!(30))]);
    assert!(told(&other, "nothing new") && told(&other, "Old mast (mast → tower)"), "{other:?}");
    // A second thing of that name, of another kind, beside the first in one file, is a thing of its own.
    let both = features(&mut engine, &[mast("mast", json!(30)), mast("tower", json!(30))]);
    assert!(told(&both, "one landmark"), "{both:?}");
}

#[test]
fn ways_with_a_level_and_no_bridge_are_told() {
    let way = |name: &str, more: Value, points: Value| {
        let mut properties = json!({ "name": name, "highway": "path" });
        properties.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        line(properties, points)
    };
    let east = json!([[14.49, 46.01], [14.51, 46.01]]);
    let north = json!([[14.5, 46.0], [14.5, 46.02]]);
    let said = |more: Value| {
        let mut engine = engine();
        let said = features(&mut engine, &[way("High path", more, east.clone()), way("Low path", json!({}), north.clone())]);
        let reply: Value = serde_json::from_str(&engine.tell_json(&json!({ "do": "points" }).to_string())).unwrap();
        let kinds = reply["answer"]["points"].as_array().unwrap().iter().map(|point| point["kind"].as_str().unwrap().to_owned());
        (said, kinds.collect::<Vec<_>>())
    };
    let (alone, kinds) = said(json!({ "layer": "1" }));
    assert!(told(&alone, "One way has a level of its own and is on no bridge and in no tunnel by the file: High path."), "{alone:?}");
    assert_eq!(kinds, ["levels", "levels"]);
    let (bridge, kinds) = said(json!({ "layer": "1", "bridge": "yes" }));
    assert!(!told(&bridge, "level of its own"), "{bridge:?}");
    assert_eq!(kinds, ["bridge", "bridge"]);
    let (tunnel, kinds) = said(json!({ "layer": "-1", "tunnel": "yes" }));
    assert!(!told(&tunnel, "level of its own") && kinds.is_empty(), "{tunnel:?} {kinds:?}");
}

/// A line of which no kind is said is a track whichever way it comes, and that is told.
#[test]
fn lines_without_a_kind_are_told_on_every_way_in() {
    let text = json!({ "type": "FeatureCollection", "sheet": { "name": "Net" }, "features": [
        line(json!({ "name": "Alder way" }), json!([[14.5, 46.0], [14.5, 46.02]])),
        line(json!({ "name": "Mill creek", "kind": "creek" }), json!([[14.51, 46.0], [14.51, 46.02]])),
    ] });
    let said = tell(&mut engine(), json!({ "do": "carry", "at": AT, "format": "geojson", "text": text.to_string() }));
    assert!(told(&said, "One line says no kind and is taken as track: Alder way."), "{said:?}");
    let toml = "name = \"Net\"\n[[line]]\nname = \"Alder way\"\npoints = [\"33TVL 600 500\", \"33TVL 600 520\"]\n";
    let said = tell(&mut engine(), json!({ "do": "carry", "at": AT, "format": "toml", "text": toml }));
    assert!(told(&said, "no kind and is taken as track: Alder way."), "{said:?}");
    let bytes = text.to_string().into_bytes();
    let said = bring(&mut engine(), &Brought { name: "net.geojson", bytes: &bytes, ..Brought::default() });
    assert!(told(&said, "One line says no kind and is taken as track: Alder way."), "{said:?}");
    let typed = json!({ "name": "Alder way", "points": ["33TVL 600 500", "33TVL 600 520"] });
    let said = tell(&mut engine(), json!({ "do": "sheet", "at": AT, "name": "Net", "lines": [typed] }));
    assert!(told(&said, "no kind and is taken as track: Alder way."), "{said:?}");
}

#[test]
fn a_sheet_holds_so_many_points_and_no_more() {
    let of = |points: usize| {
        let line = |name: &str, points: usize| DraftLine { name: name.into(), points: vec![(46.0, 14.5); points], ..DraftLine::default() };
        SheetDraft { lines: vec![line("A", points / 2), line("B", points - points / 2)], ..SheetDraft::default() }
    };
    assert_eq!(checked_size(&of(1_000_000)), Ok(()));
    assert!(checked_size(&of(1_000_001)).is_err());
}

/// "Database File Format" of SQLite, 1.3.3: bytes 18 and 19 are 2 where a log is kept beside the file.
#[test]
fn a_geopackage_that_keeps_a_log_is_told_where_nobody_looked_for_it() {
    let seed = gatepost_conformance::root().join("tests/fuzz/seeds/geopackage/whole");
    let mut bytes = std::fs::read(seed).unwrap();
    let said =
        |bytes: &[u8], has_no_log: bool| bring(&mut engine(), &Brought { name: "area.gpkg", bytes, has_no_log, ..Brought::default() });
    assert!(!told(&said(&bytes, false), "with a log beside it"));
    bytes[18..20].fill(2);
    assert!(told(&said(&bytes, false), "with a log beside it"), "{:?}", said(&bytes, false));
    assert!(!told(&said(&bytes, true), "with a log beside it"));
}

/// A plane of 60 by 60 posts, 20 m apart, about a road; its numbers are of UTM 33 north.
fn plane() -> String {
    "ncols 60\nnrows 60\nxllcenter 461000\nyllcenter 5094500\ncellsize 20\n".to_owned() + &"300 ".repeat(3600)
}

fn on_road(sheet_lon: f64) -> Engine {
    let mut engine = engine();
    let road = line(json!({ "name": "Mill road", "highway": "track" }), json!([[sheet_lon, 46.004], [sheet_lon + 0.005, 46.006]]));
    features(&mut engine, &[road]);
    engine
}

#[test]
fn a_prj_file_that_says_another_grid_than_the_one_named_is_told() {
    let text = plane();
    let prj = |number: &str| gatepost_core::earth::Grid::named(number).unwrap().definition().to_owned();
    let heights = |grid, prj| {
        let file = Brought { name: "plane.asc", bytes: text.as_bytes(), grid, prj, ..Brought::default() };
        bring(&mut on_road(14.5), &file)
    };
    let other = prj("EPSG:3794");
    assert!(!told(&heights(Some("EPSG:32633"), None), ".prj file"));
    assert!(!told(&heights(Some("EPSG:32633"), Some("EPSG:32633")), ".prj file"));
    let said = heights(Some("EPSG:32633"), Some(other.as_str()));
    assert!(told(&said, ".prj file beside it says") && told(&said, "as named for it, was taken"), "{said:?}");
    assert!(!told(&heights(None, Some("EPSG:32633")), ".prj file"), "no other was named");
    let file = Brought { name: "plane.asc", bytes: text.as_bytes(), prj: Some("garbage"), at: Some(AT), ..Brought::default() };
    let refused = on_road(14.5).bring(&file, &mut |_| true).unwrap_err();
    assert_eq!(refused.code(), "import-prj-odd");
}

/// Numbers of a grid made for Slovenia (EPSG:3794) on a sheet to the north of it.
#[test]
fn heights_outside_of_what_their_grid_is_made_for_are_told() {
    let text = plane();
    let file = |grid| Brought { name: "plane.asc", bytes: text.as_bytes(), grid: Some(grid), ..Brought::default() };
    assert!(!told(&bring(&mut on_road(14.5), &file("EPSG:32633")), "made for"));
    // Northings of that grid are some 30,000 to 200,000: this one lies some 500 km beyond.
    let north = "ncols 60\nnrows 60\nxllcenter 461000\nyllcenter 700000\ncellsize 20\n".to_owned() + &"300 ".repeat(3600);
    let grid = gatepost_core::earth::Grid::named("EPSG:3794").unwrap();
    let at = grid.unproject(gatepost_core::measure::Point::new(461_600.0, 700_600.0)).unwrap();
    let mut engine = engine();
    let (lon, lat) = (at.lon_deg(), at.lat_deg());
    features(&mut engine, &[line(json!({ "name": "Mill road", "highway": "track" }), json!([[lon, lat], [lon + 0.003, lat + 0.002]]))]);
    let said = bring(&mut engine, &Brought { bytes: north.as_bytes(), ..file("EPSG:3794") });
    assert!(told(&said, "These heights lie") && told(&said, "outside of what"), "{said:?}");
}

/// Heights of 300 m are 984 ft (the international foot of 1959). The grid counts in US survey feet (EPSG:2227, California zone 3), so that
/// the sheet's map writes heights in feet, and its contours do.
#[test]
fn on_a_map_in_feet_every_sentence_tells_heights_in_feet() {
    let mut engine = engine();
    let typed = json!({ "name": "Mill road", "kind": "road", "points": ["37.50, -121.50", "37.505, -121.505"] });
    tell(&mut engine, json!({ "do": "sheet", "at": AT, "name": "Feet", "grid": "EPSG:2227", "lines": [typed] }));
    let text = "ncols 40\nnrows 40\nxllcenter -121.52\nyllcenter 37.49\ncellsize 0.001\n".to_owned() + &"300 ".repeat(1600);
    let file = Brought { name: "flat.asc", bytes: text.as_bytes(), grid: Some("4326"), ..Brought::default() };
    let came = bring(&mut engine, &file);
    assert!(told(&came, "may be wrong by") && told(&came, " ft (one standard deviation)"), "{came:?}");
    let ground = tell(&mut engine, json!({ "do": "ground", "place": "37.502, -121.502" }));
    assert!(told(&ground, "the ground is 984 ft high"), "{ground:?}");
    let profile = tell(&mut engine, json!({ "do": "profile", "from": "37.50, -121.50", "to": "37.505, -121.505" }));
    assert!(told(&profile, "0 ft up and 0 ft down"), "{profile:?}");
    let contours = tell(&mut engine, json!({ "do": "contours" }));
    assert!(told(&contours, "40 feet apart"), "{contours:?}");
    let metres = tell(&mut on_road(14.5), json!({ "do": "lines", "named": "" }));
    assert!(!told(&metres, " ft"), "{metres:?}");
}

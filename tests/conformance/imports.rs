//! Files brought in: all of a file or nothing, and nothing that was there is lost. What the readers read is held against
//! other readers in `tests/readers` and `tests/rasters`.

use gatepost_core::engine::{Answer, Brought, Config, Engine, Refusal, Reply};
use serde_json::{Value, json};

const AT: &str = "2026-05-04T08:00:00Z";

/// A planned route over an invented valley, with two waypoints.
const ROUTE: &str = r#"<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="46.01" lon="14.52"><name>Old mast</name><type>mast</type></wpt>
<wpt lat="46.03" lon="14.49"><name>White chapel</name><type>church</type></wpt>
<rte><name>Mill road</name><rtept lat="46.0" lon="14.5"/><rtept lat="46.02" lon="14.5"/><rtept lat="46.04" lon="14.51"/></rte></gpx>"#;

const CREEK: &str = r#"{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Alder creek","waterway":"stream"},
"geometry":{"type":"LineString","coordinates":[[14.48,46.0],[14.53,46.03]]}}]}"#;

fn engine() -> Engine {
    Engine::open(&Config::default()).unwrap()
}

fn bring(engine: &mut Engine, name: &str, bytes: &[u8]) -> Result<Reply, Refusal> {
    engine.bring(&Brought { at: Some(AT), name, bytes, grid: None, area_deg: None, ..Brought::default() }, &mut |_| true)
}

/// Heights in degrees, 0.01 apart, that rise by a metre from post to post, from a south-western corner on.
fn rising(west: f64, south: f64, columns: usize, rows: usize) -> String {
    let head = format!("ncols {columns}\nnrows {rows}\nxllcenter {west}\nyllcenter {south}\ncellsize 0.01\nNODATA_value -9999\n");
    let row = |row: usize| (0..columns).map(|column| format!("{}", 100 + row + column)).collect::<Vec<_>>().join(" ");
    head + &(0..rows).map(row).collect::<Vec<_>>().join("\n") + "\n"
}

fn heights(engine: &mut Engine, text: &str) -> Result<Reply, Refusal> {
    let grid = Some("4326");
    engine
        .bring(&Brought { at: Some(AT), name: "rise.asc", bytes: text.as_bytes(), grid, area_deg: None, ..Brought::default() }, &mut |_| {
            true
        })
}

fn tell(engine: &mut Engine, record: &Value) -> Value {
    serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap()
}

fn on_foot() -> Engine {
    let mut engine = engine();
    bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap();
    let sightings = json!([{ "landmark": "Old mast", "bearing": "120 true" }]);
    assert_eq!(tell(&mut engine, &json!({ "do": "fix", "at": AT, "sightings": sightings }))["ok"], true);
    assert_eq!(tell(&mut engine, &json!({ "do": "keep", "at": AT }))["ok"], true);
    engine
}

#[test]
fn without_a_sheet_a_file_becomes_one_and_the_next_is_added_to_it() {
    let mut engine = engine();
    let first = bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap();
    let sheet = first.snapshot.sheet.unwrap();
    assert_eq!((sheet.name.as_str(), sheet.lines.len(), sheet.landmarks.len()), ("mill", 1, 2));
    assert_eq!(first.answer, Some(Answer::ImportedFeatures { lines: 1, landmarks: 2, known_points: 0, left_out: 0, credit: None }));
    tell(&mut engine, &json!({ "do": "pace", "at": AT, "double_paces_per_100_m": 58.0 }));
    let second = bring(&mut engine, "creek.geojson", CREEK.as_bytes()).unwrap();
    let lines: Vec<String> = second.snapshot.sheet.unwrap().lines.into_iter().map(|line| line.name).collect();
    assert_eq!(lines, ["Mill road", "Alder creek"]);
    assert!((second.snapshot.pace.double_paces_per_100_m - 58.0).abs() < 1e-9, "the pace goes along");
}

#[test]
fn a_record_in_base_64_brings_the_same() {
    // `base64` of GNU coreutils 9.1 of the one line of text below.
    let text = r#"{"type":"Feature","properties":{"name":"Ford"},"geometry":{"type":"LineString","coordinates":[[1,2],[1.01,2.01]]}}"#;
    let base64 = "eyJ0eXBlIjoiRmVhdHVyZSIsInByb3BlcnRpZXMiOnsibmFtZSI6IkZvcmQifSwiZ2VvbWV0cnkiOnsidHlwZSI6IkxpbmVTdHJpbmciLCJjb29yZGluYXRlcyI6W1sxLDJdLFsxLjAxLDIuMDFdXX19";
    let mut by_record = engine();
    let told = tell(&mut by_record, &json!({ "do": "import", "at": AT, "name": "ford.geojson", "base64": base64 }));
    let mut by_bytes = engine();
    let brought = bring(&mut by_bytes, "ford.geojson", text.as_bytes()).unwrap();
    assert_eq!(told["said"], json!(brought.said));
    assert_eq!(told["snapshot"]["sheet"], serde_json::to_value(brought.snapshot.sheet).unwrap());
}

#[test]
fn heights_go_along_to_the_next_sheet_and_join() {
    let mut engine = engine();
    assert_eq!(heights(&mut engine, &rising(14.4, 45.9, 11, 21)).unwrap_err().code(), "sheet-needed");
    bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap();
    let west = heights(&mut engine, &rising(14.4, 45.9, 11, 21)).unwrap();
    let Some(Answer::ImportedHeights { columns, rows, spacing_east_m, spacing_south_m, .. }) = west.answer else { panic!("{west:?}") };
    // Cut to the sheet (14.49 to 14.52 E, 46.00 to 46.04 N) with 2 km around and a post on each side: 14.46 to 14.50, 45.97 to 46.07.
    assert!((4..=6).contains(&columns) && (10..=12).contains(&rows), "{columns} x {rows}");
    // A hundredth of a degree at 46 N on WGS 84: 774.6 m of the parallel, 1111.5 m of the meridian (radii of curvature of WGS 84, by hand).
    assert!((spacing_east_m - 774.6).abs() < 2.0 && (spacing_south_m - 1111.5).abs() < 1.0, "{spacing_east_m} {spacing_south_m}");
    let east = heights(&mut engine, &rising(14.51, 45.9, 11, 21)).unwrap();
    assert!(east.said.iter().any(|said| said.contains("joined")), "{:?}", east.said);
    let more = bring(&mut engine, "creek.geojson", CREEK.as_bytes()).unwrap();
    assert_eq!(more.snapshot.sheet.unwrap().lines.len(), 2);
    let again = heights(&mut engine, &rising(14.51, 45.9, 11, 21)).unwrap();
    assert!(again.said.iter().any(|said| said.contains("joined")), "the heights went along: {:?}", again.said);
}

#[test]
fn under_a_kept_place_the_sheet_does_not_change() {
    let mut engine = on_foot();
    assert_eq!(bring(&mut engine, "creek.geojson", CREEK.as_bytes()).unwrap_err().code(), "import-car-kept");
    assert_eq!(heights(&mut engine, &rising(14.4, 45.9, 21, 21)).unwrap_err().code(), "import-car-kept");
    assert_eq!(tell(&mut engine, &json!({ "do": "close", "at": AT }))["ok"], true);
    let fresh = heights(&mut engine, &rising(14.4, 45.9, 21, 21)).unwrap();
    assert!(fresh.snapshot.car.is_none(), "the closed trip is left as it was");
}

#[test]
fn a_file_that_is_wrong_or_broken_off_changes_nothing() {
    let mut engine = engine();
    let before = bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap().snapshot;
    let torn = ROUTE.replace(r#"lat="46.04""#, r#"lat="146.04""#);
    let off = CREEK.replace("46.03", "246.03");
    let short = rising(14.4, 45.9, 21, 21).replace("nrows 21", "nrows 22");
    for (name, bytes, code) in [
        ("torn.gpx", torn.as_bytes(), "import-record"),
        ("off.geojson", off.as_bytes(), "import-record"),
        ("short.asc", short.as_bytes(), "heights-file-line"),
        ("sheet.pdf", b"%PDF-1.7 no map".as_slice(), "import-neither"),
        ("empty.geojson", br#"{"type":"FeatureCollection","features":[]}"#.as_slice(), "import-nothing"),
    ] {
        let file = Brought { at: Some(AT), name, bytes, grid: Some("4326"), area_deg: None, ..Brought::default() };
        assert_eq!(engine.bring(&file, &mut |_| true).unwrap_err().code(), code, "{name}");
        assert_eq!(engine.snapshot(None).unwrap(), before, "{name}");
    }
    let whole = Brought { at: Some(AT), name: "mill.gpx", bytes: ROUTE.as_bytes(), grid: None, area_deg: None, ..Brought::default() };
    assert_eq!(engine.bring(&whole, &mut |_| false).unwrap_err().code(), "import-stopped");
    assert_eq!(engine.snapshot(None).unwrap(), before);
}

#[test]
fn only_the_wanted_kinds_and_area_come_in() {
    let kinds = [String::from("church"), String::from("tracks")];
    let mut engine = engine();
    let file = Brought {
        at: Some(AT),
        name: "mill.gpx",
        bytes: ROUTE.as_bytes(),
        grid: None,
        area_deg: Some(&[46.005, 14.4, 46.035, 14.6]),
        kinds: Some(&kinds),
        ..Brought::default()
    };
    let sheet = engine.bring(&file, &mut |_| true).unwrap().snapshot.sheet.unwrap();
    assert_eq!(sheet.landmarks, ["White chapel"]);
    // 46.005 to 46.035 N of the route: 3.4 km, cut at both borders.
    assert!((3300.0..3500.0).contains(&sheet.lines[0].length_m), "{}", sheet.lines[0].length_m);
    let odd = [String::from("dragons")];
    let file = Brought { kinds: Some(&odd), ..file };
    assert_eq!(engine.bring(&file, &mut |_| true).unwrap_err().code(), "import-kind-unknown");
}

/// Spot heights tell how far heights can be trusted: against a plane of 100 to 141 m, typed in metres and in feet.
#[test]
fn spot_heights_are_held_against_the_heights_and_credits_are_kept() {
    let mut engine = engine();
    let file =
        Brought { at: Some(AT), name: "mill.gpx", bytes: ROUTE.as_bytes(), credit: Some("walkers of the mill"), ..Brought::default() };
    let came = engine.bring(&file, &mut |_| true).unwrap();
    assert!(came.said.iter().any(|said| said.contains("walkers of the mill")), "{:?}", came.said);
    let spot = |height_m: f64| json!({ "do": "sheet", "at": AT, "spots": [{ "at": "Old mast", "height_m": height_m }] });
    let waiting = tell(&mut engine, &spot(130.0));
    assert!(waiting["said"].as_array().unwrap().iter().any(|said| said.as_str().unwrap().starts_with("One spot height is")), "{waiting}");
    let told = heights(&mut engine, &rising(14.4, 45.9, 21, 21)).unwrap();
    assert!(told.said.iter().any(|said| said.contains("as good as such heights are")), "{:?}", told.said);
    let ground = told.snapshot.sheet.unwrap().ground;
    assert!(ground.iter().any(|line| line.contains("walkers of the mill")), "{ground:?}");
    let off = tell(&mut engine, &spot(900.0));
    assert!(off["said"].as_array().unwrap().iter().any(|said| said.as_str().unwrap().contains("more than such heights")), "{off}");
    let gone = tell(&mut engine, &json!({ "do": "sheet", "at": AT, "strike": ["White chapel"] }));
    assert_eq!(gone["snapshot"]["sheet"]["landmarks"], json!(["Old mast"]));
}

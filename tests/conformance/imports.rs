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
    assert_eq!((sheet.name.as_str(), sheet.lines.len(), first.snapshot.sights.len()), ("mill", 1, 2));
    assert_eq!(
        first.answer,
        Some(Answer::ImportedFeatures { lines: 1, landmarks: 2, known_points: 0, already: 0, left_out: 0, credit: None })
    );
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

/// By construction: the eastern file begins 11 m lower than the western one goes on, by 1 m from post to post; posts 1112 m apart.
#[test]
fn a_source_that_cannot_be_and_a_step_at_a_seam_are_told() {
    for (source, seam) in [
        (Some("laser"), "the new ones step down by 11.0"),
        (Some("third-arc-second"), "step down by 11.0"),
        (None, "the ground goes on with a step of 11.0"),
    ] {
        let mut engine = engine();
        bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap();
        let mut said = |west: f64| {
            let text = rising(west, 45.9, 11, 21);
            let file = Brought { at: Some(AT), name: "rise.asc", bytes: text.as_bytes(), grid: Some("4326"), source, ..Brought::default() };
            engine.bring(&file, &mut |_| true).unwrap().said.join(" ").replace('\u{a0}', " ")
        };
        let first = said(14.4);
        assert_eq!(first.contains("these stand 1112 m apart"), source.is_some(), "{first}");
        let second = said(14.51);
        assert!(second.contains("They have no post in common") && second.contains(seam), "{second}");
    }
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
    let snapshot = engine.bring(&file, &mut |_| true).unwrap().snapshot;
    let sheet = snapshot.sheet.unwrap();
    assert_eq!(snapshot.sights.iter().map(|sight| sight.landmark.as_str()).collect::<Vec<_>>(), ["White chapel"]);
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
    let left: Vec<&Value> = gone["snapshot"]["sights"].as_array().unwrap().iter().map(|sight| &sight["landmark"]).collect();
    assert_eq!(left, ["Old mast"]);
}

fn grid_of(engine: &mut Engine, grid: &str, text: &str, name: &str) -> Result<Reply, Refusal> {
    engine.bring(&Brought { at: Some(AT), name, bytes: text.as_bytes(), grid: Some(grid), ..Brought::default() }, &mut |_| true)
}

/// Flat ground at a height around the route, so many degrees from post to post.
fn flat(step: f64, from: (f64, f64), count: usize) -> String {
    let (west, south) = from;
    let head = format!("ncols {count}\nnrows {count}\nxllcenter {west}\nyllcenter {south}\ncellsize {step}\n");
    head + &"300 ".repeat(count * count) + "\n"
}

#[test]
fn heights_are_not_replaced_by_coarser_or_narrower_ones_unless_they_are_struck() {
    let mut engine = engine();
    bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap();
    let wide = flat(0.001, (14.4, 45.9), 240);
    grid_of(&mut engine, "4326", &wide, "wide.asc").unwrap();
    for (name, text) in [("coarse.asc", flat(0.0023, (14.4, 45.9), 120)), ("narrow.asc", flat(0.0007, (14.49, 45.99), 30))] {
        let refused = grid_of(&mut engine, "4326", &text, name).unwrap_err();
        assert_eq!(refused.code(), "import-heights-worse", "{name}");
    }
    assert_eq!(tell(&mut engine, &json!({ "do": "undo", "at": AT }))["refusal"]["code"], "nothing-to-undo");
    let struck = tell(&mut engine, &json!({ "do": "sheet", "at": AT, "strike": ["wide.asc"] }));
    assert_eq!(struck["ok"], true, "{struck}");
    assert_eq!(
        tell(&mut engine, &json!({ "do": "profile", "from": "46.0, 14.5", "to": "46.01, 14.5" }))["refusal"]["code"],
        "heights-needed"
    );
    grid_of(&mut engine, "4326", &flat(0.0007, (14.49, 45.99), 30), "narrow.asc").unwrap();
    // As fine, and farther: these take their place.
    let finer = grid_of(&mut engine, "4326", &flat(0.0005, (14.4, 45.9), 480), "finer.asc").unwrap();
    assert!(finer.said.iter().any(|said| said.contains("in the place of the heights from narrow.asc")), "{:?}", finer.said);
}

/// The same square of ground by its EPSG number and by what GDAL 3.6.2 writes into a `.prj` file for it.
#[test]
fn a_grid_is_told_by_the_text_of_a_prj_file() {
    let prj = r#"PROJCS["WGS_1984_UTM_Zone_33N",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",500000.0],PARAMETER["False_Northing",0.0],PARAMETER["Central_Meridian",15.0],PARAMETER["Scale_Factor",0.9996],PARAMETER["Latitude_Of_Origin",0.0],UNIT["Meter",1.0]]"#;
    let feet = prj.to_owned()
        + r#",VERTCS["NAVD88_height_(ftUS)",VDATUM["North_American_Vertical_Datum_1988"],PARAMETER["Vertical_Shift",0.0],PARAMETER["Direction",1.0],UNIT["US survey foot",0.304800609601219]]"#;
    let text = "ncols 300\nnrows 300\nxllcorner 455000\nyllcorner 5090000\ncellsize 50\n".to_owned() + &"300 ".repeat(90_000);
    let height_m = |grid: &str| {
        let mut engine = engine();
        bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap();
        grid_of(&mut engine, grid, &text, "square.asc").unwrap();
        tell(&mut engine, &json!({ "do": "ground", "place": "46.01, 14.5" }))["answer"]["height_m"].as_f64().unwrap()
    };
    for (grid, wanted_m) in [("32633", 300.0), (prj, 300.0), (feet.as_str(), 300.0 * 1200.0 / 3937.0), ("EPSG:32633+8228", 91.44)] {
        assert!((height_m(grid) - wanted_m).abs() < 1e-3, "{grid}");
    }
    let mut engine = engine();
    bring(&mut engine, "mill.gpx", ROUTE.as_bytes()).unwrap();
    assert_eq!(bring(&mut engine, "square.asc", text.as_bytes()).unwrap_err().code(), "heights-file-grid-of-numbers");
    assert_eq!(grid_of(&mut engine, "Projection UTM", &text, "square.asc").unwrap_err().code(), "grid-unknown");
}

/// Numbers of the place: PROJ 9.5.1 through pyproj 3.7.2.
#[test]
fn the_older_geojson_may_name_a_grid() {
    let text = r#"{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32633"}},"features":[
{"type":"Feature","properties":{"name":"Mill road","kind":"road"},"geometry":{"type":"LineString","coordinates":[[400000,5100000],[401000,5100000]]}},
{"type":"Feature","properties":{"name":"Old mast","kind":"mast"},"geometry":{"type":"Point","coordinates":[400000,5100000]}}]}"#;
    let mut brought = engine();
    bring(&mut brought, "grid.geojson", text.as_bytes()).unwrap();
    let mut carried = engine();
    let told = tell(&mut carried, &json!({ "do": "carry", "at": AT, "format": "geojson", "text": text }));
    assert_eq!(told["ok"], true, "{told}");
    for engine in [&mut brought, &mut carried] {
        let seen = tell(engine, &json!({ "do": "pace", "at": AT, "double_paces_per_100_m": 58.0 }));
        let length_m = seen["snapshot"]["sheet"]["lines"][0]["length_m"].as_f64().unwrap();
        // The grid's scale at the place is 0.99972 (pyproj 3.7.2).
        assert!((length_m * 0.999_72 - 1000.0).abs() < 0.1, "{length_m}");
    }
    let unknown = text.replace("32633", "1");
    assert_eq!(bring(&mut brought, "grid.geojson", unknown.as_bytes()).unwrap_err().code(), "grid-unknown");
}

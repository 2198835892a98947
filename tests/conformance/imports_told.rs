//! What is told of a file that is brought in: what was there already, what was not known or not believed, what is wrong with it.
//! Constructed files.

use gatepost_core::engine::{Answer, Brought, Config, Engine, PointsRecord, Record, Refusal, Reply};
use serde_json::{Value, json};

const AT: &str = "2026-05-04T08:00:00Z";

fn engine() -> Engine {
    Engine::open(&Config::default()).unwrap()
}

fn bring(engine: &mut Engine, file: &Brought<'_>) -> Result<Reply, Refusal> {
    engine.bring(&Brought { at: Some(AT), ..*file }, &mut |_| true)
}

fn features(engine: &mut Engine, bytes: &[u8]) -> Result<Reply, Refusal> {
    bring(engine, &Brought { name: "valley.geojson", bytes, ..Brought::default() })
}

fn collection(features: &[Value]) -> Vec<u8> {
    json!({ "type": "FeatureCollection", "features": features }).to_string().into_bytes()
}

fn line(properties: Value, points: Value) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "LineString", "coordinates": points } })
}

fn mark(properties: Value, lon: f64, lat: f64) -> Value {
    json!({ "type": "Feature", "properties": properties, "geometry": { "type": "Point", "coordinates": [lon, lat] } })
}

fn valley() -> Vec<Value> {
    vec![
        line(json!({ "name": "Mill road", "highway": "tertiary" }), json!([[14.5, 46.0], [14.5, 46.02], [14.51, 46.04]])),
        line(json!({ "highway": "track" }), json!([[14.5, 46.02], [14.52, 46.02]])),
        mark(json!({ "name": "Old mast", "kind": "mast" }), 14.52, 46.01),
    ]
}

fn told(reply: &Reply, what: &str) -> bool {
    reply.said.iter().any(|said| said.contains(what))
}

#[test]
fn the_same_file_again_changes_nothing_and_says_so() {
    let mut engine = engine();
    let first = features(&mut engine, &collection(&valley())).unwrap();
    let again = features(&mut engine, &collection(&valley())).unwrap();
    let Some(Answer::ImportedFeatures { lines: 0, landmarks: 0, already: 3, left_out: 0, .. }) = again.answer else { panic!("{again:?}") };
    assert!(told(&again, "nothing new") && told(&again, "All 3"), "{:?}", again.said);
    assert_eq!(again.snapshot.sheet, first.snapshot.sheet);
    let mut more = valley();
    more.push(mark(json!({ "name": "Kiln", "kind": "chimney" }), 14.51, 46.01));
    let added = features(&mut engine, &collection(&more)).unwrap();
    assert!(told(&added, "one landmark") && told(&added, "3 were already on the sheet"), "{:?}", added.said);
}

/// The boxes abut in the middle of a straight piece: the road is one line of the length that the whole file gives, and no junction.
#[test]
fn two_boxes_make_one_road_without_a_junction_where_they_abut() {
    let bytes = collection(&valley());
    let cut = |engine: &mut Engine, area: &[f64]| {
        bring(engine, &Brought { name: "valley.geojson", bytes: &bytes, area_deg: Some(area), ..Brought::default() }).unwrap()
    };
    let whole = features(&mut engine(), &bytes).unwrap().snapshot.sheet.unwrap();
    let mut engine = engine();
    cut(&mut engine, &[45.9, 14.4, 46.01, 14.6]);
    let sheet = cut(&mut engine, &[46.01, 14.4, 46.1, 14.6]).snapshot.sheet.unwrap();
    let lengths = |sheet: &gatepost_core::engine::SheetView| -> Vec<(String, f64)> {
        sheet.lines.iter().map(|line| (line.name.clone(), line.length_m)).collect()
    };
    assert_eq!(sheet.lines.len(), 2, "{:?}", lengths(&sheet));
    for ((name, length_m), (wanted, wanted_m)) in lengths(&sheet).iter().zip(lengths(&whole)) {
        assert!(*name == wanted && (length_m - wanted_m).abs() < 0.1, "{name} {length_m} {wanted} {wanted_m}");
    }
    let Some(Answer::Points { points, left: 0 }) = engine.tell(&Record::Points(PointsRecord::default())).unwrap().answer else { panic!() };
    let known: Vec<&str> = points.iter().map(|known| known.name.as_str()).collect();
    assert_eq!(known, ["Mill road x track 1", "Mill road x track 1"]);
}

#[test]
fn kinds_that_are_not_known_and_roads_that_are_not_there_are_told() {
    let ways = [
        line(json!({ "name": "A", "fclass": "primary" }), json!([[14.5, 46.0], [14.5, 46.02]])),
        line(json!({ "name": "B", "class": "river" }), json!([[14.51, 46.0], [14.51, 46.02]])),
        line(json!({ "name": "C", "fclass": "zeppelin" }), json!([[14.52, 46.0], [14.52, 46.02]])),
        line(json!({ "name": "D", "highway": "proposed" }), json!([[14.53, 46.0], [14.53, 46.02]])),
        line(json!({ "name": "E", "fclass": "abandoned" }), json!([[14.54, 46.0], [14.54, 46.02]])),
    ];
    let reply = features(&mut engine(), &collection(&ways)).unwrap();
    assert!(
        told(&reply, "zeppelin (1: track)")
            && told(&reply, "2 roads, buildings and other things that are planned, being built or gone are left out"),
        "{:?}",
        reply.said
    );
    assert!(told(&reply, "Left out, as not wanted, outside the area or of no use on a sheet: D, E."), "{:?}", reply.said);
    let sheet = reply.snapshot.sheet.unwrap();
    let kinds: Vec<(&str, &str)> = sheet.lines.iter().map(|line| (line.name.as_str(), line.kind.as_str())).collect();
    assert_eq!(kinds, [("A", "road"), ("B", "river"), ("C", "track")]);
}

#[test]
fn heights_that_cannot_be_are_counted_and_named() {
    let odd = [json!("12,5"), json!("tall"), json!(99_999), json!(-10), json!("x"), json!(1e9)];
    let mast = |(index, height): (usize, &Value)| {
        mark(json!({ "name": format!("M{index}"), "kind": "mast", "height_m": height }), 14.5 + index as f64 / 100.0, 46.01)
    };
    let mut all = valley();
    all.extend(odd.iter().enumerate().map(mast));
    all.push(mark(json!({ "name": "Sound", "kind": "mast", "height_m": "35 m" }), 14.49, 46.01));
    let reply = features(&mut engine(), &collection(&all)).unwrap();
    assert!(told(&reply, "6 heights above the ground cannot be read") && told(&reply, "M0 \"12,5\""), "{:?}", reply.said);
    assert!(!told(&reply, "Sound"), "{:?}", reply.said);
}

#[test]
fn what_is_wrong_with_a_file_is_said_with_and_without_a_sheet() {
    let mut open = engine();
    features(&mut open, &collection(&valley())).unwrap();
    let utf_16: Vec<u8> = [0xFF, 0xFE].into_iter().chain("<gpx/>".encode_utf16().flat_map(u16::to_le_bytes)).collect();
    for (name, bytes, code) in [
        ("area.kmz", b"PK\x03\x04 and so on".as_slice(), "import-packed"),
        ("area.osm", b"<?xml version='1.0'?><osm version='0.6'/>".as_slice(), "import-osm-xml"),
        ("area.gpx", utf_16.as_slice(), "import-utf-16"),
        ("area.osm.pbf", b"".as_slice(), "import-empty"),
        ("area.pdf", b"%PDF-1.7".as_slice(), "import-neither"),
    ] {
        for engine in [&mut engine(), &mut open] {
            assert_eq!(bring(engine, &Brought { name, bytes, ..Brought::default() }).unwrap_err().code(), code, "{name}");
        }
    }
    let gaps = format!("ncols 30\nnrows 60\nxllcenter 14.4\nyllcenter 45.9\ncellsize 0.01\n{}", "-9999 ".repeat(1800));
    let gaps = Brought { name: "gaps.asc", bytes: gaps.as_bytes(), grid: Some("4326"), ..Brought::default() };
    assert_eq!(bring(&mut open, &gaps).unwrap_err().code(), "heights-file-gaps");
    // Numbers of the register alone, as the help has them: zone 33 and EVRF2000 heights.
    let plane = "ncols 300\nnrows 300\nxllcorner 455000\nyllcorner 5090000\ncellsize 50\n".to_owned() + &"300 ".repeat(90_000);
    let plane = Brought { name: "plane.asc", bytes: plane.as_bytes(), grid: Some("32633+5730"), ..Brought::default() };
    assert!(bring(&mut open, &plane).is_ok());
}

/// Two files of one lattice over each other: the third 100 m higher, as a file that counts from another level is. What was there stays.
#[test]
fn heights_that_contradict_each_other_are_refused_with_their_figures() {
    let mut engine = engine();
    features(&mut engine, &collection(&valley())).unwrap();
    let flat = |height_m: i32| {
        format!("ncols 60\nnrows 60\nxllcenter 14.4\nyllcenter 45.9\ncellsize 0.005\n{}", format!("{height_m} ").repeat(3600))
    };
    let heights = |engine: &mut Engine, name: &str, height_m: i32, source: &str| {
        let text = flat(height_m);
        bring(engine, &Brought { name, bytes: text.as_bytes(), grid: Some("4326"), source: Some(source), ..Brought::default() })
    };
    heights(&mut engine, "first.asc", 300, "srtm").unwrap();
    let same = heights(&mut engine, "second.asc", 300, "laser").unwrap();
    assert!(told(&same, "differ by 0.0\u{a0}m (median), by 0.0\u{a0}m at the worst."));
    // The laser's own figure is told of its own file, and that of the whole beside it.
    assert!(same.said[0].contains("wrong by 1.0\u{a0}m") && told(&same, "wrong by 9.7\u{a0}m"), "{:?}", same.said);
    let refused = heights(&mut engine, "third.asc", 400, "srtm").unwrap_err();
    let said = refused.view(engine.words()).sentence;
    assert_eq!(refused.code(), "heights-contradict");
    assert!(said.contains("differ by 100.0\u{a0}m (median), by 100.0\u{a0}m at the worst"), "{said}");
    // The ground is as it was; once it is struck off, the other is taken.
    let mut tell = |record: Value| -> Value { serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap() };
    let ground = tell(json!({ "do": "ground", "place": "46.0, 14.5" }));
    assert_eq!(ground["answer"]["height_m"], 300.0, "{ground}");
    let struck = tell(json!({ "do": "sheet", "at": AT, "strike": ["first.asc, second.asc"] }));
    assert_eq!(struck["ok"], true, "{struck}");
    heights(&mut engine, "third.asc", 400, "srtm").unwrap();
}

#[test]
fn a_usual_height_and_the_wanted_north_are_told_with_what_should_be_seen() {
    let mut engine = engine();
    let mut all = valley();
    all.push(mark(json!({ "name": "High mast", "kind": "mast", "height_m": 40 }), 14.52, 46.012));
    features(&mut engine, &collection(&all)).unwrap();
    let flat = format!("ncols 60\nnrows 60\nxllcenter 14.4\nyllcenter 45.9\ncellsize 0.005\n{}", "300 ".repeat(3600));
    bring(&mut engine, &Brought { name: "flat.asc", bytes: flat.as_bytes(), grid: Some("4326"), ..Brought::default() }).unwrap();
    let mut ask = |record: Value| -> Vec<String> {
        let told: Value = serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap();
        assert_eq!(told["ok"], true, "{told}");
        told["said"].as_array().unwrap().iter().map(|said| said.as_str().unwrap().to_owned()).collect()
    };
    let seen = |to: Value| json!({ "do": "seen", "at": AT, "place": "46.01, 14.5", "to": to });
    let said = ask(seen(Value::Null));
    let of = |said: &[String], name: &str| said.iter().find(|one| one.starts_with(name)).unwrap().clone();
    assert!(of(&said, "Old mast").contains("30\u{a0}m, usual for its kind") && of(&said, "Old mast").contains("\u{a0}mag"), "{said:?}");
    assert!(!of(&said, "High mast").contains("usual"), "{said:?}");
    // Due east, to the minute of the parallel's turn over 1.5 km; the grid's north of 33N lies 0.36 degrees west of true there.
    assert!(of(&ask(seen(json!("true"))), "Old mast").contains("090°\u{a0}true"), "{:?}", ask(seen(json!("true"))));
    assert!(of(&ask(seen(json!("grid"))), "Old mast").contains("090.4°\u{a0}grid"), "{:?}", ask(seen(json!("grid"))));
    let ground = |to: &str| json!({ "do": "ground", "at": AT, "place": "46.01, 14.5", "to": to });
    assert!(ask(ground("grid")).iter().any(|said| said.contains("Towards 090.4°\u{a0}grid")), "{:?}", ask(ground("grid")));
    assert!(ask(ground("true")).iter().any(|said| said.contains("Towards 090°\u{a0}true")), "{:?}", ask(ground("true")));
}

/// Parts of a PBF file (OpenStreetMap wiki, "PBF Format"): numbers, fields, columns of differences.
mod pbf {
    pub(super) fn number(mut value: u64) -> Vec<u8> {
        let mut out = Vec::new();
        while value > 127 {
            out.push((value & 127) as u8 | 128);
            value >>= 7;
        }
        out.push(value as u8);
        out
    }

    pub(super) fn of(key: u64, value: u64) -> Vec<u8> {
        [number(key << 3), number(value)].concat()
    }

    pub(super) fn bytes(key: u64, value: &[u8]) -> Vec<u8> {
        [number(key << 3 | 2), number(value.len() as u64), value.to_vec()].concat()
    }

    pub(super) fn steps(values: &[i64]) -> Vec<u8> {
        let before = std::iter::once(&0).chain(values);
        values.iter().zip(before).flat_map(|(value, before)| number((((value - before) << 1) ^ ((value - before) >> 63)) as u64)).collect()
    }

    pub(super) fn blob(kind: &str, content: &[u8]) -> Vec<u8> {
        let body = bytes(1, content);
        let header = [bytes(1, kind.as_bytes()), of(3, body.len() as u64)].concat();
        [(header.len() as u32).to_be_bytes().to_vec(), header, body].concat()
    }

    pub(super) fn way(id: u64, nodes: &[i64], tags: &[(u8, u8)]) -> Vec<u8> {
        let (keys, values): (Vec<u8>, Vec<u8>) = tags.iter().copied().unzip();
        bytes(3, &[of(1, id), bytes(2, &keys), bytes(3, &values), bytes(8, &steps(nodes))].concat())
    }
}

/// A part cut out of a bigger file: of way 7 the third node is beyond it, of way 8 all but one; way 9 is whole.
#[test]
fn ways_cut_out_of_a_bigger_file_are_told_as_such() {
    let texts = ["", "highway", "track", "name", "Upper track", "Lower track", "Whole track"];
    let table = pbf::bytes(1, &texts.iter().flat_map(|text| pbf::bytes(1, text.as_bytes())).collect::<Vec<u8>>());
    let (lats, lons) = ([460_000_000, 460_010_000, 460_020_000, 460_030_000], [130_000_000, 130_010_000, 130_000_000, 130_050_000]);
    let columns =
        [pbf::bytes(1, &pbf::steps(&[1, 2, 3, 4])), pbf::bytes(8, &pbf::steps(&lats)), pbf::bytes(9, &pbf::steps(&lons))].concat();
    let nodes = pbf::bytes(2, &columns);
    let ways = [
        pbf::way(7, &[1, 2, 90], &[(1, 2), (3, 4)]),
        pbf::way(8, &[3, 91, 92], &[(1, 2), (3, 5)]),
        pbf::way(9, &[3, 4], &[(1, 2), (3, 6)]),
    ];
    let block = [table, pbf::bytes(2, &nodes), pbf::bytes(2, &ways.concat())].concat();
    let file = [pbf::blob("OSMHeader", &pbf::bytes(4, b"OsmSchema-V0.6")), pbf::blob("OSMData", &block)].concat();
    let reply = bring(&mut engine(), &Brought { name: "part.osm.pbf", bytes: &file, ..Brought::default() }).unwrap();
    let Some(Answer::ImportedFeatures { lines: 2, left_out: 1, .. }) = reply.answer else { panic!("{reply:?}") };
    assert!(told(&reply, "2 ways or outlines lack points") && told(&reply, "Upper track, Lower track"), "{:?}", reply.said);
    assert!(!told(&reply, "not wanted"), "{:?}", reply.said);
}

/// A line of a kilometre on heights of 40 km by 20: kept are those up to 2 km around it, and the answer says how much of the file was not.
#[test]
fn heights_that_are_left_out_are_told_of() {
    const ROWS: u32 = 200;
    const COLUMNS: u32 = 400;
    let head = format!("ncols {COLUMNS}\nnrows {ROWS}\nxllcenter 13.3\nyllcenter 45.901\ncellsize 0.001\n");
    let row = vec!["500"; COLUMNS as usize].join(" ") + "\n";
    let bytes = (head + &row.repeat(ROWS as usize)).into_bytes();
    let heights = |engine: &mut Engine, area_deg: Option<&[f64]>| {
        bring(engine, &Brought { name: "wide.asc", bytes: &bytes, grid: Some("EPSG:4326"), area_deg, ..Brought::default() }).unwrap()
    };
    let mut engine = engine();
    features(&mut engine, &collection(&[line(json!({ "name": "Road", "highway": "track" }), json!([[13.49, 46.0], [13.503, 46.0]]))]))
        .unwrap();
    let cut = heights(&mut engine, None);
    let Some(Answer::ImportedHeights { columns, rows, left_out_share, .. }) = cut.answer else { panic!("{cut:?}") };
    let kept = f64::from(columns * rows) / f64::from(COLUMNS * ROWS);
    assert!((left_out_share - (1.0 - kept)).abs() < 1e-12 && left_out_share > 0.9, "{left_out_share}");
    // 2 km are 0.018 degrees of latitude and 0.026 of longitude there; a post more on each side.
    assert!((37..=40).contains(&rows) && (64..=69).contains(&columns), "{rows} {columns}");
    assert!(told(&cut, "up to 2000\u{a0}m around what is on the sheet") && told(&cut, "--area"), "{:?}", cut.said);
    let whole = heights(&mut engine, Some(&[45.0, 13.0, 47.0, 14.0]));
    assert!(matches!(whole.answer, Some(Answer::ImportedHeights { left_out_share: 0.0, .. })), "{:?}", whole.answer);
    assert!(!told(&whole, "left out"), "{:?}", whole.said);
}

/// A picture that ends within its head, and a grid in which the numbers of a file have no places.
#[test]
fn a_short_picture_and_another_grid_are_named() {
    let mut engine = engine();
    features(&mut engine, &collection(&valley())).unwrap();
    let refused = |engine: &mut Engine, file: &Brought<'_>| {
        let refusal = bring(engine, file).unwrap_err();
        let view = refusal.view(engine.words());
        (view.code, view.sentence)
    };
    let (code, sentence) = refused(&mut engine, &Brought { name: "a.tif", bytes: b"II*\0\x08\0\0\0", ..Brought::default() });
    assert!(code == "heights-file-image-damaged" && sentence.contains("the file ends there"), "{sentence}");
    let bytes = b"ncols 2\nnrows 2\nxllcenter 14.5\nyllcenter 46.0\ncellsize 0.01\n1 2\n3 4\n";
    let (code, sentence) = refused(&mut engine, &Brought { name: "a.asc", bytes, grid: Some("EPSG:27700"), ..Brought::default() });
    assert!(code == "heights-file-grid-outside" && sentence.contains("in which the file was made"), "{sentence}");
}

#[test]
fn of_a_file_far_from_the_sheet_its_own_record_is_named() {
    let mut engine = engine();
    features(&mut engine, &collection(&valley())).unwrap();
    let turned = vec![line(json!({ "name": "Turned road", "highway": "track" }), json!([[46.0, 14.5], [46.02, 14.5]]))];
    let refused = features(&mut engine, &collection(&turned)).unwrap_err();
    let told = refused.view(engine.words()).sentence;
    assert_eq!(refused.code(), "import-far");
    assert!(told.contains("\"Turned road\" at 14.5000, 46.0000") && told.contains("latitude and longitude exchanged"), "{told}");
    let far = vec![mark(json!({ "name": "Far mast", "kind": "mast" }), 60.0, 46.0)];
    let told = features(&mut engine, &collection(&far)).unwrap_err().view(engine.words()).sentence;
    assert!(told.contains("\"Far mast\"") && !told.contains("exchanged"), "{told}");
    // What lies 200 km on is taken: the sheet is no wider than it may be.
    features(&mut engine, &collection(&[mark(json!({ "name": "Next mast", "kind": "mast" }), 17.0, 46.0)])).unwrap();
}

#[test]
fn lines_without_a_kind_are_told() {
    let kml = |data: &str| {
        format!(
            r#"<kml xmlns="http://www.opengis.net/kml/2.2"><Document><Placemark><name>Velm</name>{data}<LineString><coordinates>14.5,46 14.5,46.02</coordinates></LineString></Placemark></Document></kml>"#
        )
    };
    let read = |text: &str| bring(&mut engine(), &Brought { name: "velm.kml", bytes: text.as_bytes(), ..Brought::default() }).unwrap();
    let unsaid = read(&kml(""));
    assert!(told(&unsaid, "One line says no kind and is taken as track: Velm."), "{:?}", unsaid.said);
    let said = read(&kml(r#"<ExtendedData><Data name="kind"><value>river</value></Data></ExtendedData>"#));
    assert!(!told(&said, "no kind"), "{:?}", said.said);
}

/// Unicode's override would show a name backwards.
#[test]
fn a_name_holds_nothing_that_turns_text_about() {
    let mut engine = engine();
    let names = vec![line(json!({ "name": "Mill\u{202e}daor\u{2069} \u{7}x", "highway": "track" }), json!([[14.5, 46.0], [14.5, 46.02]]))];
    let reply = features(&mut engine, &collection(&names)).unwrap();
    let lines: Vec<String> = reply.snapshot.sheet.unwrap().lines.iter().map(|line| line.name.clone()).collect();
    assert_eq!(lines, ["Milldaor x"]);
}

/// Posts 0.001° apart at 46° of latitude: 77 m to the east, 111 m to the north (radii of WGS 84, by hand).
#[test]
fn heights_tell_both_distances_between_posts() {
    let mut engine = engine();
    features(&mut engine, &collection(&valley())).unwrap();
    let text = "ncols 60\nnrows 60\nxllcenter 14.48\nyllcenter 45.99\ncellsize 0.001\n".to_owned() + &"300 ".repeat(3600);
    let file = Brought { name: "flat.asc", bytes: text.as_bytes(), grid: Some("4326"), ..Brought::default() };
    let reply = bring(&mut engine, &file).unwrap();
    assert!(told(&reply, "77\u{a0}m apart from west to east and 111\u{a0}m from north to south"), "{:?}", reply.said);
    assert!(!told(&reply, "says itself"), "the grid that was named is the one that was used: {:?}", reply.said);
}

//! The fix in the open through the engine: kept in the logbook, drawn, held against another place, walked away from and back to.
//!
//! Its figures are held by `tests/vectors/fix/open.json`.

use gatepost_conformance::root;
use gatepost_core::chart::Size;
use gatepost_core::engine::{Brought, Config, Engine};
use serde_json::{Value, json};

const AT: &str = "2026-09-12T08:10:00Z";

fn tell(engine: &mut Engine, record: &Value) -> Value {
    let told: Value = serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap();
    assert_eq!(told["ok"], true, "{record}: {told}");
    told
}

fn carry() -> Value {
    let text = std::fs::read_to_string(root().join("tests/demo/velm-valley.toml")).unwrap();
    json!({ "do": "carry", "at": AT, "format": "toml", "text": text })
}

fn open(sightings: &Value) -> Value {
    json!({ "do": "fix", "at": AT, "open": true, "instrument": "sighting", "sightings": sightings })
}

fn two_bearings() -> Value {
    open(&json!([{ "landmark": "Sorn chapel", "bearing": "016 mag" }, { "landmark": "Hallik mast", "bearing": "088 mag" }]))
}

#[test]
fn the_car_is_kept_in_the_open_and_found_again_after_a_restart() {
    let folder = tempfile::tempdir().unwrap();
    let config = Config { logbook: Some(folder.path().join("walk.gatepost")), ..Config::default() };
    let mut engine = Engine::open(&config).unwrap();
    tell(&mut engine, &carry());
    let fixed = tell(&mut engine, &two_bearings());
    let place = fixed["snapshot"]["open_fix"]["places"][0].clone();
    assert_eq!(fixed["snapshot"]["fix"], Value::Null);
    let read: Vec<&Value> = fixed["snapshot"]["sights"].as_array().unwrap().iter().filter(|one| one["sighted"] == true).collect();
    assert_eq!(read.len(), 2, "the two that were read");
    let mgrs = place["mgrs"].as_str().unwrap().to_owned();
    let checked = tell(&mut engine, &json!({ "do": "check", "at": AT, "place": mgrs, "spread_m": 5 }));
    assert_eq!(checked["snapshot"]["check"]["verdict"], "fits");
    assert!(checked["snapshot"]["check"]["distance_m"].as_f64().unwrap() < 1.5, "{checked}");
    tell(&mut engine, &json!({ "do": "keep", "at": AT }));
    tell(&mut engine, &json!({ "do": "leg", "at": AT, "bearing": "052 mag", "metres": 400 }));
    let back = tell(&mut engine, &json!({ "do": "back" }));
    drop(engine);
    let again = tell(&mut Engine::open(&config).unwrap(), &json!({ "do": "back" }));
    assert_eq!(again["snapshot"]["car"], back["snapshot"]["car"]);
    assert_eq!(again["snapshot"]["way_back"], back["snapshot"]["way_back"]);
    assert_eq!(again["snapshot"]["car"]["open_place"], place);
    assert_eq!((&again["snapshot"]["car"]["place"], &again["snapshot"]["car"]["line"]), (&Value::Null, &Value::Null));
    assert_eq!(again["snapshot"]["way_back"]["miss_along_95_m"], Value::Null);
    assert!((again["snapshot"]["way_back"]["legs"][0]["metres"].as_f64().unwrap() - 400.0).abs() < 0.5);
}

#[test]
fn a_bearing_is_told_as_it_was_read() {
    let mut engine = Engine::open(&Config::default()).unwrap();
    tell(&mut engine, &carry());
    let fixed = tell(&mut engine, &two_bearings());
    for (number, read) in ["Sorn chapel: read 016° mag, off by ", "Hallik mast: read 088° mag, off by "].into_iter().enumerate() {
        let told = fixed["snapshot"]["open_fix"]["sightings"][number]["told"].as_str().unwrap().replace('\u{a0}', " ");
        assert!(told.starts_with(read) && !told.contains('-'), "{told}");
    }
}

#[test]
fn a_fix_of_the_other_kind_takes_the_place_of_the_last() {
    let mut engine = Engine::open(&Config::default()).unwrap();
    tell(&mut engine, &carry());
    tell(&mut engine, &two_bearings());
    let sightings = json!([{ "landmark": "Hallik mast", "bearing": "088 mag" }]);
    let on_line = tell(&mut engine, &json!({ "do": "fix", "at": AT, "line": "Velm Road", "sightings": sightings }));
    assert!(on_line["snapshot"]["open_fix"].is_null() && !on_line["snapshot"]["fix"].is_null());
    let undone = tell(&mut engine, &json!({ "do": "undo", "at": AT }));
    assert!(!undone["snapshot"]["open_fix"].is_null() && undone["snapshot"]["fix"].is_null());
}

/// Two rings meet in two places: both are told, both can be kept, and both are drawn.
#[test]
fn regions_are_told_kept_and_drawn() {
    let mut engine = Engine::open(&Config::default()).unwrap();
    tell(&mut engine, &carry());
    let rings = json!([
        { "what": "distance", "landmark": "Sorn chapel", "distance_m": 1500, "spread_m": 40 },
        { "what": "distance", "landmark": "Torn Top", "distance_m": 1600, "spread_m": 40 }
    ]);
    let told = tell(&mut engine, &open(&rings));
    let fix = &told["snapshot"]["open_fix"];
    assert_eq!((fix["shape"].as_str(), fix["places"].as_array().unwrap().len()), (Some("regions"), 2), "{fix}");
    assert!(fix["places"][0]["major_95_m"].is_null());
    assert_eq!(fix["cautions"][0], "Do not choose between 2 regions by liking. Take another sighting.");
    let list = engine.chart_list("fix", Size::new(412.0, 330.0)).unwrap();
    assert_eq!(list.targets.iter().filter(|one| matches!(one.what, gatepost_core::chart::Touched::Stretch(_))).count(), 2);
    let second = fix["places"][1]["mgrs"].clone();
    let checked = tell(&mut engine, &json!({ "do": "check", "at": AT, "place": second, "spread_m": 10 }));
    assert_eq!((&checked["snapshot"]["check"]["verdict"], &checked["snapshot"]["check"]["stretch"]), (&json!("fits"), &json!(2)));
    let kept = tell(&mut engine, &json!({ "do": "keep", "at": AT, "stretch": 2 }));
    assert_eq!(kept["snapshot"]["car"]["open_place"]["mgrs"], second);
    let refused = engine.tell_json(&json!({ "do": "check", "at": AT, "place": "nowhere" }).to_string());
    assert!(refused.contains(r#""ok":false"#));
}

#[test]
fn a_place_far_from_both_rings_is_a_misfit() {
    let mut engine = Engine::open(&Config::default()).unwrap();
    tell(&mut engine, &carry());
    tell(&mut engine, &two_bearings());
    let far = tell(&mut engine, &json!({ "do": "check", "at": AT, "place": "43TEG 5750 5050" }));
    assert_eq!(far["snapshot"]["check"]["verdict"], "misfit");
}

/// Readings that agree, the walker in the middle of them, and a place of a receiver a kilometre off: the place is doubted, not the fix. Of two readings one
/// wrong one leaves the walker anywhere on the ray of the other: a place there may be right.
#[test]
fn readings_that_agree_are_not_blamed_for_a_place_far_off() {
    let feature = |name: &str, lon: f64, lat: f64| json!({ "type": "Feature", "geometry": { "type": "Point", "coordinates": [lon, lat] }, "properties": { "name": name, "kind": "mast" } });
    let road = json!({ "type": "Feature", "geometry": { "type": "LineString", "coordinates": [[8.98, -0.02], [9.02, -0.02]] }, "properties": { "name": "Road" } });
    // Near the equator a degree is as long both ways within 1 %, and the marks lie at the bearings in their names from 9, 0.
    let marks = [("N037", 9.018, 0.024), ("N090", 9.025, 0.0), ("N143", 9.012, -0.016), ("N225", 8.985, -0.015), ("N315", 8.984, 0.016)];
    let features: Vec<Value> = marks.iter().map(|(name, lon, lat)| feature(name, *lon, *lat)).chain([road]).collect();
    let sheet = json!({ "type": "FeatureCollection", "features": features });
    let blamed = |count: usize, place: &str| {
        let mut engine = Engine::open(&Config::default()).unwrap();
        tell(&mut engine, &json!({ "do": "carry", "at": AT, "format": "geojson", "text": sheet.to_string() }));
        let readings: Vec<Value> = ["037", "090", "143", "225", "315"]
            .iter()
            .take(count)
            .map(|deg| json!({ "what": "bearing", "landmark": format!("N{deg}"), "bearing": format!("{deg} true") }))
            .collect();
        let fixed = tell(&mut engine, &open(&json!(readings)));
        assert!(!fixed["snapshot"]["open_fix"]["cautions"].to_string().contains("misread"), "{fixed}");
        let held = tell(&mut engine, &json!({ "do": "check", "at": AT, "place": place, "spread_m": 10 }));
        assert_eq!(held["snapshot"]["check"]["verdict"], "misfit");
        let slips = held["snapshot"]["check"]["slips"].as_array().unwrap().clone();
        slips.iter().find(|one| one["kind"] == "fix-wrong").map_or(0.0, |one| one["chance"].as_f64().unwrap())
    };
    let told = [(5, "0.0045, 9.0081"), (3, "0.0045, 9.0081"), (2, "0.0045, 9.0081"), (2, "0.0, 9.0113")]
        .map(|(count, place)| blamed(count, place));
    assert!(told[..3].iter().all(|chance| *chance < 0.02) && told[3] > 0.1, "{told:?}");
}

/// Marks in one line, and three on a circle with the walker: the geometry that fixes nothing is named.
#[test]
fn angles_that_fix_nothing_are_named() {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let feature = |name: &str, lon: f64, lat: f64| json!({ "type": "Feature", "geometry": { "type": "Point", "coordinates": [lon, lat] }, "properties": { "name": name, "kind": "summit" } });
    // Near the equator a thousandth of a degree is as long both ways within 1 %; the marks and the walker lie on a circle of
    // 10 thousandths, all angles over one chord are alike.
    let road = json!({ "type": "Feature", "geometry": { "type": "LineString", "coordinates": [[9.0, 0.0], [9.001, 0.0]] }, "properties": { "name": "Road" } });
    let marks = [feature("A", 9.0, 0.010), feature("B", 9.006, 0.008), feature("C", 9.0096, -0.0028)];
    let sheet = json!({ "type": "FeatureCollection", "features": [road, marks[0], marks[1], marks[2]] });
    tell(&mut engine, &json!({ "do": "carry", "at": AT, "format": "geojson", "text": sheet.to_string() }));
    // From (-8, -6): directions to A (8, 16), B (14, 14) and C (17.6, 3.2) by hand: 26.565, 45 and 79.695 degrees.
    let angles = json!([
        { "what": "angle", "left": "A", "right": "B", "angle_deg": 18.435, "spread_deg": 0.5 },
        { "what": "angle", "left": "B", "right": "C", "angle_deg": 34.695, "spread_deg": 0.5 }
    ]);
    let told = tell(&mut engine, &open(&angles));
    let cautions = told["snapshot"]["open_fix"]["cautions"].to_string();
    assert!(cautions.contains("circle through the three marks"), "{cautions}");
}

/// A wall stands between the walker and the mast on one side of it: seen, one is on the other side.
#[test]
fn what_is_seen_tells_the_side_of_a_wall() {
    let area = r#"{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"Track","highway":"track"},"geometry":{"type":"LineString","coordinates":[[14.5,46.0],[14.5,46.02]]}},
{"type":"Feature","properties":{"name":"Mast","man_made":"mast"},"geometry":{"type":"Point","coordinates":[14.52,46.01]}}]}"#;
    let rows =
        (0..101).map(|_| (0..101).map(|column| if (59..=61).contains(&column) { "800" } else { "500" }).collect::<Vec<_>>().join(" "));
    let ground =
        format!("ncols 101\nnrows 101\nxllcenter 14.45\nyllcenter 45.96\ncellsize 0.001\n{}\n", rows.collect::<Vec<_>>().join("\n"));
    let mut engine = Engine::open(&Config::default()).unwrap();
    for (name, text) in [("area.geojson", area), ("ground.asc", ground.as_str())] {
        let file = Brought { at: Some(AT), name, bytes: text.as_bytes(), grid: Some("4326"), area_deg: None, ..Brought::default() };
        engine.bring(&file, &mut |_| true).unwrap();
    }
    let mut east_of = |what: &str| {
        // The walker is as far from the mast either way; the wall stands at 14.51.
        let sightings = json!([
            { "what": "distance", "landmark": "Mast", "distance_m": 1300, "spread_m": 60 },
            { "place": "46.01, 14.40", "spread_m": 20, "bearing": "270 true" },
            { "what": what, "landmark": "Mast" }
        ]);
        let told = tell(&mut engine, &open(&sightings));
        let places = told["snapshot"]["open_fix"]["places"].as_array().unwrap().clone();
        let fits = told["snapshot"]["open_fix"]["sightings"][2]["fits"].as_f64().unwrap();
        (places.iter().filter(|one| one["lon_deg"].as_f64().unwrap() > 14.51).map(|one| one["share"].as_f64().unwrap()).sum::<f64>(), fits)
    };
    let (seen, fits) = east_of("seen");
    assert!(seen > 0.85 && fits > 0.3, "{seen} {fits}");
    // The distance itself says that the mast was seen; that it was not speaks a little against this side, no more.
    let refuted = east_of("not-seen").0;
    assert!(refuted < seen, "{refuted} of {seen}");
}

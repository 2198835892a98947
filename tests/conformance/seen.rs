//! What should be seen, through the engine: the fix, the check list and the question use the same sights.
//!
//! The sights themselves are held against a reference on real heights in the ground room; here a wall stands so high that no
//! reckoning is needed to know what it hides.

use gatepost_core::engine::{Answer, AnswerSeenLandmarks, Brought, Config, Engine, Record};
use serde_json::{Value, json};

const AT: &str = "2026-05-04T08:00:00Z";

/// A road to the north along 14.5 E, and two masts 1.5 km to the west and to the east of it.
const AREA: &str = r#"{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"Plain road","highway":"track"},"geometry":{"type":"LineString","coordinates":[[14.5,46.0],[14.5,46.02]]}},
{"type":"Feature","properties":{"name":"West mast","man_made":"mast"},"geometry":{"type":"Point","coordinates":[14.48,46.01]}},
{"type":"Feature","properties":{"name":"East mast","man_made":"mast"},"geometry":{"type":"Point","coordinates":[14.52,46.01]}}]}"#;

/// Flat ground at 500 m, 0.001 degrees from post to post, with a wall of 300 m along 14.51 E from a latitude to the north.
fn ground(wall_from: f64) -> String {
    let (columns, rows) = (101_u32, 101_u32);
    let head = format!("ncols {columns}\nnrows {rows}\nxllcenter 14.45\nyllcenter 45.96\ncellsize 0.001\nNODATA_value -9999\n");
    let height = |row: u32, column: u32| {
        let north = 46.06 - 0.001 * f64::from(row);
        if (59..=61).contains(&column) && north > wall_from { "800" } else { "500" }
    };
    let row = |row: u32| (0..columns).map(|column| height(row, column)).collect::<Vec<_>>().join(" ");
    head + &(0..rows).map(row).collect::<Vec<_>>().join("\n") + "\n"
}

fn engine(wall_from: f64) -> Engine {
    let mut engine = Engine::open(&Config::default()).unwrap();
    for (name, bytes) in [("area.geojson", AREA), ("ground.asc", ground(wall_from).as_str())] {
        let file = Brought { at: Some(AT), name, bytes: bytes.as_bytes(), grid: Some("4326"), area_deg: None, ..Brought::default() };
        engine.bring(&file, &mut |_| true).unwrap();
    }
    engine
}

fn tell(engine: &mut Engine, record: &Value) -> Value {
    let told: Value = serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap();
    assert_eq!(told["ok"], true, "{told}");
    told
}

#[test]
fn a_wall_hides_the_mast_behind_it_and_not_the_other() {
    let mut engine = engine(45.9);
    let at = Some(AT.to_owned());
    let reply = engine.tell(&Record::Seen { at, place: Some("46.01, 14.5".into()), eye_m: None, within_m: None, to: None }).unwrap();
    let Some(Answer::Seen { landmarks: AnswerSeenLandmarks(landmarks), .. }) = reply.answer else { panic!("no answer") };
    let told: Vec<(&str, &str)> = landmarks.iter().map(|one| (one.landmark.as_str(), one.seen.as_str())).collect();
    // Over flat ground the errors of coarse heights may well hide what an eye 1.7 m up would see.
    assert_eq!(told, [("West mast", "uncertain"), ("East mast", "hidden")]);
    // The wall begins 0.009 degrees east of the eye: 697 m (radii of WGS 84, by hand); posts stand 77 m apart.
    assert!((landmarks[1].hidden_at_m.unwrap() - 697.0).abs() < 160.0, "{:?}", landmarks[1]);
    assert!(landmarks[0].chance.unwrap() > 0.1 && landmarks[1].chance.unwrap() < 0.05);
    assert!(landmarks[1].margin_m.unwrap() < -250.0, "{:?}", landmarks[1].margin_m);
    // Due west and due east; the grid's north of 33N lies 0.36 degrees west of true there, (14.5 - 15) · sin 46.
    assert!((landmarks[0].bearing_deg_grid - 270.37).abs() < 0.05, "{}", landmarks[0].bearing_deg_grid);
    assert!((landmarks[0].distance_m - 1549.0).abs() < 2.0, "{}", landmarks[0].distance_m);
    assert!(reply.said.iter().any(|said| said.starts_with("East mast: hidden by ground")), "{:?}", reply.said);
}

#[test]
fn the_check_list_tells_it_and_puts_the_hidden_last() {
    let mut engine = engine(45.9);
    let told = tell(&mut engine, &json!({ "do": "fix", "at": AT, "sightings": [{ "what": "seen", "landmark": "West mast" }] }));
    let sights = told["snapshot"]["sights"].as_array().unwrap().clone();
    assert_eq!(sights.last().unwrap()["landmark"], "East mast");
    assert!(sights[1]["told"].as_str().unwrap().contains("hidden by ground"), "{sights:?}");
    assert!(sights[0]["in_sight"].as_f64().unwrap() > 0.1);
    let ground = told["snapshot"]["sheet"]["ground"].as_array().unwrap();
    assert!(ground[0].as_str().unwrap().starts_with("Heights from ground.asc"), "{ground:?}");
}

/// Found out without the engine, the same is told; the sentence of each landform stands among those that are said.
#[test]
fn what_is_found_out_without_the_engine_is_told_alike() {
    let mut engine = engine(45.9);
    let asked = Record::Seen { at: Some(AT.into()), place: Some("46.01, 14.5".into()), eye_m: None, within_m: None, to: None };
    let told = engine.tell(&asked).unwrap();
    let away = engine.ask_seen(&asked).unwrap().unwrap();
    tell(&mut engine, &json!({ "do": "draft", "text": "" }));
    assert_eq!(engine.reply_seen(&away, &away.look().unwrap()).unwrap(), told);
    let Some(Answer::Seen { landforms, .. }) = told.answer else { panic!("no answer") };
    assert!(!landforms.is_empty(), "{:?}", told.said);
    for one in &landforms {
        assert!(told.said.contains(&one.told) && one.told.contains(&one.kind), "{one:?}");
    }
    assert!(engine.ask_seen(&Record::Draft { text: String::new() }).unwrap().is_none());
}

/// The wall hides the east mast from the northern half of the road: seen, one stands on the southern half, and the other way round.
#[test]
fn a_fix_uses_what_is_in_sight_and_is_the_same_when_resumed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("seen.gatepost");
    for (what, southern) in [("seen", true), ("not-seen", false)] {
        let mut engine = engine(46.01);
        let told = tell(&mut engine, &json!({ "do": "fix", "at": AT, "sightings": [{ "what": what, "landmark": "East mast" }] }));
        let place = &told["snapshot"]["fix"]["places"][0];
        // The road is 2223 m long; the wall begins to hide the mast a little beyond its middle.
        let (low_m, high_m) = (place["low_50_m"].as_f64().unwrap(), place["high_50_m"].as_f64().unwrap());
        assert!(if southern { high_m < 1250.0 } else { low_m > 1050.0 }, "{what}: {place}");
    }
    let config = Config { logbook: Some(path), ..Config::default() };
    let mut written = Engine::open(&config).unwrap();
    for (name, bytes) in [("area.geojson", AREA), ("ground.asc", ground(46.01).as_str())] {
        let file = Brought { at: Some(AT), name, bytes: bytes.as_bytes(), grid: Some("4326"), area_deg: None, ..Brought::default() };
        written.bring(&file, &mut |_| true).unwrap();
    }
    let told = tell(&mut written, &json!({ "do": "fix", "at": AT, "sightings": [{ "what": "seen", "landmark": "East mast" }] }));
    drop(written);
    let mut resumed = Engine::open(&config).unwrap();
    let again = serde_json::to_value(resumed.snapshot(Some(AT)).unwrap()).unwrap();
    assert_eq!(again["fix"], told["snapshot"]["fix"]);
    assert_eq!(again["sights"], told["snapshot"]["sights"]);
}

#[test]
fn without_heights_the_question_says_what_is_missing() {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let seen = Record::Seen { at: Some(AT.into()), place: None, eye_m: None, within_m: None, to: None };
    assert_eq!(engine.tell(&seen).unwrap_err().code(), "sheet-needed");
    let file = Brought { at: Some(AT), name: "area.geojson", bytes: AREA.as_bytes(), grid: None, area_deg: None, ..Brought::default() };
    engine.bring(&file, &mut |_| true).unwrap();
    assert_eq!(engine.tell(&seen).unwrap_err().code(), "heights-needed");
}

/// Flat ground at 500 m, and a wall of 300 m: the sums need no reckoning.
#[test]
fn a_profile_over_the_wall_counts_it_up_and_down() {
    let mut engine = engine(45.9);
    let told = tell(&mut engine, &json!({ "do": "profile", "from": "46.01, 14.5", "to": "46.01, 14.52", "step_m": 20.0 }));
    let answer = &told["answer"];
    assert_eq!((answer["climb_m"].as_f64().unwrap().round(), answer["descent_m"].as_f64().unwrap().round()), (300.0, 300.0), "{answer}");
    // 300 m over the 77.4 m from post to post: 75.5 degrees.
    assert!((answer["steepest_deg"].as_f64().unwrap().abs() - 75.5).abs() < 0.3, "{answer}");
    assert_eq!(answer["samples"].as_array().unwrap().len(), 79, "1549 m in steps of 20 m");
    // 300 m over 77.4 m stand far above what errors of 9.7 m make of such a step; on the flat they would make all there is.
    let said = told["said"].to_string().replace('\u{a0}', " ");
    assert!(said.contains("It begins at 500 m and ends at 500 m; its highest place, 800 m, lies 7"), "{said}");
    assert!(said.contains("One height may be wrong by 9.7 m") && said.contains("Steepest ") && said.contains(" by 76°, "), "{said}");
    let flat = tell(&mut engine, &json!({ "do": "profile", "from": "46.01, 14.46", "to": "46.01, 14.5", "eye_m": 1.7 }));
    assert_eq!((&flat["answer"]["steepest_deg"], &flat["answer"]["dead"]), (&Value::Null, &json!([])), "{}", flat["said"]);
    assert!(flat["answer"]["errors_m"].as_f64().unwrap() > 20.0 && flat["answer"]["perhaps_dead"][0]["from_m"].as_f64().unwrap() < 200.0);
    assert!(flat["said"].to_string().contains("may be errors of the heights and nothing else"), "{}", flat["said"]);
}

/// From 1.7 m over flat ground one looks up at the wall: its flat top and all behind it are dead ground.
#[test]
fn behind_the_wall_the_way_is_dead_ground() {
    let mut engine = engine(45.9);
    let told = tell(&mut engine, &json!({ "do": "profile", "from": "46.01, 14.5", "to": "46.01, 14.52", "eye_m": 1.7 }));
    let dead = told["answer"]["dead"].as_array().unwrap();
    // Its top begins 0.009 degrees east of the eye: 697 m; the way is 1549 m long (radii of WGS 84, by hand).
    let last = dead.last().unwrap();
    assert!(
        dead.len() == 1 && (last["from_m"].as_f64().unwrap() - 697.0).abs() < 2.0 && (last["to_m"].as_f64().unwrap() - 1549.0).abs() < 2.0,
        "{dead:?}"
    );
    let without = tell(&mut engine, &json!({ "do": "profile", "from": "46.01, 14.5", "to": "46.01, 14.52" }));
    assert_eq!(without["answer"]["dead"], json!([]));
}

#[test]
fn the_ground_and_its_contours_are_told() {
    let mut engine = engine(45.9);
    let flat = tell(&mut engine, &json!({ "do": "ground", "place": "46.01, 14.5" }))["answer"].clone();
    assert!((flat["height_m"].as_f64().unwrap() - 500.0).abs() < 1e-6 && flat["slope_deg"].as_f64().unwrap() < 1e-6, "{flat}");
    let east = flat["rises"].as_array().unwrap().iter().find(|rise| rise["bearing_deg_true"] == 90.0).unwrap().clone();
    assert!(east["rise_m"].as_f64().unwrap().abs() < 1e-6, "{east}");
    let wall = tell(&mut engine, &json!({ "do": "ground", "place": "46.01, 14.51" }))["answer"].clone();
    assert!((wall["height_m"].as_f64().unwrap() - 800.0).abs() < 1e-3, "{wall}");
    let told = tell(&mut engine, &json!({ "do": "contours", "interval_m": 100.0 }));
    let lines: Value = serde_json::from_str(told["answer"]["geojson"].as_str().unwrap()).unwrap();
    // The heights end at the crop: 600, 700 and 800 m on each side of a wall that runs through from south to north.
    let mut heights: Vec<f64> =
        lines["features"].as_array().unwrap().iter().map(|one| one["properties"]["height_m"].as_f64().unwrap()).collect();
    heights.sort_by(f64::total_cmp);
    assert_eq!(heights, [600.0, 600.0, 700.0, 700.0, 800.0, 800.0]);
    let on_west = |place: &Value| (14.508..=14.509_000_1).contains(&place[0].as_f64().unwrap());
    let west =
        lines["features"].as_array().unwrap().iter().filter(|one| one["geometry"]["coordinates"].as_array().unwrap().iter().all(on_west));
    assert_eq!(west.count(), 3, "three of them climb the western face, between 14.508 and 14.509 E");
    assert_eq!(told["answer"]["count"], 6);
}

/// Brown lines and their heights over the sheet; in feet on a grid in feet, each a whole number of intervals.
#[test]
fn contours_are_drawn_and_lettered_in_the_unit_of_the_grid() {
    let mut engine = engine(45.9);
    let metres = tell(&mut engine, &json!({ "do": "contours", "interval_m": 50.0, "svg": true }))["answer"].clone();
    let drawing = metres["svg"].as_str().unwrap();
    assert!(drawing.starts_with("<svg") && drawing.matches("#A0601A").count() >= 6, "{}", drawing.len());
    assert!(drawing.contains("Plain road") && drawing.contains("every 50"), "{drawing}");
    tell(&mut engine, &json!({ "do": "fix", "at": AT, "sightings": [{ "what": "seen", "landmark": "West mast" }] }));
    let chart = tell(&mut engine, &json!({ "do": "chart", "of": "fix" }))["answer"]["svg"].as_str().unwrap().to_owned();
    assert!(chart.contains("stroke=\"#A0601A\""), "the fix is drawn over the ground");
    // A Lambert grid in US survey feet.
    tell(
        &mut engine,
        &json!({ "do": "sheet", "at": AT, "grid": "+proj=lcc +lat_1=45 +lat_2=47 +lat_0=46 +lon_0=14.5 +datum=WGS84 +units=us-ft" }),
    );
    let feet = tell(&mut engine, &json!({ "do": "contours" }))["answer"].clone();
    assert!((feet["interval_m"].as_f64().unwrap() - 40.0 * 0.3048).abs() < 1e-9, "{}", feet["interval_m"]);
    let lines: Value = serde_json::from_str(feet["geojson"].as_str().unwrap()).unwrap();
    for line in lines["features"].as_array().unwrap() {
        let height_ft = line["properties"]["height_ft"].as_f64().unwrap();
        assert!((height_ft / 40.0 - (height_ft / 40.0).round()).abs() < 1e-9 && (1640.0..2640.0).contains(&height_ft), "{height_ft}");
    }
}

#[test]
fn no_place_is_made_up_and_one_off_the_heights_is_told() {
    let mut engine = engine(45.9);
    for question in [json!({ "do": "seen", "at": AT }), json!({ "do": "ground" })] {
        let told: Value = serde_json::from_str(&engine.tell_json(&question.to_string())).unwrap();
        assert_eq!(told["refusal"]["code"], "stand-unknown", "{told}");
    }
    let off = tell(&mut engine, &json!({ "do": "seen", "at": AT, "place": "46.01, 14.8", "within_m": 100_000.0 }));
    assert!(off["said"].as_array().unwrap().iter().any(|said| said.as_str().unwrap().contains("outside the heights")), "{off}");
    let at_mast = tell(&mut engine, &json!({ "do": "seen", "at": AT, "place": "46.01, 14.52" }));
    assert!(at_mast["said"].as_array().unwrap().iter().any(|said| said == "East mast: you stand at it."), "{at_mast}");
}

#[test]
fn contours_and_steps_are_told_as_they_were_asked() {
    let mut engine = engine(45.9);
    let feet = tell(&mut engine, &json!({ "do": "contours", "interval_ft": 40.0 }));
    assert!(feet["said"][0].as_str().unwrap().ends_with("40\u{a0}feet apart."), "{}", feet["said"]);
    // 2 * 1.645 * 9.73 m are 32.01 m: finer is told to be too fine.
    let is_fine = |told: &Value| told["said"].to_string().contains("carry contours 33\u{a0}m apart and wider");
    assert!(is_fine(&feet), "{}", feet["said"]);
    assert!(!is_fine(&tell(&mut engine, &json!({ "do": "contours", "interval_m": 33.0 }))));
    // Counted in feet on a sheet in metres: the features say so, and the letters name the unit that is not the sheet's own.
    let drawn = tell(&mut engine, &json!({ "do": "contours", "interval_ft": 40.0, "svg": true }))["answer"].clone();
    let lines: Value = serde_json::from_str(drawn["geojson"].as_str().unwrap()).unwrap();
    assert_eq!(lines["contours_in"], "ft");
    let features = lines["features"].as_array().unwrap();
    assert!(!features.is_empty() && features.iter().all(|one| one["properties"]["height_ft"].as_f64().unwrap() % 40.0 == 0.0), "{lines}");
    let drawing = drawn["svg"].as_str().unwrap();
    assert!(drawing.contains(">contours 40\u{a0}ft<"), "the interval stands on the drawing");
    assert!(drawing.contains(">1800\u{a0}ft<") && drawing.contains("a contour every 40 feet"), "{drawing}");
    for (interval_m, said) in [(2.5, "2.5\u{a0}m apart."), (0.5, "0.5\u{a0}m apart."), (20.0, "20\u{a0}m apart.")] {
        let told = tell(&mut engine, &json!({ "do": "contours", "interval_m": interval_m }));
        assert!(told["said"][0].as_str().unwrap().ends_with(said), "{}", told["said"]);
    }
    for step_m in [1e-300, 0.0, -1.0] {
        let told = engine.tell_json(&json!({ "do": "profile", "from": "46.01, 14.5", "to": "46.02, 14.5", "step_m": step_m }).to_string());
        assert!(told.contains("profile-step"), "{told}");
    }
}

/// A pit of 30 m around 14.495 E, 46.005 N, and no heights north of 46.01 N: its rings are marked as hollows, half of the sheet is hatched and told.
#[test]
fn hollows_and_what_has_no_height_are_told() {
    let row = |row: u32| {
        let north = 46.06 - 0.001 * f64::from(row);
        let height = |column: u32| match (f64::from(column) - 45.0).hypot((north - 46.005) * 1000.0) {
            _ if north > 46.0105 => "-9999".to_owned(),
            away => format!("{:.1}", 470.0 + 10.0 * away.min(3.0)),
        };
        (0..101).map(height).collect::<Vec<_>>().join(" ")
    };
    let head = "ncols 101\nnrows 101\nxllcenter 14.45\nyllcenter 45.96\ncellsize 0.001\nNODATA_value -9999\n";
    let pit = head.to_owned() + &(0..101).map(row).collect::<Vec<_>>().join("\n") + "\n";
    let mut engine = Engine::open(&Config::default()).unwrap();
    for (name, bytes) in [("area.geojson", AREA), ("pit.asc", pit.as_str())] {
        let file = Brought { at: Some(AT), name, bytes: bytes.as_bytes(), grid: Some("4326"), ..Brought::default() };
        engine.bring(&file, &mut |_| true).unwrap();
    }
    let told = tell(&mut engine, &json!({ "do": "contours", "interval_m": 7.0, "svg": true }));
    let lines: Value = serde_json::from_str(told["answer"]["geojson"].as_str().unwrap()).unwrap();
    let rings: Vec<&Value> = lines["features"].as_array().unwrap().iter().map(|one| &one["properties"]).collect();
    // 476, 483, 490 and 497 m.
    assert!(rings.len() == 4 && rings.iter().all(|ring| ring["depression"] == true), "{rings:?}");
    let said = told["said"].to_string().replace('\u{a0}', " ");
    // The sheet reaches from 46.00 to 46.02 N, the heights to 46.01.
    assert!(["49", "50", "51"].iter().any(|share| said.contains(&format!("{share} % of the sheet has no height"))), "{said}");
    assert!(said.contains("hatched in the drawing") && told["answer"]["svg"].as_str().unwrap().contains("hatched: no heights"), "{said}");
}

#[test]
fn known_points_are_listed_as_far_as_a_person_scrolls() {
    let way = |name: String, from: (f64, f64), to: (f64, f64)| {
        json!({ "type": "Feature", "properties": { "name": name, "kind": "track" },
            "geometry": { "type": "LineString", "coordinates": [[from.0, from.1], [to.0, to.1]] } })
    };
    let step = |i: i32| 0.002 * f64::from(i);
    let across = (0..20).map(|i| way(format!("A{i}"), (14.5, 46.0 + step(i)), (14.54, 46.0 + step(i))));
    let up = (0..20).map(|i| way(format!("U{i}"), (14.501 + step(i), 45.999), (14.501 + step(i), 46.039)));
    let features: Vec<Value> = across.chain(up).collect();
    let text = json!({ "type": "FeatureCollection", "features": features }).to_string();
    let mut engine = Engine::open(&Config::default()).unwrap();
    tell(&mut engine, &json!({ "do": "carry", "at": AT, "format": "geojson", "text": text }));
    let mut asked = |more: Value| {
        let mut question = json!({ "do": "points" });
        question.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        let told = tell(&mut engine, &question);
        let names = told["answer"]["points"].as_array().unwrap().iter().map(|point| point["name"].as_str().unwrap().to_owned());
        (names.collect::<Vec<_>>(), told["answer"]["left"].as_u64().unwrap(), told["said"][0].as_str().unwrap().to_owned())
    };
    // 400 crossings, each on two lines.
    let (names, left, said) = asked(json!({}));
    assert_eq!((names.len(), left), (24, 776));
    assert_eq!(said, "800 points are known there: these and 776 more. Type a part of a name.");
    let (names, left, said) = asked(json!({ "named": "u13", "lines": ["A7"] }));
    assert_eq!((names, left, said.as_str()), (vec!["A7 x U13".to_owned()], 0, "One known point there is so named."));
    let (names, left, _) = asked(json!({ "lines": ["A7"] }));
    assert_eq!((names.len(), left, names[0].as_str(), names[19].as_str()), (20, 0, "A7 x U0", "A7 x U19"));
    // The others of its two lines.
    let (names, left, _) = asked(json!({ "from": "A7 x U13" }));
    assert!(names.len() == 24 && left == 14 && !names.contains(&"A7 x U13".to_owned()), "{names:?} {left}");
    let (names, left, _) = asked(json!({ "from": "A7 x U13", "lines": ["A7", "A8"] }));
    assert!(names.len() == 19 && left == 0 && names.iter().all(|name| name.starts_with("A7 x ")), "{names:?} {left}");
    let (names, _, said) = asked(json!({ "named": "mill" }));
    assert!(names.is_empty() && said.starts_with("No known point there is so named."), "{said}");
    for (question, refused) in [(json!({ "lines": ["B"] }), "line-unknown"), (json!({ "from": "Mill" }), "known-point-unknown")] {
        let mut question = question;
        question["do"] = "points".into();
        assert!(engine.tell_json(&question.to_string()).contains(refused), "{question}");
    }
}

/// The same flat ground without heights from 14.501 E to 14.505 E. To the east nothing is in sight for sure behind the gap, and what is said of the way
/// and of the ground around says so; the wall behind it hides all the same.
#[test]
fn a_gap_in_the_heights_is_named() {
    let gapped = |wall_from: f64| {
        let rows = ground(wall_from);
        let mut lines: Vec<String> = rows.lines().map(str::to_owned).collect();
        for line in lines.iter_mut().skip(6) {
            let mut posts: Vec<&str> = line.split(' ').collect();
            posts[51..=55].fill("-9999");
            *line = posts.join(" ");
        }
        lines.join("\n") + "\n"
    };
    for wall_from in [45.9, 47.0] {
        let mut engine = Engine::open(&Config::default()).unwrap();
        for (name, bytes) in [("area.geojson", AREA), ("ground.asc", gapped(wall_from).as_str())] {
            let file = Brought { at: Some(AT), name, bytes: bytes.as_bytes(), grid: Some("4326"), ..Brought::default() };
            let brought = engine.bring(&file, &mut |_| true).unwrap();
            // 5 of some 75 columns.
            let is_told = brought.said.iter().any(|said| said.contains("of the heights that are kept have no height: gaps of the file"));
            assert_eq!(is_told, name == "ground.asc", "{:?}", brought.said);
        }
        let beside = tell(&mut engine, &json!({ "do": "ground", "place": "46.01, 14.4999" }))["said"].to_string().replace('\u{a0}', " ");
        assert!(beside.contains("or have a gap: the slope close around cannot be told."), "{beside}");
        // The gap lies to the east: towards north-east, east and south-east nothing is known, and each is named.
        let unknown = ["045° true", "090° true", "135° true"].map(|way| format!("Towards {way} it is not known what the ground does over"));
        assert!(unknown.iter().all(|one| beside.contains(one)) && beside.matches("it is not known").count() == 3, "{beside}");
        let far = tell(&mut engine, &json!({ "do": "ground", "place": "46.01, 14.48" }))["said"].to_string();
        assert!(!far.contains("or have a gap"), "{far}");
        let ends = engine.tell_json(&json!({ "do": "profile", "from": "46.01, 14.48", "to": "46.01, 14.503", "eye_m": 1.7 }).to_string());
        assert!(ends.contains("profile-end-unknown") && ends.contains("14.503"), "{ends}");
        let told = tell(&mut engine, &json!({ "do": "profile", "from": "46.01, 14.4995", "to": "46.01, 14.52", "eye_m": 1.7 }));
        let dead = told["answer"]["dead"].as_array().unwrap();
        let untold = told["answer"]["untold"].as_array().unwrap();
        // The gap begins at 14.5 E, 39 m off, the wall's top at 14.509 E, 736 m off (radii of WGS 84, by hand).
        assert!((untold[0]["from_m"].as_f64().unwrap() - 38.7).abs() < 0.5, "{untold:?}");
        let (hidden_m, wanted_m) = (dead.first().map(|one| one["from_m"].as_f64().unwrap()), (wall_from < 46.0).then_some(736.0));
        assert_eq!(hidden_m.map(|at_m| (at_m / 10.0).round()), wanted_m.map(|at_m: f64| (at_m / 10.0).round()), "{dead:?}");
        let said = told["said"].to_string();
        assert!(said.contains("a gap in the heights begins") && !said.contains("all of the ground on the way"), "{said}");
        let seen = tell(&mut engine, &json!({ "do": "seen", "at": AT, "place": "46.01, 14.4995" }));
        let said = seen["said"].to_string();
        assert!(said.contains("A gap in the heights begins 39\u{a0}m from here"), "{said}");
        let mast = seen["answer"]["landmarks"].as_array().unwrap().iter().find(|one| one["landmark"] == "East mast").unwrap().clone();
        assert_eq!(mast["seen"], if wall_from < 46.0 { "hidden" } else { "uncertain" }, "{mast}");
        assert!(wall_from < 46.0 || said.contains("which have a gap on the way"), "{said}");
    }
}

/// Heights counted from the ellipsoid, as the grid says that is named for them (EPSG register: 4979 has a height of its own).
#[test]
fn heights_above_the_ellipsoid_are_never_held_against_an_altimeter_in_silence() {
    let folder = tempfile::tempdir().unwrap();
    let config = Config { logbook: Some(folder.path().join("ellipsoid.gatepost")), ..Config::default() };
    let mut engine = Engine::open(&config).unwrap();
    for (name, bytes, grid) in [("area.geojson", AREA, "4326"), ("ground.asc", ground(47.0).as_str(), "EPSG:4979")] {
        let file = Brought { at: Some(AT), name, bytes: bytes.as_bytes(), grid: Some(grid), ..Brought::default() };
        engine.bring(&file, &mut |_| true).unwrap();
    }
    drop(engine);
    let mut engine = Engine::open(&config).unwrap();
    for record in [json!({ "do": "ground", "place": "46.01, 14.5" }), json!({ "do": "contours" })] {
        let told = tell(&mut engine, &record);
        assert!(told["said"].to_string().contains("counted from the ellipsoid"), "{told}");
    }
    let mut fix = |height: Value| -> Value {
        let record = json!({ "do": "fix", "at": AT, "sightings": [height] });
        serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap()
    };
    for height in [
        json!({ "what": "height", "read_m": 500.0 }),
        json!({ "what": "height", "read_m": 500.0, "set_m": 480.0 }),
        json!({ "what": "height", "read_m": 500.0, "set_at": "46.0, 14.5" }),
    ] {
        assert_eq!(fix(height)["refusal"]["code"], "altimeter-ellipsoid");
    }
    let climbed = fix(json!({ "what": "height", "read_m": 450.0, "set_at": "46.0, 14.5", "set_m": 450.0 }));
    assert_eq!(climbed["ok"], true, "the climb alone counts: {climbed}");
    let ground = climbed["snapshot"]["sheet"]["ground"].to_string();
    assert!(ground.contains("counted from the ellipsoid"), "{ground}");
}

/// Two masts of one name: who sights the one is asked whether it was the other, with how far they lie apart, on a line and in the open; not
/// where both are sighted.
#[test]
fn a_namesake_of_what_was_sighted_is_told() {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let area = AREA.replace("East mast", "West mast 2");
    let file = Brought { at: Some(AT), name: "area.geojson", bytes: area.as_bytes(), ..Brought::default() };
    engine.bring(&file, &mut |_| true).unwrap();
    let mut said = |line: Option<&str>, landmarks: &[(&str, &str)]| {
        let sightings: Vec<Value> = landmarks.iter().map(|(name, read)| json!({"landmark": name, "bearing": read})).collect();
        let told = tell(&mut engine, &json!({"do": "fix", "at": AT, "line": line, "sightings": sightings}));
        told["said"].to_string().replace('\u{a0}', " ")
    };
    // pyproj 3.7.2 (MIT), Geod on WGS 84 between the two: 3097.97 m.
    let asked = "The sheet also has West mast 2, 3098 m from West mast: is it really West mast that you sighted?";
    assert!(said(Some("Plain road"), &[("West mast", "270 true")]).contains(asked));
    assert!(said(None, &[("West mast", "270 true")]).contains(asked));
    assert!(!said(Some("Plain road"), &[("West mast", "270 true"), ("West mast 2", "090 true")]).contains("The sheet also has"));
}

//! The strip of a walk: what it tells at a time, and when a value is out of date.

use gatepost_conformance::root;
use gatepost_core::engine::{Config, Engine, StripView};
use serde_json::{Value, json};

fn told(engine: &mut Engine, mut record: Value, at: &str) {
    record["at"] = json!(format!("2026-09-12T{at}:00Z"));
    let reply: Value = serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap();
    assert_eq!(reply["ok"], json!(true), "{reply}");
}

fn strip(engine: &mut Engine, at: &str) -> StripView {
    engine.snapshot(Some(&format!("2026-09-12T{at}Z"))).unwrap().strip
}

/// A text with plain blanks where it may not be parted.
fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

/// The demo's sheet carried and a fix taken at 08:10 UTC.
fn beside_the_line() -> Engine {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let sheet = std::fs::read_to_string(root().join("tests/demo/velm-valley.toml")).unwrap();
    told(&mut engine, json!({"do": "carry", "format": "toml", "text": sheet}), "08:00");
    let sighting = json!({"landmark": "Sorn chapel", "bearing": "016 mag"});
    told(&mut engine, json!({"do": "fix", "line": "Velm Road", "instrument": "sighting", "sightings": [sighting]}), "08:10");
    engine
}

#[test]
fn without_a_fix_nothing_is_out_of_date() {
    let strip = strip(&mut Engine::open(&Config::default()).unwrap(), "08:00:00");
    assert!(!strip.sure_is_old && !strip.home_is_old);
    assert_eq!((strip.sure_label.as_str(), strip.home.as_str()), ("Sure", "not set"));
}

#[test]
fn beside_the_line_a_fix_lasts_an_hour() {
    let mut engine = beside_the_line();
    assert!(!strip(&mut engine, "09:10:00").sure_is_old);
    let late = strip(&mut engine, "09:10:01");
    assert!(late.sure_is_old && !late.home_is_old);
    assert_eq!(plain(&late.sure_note), "60 min old");
}

/// The cell tells the same share of the probability as the sentence: with one in twenty left for a plainly false reading, or more, no
/// longer 95 %.
#[test]
fn the_strip_tells_the_share_that_the_sentence_tells() {
    for (on, landmarks, share) in [
        (json!({ "line": "Velm Road" }), &["Sorn chapel", "Hallik mast"][..], "95 %"),
        (json!({ "open": true }), &["Sorn chapel", "Hallik mast"], "90 %"),
        (json!({ "open": true }), &["Sorn chapel", "Hallik mast", "Old kiln"], "95 %"),
    ] {
        let mut engine = beside_the_line();
        let bearing = |name: &str| match name {
            "Sorn chapel" => "016 mag",
            "Hallik mast" => "088 mag",
            _ => "062 mag",
        };
        let sightings: Vec<Value> = landmarks.iter().map(|name| json!({ "landmark": name, "bearing": bearing(name) })).collect();
        let mut fix = json!({ "do": "fix", "instrument": "sighting", "sightings": sightings });
        fix.as_object_mut().unwrap().extend(on.as_object().unwrap().clone());
        told(&mut engine, fix, "08:20");
        let snapshot = engine.snapshot(Some("2026-09-12T08:20:00Z")).unwrap();
        let field = snapshot.fix.map(|fix| fix.field).or(snapshot.open_fix.map(|fix| fix.field)).unwrap();
        assert!(plain(&field[0]).ends_with(&format!("{} ({share}).", plain(&snapshot.strip.sure))), "{field:?} {:?}", snapshot.strip);
        assert_eq!(plain(&snapshot.strip.sure_label), format!("Sure, {share}"));
    }
}

#[test]
fn on_foot_a_place_lasts_twenty_minutes_from_each_turn() {
    let mut engine = beside_the_line();
    told(&mut engine, json!({"do": "keep"}), "08:15");
    assert!(strip(&mut engine, "08:30:01").sure_is_old && strip(&mut engine, "08:30:01").home_is_old);
    told(&mut engine, json!({"do": "leg", "bearing": "052 mag", "paces": 90, "pace_kind": "double"}), "08:31");
    assert!(!strip(&mut engine, "08:51:00").sure_is_old);
    let late = strip(&mut engine, "08:51:01");
    assert!(late.sure_is_old && late.home_is_old);
    // A leg that is reached on the way back is a place anew; struck, it is none.
    told(&mut engine, json!({"do": "turn-round"}), "08:55");
    told(&mut engine, json!({"do": "reached"}), "08:59");
    let reached = strip(&mut engine, "09:00:00");
    assert!(!reached.sure_is_old && !reached.home_is_old);
    // Led back by the log one stands at the car give or take what was walked, and is not told to be at it.
    assert_eq!((plain(&reached.sure_note).as_str(), plain(&reached.home).as_str()), ("1 min old", "0 m"));
    assert!(plain(&reached.home_note).starts_with("± ") && plain(&reached.home_note) != "± 0 m", "{}", reached.home_note);
    told(&mut engine, json!({"do": "undo"}), "09:00");
    assert!(strip(&mut engine, "09:00:00").sure_is_old);
}

#[test]
fn what_is_of_no_known_age_is_out_of_date() {
    let folder = tempfile::tempdir().unwrap();
    let config = Config { logbook: Some(folder.path().join("walk.gatepost")), ..Config::default() };
    let mut engine = Engine::open(&config).unwrap();
    let sheet = std::fs::read_to_string(root().join("tests/demo/velm-valley.toml")).unwrap();
    told(&mut engine, json!({"do": "carry", "format": "toml", "text": sheet}), "08:00");
    let sighting = json!({"landmark": "Sorn chapel", "bearing": "016 mag"});
    told(&mut engine, json!({"do": "fix", "line": "Velm Road", "sightings": [sighting]}), "08:10");
    drop(engine);
    let strip = Engine::open(&config).unwrap().snapshot(None).unwrap().strip;
    assert!(strip.sure_is_old);
    assert_eq!(strip.sure_note, "age not known");
}

/// The light's cell on a sheet that begins at a place.
fn light(place: &str, at: &str) -> (String, String) {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let (lat, lon) = place.split_once(", ").unwrap();
    let sheet = format!("name = \"Light\"\n[[line]]\nname = \"Road\"\npoints = [\"{lat}, {lon}\", \"{lat}, {lon}1\"]\n");
    told(&mut engine, json!({"do": "carry", "format": "toml", "text": sheet}), "08:00");
    let strip = engine.snapshot(Some(at)).unwrap().strip;
    (plain(&strip.light), plain(&strip.light_note))
}

/// Twilights by Skyfield 1.55 with DE421 (`almanac.dark_twilight_day`): at 46.0° N 13.505° E civil twilight of 1 July 2026 ends
/// 19:38:40 UTC and begins again 02:41:24; on 21 June it never ends at 69.6° N; on 21 December it never begins at 78.2° N.
#[test]
fn the_light_is_told_by_day_by_night_and_where_there_is_one_of_them_only() {
    let pair = |value: &str, note: &str| (value.to_owned(), note.to_owned());
    assert_eq!(light("46.0, 13.50", "2026-07-01T18:00:00Z"), pair("1 h 38 min", "dark 19:39"));
    assert_eq!(light("46.0, 13.50", "2026-07-01T19:38:10Z"), pair("0 h 0 min", "dark 19:39"));
    assert_eq!(light("46.0, 13.50", "2026-07-01T19:39:10Z"), pair("dark", "light 02:41"));
    assert_eq!(light("46.0, 13.50", "2026-07-01T22:00:00Z"), pair("dark", "light 02:41"));
    assert_eq!(light("46.0, 13.50", "2026-07-02T02:42:00Z").1, "dark 19:38");
    assert_eq!(light("69.6, 18.90", "2026-06-21T22:00:00Z"), pair("all day", "no dark"));
    assert_eq!(light("78.2, 15.60", "2026-12-21T11:00:00Z"), pair("dark", "all day"));
}

//! Every schema that was ever shipped opens, comes up to date, and tells the same walk.

use std::collections::BTreeMap;
use std::path::Path;

use gatepost_conformance::{files_below, root};
use gatepost_core::engine::{Config, Engine, Record};
use rusqlite::Connection;
use serde_json::{Value, json};

fn schema(path: &Path) -> BTreeMap<String, String> {
    let connection = Connection::open(path).unwrap();
    let mut query = connection.prepare("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL").unwrap();
    let rows = query.query_map([], |row| Ok((row.get(0)?, row.get(1)?))).unwrap();
    rows.map(Result::unwrap).collect()
}

fn engine(path: &Path) -> Engine {
    Engine::open(&Config { logbook: Some(path.to_path_buf()), ..Config::default() }).unwrap()
}

#[test]
fn every_shipped_schema_opens_and_tells_the_same_walk() {
    let folder = tempfile::tempdir().unwrap();
    let fresh = folder.path().join("fresh.gatepost");
    drop(engine(&fresh));
    let dumps = files_below(&root().join("tests/databases"), "sql");
    assert!(!dumps.is_empty());
    for dump in dumps {
        let path = folder.path().join(dump.file_stem().unwrap()).with_extension("gatepost");
        Connection::open(&path).unwrap().execute_batch(&std::fs::read_to_string(&dump).unwrap()).unwrap();
        let mut engine = engine(&path);
        let reply = engine.tell(&Record::Back { at: None }).unwrap();
        let way = reply.snapshot.way_back.unwrap();
        assert_eq!(way.legs.iter().map(|leg| leg.of_leg).collect::<Vec<_>>(), [5, 4, 3, 2, 1], "{}", dump.display());
        assert_eq!(way.legs[3].detour_side.as_deref(), Some("left"));
        assert_eq!(reply.snapshot.car.unwrap().line, "Velm Road");
        drop(engine);
        assert_eq!(schema(&path), schema(&fresh), "{}", dump.display());
    }
}

#[test]
fn an_undone_entry_is_struck_and_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("walk.gatepost");
    let dump = std::fs::read_to_string(root().join("tests/databases/v1.sql")).unwrap();
    Connection::open(&path).unwrap().execute_batch(&dump).unwrap();
    let mut engine = engine(&path);
    let undo = Record::Undo { at: Some("2026-09-12T10:00:00Z".into()) };
    let reply = engine.tell(&undo).unwrap();
    assert_eq!(reply.snapshot.legs.len(), 4);
    let raw = Connection::open(&path).unwrap();
    let count = |table: &str| raw.query_row(&format!("SELECT count(*) FROM {table}"), [], |row| row.get::<_, i64>(0)).unwrap();
    assert_eq!((count("leg"), count("strike")), (5, 1));
}

/// A random record of a walk on the demo's sheet.
fn record(dice: u64) -> Value {
    let at = "2026-09-12T09:00:00Z";
    let chapel = json!({ "landmark": "Sorn chapel", "bearing": "016 mag" });
    let mast = json!({ "landmark": "Hallik mast", "bearing": "088 mag" });
    let fix = |sightings: Value| json!({ "do": "fix", "at": at, "line": "Velm Road", "instrument": "sighting", "sightings": sightings });
    match dice % 11 {
        0 => fix(json!([chapel])),
        1 => fix(json!([chapel, mast])),
        2 => json!({ "do": "check", "at": at, "place": "43TEG 5691 4962" }),
        3 => json!({ "do": "keep", "at": at }),
        4 => json!({ "do": "leg", "at": at, "bearing": "052 mag", "paces": 90, "detour": { "side": "left", "paces": 30 } }),
        5 => json!({ "do": "leg", "at": at, "bearing": "300 grid", "metres": 120, "met": "spring" }),
        6 => json!({ "do": "turn-round", "at": at }),
        7 => json!({ "do": "reached", "at": at }),
        8 => json!({ "do": "pace", "at": at, "double_paces_per_100_m": 61 }),
        9 => json!({ "do": "draft", "text": "21" }),
        _ => json!({ "do": "undo", "at": at }),
    }
}

/// Everything shown that does not hang on the present time or count changes.
fn shown(engine: &mut Engine) -> Value {
    let mut shown = serde_json::to_value(engine.snapshot(None).unwrap()).unwrap();
    for passing in ["revision", "light", "strip"] {
        shown.as_object_mut().unwrap().remove(passing);
    }
    if let Some(sheet) = shown["sheet"].as_object_mut() {
        sheet.remove("norths");
    }
    shown
}

#[test]
fn a_walk_resumed_after_any_record_is_the_same_walk() {
    let folder = tempfile::tempdir().unwrap();
    let carry = json!({ "do": "carry", "at": "2026-09-12T08:00:00Z", "format": "toml",
        "text": std::fs::read_to_string(root().join("tests/demo/velm-valley.toml")).unwrap() });
    let mut dice = 0x2545_F491_4F6C_DD1D_u64;
    for run in 0..40 {
        let path = folder.path().join(format!("{run}.gatepost"));
        let mut living = engine(&path);
        let mut told = vec![living.tell_json(&carry.to_string())];
        for _ in 0..25 {
            dice ^= dice << 13;
            dice ^= dice >> 7;
            dice ^= dice << 17;
            let record = record(dice);
            let reply = living.tell_json(&record.to_string());
            told.push(format!("{record} -> {}", &reply[..20]));
            assert_eq!(shown(&mut living), shown(&mut engine(&path)), "run {run}:\n{}", told.join("\n"));
        }
    }
}

#[test]
fn on_the_way_back_one_stands_where_the_log_has_led() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("walk.gatepost");
    let dump = std::fs::read_to_string(root().join("tests/databases/v1.sql")).unwrap();
    Connection::open(&path).unwrap().execute_batch(&dump).unwrap();
    let mut engine = engine(&path);
    let at = || Some("2026-09-12T10:00:00Z".to_owned());
    let far = engine.tell(&Record::TurnRound { at: at() }).unwrap().snapshot.here.unwrap().home_m;
    let mut left = vec![far];
    for _ in 0..5 {
        left.push(engine.tell(&Record::Reached { at: at() }).unwrap().snapshot.here.unwrap().home_m);
    }
    assert!((far - 782.0).abs() < 1.0, "{left:?}");
    assert!(left.last().unwrap().abs() < 0.01, "{left:?}");
    assert!(engine.tell(&Record::Reached { at: at() }).is_err());
}

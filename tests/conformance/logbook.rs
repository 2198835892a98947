//! Every schema that was ever shipped opens, comes up to date, and tells the same walk.

use std::collections::BTreeMap;
use std::path::Path;

use gatepost_conformance::{files_below, root};
use gatepost_core::engine::{Config, Engine, Record};
use gatepost_core::logbook::{Logbook, LogbookError};
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
        // What is said at once stands in the snapshot sentence by sentence, but how well the bearings close, which is for the desk, and the caution.
        let legs = way.legs.iter().map(|leg| &leg.told);
        let parts = [&way.head_told].into_iter().chain(legs).chain([&way.miss_told]);
        assert!(reply.said.iter().take(reply.said.len() - 2).eq(parts));
        assert_eq!(reply.snapshot.car.unwrap().line.as_deref(), Some("Velm Road"));
        drop(engine);
        assert_eq!(schema(&path), schema(&fresh), "{}", dump.display());
    }
}

#[test]
fn heights_written_by_another_program_from_the_words_of_the_schema_are_read() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("v3.gatepost");
    let dump = std::fs::read_to_string(root().join("tests/databases/v3.sql")).unwrap();
    Connection::open(&path).unwrap().execute_batch(&dump).unwrap();
    let book = Logbook::open(&path).unwrap();
    let rows = book.heights_of_trip(1).unwrap();
    assert_eq!(rows.iter().map(|row| row.origin.source.as_str()).collect::<Vec<_>>(), ["velm.tif", "velm.hgt"]);
    let whole = book.load_heights(rows[1].id, None).unwrap();
    for (column, row) in (0..3).flat_map(|row| (0..257).map(move |column| (column, row))) {
        let expected = ((column, row) != (3, 1)).then_some(900.0 + 7.0 * column as f64 - 11.0 * row as f64);
        assert_eq!(whole.post_m(column, row), expected, "{column} {row}");
    }
    let float = book.load_heights(rows[0].id, None).unwrap();
    assert_eq!(float.values_m(), [1200.5, -0.25, 0.001, 1199.875]);
    assert_eq!((float.layout().west, float.layout().step_south, float.spread().correlation_m), (75.5, 0.5, 50.0));
}

/// Every kind of sighting that schema 4 can hold is reckoned again, to the place that its row kept.
#[test]
fn sightings_of_every_kind_are_read_back_from_schema_4() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("v4.gatepost");
    let dump = std::fs::read_to_string(root().join("tests/databases/v4.sql")).unwrap();
    let raw = Connection::open(&path).unwrap();
    raw.execute_batch(&dump).unwrap();
    let kinds: String = raw.query_row("SELECT json_group_array(DISTINCT observed ->> 'what') FROM sighting", [], |row| row.get(0)).unwrap();
    let mut kinds: Vec<String> = serde_json::from_str(&kinds).unwrap();
    kinds.sort();
    let all = ["angle", "bearing", "here", "line-run", "not-seen", "paces", "running", "seen", "side", "trip"];
    assert_eq!(kinds, all);
    let kept: f64 = raw.query_row("SELECT along_m FROM fix ORDER BY entry_id DESC LIMIT 1", [], |row| row.get(0)).unwrap();
    drop(raw);
    let mut engine = engine(&path);
    let fix = engine.snapshot(None).unwrap().fix.unwrap();
    assert_eq!(fix.lines.iter().map(|line| line.name.as_str()).collect::<Vec<_>>(), ["Velm Road", "Issa Creek"]);
    // The row was kept when a display of which nothing is told was taken to show the nearest figure; now it may cut off as well, and its
    // middle lies a quarter of its step of 100 m farther on, less what the other sightings hold against it.
    let moved_m = fix.places[0].along_m - kept;
    let near_m = 0.1 * fix.places[0].spread_along_m;
    assert!(moved_m > -near_m && moved_m < 25.0 + near_m, "{} {kept}", fix.places[0].along_m);
    let before = engine.tell(&Record::Undo { at: Some("2026-09-12T12:00:00Z".into()) }).unwrap().snapshot.fix.unwrap();
    // Standing at the milestone, within 20 m.
    assert_eq!(before.places[0].from, "Milestone 4");
    assert!(before.places[0].from_m.abs() < 10.0, "{:?}", before.places[0].from_m);
}

/// What came with schema 5: a fix in the open, a place held against a fix as it was typed, and one weighed in.
#[test]
fn a_typed_place_and_a_fix_in_the_open_are_read_back_from_schema_5() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("v5.gatepost");
    let dump = std::fs::read_to_string(root().join("tests/databases/v5.sql")).unwrap();
    let raw = Connection::open(&path).unwrap();
    raw.execute_batch(&dump).unwrap();
    let typed: String = raw.query_row("SELECT typed FROM witness", [], |row| row.get(0)).unwrap();
    assert_eq!(typed, "5691 4962");
    let kept: f64 = raw.query_row("SELECT along_m FROM fix WHERE entry_id = 13", [], |row| row.get(0)).unwrap();
    drop(raw);
    let mut engine = engine(&path);
    let snapshot = engine.snapshot(None).unwrap();
    assert!(snapshot.fix.is_none() && snapshot.open_fix.is_some());
    let undo = Record::Undo { at: Some("2026-09-12T12:00:00Z".into()) };
    let held = engine.tell(&undo).unwrap().snapshot;
    assert_eq!(held.check.unwrap().verdict, "fits");
    let place = &held.fix.unwrap().places[0];
    assert!((place.along_m - kept).abs() < 0.1 * place.spread_along_m, "{} {kept}", place.along_m);
}

#[test]
fn a_damaged_table_is_told_when_there_are_heights_too() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("v3.gatepost");
    let dump = std::fs::read_to_string(root().join("tests/databases/v3.sql")).unwrap();
    let raw = Connection::open(&path).unwrap();
    raw.execute_batch(&dump).unwrap();
    let number = |query: &str| raw.query_row(query, [], |row| row.get::<_, usize>(0)).unwrap();
    let size = number("PRAGMA page_size");
    let page = |name: &str| number(&format!("SELECT rootpage FROM sqlite_schema WHERE name = '{name}'"));
    let (leg, tiles) = (page("leg"), page("height_tile"));
    drop(raw);
    let sound = std::fs::read(&path).unwrap();
    let opened_with_page_of_ff = |page: usize| {
        let mut broken = sound.clone();
        broken[(page - 1) * size..page * size].fill(0xff);
        std::fs::write(&path, broken).unwrap();
        Logbook::open(&path)
    };
    assert!(matches!(opened_with_page_of_ff(leg), Err(LogbookError::Damaged(_))));
    assert!(opened_with_page_of_ff(tiles).is_err_and(|error| matches!(error, LogbookError::Damaged(_))), "its first page is looked at");
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
        let reply = engine.tell(&Record::Reached { at: at() }).unwrap();
        let way = reply.snapshot.way_back.unwrap();
        let next = way.legs.get(way.walked as usize).map_or(&way.end_told, |leg| &leg.told);
        assert_eq!(&reply.said[0], next);
        // Away from the fix nobody asks what to sight next.
        assert_eq!(reply.snapshot.fix.unwrap().field.len(), 2);
        left.push(reply.snapshot.here.unwrap().home_m);
    }
    assert!((far - 782.0).abs() < 1.0, "{left:?}");
    assert!(left.last().unwrap().abs() < 0.01, "{left:?}");
    assert!(engine.tell(&Record::Reached { at: at() }).is_err());
}

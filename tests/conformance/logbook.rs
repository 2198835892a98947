//! Every schema that was ever shipped opens, comes up to date, and tells the same walk.

use std::collections::BTreeMap;
use std::path::Path;

use gatepost_conformance::{files_below, root};
use gatepost_core::engine::{Config, Engine, Record};
use rusqlite::Connection;

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

//! What the file must hold: nothing lost, nothing rewritten, foreign and newer files left alone.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use super::{Entry, Logbook, LogbookError, schema};
use crate::earth::Instant;
use crate::measure::{NamedBearing, North};
use crate::sheet::{DraftLine, Paper, SheetDraft};
use crate::travel::{Detour, Distance, Leg, Pace, PaceKind, Side};

fn draft() -> SheetDraft {
    let line = DraftLine {
        name: "Road".into(),
        kind: "road".into(),
        points: vec![(46.0, 13.0), (46.01, 13.0)],
        spread_m: 0.0,
        ..DraftLine::default()
    };
    SheetDraft {
        name: "s".into(),
        grid: None,
        position_spread_m: None,
        norths: None,
        lines: vec![line],
        known_points: vec![],
        landmarks: vec![],
        paper: Paper::default(),
    }
}

fn leg() -> Leg {
    let out = Distance::Paces { count: 60.0, kind: PaceKind::Single };
    Leg {
        bearing: NamedBearing::new(63.0, North::Magnetic),
        distance: Distance::Paces { count: 140.0, kind: PaceKind::Double },
        detour: Some(Detour { side: Side::Right, out }),
        met: Some("stile".into()),
    }
}

fn temporary(name: &str) -> std::path::PathBuf {
    let path = std::env::temp_dir().join(format!("gatepost-{}-{name}", std::process::id()));
    for end in ["", "-wal", "-shm"] {
        let _ = std::fs::remove_file(format!("{}{end}", path.display()));
    }
    path
}

#[test]
fn entries_come_back_as_written_and_struck_ones_stay_away() {
    let path = temporary("entries");
    let at = Instant::from_unix_ms(1_780_000_000_000);
    let mut book = Logbook::open(&path).expect("opens");
    let trip = book.open_trip(&draft(), at).expect("trip");
    let pace = Entry::Pace(Pace { double_per_100_m: 61.0, spread_share: 0.03 });
    book.add(trip, at, &pace).expect("pace");
    let struck = book.add(trip, at, &Entry::Close).expect("close");
    book.strike(struck, at).expect("strike");
    book.add(trip, at, &Entry::Leg(leg())).expect("leg");
    drop(book);
    let rows = Logbook::open(&path).expect("opens again").newest_trip().expect("reads").expect("is there");
    let entries: Vec<Entry> = rows.entries.into_iter().map(|(_, _, entry)| entry).collect();
    assert_eq!(entries, vec![pace, Entry::Leg(leg())]);
    let raw = rusqlite::Connection::open(&path).expect("raw");
    let count: i64 = raw.query_row("SELECT count(*) FROM entry", [], |row| row.get(0)).expect("count");
    assert_eq!(count, 3, "a struck entry stays in the file");
}

#[test]
fn a_newer_file_is_refused_and_left_alone() {
    let path = temporary("newer");
    drop(Logbook::open(&path).expect("makes"));
    rusqlite::Connection::open(&path).expect("raw").pragma_update(None, "user_version", 99).expect("version");
    assert_eq!(Logbook::open(&path).err(), Some(LogbookError::Newer));
}

#[test]
fn a_foreign_database_and_a_text_file_are_refused() {
    let path = temporary("foreign");
    rusqlite::Connection::open(&path).expect("raw").execute_batch("CREATE TABLE other (x)").expect("table");
    assert_eq!(Logbook::open(&path).err(), Some(LogbookError::Foreign));
    let text = temporary("text");
    std::fs::write(&text, "not a logbook, only a long enough text to be read as one").expect("writes");
    assert!(matches!(Logbook::open(&text), Err(LogbookError::Damaged(_))));
    assert!(std::fs::read_to_string(&text).expect("still there").starts_with("not a logbook"));
}

#[test]
fn migrations_are_sound_and_counted() {
    assert!(schema::migrations().validate().is_ok());
    let pending = schema::migrations().pending_migrations(&rusqlite::Connection::open_in_memory().expect("memory"));
    assert_eq!(pending.map(i64::from), Ok(schema::NEWEST));
}

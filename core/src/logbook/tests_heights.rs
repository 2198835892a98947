//! Heights in the logbook: every one comes back, in part too, and none is kept by half.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

use super::{HeightsOrigin, Logbook, LogbookError};
use crate::earth::{Grid, Instant};
use crate::ground::{HeightSpread, Heights, Lattice, Layout, Window};
use crate::sheet::{Paper, SheetDraft};

const AT: i64 = 1_780_000_000_000;

fn book() -> (Logbook, i64) {
    let mut book = Logbook::in_memory().expect("memory");
    let draft = SheetDraft {
        name: "s".into(),
        grid: None,
        position_spread_m: None,
        norths: None,
        lines: vec![],
        known_points: vec![],
        landmarks: vec![],
        paper: Paper::default(),
    };
    let trip = book.open_trip(&draft, Instant::from_unix_ms(AT)).expect("trip");
    (book, trip)
}

fn heights(columns: usize, rows: usize, lattice: Lattice, of: impl Fn(usize) -> f32) -> Heights {
    let layout = Layout { lattice, columns, rows, west: 400_012.5, north: 5_100_000.0, step_east: 25.0, step_south: 20.0 };
    let spread = HeightSpread { sigma_m: 9.73, correlation_m: 300.0 };
    Heights::new(layout, spread, (0..columns * rows).map(of).collect()).expect("heights")
}

fn origin() -> HeightsOrigin {
    HeightsOrigin { source: "velm.tif".into(), credit: "survey of the Velm valley".into(), is_ellipsoidal: true }
}

fn store(book: &mut Logbook, trip: i64, heights: &Heights) -> i64 {
    book.store_heights(trip, heights, &origin(), Instant::from_unix_ms(AT)).expect("stores")
}

fn bits(heights: &Heights) -> Vec<u32> {
    heights.values_m().iter().map(|value| value.to_bits()).collect()
}

fn utm() -> Lattice {
    Lattice::Projected(Grid::named("33N").expect("grid"))
}

#[test]
fn heights_come_back_bit_by_bit_newest_first() {
    let (mut book, trip) = book();
    let whole = heights(513, 260, utm(), |at| if at % 97 == 0 { f32::NAN } else { (at % 1500) as f32 });
    let float = heights(300, 2, Lattice::Geographic, |at| 741.0 + at as f32 / 7.0);
    let ids = [store(&mut book, trip, &whole), store(&mut book, trip, &float)];
    let rows = book.heights_of_trip(trip).expect("lists");
    assert_eq!(rows.iter().map(|row| row.id).collect::<Vec<_>>(), [ids[1], ids[0]]);
    assert_eq!((&rows[1].layout, rows[1].spread, &rows[1].origin), (whole.layout(), whole.spread(), &origin()));
    assert_eq!(rows[1].stored_at, Instant::from_unix_ms(AT));
    for (id, stored) in ids.into_iter().zip([&whole, &float]) {
        let loaded = book.load_heights(id, None).expect("loads");
        assert_eq!((loaded.layout(), loaded.spread()), (stored.layout(), stored.spread()));
        assert_eq!(bits(&loaded), bits(stored));
    }
}

#[test]
fn a_window_is_loaded_as_it_would_be_cut() {
    let (mut book, trip) = book();
    let stored = heights(600, 530, utm(), |at| (at % 3001) as f32);
    let id = store(&mut book, trip, &stored);
    for (left, top, columns, rows) in [(0, 0, 2, 2), (250, 250, 10, 270), (255, 511, 345, 19), (598, 528, 2, 2), (300, 10, 100, 100)] {
        let window = Window { left, top, columns, rows };
        let loaded = book.load_heights(id, Some(window)).expect("loads");
        let cut = stored.cut(&window).expect("cuts");
        assert_eq!((loaded.layout(), bits(&loaded)), (cut.layout(), bits(&cut)));
    }
    for (left, top, columns, rows) in [(599, 0, 2, 2), (0, 0, 601, 2), (0, 0, 1, 2), (usize::MAX, 0, 2, 2)] {
        assert!(book.load_heights(id, Some(Window { left, top, columns, rows })).is_err());
    }
}

#[test]
fn what_is_not_there_or_damaged_is_told() {
    let (mut book, trip) = book();
    assert_eq!(book.heights_of_trip(trip), Ok(vec![]));
    assert!(matches!(book.load_heights(1, None), Err(LogbookError::Damaged(_))));
    let stored = heights(600, 300, utm(), |at| at as f32);
    assert!(book.store_heights(trip + 1, &stored, &origin(), Instant::from_unix_ms(AT)).is_err(), "no such trip");
    let id = store(&mut book, trip, &stored);
    let break_it = |what: &str| book.connection.execute(what, []).expect("changes");
    break_it("UPDATE height_tile SET posts = zeroblob(40) WHERE tile_row = 1 AND tile_column = 2");
    assert!(matches!(book.load_heights(id, None), Err(LogbookError::Damaged(detail)) if detail.contains("1/2")));
    assert!(book.load_heights(id, Some(Window { left: 0, top: 0, columns: 512, rows: 256 })).is_ok(), "the other tiles are sound");
    break_it("DELETE FROM height_tile WHERE tile_row = 0 AND tile_column = 0");
    assert!(book.load_heights(id, Some(Window { left: 0, top: 0, columns: 9, rows: 9 })).is_err());
}

#[test]
fn a_change_that_is_dropped_keeps_none() {
    let (mut book, trip) = book();
    book.begin().expect("begins");
    let id = store(&mut book, trip, &heights(300, 300, utm(), |at| at as f32));
    book.drop_change();
    assert_eq!(book.heights_of_trip(trip), Ok(vec![]));
    assert!(book.load_heights(id, None).is_err());
    let tiles: i64 = book.connection.query_row("SELECT count(*) FROM height_tile", [], |row| row.get(0)).expect("counts");
    assert_eq!(tiles, 0);
}

#[test]
fn heights_go_along_to_another_sheet_as_they_are() {
    let (mut book, trip) = book();
    let float = heights(300, 260, utm(), |at| if at % 41 == 0 { f32::NAN } else { 741.0 + at as f32 / 7.0 });
    let id = store(&mut book, trip, &float);
    let draft = SheetDraft {
        name: "next".into(),
        grid: None,
        position_spread_m: None,
        norths: None,
        lines: vec![],
        known_points: vec![],
        landmarks: vec![],
        paper: Paper::default(),
    };
    let next = book.open_trip(&draft, Instant::from_unix_ms(AT + 1)).expect("trip");
    let there = book.take_heights_along(id, next).expect("goes along");
    let rows = book.heights_of_trip(next).expect("lists");
    assert_eq!(rows.iter().map(|row| (row.id, row.spread, &row.origin)).collect::<Vec<_>>(), [(there, float.spread(), &origin())]);
    assert_eq!(bits(&book.load_heights(there, None).expect("loads")), bits(&float));
    assert_eq!(book.heights_of_trip(trip).expect("lists").len(), 1, "those of the first sheet stay");
    assert!(book.take_heights_along(99, next).is_err(), "heights that are not there");
    assert_eq!(book.heights_of_trip(next).expect("lists").len(), 1);
}

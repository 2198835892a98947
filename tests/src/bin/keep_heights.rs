//! What it costs to keep a file of heights in a logbook: for the benchmark `tests/bench/heights`. Arguments: a new logbook file,
//! a file of heights. Prints milliseconds and bytes; judges nothing but that every height comes back.

#![allow(clippy::print_stdout, reason = "the figures are what it is for")]

use std::ops::ControlFlow;
use std::path::Path;
use std::time::Instant as Stopwatch;

use gatepost_core::earth::Instant;
use gatepost_core::exchange::{WantedHeights, read_heights};
use gatepost_core::ground::{Heights, Window};
use gatepost_core::logbook::{HeightsOrigin, Logbook};
use gatepost_core::sheet::{Paper, SheetDraft};

type Failure = Box<dyn std::error::Error>;

fn timed<T>(what: &str, run: impl FnOnce() -> T) -> T {
    let started = Stopwatch::now();
    let done = run();
    println!("{what}: {:.1} ms", started.elapsed().as_secs_f64() * 1000.0);
    done
}

fn draft() -> SheetDraft {
    SheetDraft {
        name: "bench".into(),
        grid: None,
        position_spread_m: None,
        norths: None,
        lines: vec![],
        known_points: vec![],
        landmarks: vec![],
        paper: Paper::default(),
    }
}

fn bits(heights: &Heights) -> impl Iterator<Item = u32> + '_ {
    heights.values_m().iter().map(|value| value.to_bits())
}

fn main() -> Result<(), Failure> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [logbook, file] = arguments.as_slice() else { return Err("keep_heights LOGBOOK HEIGHTS".into()) };
    let logbook = Path::new(logbook);
    let bytes = std::fs::read(file)?;
    let heights = timed("read", || read_heights(file, &bytes, &WantedHeights::default(), &mut |_| ControlFlow::Continue(())))?;
    let now = Instant::from_unix_ms(1_780_000_000_000);
    let mut book = Logbook::open(logbook)?;
    let trip = book.open_trip(&draft(), now)?;
    drop(book);
    let mut book = timed("open without heights", || Logbook::open(logbook))?;
    let id = timed("store", || {
        book.begin()?;
        let id = book.store_heights(trip, &heights, &HeightsOrigin::default(), now)?;
        book.keep().map(|()| id)
    })?;
    drop(book);
    println!("logbook: {} bytes for {} posts of {} bytes", std::fs::metadata(logbook)?.len(), heights.values_m().len(), bytes.len());
    let book = timed("open with heights", || Logbook::open(logbook))?;
    let rows = timed("list", || book.heights_of_trip(trip))?;
    let again = timed("load", || book.load_heights(id, None))?;
    let middle = Window { left: heights.layout().columns / 2 - 200, top: heights.layout().rows / 2 - 200, columns: 400, rows: 400 };
    let part = timed("load 400 x 400", || book.load_heights(id, Some(middle)))?;
    let same = rows.len() == 1 && bits(&again).eq(bits(&heights)) && part == heights.cut(&middle)?;
    if same { Ok(()) } else { Err("the heights do not come back".into()) }
}

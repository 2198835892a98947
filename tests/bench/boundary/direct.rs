//! The direct half of the bench of the boundary: what the core takes for a fix, and for a chart and its bytes, in microseconds.
//!
//! Usage: boundary PLAIN WOVEN, two sheets as GeoJSON. Prints `name value` lines; `Boundary.kt` and `main.swift` do the same
//! through the binding.

use std::error::Error;
use std::hint::black_box;
use std::io::Write;
use std::time::Instant;

use gatepost_core::chart::{DisplayList, Item, Size, bytes};
use gatepost_core::engine::{Config, Engine, Record, Refusal};

/// Calls before and while the clock runs: the other halves make as many, so that the logbook has grown alike.
const WARM_UP: usize = 200;
const MEASURED: usize = 200;
/// The figure is that of the quickest twentieth: other work on the machine lengthens a call, nothing shortens one.
const QUICK: usize = 20;

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let plain = std::fs::read_to_string(arguments.next().ok_or("no plain sheet")?)?;
    let woven = std::fs::read_to_string(arguments.next().ok_or("no woven sheet")?)?;
    let mut told = std::io::stdout();
    let (whole_us, snapshot_us) = fix_us(&plain)?;
    writeln!(told, "fix {whole_us:.1}\nsnapshot {snapshot_us:.1}")?;
    let mut engine = on_sheet(&woven)?;
    tell(&mut engine, &fix()?)?;
    let size = Size::new(360.0, 640.0);
    let list = engine.chart_list("fix", size).map_err(named)?;
    writeln!(told, "vertices {}", vertices(&list))?;
    writeln!(told, "bytes {}", bytes(&list).len())?;
    let draw = quick_us(|| engine.chart_list("fix", size).map_err(named))?;
    let drawn = quick_us(|| Ok(bytes(&engine.chart_list("fix", size).map_err(named)?)))?;
    writeln!(told, "draw {draw:.1}\nchart {drawn:.1}")?;
    Ok(())
}

/// A fix, and its snapshot alone: all that crosses the boundary with a fix, without the work of it.
fn fix_us(sheet: &str) -> Result<(f64, f64), Box<dyn Error>> {
    let mut engine = on_sheet(sheet)?;
    let fix = fix()?;
    let whole_us = quick_us(|| tell(&mut engine, &fix))?;
    Ok((whole_us, quick_us(|| engine.snapshot(None).map_err(named))?))
}

fn fix() -> Result<Record, serde_json::Error> {
    serde_json::from_str(
        r#"{"do":"fix","at":"2026-07-01T09:30:00Z","line":"Long Road","instrument":"sighting","sightings":[
            {"landmark":"North tower","bearing":"356 mag"},{"landmark":"East tower","bearing":"041 mag"}]}"#,
    )
}

fn on_sheet(text: &str) -> Result<Engine, Box<dyn Error>> {
    let mut engine = Engine::open(&Config::default()).map_err(named)?;
    let carry = Record::Carry { at: Some("2026-07-01T09:00:00Z".into()), format: "geojson".into(), text: text.into() };
    tell(&mut engine, &carry)?;
    Ok(engine)
}

fn tell(engine: &mut Engine, record: &Record) -> Result<(), Box<dyn Error>> {
    black_box(engine.tell(record).map_err(named)?);
    Ok(())
}

fn named(refusal: Refusal) -> Box<dyn Error> {
    refusal.code().into()
}

fn quick_us<T>(mut call: impl FnMut() -> Result<T, Box<dyn Error>>) -> Result<f64, Box<dyn Error>> {
    for _ in 0..WARM_UP {
        call()?;
    }
    let mut times = Vec::with_capacity(MEASURED);
    for _ in 0..MEASURED {
        let start = Instant::now();
        black_box(call()?);
        times.push(start.elapsed().as_secs_f64() * 1e6);
    }
    times.sort_by(f64::total_cmp);
    times.get(MEASURED / QUICK).copied().ok_or_else(|| "nothing measured".into())
}

fn vertices(list: &DisplayList) -> usize {
    list.items.iter().map(vertices_of).sum()
}

fn vertices_of(item: &Item) -> usize {
    match item {
        Item::Path { points, .. } => points.len(),
        Item::Clip { items, .. } => items.iter().map(vertices_of).sum(),
        Item::Circle { .. } | Item::Text { .. } => 0,
    }
}

//! Reads lines and landmarks from files and writes what was taken, or why not, as one line of JSON for each:
//! what `tests/readers` holds against other readers.
//!
//! Arguments: files, each after the options that hold for it: `--area S W N E`, `--kinds WORD,WORD`, `--stop`.

use std::io::Write;

use gatepost_core::exchange::{Area, Continue, Features, ImportError, LandmarkKind, LineKind, Row, Unread, Wanted, read_features};
use gatepost_core::logbook::{AttachedRow, attached_features};
use gatepost_core::measure::Telling;
use gatepost_core::sheet::Sheet;
use gatepost_core::words::Words;
use serde_json::{Value, json};

fn rows(bytes: &[u8], take: &mut dyn FnMut(Row<'_>) -> Continue) -> Result<Vec<String>, Unread> {
    let hand_on = &mut |row: AttachedRow<'_>| {
        let row = Row { layer: row.layer, number: row.number, grid: row.grid, geometry: row.geometry, properties: row.properties };
        take(row) == Continue::On
    };
    attached_features(bytes, hand_on).map_err(|error| Unread::Container { why: error.why(), detail: error.detail().to_owned() })
}

fn told(read: Result<Features, ImportError>, ticks: &[(u64, u64)]) -> Value {
    match read {
        Err(error) => {
            let message = error.message();
            json!({"error": message.id, "sentence": Words::english().say(&message), "ticks": ticks.len()})
        }
        Ok(features) => {
            let (header, above_sea_m) = (features.header.name.clone(), features.above_sea_m.clone());
            let (records, left_out) = (features.records, features.left_out);
            let words = Words::english();
            let minded: Vec<String> = features.minded.messages().iter().map(|message| words.say(message)).collect();
            let (draft, _) = features.into_draft("sheet");
            let built = Sheet::build(&draft);
            let started = std::time::Instant::now();
            let found: Vec<_> = built.iter().flat_map(Sheet::junctions).collect();
            let junction_seconds = started.elapsed().as_secs_f64();
            let junctions: Vec<Value> = found.iter().map(|junction| {
                json!({"name": junction.name, "at": [junction.at.east_m, junction.at.north_m], "kind": format!("{:?}", junction.kind), "lines": junction.lines})
            }).collect();
            let origin = built.as_ref().ok().map(|sheet| [sheet.frame.origin().lat_deg(), sheet.frame.origin().lon_deg()]);
            let problem = built.err().map(|error| error.to_string());
            json!({
                "lines": draft.lines, "landmarks": draft.landmarks, "known_points": draft.known_points, "above_sea_m": above_sea_m,
                "records": records, "left_out": left_out, "minded": minded, "header": header, "junctions": junctions, "origin": origin, "problem": problem, "ticks": ticks,
                "junction_seconds": junction_seconds,
            })
        }
    }
}

/// Most bytes that this process has held at one time.
fn peak_kb() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.and_then(|rest| rest.split_whitespace().next()).and_then(|number| number.parse().ok()).unwrap_or(0)
}

fn number(arguments: &mut impl Iterator<Item = String>) -> f64 {
    arguments.next().and_then(|text| text.parse().ok()).unwrap_or(f64::NAN)
}

fn main() -> std::io::Result<()> {
    let mut output = std::io::stdout().lock();
    let mut arguments = std::env::args().skip(1);
    let (mut wanted, mut stop) = (Wanted { limit: 200_000, ..Wanted::default() }, false);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--area" => {
                let mut next = || number(&mut arguments);
                match Area::new(next(), next(), next(), next()) {
                    Ok(area) => wanted.area = Some(area),
                    Err(error) => return writeln!(output, "{}", told(Err(error), &[])),
                }
            }
            "--kinds" => {
                let words = arguments.next().unwrap_or_default();
                wanted.lines = words.split(',').filter_map(LineKind::meant).collect();
                wanted.landmarks = words.split(',').filter_map(LandmarkKind::meant).collect();
            }
            "--stop" => stop = true,
            file => {
                let bytes = std::fs::read(file)?;
                let mut ticks = Vec::new();
                let started = std::time::Instant::now();
                let read = read_features(&bytes, &wanted, &rows, &mut |progress| {
                    ticks.push((progress.done, progress.of));
                    if stop && ticks.len() > 1 { Continue::Stop } else { Continue::On }
                });
                let (seconds, peak_kb) = (started.elapsed().as_secs_f64(), peak_kb());
                let mut value = told(read, &ticks);
                if let Some(object) = value.as_object_mut() {
                    object.insert("seconds".into(), json!(seconds));
                    object.insert("peak_kb".into(), json!(peak_kb));
                }
                writeln!(output, "{value}")?;
            }
        }
    }
    output.flush()
}

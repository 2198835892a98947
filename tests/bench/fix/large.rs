//! One large fix, timed part by part: what lies in sight along the line, and the weighing. Figures for `tests/bench/fix/run`, not a test.

use std::collections::BTreeMap;
use std::error::Error;
use std::io::Read;
use std::sync::Arc;
use std::time::Instant;

use gatepost_core::earth::{Grid, date_of};
use gatepost_core::exchange::{SheetFormat, read_sheet};
use gatepost_core::fix::{BearingSighting, Instrument, Scene, Sighting, Table, take};
use gatepost_core::ground::{HeightSpread, Heights, Lattice, Layout, SightIndex, Sightlines};
use gatepost_core::measure::NamedBearing;
use gatepost_core::sheet::{Landmark, Line, Sheet};
use serde::Deserialize;
use serde_json::json;

/// As in the engine: places along a line at which it is asked what is in sight, metres apart.
const ALONG_M: f64 = 30.0;
/// Each part is timed so often, at the most, and no more than so many seconds in all.
const TIMES: usize = 9;
const LONGEST_S: f64 = 5.0;

#[derive(Deserialize)]
struct Task {
    file: String,
    posts: usize,
    west: f64,
    north: f64,
    step_m: f64,
    grid: String,
    /// The sheet as `GeoJSON`.
    sheet: String,
    /// Bearings, each to any of the landmarks of this kind.
    bearings: Vec<String>,
    one_of: String,
    /// Landmarks of this kind were looked for and not seen.
    not_seen: String,
}

impl Task {
    fn heights(&self) -> Result<Heights, Box<dyn Error>> {
        let number = |four: &[u8]| four.try_into().map_or(f32::NAN, f32::from_le_bytes);
        let values = std::fs::read(&self.file)?.chunks_exact(4).map(number).collect();
        let grid = Grid::named(&self.grid).map_err(|error| format!("{error:?}"))?;
        let (columns, rows, step) = (self.posts, self.posts, self.step_m);
        let lattice = Lattice::Projected(grid);
        let layout = Layout { lattice, columns, rows, west: self.west, north: self.north, step_east: step, step_south: step };
        Ok(Heights::new(layout, HeightSpread { sigma_m: 5.0, correlation_m: 300.0 }, values)?)
    }
}

fn of_kind(sheet: &Sheet, kind: &str) -> Vec<Landmark> {
    sheet.landmarks.iter().filter(|landmark| landmark.kind == kind).cloned().collect()
}

fn sightings(task: &Task, sheet: &Sheet) -> Result<Vec<Sighting>, Box<dyn Error>> {
    let mut all = Vec::new();
    for bearing in &task.bearings {
        let reading = NamedBearing::parse(bearing).map_err(|error| format!("{error:?}"))?;
        all.push(Sighting::Bearing(BearingSighting { candidates: of_kind(sheet, &task.one_of), reading, spread_deg: None }));
    }
    all.extend(of_kind(sheet, &task.not_seen).into_iter().map(|landmark| Sighting::Seen { landmark, seen: false }));
    Ok(all)
}

fn in_sight(sheet: &Sheet, line: &Line, sights: &Sightlines<'_>) -> BTreeMap<String, Vec<Table>> {
    let landmarks: Vec<&Landmark> = sheet.landmarks.iter().collect();
    let chances = sheet.chances_along(sights, sights.heights().layout(), line, &landmarks, ALONG_M);
    let table =
        |(landmark, chances): (&&Landmark, Vec<Option<f64>>)| Some((landmark.name.clone(), Table::of_chances(ALONG_M, vec![chances])?));
    landmarks.iter().zip(chances).filter_map(table).collect()
}

/// The least of several times, seconds, and the last result.
fn timed<T>(mut work: impl FnMut() -> T) -> (f64, T) {
    let mut once = || {
        let started = Instant::now();
        let done = work();
        (started.elapsed().as_secs_f64(), done)
    };
    let (mut least, mut last) = once();
    let mut all = least;
    for _ in 1..TIMES {
        if all > LONGEST_S {
            break;
        }
        let (took, done) = once();
        (all, least, last) = (all + took, least.min(took), done);
    }
    (least, last)
}

#[allow(clippy::print_stdout, reason = "the figures are what it is for")]
fn main() -> Result<(), Box<dyn Error>> {
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    let task: Task = serde_json::from_str(&text)?;
    let heights = task.heights()?;
    let sheet = Sheet::build(&read_sheet(&task.sheet, SheetFormat::GeoJson)?.draft).map_err(|error| format!("{error:?}"))?;
    let line = sheet.lines.first().ok_or("no line")?;
    let norths = sheet.norths(date_of("2026-07-01").map_err(|error| format!("{error:?}"))?).map_err(|error| format!("{error:?}"))?;
    let (index_s, index) = timed(|| SightIndex::over(&heights));
    let sights = Sightlines::indexed(&heights, Arc::new(index.map_err(|error| format!("{error:?}"))?));
    let (sight_s, tables) = timed(|| in_sight(&sheet, line, &sights));
    let mut scene = Scene::on(line, sightings(&task, &sheet)?, &norths, Instrument::Baseplate.trust());
    scene.in_sight = tables;
    let (fix_s, fix) = timed(|| take(&scene));
    let fix = fix.map_err(|error| format!("{error:?}"))?;
    let best_m = fix.best().map(|best| best.best.along_m);
    // In the order of the sheet, as the other route reads them.
    let of = |landmark: &Landmark| scene.in_sight.get(&landmark.name).and_then(|tables| tables.first()).map(|table| table.values.clone());
    let chances: Vec<Vec<f64>> = sheet.landmarks.iter().filter_map(of).collect();
    let told = json!({
        "index_s": index_s, "sight_s": sight_s, "fix_s": fix_s, "best_m": best_m, "along_m": ALONG_M, "chances": chances,
    });
    println!("{told}");
    Ok(())
}

//! A sheet typed from the paper map: grid references in a TOML file.

use serde::Deserialize;

use super::{ExchangeError, checked_spread, record};
use crate::earth::{PlaceReading, read_place};
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine, SheetDraft};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Typed {
    name: String,
    /// Zone, band and square letters that complete short references.
    beginning: Option<String>,
    grid: Option<String>,
    position_spread_m: Option<f64>,
    #[serde(default)]
    line: Vec<TypedLine>,
    #[serde(default)]
    known_point: Vec<TypedKnownPoint>,
    #[serde(default)]
    landmark: Vec<TypedLandmark>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TypedLine {
    name: String,
    kind: Option<String>,
    points: Vec<String>,
    spread_m: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TypedKnownPoint {
    name: String,
    on: String,
    at: String,
    #[allow(dead_code, reason = "read so that a sheet may say what the point is; nothing asks for it yet")]
    kind: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TypedLandmark {
    name: String,
    kind: Option<String>,
    at: String,
    spread_m: Option<f64>,
}

pub(super) fn read(text: &str) -> Result<SheetDraft, ExchangeError> {
    let typed: Typed = toml::from_str(text).map_err(|error| ExchangeError::Unreadable { detail: told(&error, text) })?;
    let beginning = typed.beginning.as_deref();
    let lines: Result<Vec<DraftLine>, ExchangeError> = typed.line.iter().map(|line| draft_line(line, beginning)).collect();
    let known: Result<Vec<DraftKnownPoint>, ExchangeError> = typed.known_point.iter().map(|known| draft_known(known, beginning)).collect();
    let landmarks: Result<Vec<DraftLandmark>, ExchangeError> = typed.landmark.iter().map(|mark| draft_landmark(mark, beginning)).collect();
    checked_spread(typed.position_spread_m, "sheet")?;
    Ok(SheetDraft {
        name: typed.name.clone(),
        grid: typed.grid,
        position_spread_m: typed.position_spread_m,
        lines: lines?,
        known_points: known?,
        landmarks: landmarks?,
    })
}

/// What the reader says, on one line, with the number of the line it stopped at.
fn told(error: &toml::de::Error, text: &str) -> String {
    let line = error.span().and_then(|span| text.get(..span.start)).map_or(1, |before| before.matches('\n').count() + 1);
    format!("{line}: {}", error.message().lines().next().unwrap_or_default())
}

fn place(text: &str, beginning: Option<&str>, record: &str) -> Result<PlaceReading, ExchangeError> {
    read_place(text, beginning).map_err(|error| ExchangeError::Place { record: record.into(), error })
}

fn pair(reading: &PlaceReading) -> (f64, f64) {
    (reading.at.lat_deg(), reading.at.lon_deg())
}

/// The widest square of a line's references gives the spread of the whole line.
fn draft_line(line: &TypedLine, beginning: Option<&str>) -> Result<DraftLine, ExchangeError> {
    if line.points.len() < 2 {
        return Err(record(line.name.clone(), "fault-two-points"));
    }
    let places: Result<Vec<PlaceReading>, ExchangeError> = line.points.iter().map(|at| place(at, beginning, &line.name)).collect();
    let places = places?;
    let square_m = places.iter().map(PlaceReading::spread_m).fold(0.0, f64::max);
    let spread_m = checked_spread(line.spread_m, &line.name)?.hypot(square_m);
    let kind = line.kind.clone().unwrap_or_else(|| "road".into());
    Ok(DraftLine { name: line.name.clone(), kind, points: places.iter().map(pair).collect(), spread_m })
}

fn draft_known(known: &TypedKnownPoint, beginning: Option<&str>) -> Result<DraftKnownPoint, ExchangeError> {
    let at = pair(&place(&known.at, beginning, &known.name)?);
    Ok(DraftKnownPoint { name: known.name.clone(), on: known.on.clone(), at })
}

fn draft_landmark(mark: &TypedLandmark, beginning: Option<&str>) -> Result<DraftLandmark, ExchangeError> {
    let reading = place(&mark.at, beginning, &mark.name)?;
    let spread_m = checked_spread(mark.spread_m, &mark.name)?.hypot(reading.spread_m());
    Ok(DraftLandmark { name: mark.name.clone(), kind: mark.kind.clone().unwrap_or_default(), at: pair(&reading), spread_m })
}

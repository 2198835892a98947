//! A sheet typed from the paper map: grid references in a TOML file.

use serde::Deserialize;

use super::{ExchangeError, checked_height, checked_name, checked_spread, record};
use crate::earth::{Grid, PlaceReading, PrintedNorths, Terms, read_place};
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine, SheetDraft};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Typed {
    name: String,
    /// Zone, band and square letters that complete short references.
    beginning: Option<String>,
    grid: Option<String>,
    position_spread_m: Option<f64>,
    norths: Option<PrintedNorths>,
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
    height_m: Option<f64>,
}

pub(super) fn read(text: &str) -> Result<SheetDraft, ExchangeError> {
    let typed: Typed = toml::from_str(text).map_err(|error| told(&error, text))?;
    let grid = typed.grid.as_deref().map(Grid::named).transpose().map_err(ExchangeError::Grid)?;
    let terms = Terms { beginning: typed.beginning.as_deref(), grid: grid.as_ref(), near: None };
    check_beginning(&terms)?;
    let lines: Result<Vec<DraftLine>, ExchangeError> =
        typed.line.iter().enumerate().map(|(at, line)| draft_line(line, &terms, at + 1)).collect();
    let known: Result<Vec<DraftKnownPoint>, ExchangeError> =
        typed.known_point.iter().enumerate().map(|(at, known)| draft_known(known, &terms, at + 1)).collect();
    let landmarks: Result<Vec<DraftLandmark>, ExchangeError> =
        typed.landmark.iter().enumerate().map(|(at, mark)| draft_landmark(mark, &terms, at + 1)).collect();
    checked_spread(typed.position_spread_m, "sheet")?;
    Ok(SheetDraft {
        name: checked_name(&typed.name, 0)?,
        grid: typed.grid,
        position_spread_m: typed.position_spread_m,
        norths: typed.norths,
        lines: lines?,
        known_points: known?,
        landmarks: landmarks?,
    })
}

/// What the reader says, with the number of the line it stopped at.
fn told(error: &toml::de::Error, text: &str) -> ExchangeError {
    let line = error.span().and_then(|span| text.get(..span.start)).map_or(0, |before| before.matches('\n').count() + 1);
    ExchangeError::Unreadable { line, detail: error.message().lines().next().unwrap_or_default().into() }
}

/// "43TEG": zone, band and square letters; on the British National Grid the two letters of a square.
fn check_beginning(terms: &Terms) -> Result<(), ExchangeError> {
    let Some(beginning) = terms.beginning else { return Ok(()) };
    let whole = format!("{}00", beginning.split_whitespace().collect::<String>());
    let alone = Terms { beginning: None, ..*terms };
    read_place(&whole, &alone).map(|_| ()).map_err(|error| ExchangeError::Place { record: "beginning".into(), error })
}

fn place(text: &str, terms: &Terms, record: &str) -> Result<PlaceReading, ExchangeError> {
    read_place(text, terms).map_err(|error| ExchangeError::Place { record: record.into(), error })
}

fn pair(reading: &PlaceReading) -> (f64, f64) {
    (reading.at.lat_deg(), reading.at.lon_deg())
}

/// The widest square of a line's references gives the spread of the whole line.
fn draft_line(line: &TypedLine, terms: &Terms, number: usize) -> Result<DraftLine, ExchangeError> {
    if line.points.len() < 2 {
        return Err(record(line.name.clone(), "fault-two-points"));
    }
    let places: Result<Vec<PlaceReading>, ExchangeError> = line.points.iter().map(|at| place(at, terms, &line.name)).collect();
    let places = places?;
    let square_m = places.iter().map(PlaceReading::spread_m).fold(0.0, f64::max);
    let spread_m = checked_spread(line.spread_m, &line.name)?.hypot(square_m);
    let kind = line.kind.clone().unwrap_or_else(|| "road".into());
    Ok(DraftLine { name: checked_name(&line.name, number)?, kind, points: places.iter().map(pair).collect(), spread_m })
}

fn draft_known(known: &TypedKnownPoint, terms: &Terms, number: usize) -> Result<DraftKnownPoint, ExchangeError> {
    let at = pair(&place(&known.at, terms, &known.name)?);
    Ok(DraftKnownPoint { name: checked_name(&known.name, number)?, on: known.on.clone(), at })
}

fn draft_landmark(mark: &TypedLandmark, terms: &Terms, number: usize) -> Result<DraftLandmark, ExchangeError> {
    let reading = place(&mark.at, terms, &mark.name)?;
    let spread_m = checked_spread(mark.spread_m, &mark.name)?.hypot(reading.spread_m());
    let height_m = checked_height(mark.height_m, &mark.name)?;
    Ok(DraftLandmark {
        name: checked_name(&mark.name, number)?,
        kind: mark.kind.clone().unwrap_or_default(),
        at: pair(&reading),
        spread_m,
        height_m,
    })
}

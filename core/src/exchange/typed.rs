//! A sheet as a person types it from the paper map: grid references instead of degrees.

use serde::{Deserialize, Serialize};

use super::typed_places::{Continued, Places};
use super::typed_strays::{Stray, strays};
use super::{ExchangeError, LineKind, checked_height, checked_name, checked_spread, record};
use crate::earth::{PlaceError, PlaceReading, Terms, read_place, zone_in};
use crate::measure::{Message, Telling};
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine, SheetDraft, Spot};

/// A line typed point by point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TypedLine {
    /// Its name.
    pub name: String,
    /// road, track, path, creek, ridge or fence; a track when absent.
    pub kind: Option<String>,
    /// Grid references of its points, in the line's direction.
    pub points: Vec<String>,
    /// One sigma per axis of the points, metres, beside that of their squares.
    pub spread_m: Option<f64>,
}

/// A named point of a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TypedKnownPoint {
    /// Its name.
    pub name: String,
    /// The line it lies on.
    pub on: String,
    /// Its grid reference.
    pub at: String,
    /// What it is; nothing asks for it yet.
    pub kind: Option<String>,
}

/// A landmark.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TypedLandmark {
    /// Its name.
    pub name: String,
    /// What it is: summit, mast, church.
    pub kind: Option<String>,
    /// Its grid reference.
    pub at: String,
    /// One sigma per axis of its place, metres, beside that of its square.
    pub spread_m: Option<f64>,
    /// Height of its top above the ground, metres.
    pub height_m: Option<f64>,
}

/// A spot height; it tells how far the heights of the sheet may be trusted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TypedSpot {
    /// Its grid reference, or the name of a landmark or known point of the sheet.
    pub at: String,
    /// Metres above the sea. This or the next.
    pub height_m: Option<f64>,
    /// Feet above the sea.
    pub height_ft: Option<f64>,
}

/// What is typed of a sheet.
#[derive(Debug, Clone, Copy, Default)]
pub struct Typed<'a> {
    /// Lines.
    pub lines: &'a [TypedLine],
    /// Named points on lines.
    pub known_points: &'a [TypedKnownPoint],
    /// Landmarks.
    pub landmarks: &'a [TypedLandmark],
    /// Spot heights.
    pub spots: &'a [TypedSpot],
}

/// The international foot of 1959, metres.
const FOOT_M: f64 = 0.3048;
/// Ground above the sea lies between these, metres.
const GROUND_M: std::ops::RangeInclusive<f64> = -500.0..=9000.0;

/// What to mind of a place that was typed.
#[derive(Debug, Clone, PartialEq)]
pub enum TypedCaution {
    /// It was read in another square than the one told.
    Continued(Continued),
    /// It lies far from the rest.
    Stray(Stray),
    /// Of a line: it comes over its own ground again, runs over that of another, or has no kind.
    Line(Message),
}

impl Telling for TypedCaution {
    fn message(&self) -> Message {
        match self {
            Self::Continued(continued) => continued.message(),
            Self::Stray(stray) => stray.message(),
            Self::Line(message) => message.clone(),
        }
    }
}

/// Adds what was typed to a sheet; a new one also keeps with what its references begin. Tells which of them were read in another
/// square than the one told, and which lie far from the rest.
///
/// # Errors
/// [`ExchangeError`] names what is wrong; the draft is of no use then.
pub fn add_typed(draft: &mut SheetDraft, typed: &Typed<'_>, terms: &Terms<'_>) -> Result<Vec<TypedCaution>, ExchangeError> {
    check_beginning(terms)?;
    let known = places_of(draft);
    let is_new = draft.lines.is_empty() && draft.landmarks.is_empty();
    let old = draft.lines.len();
    let mut places = Places::by(terms);
    for (index, line) in typed.lines.iter().enumerate() {
        draft.lines.push(draft_line(line, &mut places, index + 1)?);
    }
    for (index, known) in typed.known_points.iter().enumerate() {
        draft.known_points.push(draft_known(known, &mut places, index + 1)?);
    }
    for (index, mark) in typed.landmarks.iter().enumerate() {
        draft.landmarks.push(draft_landmark(mark, &mut places, index + 1)?);
    }
    for spot in typed.spots {
        let spot = draft_spot(spot, draft, &mut places)?;
        draft.paper.spots.push(spot);
    }
    if is_new {
        draft.paper.beginning = places.beginning();
    }
    super::check_known_points(draft)?;
    let unsaid: Vec<&str> = typed.lines.iter().filter(|line| line.kind.is_none()).map(|line| line.name.as_str()).collect();
    let of_lines = super::lay_once(draft, old, &unsaid).messages().into_iter().map(TypedCaution::Line);
    let strays = strays(&places.read, &known, terms).into_iter().map(TypedCaution::Stray);
    Ok(places.continued.into_iter().map(TypedCaution::Continued).chain(strays).chain(of_lines).collect())
}

/// Everything that a draft holds, by latitude and longitude.
fn places_of(draft: &SheetDraft) -> Vec<(f64, f64)> {
    let on_lines = draft.lines.iter().flat_map(|line| line.points.iter().copied());
    on_lines.chain(draft.landmarks.iter().map(|mark| mark.at)).collect()
}

/// "43TEG", or zone and band alone where every reference has its square letters; on the British National Grid the two letters of a
/// square.
fn check_beginning(terms: &Terms<'_>) -> Result<(), ExchangeError> {
    let Some(beginning) = terms.beginning else { return Ok(()) };
    let compact: String = beginning.split_whitespace().collect();
    if is_zone_and_band(&compact) {
        return Ok(());
    }
    let alone = Terms { beginning: None, ..*terms };
    let of_beginning = |error| match error {
        PlaceError::Reference { part, example, .. } => {
            let part = if part == "part-no-zone" { "part-beginning" } else { part };
            PlaceError::Reference { typed: beginning.into(), part, example }
        }
        PlaceError::OffEarth { .. } | PlaceError::TwoSquares { .. } => error,
    };
    let read = read_place(&format!("{compact}00"), &alone);
    read.map(|_| ()).map_err(|error| ExchangeError::Place { record: "beginning".into(), error: of_beginning(error) })
}

fn is_zone_and_band(text: &str) -> bool {
    let band = text.trim_start_matches(|c: char| c.is_ascii_digit()).to_ascii_uppercase();
    zone_in(text).is_some() && band.len() == 1 && band.chars().all(|c| "CDEFGHJKLMNPQRSTUVWX".contains(c))
}

fn pair(reading: &PlaceReading) -> (f64, f64) {
    (reading.at.lat_deg(), reading.at.lon_deg())
}

/// The kind that a person gives a line, [`LineKind::UNSAID`] when nothing is said: one that there is.
///
/// # Errors
/// [`ExchangeError::LineKind`] for another word.
pub fn line_kind(typed: Option<&str>, record: &str) -> Result<String, ExchangeError> {
    let typed = typed.unwrap_or_else(|| LineKind::UNSAID.word());
    let known = LineKind::meant(typed).map(|_| typed.trim().to_owned());
    known.ok_or_else(|| ExchangeError::LineKind { record: record.to_owned(), typed: typed.to_owned() })
}

/// The widest square of a line's references gives the spread of the whole line.
fn draft_line(line: &TypedLine, read: &mut Places<'_>, number: usize) -> Result<DraftLine, ExchangeError> {
    if line.points.len() < 2 {
        return Err(record(line.name.clone(), "fault-two-points"));
    }
    let mut places: Vec<PlaceReading> = Vec::new();
    for at in &line.points {
        places.push(read.read(at, places.last().map(|before| before.at), &line.name)?);
    }
    let square_m = places.iter().map(PlaceReading::spread_m).fold(0.0, f64::max);
    let spread_m = checked_spread(line.spread_m, &line.name)?.hypot(square_m);
    let kind = line_kind(line.kind.as_deref(), &line.name)?;
    Ok(DraftLine {
        name: checked_name(&line.name, number)?,
        kind,
        points: places.iter().map(pair).collect(),
        spread_m,
        ..DraftLine::default()
    })
}

fn draft_known(known: &TypedKnownPoint, read: &mut Places<'_>, number: usize) -> Result<DraftKnownPoint, ExchangeError> {
    let at = pair(&read.read(&known.at, None, &known.name)?);
    Ok(DraftKnownPoint { name: checked_name(&known.name, number)?, on: known.on.clone(), at })
}

fn draft_landmark(mark: &TypedLandmark, read: &mut Places<'_>, number: usize) -> Result<DraftLandmark, ExchangeError> {
    let reading = read.read(&mark.at, None, &mark.name)?;
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

fn draft_spot(spot: &TypedSpot, draft: &SheetDraft, read: &mut Places<'_>) -> Result<Spot, ExchangeError> {
    let height_m = match (spot.height_m, spot.height_ft) {
        (Some(height_m), None) => height_m,
        (None, Some(height_ft)) => height_ft * FOOT_M,
        _ => return Err(record(spot.at.clone(), "fault-spot-height")),
    };
    if !GROUND_M.contains(&height_m) {
        return Err(record(spot.at.clone(), "fault-spot-height"));
    }
    let named = named_place(draft, &spot.at);
    if named.is_none() && !spot.at.contains(|c: char| c.is_ascii_digit()) {
        return Err(record(spot.at.clone(), "fault-spot-name"));
    }
    let at = named.map_or_else(|| read.read(&spot.at, None, &spot.at).map(|reading| pair(&reading)), Ok)?;
    Ok(Spot { name: named.map(|_| spot.at.trim().to_owned()), at, height_m })
}

/// The place of a landmark or known point of this name.
fn named_place(draft: &SheetDraft, name: &str) -> Option<(f64, f64)> {
    let wanted = |known: &str| known.trim().to_lowercase() == name.trim().to_lowercase();
    let mark = draft.landmarks.iter().find(|mark| wanted(&mark.name)).map(|mark| mark.at);
    mark.or_else(|| draft.known_points.iter().find(|known| wanted(&known.name)).map(|known| known.at))
}

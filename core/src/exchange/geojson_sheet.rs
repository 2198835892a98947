//! A sheet from GeoJSON: lines as LineString, landmarks as Point, known points as Point with `on`.
//!
//! # References
//! RFC 7946 (2016): WGS 84, longitude before latitude; a grid where the member `crs` of 2008 names one; foreign members are allowed (6.1).

use geojson::{Feature, FeatureCollection, GeoJson, GeometryValue, JsonObject, JsonValue, Position};

use super::features::line_by_tags;
use super::stated::StatedGrid;
use super::{ExchangeError, LineKind, checked_height, checked_name, checked_spread, record};
use crate::earth::PrintedNorths;
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine, Paper, SheetDraft};

/// The sheet, and the names of its lines of which no kind is said.
pub(super) fn read(text: &str) -> Result<(SheetDraft, Vec<String>), ExchangeError> {
    let parsed: GeoJson = text.parse().map_err(|error: geojson::Error| unreadable(&error))?;
    let collection = match parsed {
        GeoJson::FeatureCollection(collection) => collection,
        GeoJson::Feature(_) | GeoJson::Geometry(_) => return Err(record("1", "fault-no-collection")),
    };
    let mut draft = header(&collection)?;
    let named = collection.foreign_members.as_ref().and_then(|members| members.get("crs")).unwrap_or(&JsonValue::Null);
    let grid = StatedGrid::of_geojson(named).map_err(ExchangeError::Grid)?;
    let mut unsaid = Vec::new();
    for (index, feature) in collection.features.iter().enumerate() {
        let (named, lines) = (Named { feature, number: index + 1, grid: &grid }, draft.lines.len());
        take(&mut draft, feature, &named)?;
        let is_unsaid = feature.property("kind").is_none_or(JsonValue::is_null) && line_by_tags(named.tags()).0.is_none();
        let line = draft.lines.get(lines).filter(|_| is_unsaid);
        unsaid.extend(line.map(|line| line.name.clone()));
    }
    if draft.name.trim().is_empty() {
        draft.name = draft.lines.first().map(|line| line.name.clone()).unwrap_or_default();
    }
    Ok((draft, unsaid))
}

/// What the reader says, without its own preamble.
fn unreadable(error: &geojson::Error) -> ExchangeError {
    let detail = error.to_string();
    let detail = detail.rsplit("GeoJSON: ").next().unwrap_or_default().to_owned();
    ExchangeError::Unreadable { line: 0, detail }
}

fn header(collection: &FeatureCollection) -> Result<SheetDraft, ExchangeError> {
    let empty = JsonValue::Object(JsonObject::new());
    let sheet = collection.foreign_members.as_ref().and_then(|members| members.get("sheet")).unwrap_or(&empty);
    let sheet = sheet.as_object().ok_or_else(|| record("sheet", "fault-type"))?;
    if sheet.keys().any(|key| !["name", "grid", "position_spread_m", "norths"].contains(&key.as_str())) {
        return Err(record("sheet", "fault-member"));
    }
    let position_spread_m = number_of(sheet.get("position_spread_m"), "sheet")?;
    checked_spread(position_spread_m, "sheet")?;
    Ok(SheetDraft {
        name: text_of(sheet.get("name"), "sheet")?.unwrap_or_default(),
        grid: text_of(sheet.get("grid"), "sheet")?,
        position_spread_m,
        norths: printed_norths(sheet.get("norths"))?,
        lines: Vec::new(),
        known_points: Vec::new(),
        landmarks: Vec::new(),
        paper: Paper::default(),
    })
}

/// The printed north diagram, with the members of the TOML table of that name.
fn printed_norths(value: Option<&JsonValue>) -> Result<Option<PrintedNorths>, ExchangeError> {
    match value {
        None | Some(JsonValue::Null) => Ok(None),
        Some(value) => serde_json::from_value(value.clone()).map(Some).map_err(|_| record("sheet", "fault-norths")),
    }
}

/// A text, or nothing; anything else is refused rather than overlooked.
fn text_of(value: Option<&JsonValue>, label: &str) -> Result<Option<String>, ExchangeError> {
    match value {
        None | Some(JsonValue::Null) => Ok(None),
        Some(JsonValue::String(text)) => Ok(Some(text.clone())),
        Some(JsonValue::Bool(_) | JsonValue::Number(_) | JsonValue::Array(_) | JsonValue::Object(_)) => Err(record(label, "fault-type")),
    }
}

/// A number, or nothing; anything else is refused rather than overlooked.
fn number_of(value: Option<&JsonValue>, label: &str) -> Result<Option<f64>, ExchangeError> {
    match value {
        None | Some(JsonValue::Null) => Ok(None),
        Some(value) => value.as_f64().map(Some).ok_or_else(|| record(label, "fault-type")),
    }
}

/// A feature with its number, for the sentence that says which one is wrong.
struct Named<'a> {
    feature: &'a Feature,
    number: usize,
    grid: &'a StatedGrid,
}

impl Named<'_> {
    fn label(&self) -> String {
        match self.feature.property("name").and_then(JsonValue::as_str) {
            Some(name) => format!("{} ({name})", self.number),
            None => self.number.to_string(),
        }
    }

    fn fault(&self, fault: &'static str) -> ExchangeError {
        record(self.label(), fault)
    }

    fn text(&self, key: &str) -> Result<Option<String>, ExchangeError> {
        text_of(self.feature.property(key), &self.label())
    }

    fn number(&self, key: &str) -> Result<Option<f64>, ExchangeError> {
        number_of(self.feature.property(key), &self.label())
    }

    /// Its properties that are texts.
    fn tags(&self) -> impl Iterator<Item = (&str, &str)> {
        let all = self.feature.properties.iter().flatten();
        all.filter_map(|(key, value)| Some((key.as_str(), value.as_str()?)))
    }

    fn name(&self) -> Result<String, ExchangeError> {
        checked_name(&self.text("name")?.unwrap_or_default(), self.number)
    }

    fn place(&self, position: &Position) -> Result<(f64, f64), ExchangeError> {
        let place = match position.as_slice() {
            [x, y, ..] => self.grid.place(*x, *y),
            _ => None,
        };
        place.ok_or_else(|| self.fault("fault-off-earth"))
    }
}

fn take(draft: &mut SheetDraft, feature: &Feature, named: &Named) -> Result<(), ExchangeError> {
    let geometry = feature.geometry.as_ref().ok_or_else(|| named.fault("fault-no-geometry"))?;
    match &geometry.value {
        GeometryValue::LineString { coordinates } => take_line(draft, coordinates, named),
        GeometryValue::Point { coordinates } => take_point(draft, coordinates, named),
        GeometryValue::MultiPoint { .. }
        | GeometryValue::MultiLineString { .. }
        | GeometryValue::Polygon { .. }
        | GeometryValue::MultiPolygon { .. }
        | GeometryValue::GeometryCollection { .. } => Err(named.fault("fault-geometry")),
    }
}

fn take_line(draft: &mut SheetDraft, positions: &[Position], named: &Named) -> Result<(), ExchangeError> {
    let points: Result<Vec<(f64, f64)>, ExchangeError> = positions.iter().map(|position| named.place(position)).collect();
    let spread_m = checked_spread(named.number("spread_m")?, &named.label())?;
    let (tagged, level) = line_by_tags(named.tags());
    let kind = named.text("kind")?.or(tagged).unwrap_or_else(|| LineKind::Road.word().into());
    let points = points?;
    let levels = if level == 0 { Vec::new() } else { vec![level; points.len().saturating_sub(1)] };
    draft.lines.push(DraftLine { name: named.name()?, kind, points, spread_m, levels, ..DraftLine::default() });
    Ok(())
}

fn take_point(draft: &mut SheetDraft, position: &Position, named: &Named) -> Result<(), ExchangeError> {
    let (name, at) = (named.name()?, named.place(position)?);
    if let Some(on) = named.text("on")? {
        draft.known_points.push(DraftKnownPoint { name, on, at });
        return Ok(());
    }
    let spread_m = checked_spread(named.number("spread_m")?, &named.label())?;
    let height_m = checked_height(named.number("height_m")?, &named.label())?;
    draft.landmarks.push(DraftLandmark { name, kind: named.text("kind")?.unwrap_or_default(), at, spread_m, height_m });
    Ok(())
}

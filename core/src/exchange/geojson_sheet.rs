//! A sheet from GeoJSON: lines as LineString, landmarks as Point, known points as Point with `on`.
//!
//! # References
//! RFC 7946 (2016): WGS 84, longitude before latitude; foreign members are allowed (6.1).

use geojson::{Feature, FeatureCollection, GeoJson, GeometryValue, JsonObject, JsonValue, Position};

use super::{ExchangeError, checked_spread, record};
use crate::earth::LatLon;
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine, SheetDraft};

pub(super) fn read(text: &str) -> Result<SheetDraft, ExchangeError> {
    let parsed: GeoJson = text.parse().map_err(|error: geojson::Error| ExchangeError::Unreadable { detail: error.to_string() })?;
    let collection = match parsed {
        GeoJson::FeatureCollection(collection) => collection,
        GeoJson::Feature(_) | GeoJson::Geometry(_) => return Err(record("1", "fault-no-collection")),
    };
    let mut draft = header(&collection)?;
    for (index, feature) in collection.features.iter().enumerate() {
        take(&mut draft, feature, &Named { feature, number: index + 1 })?;
    }
    Ok(draft)
}

fn header(collection: &FeatureCollection) -> Result<SheetDraft, ExchangeError> {
    let empty = JsonObject::new();
    let sheet = collection.foreign_members.as_ref().and_then(|members| members.get("sheet")?.as_object()).unwrap_or(&empty);
    let text = |key: &str| sheet.get(key).and_then(JsonValue::as_str).map(str::to_owned);
    let position_spread_m = sheet.get("position_spread_m").and_then(JsonValue::as_f64);
    checked_spread(position_spread_m, "sheet")?;
    Ok(SheetDraft {
        name: text("name").unwrap_or_default(),
        grid: text("grid"),
        position_spread_m,
        lines: Vec::new(),
        known_points: Vec::new(),
        landmarks: Vec::new(),
    })
}

/// A feature with its number, for the sentence that says which one is wrong.
struct Named<'a> {
    feature: &'a Feature,
    number: usize,
}

impl Named<'_> {
    fn label(&self) -> String {
        match self.text("name") {
            Some(name) => format!("{} ({name})", self.number),
            None => self.number.to_string(),
        }
    }

    fn fault(&self, fault: &'static str) -> ExchangeError {
        record(self.label(), fault)
    }

    fn text(&self, key: &str) -> Option<String> {
        self.feature.property(key).and_then(JsonValue::as_str).map(str::to_owned)
    }

    fn number(&self, key: &str) -> Option<f64> {
        self.feature.property(key).and_then(JsonValue::as_f64)
    }

    fn name(&self) -> Result<String, ExchangeError> {
        self.text("name").filter(|name| !name.trim().is_empty()).ok_or_else(|| self.fault("fault-no-name"))
    }

    fn place(&self, position: &Position) -> Result<(f64, f64), ExchangeError> {
        match position.as_slice() {
            [lon, lat, ..] if LatLon::new(*lat, *lon).is_ok() => Ok((*lat, *lon)),
            _ => Err(self.fault("fault-off-earth")),
        }
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
    let spread_m = checked_spread(named.number("spread_m"), &named.label())?;
    let kind = named.text("kind").unwrap_or_else(|| "road".into());
    draft.lines.push(DraftLine { name: named.name()?, kind, points: points?, spread_m });
    Ok(())
}

fn take_point(draft: &mut SheetDraft, position: &Position, named: &Named) -> Result<(), ExchangeError> {
    let (name, at) = (named.name()?, named.place(position)?);
    if let Some(on) = named.text("on") {
        draft.known_points.push(DraftKnownPoint { name, on, at });
        return Ok(());
    }
    let spread_m = checked_spread(named.number("spread_m"), &named.label())?;
    draft.landmarks.push(DraftLandmark { name, kind: named.text("kind").unwrap_or_default(), at, spread_m });
    Ok(())
}

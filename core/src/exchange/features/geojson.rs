//! GeoJSON: every geometry, names and kinds from the usual properties, the member `sheet`.
//!
//! # References
//! RFC 7946 (2016): WGS 84, longitude before latitude; a grid where the member `crs` of 2008 names one; foreign members are allowed (6.1), a geometry may be null (3.2).
//! RFC 8142 (2017): several documents in one text, each behind the character 30; newline-delimited ones without it are common practice, no source.

use std::fmt;

use serde::Deserialize;
use serde::de::{DeserializeSeed, Deserializer as _, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde_json::value::RawValue;

use super::Header;
use super::error::{Fault, ImportError, Part, Record, Unread};
use super::gather::{Found, Gather};
use super::geojson_fault::{self, unreadable};
use super::geojson_shape::read_shape;
use super::other_tags;
use super::shape::Shape;
use super::tags::{MOST_SPREAD_M, Tags, is_kept};
use crate::exchange::stated::StatedGrid;

/// One sigma per axis of a place where nothing is stated, metres (common practice, no source).
const SPREAD_M: f64 = 5.0;
/// Where the file speaks of the sheet it is a drawing for that sheet, whose own spread stands for all that states none.
const DRAWN_SPREAD_M: f64 = 0.0;

#[derive(Deserialize)]
struct Top<'a> {
    #[serde(rename = "type")]
    kind: String,
    #[serde(borrow, default)]
    features: Option<&'a RawValue>,
    #[serde(borrow, default)]
    sheet: Option<&'a RawValue>,
    #[serde(borrow, default)]
    crs: Option<&'a RawValue>,
}

#[derive(Deserialize)]
struct Feature<'a> {
    #[serde(rename = "type")]
    kind: String,
    #[serde(borrow, default)]
    geometry: Option<&'a RawValue>,
    #[serde(borrow, default)]
    properties: Option<&'a RawValue>,
}

pub(super) fn read(bytes: &[u8], gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let text = super::encoding::text(bytes)?;
    let mut number = 0;
    if !text.starts_with(SEPARATOR) {
        match serde_json::from_str::<Top<'_>>(&text) {
            Ok(top) => return take_document(&text, &top, &text, &mut number, gather),
            Err(error) if !geojson_fault::goes_on(&error) => return Err(unreadable(&text, &text, &error)),
            Err(_) => {}
        }
    }
    // Several documents one after the other, as a rule one on a line.
    let mut rest = text.as_ref();
    loop {
        rest = rest.trim_start_matches(|c: char| c.is_whitespace() || c == SEPARATOR);
        let mut documents = serde_json::Deserializer::from_str(rest).into_iter::<&RawValue>();
        let Some(document) = documents.next() else { return Ok(()) };
        let document = document.map_err(|error| unreadable(&text, rest, &error))?.get();
        rest = rest.get(documents.byte_offset()..).unwrap_or_default();
        let top: Top<'_> = serde_json::from_str(document).map_err(|error| unreadable(&text, document, &error))?;
        take_document(document, &top, &text, &mut number, gather)?;
    }
}

/// Stands before each document of a sequence.
const SEPARATOR: char = '\u{1e}';

/// Takes a document of a text; features are counted on from a number.
fn take_document(text: &str, top: &Top<'_>, whole: &str, number: &mut i64, gather: &mut Gather<'_>) -> Result<(), ImportError> {
    gather.grid = grid(top.crs, whole)?;
    if let Some(sheet) = top.sheet {
        gather.header = Some(header(sheet, whole)?);
    }
    if let ("FeatureCollection", Some(features)) = (top.kind.as_str(), top.features) {
        return read_collection(features, whole, number, gather);
    }
    *number += 1;
    if number.rem_euclid(TICK) == 1 {
        gather.tick(before(text, whole) as u64, whole.len() as u64)?;
    }
    match top.kind.as_str() {
        "Topology" => Err(ImportError::Unreadable { line: 0, why: Unread::TopoJson }),
        "Feature" => take_feature(text, *number, gather),
        _ => take_geometry(text, &Tags::default(), Record::new(Part::Feature, *number), gather),
    }
}

/// So many features are taken between two tellings of how far it is.
const TICK: i64 = 256;

/// What is said of the sheet; its spread must be one.
fn header(sheet: &RawValue, whole: &str) -> Result<Header, ImportError> {
    let header: Header = serde_json::from_str(sheet.get()).map_err(|error| unreadable(whole, sheet.get(), &error))?;
    let sound = header.position_spread_m.is_none_or(|spread_m| (0.0..=MOST_SPREAD_M).contains(&spread_m));
    if sound { Ok(header) } else { Err(Record::new(Part::Sheet, 0).fault(Fault::Spread)) }
}

/// The grid that the older GeoJSON of 2008 could name.
fn grid(crs: Option<&RawValue>, whole: &str) -> Result<StatedGrid, ImportError> {
    let crs = crs.map_or("null", RawValue::get);
    let crs: serde_json::Value = serde_json::from_str(crs).map_err(|error| unreadable(whole, crs, &error))?;
    StatedGrid::of_geojson(&crs).map_err(ImportError::Grid)
}

/// How many bytes before it a text has that holds another.
pub(super) fn before(part: &str, whole: &str) -> usize {
    (part.as_ptr() as usize).wrapping_sub(whole.as_ptr() as usize)
}

fn read_collection(features: &RawValue, whole: &str, number: &mut i64, gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let text = features.get();
    let mut broken = None;
    let seed = EachFeature { text, whole: whole.len() as u64, number, gather, broken: &mut broken };
    let read = seed.deserialize(&mut serde_json::Deserializer::from_str(text));
    match (broken, read) {
        (Some(error), _) => Err(error),
        (None, read) => read.map_err(|error| unreadable(whole, text, &error)),
    }
}

/// Takes the features of a list one after the other, so that only one is held at a time.
struct EachFeature<'a, 'g, 'w> {
    text: &'a str,
    whole: u64,
    number: &'g mut i64,
    gather: &'g mut Gather<'w>,
    broken: &'g mut Option<ImportError>,
}

impl<'de> DeserializeSeed<'de> for EachFeature<'_, '_, '_> {
    type Value = ();

    fn deserialize<D: serde::Deserializer<'de>>(self, reader: D) -> Result<(), D::Error> {
        reader.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for EachFeature<'_, '_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list of features")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        while let Some(feature) = list.next_element::<&'de RawValue>()? {
            *self.number += 1;
            let done = before(feature.get(), self.text) as u64;
            let told = if self.number.rem_euclid(TICK) == 1 { self.gather.tick(done, self.whole) } else { Ok(()) };
            if let Err(error) = told.and_then(|()| take_feature(feature.get(), *self.number, self.gather)) {
                *self.broken = Some(error);
                return Err(serde::de::Error::custom("broken off"));
            }
        }
        Ok(())
    }
}

fn take_feature(text: &str, number: i64, gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let record = || Record::new(Part::Feature, number);
    let feature: Feature<'_> = serde_json::from_str(text).map_err(|_| record().fault(Fault::Needs))?;
    if feature.kind != "Feature" {
        return Err(record().fault(Fault::Needs));
    }
    let properties = feature.properties.map_or("null", RawValue::get);
    let pairs = serde_json::Deserializer::from_str(properties).deserialize_any(Properties);
    let pairs = pairs.map_err(|_| record().fault(Fault::Needs))?;
    let own = || pairs.iter().map(|(key, value)| (key.as_str(), value.as_str()));
    let others = other_tags::beside(own());
    let tags = Tags::new(own().chain(others.iter().map(|(key, value)| (key.as_str(), value.as_str()))));
    let record = record().named(tags.name());
    match feature.geometry {
        Some(geometry) if geometry.get() != "null" => take_geometry(geometry.get(), &tags, record, gather),
        _ => gather.take(Shape::default(), &found(record, &tags, gather)),
    }
}

fn found<'a>(record: Record, tags: &'a Tags<'a>, gather: &Gather<'_>) -> Found<'a> {
    let spread_m = if gather.header.is_some() { DRAWN_SPREAD_M } else { SPREAD_M };
    Found { record, tags, layer: None, spread_m, is_recorded: false, is_noded: false, may_be_on_line: false }
}

fn take_geometry(text: &str, tags: &Tags<'_>, record: Record, gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let mut shape = Shape::default();
    read_shape(text, &gather.grid, &mut shape).map_err(|fault| record.clone().fault(fault))?;
    if gather.grid.grid().is_some() {
        gather.note_grid(&gather.grid.clone(), "", shape.first());
    }
    gather.take(shape, &found(record, tags, gather))
}

/// The properties that are looked at, as text; lists and objects are passed over.
struct Properties;

impl<'de> Visitor<'de> for Properties {
    type Value = Vec<(String, String)>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object of properties")
    }

    fn visit_unit<E>(self) -> Result<Self::Value, E> {
        Ok(Vec::new())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
        const MOST: usize = 64;
        let mut pairs = Vec::new();
        while let Some(key) = map.next_key::<String>()? {
            if !(is_kept(&key) || key.eq_ignore_ascii_case(other_tags::COLUMN)) || pairs.len() >= MOST {
                map.next_value::<IgnoredAny>()?;
                continue;
            }
            let value = map.next_value::<&'de RawValue>()?.get();
            if let Some(text) = scalar(value) {
                pairs.push((key, text));
            }
        }
        Ok(pairs)
    }
}

/// A text, a number or a yes, as text.
fn scalar(raw: &str) -> Option<String> {
    match raw.as_bytes().first()? {
        b'"' => serde_json::from_str(raw).ok(),
        b'{' | b'[' | b'n' => None,
        _ => Some(raw.to_owned()),
    }
}

//! Geometries of GeoJSON.

use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, IgnoredAny, SeqAccess, Visitor};
use serde_json::value::RawValue;

use super::error::Fault;
use super::gather::MOST_POINTS;
use super::shape::{Pos, Shape};
use crate::exchange::stated::StatedGrid;

/// Collections inside collections are opened this deep.
const DEEPEST: usize = 8;

#[derive(Deserialize)]
struct Geometry<'a> {
    #[serde(rename = "type")]
    kind: String,
    #[serde(borrow, default)]
    coordinates: Option<&'a RawValue>,
    #[serde(borrow, default)]
    geometries: Option<&'a RawValue>,
}

/// Adds a geometry to a shape.
pub(super) fn read_shape(text: &str, grid: &StatedGrid, shape: &mut Shape) -> Result<(), Fault> {
    // Every list of the text may become a list in memory.
    let lists = text.bytes().filter(|byte| *byte == b'[').count();
    if lists > MOST_POINTS { Err(Fault::Swollen) } else { add(text, grid, shape, 0) }
}

fn add(text: &str, grid: &StatedGrid, shape: &mut Shape, depth: usize) -> Result<(), Fault> {
    if depth > DEEPEST {
        return Err(Fault::Nested);
    }
    let geometry: Geometry<'_> = serde_json::from_str(text).map_err(|_| Fault::Geometry)?;
    let coordinates = geometry.coordinates.map_or("null", RawValue::get);
    match geometry.kind.as_str() {
        "Point" => shape.points.extend(point(coordinates, grid)?),
        "MultiPoint" => shape.points.extend(line(&list::<Position>(coordinates)?, grid)?),
        "LineString" => shape.lines.push(line(&list::<Position>(coordinates)?, grid)?),
        "MultiLineString" => shape.lines.extend(lines(&list::<Vec<Position>>(coordinates)?, grid)?),
        "Polygon" => shape.areas.push(lines(&list::<Vec<Position>>(coordinates)?, grid)?),
        "MultiPolygon" => {
            for rings in list::<Vec<Vec<Position>>>(coordinates)? {
                shape.areas.push(lines(&rings, grid)?);
            }
        }
        "GeometryCollection" => {
            let parts: Vec<&RawValue> =
                serde_json::from_str(geometry.geometries.map_or("null", RawValue::get)).map_err(|_| Fault::Geometry)?;
            return parts.into_iter().try_for_each(|part| add(part.get(), grid, shape, depth + 1));
        }
        _ => return Err(Fault::Geometry),
    }
    Ok(())
}

/// A point; an empty one has no numbers.
fn point(text: &str, grid: &StatedGrid) -> Result<Option<Pos>, Fault> {
    if text.strip_prefix('[').and_then(|rest| rest.trim_start().strip_prefix(']')).is_some() {
        return Ok(None);
    }
    serde_json::from_str::<Position>(text).map_err(|_| Fault::NoPosition)?.pos(grid).map(Some)
}

fn list<'de, T: Deserialize<'de>>(text: &'de str) -> Result<Vec<T>, Fault> {
    serde_json::from_str(text).map_err(|_| Fault::NoPosition)
}

fn line(positions: &[Position], grid: &StatedGrid) -> Result<Vec<Pos>, Fault> {
    positions.iter().map(|position| position.pos(grid)).collect()
}

fn lines(all: &[Vec<Position>], grid: &StatedGrid) -> Result<Vec<Vec<Pos>>, Fault> {
    all.iter().map(|ring| line(ring, grid)).collect()
}

/// Longitude and latitude, or easting and northing; a height and more may follow and are passed over.
struct Position {
    x: f64,
    y: f64,
}

impl Position {
    fn pos(&self, grid: &StatedGrid) -> Result<Pos, Fault> {
        grid.place(self.x, self.y).ok_or(Fault::OffEarth)
    }
}

impl<'de> Deserialize<'de> for Position {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        struct Numbers;
        impl<'de> Visitor<'de> for Numbers {
            type Value = Position;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a position")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Position, A::Error> {
                let missing = || serde::de::Error::custom("two numbers are needed");
                let x = list.next_element()?.ok_or_else(missing)?;
                let y = list.next_element()?.ok_or_else(missing)?;
                while list.next_element::<IgnoredAny>()?.is_some() {}
                Ok(Position { x, y })
            }
        }
        reader.deserialize_seq(Numbers)
    }
}

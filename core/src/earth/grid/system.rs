//! A coordinate system as a file or a person names it: degrees or a grid, and the unit of its heights.

use std::cell::RefCell;

use proj::Proj;
use serde_json::Value;

use super::shelf::Shelf;
use super::{Grid, GridError, codes, known};

thread_local! {
    static NAMED: RefCell<Shelf<System>> = RefCell::new(Shelf::new());
}

/// Where numbers lie, and what heights with them count in.
#[derive(Debug, Clone, PartialEq)]
pub struct System {
    /// East and north; nothing for a system of heights alone.
    pub flat: Option<Flat>,
    /// Up; nothing where none is named.
    pub heights: Option<HeightAxis>,
    /// Whether heights with them are counted from the ellipsoid: the system has an axis upwards of its own.
    pub is_ellipsoidal: bool,
}

/// Degrees, or a grid of eastings and northings.
#[derive(Debug, Clone, PartialEq)]
pub enum Flat {
    /// Latitude and longitude on WGS 84, or on a datum that agrees with it within about 2 m.
    Degrees,
    /// Latitude and longitude on another datum, with the name of the system.
    OtherDegrees(String),
    /// A grid.
    Grid(Grid),
}

/// How heights are counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightAxis {
    /// Metres in their unit.
    pub unit_m: f64,
    /// Depths are counted downwards.
    pub upward: bool,
}

/// What definitions begin with that are written out: PROJ strings, well-known text of either version, PROJJSON.
const BEGINNINGS: [&str; 8] = ["+proj=", "PROJC", "GEOGC", "GEODC", "COMPD_CS", "COMPOUNDCRS", "BOUNDCRS", "{"];
/// Datums that agree with WGS 84 within about 2 m, by PROJ's names (from memory).
const LIKE_WGS_84: [&str; 7] = [
    "World Geodetic System 1984",
    "North American Datum 1983",
    "European Terrestrial Reference System 1989",
    "Geocentric Datum of Australia",
    "New Zealand Geodetic Datum 2000",
    "NAD83 (",
    "Sistema de Referencia Geocentrico para las AmericaS 2000",
];

impl System {
    /// The system that a text stands for: an EPSG code, two joined by "+" for a grid and its heights, a PROJ string, or
    /// well-known text as it stands in a `.prj` file.
    ///
    /// # Errors
    /// [`GridError`] when PROJ does not know it, or it is of another sort.
    ///
    /// # References
    /// OGC 12-063r5 and 18-010r7 (well-known text), PROJ's PROJJSON 0.7.
    pub fn named(definition: &str) -> Result<Self, GridError> {
        let typed = definition.trim().trim_start_matches('\u{feff}');
        let is_written_out = BEGINNINGS.iter().any(|start| typed.to_uppercase().starts_with(&start.to_uppercase()));
        if typed.len() > known::LONGEST || typed.contains("+init") || !(is_written_out || codes::is_registered(typed)) {
            return Err(GridError::Unknown(typed.chars().take(60).collect()));
        }
        NAMED.with_borrow_mut(|shelf| shelf.take(typed, Self::asked)).map(|found| (*found).clone())
    }

    /// As PROJ tells it.
    fn asked(typed: &str) -> Result<Self, GridError> {
        let shown = || GridError::Unknown(typed.chars().take(60).collect());
        let crs = Proj::new(&known::as_crs(typed)).map_err(|_| shown())?;
        let described = crs.to_projjson(Some(false), None, None).map_err(|_| shown())?;
        let described: Value = serde_json::from_str(&described).map_err(|_| shown())?;
        let mut system = Self { flat: None, heights: None, is_ellipsoidal: false };
        for whole in parts(&described) {
            let part = unbound(whole);
            system.is_ellipsoidal |= part.pointer("/coordinate_system/axis/2").is_some();
            match kind(part) {
                "VerticalCRS" => system.heights = height_axis(part),
                "ProjectedCRS" => system.flat = Some(Flat::Grid(grid(part, whole)?)),
                "GeographicCRS" => system.flat = Some(degrees(part)),
                _ => return Err(GridError::OfDegrees(typed.chars().take(60).collect())),
            }
        }
        if system.flat.is_some() || system.heights.is_some() { Ok(system) } else { Err(shown()) }
    }
}

fn text<'a>(part: &'a Value, pointer: &str) -> &'a str {
    part.pointer(pointer).and_then(Value::as_str).unwrap_or_default()
}

fn kind(part: &Value) -> &str {
    text(part, "/type")
}

/// The parts of a compound system.
fn parts(described: &Value) -> Vec<&Value> {
    match (kind(described), described.get("components").and_then(Value::as_array)) {
        ("CompoundCRS", Some(parts)) => parts.iter().collect(),
        _ => vec![described],
    }
}

/// A system without the shift that binds it to another datum.
fn unbound(part: &Value) -> &Value {
    if kind(part) == "BoundCRS" { part.get("source_crs").unwrap_or(part) } else { part }
}

/// The grid by its number where it has one, which says more than a description does; else with the shift that is bound to it.
fn grid(part: &Value, whole: &Value) -> Result<Grid, GridError> {
    match (text(part, "/id/authority"), part.pointer("/id/code").and_then(Value::as_u64)) {
        ("EPSG", Some(code)) => Grid::of_file(&format!("EPSG:{code}")),
        _ => Grid::described(&whole.to_string(), text(part, "/name"))?.counting_east_and_north(),
    }
}

fn degrees(part: &Value) -> Flat {
    let datum = [text(part, "/datum/name"), text(part, "/datum_ensemble/name")].concat();
    if LIKE_WGS_84.iter().any(|known| datum.starts_with(known)) { Flat::Degrees } else { Flat::OtherDegrees(text(part, "/name").into()) }
}

fn height_axis(part: &Value) -> Option<HeightAxis> {
    let axis = part.pointer("/coordinate_system/axis/0")?;
    let unit = axis.get("unit")?;
    let unit_m = if unit.as_str() == Some("metre") { 1.0 } else { unit.get("conversion_factor")?.as_f64()? };
    Some(HeightAxis { unit_m, upward: text(axis, "/direction") == "up" })
}

#[cfg(test)]
mod tests {
    use super::{Flat, System};

    /// Codes and units: EPSG registry v11, as PROJ 9.5.1 tells them through pyproj 3.7.2.
    #[test]
    fn the_unit_of_heights_is_that_of_the_registry() {
        let foot_us = 1200.0 / 3937.0;
        for (code, unit_m, upward) in
            [("EPSG:6360", foot_us, true), ("EPSG:8228", 0.3048, true), ("EPSG:5703", 1.0, true), ("EPSG:6357", 1.0, false)]
        {
            let axis = System::named(code).ok().and_then(|system| system.heights);
            assert!(axis.is_some_and(|axis| (axis.unit_m - unit_m).abs() < 1e-12 && axis.upward == upward), "{code}: {axis:?}");
        }
        let from_ellipsoid = |code: &str| System::named(code).is_ok_and(|system| system.is_ellipsoidal);
        assert!(["EPSG:4979", "EPSG:4937", "EPSG:4955"].into_iter().all(from_ellipsoid));
        assert!(!["EPSG:4326", "EPSG:32633", "EPSG:2227+6360", "EPSG:5703"].into_iter().any(from_ellipsoid));
        let both = System::named("EPSG:2227+6360");
        assert!(matches!(&both, Ok(System { flat: Some(Flat::Grid(grid)), heights: Some(_), .. }) if grid.definition() == "EPSG:2227"));
        assert!(matches!(System::named("EPSG:4326"), Ok(System { flat: Some(Flat::Degrees), heights: None, .. })));
        assert!(matches!(System::named("EPSG:4267"), Ok(System { flat: Some(Flat::OtherDegrees(_)), .. })));
        for unknown in ["EPSG:5103", "Projection UTM", "", "EPSG:4978"] {
            assert!(System::named(unknown).is_err(), "{unknown}");
        }
    }
}

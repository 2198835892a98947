//! The grid that a file names by its number for the places in it.
//!
//! # References
//! The GeoJSON Format Specification 1.0 (2008), 3: the member `crs`, a name or a link; RFC 7946 (2016), 4 left it out again.

use serde_json::Value;

use crate::earth::{Grid, GridError};
use crate::measure::Point;

/// Latitude and longitude where nothing else is named.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct StatedGrid(Option<Grid>);

/// Systems whose latitudes and longitudes are those of WGS 84 within two metres, which is less than any line's spread:
/// WGS 84 itself, with heights, ETRS89 and NAD83 (from memory).
const DEGREES: [&str; 5] = ["EPSG:4326", "EPSG:4979", "EPSG:4258", "EPSG:4269", "EPSG:4937"];
const LONGITUDE_FIRST: &str = "CRS84";
/// No number of a grid has more digits.
const MOST_DIGITS: usize = 6;

impl StatedGrid {
    /// Whether the name is that of latitudes and longitudes, for which no grid is looked up.
    pub(super) fn is_degrees(name: &str) -> bool {
        DEGREES.contains(&name) || name.ends_with(LONGITUDE_FIRST)
    }

    /// By its number, "EPSG:32633". A definition written into the file is a stranger's word and not taken.
    pub(super) fn numbered(name: &str) -> Result<Self, GridError> {
        if Self::is_degrees(name) {
            return Ok(Self(None));
        }
        let number =
            name.strip_prefix("EPSG:").filter(|number| number.len() <= MOST_DIGITS && number.bytes().all(|byte| byte.is_ascii_digit()));
        let unknown = || GridError::Unknown(name.chars().take(80).collect());
        number.ok_or_else(unknown).and_then(|_| Grid::of_file(name)).map(|grid| Self(Some(grid)))
    }

    /// By the older GeoJSON's member `crs`: a name such as "urn:ogc:def:crs:EPSG::32633", a web address of one, or a code.
    pub(super) fn of_geojson(crs: &Value) -> Result<Self, GridError> {
        if crs.is_null() {
            return Ok(Self(None));
        }
        let (name, code) = (crs.pointer("/properties/name"), crs.pointer("/properties/code").and_then(Value::as_u64));
        let Some(name) = name.and_then(Value::as_str).map(str::to_owned).or_else(|| code.map(|code| format!("EPSG:{code}"))) else {
            return Err(GridError::Unknown(crs.to_string().chars().take(80).collect()));
        };
        let parts: Vec<&str> = name.split([':', '/']).collect();
        let of_registry = parts.iter().any(|part| part.eq_ignore_ascii_case("EPSG"));
        match parts.last() {
            Some(number) if of_registry => Self::numbered(&format!("EPSG:{number}")),
            _ => Self::numbered(&name),
        }
    }

    /// The grid, where it is none of degrees.
    pub(super) fn grid(&self) -> Option<&Grid> {
        self.0.as_ref()
    }

    /// Latitude and longitude of a place by its numbers, the eastern one first.
    pub(super) fn place(&self, x: f64, y: f64) -> Option<(f64, f64)> {
        match &self.0 {
            None => crate::earth::LatLon::new(y, x).ok().map(|_| (y, x)),
            Some(grid) => grid.unproject(Point::new(x, y)).ok().map(|at| (at.lat_deg(), at.lon_deg())),
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::StatedGrid;

    /// The place of the numbers: PROJ 9.5.1 through pyproj 3.7.2.
    #[test]
    fn a_grid_is_named_in_every_old_way() {
        for name in
            ["EPSG:32633", "urn:ogc:def:crs:EPSG::32633", "urn:ogc:def:crs:EPSG:6.3:32633", "http://www.opengis.net/def/crs/EPSG/0/32633"]
        {
            let stated = StatedGrid::of_geojson(&json!({ "type": "name", "properties": { "name": name } })).ok();
            let (lat, lon) = stated.and_then(|grid| grid.place(400_000.0, 5_100_000.0)).unwrap_or_default();
            assert!((lat - 46.046_265_5).abs() < 1e-6 && (lon - 13.707_468_0).abs() < 1e-6, "{name}: {lat} {lon}");
        }
        let coded = StatedGrid::of_geojson(&json!({ "type": "EPSG", "properties": { "code": 32633 } }));
        assert_eq!(coded.ok(), StatedGrid::numbered("EPSG:32633").ok());
        for degrees in ["urn:ogc:def:crs:OGC:1.3:CRS84", "OGC:CRS84", "urn:ogc:def:crs:EPSG::4326"] {
            let stated = StatedGrid::of_geojson(&json!({ "type": "name", "properties": { "name": degrees } }));
            assert_eq!(stated.ok(), Some(StatedGrid::default()), "{degrees}");
        }
        for refused in [
            json!({ "type": "link", "properties": { "href": "a.prj" } }),
            json!("EPSG:32633"),
            json!({ "type": "name", "properties": { "name": "43261" } }),
        ] {
            assert!(StatedGrid::of_geojson(&refused).is_err(), "{refused}");
        }
    }
}

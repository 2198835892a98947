//! Contours out, as open features.

use serde::Serialize;

use crate::earth::GridError;
use crate::ground::{Contour, HeightUnit, Heights};

/// A ten millionth of a degree is a centimetre.
const DECIMALS: f64 = 1e7;

/// How every file begins: a member that RFC 7946, 6.1 leaves to the writer.
const BEGINS: &[u8] = b"{\"contours_in\":\"";

/// Whether a file that begins so was written here.
#[must_use]
pub fn begins_as_contours(beginning: &[u8]) -> bool {
    beginning.starts_with(BEGINS)
}

/// Contours as `GeoJSON`: one `LineString` each with `height_m`, `index` and `depression` (a ring round lower ground), in feet `height_ft` too, longitude and latitude on WGS 84.
/// `contours_in` names the unit in which they are counted.
///
/// # Errors
/// [`GridError`] when the grid of the heights has no place for a post.
///
/// # References
/// RFC 7946 (2016).
pub fn contours_geojson(contours: &[Contour], heights: &Heights, unit: HeightUnit) -> Result<String, GridError> {
    // Lines that are told one by one take a tenth of the memory that a tree of all their numbers would.
    let mut text = format!("{}{}\",\"features\":[", String::from_utf8_lossy(BEGINS), if unit == HeightUnit::Feet { "ft" } else { "m" });
    for (number, contour) in contours.iter().enumerate() {
        if number > 0 {
            text.push(',');
        }
        text.push_str(&serde_json::to_string(&feature(contour, heights, unit)?).unwrap_or_default());
    }
    text.push_str("],\"type\":\"FeatureCollection\"}");
    Ok(text)
}

#[derive(Serialize)]
struct Feature {
    geometry: Geometry,
    properties: Properties,
    #[serde(rename = "type")]
    kind: &'static str,
}

#[derive(Serialize)]
struct Geometry {
    coordinates: Vec<[f64; 2]>,
    #[serde(rename = "type")]
    kind: &'static str,
}

#[derive(Serialize)]
struct Properties {
    depression: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    height_ft: Option<f64>,
    height_m: f64,
    index: bool,
}

fn feature(contour: &Contour, heights: &Heights, unit: HeightUnit) -> Result<Feature, GridError> {
    let rounded = |degrees: f64| (degrees * DECIMALS).round() / DECIMALS;
    let places = contour.places(heights)?;
    let coordinates: Vec<[f64; 2]> = places.iter().map(|at| [rounded(at.lon_deg()), rounded(at.lat_deg())]).collect();
    // A hundredth of a foot: the height is a whole number of intervals.
    let height_ft = (unit == HeightUnit::Feet).then(|| (contour.height_m / unit.metres() * 100.0).round() / 100.0);
    Ok(Feature {
        geometry: Geometry { coordinates, kind: "LineString" },
        properties: Properties { depression: contour.depression, height_ft, height_m: contour.height_m, index: contour.index },
        kind: "Feature",
    })
}

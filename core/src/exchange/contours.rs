//! Contours out, as open features.

use serde_json::{Value, json};

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

/// Contours as `GeoJSON`: one `LineString` each with `height_m` and `index`, in feet `height_ft` too, longitude and latitude on WGS 84.
/// `contours_in` names the unit in which they are counted.
///
/// # Errors
/// [`GridError`] when the grid of the heights has no place for a post.
///
/// # References
/// RFC 7946 (2016).
pub fn contours_geojson(contours: &[Contour], heights: &Heights, unit: HeightUnit) -> Result<String, GridError> {
    let features = contours.iter().map(|contour| feature(contour, heights, unit)).collect::<Result<Vec<_>, _>>()?;
    let counted_in = if unit == HeightUnit::Feet { "ft" } else { "m" };
    Ok(json!({ "contours_in": counted_in, "features": features, "type": "FeatureCollection" }).to_string())
}

fn feature(contour: &Contour, heights: &Heights, unit: HeightUnit) -> Result<Value, GridError> {
    let rounded = |degrees: f64| (degrees * DECIMALS).round() / DECIMALS;
    let places = contour.places(heights)?;
    let coordinates: Vec<[f64; 2]> = places.iter().map(|at| [rounded(at.lon_deg()), rounded(at.lat_deg())]).collect();
    let mut properties = json!({ "height_m": contour.height_m, "index": contour.index });
    if let (HeightUnit::Feet, Some(members)) = (unit, properties.as_object_mut()) {
        // A hundredth of a foot: the height is a whole number of intervals.
        members.insert("height_ft".into(), ((contour.height_m / unit.metres() * 100.0).round() / 100.0).into());
    }
    Ok(json!({
        "type": "Feature",
        "properties": properties,
        "geometry": { "type": "LineString", "coordinates": coordinates }
    }))
}

//! Contours out, as open features.

use serde_json::{Value, json};

use crate::earth::GridError;
use crate::ground::{Contour, Heights};

/// A ten millionth of a degree is a centimetre.
const DECIMALS: f64 = 1e7;

/// Contours as `GeoJSON`: one `LineString` each with `height_m` and `index`, longitude and latitude on WGS 84.
///
/// # Errors
/// [`GridError`] when the grid of the heights has no place for a post.
///
/// # References
/// RFC 7946 (2016).
pub fn contours_geojson(contours: &[Contour], heights: &Heights) -> Result<String, GridError> {
    let features = contours.iter().map(|contour| feature(contour, heights)).collect::<Result<Vec<_>, _>>()?;
    Ok(json!({ "type": "FeatureCollection", "features": features }).to_string())
}

fn feature(contour: &Contour, heights: &Heights) -> Result<Value, GridError> {
    let rounded = |degrees: f64| (degrees * DECIMALS).round() / DECIMALS;
    let places = contour.places(heights)?;
    let coordinates: Vec<[f64; 2]> = places.iter().map(|at| [rounded(at.lon_deg()), rounded(at.lat_deg())]).collect();
    Ok(json!({
        "type": "Feature",
        "properties": { "height_m": contour.height_m, "index": contour.index },
        "geometry": { "type": "LineString", "coordinates": coordinates }
    }))
}

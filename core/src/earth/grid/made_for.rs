//! Where a grid is made for of which no area of use is registered: one written out as a string of PROJ.

use serde_json::Value;

use super::Grid;
use super::GridError;
use super::known::known;
use crate::earth::LatLon;

/// What the definition of a grid tells of where it is made for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct MadeFor {
    /// The easting of the middle meridian of a transverse Mercator grid, in the grid's own unit.
    middle_easting: Option<f64>,
    /// Metres in that unit.
    unit_m: f64,
}

/// What speaks against a place in a grid of which no area of use is registered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FarFromMiddle {
    /// It lies so many metres from the middle meridian of a transverse Mercator grid.
    OfMeridian(f64),
    /// Lengths on the grid are there longer by this share of those on the ground; shorter where it is negative.
    Stretched(f64),
}

/// Half a zone of six degrees is 334 km wide on the equator, and maps are counted on some way over its edge, metres (our choice).
const MERIDIAN_REACH_M: f64 = 400_000.0;
/// Maps are not measured in grids whose lengths are off by more than this share (our choice).
const MOST_STRETCHED: f64 = 0.02;

impl MadeFor {
    pub(super) fn described(flat: &Value) -> Self {
        let unit = flat.pointer("/coordinate_system/axis/0/unit");
        let unit_m = unit.and_then(|unit| unit.get("conversion_factor")).and_then(Value::as_f64).unwrap_or(1.0);
        let method = flat.pointer("/conversion/method/name").and_then(Value::as_str).unwrap_or_default();
        let is_transverse = method.starts_with("Transverse Mercator");
        Self { middle_easting: is_transverse.then(|| false_easting(flat).unwrap_or(0.0) / unit_m), unit_m }
    }
}

/// Metres.
fn false_easting(flat: &Value) -> Option<f64> {
    let parameters = flat.pointer("/conversion/parameters").and_then(Value::as_array)?;
    let named = parameters.iter().find(|one| one.get("name").and_then(Value::as_str) == Some("False easting"))?;
    let unit_m = named.pointer("/unit/conversion_factor").and_then(Value::as_f64).unwrap_or(1.0);
    Some(named.get("value").and_then(Value::as_f64)? * unit_m)
}

impl Grid {
    /// How many metres of this grid a metre on the ellipsoid is at a place: what the sheet's margin calls the scale factor. Good to 3e-5 on
    /// an ellipsoid other than that of WGS 84.
    ///
    /// # Errors
    /// As [`Grid::factors`].
    pub fn metres_per_metre(&self, at: LatLon) -> Result<f64, GridError> {
        let unit_m = if self.is_utm_ups() { 1.0 } else { known(self.definition())?.made_for.unit_m };
        Ok(self.factors(at)?.scale * unit_m)
    }

    /// What speaks against a place where no area of use is registered: more than 400 km from the middle meridian of a transverse
    /// Mercator grid, or lengths off by more than 2 %. Nothing where an area is registered; see [`Grid::beyond_area_m`].
    #[must_use]
    pub fn far_from_middle(&self, at: LatLon) -> Option<FarFromMiddle> {
        let known = known(self.definition()).ok().filter(|known| !self.is_utm_ups() && known.area.is_none())?;
        let MadeFor { middle_easting, unit_m } = known.made_for;
        if let Some(middle) = middle_easting {
            let away_m = (self.project(at).ok()?.east_m - middle).abs() * unit_m;
            return (away_m > MERIDIAN_REACH_M).then_some(FarFromMiddle::OfMeridian(away_m));
        }
        let stretched = self.factors(at).ok()?.scale * unit_m - 1.0;
        (stretched.abs() > MOST_STRETCHED).then_some(FarFromMiddle::Stretched(stretched))
    }
}

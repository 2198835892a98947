//! Latitude and longitude on a grid's own datum, in degrees from Greenwich.

use proj::Proj;
use serde_json::Value;

use super::known::WGS_84;
use crate::earth::LatLon;

/// The way to the latitudes and longitudes under a grid.
pub(super) struct OwnDegrees {
    transform: Proj,
    /// Degrees in one of its units: maps that count from Paris count in gradians.
    unit_deg: f64,
    /// Its first meridian, degrees east of Greenwich.
    meridian_deg: f64,
}

impl OwnDegrees {
    /// Of a grid as PROJ describes it; with the shift of the definition where that brings one.
    pub(super) fn under(described: &str) -> Option<Self> {
        let described: Value = serde_json::from_str(described).ok()?;
        let flat = described.get("source_crs").unwrap_or(&described);
        let base = flat.get("base_crs")?;
        let own = if described.get("source_crs").is_some() {
            let mut bound = described.clone();
            *bound.get_mut("source_crs")? = base.clone();
            bound
        } else {
            base.clone()
        };
        let transform = Proj::new_known_crs(WGS_84, &own.to_string(), None).ok()?;
        let unit_deg = base.pointer("/coordinate_system/axis/0/unit").map_or(1.0, unit_deg);
        let meridian = ["/datum/prime_meridian/longitude", "/datum_ensemble/prime_meridian/longitude"];
        let meridian_deg = meridian.iter().find_map(|at| base.pointer(at)).map_or(0.0, angle_deg);
        Some(Self { transform, unit_deg, meridian_deg })
    }

    pub(super) fn of(&self, at: LatLon) -> Option<LatLon> {
        let (lon, lat) = self.transform.convert((at.lon_deg(), at.lat_deg())).ok()?;
        let lon_deg = lon * self.unit_deg + self.meridian_deg;
        LatLon::new(lat * self.unit_deg, (lon_deg + 180.0).rem_euclid(360.0) - 180.0).ok()
    }
}

/// Degrees in a unit: "degree", or one that is described in radians.
fn unit_deg(unit: &Value) -> f64 {
    unit.get("conversion_factor").and_then(Value::as_f64).map_or(1.0, f64::to_degrees)
}

/// A plain number of degrees, or a value with its unit.
fn angle_deg(angle: &Value) -> f64 {
    let value = angle.as_f64().or_else(|| angle.get("value").and_then(Value::as_f64)).unwrap_or(0.0);
    value * angle.get("unit").map_or(1.0, unit_deg)
}

//! Latitude and longitude.

use super::PlaceError;

/// A place by geographic coordinates on WGS 84, checked once when made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LatLon {
    lat_deg: f64,
    lon_deg: f64,
}

impl LatLon {
    /// A place from degrees north (-90 to 90) and degrees east (-180 to 180).
    ///
    /// # Errors
    /// [`PlaceError::OffEarth`] for anything else.
    pub fn new(lat_deg: f64, lon_deg: f64) -> Result<Self, PlaceError> {
        let fits = (-90.0..=90.0).contains(&lat_deg) && (-180.0..=180.0).contains(&lon_deg);
        if fits { Ok(Self { lat_deg, lon_deg }) } else { Err(PlaceError::OffEarth { lat_deg, lon_deg }) }
    }

    /// A place from a computation that cannot leave the earth; what rounding pushed over an edge is brought back.
    pub(crate) fn computed(lat_deg: f64, lon_deg: f64) -> Self {
        let lon = if (-180.0..=180.0).contains(&lon_deg) { lon_deg } else { (lon_deg + 180.0).rem_euclid(360.0) - 180.0 };
        Self { lat_deg: lat_deg.clamp(-90.0, 90.0), lon_deg: lon }
    }

    /// Degrees north.
    #[must_use]
    pub fn lat_deg(self) -> f64 {
        self.lat_deg
    }

    /// Degrees east.
    #[must_use]
    pub fn lon_deg(self) -> f64 {
        self.lon_deg
    }
}

//! Latitude and longitude, and places as a person types them.

use super::gridref;
use crate::measure::{Message, Telling};

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

/// A place as read from text, with the square it was read from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaceReading {
    /// The place; for a grid reference the centre of its square.
    pub at: LatLon,
    /// Side of the square in metres, 0 when the place was given as latitude and longitude.
    pub square_m: f64,
}

impl PlaceReading {
    /// Spread of the place that comes from the square alone: one sigma per axis, metres.
    ///
    /// A uniform distribution over a side `a` has the standard deviation `a / sqrt(12)`.
    #[must_use]
    pub fn spread_m(&self) -> f64 {
        self.square_m / 12f64.sqrt()
    }
}

/// Why a place could not be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlaceError {
    /// Latitude or longitude outside the earth.
    #[error("place-off-earth")]
    OffEarth {
        /// Degrees north as given.
        lat_deg: f64,
        /// Degrees east as given.
        lon_deg: f64,
    },
    /// A grid reference with something wrong in it.
    #[error("reference-unreadable")]
    Reference {
        /// The text as typed.
        typed: String,
        /// Which part is wrong: the identifier of a sentence.
        part: &'static str,
    },
}

impl Telling for PlaceError {
    fn message(&self) -> Message {
        match self {
            Self::OffEarth { lat_deg, lon_deg } => {
                Message::new("reference-unreadable").text("typed", format!("{lat_deg}, {lon_deg}")).text("part", "part-off-earth")
            }
            Self::Reference { typed, part } => Message::new("reference-unreadable").text("typed", typed.clone()).text("part", *part),
        }
    }
}

/// Reads a place: an MGRS reference of 2 to 10 digits, or `"lat, lon"` in decimal degrees.
///
/// `beginning` is the zone and square letters printed on the sheet ("33TVM"); it completes a
/// reference that leaves them out. Spaces and lower case are accepted.
///
/// # Errors
/// [`PlaceError`] names the part that is wrong.
pub fn read_place(text: &str, beginning: Option<&str>) -> Result<PlaceReading, PlaceError> {
    if let Some((lat, lon)) = text.split_once(',') {
        let at = read_lat_lon(text, lat, lon)?;
        return Ok(PlaceReading { at, square_m: 0.0 });
    }
    let square = gridref::read(text, beginning)?;
    Ok(PlaceReading { at: square.centre, square_m: square.side_m })
}

fn read_lat_lon(text: &str, lat: &str, lon: &str) -> Result<LatLon, PlaceError> {
    let degrees = |part: &str| part.trim().parse::<f64>().ok().filter(|value| value.is_finite());
    let wrong = |part| PlaceError::Reference { typed: text.into(), part };
    let lat_deg = degrees(lat).ok_or_else(|| wrong("part-latitude"))?;
    let lon_deg = degrees(lon).ok_or_else(|| wrong("part-longitude"))?;
    LatLon::new(lat_deg, lon_deg).map_err(|_| wrong("part-off-earth"))
}

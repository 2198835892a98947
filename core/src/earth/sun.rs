//! The sun: where it stands, when it rises and sets, and the light that is left, by the crate `solar-positioning`.
//!
//! # References
//! I. Reda, A. Andreas (2004), Solar position algorithm for solar radiation applications, NREL/TP-560-34302; case files
//! `tests/vectors/earth/light.json`.

mod daylight;
mod grazing;
mod light;
mod terrain;
#[cfg(test)]
mod tests;

pub use daylight::{Daylight, Polar, daylight};
pub use light::{Light, light_from};
pub use terrain::{GroundHorizon, HILL_M, LONGEST_S, OverGround, Shown, sun_over_ground};

use chrono::{DateTime, Datelike, TimeZone, Utc};
use solar_positioning::{Horizon, Location, RefractionCorrection, SolarPositions, delta_t};

use super::{Instant, LatLon};
use crate::measure::{Message, Telling, TrueBearing};

/// The air that bends the sun's light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Pressure at the place, not reduced to the sea, hectopascal.
    pub pressure_hpa: f64,
    /// Temperature, degrees Celsius.
    pub temperature_c: f64,
}

/// Where the sun stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunPosition {
    /// Bearing of the sun's middle.
    pub azimuth: TrueBearing,
    /// Height of its middle above a level horizon as it is seen, degrees; refraction is left out when it is well below.
    pub elevation_deg: f64,
    /// The same without air, degrees.
    pub elevation_geometric_deg: f64,
}

/// Why nothing can be said of the sun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SunError {
    /// A time outside the years 1583 to 2999.
    #[error("sun-time-outside")]
    Time,
    /// A height that is no number or below -1,000 m or above 100 km.
    #[error("sun-height-outside")]
    Height,
    /// Air that cannot be: pressure 0 to 2,000 hPa, temperature -100 to 100 °C.
    #[error("sun-air-outside")]
    Air,
}

impl Telling for SunError {
    fn message(&self) -> Message {
        Message::new(match self {
            Self::Time => {
                let (first, last) = (FIRST_YEAR.to_string(), LAST_YEAR.to_string());
                return Message::new("sun-time-outside").text("first", first).text("last", last);
            }
            Self::Height => "sun-height-outside",
            Self::Air => "sun-air-outside",
        })
    }
}

impl Air {
    /// The standard atmosphere at a height, brought into 0 to 11 km.
    ///
    /// # References
    /// ISO 2533:1975, troposphere (constants from memory).
    #[must_use]
    pub fn standard(height_m: f64) -> Self {
        let height_m = height_m.clamp(0.0, 11_000.0);
        let pressure_hpa = 1_013.25 * (1.0 - 2.255_77e-5 * height_m).powf(5.255_88);
        Self { pressure_hpa, temperature_c: 15.0 - 0.006_5 * height_m }
    }
}

/// Where the sun stands at an instant, seen from a place `height_m` above the sea.
///
/// # Units
/// Degrees, metres, hectopascal, degrees Celsius.
///
/// # Accuracy
/// 0.0003° by the algorithm's authors; the example they print is met within 0.00001° (test). The difference of earth rotation and even
/// time is estimated: a second of it moves the sun by 0.00001°. Below 5° of elevation real air may bend by some
/// hundredths of a degree more or less. The azimuth is not touched by it, but changes up to 15° in an hour and more.
///
/// # Errors
/// [`SunError`] for times, heights and air out of reach.
pub fn sun_position(at: LatLon, height_m: f64, instant: Instant, air: Air) -> Result<SunPosition, SunError> {
    sun_position_at(at, height_m, instant, air, None)
}

/// As [`sun_position`], with the difference of even time and earth rotation (TT - UT1) in seconds instead of its estimate.
///
/// # Errors
/// As [`sun_position`].
pub fn sun_position_at(at: LatLon, height_m: f64, instant: Instant, air: Air, delta_t_s: Option<f64>) -> Result<SunPosition, SunError> {
    if !(-1_000.0..=100_000.0).contains(&height_m) {
        return Err(SunError::Height);
    }
    let time = time_of(instant)?;
    let refraction = refraction_of(air)?;
    let sun = SolarPositions::new().for_time(&time, delta_t_s.map_or_else(|| delta_t_of(&time), Ok)?).map_err(|_| SunError::Time)?;
    let stand = |refraction| sun.at(location(at), height_m, refraction).map_err(|_| SunError::Height);
    let (seen, geometric) = (stand(Some(refraction))?, stand(None)?);
    Ok(SunPosition {
        azimuth: TrueBearing::new(seen.azimuth()),
        elevation_deg: seen.elevation_angle(),
        elevation_geometric_deg: geometric.elevation_angle(),
    })
}

/// Where the sun's middle stands as its upper edge passes a level horizon: below it by 16′ of radius and by what the air bends
/// there, 34′ as the almanacs have it, or that by the air that is named. Almanacs reckon as seen from the earth's centre, the
/// crate as seen from the place, from where the sun stands lower by its parallax, 8.794″.
///
/// # References
/// The bend goes with pressure and temperature as in NREL/TP-560-34302, section 3.14.3; 34′ and 16′ of the almanacs hold for
/// 1010 hPa and 10 °C (Explanatory Supplement to the Astronomical Almanac, from memory).
fn upper_edge_deg(air: Option<Air>) -> f64 {
    let share = air.map_or(1.0, |air| air.pressure_hpa / 1_010.0 * 283.0 / (273.0 + air.temperature_c));
    -(16.0 + 34.0 * share) / 60.0 - 8.794 / 3_600.0
}

/// The sun's middle at the ends of civil twilight.
const CIVIL: Horizon = Horizon::CivilTwilight;

fn location(at: LatLon) -> Location {
    Location { latitude: at.lat_deg(), longitude: at.lon_deg() }
}

/// The first whole year of the calendar by which dates are read. The algorithm reaches back to -2000.
///
/// # References
/// The Gregorian calendar begins on 15 October 1582; ISO 8601 reads earlier dates in it by agreement only (ISO 8601-1:2019, 4.2.1,
/// from memory).
const FIRST_YEAR: i32 = 1583;
/// The last year for which the earth's rotation is estimated. The algorithm reaches on to 6000.
///
/// # References
/// F. Espenak, J. Meeus, Polynomial expressions for Delta T, NASA (2006), for the years -1999 to 3000; in the crate
/// `solar-positioning` to 2999.
const LAST_YEAR: i32 = 2999;

fn time_of(instant: Instant) -> Result<DateTime<Utc>, SunError> {
    let time = Utc.timestamp_millis_opt(instant.unix_ms()).single().ok_or(SunError::Time)?;
    if (FIRST_YEAR..=LAST_YEAR).contains(&time.year()) { Ok(time) } else { Err(SunError::Time) }
}

fn instant_of(time: DateTime<Utc>) -> Instant {
    Instant::from_unix_ms(time.timestamp_millis())
}

fn delta_t_of(time: &DateTime<Utc>) -> Result<f64, SunError> {
    delta_t::estimate_from_date_like(time).map_err(|_| SunError::Time)
}

fn refraction_of(air: Air) -> Result<RefractionCorrection, SunError> {
    if air.temperature_c < -100.0 {
        return Err(SunError::Air);
    }
    RefractionCorrection::new(air.pressure_hpa, air.temperature_c).map_err(|_| SunError::Air)
}

//! The sun: where it stands, when it rises and sets, and the light that is left, by the crate `solar-positioning`.
//!
//! # References
//! I. Reda, A. Andreas (2004), Solar position algorithm for solar radiation applications, NREL/TP-560-34302; case files
//! `tests/vectors/earth/light.json`.

#[cfg(test)]
mod tests;

use chrono::{DateTime, Duration, NaiveDate, TimeZone, Utc};
use solar_positioning::{Horizon, Location, RefractionCorrection, SolarEvents, SolarPositions, delta_t};

use super::{Instant, LatLon};
use crate::measure::{Message, Telling, TrueBearing};

/// The light at an instant: the next sunset, the next end and beginning of civil twilight after it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Light {
    /// The next time the sun's upper edge goes below a level horizon; none within a day where it does not set.
    pub sunset: Option<Instant>,
    /// The next time the sun is 6° below it: dark for walking; none within a day where it does not get so low.
    pub dark: Option<Instant>,
    /// The next time it comes up to there; none within a day where it does not.
    pub dawn: Option<Instant>,
    /// Whether it is dark for walking already.
    pub is_dark: bool,
}

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

/// Sunrise, sunset and twilights of one day at one place, for a level horizon.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Daylight {
    /// The sun's highest stand.
    pub noon: Instant,
    /// The sun's upper edge comes over the horizon.
    pub sunrise: Option<Instant>,
    /// It goes below.
    pub sunset: Option<Instant>,
    /// The sun's middle is 6° below the horizon, rising.
    pub civil_dawn: Option<Instant>,
    /// It is 6° below, sinking: dark for walking.
    pub civil_dusk: Option<Instant>,
    /// 12° below, rising.
    pub nautical_dawn: Option<Instant>,
    /// 12° below, sinking.
    pub nautical_dusk: Option<Instant>,
    /// Whether the sun stays up or down all day.
    pub polar: Option<Polar>,
}

/// A day without sunrise and sunset.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Polar {
    /// The sun stays above the horizon.
    Day,
    /// The sun stays below.
    Night,
}

/// Why nothing can be said of the sun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SunError {
    /// A time outside the algorithm's reach; here from the year -499 to 2999.
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
            Self::Time => "sun-time-outside",
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

/// Sunrise, sunset and twilights of a day at a place.
///
/// The day is the one of the place's own longitude: the half days before and after the sun's highest stand that lies
/// nearest to its local mean noon. So every day has its own sunrise before and its own sunset after its noon, also where
/// the sun sets after midnight, and where the day of Greenwich would give yesterday's. Where a legal clock is a whole
/// day off its longitude, as around the date line, the caller names the day of the longitude.
///
/// # Accuracy
/// Published sunrises and sunsets are met to the second (test), for a level horizon at sea level. Hills, height and air move
/// a real sunrise by minutes.
///
/// # Errors
/// [`SunError::Time`] for days out of reach.
pub fn daylight(at: LatLon, day: NaiveDate) -> Result<Daylight, SunError> {
    let watch = Watch::over(at, day)?;
    let [sun, civil, nautical] = [UPPER_EDGE, Horizon::CivilTwilight, Horizon::NauticalTwilight].map(|h| watch.crossings(h));
    let ((sunrise, sunset), (civil_dawn, civil_dusk), (nautical_dawn, nautical_dusk)) = (sun?, civil?, nautical?);
    let polar = if sunrise.is_none() && sunset.is_none() { Some(watch.polar()?) } else { None };
    let noon = instant_of(watch.noon);
    Ok(Daylight { noon, sunrise, sunset, civil_dawn, civil_dusk, nautical_dawn, nautical_dusk, polar })
}

/// The light at a place from an instant on, for a level horizon.
///
/// Accuracy: a minute; hills make it dark earlier.
#[must_use]
pub fn light_from(at: LatLon, from: Instant) -> Light {
    let (dark, dawn) = (next_set(at, from, Horizon::CivilTwilight), next_dawn(at, from));
    // Of the two that which comes first ends what is now.
    let is_dark = match (dark, dawn) {
        (Some(dark), Some(dawn)) => dawn.unix_ms() < dark.unix_ms(),
        (None, None) => sun_position(at, 0.0, from, Air::standard(0.0)).is_ok_and(|sun| sun.elevation_geometric_deg < CIVIL_DEG),
        (None, Some(_)) => true,
        (Some(_), None) => false,
    };
    Light { sunset: next_set(at, from, UPPER_EDGE), dark, dawn, is_dark }
}

/// Height of the sun's middle at the ends of civil twilight.
const CIVIL_DEG: f64 = -6.0;

fn next_dawn(at: LatLon, from: Instant) -> Option<Instant> {
    let start = time_of(from).ok()?;
    let delta_t = delta_t_of(&start).ok()?;
    let end = start + Duration::days(1);
    let rise = SolarEvents::new().next_rise(&start, &end, location(at), delta_t, Horizon::CivilTwilight).ok()??;
    Some(instant_of(rise))
}

fn next_set(at: LatLon, from: Instant, horizon: Horizon) -> Option<Instant> {
    let start = time_of(from).ok()?;
    let delta_t = delta_t_of(&start).ok()?;
    let set = SolarEvents::new().next_set(&start, &(start + Duration::days(1)), location(at), delta_t, horizon).ok()??;
    Some(instant_of(set))
}

/// Sunrise and sunset of the almanacs: the sun's middle 50′ below the horizon (34′ of refraction, 16′ of radius) as seen from
/// the earth's centre. The crate reckons as seen from the place, from where it stands lower by the parallax, 8.794″.
const UPPER_EDGE: Horizon = Horizon::Custom(-50.0 / 60.0 - 8.794 / 3_600.0);

/// One day's watch of the sun from a place.
struct Watch {
    location: Location,
    noon: DateTime<Utc>,
    delta_t: f64,
}

impl Watch {
    fn over(at: LatLon, day: NaiveDate) -> Result<Self, SunError> {
        let mean_noon = mean_noon(at, day)?;
        let delta_t = delta_t_of(&mean_noon)?;
        // The sun is never more than 17 minutes early or late against the mean.
        let (start, end) = (mean_noon - Duration::hours(1), mean_noon + Duration::hours(1));
        let noon = SolarEvents::new().next_transit(&start, &end, at.lon_deg(), delta_t).map_err(|_| SunError::Time)?;
        Ok(Self { location: location(at), noon: noon.ok_or(SunError::Time)?, delta_t })
    }

    /// The last rise before noon, else one after; the first set after noon, else one before (near a pole days have no halves).
    fn crossings(&self, horizon: Horizon) -> Result<(Option<Instant>, Option<Instant>), SunError> {
        let (first, last) = (self.noon - Duration::hours(12), self.noon + Duration::hours(12));
        let rise = self.rise(first, self.noon, horizon)?.map_or_else(|| self.rise(self.noon, last, horizon), |time| Ok(Some(time)))?;
        let set = self.set(self.noon, last, horizon)?.map_or_else(|| self.set(first, self.noon, horizon), |time| Ok(Some(time)))?;
        Ok((rise.map(instant_of), set.map(instant_of)))
    }

    fn rise(&self, start: DateTime<Utc>, end: DateTime<Utc>, horizon: Horizon) -> Result<Option<DateTime<Utc>>, SunError> {
        SolarEvents::new().next_rise(&start, &end, self.location, self.delta_t, horizon).map_err(|_| SunError::Time)
    }

    fn set(&self, start: DateTime<Utc>, end: DateTime<Utc>, horizon: Horizon) -> Result<Option<DateTime<Utc>>, SunError> {
        SolarEvents::new().next_set(&start, &end, self.location, self.delta_t, horizon).map_err(|_| SunError::Time)
    }

    /// What the sun does on a day on which it neither rises nor sets: at noon it is as high as it gets.
    fn polar(&self) -> Result<Polar, SunError> {
        let stand = SolarPositions::new().at(&self.noon, self.location, 0.0, self.delta_t, None).map_err(|_| SunError::Time)?;
        let up = stand.elevation_angle() > UPPER_EDGE.elevation_angle();
        Ok(if up { Polar::Day } else { Polar::Night })
    }
}

/// Noon by the mean sun at a place's longitude.
fn mean_noon(at: LatLon, day: NaiveDate) -> Result<DateTime<Utc>, SunError> {
    const MS_PER_DEGREE: f64 = 240_000.0;
    let greenwich = day.and_hms_opt(12, 0, 0).ok_or(SunError::Time)?.and_utc();
    let later = Duration::milliseconds((at.lon_deg() * MS_PER_DEGREE).round() as i64);
    greenwich.checked_sub_signed(later).filter(|time| delta_t_of(time).is_ok()).ok_or(SunError::Time)
}

fn location(at: LatLon) -> Location {
    Location { latitude: at.lat_deg(), longitude: at.lon_deg() }
}

fn time_of(instant: Instant) -> Result<DateTime<Utc>, SunError> {
    Utc.timestamp_millis_opt(instant.unix_ms()).single().filter(|time| delta_t_of(time).is_ok()).ok_or(SunError::Time)
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

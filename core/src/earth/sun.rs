//! The light that is left, by the crate `solar-positioning`.
//!
//! # References
//! I. Reda, A. Andreas (2004), NREL/TP-560-34302; case files `tests/vectors/earth/light.json`.

use chrono::{DateTime, TimeZone, Utc};
use solar_positioning::{Horizon, Location, SolarEvents, delta_t};

use super::{Instant, LatLon};

/// The next sunset and the next end of civil twilight after an instant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Light {
    /// The next time the sun's upper edge goes below a level horizon; none within a day where it does not set.
    pub sunset: Option<Instant>,
    /// The next time the sun is 6° below it: dark for walking; none within a day where it does not get so low.
    pub dark: Option<Instant>,
}

/// The light at a place from an instant on, for a level horizon.
///
/// Accuracy: a minute; hills make it dark earlier.
#[must_use]
pub fn light_from(at: LatLon, from: Instant) -> Light {
    Light { sunset: next_set(at, from, Horizon::SunriseSunset), dark: next_set(at, from, Horizon::CivilTwilight) }
}

fn next_set(at: LatLon, from: Instant, horizon: Horizon) -> Option<Instant> {
    let start: DateTime<Utc> = Utc.timestamp_millis_opt(from.unix_ms()).single()?;
    let end = start + chrono::Duration::days(1);
    let location = Location { latitude: at.lat_deg(), longitude: at.lon_deg() };
    let delta_t = delta_t::estimate_from_date_like(&start).ok()?;
    let set = SolarEvents::new().next_set(&start, &end, location, delta_t, horizon).ok()??;
    Some(Instant::from_unix_ms(set.timestamp_millis()))
}

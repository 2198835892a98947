//! Sunrise, sunset and twilights of a day.

use chrono::{DateTime, Duration, NaiveDate, Utc};
use solar_positioning::{Horizon, Location, SolarEvents, SolarPositions};

use super::grazing::touches_near;
use super::{Air, CIVIL, SunError, delta_t_of, instant_of, location, upper_edge_deg};
use crate::earth::{Instant, LatLon};

/// Sunrise, sunset and twilights of one day at one place, for a level horizon.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Daylight {
    /// The sun's highest stand.
    pub noon: Instant,
    /// The sun's upper edge comes over the horizon.
    pub sunrise: Option<Instant>,
    /// It goes below.
    pub sunset: Option<Instant>,
    /// The sun only touches the horizon before noon: its lowest stand then, or noon itself, as near to the horizon as the air's bend
    /// differs at 95 %. Whether and when it rises cannot be told then.
    pub touches_before: Option<Instant>,
    /// The same after noon: whether and when it sets.
    pub touches_after: Option<Instant>,
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
    /// Whether it stays above or below 6° under the horizon all day: no civil dawn and dusk.
    pub civil_polar: Option<Polar>,
    /// The same for 12°.
    pub nautical_polar: Option<Polar>,
}

/// A day on which the sun does not pass a height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Polar {
    /// The sun stays above it.
    Day,
    /// The sun stays below.
    Night,
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
/// a real sunrise by minutes. With `air` the bend at the horizon goes with its pressure and temperature, else it is the almanacs'.
///
/// # Errors
/// [`SunError::Time`] for days out of reach.
pub fn daylight(at: LatLon, day: NaiveDate, air: Option<Air>) -> Result<Daylight, SunError> {
    let watch = Watch::over(at, day)?;
    let edge_deg = upper_edge_deg(air);
    let edge = Horizon::Custom(edge_deg);
    let touches = |hours| touches_near(at, watch.noon + Duration::hours(hours), edge_deg).map(instant_of);
    let at_noon = touches(0);
    let [sun, civil, nautical] = [edge, CIVIL, Horizon::NauticalTwilight].map(|height| watch.passages(height));
    let (sun, civil, nautical) = (sun?, civil?, nautical?);
    Ok(Daylight {
        noon: instant_of(watch.noon),
        sunrise: sun.rise,
        sunset: sun.set,
        touches_before: at_noon.or_else(|| touches(-12)),
        touches_after: at_noon.or_else(|| touches(12)),
        civil_dawn: civil.rise,
        civil_dusk: civil.set,
        nautical_dawn: nautical.rise,
        nautical_dusk: nautical.set,
        polar: sun.polar,
        civil_polar: civil.polar,
        nautical_polar: nautical.polar,
    })
}

/// How the sun passes one height on a day.
struct Passages {
    rise: Option<Instant>,
    set: Option<Instant>,
    polar: Option<Polar>,
}

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
    fn passages(&self, horizon: Horizon) -> Result<Passages, SunError> {
        let (first, last) = (self.noon - Duration::hours(12), self.noon + Duration::hours(12));
        let rise = self.rise(first, self.noon, horizon)?.map_or_else(|| self.rise(self.noon, last, horizon), |time| Ok(Some(time)))?;
        let set = self.set(self.noon, last, horizon)?.map_or_else(|| self.set(first, self.noon, horizon), |time| Ok(Some(time)))?;
        let polar = if rise.is_none() && set.is_none() { Some(self.polar(horizon)?) } else { None };
        Ok(Passages { rise: rise.map(instant_of), set: set.map(instant_of), polar })
    }

    fn rise(&self, start: DateTime<Utc>, end: DateTime<Utc>, horizon: Horizon) -> Result<Option<DateTime<Utc>>, SunError> {
        SolarEvents::new().next_rise(&start, &end, self.location, self.delta_t, horizon).map_err(|_| SunError::Time)
    }

    fn set(&self, start: DateTime<Utc>, end: DateTime<Utc>, horizon: Horizon) -> Result<Option<DateTime<Utc>>, SunError> {
        SolarEvents::new().next_set(&start, &end, self.location, self.delta_t, horizon).map_err(|_| SunError::Time)
    }

    /// What the sun does on a day on which it does not pass a height: at noon it is as high as it gets.
    fn polar(&self, horizon: Horizon) -> Result<Polar, SunError> {
        let stand = SolarPositions::new().at(&self.noon, self.location, 0.0, self.delta_t, None).map_err(|_| SunError::Time)?;
        Ok(if stand.elevation_angle() > horizon.elevation_angle() { Polar::Day } else { Polar::Night })
    }
}

/// Noon by the mean sun at a place's longitude.
fn mean_noon(at: LatLon, day: NaiveDate) -> Result<DateTime<Utc>, SunError> {
    const MS_PER_DEGREE: f64 = 240_000.0;
    let greenwich = day.and_hms_opt(12, 0, 0).ok_or(SunError::Time)?.and_utc();
    let later = Duration::milliseconds((at.lon_deg() * MS_PER_DEGREE).round() as i64);
    greenwich.checked_sub_signed(later).filter(|time| delta_t_of(time).is_ok()).ok_or(SunError::Time)
}

//! The sun over the ground: when its upper edge comes over, or goes behind, a horizon that hills raise.

use chrono::{DateTime, Duration, Utc};

use super::{Air, SunError, instant_of, sun_position, time_of};
use crate::earth::{Instant, LatLon};
use crate::measure::{LINE_95, TrueBearing};

/// How high the ground stands over one bearing, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundHorizon {
    /// The highest that the ground stands over the level, degrees, as it is seen through the air.
    pub elevation_deg: f64,
    /// One sigma of that by the error of the heights, degrees.
    pub spread_deg: f64,
    /// How far off it stands so high, metres.
    pub distance_m: f64,
    /// How far off the known ground ends, metres: what lies beyond may stand higher.
    pub known_to_m: f64,
    /// From there on, metres, no ground that lies [`HILL_M`] higher than the eye can stand higher over the level.
    pub enough_to_m: f64,
    /// Whether heights are missing before that.
    pub has_gap: bool,
}

/// How much higher than the eye ground is thought to lie where it is not known, metres: as mountains lie over their valleys. Our
/// choice, no source.
pub const HILL_M: f64 = 2_000.0;

impl GroundHorizon {
    /// Whether ground that is not known could hide a sun that stands as high as what is known: the heights have a gap on the bearing,
    /// or they end nearer than a hill of [`HILL_M`] over the eye could stand as high.
    #[must_use]
    pub fn ends_near(&self) -> bool {
        self.has_gap || self.known_to_m < self.enough_to_m
    }
}

/// When the sun's upper edge passes the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OverGround {
    /// The time.
    pub at: Instant,
    /// Half-width of it at 95 % by the error of the heights, seconds; none where ground beyond them could hide the sun
    /// ([`GroundHorizon::ends_near`]): the time is then a bound, the latest of a sunset and the earliest of a sunrise.
    pub half_95_s: Option<f64>,
    /// Where the sun stands then.
    pub azimuth: TrueBearing,
    /// The ground there.
    pub horizon: GroundHorizon,
}

/// The radius of the sun, degrees.
const RADIUS_DEG: f64 = 16.0 / 60.0;
/// From look to look; a gap between hills that the sun crosses faster is not found.
const STEP_S: i64 = 180;

/// From a sunrise or sunset on a level horizon towards the middle of the day, the first time at which the sun's upper edge stands
/// over the ground: the sunrise or sunset over the ground. None where it does not until then, or where no ground is known.
///
/// Ground below the level counts as level: farther ground closes the view there.
///
/// # Units
/// `horizon` answers for a true bearing, degrees.
///
/// # Accuracy
/// A second, for the horizon as it is given. Where the sun goes behind a hill and comes out again, the time is the last setting
/// or the first rising; gaps that it crosses within 3 minutes are passed over.
///
/// # Errors
/// [`SunError`] for times and air out of reach.
pub fn over_ground(
    at: LatLon,
    (level, until): (Instant, Instant),
    air: Air,
    horizon: &dyn Fn(TrueBearing) -> Option<GroundHorizon>,
) -> Result<Option<OverGround>, SunError> {
    let (start, end) = (time_of(level)?, time_of(until)?);
    let inward = if end < start { -1 } else { 1 };
    let steps = (end - start).num_seconds().abs() / STEP_S;
    let view = View { at, air, horizon };
    // What bends the sun on the level is the matter of the level's own times.
    if horizon(view.edge(start)?.0).is_some_and(|ground| ground.elevation_deg <= 0.0) {
        return view.passage(start, start);
    }
    let mut hidden = start;
    for step in 0..=steps {
        let time = start + Duration::seconds(inward * step * STEP_S);
        let Some(over_deg) = view.over_deg(time)? else { return Ok(None) };
        if over_deg >= 0.0 {
            return view.passage(hidden, time);
        }
        hidden = time;
    }
    Ok(None)
}

/// Over a sun that does not set on the level: when it next goes behind the ground and comes out again, within a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundSpells {
    /// Whether it shows at the beginning.
    pub shows: bool,
    /// When it next goes behind the ground.
    pub hides: Option<OverGround>,
    /// When it next comes out.
    pub comes: Option<OverGround>,
}

/// How the sun's upper edge passes the ground in the day after an instant; none where no ground is known.
///
/// # Accuracy
/// As [`over_ground`]; what it crosses within 3 minutes is passed over.
///
/// # Errors
/// [`SunError`] for times and air out of reach.
pub fn ground_spells(
    at: LatLon,
    from: Instant,
    air: Air,
    horizon: &dyn Fn(TrueBearing) -> Option<GroundHorizon>,
) -> Result<Option<GroundSpells>, SunError> {
    const DAY_S: i64 = 86_400;
    let start = time_of(from)?;
    let view = View { at, air, horizon };
    let Some(shows) = view.over_deg(start)?.map(|over_deg| over_deg >= 0.0) else { return Ok(None) };
    let mut spells = GroundSpells { shows, hides: None, comes: None };
    let mut before = (start, shows);
    for step in 1..=DAY_S / STEP_S {
        let time = start + Duration::seconds(step * STEP_S);
        let Some(now) = view.over_deg(time)?.map(|over_deg| over_deg >= 0.0) else { return Ok(None) };
        match (before.1, now) {
            (true, false) if spells.hides.is_none() => spells.hides = view.passage(time, before.0)?,
            (false, true) if spells.comes.is_none() => spells.comes = view.passage(before.0, time)?,
            _ => {}
        }
        before = (time, now);
    }
    Ok(Some(spells))
}

/// The sun as it is seen from a place with ground around.
struct View<'a> {
    at: LatLon,
    air: Air,
    horizon: &'a dyn Fn(TrueBearing) -> Option<GroundHorizon>,
}

impl View<'_> {
    /// The sun's bearing, and its upper edge over the level, degrees.
    fn edge(&self, time: DateTime<Utc>) -> Result<(TrueBearing, f64), SunError> {
        let sun = sun_position(self.at, 0.0, instant_of(time), self.air)?;
        Ok((sun.azimuth, sun.elevation_deg + RADIUS_DEG))
    }

    /// How far the upper edge stands over the ground, degrees.
    fn over_deg(&self, time: DateTime<Utc>) -> Result<Option<f64>, SunError> {
        let (azimuth, edge_deg) = self.edge(time)?;
        Ok((self.horizon)(azimuth).map(|ground| edge_deg - ground.elevation_deg.max(0.0)))
    }

    /// The passage between a time when the edge is hidden and one when it shows; where both are one, that time.
    fn passage(&self, mut hidden: DateTime<Utc>, mut shown: DateTime<Utc>) -> Result<Option<OverGround>, SunError> {
        while (shown - hidden).num_milliseconds().abs() > 1_000 {
            let middle = hidden + (shown - hidden) / 2;
            if self.over_deg(middle)?.is_some_and(|over_deg| over_deg >= 0.0) { shown = middle } else { hidden = middle }
        }
        let azimuth = self.edge(shown)?.0;
        let Some(horizon) = (self.horizon)(azimuth) else { return Ok(None) };
        let slope_deg_per_s = self.slope_deg_per_s(shown)?.max(1e-6);
        let half_95_s = (!horizon.ends_near()).then(|| LINE_95 * horizon.spread_deg / slope_deg_per_s);
        Ok(Some(OverGround { at: instant_of(shown), half_95_s, azimuth, horizon }))
    }

    /// How fast the sun sinks or rises, degrees a second.
    fn slope_deg_per_s(&self, time: DateTime<Utc>) -> Result<f64, SunError> {
        let minute = Duration::seconds(60);
        Ok((self.edge(time + minute)?.1 - self.edge(time - minute)?.1).abs() / 120.0)
    }
}

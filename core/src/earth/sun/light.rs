//! The light that is left from an instant on.

use chrono::{DateTime, Duration, Utc};
use solar_positioning::{Horizon, SolarEvents};

use super::grazing::{BEND_SPREAD_DEG, touches_in, touches_near};
use super::{Air, CIVIL, delta_t_of, instant_of, location, sun_position, time_of, upper_edge_deg};
use crate::earth::{Instant, LatLon};
use crate::measure::LINE_95;

/// The light at an instant: the next times at which the sun passes the horizon and the height of civil twilight. Each of the
/// two heights is told by itself: a sun that stays down may leave hours of twilight, or none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Light {
    /// The next time the sun's upper edge goes below a level horizon; none within a day where it does not set.
    pub sunset: Option<Instant>,
    /// Half-width of it at 95 %, seconds: the bend of the air at the horizon; none where by that the sun may not set at all.
    pub sunset_95_s: Option<f64>,
    /// The next time at which it only touches the horizon: its highest or lowest stand, within a day, as near to it as the air's bend
    /// differs at 95 %. Whether it rises or sets then cannot be told; neither can when.
    pub touches: Option<Instant>,
    /// The next time it comes over the horizon; none within a day where it does not.
    pub sunrise: Option<Instant>,
    /// Whether it is below the horizon already.
    pub is_down: bool,
    /// The next time the sun is 6° below the horizon: dark for walking; none within a day where it does not pass there.
    pub dark: Option<Instant>,
    /// The next time it comes up to there; none within a day where it does not.
    pub dawn: Option<Instant>,
    /// Whether it is dark for walking already.
    pub is_dark: bool,
}

/// The light at a place from an instant on, for a level horizon, by the almanacs' air or by one that is named.
///
/// # Accuracy
/// The air's bend at the horizon differs from day to day by 0.16° (one sigma), which is a minute where the sun sets steeply and
/// ever more where it sinks slantwise. Half-widths are those of the times at which it passes the horizon with so much more
/// and less of a bend. The ends of twilight are heights of the sun without air and hold to seconds. Hills make it dark earlier.
#[must_use]
pub fn light_from(at: LatLon, from: Instant, air: Option<Air>) -> Light {
    let edge_deg = upper_edge_deg(air);
    let (sun, civil) = (Passes::of(at, from, Horizon::Custom(edge_deg)), Passes::of(at, from, CIVIL));
    let next = if sun.is_below { sun.rise } else { sun.set };
    Light {
        touches: touches(at, from, next, edge_deg),
        sunset: sun.set,
        sunset_95_s: sun.set.and_then(|set| half_width_s(at, set, edge_deg)),
        sunrise: sun.rise,
        is_down: sun.is_below,
        dark: civil.set,
        dawn: civil.rise,
        is_dark: civil.is_below,
    }
}

/// The next times within a day at which the sun passes one height.
struct Passes {
    set: Option<Instant>,
    rise: Option<Instant>,
    is_below: bool,
}

impl Passes {
    fn of(at: LatLon, from: Instant, height: Horizon) -> Self {
        let day = |sets| time_of(from).ok().and_then(|start| next(at, (start, start + Duration::days(1)), height, sets));
        let (set, rise) = (day(true), day(false));
        // Of the two that which comes first ends what is now.
        let is_below = match (set, rise) {
            (Some(set), Some(rise)) => rise < set,
            (None, None) => {
                sun_position(at, 0.0, from, Air::standard(0.0)).is_ok_and(|sun| sun.elevation_geometric_deg < height.elevation_angle())
            }
            (None, Some(_)) => true,
            (Some(_), None) => false,
        };
        Self { set, rise, is_below }
    }
}

/// The first time in a span at which the sun passes a height, downward or upward.
fn next(at: LatLon, (start, end): (DateTime<Utc>, DateTime<Utc>), height: Horizon, sets: bool) -> Option<Instant> {
    let (events, delta_t) = (SolarEvents::new(), delta_t_of(&start).ok()?);
    let found = if sets {
        events.next_set(&start, &end, location(at), delta_t, height)
    } else {
        events.next_rise(&start, &end, location(at), delta_t, height)
    };
    found.ok().flatten().map(instant_of)
}

/// When the sun only touches the horizon: where it next passes it, or, where it does not, within a day.
fn touches(at: LatLon, from: Instant, next: Option<Instant>, edge_deg: f64) -> Option<Instant> {
    let touch = match next {
        Some(next) => touches_near(at, time_of(next).ok()?, edge_deg),
        None => {
            let start = time_of(from).ok()?;
            touches_in(at, (start, start + Duration::days(1)), edge_deg)
        }
    };
    touch.map(instant_of)
}

/// How much earlier or later the sun may set, the greater of both; none when one of them does not come within half a day.
fn half_width_s(at: LatLon, set: Instant, edge_deg: f64) -> Option<f64> {
    let (middle, half_day) = (time_of(set).ok()?, Duration::hours(12));
    let off_deg = LINE_95 * BEND_SPREAD_DEG;
    let early = next(at, (middle - half_day, middle), Horizon::Custom(edge_deg + off_deg), true)?;
    let late = next(at, (middle, middle + half_day), Horizon::Custom(edge_deg - off_deg), true)?;
    Some(set.seconds_since(early).max(late.seconds_since(set)))
}

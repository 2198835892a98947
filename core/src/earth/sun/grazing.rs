//! A sun that only touches the horizon: it rises or sinks no farther beyond it than the air's bend differs from day to day.

use chrono::{DateTime, Duration, Utc};
use solar_positioning::{SolarEvents, SolarPositions};

use super::{delta_t_of, location};
use crate::earth::LatLon;
use crate::measure::LINE_95;

/// One sigma of the air's bend at the horizon, degrees.
///
/// # References
/// B. E. Schaefer, W. Liller (1990), Refraction near the horizon, PASP 102, 796: 0.16° over 144 sunsets (from memory).
pub(super) const BEND_SPREAD_DEG: f64 = 0.16;

/// The sun's highest or lowest stand that is nearest to a time, where it lies within 1.96 sigmas of the air's bend of the height at
/// which the sun's edge passes the horizon: whether it rises or sets at all is then the air's matter, and when even more so.
///
/// Where it sinks farther, it passes the horizon within 40 minutes of what is told at 66° of latitude, as it curves by 1.4° for the
/// square of an hour there; nearer to the poles within more.
pub(super) fn touches_near(at: LatLon, time: DateTime<Utc>, edge_deg: f64) -> Option<DateTime<Utc>> {
    // From one stand to the other are twelve hours.
    let within = Duration::hours(6);
    turns(at, (time - within, time + within)).find(|turn| is_near(at, *turn, edge_deg))
}

/// The first such stand in a span.
pub(super) fn touches_in(at: LatLon, span: (DateTime<Utc>, DateTime<Utc>), edge_deg: f64) -> Option<DateTime<Utc>> {
    turns(at, span).filter(|turn| is_near(at, *turn, edge_deg)).min()
}

/// When the sun passes the meridian of a place in a span of a day at most, above and below the pole.
fn turns(at: LatLon, (start, end): (DateTime<Utc>, DateTime<Utc>)) -> impl Iterator<Item = DateTime<Utc>> {
    let opposite_deg = if at.lon_deg() > 0.0 { at.lon_deg() - 180.0 } else { at.lon_deg() + 180.0 };
    let passes = move |lon_deg: f64| SolarEvents::new().next_transit(&start, &end, lon_deg, delta_t_of(&start).ok()?).ok().flatten();
    [at.lon_deg(), opposite_deg].into_iter().filter_map(passes)
}

fn is_near(at: LatLon, turn: DateTime<Utc>, edge_deg: f64) -> bool {
    let stand = delta_t_of(&turn).ok().and_then(|delta_t| SolarPositions::new().at(&turn, location(at), 0.0, delta_t, None).ok());
    stand.is_some_and(|stand| (stand.elevation_angle() - edge_deg).abs() < LINE_95 * BEND_SPREAD_DEG)
}

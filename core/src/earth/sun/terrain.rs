//! The sun over the ground: when its upper edge comes over, and goes behind, the horizon that the ground makes.

use chrono::{DateTime, Duration, Utc};

use super::grazing::BEND_SPREAD_DEG;
use super::{Air, SunError, instant_of, sun_position, time_of};
use crate::earth::{Instant, LatLon};
use crate::measure::{LINE_95, TrueBearing};

/// How high the ground stands over one bearing, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundHorizon {
    /// The highest that the ground stands over the level, degrees, as it is seen through the air; negative from a summit, whose
    /// horizon lies below the level.
    pub elevation_deg: f64,
    /// One sigma of that by the error of the heights and by what the ground does between their posts, degrees.
    pub spread_deg: f64,
    /// How far off it stands so high, metres.
    pub distance_m: f64,
    /// How far off the known ground ends, metres: what lies beyond may stand higher.
    pub known_to_m: f64,
    /// From there on, metres, no ground that lies [`HILL_M`] higher than the eye can stand higher over the level.
    pub enough_to_m: f64,
    /// How far off, metres, ground between the posts near the eye could stand higher, where it could.
    pub near_m: Option<f64>,
    /// Whether heights are missing before that.
    pub has_gap: bool,
}

/// How much higher than the eye ground is thought to lie where it is not known, metres: as mountains lie over their valleys. Our
/// choice, no source.
pub const HILL_M: f64 = 2_000.0;

impl GroundHorizon {
    /// Whether ground that is not known could hide a sun that stands as high as what is known: between the posts near the eye, in a
    /// gap on the bearing, or beyond the heights, where they end nearer than a hill of [`HILL_M`] over the eye could stand as high.
    #[must_use]
    pub fn is_least(&self) -> bool {
        self.near_m.is_some() || self.ends_near()
    }

    /// Whether that is so for a gap or the end of the heights.
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
    /// Half-width of it at 95 % by the spread of the horizon and the bend of the air, seconds: of the two sides the farther time at which
    /// the sun stands off the ground by that much. None where it only grazes the ground for all that is known, or stays so near to it
    /// for [`LONGEST_S`].
    ///
    /// Where ground that is not known could hide the sun ([`GroundHorizon::is_least`]) the time is a bound besides: the latest of its
    /// going and the earliest of its coming.
    pub half_95_s: Option<f64>,
    /// Where the sun stands then.
    pub azimuth: TrueBearing,
    /// The ground there.
    pub horizon: GroundHorizon,
}

impl OverGround {
    /// Whether the time is a bound: of a sun that grazes the ground it is none.
    #[must_use]
    pub fn is_bound(&self) -> bool {
        self.half_95_s.is_some() && self.horizon.is_least()
    }
}

/// A time during which the sun's upper edge shows over the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// When it comes out; none where it shows as the span begins.
    pub from: Option<OverGround>,
    /// When it goes behind; none where it still shows as the span ends.
    pub until: Option<OverGround>,
}

/// The radius of the sun, degrees.
const RADIUS_DEG: f64 = 16.0 / 60.0;
/// From look to look; what the sun crosses faster is not found.
const STEP_S: i64 = 180;
/// The first look beside a passage for its half-width, and how finely that is told, seconds.
const FIRST_S: f64 = 5.0;
/// A half-width is looked for so far, seconds: three hours (our choice).
pub const LONGEST_S: f64 = 10_800.0;
/// No horizon is known better, degrees.
const LEAST_SPREAD_DEG: f64 = 1e-6;
/// The lowest that a horizon lies below the level, degrees: from the highest mountain over the sea 3.0.
const LOWEST_DEG: f64 = -4.0;

/// When in a span of time the sun's upper edge shows over the ground, one showing after the other: none where it is hidden or down all
/// the time. Nothing where no ground is known while the sun is up.
///
/// # Units
/// `horizon` answers for a true bearing, degrees.
///
/// # Accuracy
/// A second, for the horizon as it is given; a showing or a gap that lasts less than 3 minutes is passed over. The air bends the sun
/// by the formula of [`sun_position`], followed below the level to 1.9° under it, where it bends by 45′: for a summit of 1,200 m over
/// the sea a ray that grazes the sea bends by 43′ (34′ and 0.13 of its way down to there, from memory).
///
/// # Errors
/// [`SunError`] for times and air out of reach.
pub fn sun_over_ground(
    at: LatLon,
    (from, until): (Instant, Instant),
    air: Air,
    horizon: &dyn Fn(TrueBearing) -> Option<GroundHorizon>,
) -> Result<Option<Vec<Shown>>, SunError> {
    let (start, end) = (time_of(from)?, time_of(until)?);
    let view = View { at, air, horizon };
    let Some(mut shows) = view.shows(start)? else { return Ok(None) };
    let mut shown: Vec<Shown> = shows.then_some(Shown { from: None, until: None }).into_iter().collect();
    let mut before = start;
    while before < end {
        let time = (before + Duration::seconds(STEP_S)).min(end);
        let Some(now) = view.shows(time)? else { return Ok(None) };
        match (shows, now) {
            (true, false) => {
                let until = view.passage(time, before)?;
                if let Some(last) = shown.last_mut() {
                    last.until = until;
                }
            }
            (false, true) => shown.push(Shown { from: view.passage(before, time)?, until: None }),
            (true, true) | (false, false) => {}
        }
        (before, shows) = (time, now);
    }
    Ok(Some(shown))
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
        let edge_deg = sun.elevation_geometric_deg + RADIUS_DEG;
        Ok((sun.azimuth, edge_deg + self.bend_deg(edge_deg)))
    }

    /// How much the air lifts what stands at a height, degrees.
    ///
    /// # References
    /// NREL/TP-560-34302, section 3.14.3; below the height where that formula is greatest its greatest value stands.
    fn bend_deg(&self, geometric_deg: f64) -> f64 {
        const GREATEST_AT_DEG: f64 = -1.9;
        let height_deg = geometric_deg.max(GREATEST_AT_DEG);
        let share = self.air.pressure_hpa / 1_010.0 * 283.0 / (273.0 + self.air.temperature_c);
        share * 1.02 / (60.0 * (height_deg + 10.3 / (height_deg + 5.11)).to_radians().tan())
    }

    /// Whether the upper edge shows; nothing where no ground is known there.
    fn shows(&self, time: DateTime<Utc>) -> Result<Option<bool>, SunError> {
        let (azimuth, edge_deg) = self.edge(time)?;
        if edge_deg < LOWEST_DEG {
            return Ok(Some(false));
        }
        Ok((self.horizon)(azimuth).map(|ground| edge_deg >= ground.elevation_deg))
    }

    /// The passage between a time when the edge is hidden and one when it shows.
    fn passage(&self, mut hidden: DateTime<Utc>, mut shown: DateTime<Utc>) -> Result<Option<OverGround>, SunError> {
        while (shown - hidden).num_milliseconds().abs() > 1_000 {
            let middle = hidden + (shown - hidden) / 2;
            if self.shows(middle)? == Some(true) { shown = middle } else { hidden = middle }
        }
        let azimuth = self.edge(shown)?.0;
        let Some(horizon) = (self.horizon)(azimuth) else { return Ok(None) };
        let sides = [(shown, shown - hidden), (hidden, hidden - shown)].map(|(from, away)| self.clear_s(from, away < Duration::zero()));
        let half_95_s = match sides {
            [Some(one), Some(other)] => Some(one.max(other)),
            _ => None,
        };
        Ok(Some(OverGround { at: instant_of(shown), half_95_s, azimuth, horizon }))
    }

    /// How many limits of 95 % the upper edge stands over the ground.
    fn over_limits(&self, time: DateTime<Utc>) -> Option<f64> {
        let (azimuth, edge_deg) = self.edge(time).ok()?;
        let ground = (self.horizon)(azimuth)?;
        let spread_deg = ground.spread_deg.hypot(bend_spread_deg(ground.elevation_deg)).max(LEAST_SPREAD_DEG);
        Some((edge_deg - ground.elevation_deg) / (LINE_95 * spread_deg))
    }

    /// How long before or after a passage the sun is clear of the ground's limits, seconds, as it shows or is hidden there; nothing where
    /// it comes clear on the other side of them first, or not within [`LONGEST_S`].
    fn clear_s(&self, from: DateTime<Utc>, is_before: bool) -> Option<f64> {
        let over = |away_s: f64| {
            let away = Duration::milliseconds((away_s * 1_000.0) as i64);
            self.over_limits(if is_before { from - away } else { from + away })
        };
        let side = if over(0.0)? >= 0.0 { 1.0 } else { -1.0 };
        let (mut near_s, mut far_s) = (0.0, FIRST_S);
        while over(far_s)? * side < 1.0 {
            if over(far_s)? * side <= -1.0 || far_s >= LONGEST_S {
                return None;
            }
            (near_s, far_s) = (far_s, far_s + far_s.min(STEP_S as f64));
        }
        while far_s - near_s > FIRST_S {
            let middle_s = f64::midpoint(near_s, far_s);
            if over(middle_s)? * side < 1.0 { near_s = middle_s } else { far_s = middle_s }
        }
        Some(far_s)
    }
}

/// One sigma of the air's bend over a horizon of a height, degrees: as at the level below it, and less up to 2°, from where on it
/// counts for nothing (our choice).
fn bend_spread_deg(elevation_deg: f64) -> f64 {
    const NONE_FROM_DEG: f64 = 2.0;
    BEND_SPREAD_DEG * (1.0 - elevation_deg / NONE_FROM_DEG).clamp(0.0, 1.0)
}

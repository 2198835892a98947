//! The sun over the heights of the sheet.

use super::{Clock, yes};
use crate::earth::{Air, Daylight, Instant, LatLon, Light, OverGround, over_ground};
use crate::engine::Refusal;
use crate::engine::state::{Ground, Trip};
use crate::measure::{Arg, Message, NamedBearing, TrueBearing};

/// Height of the eye above the ground, metres. Common practice, no source.
const EYE_M: f64 = 1.7;

/// The sun over the ground: what is left of today's, and the day's.
#[derive(Default)]
pub(super) struct Raised {
    pub(super) left: Option<OverGround>,
    pub(super) sunrise: Option<OverGround>,
    pub(super) sunset: Option<OverGround>,
    known: bool,
}

impl Raised {
    pub(super) fn over(ground: &Ground, at: LatLon, air: Air, now: Instant, (left, whole): (&Light, &Daylight)) -> Result<Self, Refusal> {
        let horizon = |bearing: TrueBearing| ground.heights.horizon(at, EYE_M, bearing);
        let passes = |level: Option<Instant>, until: Instant| match level {
            Some(level) => over_ground(at, (level, until), air, &horizon),
            None => Ok(None),
        };
        let left_of_today = left.sunset.filter(|_| !left.is_down);
        Ok(Self {
            left: passes(left_of_today, now)?,
            sunrise: passes(whole.sunrise, whole.noon)?,
            sunset: passes(whole.sunset, whole.noon)?,
            known: horizon(TrueBearing::new(0.0)).is_some(),
        })
    }

    pub(super) fn told(&self, left: &Light, whole: &Daylight, (today, clock): (Clock, Clock)) -> Vec<Message> {
        if !self.known {
            return Vec::new();
        }
        let left = left.sunset.filter(|_| !left.is_down).map(|_| match &self.left {
            Some(over) => with_ground(Message::new("light-over-ground").with("time", today.told(Some(over.at))), over),
            None => Message::new("light-behind-ground"),
        });
        let day = whole.sunrise.and(whole.sunset).map(|_| {
            Message::new("day-over-ground")
                .text("date", clock.day.to_string())
                .text("rises", yes(self.sunrise.is_some()))
                .with("sunrise", clock.told(self.sunrise.map(|over| over.at)))
                .text("sets", yes(self.sunset.is_some()))
                .with("sunset", clock.told(self.sunset.map(|over| over.at)))
        });
        left.into_iter().chain(day).chain([Message::new("light-ground-caution")]).collect()
    }
}

fn with_ground(message: Message, over: &OverGround) -> Message {
    message
        .with("horizon", Arg::Degrees(over.horizon.elevation_deg.max(0.0), 1))
        .with("bearing", Arg::Bearing(NamedBearing::True(over.azimuth)))
        .with("half", Arg::Number((over.half_95_s / 60.0).ceil().max(1.0), 0))
        .with("reach", Arg::Metres(over.horizon.known_to_m))
        .text("gap", yes(over.horizon.has_gap))
}

/// When the sun next goes behind the ground of the sheet, at its likeliest place; nothing when it is down, or behind already.
pub(in crate::engine) fn behind_ground(trip: &Trip, now: Instant, light: &Light) -> Option<Instant> {
    let (at, ground) = (trip.likeliest(), trip.ground.as_ref()?);
    let set = light.sunset.filter(|_| !light.is_down)?;
    let horizon = |bearing: TrueBearing| ground.heights.horizon(at, EYE_M, bearing);
    over_ground(at, (set, now), Air::standard(0.0), &horizon).ok().flatten().map(|over| over.at)
}

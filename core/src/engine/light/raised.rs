//! The sun over the heights of the sheet.

use super::{Clock, yes};
use crate::earth::{Air, Daylight, GroundSpells, HILL_M, Instant, LatLon, Light, OverGround, ground_spells, over_ground};
use crate::engine::Refusal;
use crate::engine::state::{Ground, Trip};
use crate::measure::{Arg, Message, NamedBearing, TrueBearing};
use crate::words::Words;

/// Height of the eye above the ground, metres. Common practice, no source.
const EYE_M: f64 = 1.7;

/// The sun over the ground: what is left of today's, and the day's.
#[derive(Default)]
pub(super) struct Raised {
    pub(super) left: Option<OverGround>,
    pub(super) sunrise: Option<OverGround>,
    pub(super) sunset: Option<OverGround>,
    /// Of a sun that does not set on the level within a day.
    spells: Option<GroundSpells>,
    /// Whether the heights of the sheet hold the place; nothing where there are none.
    known: Option<bool>,
}

impl Raised {
    pub(super) fn over(ground: &Ground, at: LatLon, air: Air, now: Instant, (left, whole): (&Light, &Daylight)) -> Result<Self, Refusal> {
        let horizon = |bearing: TrueBearing| ground.heights.horizon(at, EYE_M, bearing);
        let passes = |level: Option<Instant>, until: Instant| match level {
            Some(level) => over_ground(at, (level, until), air, &horizon),
            None => Ok(None),
        };
        Ok(Self {
            left: passes(sunset_to_come(left), now)?,
            sunrise: passes(whole.sunrise, whole.noon)?,
            sunset: passes(whole.sunset, whole.noon)?,
            spells: if left.is_down || left.sunset.is_some() { None } else { ground_spells(at, now, air, &horizon)? },
            known: Some(horizon(TrueBearing::new(0.0)).is_some()),
        })
    }

    pub(super) fn told(&self, left: &Light, whole: &Daylight, (today, clock): (Clock, Clock)) -> Vec<Message> {
        match self.known {
            None => return Vec::new(),
            Some(false) => return vec![Message::new("light-off-heights")],
            Some(true) => {}
        }
        let left = self.left_told(left, today);
        let day = self.day_told(whole, clock);
        left.into_iter().chain(day).chain([Message::new("light-ground-caution")]).collect()
    }

    /// Until when the sun shows today. Where it only touches the horizon, what the level decides is the matter of the level's own sentence.
    fn left_told(&self, left: &Light, today: Clock) -> Option<Message> {
        let touches = left.touches.is_some();
        if sunset_to_come(left).is_none() {
            let spells = self.spells.filter(|spells| !touches || spells.hides.is_some());
            return spells.map(|spells| spells_told(&spells, today));
        }
        match &self.left {
            Some(over) if touches && is_level(over) => None,
            Some(over) => Some(with_ground(Message::new("light-over-ground").with("time", today.told(Some(over.at))), over)),
            None => Some(Message::new("light-behind-ground")),
        }
    }

    fn day_told(&self, whole: &Daylight, clock: Clock) -> Option<Message> {
        whole.sunrise.and(whole.sunset)?;
        let untold = |touches: Option<Instant>, over: Option<OverGround>| touches.is_some() && over.is_some_and(|over| is_level(&over));
        if untold(whole.touches_before, self.sunrise) || untold(whole.touches_after, self.sunset) {
            return None;
        }
        Some(
            Message::new("day-over-ground")
                .text("date", clock.day.to_string())
                .text("rises", bound(self.sunrise))
                .with("sunrise", clock.told(self.sunrise.map(|over| over.at)))
                .text("sets", bound(self.sunset))
                .with("sunset", clock.told(self.sunset.map(|over| over.at))),
        )
    }
}

fn is_level(over: &OverGround) -> bool {
    over.horizon.elevation_deg <= 0.0
}

/// Whether there is such a time, and whether ground beyond the heights could make it another.
fn bound(over: Option<OverGround>) -> &'static str {
    match over {
        None => "no",
        Some(over) if over.horizon.ends_near() => "bound",
        Some(_) => "yes",
    }
}

/// When a sun that stays up goes behind the ground and comes out.
fn spells_told(spells: &GroundSpells, today: Clock) -> Message {
    let time = |over: Option<OverGround>| today.told(over.map(|over| over.at));
    Message::new("light-spells")
        .text("shows", yes(spells.shows))
        .text("hides-at-all", bound(spells.hides))
        .text("comes-at-all", bound(spells.comes))
        .with("hides", time(spells.hides))
        .with("comes", time(spells.comes))
}

fn with_ground(message: Message, over: &OverGround) -> Message {
    message
        .with("horizon", Arg::Degrees(over.horizon.elevation_deg.max(0.0), 1))
        .with("bearing", Arg::Bearing(NamedBearing::True(over.azimuth)))
        .text("sure", yes(over.half_95_s.is_some()))
        .with("half", Arg::Number((over.half_95_s.unwrap_or_default() / 60.0).ceil().max(1.0), 0))
        .with("hill", Arg::Metres(HILL_M))
        .with("enough", Arg::Metres(over.horizon.enough_to_m))
        .with("reach", Arg::Metres(over.horizon.known_to_m))
        .text("gap", yes(over.horizon.has_gap))
}

/// The sunset of a sun that is up.
fn sunset_to_come(light: &Light) -> Option<Instant> {
    light.sunset.filter(|_| !light.is_down)
}

/// The sun of a trip and the ground of its sheet, as the strip and the snapshot tell it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::engine) enum SunAndGround {
    /// No heights reach there, or the sun is down by the level already.
    Untold,
    /// It goes behind the ground then; at the latest, where ground beyond the heights could hide it.
    ShowsUntil(Instant, bool),
    /// It is behind the ground already.
    Behind,
}

impl SunAndGround {
    /// At the likeliest place of a trip, from now on.
    pub(in crate::engine) fn of(trip: &Trip, at: LatLon, now: Instant, light: &Light) -> Self {
        let Some((set, ground)) = sunset_to_come(light).zip(trip.ground.as_ref()) else { return Self::Untold };
        let horizon = |bearing: TrueBearing| ground.heights.horizon(at, EYE_M, bearing);
        match over_ground(at, (set, now), Air::standard(0.0), &horizon) {
            Ok(Some(over)) => Self::ShowsUntil(over.at, over.horizon.ends_near()),
            Ok(None) if horizon(TrueBearing::new(0.0)).is_some() => Self::Behind,
            Ok(None) | Err(_) => Self::Untold,
        }
    }

    /// Until when the sun shows, and whether that is the latest.
    pub(in crate::engine) fn until(self) -> Option<(Instant, bool)> {
        match self {
            Self::ShowsUntil(at, is_latest) => Some((at, is_latest)),
            Self::Untold | Self::Behind => None,
        }
    }

    /// In words: "the sun goes behind the ground 18:22", or that it does "by 18:22".
    pub(in crate::engine) fn told(self, words: &Words) -> Option<String> {
        match self {
            Self::Untold => None,
            Self::ShowsUntil(at, false) => Some(words.clock("light-behind-at", at)),
            Self::ShowsUntil(at, true) => Some(words.clock("light-behind-by", at)),
            Self::Behind => Some(words.say(&Message::new("light-behind-now"))),
        }
    }
}

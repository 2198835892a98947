//! The sun over the heights of the sheet.

use super::{Clock, yes};
use crate::earth::{Air, Daylight, HILL_M, Instant, LONGEST_S, LatLon, Light, OverGround, Polar, Shown, sun_over_ground};
use crate::engine::Refusal;
use crate::engine::answer::AnswerGroundGap;
use crate::engine::state::{Ground, Trip};
use crate::measure::{Arg, Message, NamedBearing, TrueBearing};
use crate::words::Words;

/// Height of the eye above the ground, metres. Common practice, no source.
const EYE_M: f64 = 1.7;
/// From a summit the sun shows after it set on the level, and before it rises there: so long at most, hours (our choice).
const BESIDE_LEVEL_H: i64 = 3;
/// Half a day, hours.
const HALF_DAY_H: i64 = 12;

/// The sun over the ground: what is left of today's, and the day's.
#[derive(Default)]
pub(super) struct Raised {
    /// From now on, until it sets, or for a day where it does not.
    pub(super) left: Showings,
    /// Of the day that was asked for.
    pub(super) day: Showings,
    /// Of the next one, where it is night after that day.
    coming: Option<Showings>,
    /// Whether the heights of the sheet hold the place; nothing where there are none.
    known: Option<bool>,
}

/// When the sun shows over the ground in a span.
#[derive(Default)]
pub(super) struct Showings {
    shown: Vec<Shown>,
    /// Whether it is up on the level as the span begins, so that ground alone hides it.
    begins_up: bool,
    /// The same of the end.
    ends_up: bool,
}

/// A time during which the ground hides the sun: from its going, or before the span, to its coming, or beyond the span.
#[derive(Clone, Copy)]
pub(super) struct Gap {
    from: Option<OverGround>,
    to: Option<OverGround>,
}

impl Showings {
    /// From now on at a place, until the sun sets, or for a day where it does not. Nothing where no ground is known.
    fn from_now(ground: &Ground, at: LatLon, air: Air, now: Instant, light: &Light) -> Result<Option<Self>, Refusal> {
        let set = sunset_to_come(light);
        let until = match set {
            Some(set) => later(set, BESIDE_LEVEL_H),
            None if light.is_down => later(now, BESIDE_LEVEL_H),
            None => later(now, 2 * HALF_DAY_H),
        };
        let found = Self::between(ground, at, air, (now, until))?;
        Ok(found.map(|shown| Self {
            // What comes out after the level's sunset is another day's.
            shown: shown
                .into_iter()
                .filter(|one| one.from.is_none_or(|from| !light.is_down && set.is_none_or(|set| from.at < set)))
                .collect(),
            begins_up: !light.is_down,
            ends_up: !light.is_down && set.is_none(),
        }))
    }

    /// In the half days before and after the sun's highest stand.
    fn of_day(ground: &Ground, at: LatLon, air: Air, whole: &Daylight) -> Result<Option<Self>, Refusal> {
        let found = Self::between(ground, at, air, (later(whole.noon, -HALF_DAY_H), later(whole.noon, HALF_DAY_H)))?;
        let is_up = |passes: Option<Instant>| passes.is_none() && whole.polar != Some(Polar::Night);
        Ok(found.map(|shown| Self { shown, begins_up: is_up(whole.sunrise), ends_up: is_up(whole.sunset) }))
    }

    fn between(ground: &Ground, at: LatLon, air: Air, span: (Instant, Instant)) -> Result<Option<Vec<Shown>>, Refusal> {
        let sights = ground.sightlines()?;
        let horizon = |bearing: TrueBearing| sights.horizon(at, EYE_M, bearing);
        Ok(sun_over_ground(at, span, air, &horizon)?)
    }

    /// When it first comes out; nothing where it is up on the level before.
    pub(super) fn rises(&self) -> Option<OverGround> {
        self.shown.first().filter(|_| !self.begins_up)?.from
    }

    /// When it goes for the last time; nothing where it stays up on the level.
    pub(super) fn sets(&self) -> Option<OverGround> {
        self.shown.last().filter(|_| !self.ends_up)?.until
    }

    /// When the ground hides the sun between two showings, and at the ends of the span where the sun is up on the level there.
    fn gaps(&self) -> Vec<Gap> {
        if self.shown.is_empty() && self.begins_up && self.ends_up {
            return vec![Gap { from: None, to: None }];
        }
        let mut gaps = Vec::new();
        let before = self.shown.first().filter(|first| self.begins_up && first.from.is_some());
        gaps.extend(before.map(|first| Gap { from: None, to: first.from }));
        gaps.extend(self.shown.iter().zip(self.shown.iter().skip(1)).map(|(one, next)| Gap { from: one.until, to: next.from }));
        let after = self.shown.last().filter(|last| self.ends_up && last.until.is_some());
        gaps.extend(after.map(|last| Gap { from: last.until, to: None }));
        gaps
    }

    /// The gaps as an answer has them.
    pub(super) fn answered(&self) -> Vec<AnswerGroundGap> {
        let is_bound = |end: Option<OverGround>| end.map(|end| end.horizon.is_least());
        let answered = |gap: Gap| AnswerGroundGap {
            from_unix_ms: gap.from.map(|end| end.at.unix_ms()),
            from_is_latest: is_bound(gap.from),
            to_unix_ms: gap.to.map(|end| end.at.unix_ms()),
            to_is_earliest: is_bound(gap.to),
        };
        self.gaps().into_iter().map(answered).collect()
    }

    /// The gaps in words: "14:32 to 15:44 and at least 16:10 to 16:20"; nothing without any.
    fn gaps_told(&self, clock: Clock, words: &Words) -> Option<String> {
        let told = |gap: Gap| {
            let ends = match (gap.from, gap.to) {
                (Some(_), None) => "from",
                (None, _) => "until",
                (Some(_), Some(_)) => "both",
            };
            let is_bound = [gap.from, gap.to].into_iter().flatten().any(|end| end.horizon.is_least());
            words.say(
                &Message::new("light-gap")
                    .text("bound", yes(is_bound))
                    .text("ends", ends)
                    .with("from", clock.told(gap.from.map(|end| end.at)))
                    .with("to", clock.told(gap.to.map(|end| end.at))),
            )
        };
        let all: Vec<String> = self.gaps().into_iter().map(told).collect();
        all.into_iter().reduce(|all, next| words.say(&Message::new("light-gap-and").text("all", all).text("next", next)))
    }

    /// What is told of a whole day.
    fn day_told(&self, whole: &Daylight, clock: Clock, words: &Words) -> Option<Message> {
        let untold = |touches: Option<Instant>, over: Option<OverGround>| touches.is_some() && over.is_some_and(|over| is_level(&over));
        if untold(whole.touches_before, self.rises()) || untold(whole.touches_after, self.sets()) {
            return None;
        }
        let gaps = self.gaps_told(clock, words);
        let (first, last) = (self.rises(), self.sets());
        let (is_bare, has_ends) = (self.shown.is_empty(), !self.begins_up && !self.ends_up);
        let is_told = if has_ends { !is_bare || whole.polar.is_none() } else { gaps.is_some() };
        let shows = match (is_bare, has_ends) {
            (true, _) => "no",
            (false, true) => "between",
            (false, false) => "long",
        };
        is_told.then(|| {
            Message::new("day-over-ground")
                .text("date", clock.day.to_string())
                .text("shows", shows)
                .text("rises", bound(first))
                .with("sunrise", clock.told(first.map(|over| over.at)))
                .text("sets", bound(last))
                .with("sunset", clock.told(last.map(|over| over.at)))
                .text("hidden", yes(gaps.is_some()))
                .text("gaps", gaps.unwrap_or_default())
        })
    }
}

impl Raised {
    pub(super) fn over(
        ground: &Ground,
        at: LatLon,
        air: Air,
        now: Instant,
        (left, (whole, coming)): (&Light, (&Daylight, Option<&Daylight>)),
    ) -> Result<Self, Refusal> {
        let is_known = ground.heights.at_m(at).is_some();
        Ok(Self {
            left: Showings::from_now(ground, at, air, now, left)?.unwrap_or_default(),
            day: Showings::of_day(ground, at, air, whole)?.unwrap_or_default(),
            coming: coming.map(|coming| Showings::of_day(ground, at, air, coming)).transpose()?.flatten(),
            known: Some(is_known),
        })
    }

    pub(super) fn told(
        &self,
        (left, today): (&Light, Clock),
        (whole, clock): (&Daylight, Clock),
        coming: Option<&(Daylight, Clock)>,
        words: &Words,
    ) -> Vec<Message> {
        match self.known {
            None => return Vec::new(),
            Some(false) => return vec![Message::new("light-off-heights")],
            Some(true) => {}
        }
        let left = self.left_told(left, today, words);
        let day = self.day.day_told(whole, clock, words);
        let coming = self.coming.as_ref().zip(coming).and_then(|(over, (whole, clock))| over.day_told(whole, *clock, words));
        let caution = caution_told([Some(&self.left), Some(&self.day), self.coming.as_ref()].into_iter().flatten());
        left.into_iter().chain(day).chain(coming).chain([caution]).collect()
    }

    /// Whether the heights hold the place.
    pub(super) fn holds(&self) -> bool {
        self.known == Some(true)
    }

    /// Whether the sun shows over the ground as the span begins, though it is down on the level.
    pub(super) fn shows_below_level(&self, left: &Light) -> bool {
        left.is_down && self.left.shown.first().is_some_and(|first| first.from.is_none())
    }

    /// Until when the sun shows, and when the ground hides it before that. Where it only touches the horizon, what the level decides is
    /// the matter of the level's own sentence.
    fn left_told(&self, left: &Light, today: Clock, words: &Words) -> Vec<Message> {
        let is_bare = self.left.shown.is_empty();
        if is_bare {
            let stays = if sunset_to_come(left).is_some() { "light-behind-ground" } else { "light-behind-day" };
            return (!left.is_down).then(|| Message::new(stays)).into_iter().collect();
        }
        let gaps = self.left.gaps_told(today, words);
        if self.left.ends_up {
            let stays = left.touches.is_none().then(|| Message::new("light-over-day"));
            return gaps.map(|gaps| Message::new("light-gaps").text("gaps", gaps)).or(stays).into_iter().collect();
        }
        let last = self.left.sets().filter(|over| !(left.touches.is_some() && is_level(over)));
        let until = last.map(|over| with_ground(Message::new("light-over-ground").with("time", today.told(Some(over.at))), &over));
        until.into_iter().chain(gaps.map(|gaps| Message::new("light-gaps-before").text("gaps", gaps))).collect()
    }
}

fn later(time: Instant, hours: i64) -> Instant {
    Instant::from_unix_ms(time.unix_ms() + hours * 3_600_000)
}

/// How widely the times over the ground are known at worst, and what no width holds.
fn caution_told<'a>(all: impl Iterator<Item = &'a Showings>) -> Message {
    let passages = all.flat_map(|one| &one.shown).flat_map(|one| [one.from, one.until]).flatten();
    let half_s = passages.map(|over| over.half_95_s.unwrap_or(LONGEST_S)).reduce(f64::max);
    let sure = half_s.map_or("none", |half_s| yes(half_s < LONGEST_S));
    let half_min = (half_s.unwrap_or_default() / 60.0).ceil().max(1.0);
    Message::new("light-ground-caution").text("sure", sure).with("half", Arg::Number(half_min, 0))
}

/// Whether it is the level, or lower than that, behind which the sun goes.
fn is_level(over: &OverGround) -> bool {
    over.horizon.elevation_deg <= 0.0
}

/// Whether there is such a time, and whether ground beyond the heights could make it another.
fn bound(over: Option<OverGround>) -> &'static str {
    match over {
        None => "no",
        Some(over) if over.is_bound() => "bound",
        Some(_) => "yes",
    }
}

fn with_ground(message: Message, over: &OverGround) -> Message {
    // What is told to a tenth is level below half of that.
    let side = match over.horizon.elevation_deg {
        elevation_deg if elevation_deg >= 0.05 => "above",
        elevation_deg if elevation_deg <= -0.05 => "below",
        _ => "level",
    };
    message
        .text("side", side)
        .with("horizon", Arg::Degrees(over.horizon.elevation_deg.abs(), 1))
        .with("bearing", Arg::Bearing(NamedBearing::True(over.azimuth)))
        .text("bound", yes(over.horizon.is_least()))
        .text("far", yes(over.horizon.ends_near()))
        .text("near", yes(over.horizon.near_m.is_some()))
        .with("step", Arg::Metres(over.horizon.near_m.unwrap_or_default()))
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
    /// No heights reach there, the sun is down, or it does not go behind the ground within a day.
    Untold,
    /// It shows.
    ShowsUntil {
        /// When it next goes behind the ground; at the latest, where ground beyond the heights could hide it.
        until: Instant,
        is_latest: bool,
        /// When it comes out again before it sets.
        again: Option<Instant>,
    },
    /// It is behind the ground already, and comes out again before it sets.
    Behind(Option<Instant>),
}

impl SunAndGround {
    /// At the likeliest place of a trip, from now on.
    pub(in crate::engine) fn of(trip: &Trip, at: LatLon, now: Instant, light: &Light) -> Self {
        let ground = trip.ground.as_ref();
        let air = |ground: &Ground| Air::standard(ground.heights.at_m(at).unwrap_or_default());
        let found = ground.and_then(|ground| Showings::from_now(ground, at, air(ground), now, light).ok().flatten());
        let Some(left) = found else { return Self::Untold };
        let mut shown = left.shown.iter();
        match shown.next() {
            None if light.is_down => Self::Untold,
            None => Self::Behind(None),
            Some(Shown { from: Some(comes), .. }) => Self::Behind(Some(comes.at)),
            Some(Shown { from: None, until: None }) => Self::Untold,
            Some(Shown { from: None, until: Some(goes) }) => Self::ShowsUntil {
                until: goes.at,
                is_latest: goes.is_bound(),
                again: shown.next().and_then(|next| next.from).map(|comes| comes.at),
            },
        }
    }

    /// When it next goes behind the ground, and whether that is the latest.
    pub(in crate::engine) fn until(self) -> Option<(Instant, bool)> {
        match self {
            Self::ShowsUntil { until, is_latest, .. } => Some((until, is_latest)),
            Self::Untold | Self::Behind(_) => None,
        }
    }

    /// When it comes out again before it sets.
    pub(in crate::engine) fn again(self) -> Option<Instant> {
        match self {
            Self::ShowsUntil { again, .. } | Self::Behind(again) => again,
            Self::Untold => None,
        }
    }

    /// In words: "the sun goes behind the ground 14:32 and comes out again 15:44", or that it does "by 14:32".
    pub(in crate::engine) fn told(self, words: &Words) -> Option<String> {
        let goes = match self {
            Self::Untold => return None,
            Self::ShowsUntil { until, is_latest: false, .. } => words.clock("light-behind-at", until),
            Self::ShowsUntil { until, is_latest: true, .. } => words.clock("light-behind-by", until),
            Self::Behind(_) => words.say(&Message::new("light-behind-now")),
        };
        Some(match self.again() {
            Some(again) => words.clock_after("light-comes-again", goes, again),
            None => goes,
        })
    }
}

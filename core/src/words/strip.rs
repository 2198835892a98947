//! Short texts for the strip and the lists of a shell.

use super::{Words, numbers};
use crate::earth::{Instant, Light};
use crate::fix::NextSight;
use crate::ground::Sight;
use crate::homeward::Home;
use crate::measure::{Arg, Message, NamedBearing};

impl Words {
    /// What the cell of how sure is called: over a half-width, with the share that lies within it.
    #[must_use]
    pub fn strip_sure_label(&self, share: Option<f64>) -> String {
        share.map_or_else(|| self.short("strip-sure"), |share| self.say(&Message::new("strip-sure-of").with("share", Arg::Share(share))))
    }

    /// How sure: count of places, half-width and time of the place; nothing without a fix.
    #[must_use]
    pub fn strip_sure(&self, place: Option<(usize, f64, Instant)>, now: Option<Instant>) -> (String, String) {
        let Some((count, half_m, at)) = place else { return (self.short("strip-no-fix"), self.short("strip-take-fix")) };
        let value = if count > 1 {
            self.say(&Message::new("strip-places").with("count", Arg::Count(count as i64)))
        } else {
            self.say(&Message::new("chart-plus-minus").with("spread", Arg::Metres(half_m)))
        };
        (value, self.age(at, now))
    }

    /// Where the readings of a fix speak against each other.
    #[must_use]
    pub fn strip_not_sure(&self) -> (String, String) {
        (self.short("strip-not-sure"), self.short("strip-look-again"))
    }

    /// How old: "now", "4 min old", "2 h old", "age not known".
    fn age(&self, at: Instant, now: Option<Instant>) -> String {
        let Some(now) = now else { return self.short("age-unknown") };
        let minutes = (now.unix_ms() - at.unix_ms()).max(0) / 60_000;
        let message = match minutes {
            0 => Message::new("age-now"),
            1..=119 => Message::new("age-minutes").with("count", Arg::Count(minutes)),
            _ => Message::new("age-hours").with("count", Arg::Count(minutes / 60)),
        };
        self.say(&message)
    }

    /// How old to the second below two minutes: "12 s old".
    #[must_use]
    pub fn age_to_the_second(&self, age_s: f64) -> String {
        let seconds = age_s.max(0.0).round() as i64;
        if seconds >= 120 {
            return self.age(Instant::from_unix_ms(0), Some(Instant::from_unix_ms(seconds * 1000)));
        }
        self.say(&Message::new("age-seconds").with("count", Arg::Count(seconds)))
    }

    /// How far home: nothing kept, at the car, or the distance. Led back to the car by its legs the walker may stand off it by their
    /// spread, of which the greater half-axis at 95 % comes with the way home.
    #[must_use]
    pub fn strip_home(&self, home: Option<(Option<Home>, f64)>) -> (String, String) {
        let spread = |half_m: f64| self.say(&Message::new("chart-plus-minus").with("spread", Arg::Metres(half_m)));
        match home {
            None => (self.short("strip-home-unset"), self.short("strip-home-mark")),
            Some((None, walked_95_m)) if walked_95_m > 0.0 => (self.metres(0.0), spread(walked_95_m)),
            Some((None, _)) => (self.metres(0.0), self.short("strip-home-at-car")),
            Some((Some(home), _)) => (self.metres(home.distance_m), spread(home.distance_95_m)),
        }
    }

    /// The light while no place is known.
    #[must_use]
    pub fn strip_no_light(&self) -> (String, String) {
        (self.short("strip-light-none"), self.short("strip-light-none-note"))
    }

    /// How much light: from now to dark, when that is, and until when the sun shows over the ground, at the latest
    /// where heights end near, and from when on again; in the dark, when it grows light.
    #[must_use]
    pub fn strip_light(
        &self,
        now: Instant,
        light: &Light,
        (shows_until, again): (Option<(Instant, bool)>, Option<Instant>),
        is_behind_ground: bool,
    ) -> (String, String) {
        if light.is_dark {
            let note = light.dawn.map_or_else(|| self.short("strip-light-all-day"), |dawn| self.clock("strip-light-from", dawn));
            return (self.short("strip-light-dark"), note);
        }
        let Some(dark) = light.dark else { return (self.short("strip-light-all-day"), self.short("strip-light-no-dark")) };
        let minutes = (dark.unix_ms() - now.unix_ms()).max(0) / 60_000;
        let left = Message::new("strip-light").with("hours", Arg::Count(minutes / 60)).with("minutes", Arg::Count(minutes % 60));
        let note = self.clock("strip-dark", dark);
        let with_sun = |message: Message| {
            let clock = again.map_or_else(String::new, |again| numbers::clock(again.unix_ms(), self.utc_offset_min));
            self.say(&message.text("comes", if again.is_some() { "yes" } else { "no" }).text("again", clock).text("dark", note.clone()))
        };
        let note = match shows_until {
            Some((until, is_latest)) => {
                let until = Message::new("strip-sun-until").text("clock", numbers::clock(until.unix_ms(), self.utc_offset_min));
                with_sun(until.text("latest", if is_latest { "yes" } else { "no" }))
            }
            None if is_behind_ground => with_sun(Message::new("strip-sun-behind")),
            None => note,
        };
        (self.say(&left), note)
    }

    /// A sentence with a time of day by the walker's clock.
    #[must_use]
    pub fn clock(&self, id: &'static str, at: Instant) -> String {
        self.say(&Message::new(id).text("clock", numbers::clock(at.unix_ms(), self.utc_offset_min)))
    }

    /// A sentence with a time of day behind what is told before it.
    #[must_use]
    pub fn clock_after(&self, id: &'static str, told: String, at: Instant) -> String {
        self.say(&Message::new(id).text("told", told).text("clock", numbers::clock(at.unix_ms(), self.utc_offset_min)))
    }

    /// A landmark that was read.
    #[must_use]
    pub fn sight_read(&self, reading: NamedBearing) -> String {
        self.say(&Message::new("sight-read").with("reading", Arg::Bearing(reading)))
    }

    /// A landmark in a list of those that may be sighted.
    #[must_use]
    pub fn sight_listed(&self, landmark: &str, told: &str) -> String {
        self.say(&Message::new("sight-listed").text("landmark", landmark).text("told", told))
    }

    /// A landmark that may be sighted.
    #[must_use]
    pub fn sight_expected(&self, bearing: NamedBearing, distance_m: f64, sight: Option<&Sight>) -> String {
        let message = Message::new("sight-expected").text("bearing", self.whole_bearing(bearing));
        let expected = self.say(&message.with("distance", Arg::Metres(distance_m)));
        match sight {
            Some(sight) => self.say(&Message::new("sight-expected-seen").text("expected", expected).text("sight", self.sight(sight))),
            None => expected,
        }
    }

    /// What sighting a landmark next would give.
    #[must_use]
    pub fn next_sight(&self, next: &NextSight) -> String {
        let id = if next.settles { "next-settles" } else { "next-narrows" };
        self.say(&Message::new(id).with("left", Arg::Metres(next.leaves_m)).with("now", Arg::Metres(next.now_m)))
    }

    fn short(&self, id: &'static str) -> String {
        self.say(&Message::new(id))
    }
}

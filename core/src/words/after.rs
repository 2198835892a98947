//! What a trip comes to, in sentences.

use super::{Words, numbers};
use crate::earth::Instant;
use crate::homeward::{Closing, WayBack};
use crate::measure::{Arg, Message, PLANE_95};

/// A closing error below this is none to anyone who counts paces, metres; one of more than half the legs is no closure.
const LEAST_OFF_M: f64 = 0.5;
/// See [`LEAST_OFF_M`].
const LEAST_ONE_IN: f64 = 2.0;

impl Words {
    /// What was logged: how many legs, how far, when.
    #[must_use]
    pub fn logged(&self, legs: usize, legs_m: f64, walked_m: f64, (kept, last): (Instant, Instant)) -> String {
        let clock = |at: Instant| numbers::clock(at.unix_ms(), self.utc_offset_min);
        let message = Message::new("after-logged")
            .with("legs", Arg::Count(legs as i64))
            .with("total", Arg::Metres(legs_m))
            .with("walk", Arg::Metres(walked_m))
            .text("longer", if walked_m - legs_m > 0.5 { "yes" } else { "no" })
            .text("from", clock(kept))
            .text("to", clock(last));
        self.say(&message)
    }

    /// How the legs close, if one is back at the car.
    #[must_use]
    pub fn closing(&self, closing: &Closing, car: &str) -> String {
        let ratio = closing
            .one_in
            .filter(|one_in| closing.off_m >= LEAST_OFF_M && *one_in >= LEAST_ONE_IN)
            .map_or(0, |one_in| one_in.round() as i64);
        let message = Message::new("after-closing")
            .text("car", car)
            .with("off", Arg::Metres(closing.off_m))
            .with("total", Arg::Metres(closing.legs_m))
            .with("ratio", Arg::Count(ratio))
            .with("expected", Arg::Metres(closing.expected_95_m))
            .text("verdict", closing.verdict.word());
        self.say(&message)
    }

    /// How far the log was followed back, and how well it leads.
    #[must_use]
    pub fn followed(&self, way: &WayBack, walked: usize, car: &str) -> String {
        let message = if walked < way.legs.len() {
            Message::new("after-turned").with("walked", Arg::Count(walked as i64)).with("legs", Arg::Count(way.legs.len() as i64))
        } else {
            Message::new("after-followed").text("car", car).with("miss", Arg::Metres(PLANE_95 * way.miss.ellipse().major_m))
        };
        self.say(&message)
    }
}

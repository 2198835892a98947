//! Known readings that stand out of the others: what the rest says without them.

use super::attraction::Surveyed;
use super::shared::Compared;
use super::stations::Numbered;
use super::{CompassReadings, ReadingSpread, SharedError};
use crate::measure::{Arg, Message, Telling, signed_difference_deg, wild_of};

/// Known readings that stand out of the others, which agree.
#[derive(Debug, Clone, PartialEq)]
pub struct WildReadings {
    /// Their numbers, from 0, the one that is off by most first.
    pub numbers: Vec<usize>,
    /// By how much that one is off the error without them, degrees.
    pub off_deg: f64,
    /// The shared error without them.
    pub without: SharedError,
    /// How far a single reading is off without them.
    pub reading: ReadingSpread,
}

/// Where all known readings were taken at one station, or at none that is named: at several, iron at one of them is weighed instead.
pub(super) fn of(readings: &CompassReadings, numbered: &Numbered) -> Option<WildReadings> {
    let first = numbered.known.first()?.station;
    if numbered.known.iter().any(|known| known.station != first) {
        return None;
    }
    let offs: Vec<f64> = numbered.known.iter().map(|known| known.off_deg).collect();
    let least_deg = numbered.known.iter().map(|known| known.all_spread_deg()).fold(0.0, f64::max).hypot(readings.reading_spread_deg);
    let places = wild_of(&offs, least_deg);
    let numbers: Vec<usize> = places.iter().filter_map(|place| numbered.known.get(*place)).map(|known| known.number).collect();
    let most = numbered.known.get(*places.first()?)?;
    let is_kept = |index: usize| !numbers.contains(&index) && !numbered.reversed.contains(&index);
    let kept = readings.known.iter().enumerate().filter(|(index, _)| is_kept(*index)).map(|(_, known)| known.clone());
    let rest = CompassReadings { known: kept.collect(), ..readings.clone() };
    let of_rest = Numbered::of(&rest);
    let surveyed = Surveyed::of(&of_rest, rest.reading_spread_deg);
    let compared = Compared::with(&rest, &of_rest, &surveyed);
    let without = compared.shared()?;
    Some(WildReadings { off_deg: signed_difference_deg(most.off_deg, without.error_deg), without, reading: compared.reading(), numbers })
}

impl WildReadings {
    fn told(&self, id: &'static str) -> Message {
        let numbers: Vec<String> = self.numbers.iter().map(|number| (number + 1).to_string()).collect();
        Message::new(id)
            .text("which", numbers.join(", "))
            .with("wild", Arg::Count(self.numbers.len() as i64))
            .with("off", Arg::Turn(self.off_deg.abs(), 0))
            .with("error", Arg::Turn(self.without.error_deg.abs(), 1))
            .text("side", if self.without.error_deg < 0.0 { "low" } else { "high" })
            .with("spread", Arg::Turn(self.without.half_width_95_deg, 1))
    }

    /// Why an error that rests on them is not kept.
    #[must_use]
    pub fn not_kept(&self) -> Message {
        self.told("compass-wild-not-kept")
    }
}

impl Telling for WildReadings {
    fn message(&self) -> Message {
        self.told("compass-wild")
    }
}

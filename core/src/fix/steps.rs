//! How finely a line is looked at.

use crate::sheet::Line;

/// Most entries of an odds table.
const MOST_STEPS: f64 = 40_000.0;
/// Widest step at which compass readings are weighed, metres: bends of the line are not passed over.
const WIDEST_M: f64 = 16.0;
/// Places to a spread at which a density is told: it is then within 0.4 % of the peak between them.
const TO_A_SPREAD: f64 = 8.0;
/// Places to a spread at which compass readings are weighed first, to find where anything matters: a cubic through the logarithms of
/// normal densities is exact.
const FIRST_TO_A_SPREAD: f64 = 1.25;
/// The same where it matters: there the cubic is as near as the table.
const WEIGHED_TO_A_SPREAD: f64 = 3.0;

/// How finely a line is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Steps {
    /// Between the places that are told, metres.
    pub(super) told_m: f64,
    /// Between the places where compass readings are weighed, metres: at the most.
    widest_m: f64,
    /// The same as a share of the sharpest spread that the readings leave there together.
    share: f64,
}

impl Steps {
    /// Places every metre, nearer where a crossing is sharper, farther only on lines beyond 40 km. Compass readings are weighed
    /// first at four fifths of the sharpest spread that all of them together can leave at a place.
    pub(super) fn of(line: &Line, sharpest_m: f64) -> Self {
        let told_m = (sharpest_m / TO_A_SPREAD).min(1.0).max(line.length_m() / MOST_STEPS);
        Self { told_m, widest_m: WIDEST_M.max(told_m), share: 1.0 / FIRST_TO_A_SPREAD }
    }

    /// So coarse that a line has about so many places.
    pub(super) fn coarse(line: &Line, most: f64) -> Self {
        let told_m = (line.length_m() / most).max(1.0);
        Self { told_m, widest_m: told_m, share: 0.0 }
    }

    /// Steps for what is left when everything is weighed together: an eighth of its spread, as far as a line has room for.
    pub(super) fn finer(self, line: &Line, spread_m: f64) -> Self {
        let told_m = self.told_m.min((spread_m / TO_A_SPREAD).max(line.length_m() / MOST_STEPS));
        Self { told_m, widest_m: self.widest_m.min((spread_m / WEIGHED_TO_A_SPREAD).max(told_m)), ..self }
    }

    /// The number of equal steps that are told, and their length, metres.
    pub(super) fn told(self, line: &Line) -> (usize, f64) {
        let count = (line.length_m() / self.told_m).ceil().max(1.0);
        (count as usize, line.length_m() / count)
    }

    /// The step to the next place where compass readings are weighed, metres, where they leave so wide a spread together and nothing
    /// comes into their reach before so far.
    pub(super) fn weighed_m(self, spread_m: f64, far_m: f64) -> f64 {
        (spread_m * self.share).min(far_m).clamp(self.told_m, self.widest_m.max(self.told_m))
    }

    /// Whether readings are weighed in the middles of the steps that are told, and nowhere else.
    pub(super) fn is_even(self) -> bool {
        self.share <= 0.0
    }

    /// The widest of those steps.
    pub(super) fn widest_m(self) -> f64 {
        self.widest_m
    }
}

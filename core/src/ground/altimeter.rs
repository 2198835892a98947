//! What an altimeter that weighs the air says of the height of the ground.

use super::{HeightSpread, HeightUnit};
use crate::measure::normal_density;

/// Share of readings that are plainly wrong (common practice, no source) ...
const WRONG: f64 = 0.02;
/// ... spread evenly over so many metres.
const WIDE_M: f64 = 1_000.0;
/// One sigma of a difference of heights by the air's warmth, as a share of it: 4 % for 10 °C off the standard atmosphere
/// (ICAO Doc 8168, from memory), and 7 °C off as one sigma (common practice, no source).
const WARMTH_SHARE: f64 = 0.03;

/// What is set nearer to the ground than this is set to it, metres.
const SET_M: f64 = 1e-6;

/// A reading of an altimeter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AltimeterReading {
    /// What it reads, metres above the sea.
    pub read_m: f64,
    /// One sigma of that, metres, its drift since it was set counted in.
    pub spread_m: f64,
    /// How it was set.
    pub set: AltimeterSet,
}

/// How an altimeter was set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AltimeterSet {
    /// Nobody knows.
    Unknown,
    /// To this height, at a place whose ground the heights do not tell.
    To(f64),
    /// At a place of the heights.
    At {
        /// The height there, metres.
        ground_m: f64,
        /// What it was set to there, metres.
        to_m: f64,
    },
}

impl AltimeterReading {
    /// How likely the reading is on ground so high, per metre; `apart_m` lies between here and where it was set.
    ///
    /// # Units
    /// Metres; spreads one sigma.
    ///
    /// # Accuracy
    /// Normal, with the height's own error in it: set at a place of the heights, only the error of the difference counts.
    /// 2 % of readings are plainly wrong.
    #[must_use]
    pub fn likelihood(&self, ground_m: f64, apart_m: f64, heights: HeightSpread) -> f64 {
        let (off_m, spread_m) = self.off_m(ground_m, apart_m, heights);
        (1.0 - WRONG) * normal_density(off_m, spread_m) + WRONG / WIDE_M
    }

    /// What was read minus what is expected there, and one sigma of that, metres.
    #[must_use]
    pub fn off_m(&self, ground_m: f64, apart_m: f64, heights: HeightSpread) -> (f64, f64) {
        let (expected_m, climbed_m, own_m) = match self.set {
            AltimeterSet::Unknown => (ground_m, 0.0, heights.sigma_m),
            AltimeterSet::To(to_m) => (ground_m, ground_m - to_m, heights.sigma_m),
            AltimeterSet::At { ground_m: there_m, to_m } => {
                let climbed_m = ground_m - there_m;
                (to_m + climbed_m, climbed_m, heights.of_difference_m(apart_m))
            }
        };
        (self.read_m - expected_m, self.spread_m.hypot(own_m).hypot(WARMTH_SHARE * climbed_m))
    }

    /// The same if its figures were feet, those of its setting among them; its spread stays as it was told.
    #[must_use]
    pub fn in_feet(&self) -> Self {
        let metres = |feet: f64| feet * HeightUnit::Feet.metres();
        let set = match self.set {
            AltimeterSet::Unknown => AltimeterSet::Unknown,
            AltimeterSet::To(to_m) => AltimeterSet::To(metres(to_m)),
            // Set to the ground itself, nobody told a figure for it.
            AltimeterSet::At { ground_m, to_m } if (to_m - ground_m).abs() < SET_M => AltimeterSet::At { ground_m, to_m },
            AltimeterSet::At { ground_m, to_m } => AltimeterSet::At { ground_m, to_m: metres(to_m) },
        };
        Self { read_m: metres(self.read_m), set, ..*self }
    }

    /// What that nowhere exceeds.
    #[must_use]
    pub fn most(&self) -> f64 {
        (1.0 - WRONG) * normal_density(0.0, self.spread_m) + WRONG / WIDE_M
    }
}

#[cfg(test)]
mod tests {
    use super::{AltimeterReading, AltimeterSet};
    use crate::ground::HeightSpread;

    /// `scipy.stats.norm.pdf`, `SciPy` 1.17.1: 0.98 of it at 30 m of 50 m, and 0.02 over a kilometre.
    #[test]
    fn a_reading_is_as_likely_as_its_spreads_say() {
        let heights = HeightSpread { sigma_m: 40.0, correlation_m: 300.0 };
        let unset = AltimeterReading { read_m: 530.0, spread_m: 30.0, set: AltimeterSet::Unknown };
        assert!((unset.likelihood(500.0, 0.0, heights) - (0.98 * 0.006_664_492_057_835_993 + 2e-5)).abs() < 1e-15);
        let set = AltimeterReading { set: AltimeterSet::At { ground_m: 480.0, to_m: 470.0 }, ..unset };
        let here = set.likelihood(520.0, 0.0, heights);
        let expected = 0.98 * libm::exp(-200.0 / (900.0 + 1.44)) / (std::f64::consts::TAU * 901.44).sqrt() + 2e-5;
        assert!((here - expected).abs() < 1e-15, "expected to read 510 there: the error of the height falls out, {here}");
        assert!(set.likelihood(520.0, 5_000.0, heights) < here && here < set.most());
    }

    /// The international foot of 1959: 1640 ft are 499.872 m, 1575 ft 480.06 m.
    #[test]
    fn figures_in_feet_are_those_of_the_reading_and_of_a_setting_that_was_told() {
        let unset = AltimeterReading { read_m: 1_640.0, spread_m: 10.0, set: AltimeterSet::Unknown };
        assert!((unset.in_feet().read_m - 499.872).abs() < 1e-9);
        let set = |to_m: f64| AltimeterReading { set: AltimeterSet::At { ground_m: 480.0, to_m }, ..unset };
        let heights = HeightSpread { sigma_m: 5.0, correlation_m: 300.0 };
        let off_m = |reading: AltimeterReading| reading.in_feet().off_m(500.0, 1_000.0, heights).0;
        assert!((off_m(set(1_575.0)) - (499.872 - 500.06)).abs() < 1e-9 && (off_m(set(480.0)) - (499.872 - 500.0)).abs() < 1e-9);
    }
}

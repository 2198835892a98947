//! Whether the ground rises or falls towards a bearing.

use crate::measure::{TrueBearing, normal_density, normal_share};

/// What a walker says of the ground towards a bearing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trend {
    /// It goes up.
    Rises,
    /// Neither up nor down.
    Level,
    /// It goes down.
    Falls,
}

/// Slope that a walker still calls level, degrees (common practice, no source).
const LEVEL_DEG: f64 = 2.0;

/// One sigma of a walker's eye for where level ends, degrees (common practice, no source).
const EYE_DEG: f64 = 1.0;

/// Share of plainly wrong words about the ground, spread evenly over the three.
const WRONG: f64 = 0.02;

/// The ground between two places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rise {
    /// The way.
    pub bearing: TrueBearing,
    /// Its length on the flat, metres.
    pub distance_m: f64,
    /// The far end above the near one, metres.
    pub rise_m: f64,
    /// One sigma of the rise, metres, from the spread of the heights.
    pub spread_m: f64,
}

impl Trend {
    /// The word by which sentences select it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Rises => "rises",
            Self::Level => "level",
            Self::Falls => "falls",
        }
    }

    /// The trend of this name: rises, level or falls.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        match name.trim().to_lowercase().as_str() {
            "rises" => Some(Self::Rises),
            "level" => Some(Self::Level),
            "falls" => Some(Self::Falls),
            _ => None,
        }
    }
}

impl Rise {
    /// The distance over which a walker judges the ground, metres (common practice, no source).
    pub const USUAL_M: f64 = 100.0;

    pub(super) fn new(bearing: TrueBearing, distance_m: f64, rise_m: f64, spread_m: f64) -> Self {
        Self { bearing, distance_m, rise_m, spread_m }
    }

    /// The slope between the two ends, degrees, up positive.
    #[must_use]
    pub fn slope_deg(&self) -> f64 {
        self.rise_m.atan2(self.distance_m).to_degrees()
    }

    /// One sigma of that, degrees, from the spread of the heights.
    #[must_use]
    pub fn slope_spread_deg(&self) -> f64 {
        let run2 = self.distance_m * self.distance_m;
        (self.spread_m * self.distance_m / (run2 + self.rise_m * self.rise_m)).to_degrees()
    }

    /// The chance that a walker with a sound eye says so, 0 to 1; the three add up to 1.
    ///
    /// # Accuracy
    /// The heights' errors are normal and correlated over the distance; up to 2° count as level, with one sigma of 1°.
    #[must_use]
    pub fn chance_of(&self, trend: Trend) -> f64 {
        let band_m = self.distance_m * LEVEL_DEG.to_radians().tan();
        let spread_m = self.spread_m.hypot(self.distance_m * EYE_DEG.to_radians().tan());
        let (falls, rises) = (normal_share((-band_m - self.rise_m) / spread_m), normal_share((self.rise_m - band_m) / spread_m));
        match trend {
            Trend::Rises => rises,
            Trend::Falls => falls,
            Trend::Level => (1.0 - rises - falls).max(0.0),
        }
    }

    /// The word that fits best.
    #[must_use]
    pub fn likeliest(&self) -> Trend {
        let all = [Trend::Level, Trend::Rises, Trend::Falls];
        all.into_iter().max_by(|a, b| self.chance_of(*a).total_cmp(&self.chance_of(*b))).unwrap_or(Trend::Level)
    }
}

/// How well a walker's word fits the ground: the natural logarithm of its chance, 2 % of words being plainly wrong.
///
/// Where the ground is not known every word is equally likely.
#[must_use]
pub fn rise_log_likelihood(rise: Option<&Rise>, said: Trend) -> f64 {
    let chance = rise.map_or(1.0 / 3.0, |rise| rise.chance_of(said));
    (WRONG / 3.0 + (1.0 - WRONG) * chance).ln()
}

/// How well a slope that a walker has measured fits the ground: the natural logarithm of its density per degree.
///
/// # Units
/// Degrees, up positive; `spread_deg` is one sigma of the measurement.
///
/// # Accuracy
/// Normal with the heights' own error of first order; 2 % of slopes are plainly wrong, evenly between straight down and straight
/// up, as is ground that is not known.
#[must_use]
pub fn steepness_log_likelihood(rise: Option<&Rise>, slope_deg: f64, spread_deg: f64) -> f64 {
    let even = 1.0 / 180.0;
    let fits = rise.map_or(even, |rise| normal_density(slope_deg - rise.slope_deg(), spread_deg.hypot(rise.slope_spread_deg())));
    (WRONG * even + (1.0 - WRONG) * fits).ln()
}

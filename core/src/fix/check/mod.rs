//! An independent place held against a fix. It is a witness, not mixed in.

mod misplaced;
mod slip;
mod there;
mod typed;
mod weigh;

pub use misplaced::{Misplaced, misplaced};
pub use slip::{WitnessSlip, WitnessSlipKind};
pub use there::There;
pub(in crate::fix) use weigh::normal_plane;
pub use weigh::{SlipOfFix, Standing, Told, WitnessSlips, witness_slips};

use super::Fix;
use crate::measure::{Covariance, LINE_95, Point};

/// How an independent place agrees with a fix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// Which stretch of the fix it was held against, from 0: the one it fits best.
    pub stretch: usize,
    /// Metres from the fix to the place.
    pub distance_m: f64,
    /// Bearing of the plane from the fix to the place, degrees.
    pub plane_deg: f64,
    /// Chi-square with two degrees of freedom, both spreads in it.
    pub chi_square: f64,
    /// Chance that two such places lie so far apart or farther by their spreads alone: `exp(-chi²/2)`.
    pub chance: f64,
}

/// Chances below this do not fit.
const MISFIT_CHANCE: f64 = 0.01;
/// Chances below this are doubtful.
const DOUBTFUL_CHANCE: f64 = 0.05;
/// The same in sigmas of one number.
const MISFIT_SIGMAS: f64 = 2.576;
/// See [`MISFIT_SIGMAS`].
const DOUBTFUL_SIGMAS: f64 = LINE_95;

/// The verdict of a [`Check`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// They agree within their spreads.
    Fits,
    /// One time in twenty or less by chance: look again.
    Doubtful,
    /// One time in a hundred or less by chance: one of the two is wrong.
    Misfit,
}

impl Verdict {
    /// What so many sigmas off say: by chance it is more than two one time in twenty, more than 2.6 one in a hundred.
    #[must_use]
    pub fn of_sigmas(sigmas: f64) -> Self {
        if sigmas > MISFIT_SIGMAS {
            Self::Misfit
        } else if sigmas > DOUBTFUL_SIGMAS {
            Self::Doubtful
        } else {
            Self::Fits
        }
    }

    /// The word for it in records: fits, doubtful or misfit.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::Doubtful => "doubtful",
            Self::Misfit => "misfit",
        }
    }
}

impl Check {
    /// Holds a place of the plane with one sigma per axis against where one is thought to stand.
    ///
    /// # References
    /// The chi-square of two degrees of freedom has the upper tail `exp(-x/2)` (Abramowitz and Stegun 1964, 26.4.4).
    #[must_use]
    pub fn of(stretch: usize, (at, covariance): (Point, Covariance), place: Point, spread_m: f64) -> Option<Self> {
        let own = Covariance { east2: spread_m * spread_m, east_north: 0.0, north2: spread_m * spread_m };
        let step = place.minus(at);
        let chi_square = covariance.plus(own).chi_square(step)?;
        let chance = (-chi_square / 2.0).exp();
        Some(Self { stretch, distance_m: step.length_m(), plane_deg: step.bearing_deg(), chi_square, chance })
    }

    /// What the chance says.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        if self.chance < MISFIT_CHANCE {
            Verdict::Misfit
        } else if self.chance < DOUBTFUL_CHANCE {
            Verdict::Doubtful
        } else {
            Verdict::Fits
        }
    }
}

impl Fix {
    /// Its places as an independent one is held against them.
    #[must_use]
    pub fn standings(&self) -> Vec<Standing> {
        self.stretches.iter().map(|one| Standing { at: one.best.at, covariance: one.covariance, share: one.share }).collect()
    }

    /// Holds a place of the plane with one sigma per axis against the fix.
    #[must_use]
    pub fn check(&self, place: Point, spread_m: f64) -> Option<Check> {
        let standings = self.stretches.iter().map(|one| (one.best.at, one.covariance)).enumerate();
        let held = standings.filter_map(|(stretch, standing)| Check::of(stretch, standing, place, spread_m));
        held.min_by(|a, b| a.chi_square.total_cmp(&b.chi_square))
    }
}

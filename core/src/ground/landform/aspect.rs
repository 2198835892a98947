//! Which way the slope underfoot falls, and how surely.

use std::f64::consts::{PI, TAU};

use crate::ground::HeightSpread;
use crate::measure::{TrueBearing, normal_density, normal_share, signed_difference_deg};

/// Share of plainly wrong readings, spread evenly on the circle.
const WRONG: f64 = 0.02;

/// Parts of the circle over which the spread of an aspect is summed.
const PARTS: u32 = 360;

/// The plane that fits eight heights on a circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Gradient {
    /// Rise per metre to the east.
    east: f64,
    /// Rise per metre to the north.
    north: f64,
    /// One sigma of either.
    spread: f64,
}

impl Gradient {
    /// By least squares; heights go round clockwise from north.
    pub(super) fn through(heights_m: &[f64; 8], radius_m: f64, spread: HeightSpread) -> Self {
        let sum = |weight: fn(f64) -> f64| -> f64 {
            (0_u8..).zip(heights_m).map(|(eighth, height_m)| weight(f64::from(eighth) * PI / 4.0) * height_m).sum()
        };
        let share = 2.0 / (8.0 * radius_m);
        Self { east: share * sum(f64::sin), north: share * sum(f64::cos), spread: share * of_weighted_sum_m(radius_m, spread) }
    }

    /// The slope and where it falls towards.
    pub(super) fn aspect(&self) -> Aspect {
        let steepness = self.east.hypot(self.north);
        Aspect {
            falls_towards: TrueBearing::new((-self.east).atan2(-self.north).to_degrees()),
            slope_deg: steepness.atan().to_degrees(),
            steepness_in_spreads: if self.spread > 0.0 { steepness / self.spread } else { f64::INFINITY },
        }
    }
}

/// One sigma of the sum of eight heights on a circle, each weighted with the sine of its bearing, errors correlated, metres.
fn of_weighted_sum_m(radius_m: f64, spread: HeightSpread) -> f64 {
    // The covariance depends on how far apart two of the eight are alone: the weights' products sum to 4 cos of that angle.
    let by_steps = (0_u8..8).map(|steps| f64::from(steps) * PI / 4.0);
    let variance: f64 = by_steps.map(|angle| 4.0 * angle.cos() * spread.shared(2.0 * radius_m * (angle / 2.0).sin())).sum();
    spread.sigma_m * variance.max(0.0).sqrt()
}

/// The slope underfoot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aspect {
    /// The true bearing that the ground falls towards.
    pub falls_towards: TrueBearing,
    /// Its slope, degrees.
    pub slope_deg: f64,
    /// The steepness against one sigma of either of its components; the aspect of a slope below 1 means nothing.
    pub steepness_in_spreads: f64,
}

impl Aspect {
    /// Density of the true aspect at an angle from this one, per radian.
    ///
    /// # References
    /// The projected normal distribution: K. V. Mardia and P. E. Jupp (2000), Directional Statistics, 3.5.6 (from memory).
    fn density(&self, off_rad: f64, kappa: f64) -> f64 {
        let (along, across) = (kappa * off_rad.cos(), kappa * off_rad.sin());
        // exp(-k²/2)/2π · (1 + a·Φ(a)/φ(a)) without an overflow where a is great.
        let level = (-kappa * kappa / 2.0).exp() / TAU;
        level + along * normal_share(along) * normal_density(across, 1.0)
    }

    /// The steepness in spreads with a walker's own spread of the aspect counted in.
    fn kappa(&self, walker_deg: f64) -> f64 {
        let both = self.steepness_in_spreads.recip().hypot(walker_deg.to_radians());
        both.max(1e-4).recip()
    }

    /// One sigma of the aspect from the spread of the heights, degrees; 104° when nothing is known.
    ///
    /// # Accuracy
    /// The root mean square over the circle, summed in steps of 1°: within 0.5°.
    #[must_use]
    pub fn spread_deg(&self) -> f64 {
        let kappa = self.kappa(0.0);
        if kappa > 100.0 {
            return kappa.recip().to_degrees();
        }
        let step_rad = TAU / f64::from(PARTS);
        let part = |part: u32| -PI + step_rad * (f64::from(part) + 0.5);
        let square: f64 = (0..PARTS).map(part).map(|off_rad| off_rad * off_rad * self.density(off_rad, kappa) * step_rad).sum();
        square.sqrt().to_degrees()
    }
}

/// How well an aspect that a walker has read fits the ground: the natural logarithm of its density against an even one on the circle.
///
/// `spread_deg` is one sigma of the reading. 2 % of readings are plainly wrong; ground that is not known says nothing (0).
#[must_use]
pub fn aspect_log_likelihood(ground: Option<&Aspect>, read: TrueBearing, spread_deg: f64) -> f64 {
    let against_even = ground.map_or(1.0, |ground| {
        let off_deg = signed_difference_deg(read.degrees(), ground.falls_towards.degrees());
        TAU * ground.density(off_deg.to_radians(), ground.kappa(spread_deg))
    });
    (WRONG + (1.0 - WRONG) * against_even.max(0.0)).ln()
}

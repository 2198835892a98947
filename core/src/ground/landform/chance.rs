//! How far height differences may be wrong, and chances that follow from it.

use crate::ground::HeightSpread;

impl HeightSpread {
    /// One sigma of the difference of two heights so far apart, metres.
    ///
    /// The errors of two heights `d` apart share `exp(-d / correlation)` of their variance.
    #[must_use]
    pub fn of_difference_m(&self, apart_m: f64) -> f64 {
        self.sigma_m * (2.0 * (1.0 - self.shared(apart_m))).sqrt()
    }

    /// The share of their variance that the errors of two heights have in common, 0 to 1.
    #[must_use]
    pub fn shared(&self, apart_m: f64) -> f64 {
        if self.correlation_m > 0.0 { (-apart_m / self.correlation_m).exp() } else { f64::from(u8::from(apart_m <= 0.0)) }
    }

    /// How far to trust a relief between heights so far apart: a half when it is twice its spread, none without relief.
    ///
    /// Twice, because the highest and the lowest of many posts are picked, and picking favours errors (our own choice, no source).
    pub(super) fn strength(&self, relief_m: f64, apart_m: f64) -> f64 {
        let doubt_m = 2.0 * self.of_difference_m(apart_m);
        let square = relief_m * relief_m;
        if relief_m > 0.0 { square / (square + doubt_m * doubt_m) } else { 0.0 }
    }
}

/// The chance that a standard normal error stays below `z`.
///
/// # Accuracy
/// Within 1.5e-7.
///
/// # References
/// Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 7.1.26 (coefficients from memory; a test holds them to a table).
pub(super) fn chance_below(z: f64) -> f64 {
    let x = z.abs() / std::f64::consts::SQRT_2;
    let t = 1.0 / (1.0 + 0.327_591_1 * x);
    let series = t * (0.254_829_592 + t * (-0.284_496_736 + t * (1.421_413_741 + t * (-1.453_152_027 + t * 1.061_405_429))));
    let outside = series * (-x * x).exp() / 2.0;
    if z < 0.0 { outside } else { 1.0 - outside }
}

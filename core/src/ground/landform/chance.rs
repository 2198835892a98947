//! How far height differences may be wrong, and chances that follow from it.

use crate::ground::HeightSpread;

/// Spreads of a relief at which it is trusted by a half.
const PICKED: f64 = 2.5;

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

    /// How far to trust a relief between heights so far apart: a half when it is two and a half times its spread, none without relief.
    ///
    /// That much, because the highest and the lowest of many posts are picked, and picking favours errors: errors of half the spread then
    /// make nothing that is told without a doubt (our own choice; `tests/shapes.rs` holds it against drawn errors).
    pub(super) fn strength(&self, relief_m: f64, apart_m: f64) -> f64 {
        let doubt_m = PICKED * self.of_difference_m(apart_m);
        let square = relief_m * relief_m;
        if relief_m > 0.0 { square / (square + doubt_m * doubt_m) } else { 0.0 }
    }
}

//! The normal distribution and its inverse, fast enough for many thousand calls.

use std::sync::LazyLock;

use crate::measure::normal_share;

/// Steps of the table of [`quick`] to one sigma, and how many sigmas it reaches to each side.
const STEPS: f64 = 256.0;
const REACH: f64 = 8.0;

static TABLE: LazyLock<Vec<f64>> =
    LazyLock::new(|| (0..=(2.0 * REACH * STEPS) as usize).map(|i| normal_share(i as f64 / STEPS - REACH)).collect());

/// [`normal_share`] from a table, linear between its rows.
///
/// # Accuracy
/// 5e-7: an eighth of the square of a step times the greatest bend of the distribution.
pub(super) fn quick(z: f64) -> f64 {
    let place = (z.clamp(-REACH, REACH) + REACH) * STEPS;
    let row = place as usize;
    match TABLE.get(row..row + 2) {
        Some([low, high]) => low + (high - low) * (place - row as f64),
        _ => f64::from(u8::from(z > 0.0)),
    }
}

/// A polynomial from its constant upwards.
fn poly(x: f64, terms: &[f64]) -> f64 {
    terms.iter().rev().fold(0.0, |sum, term| sum * x + term)
}

/// The `z` with a given share of a standard normal distribution below it.
///
/// # Accuracy
/// About seven figures; shares are held between 1e-300 and the double next below 1.
///
/// # References
/// M. J. Wichura (1988), Algorithm AS 241, Applied Statistics 37, 477-484: the function `PPND7`. Constants from memory,
/// held by a test to Python's `statistics.NormalDist`.
pub(super) fn at_share(share: f64) -> f64 {
    let share = share.clamp(1e-300, 1.0 - f64::EPSILON / 2.0);
    let middle = share - 0.5;
    if middle.abs() <= 0.425 {
        let r = 0.180_625 - middle * middle;
        let above = poly(r, &[3.387_132_717_9, 50.434_271_938, 159.291_132_02, 59.109_374_72]);
        return middle * above / poly(r, &[1.0, 17.895_169_469, 78.757_757_664, 67.187_563_6]);
    }
    let r = (-share.min(1.0 - share).ln()).sqrt();
    let z = if r <= 5.0 { near_tail(r - 1.6) } else { far_tail(r - 5.0) };
    z.copysign(middle)
}

fn near_tail(r: f64) -> f64 {
    poly(r, &[1.423_437_277_7, 2.756_815_39, 1.306_728_481_6, 0.170_238_211_03]) / poly(r, &[1.0, 0.737_001_642_5, 0.120_211_329_75])
}

fn far_tail(r: f64) -> f64 {
    let above = poly(r, &[6.657_905_115, 3.081_226_386, 0.428_682_943_37, 0.017_337_203_997]);
    above / poly(r, &[1.0, 0.241_978_942_25, 0.012_258_202_635])
}

#[cfg(test)]
mod tests {
    use super::{at_share, quick};
    use crate::measure::normal_share;

    /// `statistics.NormalDist().inv_cdf(p)` of Python 3.11.
    const QUANTILES: [(f64, f64); 6] = [
        (1e-12, -7.034_483_825_301_132),
        (1e-4, -3.719_016_485_455_68),
        (0.05, -1.644_853_626_951_472_2),
        (0.3, -0.524_400_512_708_041),
        (0.5, 0.0),
        (0.975, 1.959_963_984_540_053_8),
    ];

    #[test]
    fn shares_and_places_fit_each_other() {
        for (share, z) in QUANTILES {
            assert!((at_share(share) - z).abs() < 2e-6, "{share}: {}", at_share(share));
            assert!((quick(z) - share).abs() < 5e-7, "{z}: {}", quick(z));
            assert!((normal_share(z) / share - 1.0).abs() < 1e-9, "{z}: {}", normal_share(z));
        }
    }
}

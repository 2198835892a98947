//! The normal distribution of one error and of two, fast enough for many thousand calls.

use std::sync::LazyLock;

use crate::measure::normal_share;

/// Steps of the table of [`quick`] to one sigma, and how many sigmas it reaches to each side.
const STEPS: f64 = 256.0;
const REACH: f64 = 8.0;
/// A correlation beyond this is held to be this.
const MOST_SHARED: f64 = 0.999_999;

/// What the powers in the series of `exp` and of the sine are divided by, the highest first.
const EXP_TERMS: [f64; 8] = [5_040.0, 720.0, 120.0, 24.0, 6.0, 2.0, 1.0, 1.0];
const SINE_TERMS: [f64; 6] = [-39_916_800.0, 362_880.0, -5_040.0, 120.0, -6.0, 1.0];

static TABLE: LazyLock<Vec<f64>> =
    LazyLock::new(|| (0..=(2.0 * REACH * STEPS) as usize).map(|i| normal_share(i as f64 / STEPS - REACH)).collect());

/// Places between 0 and 1 and weights of Gauss's rule with three, with six and with twelve of them, the middle one's halved (M. Abramowitz and I. A. Stegun (1964), Handbook of
/// Mathematical Functions, table 25.4; from memory, held by a test).
const THREE: [(f64, f64); 2] = [(0.774_596_669_241_483, 0.555_555_555_555_556), (0.0, 0.444_444_444_444_444)];
const SIX: [(f64, f64); 3] = [
    (0.932_469_514_203_152, 0.171_324_492_379_170),
    (0.661_209_386_466_265, 0.360_761_573_048_139),
    (0.238_619_186_083_197, 0.467_913_934_572_691),
];
const TWELVE: [(f64, f64); 6] = [
    (0.981_560_634_246_719, 0.047_175_336_386_512),
    (0.904_117_256_370_475, 0.106_939_325_995_318),
    (0.769_902_674_194_305, 0.160_078_328_543_346),
    (0.587_317_954_286_617, 0.203_167_426_723_066),
    (0.367_831_498_998_180, 0.233_492_536_538_355),
    (0.125_233_408_511_469, 0.249_147_045_813_403),
];

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

/// So many sigmas from the mean, to either side, lies no more than this share of a normal distribution.
///
/// # Accuracy
/// 1e-9 sigmas, by halves.
pub(super) fn sigmas_with_beyond(share: f64) -> f64 {
    let halves = (0..60).fold((0.0, 40.0), |(low, high), _| {
        let middle = f64::midpoint(low, high);
        if 2.0 * normal_share(-middle) > share { (middle, high) } else { (low, middle) }
    });
    halves.1
}

/// `exp(x)` of a number that is not above nothing.
///
/// # Accuracy
/// 1e-8 of it above `exp(-700)`, which the rest counts as: by a power of two, and the first terms of the series of what is left.
pub(super) fn quick_exp(x: f64) -> f64 {
    let twos = x.clamp(-700.0, 0.0) * std::f64::consts::LOG2_E;
    let whole = (twos - 0.5) as i64;
    let rest = (twos - whole as f64) * std::f64::consts::LN_2;
    let series = EXP_TERMS.iter().fold(0.0, |sum, divisor| sum * rest + 1.0 / divisor);
    f64::from_bits(((1023 + whole) as u64) << 52) * series
}

/// The sine of an angle of up to a quarter turn to either side, radians: the first terms of its series.
///
/// # Accuracy
/// 6e-8.
fn quick_sine(rad: f64) -> f64 {
    let square = rad * rad;
    rad * SINE_TERMS.iter().fold(0.0, |sum, divisor| sum * square + 1.0 / divisor)
}

/// What is left of a standard normal error that stays below `z`: how far its mean lies below nothing, and its variance.
///
/// # Accuracy
/// 1e-4 above -4; below, by the first terms of the tail's series, 0.01.
pub(super) fn cut(z: f64) -> (f64, f64) {
    if z < -4.0 {
        let square = z * z;
        return (-z - 1.0 / z + 2.0 / (square * z), (1.0 - 6.0 / square) / square);
    }
    let down = quick_exp(-0.5 * z * z) / (std::f64::consts::TAU.sqrt() * quick(z));
    (down, (1.0 - down * (z + down)).clamp(0.0, 1.0))
}

/// The chance that of two standard normal errors with a correlation the one stays below `a` and the other below `b`.
///
/// # Accuracy
/// 1e-6 up to a correlation of 0.95; 2e-3 close to 1.
///
/// # References
/// Z. Drezner and G. O. Wesolowsky (1990), On the computation of the bivariate normal integral, J. Stat. Comput. Simul. 35, 101-107:
/// the integral over the correlation, with its arcsine in its place (from memory).
pub(super) fn both(a: f64, b: f64, shared: f64) -> f64 {
    let (a, b) = (a.clamp(-REACH, REACH), b.clamp(-REACH, REACH));
    let half_rad = shared.clamp(-MOST_SHARED, MOST_SHARED).asin() / 2.0;
    let (product, squares) = (a * b, (a * a + b * b) / 2.0);
    let at = |place: f64| {
        let sine = quick_sine(half_rad * place);
        quick_exp((sine * product - squares) / (1.0 - sine * sine))
    };
    let rule: &[(f64, f64)] = match shared.abs() {
        near if near > 0.9 => &TWELVE,
        near if near > 0.5 => &SIX,
        _ => &THREE,
    };
    let sum: f64 = rule.iter().map(|(place, weight)| weight * (at(1.0 - place) + at(1.0 + place))).sum();
    (quick(a) * quick(b) + sum * half_rad / std::f64::consts::TAU).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::{both, cut, quick, quick_exp, quick_sine};
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
    fn shares_fit_their_places() {
        for (share, z) in QUANTILES {
            assert!((quick(z) - share).abs() < 5e-7, "{z}: {}", quick(z));
            assert!((normal_share(z) / share - 1.0).abs() < 1e-9, "{z}: {}", normal_share(z));
        }
    }

    /// The standard library's own.
    #[test]
    fn quick_series_are_as_good_as_they_say() {
        for step in 0..=7_000 {
            let x = f64::from(step) * -0.1;
            assert!((quick_exp(x) / x.exp() - 1.0).abs() < 1e-8, "exp {x}: {}", quick_exp(x));
            let rad = (f64::from(step) / 3_500.0 - 1.0) * std::f64::consts::FRAC_PI_2;
            assert!((quick_sine(rad) - rad.sin()).abs() < 6e-8, "sin {rad}: {}", quick_sine(rad));
        }
        assert!(quick_exp(-1e9) < 1e-300 && quick_exp(f64::NEG_INFINITY) < 1e-300);
    }

    /// `scipy.stats.truncnorm(-inf, z)` of SciPy 1.17.1.
    #[test]
    fn what_is_cut_off_lowers_mean_and_spread() {
        for (z, mean, variance) in [
            (-6.0, -6.158482604545, 0.023987636789),
            (-4.5, -4.704319844828, 0.038814099285),
            (-3.0, -3.28309865493, 0.070559186785),
            (-1.0, -1.525135276161, 0.19909766557),
            (0.0, -0.797884560803, 0.363380227632),
            (2.0, -0.055247862679, 0.886451948311),
        ] {
            let (down, left) = cut(z);
            assert!((down + mean).abs() < 0.01 * mean.abs().max(0.01) && (left - variance).abs() < 0.01, "{z}: {down} {left}");
        }
    }

    /// `scipy.stats.multivariate_normal.cdf` of SciPy 1.17.1.
    #[test]
    fn two_errors_stay_below_as_often_as_they_should() {
        for (a, b, shared, wanted, within) in [
            (0.0, 0.0, 0.5, 0.333_333_333_333_333, 1e-6),
            (0.4, 0.5, 0.3, 0.493_712_337_242_294, 1e-6),
            (2.0, 0.3, -0.6, 0.595_567_296_226_708, 1e-6),
            (1.0, 1.2, 0.9, 0.820_499_449_335_317, 1e-5),
            (1.0, -0.5, 0.95, 0.308_537_513_360_834, 1e-4),
            (-1.2, -1.0, 0.999, 0.115_069_662_473_202, 2e-3),
        ] {
            assert!((both(a, b, shared) - wanted).abs() < within, "{a} {b} {shared}: {}", both(a, b, shared));
        }
    }
}

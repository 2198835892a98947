//! How likely a sum of squares is by chance.

/// Chance that a chi-square of so many degrees of freedom is greater than this by chance; 1 without any freedom.
///
/// # References
/// M. Abramowitz, I. Stegun 1964, Handbook of Mathematical Functions, 26.4.4 and 26.4.5; held against `SciPy` 1.17.1.
#[must_use]
pub(super) fn chance_beyond(chi_square: f64, freedom: usize) -> f64 {
    if freedom == 0 {
        return 1.0;
    }
    let half = chi_square.max(0.0) / 2.0;
    let odd = freedom % 2 == 1;
    let mut chance = if odd { libm::erfc(half.sqrt()) } else { 0.0 };
    // The terms half^k e^-half / Gamma(k + 1) for k = 0, 1, ... or 1/2, 3/2, ...
    let mut term = if odd { (half / std::f64::consts::PI).sqrt() * 2.0 * (-half).exp() } else { (-half).exp() };
    let mut order = if odd { 1.5 } else { 1.0 };
    for _ in 0..freedom / 2 {
        chance += term;
        term *= half / order;
        order += 1.0;
    }
    chance.min(1.0)
}

#[cfg(test)]
mod tests {
    use super::chance_beyond;

    /// `scipy.stats.chi2.sf`, `SciPy` 1.17.1.
    const KNOWN: [(f64, usize, f64); 8] = [
        (0.0, 3, 1.0),
        (3.841_458_820_694_124, 1, 0.05),
        (5.991_464_547_107_979, 2, 0.05),
        (43.173_786_540_828_33, 1, 5.008_725_314_356_081e-11),
        (7.5, 3, 0.057_558_451_972_636_4),
        (9.0, 4, 0.061_099_480_960_332_69),
        (2.0, 5, 0.849_145_036_084_609_6),
        (40.0, 21, 0.007_436_777_297_804_687),
    ];

    #[test]
    fn chances_are_those_of_the_library() {
        for (chi_square, freedom, known) in KNOWN {
            let chance = chance_beyond(chi_square, freedom);
            assert!((chance - known).abs() <= 1e-10 * known.max(1e-3), "{chi_square} {freedom}: {chance} instead of {known}");
        }
        assert!(chance_beyond(5.0, 0) >= 1.0);
    }
}

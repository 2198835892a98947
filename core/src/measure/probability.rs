//! The normal distribution, and the factors that turn one sigma into 95 %.

use std::f64::consts::TAU;

/// Half-width of the 95 % interval on a line, in sigmas.
///
/// # References
/// 97.5 % quantile of the standard normal distribution; JCGM 100:2008, table G.1 (value from memory).
pub const LINE_95: f64 = 1.959_963_984_540_054;

/// Radius of the circle in the plane that holds as much as one sigma on a line (68.27 %), in sigmas: `sqrt(-2 ln 0.3173)`.
///
/// # References
/// The "accuracy" that phones tell of a place is usually such a radius (from memory); Rayleigh distribution.
pub const PLANE_68: f64 = 1.515_172_958_440_606;

/// Radius of the 95 % ellipse in the plane, in sigmas: `sqrt(-2 ln 0.05)`.
pub const PLANE_95: f64 = 2.447_746_830_680_816;

/// Density of a normal distribution with mean zero at `x`.
#[must_use]
pub fn normal_density(x: f64, sigma: f64) -> f64 {
    let z = x / sigma;
    (-0.5 * z * z).exp() / (sigma * TAU.sqrt())
}

/// Nodes and weights that sum a normal error with the given sigma out of a smooth function.
///
/// Equal steps from -4.5 to 4.5 sigma; for a function as smooth as the normal density itself the
/// sum is exact to better than 1e-5 of its peak (Trefethen and Weideman 2014, SIAM Review 56(3)).
/// A sigma of zero gives the single node 0.
#[must_use]
pub fn normal_nodes(sigma: f64, count: usize) -> Vec<(f64, f64)> {
    if sigma <= 0.0 || count < 2 {
        return vec![(0.0, 1.0)];
    }
    let step = 9.0 / (count - 1) as f64;
    let raw: Vec<(f64, f64)> = (0..count).map(|i| -4.5 + step * i as f64).map(|z| (z * sigma, normal_density(z, 1.0))).collect();
    let total: f64 = raw.iter().map(|(_, w)| w).sum();
    raw.into_iter().map(|(x, w)| (x, w / total)).collect()
}

/// Share of a standard normal distribution below `z`.
///
/// Accuracy: that of `libm`'s complementary error function, better than 1e-14 of the value.
#[must_use]
pub fn normal_share(z: f64) -> f64 {
    libm::erfc(-z / std::f64::consts::SQRT_2) / 2.0
}

/// Share of a standard normal distribution between two bounds, as exact in its far ends as in the middle.
#[must_use]
pub fn normal_between(low: f64, high: f64) -> f64 {
    if low > 0.0 { normal_share(-low) - normal_share(-high) } else { normal_share(high) - normal_share(low) }
}

/// Half-width at 95 % in sigmas when the sigma rests on so many differences; 0 when it was known beforehand.
///
/// # References
/// Student's distribution, 97.5 % quantiles: printed table up to 4, then the expansion of R. A. Fisher and E. A. Cornish
/// (1960), Technometrics 2, 209-225 (from memory), within 0.004.
#[must_use]
pub fn student_95(freedom: usize) -> f64 {
    let z = LINE_95;
    let n = freedom as f64;
    match freedom {
        0 => z,
        1 => 12.706_2,
        2 => 4.302_65,
        3 => 3.182_45,
        4 => 2.776_45,
        _ => z + (z.powi(3) + z) / (4.0 * n) + (5.0 * z.powi(5) + 16.0 * z.powi(3) + 3.0 * z) / (96.0 * n * n) + third(z, n),
    }
}

fn third(z: f64, n: f64) -> f64 {
    (3.0 * z.powi(7) + 19.0 * z.powi(5) + 17.0 * z.powi(3) - 15.0 * z) / (384.0 * n.powi(3))
}

#[cfg(test)]
mod tests {
    use super::student_95;

    /// Printed quantiles of Student's distribution (from memory; 2.571, 2.228, 2.086, 2.042).
    #[test]
    fn few_differences_widen_the_limits() {
        for (freedom, printed) in [(5, 2.571), (10, 2.228), (20, 2.086), (30, 2.042)] {
            assert!((student_95(freedom) - printed).abs() < 0.004, "{freedom}: {}", student_95(freedom));
        }
    }
}

//! Points scattered evenly over a cube of many dimensions, the same at every call.

/// How many points there are.
pub(super) const SCATTERED: usize = 2048;
/// How many of the dimensions are filled evenly; multiples of roots lie in stripes when there are many dimensions.
const EVEN: usize = 6;

/// Square roots of the first primes, their whole parts left out.
const STEPS: [f64; EVEN] = [
    0.414_213_562_373_095,
    0.732_050_807_568_877,
    0.236_067_977_499_790,
    0.645_751_311_064_591,
    0.316_624_790_355_400,
    0.605_551_275_463_989,
];

/// One coordinate of one point, between 0 and 1.
///
/// In the first dimensions multiples of the root of a prime, folded in the middle; in the others a mixed number.
///
/// # References
/// R. D. Richtmyer's sequence with the fold of E. Hlawka, as A. Genz uses them; the mixer of `SplitMix64` by G. L. Steele,
/// D. Lea and C. H. Flood (both from memory).
pub(super) fn scattered(point: usize, dimension: usize) -> f64 {
    match STEPS.get(dimension) {
        Some(step) => 1.0 - (2.0 * ((point as f64 + 0.5) * step).fract() - 1.0).abs(),
        None => mixed((dimension * SCATTERED + point) as u64),
    }
}

fn mixed(seed: u64) -> f64 {
    let mut z = seed.wrapping_add(1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    ((z >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
}

#[cfg(test)]
mod tests {
    use super::{SCATTERED, scattered};

    /// The integral of a product over the cube, against its exact value of 1.
    #[test]
    fn sums_over_the_points_are_integrals() {
        let product = |i: usize| (0..6).map(|d| 1.0 + (scattered(i, d) - 0.5) / (d as f64 + 1.0)).product::<f64>();
        let mean = (0..SCATTERED).map(product).sum::<f64>() / SCATTERED as f64;
        assert!((mean - 1.0).abs() < 0.003, "{mean}");
        let far = |i: usize| (0..6).map(|d| 1.0 + (scattered(i, d + 40) - 0.5) / (d as f64 + 1.0)).product::<f64>();
        let mean = (0..SCATTERED).map(far).sum::<f64>() / SCATTERED as f64;
        assert!((mean - 1.0).abs() < 0.03, "{mean}");
    }
}

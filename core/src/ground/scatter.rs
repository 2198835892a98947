//! Points scattered evenly over a cube of many dimensions, the same at every call.

use std::sync::LazyLock;

/// How many points there are.
pub(super) const SCATTERED: usize = 512;
/// How many dimensions they have: the nodes of a ray and both its ends.
const DIMENSIONS: usize = 260;

/// Square roots of the first primes, their whole parts left out.
static STEPS: LazyLock<Vec<f64>> = LazyLock::new(|| primes().take(DIMENSIONS).map(|prime| f64::from(prime).sqrt().fract()).collect());

fn primes() -> impl Iterator<Item = u32> {
    (2_u32..).filter(|n| (2..).take_while(|d| d * d <= *n).all(|d| n % d != 0))
}

/// One coordinate of one point, between 0 and 1: multiples of the root of a prime, folded in the middle.
///
/// # References
/// R. D. Richtmyer's sequence with the fold of E. Hlawka, as A. Genz uses them (from memory).
pub(super) fn scattered(point: usize, dimension: usize) -> f64 {
    let step = STEPS.get(dimension).copied().unwrap_or(0.5);
    let place = ((point as f64 + 0.5) * step).fract();
    1.0 - (2.0 * place - 1.0).abs()
}

#[cfg(test)]
mod tests {
    use super::{SCATTERED, scattered};

    /// The integral of a product over the cube, against its exact value.
    #[test]
    fn sums_over_the_points_are_integrals() {
        let product = |i: usize| (0..6).map(|d| 1.0 + (scattered(i, d) - 0.5) / (d as f64 + 1.0)).product::<f64>();
        let mean = (0..SCATTERED).map(product).sum::<f64>() / SCATTERED as f64;
        assert!((mean - 1.0).abs() < 0.003, "{mean}");
    }
}

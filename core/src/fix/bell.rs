//! The density of one residual, told beside that of a plainly wrong reading.

use std::f64::consts::TAU;

use crate::measure::signed_difference_deg;

/// Beyond so many sigmas a normal density is nothing beside that of a wrong reading.
const NOTHING_SIGMAS: f64 = 9.0;

/// Density of a bearing's residual where the reading is not plainly wrong, as a multiple of the uniform density of those that are.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bell {
    per_deg: f64,
    peak: f64,
}

impl Bell {
    pub(super) fn new(spread_deg: f64, round_deg: f64, wrong: f64) -> Self {
        Self { per_deg: 1.0 / spread_deg, peak: (1.0 - wrong) * round_deg / (wrong * spread_deg * TAU.sqrt()) }
    }

    /// Adds the density for each of evenly spaced nodes of the shared error.
    ///
    /// From node to node a normal density changes by a factor that itself changes by a constant one: it is told once, at the node
    /// nearest its peak, and grown from there to both sides, where it only falls.
    pub(super) fn add(self, deg: f64, gain: f64, weight: f64, nodes: &[(f64, f64)], given: &mut [f64]) {
        let (Some((first, _)), Some((second, _))) = (nodes.first(), nodes.get(1)) else {
            given.iter_mut().zip(nodes).for_each(|(given, (shared_deg, _))| *given += weight * self.at(deg - gain * shared_deg));
            return;
        };
        if deg.abs() + (gain * first).abs() > 180.0 {
            given.iter_mut().zip(nodes).for_each(|(given, (shared_deg, _))| *given += weight * self.at(deg - gain * shared_deg));
            return;
        }
        let (start, step) = ((deg - gain * first) * self.per_deg, gain * (second - first) * self.per_deg);
        let last = nodes.len() - 1;
        let middle = if step == 0.0 { 0 } else { (start / step).round().clamp(0.0, last as f64) as usize };
        let sigmas = start - step * middle as f64;
        if sigmas.abs() > NOTHING_SIGMAS {
            return;
        }
        let (peak, bend) = (weight * self.peak * (-0.5 * sigmas * sigmas).exp(), (-step * step).exp());
        let (down, up) = given.split_at_mut(middle.min(given.len()));
        let above = (step * sigmas - 0.5 * step * step).exp();
        grow(peak, above, bend, up.iter_mut());
        let below = bend / above;
        grow(peak * below, below * bend, bend, down.iter_mut().rev());
    }

    pub(super) fn at(self, residual_deg: f64) -> f64 {
        let turned_deg = if residual_deg.abs() <= 180.0 { residual_deg } else { signed_difference_deg(residual_deg, 0.0) };
        let sigmas = turned_deg * self.per_deg;
        if sigmas.abs() > NOTHING_SIGMAS { 0.0 } else { self.peak * (-0.5 * sigmas * sigmas).exp() }
    }
}

/// Adds a value, and then each time the value before times a factor that is bent from one to the next.
fn grow<'b>(mut value: f64, mut factor: f64, bend: f64, into: impl Iterator<Item = &'b mut f64>) {
    for one in into {
        *one += value;
        value *= factor;
        factor *= bend;
    }
}

#[cfg(test)]
mod tests {
    use super::Bell;
    use crate::measure::normal_nodes;

    #[test]
    fn grown_from_node_to_node_the_density_is_the_same() {
        let bell = Bell::new(2.6, 360.0, 0.02);
        for (spread, count) in [(1.5, 19), (3.0, 301), (0.0, 19)] {
            let nodes = normal_nodes(spread, count);
            for (deg, gain) in [(0.0, 1.0), (4.0, 1.0), (-21.0, 0.4), (170.0, 1.0), (-179.0, 1.0), (3.0, -0.7), (2.0, 0.0)] {
                let mut grown = vec![1.0; nodes.len()];
                bell.add(deg, gain, 0.3, &nodes, &mut grown);
                for (grown, (shared, _)) in grown.iter().zip(&nodes) {
                    let direct = 1.0 + 0.3 * bell.at(deg - gain * shared);
                    assert!((grown / direct - 1.0).abs() < 1e-9, "{deg} {gain} {shared}: {grown} {direct}");
                }
            }
        }
    }
}

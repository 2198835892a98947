//! The likelihood of all readings along a line, the compass error that they share summed out.

use super::sighted::SightedFrom;
use super::{Crossing, Odds};
use crate::measure::{normal_density, normal_nodes, signed_difference_deg};
use crate::sheet::{Line, LinePlace};

/// Share of readings that are plainly wrong: uniform on the circle.
const WRONG_READING: f64 = 0.02;
/// Most entries of an odds table.
const MOST_STEPS: f64 = 40_000.0;
/// Nodes over the shared compass error: at least, and at most.
const SHARED_NODES: (f64, f64) = (31.0, 301.0);
/// A residual of this many of its own sigmas and that many shared ones leaves only the chance of a wrong reading:
/// the normal part is then below 1e-8 of its peak.
const REACH_SIGMAS: (f64, f64) = (6.0, 4.5);

/// A step of 1 m, finer where a crossing is sharper, coarser only on lines beyond 40 km.
pub(super) fn step_m(line: &Line, crossed: &[Vec<Crossing>]) -> f64 {
    let sharpest = crossed.iter().flatten().map(|crossing| crossing.spread_along_m).fold(f64::INFINITY, f64::min);
    (sharpest / 8.0).min(1.0).max(line.length_m() / MOST_STEPS)
}

/// The odds along the line, in equal steps of about `wanted_step_m`.
pub(super) fn weigh(line: &Line, prepared: &[SightedFrom], wanted_step_m: f64) -> Option<Odds> {
    let count = (line.length_m() / wanted_step_m).ceil().max(1.0);
    let step_m = line.length_m() / count;
    let shared = Shared::over(prepared);
    let mut weights = Vec::with_capacity(count as usize);
    for (piece, (start, end)) in line.pieces().enumerate() {
        let length_m = end.along_m - start.along_m;
        while let Some(along_m) = Some((weights.len() as f64 + 0.5) * step_m).filter(|along_m| *along_m <= end.along_m) {
            let inside_m = along_m - start.along_m;
            let place = LinePlace { along_m, at: start.at.plus(start.direction.times(inside_m)), direction: start.direction };
            weights.push(shared.likelihood(prepared, piece, inside_m / length_m, place));
        }
    }
    Odds::from_weights(step_m, weights)
}

/// The shared compass error: its sigma in degrees, and nodes close enough together for the sharpest reading.
struct Shared {
    spread_deg: f64,
    nodes: Vec<(f64, f64)>,
}

impl Shared {
    fn over(prepared: &[SightedFrom]) -> Self {
        let spread_deg = prepared.first().map_or(0.0, |from| from.shared_deg);
        let sharpest_deg = prepared.iter().map(|from| from.own_deg).fold(f64::INFINITY, f64::min);
        let count = (18.0 * spread_deg / sharpest_deg).clamp(SHARED_NODES.0, SHARED_NODES.1);
        Self { spread_deg, nodes: normal_nodes(spread_deg, count as usize) }
    }

    /// Likelihood of all readings at a place. Readings out of reach there can only be wrong ones;
    /// a single reading within reach takes the shared error into its spread.
    fn likelihood(&self, prepared: &[SightedFrom], piece: usize, share: f64, place: LinePlace) -> f64 {
        let mut near: Vec<(f64, f64)> = Vec::new();
        for from in prepared {
            let (residual_deg, spread_deg) = (from.residual_deg(piece, share, place), from.own_spread_deg(place));
            if residual_deg.abs() <= REACH_SIGMAS.0 * spread_deg + REACH_SIGMAS.1 * self.spread_deg {
                near.push((residual_deg, spread_deg));
            }
        }
        self.of_near(&near)
    }

    fn of_near(&self, near: &[(f64, f64)]) -> f64 {
        match near {
            [] => 1.0,
            [(residual_deg, spread_deg)] => bearing_density(*residual_deg, spread_deg.hypot(self.spread_deg)),
            several => {
                let given =
                    |shared: f64| several.iter().map(|(residual, spread)| bearing_density(residual - shared, *spread)).product::<f64>();
                self.nodes.iter().map(|(shared, weight)| weight * given(*shared)).sum()
            }
        }
    }
}

/// Density of a bearing's residual, normal with a uniform tail, as a multiple of the tail.
///
/// Never below 1, so that the product over many readings cannot vanish.
fn bearing_density(residual_deg: f64, spread_deg: f64) -> f64 {
    let normal = normal_density(signed_difference_deg(residual_deg, 0.0), spread_deg);
    1.0 + (1.0 - WRONG_READING) * normal * 360.0 / WRONG_READING
}

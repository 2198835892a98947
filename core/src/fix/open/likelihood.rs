//! The likelihood of everything observed at a place, with the tails of plainly wrong readings, the shared compass error summed out.

use super::equation::{Equation, Mark, Reading, direction};
use super::scene::{OpenGround, OpenScene, OpenSighting};
use crate::measure::{Point, normal_density, normal_nodes, signed_difference_deg};

/// Nodes over the shared compass error: at least, and at most.
const SHARED_NODES: (f64, f64) = (19.0, 301.0);
/// The map error that several readings of one landmark share is summed over so many of its sigmas to either side, in at most so many steps.
const MAP_SIGMAS: f64 = 4.5;
/// See [`MAP_SIGMAS`].
const MOST_SIDE: f64 = 400.0;
/// Nodes over a map error that would take more.
const WIDE_NODES: usize = 61;
/// A map error of fewer steps of the shared error's nodes is summed over three nodes of its own.
const LEAST_STEPS: f64 = 1.5;
/// A residual of this many of its own sigmas and that many shared ones leaves only the chance of a wrong reading.
const REACH_SIGMAS: (f64, f64) = (6.0, 4.5);
/// Beyond so many sigmas a normal density is nothing beside that of a wrong reading.
const NOTHING_SIGMAS: f64 = 9.0;
const CIRCLE_DEG: f64 = 360.0;

/// All sightings of a scene, as a likelihood of the place.
pub(super) struct Likelihood<'a> {
    equations: &'a [Equation],
    grounds: Vec<OpenGround<'a>>,
    shared_deg: f64,
    nodes: Vec<(f64, f64)>,
    /// Over how many metres a wrong distance may be spread.
    far_m: f64,
    /// Share of readings that are plainly wrong: bearings and angles uniform on the circle, distances uniform over the area.
    wrong: f64,
    /// Natural logarithm of what the readings nowhere exceed.
    ln_peak: f64,
}

/// The bearings to one candidate that are in reach: residuals with the readings' sigmas, that of the map, and by how much every
/// residual may be smaller.
struct Lobe {
    residuals: Vec<(f64, f64)>,
    map_deg: f64,
    /// Sigma of the first reading with the map's part in it.
    sigma_deg: f64,
    slack_deg: f64,
    wrong: f64,
}

/// A group of bearings at a place: the share of the candidates out of reach, the others, and the share of one.
struct Near {
    lobes: Vec<Lobe>,
    far: f64,
    share: f64,
}

impl<'a> Likelihood<'a> {
    /// `wrong`: the share of readings that are plainly wrong.
    pub(super) fn new(scene: &OpenScene<'a>, equations: &'a [Equation], wrong: f64) -> Self {
        let ground = |one: &OpenSighting<'a>| if let OpenSighting::Ground(ground) = one { Some(*ground) } else { None };
        let grounds = scene.sightings.iter().filter_map(ground).collect();
        Self::of(equations, grounds, scene.shared_spread_deg(), (scene.bounds.across().length_m(), wrong))
    }

    /// `far_m`: over how many metres a wrong distance may be spread; and the share of readings that are plainly wrong.
    pub(super) fn of(equations: &'a [Equation], grounds: Vec<OpenGround<'a>>, shared_deg: f64, (far_m, wrong): (f64, f64)) -> Self {
        let sharpest_deg = equations.iter().flat_map(Equation::readings).map(|one| one.own_deg).fold(f64::INFINITY, f64::min);
        let count = (18.0 * shared_deg / sharpest_deg).clamp(SHARED_NODES.0, SHARED_NODES.1);
        Self {
            equations,
            grounds,
            shared_deg,
            nodes: normal_nodes(shared_deg, count as usize),
            far_m,
            wrong,
            ln_peak: equations.iter().map(|one| one.ln_peak(far_m, wrong)).sum(),
        }
    }

    /// The likelihood at a place, as a share of what it nowhere exceeds.
    pub(super) fn at(&self, place: Point) -> f64 {
        let ground: f64 = self.grounds.iter().map(|one| one.counted(one.at(place, self.wrong) / one.most)).product();
        if ground > 0.0 { ground * self.of_readings(place, 0.0) } else { 0.0 }
    }

    /// What it does not exceed within `half_m` of a place; `corners` are the corners of the cell about it.
    pub(super) fn bound(&self, place: Point, half_m: f64, corners: &[Point]) -> f64 {
        let most = |one: &OpenGround<'_>| {
            if let Some(from) = one.falls_from {
                let away = place.minus(from);
                let nearer = 1.0 - (half_m / away.length_m().max(1e-9)).min(1.0);
                return one.counted(one.at(from.plus(away.times(nearer)), self.wrong) / one.most).min(1.0);
            }
            if half_m > one.detail_m {
                return 1.0;
            }
            let ends = corners.iter().chain([&place]).map(|at| one.at(*at, self.wrong));
            one.counted(ends.fold(0.0, f64::max) / one.most).min(1.0)
        };
        let ground: f64 = self.grounds.iter().map(most).product();
        if ground > 0.0 { ground * self.of_readings(place, half_m) } else { 0.0 }
    }

    /// Readings alone; every residual may be smaller by what `slack_m` metres can do.
    fn of_readings(&self, place: Point, slack_m: f64) -> f64 {
        let mut log = -self.ln_peak;
        let mut near = Vec::new();
        for equation in self.equations {
            match equation {
                Equation::Bearing { candidates, readings, .. } => near.push(self.near(candidates, readings, place, slack_m)),
                Equation::Angle { .. } | Equation::Distance { .. } => log += self.plain(equation, place, slack_m).ln(),
            }
        }
        near.retain(|one| !one.lobes.is_empty());
        (log + self.of_bearings(&near).ln()).exp()
    }

    fn plain(&self, equation: &Equation, place: Point, slack_m: f64) -> f64 {
        let Some(row) = equation.row(place, place) else { return 1.0 };
        match equation {
            Equation::Angle { left, right, .. } => {
                let slack_deg = in_degrees(slack_m, left, place) + in_degrees(slack_m, right, place);
                with_tail(less(row.residual, slack_deg), row.sigma, CIRCLE_DEG, self.wrong)
            }
            Equation::Distance { .. } => with_tail(less(row.residual, slack_m), row.sigma, self.far_m, self.wrong),
            Equation::Bearing { .. } => 1.0,
        }
    }

    fn near(&self, candidates: &[Mark], readings: &[Reading], place: Point, slack_m: f64) -> Near {
        let share = 1.0 / candidates.len().max(1) as f64;
        let lobes: Vec<Lobe> = candidates.iter().filter_map(|mark| self.lobe(mark, readings, place, slack_m)).collect();
        Near { far: 1.0 - share * lobes.len() as f64, lobes, share }
    }

    fn lobe(&self, mark: &Mark, readings: &[Reading], place: Point, slack_m: f64) -> Option<Lobe> {
        let (bearing_deg, _) = direction(mark, place);
        let (map_deg, slack_deg) = (mark.spread_deg(place), in_degrees(slack_m, mark, place));
        let residual = |one: &Reading| (signed_difference_deg(one.at(place), bearing_deg), one.own_deg);
        let reach = |own_deg: f64| REACH_SIGMAS.0 * own_deg.hypot(map_deg) + REACH_SIGMAS.1 * self.shared_deg;
        let residuals: Vec<(f64, f64)> = readings.iter().map(residual).collect();
        let in_reach = residuals.iter().any(|(residual, own)| residual.abs() - slack_deg < reach(*own));
        let sigma_deg = readings.first().map_or(0.0, |one| one.own_deg.hypot(map_deg));
        in_reach.then_some(Lobe { residuals, map_deg, sigma_deg, slack_deg, wrong: self.wrong })
    }

    fn of_bearings(&self, near: &[Near]) -> f64 {
        match near {
            [] => 1.0,
            [one] if one.lobes.iter().all(|lobe| lobe.residuals.len() == 1) => one.spread_by(self.shared_deg),
            several => {
                let mut all = vec![1.0; self.nodes.len()];
                for one in several {
                    all.iter_mut().zip(one.by_node(&self.nodes)).for_each(|(all, given)| *all *= given);
                }
                self.nodes.iter().zip(all).map(|((_, weight), given)| weight * given).sum()
            }
        }
    }
}

impl OpenGround<'_> {
    /// A share of what it nowhere exceeds, as one of several that are the same answer.
    fn counted(&self, share: f64) -> f64 {
        if self.again > 1.0 { share.powf(1.0 / self.again) } else { share }
    }
}

impl Equation {
    fn ln_peak(&self, far_m: f64, wrong: f64) -> f64 {
        match self {
            Self::Bearing { readings, .. } => readings.iter().map(|one| with_tail(0.0, one.own_deg, CIRCLE_DEG, wrong).ln()).sum(),
            Self::Angle { own_deg, .. } => with_tail(0.0, *own_deg, CIRCLE_DEG, wrong).ln(),
            Self::Distance { own_m, .. } => with_tail(0.0, *own_m, far_m, wrong).ln(),
        }
    }
}

impl Near {
    /// Likelihood of a group of single readings, the spread of the shared error taken into their own.
    fn spread_by(&self, spread_deg: f64) -> f64 {
        let of =
            |lobe: &Lobe| lobe.residuals.first().map_or(0.0, |(residual, _)| lobe.density(*residual, lobe.sigma_deg.hypot(spread_deg)));
        self.far + self.share * self.lobes.iter().map(of).sum::<f64>()
    }

    /// Likelihood of the group for each node of the shared error.
    fn by_node(&self, nodes: &[(f64, f64)]) -> Vec<f64> {
        let mut given = vec![self.far; nodes.len()];
        for lobe in &self.lobes {
            given.iter_mut().zip(lobe.by_node(nodes)).for_each(|(given, one)| *given += self.share * one);
        }
        given
    }
}

impl Lobe {
    fn by_node(&self, nodes: &[(f64, f64)]) -> Vec<f64> {
        if let [(residual, _)] = self.residuals.as_slice() {
            return nodes.iter().map(|(shared_deg, _)| self.density(residual - shared_deg, self.sigma_deg)).collect();
        }
        let step_deg = match nodes {
            [(first, _), (second, _), ..] => second - first,
            _ => 0.0,
        };
        if self.map_deg < LEAST_STEPS * step_deg {
            return nodes.iter().map(|(shared_deg, _)| self.with_small_map(*shared_deg)).collect();
        }
        self.with_map(nodes, step_deg)
    }

    /// All readings, off by so much: the shared error and that of the map.
    fn all(&self, off_deg: f64) -> f64 {
        self.residuals.iter().map(|(residual, own)| self.density(residual - off_deg, *own)).product()
    }

    /// A map error that is small beside the steps of the nodes.
    ///
    /// # References
    /// Gauss and Hermite's three nodes (Abramowitz and Stegun 1964, 25.4.46).
    fn with_small_map(&self, shared_deg: f64) -> f64 {
        let far_deg = 3f64.sqrt() * self.map_deg;
        (self.all(shared_deg - far_deg) + 4.0 * self.all(shared_deg) + self.all(shared_deg + far_deg)) / 6.0
    }

    /// The map error summed out in steps of the shared one: what both add up to is reckoned once.
    fn with_map(&self, nodes: &[(f64, f64)], step_deg: f64) -> Vec<f64> {
        let step_deg = if step_deg > 0.0 { step_deg } else { self.sharpest_deg() / 2.0 };
        let side = (MAP_SIGMAS * self.map_deg / step_deg).ceil().max(1.0);
        if side > MOST_SIDE {
            let map = normal_nodes(self.map_deg, WIDE_NODES);
            let given = |shared_deg: f64| map.iter().map(|(map_deg, weight)| weight * self.all(shared_deg + map_deg)).sum();
            return nodes.iter().map(|(shared_deg, _)| given(*shared_deg)).collect();
        }
        let side = side as usize;
        let weights: Vec<f64> = (0..=2 * side).map(|index| normal_density((index as f64 - side as f64) * step_deg, self.map_deg)).collect();
        let total: f64 = weights.iter().sum();
        let first_deg = nodes.first().map_or(0.0, |(first, _)| *first) - side as f64 * step_deg;
        let table: Vec<f64> = (0..nodes.len() + 2 * side).map(|index| self.all(first_deg + index as f64 * step_deg)).collect();
        table.windows(weights.len()).map(|part| part.iter().zip(&weights).map(|(all, weight)| all * weight).sum::<f64>() / total).collect()
    }

    fn sharpest_deg(&self) -> f64 {
        self.residuals.iter().map(|(_, own)| *own).fold(f64::INFINITY, f64::min)
    }

    fn density(&self, residual_deg: f64, sigma_deg: f64) -> f64 {
        with_tail(less(residual_deg, self.slack_deg), sigma_deg, CIRCLE_DEG, self.wrong)
    }
}

/// The angle under which metres are seen from a place at a mark; the whole half circle at the mark itself.
fn in_degrees(metres: f64, mark: &Mark, place: Point) -> f64 {
    let far_m = mark.at.minus(place).length_m();
    if metres < far_m { (metres / far_m).asin().to_degrees() } else { 180.0 }
}

/// A residual brought nearer to nothing.
fn less(residual: f64, slack: f64) -> f64 {
    residual.signum() * (residual.abs() - slack).max(0.0)
}

/// Density of a residual, normal with a uniform tail over a width, as a multiple of the tail.
fn with_tail(residual: f64, sigma: f64, width: f64, wrong: f64) -> f64 {
    if residual.abs() > NOTHING_SIGMAS * sigma {
        return 1.0;
    }
    1.0 + (1.0 - wrong) * normal_density(residual, sigma) * width / wrong
}

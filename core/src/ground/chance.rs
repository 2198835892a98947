//! The chance that a sight is clear while the heights below it may be wrong.
//!
//! The errors of the ground along the ray are a normal process whose correlation falls as `exp(-distance / length)`, held
//! at nodes and straight between them; the eye and the object stand on ground with errors of the same process. What decides
//! is the error at a place less its share of the errors at both ends, so that near the ends the sight is surer than one
//! height would make it, and over a long stretch near grazing less sure than the place of the least clearance alone.

use super::HeightSpread;
use super::clearance::Gap;
use super::normal::{at_share, quick};
#[allow(unused_imports, reason = "named in the docs")]
use super::scatter::SCATTERED;
use super::scatter::scattered;
use crate::measure::normal_share;

/// A place this near a node, in distances between nodes, lies on it: what is left of its clearance is rounding.
const SAME_NODE: f64 = 1e-6;

fn on_node(place: f64) -> f64 {
    if (place - place.round()).abs() < SAME_NODE { place.round() } else { place }
}

/// Most nodes on one ray.
const MOST_NODES: usize = 256;
/// A clearance of more sigmas than this has no part in the chance: above it lie 3e-6 of a normal distribution.
const SURE_SIGMAS: f64 = 4.5;
/// What is left out when a bound tells the chance without summing.
const LEFT_OUT: f64 = 0.001;

/// The errors of the ground along one ray.
#[derive(Debug)]
pub(super) struct Errors {
    sigma_m: f64,
    length_m: f64,
    nodes: usize,
    /// Correlation of two nodes by their number apart.
    shared: Vec<f64>,
    limits: Vec<Limit>,
}

/// The error at a node must stay below `room_m + eye · e(eye) + object · e(object) - before · e(node before)`.
#[derive(Debug, Clone, Copy)]
struct Limit {
    node: usize,
    room_m: f64,
    eye: f64,
    object: f64,
    before: f64,
}

/// A clearance that can be in doubt anywhere on a ray, metres: no place of a sight has an error of more than `√2` sigma.
pub(super) fn doubt_m(spread: HeightSpread) -> f64 {
    SURE_SIGMAS * std::f64::consts::SQRT_2 * spread.sigma_m
}

/// Ground this far above a sight leaves a chance below 0.001 whatever the errors at both ends share with it, metres.
pub(super) fn surely_hidden_m(spread: HeightSpread) -> f64 {
    3.1 * std::f64::consts::SQRT_2 * spread.sigma_m + super::clearance::GRAZE_M
}

impl Errors {
    /// The errors along a ray; nodes stand `step_m` apart, or a tenth of the correlation length where that is more.
    pub(super) fn along(length_m: f64, step_m: f64, spread: HeightSpread) -> Self {
        let apart_m = step_m.max(spread.correlation_m / 10.0);
        let nodes = ((length_m / apart_m).round() as usize).clamp(1, MOST_NODES);
        let next = (-(length_m / nodes as f64) / spread.correlation_m).exp();
        let shared = std::iter::successors(Some(1.0), |last| Some(last * next)).take(nodes + 1).collect();
        Self { sigma_m: spread.sigma_m, length_m, nodes, shared, limits: Vec::new() }
    }

    fn shared(&self, apart: usize) -> f64 {
        self.shared.get(apart).copied().unwrap_or(0.0)
    }

    /// Takes the clearance of a gap into account, where it may be in doubt: at its beginning and its lowest place, at the
    /// nodes in it, and at quarters of it, since errors that rise or fall move the lowest place.
    pub(super) fn take(&mut self, gap: &Gap) {
        if gap.lowest().1 > SURE_SIGMAS * std::f64::consts::SQRT_2 * self.sigma_m {
            return;
        }
        for quarter in [0.0, 0.25, 0.5, 0.75] {
            self.limit(gap.from_m + gap.length_m * quarter, gap.at(gap.length_m * quarter));
        }
        if let Some((at_m, room_m)) = gap.bottom() {
            self.limit(at_m, room_m);
        }
        let apart_m = self.length_m / self.nodes as f64;
        let mut node_m = (gap.from_m / apart_m).ceil() * apart_m;
        while node_m < gap.from_m + gap.length_m {
            self.limit(node_m, gap.at(node_m - gap.from_m));
            node_m += apart_m;
        }
    }

    fn limit(&mut self, at_m: f64, room_m: f64) {
        let doubtful = room_m < SURE_SIGMAS * std::f64::consts::SQRT_2 * self.sigma_m;
        // One node only: both ends of the ray, whose own errors lift eye, object and all between alike.
        if !doubtful || self.nodes < 2 {
            return;
        }
        let (object, place) = (at_m / self.length_m, on_node(at_m / self.length_m * self.nodes as f64));
        if place <= 0.0 || place >= self.nodes as f64 {
            return;
        }
        let node = (place.ceil() as usize).clamp(1, self.nodes);
        let after = place - (node - 1) as f64;
        self.limits.push(if node == self.nodes {
            Limit { node: node - 1, room_m, eye: 1.0 - object, object: object - after, before: 0.0 }.per(1.0 - after)
        } else {
            Limit { node, room_m, eye: 1.0 - object, object, before: 1.0 - after }.per(after)
        });
    }

    /// The chance that the sight is clear, a mean over so many scattered errors where no bound tells it.
    ///
    /// # Accuracy
    /// With all [`super::scatter::SCATTERED`] points 0.01 against a Monte Carlo sum of the same errors; 0.001 where a bound alone tells it.
    pub(super) fn chance(&mut self, points: usize) -> f64 {
        let mut over = 0.0;
        let mut surest = 1.0_f64;
        let limits = std::mem::take(&mut self.limits);
        for limit in limits {
            let sigmas = limit.room_m / (self.sigma_m * self.sigma(&limit)).max(f64::MIN_POSITIVE);
            if sigmas < SURE_SIGMAS {
                let clear = normal_share(sigmas);
                over += 1.0 - clear;
                surest = surest.min(clear);
                self.limits.push(limit);
            }
        }
        match (over, surest) {
            (over, _) if over < LEFT_OUT => 1.0,
            (_, surest) if surest < LEFT_OUT => 0.0,
            _ => Chain::over(self).chance(points),
        }
    }

    /// One sigma of what a limit's errors sum to, in sigmas of one height.
    fn sigma(&self, limit: &Limit) -> f64 {
        let places = [(limit.node, 1.0), (limit.node - 1, limit.before), (0, -limit.eye), (self.nodes, -limit.object)];
        let mut square = 0.0;
        for (i, (node, weight)) in places.iter().enumerate() {
            square += weight * weight;
            for (other, with) in places.iter().skip(i + 1) {
                square += 2.0 * weight * with * self.shared(node.abs_diff(*other));
            }
        }
        square.max(0.0).sqrt()
    }
}

impl Limit {
    /// The same limit when the node's error has a share of its weight.
    fn per(self, share: f64) -> Self {
        let part = 1.0 / share.max(1e-9);
        Self { room_m: self.room_m * part, eye: self.eye * part, object: self.object * part, before: self.before * part, ..self }
    }
}

/// One node of a [`Chain`]: how its error hangs on that of the node before and of the object, and what holds it down.
#[derive(Debug)]
struct Link {
    from_before: f64,
    from_object: f64,
    own: f64,
    limits: Vec<Limit>,
}

/// The nodes that have limits, one after the other, errors in sigmas.
#[derive(Debug)]
struct Chain {
    links: Vec<Link>,
    ends: f64,
}

impl Chain {
    fn over(errors: &Errors) -> Self {
        let mut by_node: std::collections::BTreeMap<usize, Vec<Limit>> = std::collections::BTreeMap::new();
        for limit in &errors.limits {
            if limit.before > 0.0 && limit.node > 1 {
                by_node.entry(limit.node - 1).or_default();
            }
            by_node.entry(limit.node).or_default().push(Limit { room_m: limit.room_m / errors.sigma_m, ..*limit });
        }
        let mut before = 0;
        let links = by_node.into_iter().map(|(node, limits)| {
            let (back, ahead) = (errors.shared(node - before), errors.shared(errors.nodes - node));
            let (back2, ahead2) = (back * back, ahead * ahead);
            let all = (1.0 - back2 * ahead2).max(f64::MIN_POSITIVE);
            before = node;
            let own = ((1.0 - back2) * (1.0 - ahead2) / all).sqrt();
            Link { from_before: back * (1.0 - ahead2) / all, from_object: ahead * (1.0 - back2) / all, own, limits }
        });
        Self { links: links.collect(), ends: errors.shared(errors.nodes) }
    }

    /// The mean over errors scattered evenly: each node's is drawn from what its limits allow, with their chance as weight.
    ///
    /// # References
    /// A. Genz (1992), Numerical computation of multivariate normal probabilities, J. Comput. Graph. Stat. 1, 141-149
    /// (the way of drawing; from memory).
    fn chance(&self, points: usize) -> f64 {
        (0..points).map(|i| self.one(i)).sum::<f64>() / points as f64
    }

    fn one(&self, i: usize) -> f64 {
        let eye = at_share(scattered(i, 0));
        let object = self.ends * eye + (1.0 - self.ends * self.ends).max(0.0).sqrt() * at_share(scattered(i, 1));
        let mut before = eye;
        let mut chance = 1.0;
        for (k, link) in self.links.iter().enumerate() {
            let mean = link.from_before * before + link.from_object * object;
            let room = |limit: &Limit| limit.room_m + limit.eye * eye + limit.object * object - limit.before * before;
            let most = link.limits.iter().map(room).fold(f64::INFINITY, f64::min);
            let clear = quick((most - mean) / link.own);
            chance *= clear;
            if chance < 1e-6 {
                return 0.0;
            }
            before = mean + link.own * at_share(clear * scattered(i, k + 2));
        }
        chance
    }
}

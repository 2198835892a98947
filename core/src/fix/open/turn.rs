//! One turn common to all bearings, held against errors of their own.

use super::chance::chance_beyond;
use super::equation::Equation;
use super::scene::Bounds;
use super::squares::{Shared, Squares};
use super::start::all_squares;
use crate::measure::{LINE_95, Point};

/// A turn of fewer of its sigmas than this may be chance: one time in a hundred.
const TOLD_SIGMAS: f64 = 2.576;
/// What is left beside the turn must not be rarer than this.
const LEAST_CHANCE: f64 = 0.01;
/// Fewer bearings to different landmarks cannot tell a turn.
const LEAST_BEARINGS: usize = 3;

/// One constant error of all bearings that explains why they do not meet.
#[derive(Debug, Clone, PartialEq)]
pub struct SharedTurn {
    /// All bearings were read too much by this, degrees; negative for too little.
    pub turn_deg: f64,
    /// One sigma of that, degrees, from the bearings alone.
    pub spread_deg: f64,
    /// How many of its sigmas it is from nothing.
    pub sigmas: f64,
    /// How many sigmas it is from nothing, that of the shared error which the instrument is known for among them.
    pub unusual_sigmas: f64,
    /// The place if all bearings are turned back.
    pub at: Point,
    /// Chi-square with the errors of all bearings independent, and with the turn.
    pub chi_square: (f64, f64),
    /// Chance of the first: so badly independent errors meet.
    pub chance_apart: f64,
    /// The sightings each of which, read wrongly alone, would explain it as well.
    pub rivals: Vec<usize>,
}

impl SharedTurn {
    /// Whether it is more than the instrument is known for.
    #[must_use]
    pub fn is_unusual(&self) -> bool {
        self.unusual_sigmas > TOLD_SIGMAS
    }
}

/// The turn that all bearings share, when it is told apart from nothing and leaves nothing unexplained.
///
/// # References
/// The likelihood-ratio test of one parameter: chi-square falls by the square of the turn's sigmas (S. S. Wilks 1938, from memory).
pub(super) fn shared_turn(equations: &[&Equation], shared_deg: f64, near: Option<Point>, bounds: &Bounds) -> Option<SharedTurn> {
    let bearings = bearings(equations);
    if bearings.len() < LEAST_BEARINGS {
        return None;
    }
    let least = |equations: &[&Equation], shared| all_squares(equations, shared, near, bounds).into_iter().next();
    let (apart, turned): (Squares, Squares) = (least(equations, Shared::Nothing)?, least(equations, Shared::Free)?);
    let sigmas = turned.shared_deg.abs() / turned.shared_spread_deg;
    let explains = chance_beyond(turned.chi_square, turned.freedom) >= LEAST_CHANCE;
    let better = apart.chi_square - turned.chi_square > TOLD_SIGMAS * TOLD_SIGMAS;
    if !(sigmas > TOLD_SIGMAS && explains && better) {
        return None;
    }
    let alone = |left_out: &usize| {
        let others: Vec<&Equation> = equations.iter().enumerate().filter(|(index, _)| index != left_out).map(|(_, one)| *one).collect();
        least(&others, Shared::Nothing).is_some_and(|rest| rest.chi_square < turned.chi_square + LINE_95 * LINE_95)
    };
    let rivals = bearings.iter().filter(|index| alone(index)).filter_map(|index| equations.get(*index)?.sightings().first().copied());
    Some(SharedTurn {
        turn_deg: turned.shared_deg,
        spread_deg: turned.shared_spread_deg,
        sigmas,
        unusual_sigmas: turned.shared_deg.abs() / turned.shared_spread_deg.hypot(shared_deg),
        at: turned.at,
        chi_square: (apart.chi_square, turned.chi_square),
        chance_apart: chance_beyond(apart.chi_square, apart.freedom),
        rivals: rivals.collect(),
    })
}

/// One sigma with which the bearings alone tell a turn that they all share, degrees; endless where they are too few to tell any.
pub(super) fn turn_spread_deg(equations: &[&Equation], near: Option<Point>, bounds: &Bounds) -> f64 {
    if bearings(equations).len() < LEAST_BEARINGS {
        return f64::INFINITY;
    }
    let turned = all_squares(equations, Shared::Free, near, bounds);
    turned.first().map_or(f64::INFINITY, |turned| turned.shared_spread_deg)
}

/// The bearings to sure landmarks, by their number.
fn bearings(equations: &[&Equation]) -> Vec<usize> {
    (0..equations.len()).filter(|index| equations.get(*index).is_some_and(|one| one.sure_bearing().is_some())).collect()
}

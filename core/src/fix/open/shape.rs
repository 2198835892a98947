//! The rule that decides whether a fix is told as an ellipse or as regions.

use super::odds::OpenOdds;
use super::squares::Squares;
use crate::measure::PLANE_95;

/// What lies beyond so many sigmas is not the ellipse's any more: of a normal distribution 0.03 %.
const FAR_SIGMAS: f64 = 4.0;
/// At least this share must lie within them.
const LEAST_NEAR: f64 = 0.8;
/// Radius that holds half of a normal distribution in the plane, in sigmas: `sqrt(2 ln 2)`.
const PLANE_50: f64 = 1.177_410_022_515_475;
/// By how much the shares within the 50 % and the 95 % ellipse may differ from those of a normal distribution.
const MAY_DIFFER: (f64, f64) = (0.05, 0.02);
const NOMINAL: f64 = 0.95;

/// A fix that is told as an ellipse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Normal {
    /// Sigmas of the ellipse that holds what it says.
    pub(super) sigmas_95: f64,
    /// What it holds.
    pub(super) holds: f64,
}

/// The ellipse of least squares, when the probability is near normal about its place.
///
/// It is widened from 2.448 sigmas until it holds 95 % of the whole, the chance of plainly wrong readings counted; where more than
/// 5 % lies beyond 4 sigmas it holds 95 % of what lies within.
pub(super) fn near_normal(squares: &Squares, odds: &OpenOdds) -> Option<Normal> {
    let mut cells: Vec<(f64, f64)> = odds
        .cells
        .iter()
        .filter_map(|cell| Some((squares.covariance.chi_square(cell.at.minus(squares.at))?.sqrt(), cell.share())))
        .filter(|(sigmas, _)| *sigmas <= FAR_SIGMAS)
        .collect();
    cells.sort_by(|a, b| a.0.total_cmp(&b.0));
    let within = |most: f64| cells.iter().take_while(|(sigmas, _)| *sigmas <= most).map(|(_, share)| share).sum::<f64>();
    let near = within(FAR_SIGMAS);
    let fits = |sigmas: f64, share: f64, may: f64| (within(sigmas) / near - share).abs() <= may;
    if near < LEAST_NEAR || !fits(PLANE_50, 0.5, MAY_DIFFER.0) || !fits(PLANE_95, NOMINAL, MAY_DIFFER.1) {
        return None;
    }
    let holds = if near > NOMINAL { NOMINAL } else { NOMINAL * near };
    let mut held = 0.0;
    let reached = cells.iter().find(|(_, share)| {
        held += share;
        held >= holds
    });
    Some(Normal { sigmas_95: reached.map_or(PLANE_95, |(sigmas, _)| *sigmas), holds })
}

//! A line that crosses itself or runs over itself comes by one place twice: who stands there stands at one place.

use super::Stretch;
use crate::measure::Covariance;
use crate::sheet::Line;

/// Two likeliest places that are no farther apart than this may be one, metres: as little does not part two stretches along the line.
const NEAR_M: f64 = 30.0;
/// The limits are gone along in steps of this length, so that no crossing is passed over, metres.
const STEP_M: f64 = 2.0;
/// Limits that reach farther are those of two ways to search, however they cross, metres.
const FARTHEST_M: f64 = 200.0;
/// A line that comes by turned by no more than 30 degrees, forth or back, runs over itself: the sine.
const SAME_WAY_SINE: f64 = 0.5;

/// The stretches, likeliest first, with those that are passes of one place as one: it has the limits of the likelier pass, their
/// shares together, and in the plane the spread of both.
pub(super) fn joined(lines: &[&Line], stretches: Vec<Stretch>) -> Vec<Stretch> {
    let mut all: Vec<Stretch> = Vec::with_capacity(stretches.len());
    for one in stretches {
        match all.iter_mut().find(|other| lines.get(one.line).is_some_and(|line| is_one_place(line, other, &one))) {
            Some(likelier) => *likelier = together(likelier, &one),
            None => all.push(one),
        }
    }
    all.sort_by(|a, b| b.share.total_cmp(&a.share));
    all
}

fn is_one_place(line: &Line, one: &Stretch, other: &Stretch) -> bool {
    one.line == other.line && (is_run_over(line, one, other) || is_crossed(line, one, other))
}

/// Whether the line comes by within its own spread, the same way or back.
fn is_run_over(line: &Line, one: &Stretch, other: &Stretch) -> bool {
    let (one, other) = (one.best, other.best);
    one.at.minus(other.at).length_m() <= line.spread_m && one.direction.cross(other.direction).abs() <= SAME_WAY_SINE
}

/// Whether the line crosses itself within the limits of both, so that neither reaches beyond the other's place by more than that does.
fn is_crossed(line: &Line, one: &Stretch, other: &Stretch) -> bool {
    let apart_m = one.best.at.minus(other.best.at).length_m();
    if apart_m > NEAR_M || other.half_width_95_m() > (one.half_width_95_m() + NEAR_M).min(FARTHEST_M) {
        return false;
    }
    let ((low_m, high_m), (from_m, to_m)) = (one.limits_95_m, other.limits_95_m);
    let steps = ((high_m - low_m) / STEP_M).ceil() as usize;
    let comes_by = |step: usize| line.comes_by((low_m + step as f64 * STEP_M).min(high_m));
    (0..=steps).any(|step| comes_by(step).into_iter().skip(1).any(|again_m| (from_m..=to_m).contains(&again_m)))
}

fn together(one: &Stretch, other: &Stretch) -> Stretch {
    let share = one.share + other.share;
    let off = Covariance::outer(other.best.at.minus(one.best.at));
    let mean = |one_of: f64, other_of: f64| (one.share * one_of + other.share * other_of) / share;
    let covariance = one.covariance.times(one.share).plus(other.covariance.plus(off).times(other.share)).times(1.0 / share);
    Stretch { share, covariance, spread_m: mean(one.spread_m.powi(2), other.spread_m.powi(2)).sqrt(), ..*one }
}

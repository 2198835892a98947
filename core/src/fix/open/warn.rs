//! Which cautions a fix in the open calls for.

use super::caution::OpenCaution;
use super::equation::{Equation, Mark, direction};
use super::resection::circle_through;
use super::scene::{OpenGround, OpenSighting};
use super::take::{Found, OpenFix};
use crate::earth::Caution;
use crate::fix::Verdict;
use crate::fix::cautions::HIDDEN_CHANCE;
use crate::measure::Point;

/// Cuts flatter than this are told, degrees: at 30° the longer half-axis is nearly four times the shorter.
const POOR_CUT_DEG: f64 = 30.0;
/// Nearer to the danger circle than this share of its radius is told ...
const NEAR_CIRCLE_SHARE: f64 = 0.25;
/// ... when the place slides by more than so many widths of an angle.
const MANY_TIMES: f64 = 5.0;
const CIRCLE_DEG: f64 = 360.0;
/// Angles that miss a circle by more than so many of their sigmas are misread.
const ROUND_SIGMAS: f64 = 3.0;
/// A place nearer to a line than this share of its distance to the marks lies in it.
const IN_LINE_SHARE: f64 = 0.02;

pub(super) fn cautions(found: &Found<'_>, fix: &OpenFix) -> Vec<OpenCaution> {
    let mut told = Vec::new();
    match found.scene.norths.caution() {
        Some(Caution::Blackout) => told.push(OpenCaution::Blackout),
        Some(Caution::Weak) => told.push(OpenCaution::WeakField),
        None => {}
    }
    told.extend(too_few(found));
    if fix.regions.len() > 1 {
        told.push(OpenCaution::SeveralRegions(fix.regions.len()));
    }
    told.extend(poor_cut(found, fix));
    told.extend(hidden(found, fix));
    let not_round = not_round(found);
    if not_round.is_none() {
        told.extend(danger(found, fix));
    }
    told.extend(turn(found));
    told.extend(
        found
            .seen
            .iter()
            .filter(|one| one.verdict() == Verdict::Misfit)
            .map(|one| OpenCaution::Misfit { landmark: one.landmark.clone(), sigmas: one.sigmas() }),
    );
    if not_round.is_none() {
        told.extend(area(found, fix));
    }
    told.extend(not_round);
    told
}

/// Angles of which each begins where one before it ends, once round: they must add up to a circle, wherever one stands.
fn not_round(found: &Found<'_>) -> Option<OpenCaution> {
    let angle = |one: &Equation| match one {
        Equation::Angle { left, right, angle_deg, own_deg, .. } => Some((left.at, right.at, *angle_deg, *own_deg)),
        Equation::Bearing { .. } | Equation::Distance { .. } => None,
    };
    let angles: Vec<(Point, Point, f64, f64)> = found.equations.iter().filter_map(angle).collect();
    (0..angles.len())
        .find_map(|first| round(&angles, first))
        .filter(|(sum_deg, spread_deg)| {
            let off_deg = sum_deg - CIRCLE_DEG * (sum_deg / CIRCLE_DEG).round().max(1.0);
            off_deg.abs() > ROUND_SIGMAS * spread_deg
        })
        .map(|(sum_deg, _)| OpenCaution::NotRound { sum_deg })
}

/// The sum of the angles that lead from one of them back to its beginning, and one sigma of it, degrees.
fn round(angles: &[(Point, Point, f64, f64)], first: usize) -> Option<(f64, f64)> {
    let (start, mut at, mut sum_deg, own_deg) = *angles.get(first)?;
    let mut spread_deg = own_deg;
    for _ in 1..angles.len() {
        let (_, right, angle_deg, own_deg) = angles.iter().find(|(left, ..)| *left == at)?;
        (at, sum_deg, spread_deg) = (*right, sum_deg + angle_deg, spread_deg.hypot(*own_deg));
        if at == start {
            return Some((sum_deg, spread_deg));
        }
    }
    None
}

/// The landmarks that were sighted and that the heights hide: from the place itself, or from where the readings meet and the place is not.
fn hidden(found: &Found<'_>, fix: &OpenFix) -> Vec<OpenCaution> {
    let is_hidden = |ground: &OpenGround<'_>, at: Point| (ground.likelihood)(at) < HIDDEN_CHANCE * ground.most;
    let meet = found.squares.map(|squares| squares.at).filter(|at| found.scene.bounds.holds(*at));
    let caution = |one: &OpenSighting<'_>| {
        let OpenSighting::Ground(ground) = one else { return None };
        let landmark = ground.sight_of?.to_owned();
        if is_hidden(ground, fix.at) {
            return Some(OpenCaution::Hidden { landmark });
        }
        meet.filter(|at| is_hidden(ground, *at)).map(|_| OpenCaution::HiddenWhereMet { landmark })
    };
    found.scene.sightings.iter().filter_map(caution).collect()
}

/// Fewer equations than a place needs, unless the ground says the rest.
fn too_few(found: &Found<'_>) -> Option<OpenCaution> {
    let ground = found.scene.sightings.iter().any(|one| matches!(one, OpenSighting::Ground(ground) if !ground.implied));
    (found.equations.len() < 2 && !ground).then_some(OpenCaution::TooFew)
}

/// The best cut of any two bearings, where there is nothing but bearings.
fn poor_cut(found: &Found<'_>, fix: &OpenFix) -> Option<OpenCaution> {
    let marks: Option<Vec<&Mark>> = found.equations.iter().map(|one| one.sure_bearing().map(|(mark, _)| mark)).collect();
    let rays: Vec<f64> = marks?.iter().map(|mark| direction(mark, fix.at).0).collect();
    if rays.len() < 2 {
        return None;
    }
    let cut = |one: f64, other: f64| (one - other).to_radians().sin().abs().asin().to_degrees();
    let cuts = rays.iter().enumerate().flat_map(|(index, one)| rays.iter().skip(index + 1).map(move |other| cut(*one, *other)));
    let cut_deg = cuts.fold(0.0, f64::max);
    (cut_deg < POOR_CUT_DEG).then(|| OpenCaution::PoorCut { cut_deg, reach_m: reach_m(fix) })
}

fn reach_m(fix: &OpenFix) -> f64 {
    let first = fix.regions.first().map_or(0.0, |region| region.reach_m);
    if fix.shape == super::OpenShape::Ellipse { fix.ellipse_95().major_m } else { first }
}

/// The marks of a resection by angles alone, when there are three, with the widest spread of its angles, degrees.
fn three_marks(equations: &[Equation]) -> Option<([Point; 3], f64)> {
    let mut marks: Vec<Point> = Vec::new();
    let mut spread_deg = 0f64;
    for equation in equations {
        let Equation::Angle { left, right, own_deg, .. } = equation else { return None };
        spread_deg = spread_deg.max(*own_deg);
        for at in [left.at, right.at] {
            if !marks.contains(&at) {
                marks.push(at);
            }
        }
    }
    let marks: [Point; 3] = marks.try_into().ok()?;
    (equations.len() >= 2).then_some((marks, spread_deg))
}

fn danger(found: &Found<'_>, fix: &OpenFix) -> Option<OpenCaution> {
    let (marks, spread_deg) = three_marks(found.equations)?;
    let Some((centre, radius_m)) = circle_through(marks) else {
        return is_in_line(marks, fix.at).then_some(OpenCaution::InLine);
    };
    let off_share = (fix.at.minus(centre).length_m() / radius_m - 1.0).abs();
    let far_m = marks.iter().map(|mark| mark.minus(fix.at).length_m()).sum::<f64>() / 3.0;
    let times = found.squares.map(|squares| squares.covariance.ellipse().major_m / (far_m * spread_deg.to_radians()));
    let near = off_share < NEAR_CIRCLE_SHARE && times.is_none_or(|times| times > MANY_TIMES);
    (near || times.is_none()).then(|| OpenCaution::DangerCircle { off_share, times, reach_m: reach_m(fix) })
}

fn is_in_line(marks: [Point; 3], at: Point) -> bool {
    let [first, _, third] = marks;
    let along = third.minus(first);
    let off_m = at.minus(first).cross(along).abs() / along.length_m();
    let far_m = marks.iter().map(|mark| mark.minus(at).length_m()).fold(f64::INFINITY, f64::min);
    off_m < IN_LINE_SHARE * far_m
}

fn turn(found: &Found<'_>) -> Option<OpenCaution> {
    let turn = found.turn.filter(|turn| turn.is_unusual())?;
    let name = |index: &usize| found.scene.sightings.get(*index).map(super::OpenSighting::name);
    let rivals = turn.rivals.iter().filter_map(name).collect();
    Some(OpenCaution::SharedTurn { turn_deg: turn.turn_deg, spread_deg: turn.spread_deg, rivals })
}

/// What lies outside of the area, or in none of the regions.
fn area(found: &Found<'_>, fix: &OpenFix) -> Vec<OpenCaution> {
    let bounds = &found.scene.bounds;
    let mut told = Vec::new();
    if found.squares.is_some_and(|squares| !bounds.holds(squares.at)) {
        told.push(OpenCaution::BeyondArea);
    } else if touches_edge(found, fix) {
        told.push(OpenCaution::AtEdge);
    }
    if fix.is_much_elsewhere() {
        told.push(OpenCaution::Elsewhere(fix.elsewhere));
    }
    told
}

fn touches_edge(found: &Found<'_>, fix: &OpenFix) -> bool {
    let bounds = &found.scene.bounds;
    let inside = found.odds.cells.iter().take_while(|cell| cell.per_m2 >= fix.levels_per_m2.1);
    inside.into_iter().any(|cell| {
        let half = cell.sides.times(0.75);
        !(bounds.holds(cell.at.plus(half)) && bounds.holds(cell.at.minus(half)))
    })
}

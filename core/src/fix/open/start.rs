//! Where the search for the least sum begins: at every place where two measurements meet.

use super::equation::{Equation, Mark, Reading};
use super::resection::circles_meet;
use super::scene::Bounds;
use super::squares::{Shared, Squares, cost_at, squares_from};
use crate::measure::Point;

/// Starts on each side of the area that are tried beside the crossings.
const GRID: usize = 7;
/// The best starts from which a search is made.
const MOST_STARTS: usize = 8;
/// Two solutions nearer than this are one, metres.
const SAME_M: f64 = 0.01;

/// A line, an arc or a circle on which one measurement puts the walker.
#[derive(Debug, Clone, Copy)]
enum Locus {
    /// From a mark, straight in a direction.
    Ray(Point, Point),
    /// Round a centre.
    Circle(Point, f64),
}

fn loci(equation: &Equation, near: Point) -> Option<Locus> {
    if let Some((mark, reading)) = equation.sure_bearing() {
        return Some(ray(mark, &reading, near));
    }
    match equation {
        Equation::Bearing { .. } => None,
        Equation::Distance { mark, distance_m, .. } => Some(Locus::Circle(mark.at, *distance_m)),
        Equation::Angle { left, right, angle_deg, .. } => {
            super::resection::circle_of_angle(left.at, right.at, *angle_deg).map(|(centre, radius_m)| Locus::Circle(centre, radius_m))
        }
    }
}

fn ray(mark: &Mark, reading: &Reading, near: Point) -> Locus {
    Locus::Ray(mark.at, Point::polar(-1.0, reading.at(near)))
}

fn meet(one: Locus, other: Locus) -> Vec<Point> {
    match (one, other) {
        (Locus::Ray(from, along), Locus::Ray(to, other)) => {
            let turn = along.cross(other);
            let far_m = to.minus(from).cross(other) / turn;
            if far_m.is_finite() && turn.abs() > 1e-9 { vec![from.plus(along.times(far_m))] } else { Vec::new() }
        }
        (Locus::Ray(from, along), Locus::Circle(centre, radius_m)) | (Locus::Circle(centre, radius_m), Locus::Ray(from, along)) => {
            let middle_m = centre.minus(from).dot(along);
            let off_m = centre.minus(from).cross(along).abs();
            let half_m = (radius_m * radius_m - off_m * off_m).max(0.0).sqrt();
            [middle_m - half_m, middle_m + half_m].map(|far_m| from.plus(along.times(far_m))).to_vec()
        }
        (Locus::Circle(one, radius1_m), Locus::Circle(two, radius2_m)) => circles_meet((one, radius1_m), (two, radius2_m)),
    }
}

fn starts(equations: &[&Equation], near: Option<Point>, bounds: &Bounds) -> Vec<Point> {
    let guess = near.unwrap_or_else(|| bounds.middle());
    let loci: Vec<Locus> = equations.iter().filter_map(|one| loci(one, guess)).collect();
    let mut found: Vec<Point> = near.into_iter().collect();
    for (index, one) in loci.iter().enumerate() {
        found.extend(loci.iter().skip(index + 1).flat_map(|other| meet(*one, *other)));
    }
    let share = |index: usize| (index as f64 + 0.5) / GRID as f64;
    let across = bounds.across();
    let on_grid = |index: usize| Point::new(across.east_m * share(index % GRID), across.north_m * share(index / GRID));
    found.extend((0..GRID * GRID).map(|index| bounds.low.plus(on_grid(index))));
    found
}

/// All places of a least sum that the starts lead to, the least first.
pub(super) fn all_squares(equations: &[&Equation], shared: Shared, near: Option<Point>, bounds: &Bounds) -> Vec<Squares> {
    let mut starts: Vec<(f64, Point)> =
        starts(equations, near, bounds).into_iter().map(|at| (cost_at(equations, at), at)).filter(|(cost, _)| cost.is_finite()).collect();
    starts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found: Vec<Squares> = Vec::new();
    for (_, start) in starts.into_iter().take(MOST_STARTS) {
        let Some(one) = squares_from(equations, shared, start) else { continue };
        if !found.iter().any(|other| other.at.minus(one.at).length_m() < SAME_M) {
            found.push(one);
        }
    }
    found.sort_by(|a, b| a.chi_square.total_cmp(&b.chi_square));
    found
}

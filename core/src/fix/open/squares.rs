//! Weighted least squares: the place and the shared compass error together.

use nalgebra::{Matrix3, Vector3};

use super::equation::{Equation, Row};
use crate::measure::{Covariance, Point};

/// Most steps of one search.
const MOST_STEPS: usize = 200;
/// A search stands still when a step is shorter than this, metres.
const STILL_M: f64 = 1e-8;
/// Half-axes whose ratio is below this leave the place undetermined.
const LEAST_AXES_RATIO: f64 = 1e-5;

/// The error that all bearings share, as it enters least squares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shared {
    /// None.
    Nothing,
    /// One normal error of this spread, degrees.
    Spread(f64),
    /// One error of any size.
    Free,
}

/// What least squares found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Squares {
    /// The place.
    pub at: Point,
    /// Its covariance, the shared error summed out.
    pub covariance: Covariance,
    /// The shared error of all bearings, degrees: read too much by.
    pub shared_deg: f64,
    /// One sigma of that, degrees; 0 where none was sought.
    pub shared_spread_deg: f64,
    /// Sum of the squared residuals over their spreads, that of the shared error among them.
    pub chi_square: f64,
    /// Measurements beyond those that the place needs: the degrees of freedom of that sum.
    pub freedom: usize,
}

/// Place and shared error.
#[derive(Debug, Clone, Copy)]
struct Unknowns {
    at: Point,
    shared_deg: f64,
}

struct Problem<'a> {
    equations: &'a [&'a Equation],
    shared: Shared,
}

impl Problem<'_> {
    fn rows(&self, unknowns: Unknowns, weighed_from: Point) -> impl Iterator<Item = Row> {
        let seek = if self.shared == Shared::Nothing { 0.0 } else { 1.0 };
        let of = move |one: &&Equation| one.row(unknowns.at, weighed_from);
        self.equations.iter().filter_map(of).map(move |row| {
            let shared = row.shared * seek;
            Row { residual: row.residual - shared * unknowns.shared_deg, shared, ..row }
        })
    }

    /// Weight of "the shared error is nothing", and whether it is sought at all.
    fn prior(&self) -> f64 {
        match self.shared {
            Shared::Nothing => 1.0,
            Shared::Spread(spread_deg) => spread_deg.powi(-2),
            Shared::Free => 0.0,
        }
    }

    fn cost(&self, unknowns: Unknowns, weighed_from: Point) -> f64 {
        let sum: f64 = self.rows(unknowns, weighed_from).map(|row| (row.residual / row.sigma).powi(2)).sum();
        sum + self.prior() * unknowns.shared_deg.powi(2)
    }

    /// Normal matrix and right-hand side.
    fn normal(&self, unknowns: Unknowns) -> (Matrix3<f64>, Vector3<f64>) {
        let prior = self.prior();
        let mut matrix = Matrix3::from_diagonal(&Vector3::new(0.0, 0.0, prior));
        let mut right = Vector3::new(0.0, 0.0, -prior * unknowns.shared_deg);
        for row in self.rows(unknowns, unknowns.at) {
            let slope = Vector3::new(row.slope.east_m, row.slope.north_m, row.shared) / row.sigma;
            matrix += slope * slope.transpose();
            right += slope * (row.residual / row.sigma);
        }
        (matrix, right)
    }

    /// A damped step that does not make things worse, and the damping after it.
    fn step(&self, from: Unknowns, mut damping: f64) -> Option<(Unknowns, f64)> {
        let (matrix, right) = self.normal(from);
        let before = self.cost(from, from.at);
        for _ in 0..40 {
            let damped = matrix + Matrix3::from_diagonal(&(matrix.diagonal() * damping));
            if let Some(change) = damped.cholesky().map(|factor| factor.solve(&right)) {
                let [[east_m, north_m, shared_deg]] = change.data.0;
                let to = Unknowns { at: from.at.plus(Point::new(east_m, north_m)), shared_deg: from.shared_deg + shared_deg };
                if self.cost(to, from.at) <= before * (1.0 + 1e-10) + 1e-18 {
                    return Some((to, if damping < 1e-9 { 0.0 } else { damping / 10.0 }));
                }
            }
            damping = (damping * 10.0).max(1e-6);
        }
        None
    }

    fn sought(&self, start: Point) -> Option<Unknowns> {
        let mut here = Unknowns { at: start, shared_deg: 0.0 };
        let mut damping = 1e-3;
        for _ in 0..MOST_STEPS {
            let (next, eased) = self.step(here, damping)?;
            let moved_m = next.at.minus(here.at).length_m();
            (here, damping) = (next, eased);
            if moved_m < STILL_M && damping <= 1e-6 {
                return Some(here);
            }
        }
        None
    }

    fn described(&self, unknowns: Unknowns) -> Option<Squares> {
        let (matrix, _) = self.normal(unknowns);
        let [[ee, en, _], [_, nn, _], [_, _, bb]] = matrix.cholesky()?.inverse().data.0;
        let covariance = Covariance { east2: ee, east_north: en, north2: nn };
        let ellipse = covariance.ellipse();
        let known = usize::from(self.shared == Shared::Free);
        let count = self.rows(unknowns, unknowns.at).count();
        let within: Vec<(f64, usize)> = self.equations.iter().map(|one| one.within()).collect();
        let determined = ellipse.major_m.is_finite() && ellipse.minor_m / ellipse.major_m > LEAST_AXES_RATIO && count >= 2 + known;
        determined.then(|| Squares {
            at: unknowns.at,
            covariance,
            shared_deg: unknowns.shared_deg,
            shared_spread_deg: if self.shared == Shared::Nothing { 0.0 } else { bb.sqrt() },
            chi_square: self.cost(unknowns, unknowns.at) + within.iter().map(|one| one.0).sum::<f64>(),
            freedom: count - 2 - known + within.iter().map(|one| one.1).sum::<usize>(),
        })
    }
}

/// The least sum that a search from a place ends in; nothing where the equations leave the place undetermined.
///
/// The variance of a bearing grows by the square of map spread over distance, taken at the solution itself
/// and held while it is sought.
///
/// # References
/// Gauss-Newton with damping: K. Levenberg 1944, D. Marquardt 1963 (from memory). Held against `SciPy` 1.17.1 in
/// `tests/tables/fix/open_ground.json`.
pub(super) fn squares_from(equations: &[&Equation], shared: Shared, start: Point) -> Option<Squares> {
    let problem = Problem { equations, shared };
    problem.described(problem.sought(start)?)
}

/// The sum at a place, the shared error left out: how good a start it is.
pub(super) fn cost_at(equations: &[&Equation], at: Point) -> f64 {
    Problem { equations, shared: Shared::Nothing }.cost(Unknowns { at, shared_deg: 0.0 }, at)
}

//! Normal equations whose unknowns are let free one after the other.

use nalgebra::DMatrix;

/// Normal equations over all unknowns, of which some are let free and the others are held at 0.
///
/// # References
/// J. H. Goodnight (1979), A tutorial on the sweep operator, The American Statistician 33 (from memory).
#[derive(Clone)]
pub(super) struct Sweep {
    /// Swept rows hold the covariances with the sign turned, the others what is left of the equations; the last column is the
    /// right-hand side, and the estimates.
    matrix: DMatrix<f64>,
}

/// Below this share of the equations before, an unknown is not determined by what was read.
const LEAST_PIVOT: f64 = 1e-9;

impl Sweep {
    pub(super) fn of(unknowns: usize) -> Self {
        Self { matrix: DMatrix::zeros(unknowns + 1, unknowns + 1) }
    }

    /// Takes a measurement in: the sum of these unknowns with their signs, and one sigma of it.
    pub(super) fn take(&mut self, ends: &[(usize, f64)], measured: f64, sigma: f64) {
        let row: Vec<(usize, f64)> = ends.iter().copied().chain([(self.last(), measured)]).collect();
        for (i, one) in &row {
            for (j, other) in &row {
                self.add(*i, *j, one * other / (sigma * sigma));
            }
        }
    }

    /// Holds an unknown near 0, with one sigma.
    pub(super) fn hold_near_zero(&mut self, unknown: usize, sigma: f64) {
        self.add(unknown, unknown, 1.0 / (sigma * sigma));
    }

    fn add(&mut self, i: usize, j: usize, value: f64) {
        if let Some(to) = self.matrix.get_mut((i, j)) {
            *to += value;
        }
    }

    fn last(&self) -> usize {
        self.matrix.nrows().saturating_sub(1)
    }

    fn at(&self, i: usize, j: usize) -> f64 {
        self.matrix.get((i, j)).copied().unwrap_or(0.0)
    }

    /// What the logarithm of the evidence gains when an unknown with this spread beforehand is let free; it must be held near 0 by it.
    pub(super) fn gain(&self, unknown: usize, sigma: f64) -> f64 {
        let pivot = self.at(unknown, unknown);
        if pivot <= 0.0 {
            return f64::NEG_INFINITY;
        }
        0.5 * self.at(unknown, self.last()).powi(2) / pivot - 0.5 * (pivot * sigma * sigma).ln()
    }

    /// Lets an unknown free; false where nothing determines it, and then nothing changes.
    pub(super) fn free(&mut self, unknown: usize, before: f64) -> bool {
        let pivot = self.at(unknown, unknown);
        if pivot <= LEAST_PIVOT * before || pivot <= 0.0 {
            return false;
        }
        let row: Vec<f64> = self.matrix.row(unknown).iter().copied().collect();
        for (j, other) in row.iter().enumerate() {
            for (i, one) in row.iter().enumerate().filter(|_| *other != 0.0) {
                self.add(i, j, -one * other / pivot);
            }
        }
        for (i, one) in row.iter().enumerate() {
            self.put(i, unknown, one / pivot);
            self.put(unknown, i, one / pivot);
        }
        self.put(unknown, unknown, -1.0 / pivot);
        true
    }

    fn put(&mut self, i: usize, j: usize, value: f64) {
        if let Some(to) = self.matrix.get_mut((i, j)) {
            *to = value;
        }
    }

    /// What stands on the diagonal: before anything is let free, how much is known of an unknown.
    pub(super) fn known_of(&self, unknown: usize) -> f64 {
        self.at(unknown, unknown)
    }

    /// The estimate of an unknown that was let free.
    pub(super) fn estimate(&self, unknown: usize) -> f64 {
        self.at(unknown, self.last())
    }

    /// Covariance of two unknowns that were let free.
    pub(super) fn covariance(&self, one: usize, other: usize) -> f64 {
        -self.at(one, other)
    }

    /// What an unknown that is held at 0 would be if it were let free as well, and its variance; none where nothing determines it.
    pub(super) fn if_freed(&self, unknown: usize, before: f64) -> Option<(f64, f64)> {
        let pivot = self.at(unknown, unknown);
        (pivot > LEAST_PIVOT * before && pivot > 0.0).then(|| (self.estimate(unknown) / pivot, 1.0 / pivot))
    }
}

//! Least squares over closures: `attraction(from) - attraction(to) = closure`.

use std::collections::BTreeMap;

use nalgebra::{DMatrix, DVector};

use super::stations::Line;
use crate::measure::signed_difference_deg;

/// Attractions of stations, and their cofactors: covariances for a closure of one degree's spread.
pub(super) struct Adjusted {
    stations: Vec<usize>,
    attractions: Vec<f64>,
    cofactors: DMatrix<f64>,
}

/// Adjusts the attraction of `unknowns` over the lines, with that of `free` held at 0; none when lines do not join them all.
///
/// The trade's way comes first: the attraction is carried on from line to line. What the lines then still leave is small, so
/// that least squares over it does not mistake a closure of 181 degrees for one of -179.
pub(super) fn adjust(lines: &[Line], free: &[usize], unknowns: &[usize]) -> Option<Adjusted> {
    let carried = carry(lines, free);
    let at = |station: usize| carried.get(&station).copied().unwrap_or(0.0);
    let left = lines.iter().map(|line| left_of(*line, at(line.from) - at(line.to)));
    let (normal, right) = normal_equations(&left.collect::<Vec<_>>(), unknowns);
    let cofactors = normal.cholesky()?.inverse();
    let more = &cofactors * right;
    let attractions = unknowns.iter().zip(more.iter()).map(|(station, more)| signed_difference_deg(at(*station) + more, 0.0));
    Some(Adjusted { attractions: attractions.collect(), stations: unknowns.to_vec(), cofactors })
}

/// The line with a difference of attractions taken off its closure.
fn left_of(line: Line, difference_deg: f64) -> Line {
    Line { closure_deg: signed_difference_deg(line.closure_deg, difference_deg), ..line }
}

impl Adjusted {
    /// Each adjusted station with its attraction, degrees, and its cofactor.
    pub(super) fn stations(&self) -> impl Iterator<Item = (usize, f64, f64)> {
        let told = self.attractions.iter().zip(self.cofactors.diagonal().iter().copied().collect::<Vec<_>>());
        self.stations.iter().zip(told).map(|(station, (attraction_deg, cofactor))| (*station, *attraction_deg, cofactor))
    }

    /// Attraction, degrees; 0 for a station that was held free.
    pub(super) fn attraction_deg(&self, station: usize) -> f64 {
        self.place(station).and_then(|place| self.attractions.get(place)).copied().unwrap_or(0.0)
    }

    /// Cofactor of two stations; 0 with a station that was held free.
    pub(super) fn cofactor(&self, one: usize, other: usize) -> f64 {
        let both = self.place(one).zip(self.place(other));
        both.and_then(|place| self.cofactors.get(place)).copied().unwrap_or(0.0)
    }

    fn place(&self, station: usize) -> Option<usize> {
        self.stations.iter().position(|known| *known == station)
    }
}

/// The attraction of every station that lines join to the free ones, carried on over the fewest lines.
fn carry(lines: &[Line], free: &[usize]) -> BTreeMap<usize, f64> {
    let mut carried: BTreeMap<usize, f64> = free.iter().map(|station| (*station, 0.0)).collect();
    loop {
        let next: BTreeMap<usize, f64> = lines.iter().filter_map(|line| step(*line, &carried)).collect();
        if next.is_empty() {
            return carried;
        }
        carried.extend(next);
    }
}

/// The far end of a line whose near end is known.
fn step(line: Line, carried: &BTreeMap<usize, f64>) -> Option<(usize, f64)> {
    match (carried.get(&line.from), carried.get(&line.to)) {
        (Some(from), None) => Some((line.to, from - line.closure_deg)),
        (None, Some(to)) => Some((line.from, to + line.closure_deg)),
        _ => None,
    }
}

/// The normal equations over the unknown stations.
fn normal_equations(lines: &[Line], unknowns: &[usize]) -> (DMatrix<f64>, DVector<f64>) {
    let place = |station: usize| unknowns.iter().position(|unknown| *unknown == station);
    let mut normal = DMatrix::zeros(unknowns.len(), unknowns.len());
    let mut right = DVector::zeros(unknowns.len());
    for line in lines {
        let ends = [(place(line.from), 1.0), (place(line.to), -1.0)];
        for (row, sign) in ends.iter().filter_map(|(place, sign)| Some(((*place)?, sign))) {
            add(right.get_mut(row), sign * line.closure_deg);
            for (column, other) in ends.iter().filter_map(|(place, sign)| Some(((*place)?, sign))) {
                add(normal.get_mut((row, column)), sign * other);
            }
        }
    }
    (normal, right)
}

fn add(to: Option<&mut f64>, value: f64) {
    if let Some(to) = to {
        *to += value;
    }
}

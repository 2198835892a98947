//! One line of a file with the metres along it, in a plane of its own.

use super::raster::length_m;
use super::shape::{Pos, between, metres_from};

/// Nearer to a point of the line than this a place is that point, metres.
pub(super) const SAME_M: f64 = 0.01;
/// Lines of more points than this are not held against themselves, so that a file made to take memory cannot.
const MOST_POINTS: usize = 500_000;
/// A line whose directions differ by less than this comes back nowhere, degrees.
const LEAST_TURNING_DEG: f64 = 150.0;

/// A line in metres east and north of its first point, and how far along each of its points lies.
pub(super) struct Trace<'a> {
    line: &'a [Pos],
    pub(super) plane: Vec<(f64, f64)>,
    pub(super) along_m: Vec<f64>,
}

impl<'a> Trace<'a> {
    /// Nothing for a line that is too short to come back, hardly turns, or has too many points.
    pub(super) fn of(line: &'a [Pos]) -> Option<Self> {
        let from = line.first().filter(|_| (3..=MOST_POINTS).contains(&line.len()))?;
        let plane: Vec<(f64, f64)> = line.iter().map(|at| metres_from(*from, *at)).collect();
        let mut along_m = vec![0.0];
        let mut sum_m = 0.0;
        for pair in plane.windows(2) {
            sum_m += length_m(pair);
            along_m.push(sum_m);
        }
        let trace = Self { line, plane, along_m };
        (sum_m.is_finite() && trace.turning_deg() >= LEAST_TURNING_DEG).then_some(trace)
    }

    pub(super) fn length_m(&self) -> f64 {
        self.along_m.last().copied().unwrap_or_default()
    }

    /// The straight piece on which a place lies, and the share of it that lies before the place.
    fn piece(&self, along_m: f64) -> (usize, f64) {
        let piece = self.along_m.partition_point(|point_m| *point_m <= along_m).saturating_sub(1).min(self.along_m.len().saturating_sub(2));
        let (from_m, to_m) = (self.point_m(piece), self.point_m(piece + 1));
        let share = (along_m - from_m) / (to_m - from_m);
        (piece, if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 })
    }

    fn point_m(&self, point: usize) -> f64 {
        self.along_m.get(point).copied().unwrap_or_default()
    }

    /// A place of the line in the plane.
    pub(super) fn at(&self, along_m: f64) -> (f64, f64) {
        let (piece, share) = self.piece(along_m);
        match self.plane.get(piece..).unwrap_or_default() {
            [a, b, ..] => (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share),
            _ => (0.0, 0.0),
        }
    }

    /// A place of the line on the earth: the very point where it has one.
    pub(super) fn place(&self, along_m: f64) -> Option<Pos> {
        let (piece, share) = self.piece(along_m);
        let (a, b) = (*self.line.get(piece)?, *self.line.get(piece + 1)?);
        let is_at = |point: usize| (along_m - self.point_m(point)).abs() <= SAME_M;
        Some(if is_at(piece) {
            a
        } else if is_at(piece + 1) {
            b
        } else {
            between(a, b, share)
        })
    }

    /// The unit step from so far before a place to so far behind it; nothing in either way where they are one.
    pub(super) fn direction(&self, along_m: f64, half_m: f64) -> (f64, f64) {
        let (a, b) = (self.at(along_m - half_m), self.at(along_m + half_m));
        let step_m = length_m(&[a, b]);
        if step_m > 0.0 { ((b.0 - a.0) / step_m, (b.1 - a.1) / step_m) } else { (0.0, 0.0) }
    }

    /// The points of the line between two places, both left out, by their metres along it.
    pub(super) fn points_between(&self, from_m: f64, to_m: f64) -> impl DoubleEndedIterator<Item = (f64, Pos)> + '_ {
        let all = self.along_m.iter().copied().zip(self.line.iter().copied());
        let (first, last) = (self.along_m.partition_point(|at| *at <= from_m), self.along_m.partition_point(|at| *at < to_m));
        all.take(last).skip(first)
    }

    /// By how much its directions differ at most, every turn counted from the last: bends to both sides make up for each other.
    fn turning_deg(&self) -> f64 {
        let bearings = self.plane.windows(2).filter(|pair| length_m(pair) > 0.0).map(|pair| match pair {
            [a, b] => (b.0 - a.0).atan2(b.1 - a.1).to_degrees(),
            _ => 0.0,
        });
        let bearings: Vec<f64> = bearings.collect();
        let turn = |pair: &[f64]| if let [a, b] = pair { (b - a + 180.0).rem_euclid(360.0) - 180.0 } else { 0.0 };
        let turned = bearings.windows(2).scan(0.0, |sum, pair| {
            *sum += turn(pair);
            Some(*sum)
        });
        let (least, most) = turned.fold((0.0_f64, 0.0_f64), |(least, most), sum| (least.min(sum), most.max(sum)));
        most - least
    }
}

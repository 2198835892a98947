//! What is still known of the errors along a sight once some of its places were found clear.
//!
//! Of each place its mean and spread are kept, as those of a normal error that a limit has cut, together with both ends, the place likeliest
//! to be hidden and the last two: what one more place hangs together with.
//!
//! # References
//! N. R. Mendell and R. C. Elston (1974), Multifactorial qualitative traits: genetic analysis and prediction of recurrence risks,
//! Biometrics 30, 41-57: a normal error that is cut is followed by its mean and spread (from memory).

#![allow(clippy::indexing_slicing, reason = "the five places are constants below the length that is part of the type")]

use nalgebra::{SMatrix, SVector};

use super::normal::{cut, quick};

/// Both ends, the likeliest to be hidden, the last place and the one before it.
const HELD: usize = 5;
const EYE: usize = 0;
const OBJECT: usize = 1;
const LEAST: usize = 2;
const LAST: usize = 3;
const BEFORE: usize = 4;
/// Added to every variance, so that places that hang together wholly can be solved for.
const LEAST_VARIANCE: f64 = 1e-9;

type Square = SMatrix<f64, HELD, HELD>;
type Row = SVector<f64, HELD>;

/// The errors held, before and after what was found; in sigmas of a height.
#[derive(Debug, Clone)]
pub(super) struct Passed {
    prior: Square,
    now: Square,
    mean: Row,
}

/// A place that must be clear: its share of the way, the clearance there, the variance of its error, and what that shares with those held.
pub(super) struct Next {
    pub(super) at: f64,
    pub(super) room: f64,
    pub(super) square: f64,
    pub(super) shared: [f64; HELD],
}

impl Passed {
    /// Nothing found yet: the variances of both ends and what they share.
    pub(super) fn nothing(eye: f64, object: f64, shared: f64) -> Self {
        let mut prior = Square::identity();
        (prior[(EYE, EYE)], prior[(OBJECT, OBJECT)]) = (eye, object);
        (prior[(EYE, OBJECT)], prior[(OBJECT, EYE)]) = (shared, shared);
        Self { now: prior, prior, mean: Row::zeros() }
    }

    /// Finds the place likeliest to be hidden clear.
    pub(super) fn first(&mut self, next: &Next) {
        self.take(next, LEAST);
    }

    /// The chance that one more place is clear; it is found so.
    pub(super) fn next(&mut self, next: &Next) -> f64 {
        self.take(next, LAST)
    }

    /// Forgets the last two places: the other side of the likeliest comes.
    pub(super) fn turn(&mut self) {
        for place in [LAST, BEFORE] {
            put(&mut self.prior, place, Row::zeros(), 1.0);
            put(&mut self.now, place, Row::zeros(), 1.0);
            self.mean[place] = 0.0;
        }
    }

    fn take(&mut self, next: &Next, place: usize) -> f64 {
        let mut before = Row::from(next.shared);
        let Some(root) = (self.prior + Square::identity() * LEAST_VARIANCE).cholesky() else { return 0.0 };
        let weights = root.solve(&before);
        let mut now = self.now * weights;
        let square = (next.square - weights.dot(&before)).max(0.0) + weights.dot(&now);
        let mean = weights.dot(&self.mean);
        if place == LAST {
            self.push();
            (before[BEFORE], now[BEFORE]) = (before[LAST], now[LAST]);
        }
        put(&mut self.prior, place, before, next.square);
        put(&mut self.now, place, now, square);
        self.mean[place] = mean;
        self.cut_off(next, place)
    }

    /// The last place becomes the one before it.
    fn push(&mut self) {
        for all in [&mut self.prior, &mut self.now] {
            let last: Row = all.column(LAST).into();
            put(all, BEFORE, last, last[LAST]);
        }
        self.mean[BEFORE] = self.mean[LAST];
    }

    /// Cuts what decides at a place off at its clearance: its error less its share of those at both ends.
    fn cut_off(&mut self, next: &Next, place: usize) -> f64 {
        let mut part = Row::zeros();
        (part[EYE], part[OBJECT], part[place]) = (next.at - 1.0, -next.at, 1.0);
        let with = self.now * part;
        let square = part.dot(&with).max(LEAST_VARIANCE);
        let z = (next.room - part.dot(&self.mean)) / square.sqrt();
        let (down, left) = cut(z);
        self.mean -= with * (down / square.sqrt());
        self.now -= with * with.transpose() * ((1.0 - left) / square);
        quick(z)
    }
}

/// Puts what a place shares with the others, and its variance, in its row and column.
fn put(all: &mut Square, place: usize, mut shared: Row, square: f64) {
    shared[place] = square;
    all.set_column(place, &shared);
    all.set_row(place, &shared.transpose());
}

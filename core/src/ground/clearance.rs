//! How far a sight passes above the ground, all along.

use super::Heights;
use super::blocks::Blocks;
use super::ray::{Piece, Ray, Walk};

/// Less than this above the sight counts as touching it: what rounding may do to an eye that lies on the ground.
pub(super) const GRAZE_M: f64 = 1e-6;

/// A straight sight from an eye to an object, above ground that curves away below it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    pub(super) ray: Ray,
    /// Ground from here on is the object itself and hides nothing of it, metres from the eye.
    pub(super) until_m: f64,
    eye_m: f64,
    rise: f64,
    /// `(1 - k) / 2R`: how the ground falls away, metres in a square metre.
    fall: f64,
}

/// The clearance over one [`Piece`] of ground: a parabola over the metres walked in it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    pub(super) from_m: f64,
    pub(super) length_m: f64,
    pub(super) height_m: f64,
    pub(super) rise: f64,
    pub(super) bend: f64,
}

impl Line {
    /// A sight between two heights above the sea.
    pub(super) fn new(ray: Ray, eye_m: f64, object_m: f64, fall: f64) -> Self {
        let rise = if ray.length_m > 0.0 { (object_m - eye_m) / ray.length_m } else { 0.0 };
        Self { ray, until_m: ray.length_m, eye_m, rise, fall }
    }

    /// The same sight when from a distance on the ground is the object itself.
    pub(super) fn until(self, until_m: f64) -> Self {
        Self { until_m: until_m.min(self.until_m), ..self }
    }

    /// Height of the sight above the sea, the curve of the ground below it taken off.
    pub(super) fn height_m(&self, at_m: f64) -> f64 {
        self.eye_m + self.rise * at_m - self.fall * at_m * (self.ray.length_m - at_m)
    }

    /// A height that the sight does not go below between two distances.
    fn lowest_m(&self, from_m: f64, to_m: f64) -> f64 {
        let straight = |at_m: f64| self.eye_m + self.rise * at_m;
        // Rounding may put the edge of a block a hair before the place that was reached.
        let deepest_m = (self.ray.length_m / 2.0).min(to_m).max(from_m);
        straight(from_m).min(straight(to_m)) - self.fall * deepest_m * (self.ray.length_m - deepest_m)
    }

    /// The clearance over a piece of ground.
    pub(super) fn over(&self, ground: Piece) -> Span {
        Span {
            from_m: ground.from_m,
            length_m: ground.length_m,
            height_m: self.height_m(ground.from_m) - ground.height_m,
            rise: self.rise - self.fall * (self.ray.length_m - 2.0 * ground.from_m) - ground.rise,
            bend: self.fall - ground.bend,
        }
    }

    /// A clearance that the sight has at least over the block that a walk is in.
    pub(super) fn over_block(&self, walk: &Walk<'_>, blocks: &Blocks) -> f64 {
        let (to_m, highest_m) = walk.block(blocks);
        self.lowest_m(walk.at_m, to_m) - highest_m
    }
}

impl Span {
    /// The clearance so far inside it.
    pub(super) fn at(&self, step_m: f64) -> f64 {
        self.height_m + step_m * (self.rise + step_m * self.bend)
    }

    /// Where inside it, ends left out, the clearance is least, and how large it is there.
    pub(super) fn bottom(&self) -> Option<(f64, f64)> {
        let step_m = -self.rise / (2.0 * self.bend);
        (self.bend > 0.0 && step_m > 0.0 && step_m < self.length_m).then(|| (self.from_m + step_m, self.at(step_m)))
    }

    /// Where the clearance is least, both ends counted, and how large it is there.
    pub(super) fn lowest(&self) -> (f64, f64) {
        let end = (self.from_m + self.length_m, self.at(self.length_m));
        let lower = if end.1 < self.height_m { end } else { (self.from_m, self.height_m) };
        self.bottom().unwrap_or(lower)
    }

    fn end_rise(&self) -> f64 {
        self.rise + 2.0 * self.bend * self.length_m
    }
}

/// The least clearance of a sight.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clearance {
    /// Least of the places where the clearance stops falling and grows again, or may do so in a gap beside them: metres from the eye, metres.
    pub(super) least: Option<(f64, f64)>,
    /// First ground on the ray whose height is not known, metres from the eye.
    pub(super) void_m: Option<f64>,
    /// The clearance and its rise where the last span ended.
    last: (f64, f64),
}

/// Ground that was passed over, or the eye's own: nothing is known of a clearance that fell.
const PASSED: (f64, f64) = (f64::NAN, f64::NAN);

impl Clearance {
    fn new() -> Self {
        Self { least: None, void_m: None, last: PASSED }
    }

    fn low(&mut self, at: (f64, f64)) {
        if self.least.is_none_or(|least| at.1 < least.1) {
            self.least = Some(at);
        }
    }

    fn take(&mut self, span: &Span) {
        let (last_m, last_rise) = self.last;
        if span.height_m.is_nan() {
            self.void_m = self.void_m.or(Some(span.from_m));
            // Where known ground ends the clearance may have been least, and where it begins again too.
            if last_rise < 0.0 && !last_m.is_nan() {
                self.low((span.from_m, last_m));
            }
            self.last = (f64::NAN, f64::NEG_INFINITY);
            return;
        }
        if last_rise < 0.0 && span.rise >= 0.0 {
            self.low((span.from_m, span.height_m));
        }
        if let Some(bottom) = span.bottom() {
            self.low(bottom);
        }
        self.last = (span.at(span.length_m), span.end_rise());
    }
}

/// Walks a sight and hands every span to `each` that may be smaller than `doubt_m` or the least one.
///
/// Whole blocks are passed over only where the clearance is larger than both.
pub(super) fn walk(heights: &Heights, blocks: &[Blocks], line: &Line, doubt_m: f64, mut each: impl FnMut(&Span)) -> Clearance {
    let mut walk = Walk::new(heights, line.ray);
    let mut clearance = Clearance::new();
    while !walk.done() && walk.at_m < line.until_m {
        let least_m = clearance.least.map_or(f64::INFINITY, |least| least.1);
        let clear_m = doubt_m.max(least_m);
        // Over unknown ground the highest is infinite, and nothing is passed.
        if walk.pass(blocks, |from_m, to_m, highest_m| line.lowest_m(from_m, to_m) - highest_m >= clear_m) {
            clearance.last = PASSED;
            continue;
        }
        let mut span = line.over(walk.piece());
        span.length_m = span.length_m.min(line.until_m - span.from_m);
        clearance.take(&span);
        each(&span);
    }
    clearance
}

//! Dead ground: what an eye cannot see along a ray.

use super::ray::{Piece, Ray, Walk};
use super::sightline::Sightlines;
use super::stand::Stand;
use super::{Heights, Post};

/// A stretch of a ray.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeadStretch {
    /// Where it begins, metres from the eye.
    pub from_m: f64,
    /// Where it ends, metres from the eye.
    pub to_m: f64,
}

/// The dead ground along a ray.
#[derive(Debug, Clone, PartialEq)]
pub struct DeadGround {
    /// What cannot be seen, from the eye outwards.
    pub stretches: Vec<DeadStretch>,
    /// What cannot be told: from the first ground without a height on, all that known ground does not hide.
    pub untold: Vec<DeadStretch>,
}

/// Dead stretches shorter than this are a matter of rounding, metres.
const SHORTEST_M: f64 = 1e-3;

/// The rise from the eye to the ground of one piece: `a/d + b + c·d` at a distance `d`.
#[derive(Debug, Clone, Copy)]
struct Rise {
    a: f64,
    b: f64,
    c: f64,
}

impl Rise {
    fn new(ground: &Piece, eye_m: f64, fall: f64) -> Self {
        let (at, bend) = (ground.from_m, ground.bend);
        Self { a: ground.height_m - eye_m - at * (ground.rise - bend * at), b: ground.rise - 2.0 * bend * at, c: bend - fall }
    }

    fn at(&self, d: f64) -> f64 {
        self.a / d + self.b + self.c * d
    }

    /// Where between two distances the rise is greatest or least.
    fn turn(&self, from: f64, to: f64) -> Option<f64> {
        let d = (self.a / self.c).sqrt();
        (d > from && d < to).then_some(d)
    }

    /// Where between two distances the rise crosses a value, nearest first.
    fn crossings(&self, value: f64, from: f64, to: f64) -> Vec<f64> {
        let half = (self.b - value) / 2.0;
        let root = (half * half - self.c * self.a).sqrt();
        // The root of larger size first: the other by the product of both, so that neither loses its figures.
        let sum = -(half + root.copysign(half));
        let mut found: Vec<f64> = [sum / self.c, self.a / sum].into_iter().filter(|d| *d > from && *d < to).collect();
        found.sort_by(f64::total_cmp);
        found
    }
}

/// What an eye has seen so far along a ray.
struct Watch {
    above_m: f64,
    highest: f64,
    dead: Vec<DeadStretch>,
}

impl Watch {
    /// Goes on over a stretch on which the rise only grows or only falls.
    fn go(&mut self, rise: &Rise, from: f64, to: f64) {
        let (start, end) = (rise.at(from), rise.at(to));
        if end <= start {
            self.highest = self.highest.max(start);
            self.seek(rise, from, to);
        } else if start < self.highest {
            let over = if end > self.highest { rise.crossings(self.highest, from, to).first().copied() } else { None };
            self.seek(rise, from, over.unwrap_or(to));
        }
        self.highest = self.highest.max(end);
    }

    /// Notes where what stands on the ground is below the highest rise so far.
    fn seek(&mut self, rise: &Rise, from: f64, to: f64) {
        let top = Rise { a: rise.a + self.above_m, ..*rise };
        let cuts = top.crossings(self.highest, from, to);
        let mut start = from;
        for end in cuts.into_iter().chain([to]) {
            if top.at(f64::midpoint(start, end)) < self.highest {
                self.note(start, end);
            }
            start = end;
        }
    }

    fn note(&mut self, from_m: f64, to_m: f64) {
        match self.dead.last_mut() {
            Some(last) if from_m - last.to_m < SHORTEST_M => last.to_m = to_m,
            _ => self.dead.push(DeadStretch { from_m, to_m }),
        }
    }
}

impl Sightlines<'_> {
    /// What an eye cannot see of the ground along the way to a place, or of what stands `above_m` high on that ground.
    ///
    /// Beyond ground without a height, what known ground does not hide is not told.
    ///
    /// `None` when the eye or the place is outside the heights, or the ground has no height there.
    ///
    /// # Units
    /// Metres.
    ///
    /// # Accuracy
    /// Exact to 1 mm for ground that is bilinear between the posts; errors of the heights are not in it.
    #[must_use]
    pub fn dead_ground(&self, eye: Stand, to: Post, above_m: f64) -> Option<DeadGround> {
        let eye_m = self.top_m(eye)?;
        self.top_m(Stand::at(to, above_m))?;
        let ray = Ray::new(eye.post, to, self.index.spacing.between_m(eye.post, to));
        let mut watch = Watch { above_m, highest: f64::NEG_INFINITY, dead: Vec::new() };
        let told_m = watch.over(self.heights, ray, eye_m, self.fall);
        let mut stretches = watch.dead;
        stretches.retain(|dead| dead.length_m() >= SHORTEST_M);
        let untold = between(&stretches, told_m, ray.length_m);
        Some(DeadGround { stretches, untold })
    }
}

impl DeadStretch {
    /// Its length, metres.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.to_m - self.from_m
    }
}

/// What lies between stretches, from one distance to another.
fn between(stretches: &[DeadStretch], from_m: f64, to_m: f64) -> Vec<DeadStretch> {
    let ends = stretches.iter().map(|stretch| stretch.to_m.max(from_m));
    let starts = stretches.iter().map(|stretch| stretch.from_m).chain([to_m]);
    let gaps = std::iter::once(from_m).chain(ends).zip(starts).map(|(from_m, to_m)| DeadStretch { from_m, to_m });
    gaps.filter(|gap| gap.length_m() >= SHORTEST_M).collect()
}

impl Watch {
    /// Walks the whole ray; how far the ground has heights without a gap. What known ground hides beyond a gap is dead: what stands in the gap can
    /// only hide more.
    fn over(&mut self, heights: &Heights, ray: Ray, eye_m: f64, fall: f64) -> f64 {
        let (mut walk, mut told_m) = (Walk::new(heights, ray), ray.length_m);
        while !walk.done() {
            let ground = walk.piece();
            if ground.height_m.is_nan() {
                told_m = told_m.min(ground.from_m);
                continue;
            }
            let rise = Rise::new(&ground, eye_m, fall);
            let (from, to) = (ground.from_m.max(SHORTEST_M), ground.from_m + ground.length_m);
            if from < to {
                let turn = rise.turn(from, to).unwrap_or(to);
                self.go(&rise, from, turn);
                if turn < to {
                    self.go(&rise, turn, to);
                }
            }
        }
        told_m
    }
}

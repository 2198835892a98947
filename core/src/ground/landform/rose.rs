//! What the ground does in twenty-four directions from a post: whether it folds there, whichever way the fold runs.
//!
//! Eight lines of sight lie up to 22° off the axis of a ridge: on a straight one all eight then fall, and a summit seems to stand there.
//! At the foot of a straight slope lines that run aslant climb it on both sides, though ground rises on one alone. Here a line is told by
//! what its two ways on have in common against the ground between them, in steps of 15°.

#![allow(clippy::indexing_slicing, reason = "indices are taken modulo the number of directions")]

use super::LandformScale;
use super::broad::Broad;
use super::mesh::Mesh;

/// Directions looked into.
const DIRECTIONS: usize = 24;
const HALF: usize = DIRECTIONS / 2;

/// The two ways on along a line lie at least 105° apart: it may bend.
const LEAST_APART: usize = 7;

/// Steps along each direction at the most: finer posts show nothing more at the scale of a landform.
const MOST_STEPS: f64 = 25.0;

/// The parts of the sight on which a fold is looked for: a narrow line is lost on the whole of it, and on less than half of it the means of
/// posts that err each by itself would make lines.
const PARTS: [usize; 2] = [2, 1];

/// Ground may turn back by this share of a side's fall before the side begins: the post still lies on the crest, not beside it.
const TURN_BACK: f32 = 0.25;

/// A place between four posts, counted from a post.
struct Sample {
    offset: isize,
    east: f32,
    south: f32,
}

/// What is needed to look around from the posts of one row.
pub(super) struct Compass<'a> {
    values_m: &'a [f32],
    broad_m: &'a [f32],
    columns: usize,
    row: usize,
    /// Direction by direction, from near to far.
    samples: Vec<Sample>,
    steps: usize,
    /// Columns that the farthest sample reaches to each side.
    reach: usize,
}

/// Whether high (or, turned, low) ground folds at a post.
pub(super) struct Rose {
    /// Fall in each direction that begins at the post, metres; 0 where it begins farther off.
    falls_m: [f32; DIRECTIONS],
    /// The broad ground at the post above the post itself, metres.
    own_m: f32,
    /// Mean height above the post in each direction, to each part of the sight, metres.
    means_m: [[f32; DIRECTIONS]; PARTS.len()],
}

impl<'a> Compass<'a> {
    /// `None` where the sight from this row leaves the grid.
    pub(super) fn new(mesh: &'a Mesh<'a>, broad: &'a Broad, row: usize, scale: &LandformScale) -> Option<Self> {
        let (east_m, south_m) = mesh.spacing_m(row);
        let step_m = east_m.min(south_m).max(scale.sight_m / MOST_STEPS);
        let steps = ((scale.sight_m / step_m).floor() as usize).max(1);
        let far_m = steps as f64 * step_m;
        let (reach, tall) = ((far_m / east_m).ceil() as usize + 1, (far_m / south_m).ceil() as usize + 1);
        if row < tall || row + tall >= mesh.rows {
            return None;
        }
        let sample = |place: usize| {
            let (sin, cos) = ((place / steps) as f64 * std::f64::consts::TAU / DIRECTIONS as f64).sin_cos();
            let away_m = (place % steps + 1) as f64 * step_m;
            let (right, down) = (away_m * sin / east_m, -away_m * cos / south_m);
            let offset = down.floor() as isize * mesh.columns as isize + right.floor() as isize;
            Sample { offset, east: (right - right.floor()) as f32, south: (down - down.floor()) as f32 }
        };
        let samples = (0..DIRECTIONS * steps).map(sample).collect();
        Some(Self { values_m: mesh.values_m(), broad_m: broad.values_m(), columns: mesh.columns, row, samples, steps, reach })
    }

    /// What lies around a post of the row; `turn` is 1 to look at ridges, -1 to look at valleys as if they were ridges. `None` where the
    /// sight leaves the known ground.
    pub(super) fn look(&self, column: usize, turn: f32) -> Option<Rose> {
        if column < self.reach || column + self.reach >= self.columns {
            return None;
        }
        let post = self.row * self.columns + column;
        let eye_m = *self.values_m.get(post)?;
        let own_m = turn * (self.broad_m.get(post)? - eye_m);
        let mut rose = Rose { falls_m: [0.0; DIRECTIONS], own_m, means_m: [[0.0; DIRECTIONS]; PARTS.len()] };
        for (direction, samples) in self.samples.chunks(self.steps).enumerate() {
            let (mut sum_m, mut fall_m, mut hump_m, mut highest_m) = (0.0, 0.0_f32, 0.0, 0.0_f32);
            for (step, sample) in (1..).zip(samples) {
                let rise_m = turn * (self.at(post, sample)? - eye_m);
                if -rise_m > fall_m {
                    (fall_m, hump_m) = (-rise_m, highest_m);
                }
                highest_m = highest_m.max(rise_m);
                sum_m += rise_m;
                for (means_m, part) in rose.means_m.iter_mut().zip(PARTS) {
                    if step <= self.steps.div_ceil(part) {
                        means_m[direction] = sum_m / step as f32;
                    }
                }
            }
            if sum_m.is_nan() {
                return None;
            }
            rose.falls_m[direction] = if hump_m <= TURN_BACK * fall_m { fall_m } else { 0.0 };
        }
        Some(rose)
    }

    /// The height at a sample, bilinear.
    fn at(&self, post: usize, sample: &Sample) -> Option<f32> {
        let first = post.wrapping_add_signed(sample.offset);
        let ([a, b], [c, d]) = (self.pair(first)?, self.pair(first + self.columns)?);
        let (upper, lower) = (a + (b - a) * sample.east, c + (d - c) * sample.east);
        Some(upper + (lower - upper) * sample.south)
    }

    fn pair(&self, first: usize) -> Option<[f32; 2]> {
        self.values_m.get(first..first + 2)?.try_into().ok()
    }
}

impl Rose {
    /// The lesser fall to two opposite sides, as great as it gets, metres.
    pub(super) fn relief_m(&self) -> f32 {
        (0..HALF).map(|one| self.falls_m[one].min(self.falls_m[one + HALF])).fold(0.0, f32::max)
    }

    /// How far the fold stands out, metres: the lower of two ways on above the higher of the two lows between them, and the broad ground
    /// at the post above those lows, whichever is less. On a plane, a straight step, its foot, its edge and on a round hill there is none: there one
    /// way round the heights climb to one top and fall to one bottom.
    ///
    /// # Accuracy
    /// A direction's height is the mean of its ground, in which the errors of single posts and what happens once are lost; of an even
    /// flank it tells half the height of its end, and is doubled.
    pub(super) fn stands_out_m(&self) -> f32 {
        self.means_m.iter().map(|means_m| 2.0 * fold_m(means_m, self.own_m)).fold(0.0, f32::max)
    }
}

fn fold_m(means_m: &[f32; DIRECTIONS], own_m: f32) -> f32 {
    let at = |direction: usize| means_m[direction % DIRECTIONS];
    // Where the way round goes down and up but once, each arc between two ways on is no lower than one of them, or holds the lowest.
    let turns = (0..DIRECTIONS).filter(|one| at(one + DIRECTIONS - 1) > at(*one) && at(*one) <= at(one + 1));
    if turns.take(2).count() < 2 {
        return 0.0;
    }
    // By the direction before it and by its length: the lowest of an arc.
    let mut lows_m = [[f32::INFINITY; DIRECTIONS]; DIRECTIONS];
    for (from, lows_m) in lows_m.iter_mut().enumerate() {
        for length in 1..DIRECTIONS {
            lows_m[length] = lows_m[length - 1].min(at(from + length));
        }
    }
    let of_ways = |one: usize, apart: usize| {
        let other = (one + apart) % DIRECTIONS;
        let low_m = lows_m[one][apart - 1].max(lows_m[other][DIRECTIONS - apart - 1]);
        at(one).min(at(other)).min(own_m) - low_m
    };
    (0..DIRECTIONS).flat_map(|one| (LEAST_APART..=HALF).map(move |apart| of_ways(one, apart))).fold(0.0, f32::max)
}

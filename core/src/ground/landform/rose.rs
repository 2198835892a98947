//! What the ground does in twenty-four directions from a post: whether it folds there, whichever way the fold runs.
//!
//! Eight lines of sight lie up to 22° off the axis of a ridge: on a straight one all eight then fall, and a summit seems to stand there.
//! At the foot of a straight slope lines that run aslant climb it on both sides, though ground rises on one alone. Here a line is told by
//! what its two ways on have in common against the ground between them, in steps of 15°.

#![allow(clippy::indexing_slicing, reason = "indices are directions, below their number or twice that")]

use std::sync::LazyLock;

/// Directions looked into.
pub(super) const DIRECTIONS: usize = 24;
const HALF: usize = DIRECTIONS / 2;

/// The two ways on along a line lie at least 105° apart: it may bend.
const LEAST_APART: usize = 7;

/// The parts of the sight on which a fold is looked for: a narrow line is lost on the whole of it, and on less than half of it the means of
/// posts that err each by itself would make lines.
pub(super) const PARTS: [usize; 2] = [2, 1];

/// Whether high (or, turned, low) ground folds at a post.
pub(super) struct Rose {
    /// Fall in each direction that begins at the post, metres; 0 where it begins farther off.
    pub(super) falls_m: [f32; DIRECTIONS],
    /// The broad ground at the post above the post itself, metres.
    pub(super) own_m: f32,
    /// Mean height above the post in each direction, to each part of the sight, metres; the last is the whole of it.
    pub(super) means_m: [[f32; DIRECTIONS]; PARTS.len()],
    /// The same of ground that never climbs again: at each step the lowest so far.
    pub(super) downs_m: [[f32; DIRECTIONS]; PARTS.len()],
}

impl Rose {
    /// The lesser fall to two opposite sides, as great as it gets, metres.
    pub(super) fn relief_m(&self) -> f32 {
        (0..HALF).map(|one| self.falls_m[one].min(self.falls_m[one + HALF])).fold(0.0, f32::max)
    }

    /// How far the fold stands out, metres: the lower of two ways on above the higher of the two lows between them, and the broad ground
    /// at the post above those lows, whichever is less; so too once the plane is taken off that the ground lies on: a single hollow or hill far off on
    /// a plane and the plane's own fall make no fold together. On a plane, a straight step, its foot, its edge and on a round hill there is none: there one
    /// way round the heights climb to one top and fall to one bottom. So too of ground that never climbs again: what rises beyond the foot of a round
    /// hill is no way on along a line that comes down it.
    ///
    /// # Accuracy
    /// A direction's height is the mean of its ground, in which the errors of single posts and what happens once are lost; of an even
    /// flank it tells half the height of its end, and is doubled.
    pub(super) fn stands_out_m(&self) -> f32 {
        let of_part = |means_m: &[f32; DIRECTIONS], downs_m: &[f32; DIRECTIONS]| match fold_m(means_m, self.own_m) {
            found_m if found_m > 0.0 => found_m.min(fold_m(downs_m, self.own_m)).min(fold_m(&levelled(means_m), self.own_m)),
            _ => 0.0,
        };
        self.means_m.iter().zip(&self.downs_m).map(|(means_m, downs_m)| 2.0 * of_part(means_m, downs_m)).fold(0.0, f32::max)
    }
}

/// Sine and cosine of every direction.
static TURNED: LazyLock<[(f32, f32); DIRECTIONS]> =
    LazyLock::new(|| std::array::from_fn(|direction| (direction as f32 * std::f32::consts::TAU / DIRECTIONS as f32).sin_cos()));

/// Rounds of weighing by which the plane is found, and by how much two directions are off it where they count half, metres.
const ROUNDS: usize = 8;
const HALF_OFF_M: f32 = 0.5;

/// The same less the plane that most of the ground lies on: two opposite directions count the less the farther they are off it, so that what
/// stands in a few of them alone does not tilt it.
///
/// # References
/// Iteratively reweighted least squares with the weights of Cauchy's distribution: common practice, no source.
fn levelled(means_m: &[f32; DIRECTIONS]) -> [f32; DIRECTIONS] {
    let turned: &[(f32, f32); DIRECTIONS] = &TURNED;
    let (mut east, mut north) = (0.0_f32, 0.0_f32);
    let mut weights = [1.0_f32; HALF];
    for _ in 0..ROUNDS {
        let (mut ee, mut en, mut nn, mut er, mut nr) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (one, weight) in weights.iter().enumerate() {
            let ((sin, cos), rise_m) = (turned[one], (means_m[one] - means_m[one + HALF]) / 2.0);
            (ee, en, nn) = (ee + weight * sin * sin, en + weight * sin * cos, nn + weight * cos * cos);
            (er, nr) = (er + weight * sin * rise_m, nr + weight * cos * rise_m);
        }
        let all = ee * nn - en * en;
        (east, north) = ((er * nn - nr * en) / all, (nr * ee - er * en) / all);
        for (one, weight) in weights.iter_mut().enumerate() {
            let off_m = (means_m[one] - means_m[one + HALF]) / 2.0 - east * turned[one].0 - north * turned[one].1;
            *weight = 1.0 / (1.0 + (off_m / HALF_OFF_M) * (off_m / HALF_OFF_M));
        }
    }
    std::array::from_fn(|direction| means_m[direction] - east * turned[direction].0 - north * turned[direction].1)
}

fn fold_m(means_m: &[f32; DIRECTIONS], own_m: f32) -> f32 {
    let round: Round = std::array::from_fn(|place| means_m[place % DIRECTIONS]);
    // Where the way round goes down and up but once, each arc between two ways on is no lower than one of them, or holds the lowest.
    let is_low = |one: usize| round[one + DIRECTIONS - 1] > round[one] && round[one] <= round[one + 1];
    if (0..DIRECTIONS).map(|one| u8::from(is_low(one))).sum::<u8>() < 2 {
        return 0.0;
    }
    let lowest_m = means_m.iter().copied().fold(f32::INFINITY, f32::min);
    (0..DIRECTIONS).fold(0.0, |best_m: f32, one| {
        let high_m = round[one].min(own_m);
        // No arc is lower than the lowest of all.
        if high_m - lowest_m > best_m { best_m.max(best_from(&round, one, high_m)) } else { best_m }
    })
}

/// Direction by direction twice round.
type Round = [f32; 2 * DIRECTIONS];

/// The fold between one way on, taken as so high, and the best of the others.
fn best_from(round: &Round, one: usize, high_m: f32) -> f32 {
    // The lowest of the arc that begins after it, and of the one that ends before it, by the number of directions in them.
    let (mut after_m, mut before_m) = ([f32::INFINITY; DIRECTIONS], [f32::INFINITY; DIRECTIONS]);
    for length in 1..DIRECTIONS - LEAST_APART {
        after_m[length] = after_m[length - 1].min(round[one + length]);
        before_m[length] = before_m[length - 1].min(round[one + DIRECTIONS - length]);
    }
    let with = |apart: usize| high_m.min(round[one + apart]) - after_m[apart - 1].max(before_m[DIRECTIONS - apart - 1]);
    (LEAST_APART..=HALF).map(with).fold(0.0, f32::max)
}

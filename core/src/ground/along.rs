//! Many eyes and many objects: what one eye has taught is held for the next ones as far as it is proved.
//!
//! The answers are those of [`Sightlines::sight`] for heights as they stand. An object once hidden by a piece of ground is
//! first sought behind the same ground. An object once in sight is known to stay so over a proved distance: a sight's
//! clearance, divided by its share of the way left, cannot shrink faster than the ground is steep at the eye and below the sight.

use super::chance::{Errors, surely_hidden_m};
use super::clearance::{GRAZE_M, Line, Span, walk};
use super::ray::{Ray, Walk};
use super::sightline::{HIDDEN_CHANCE, Sightlines};
use super::stand::Stand;
use super::steep::{SIDE, Steep};
use super::{EARTH_RADIUS_M, Post};
use crate::measure::one_by_one;

/// Posts from the eye within which the ground is looked at for every eye.
const NEAR_POSTS: f64 = 3.0;
/// Posts that a proof should reach at least, or blocks are not passed over.
const WANTED_POSTS: f64 = 0.5;

/// Chances of two eyes that lie no farther apart are taken for alike.
const ALIKE: f64 = 0.1;

/// What earlier eyes have taught about one object.
#[derive(Debug, Default)]
struct Known {
    /// Share of the way at which ground stood above the sight.
    hidden_at: Option<f64>,
    /// Where the object was in sight.
    proof: Option<Proof>,
}

/// From an eye the object was in sight; it is from all places closer to it than a distance, but for the ground near the eye.
#[derive(Debug, Clone, Copy)]
struct Proof {
    eye: Post,
    holds_m: f64,
    near_share: f64,
}

/// What stands on the sight.
enum Found {
    Clear,
    Ground(f64),
    Unknown,
}

/// What the eyes of a line need again and again.
struct Eyes<'a> {
    lines: &'a Sightlines<'a>,
    places: Vec<(Post, f64)>,
    within_m: f64,
}

impl Sightlines<'_> {
    /// For each object and each eye: whether the ground, as the heights have it, leaves the object in sight.
    ///
    /// `None` outside the heights, where the ground lacks a height that would decide, and for what is farther than `within_m`.
    #[must_use]
    pub fn in_sight(&self, eyes: &[Post], above_m: f64, objects: &[Stand], within_m: f64) -> Vec<Vec<Option<bool>>> {
        let steep = self.index.steep.get_or_init(|| Steep::over(self.heights, &self.index.spacing));
        let eyes = Eyes::new(self, eyes, above_m, within_m);
        one_by_one(objects, |object| {
            eyes.places.iter().map(eyes.asker(object, |known, line, eye| known.in_sight(self, steep, &line, eye))).collect()
        })
    }

    /// For each object and each eye of a way, in its order: the chance that the object is in sight, as [`Sightlines::sight`] tells it.
    ///
    /// `None` as for [`Sightlines::in_sight`]. Where the same ground hides the object by more than 4.4 sigma of a height, the
    /// chance is below 0.001 and told as 0 without a walk. Every second eye between two that both leave it in doubt, by chances that lie
    /// 0.1 from each other at most, is given their mean.
    #[must_use]
    pub fn chances(&self, eyes: &[Post], above_m: f64, objects: &[Stand], within_m: f64) -> Vec<Vec<Option<f64>>> {
        let eyes = Eyes::new(self, eyes, above_m, within_m);
        one_by_one(objects, |object| {
            let mut ask = eyes.asker(object, |known, line, _| known.chance(self, &line));
            let every_second: Vec<Option<f64>> = eyes.places.iter().step_by(2).map(&mut ask).collect();
            let after = every_second.iter().skip(1).copied().chain([None]);
            let with_next = |(pair, (here, after)): (usize, (&Option<f64>, Option<f64>))| {
                let next = eyes.places.get(2 * pair + 1).map(|eye| halfway(*here, after).or_else(|| ask(eye)));
                std::iter::once(*here).chain(next)
            };
            every_second.iter().zip(after).enumerate().flat_map(with_next).collect()
        })
    }
}

/// The mean of two chances that are alike and both leave it in doubt.
fn halfway(one: Option<f64>, other: Option<f64>) -> Option<f64> {
    let (one, other) = one.zip(other)?;
    let in_doubt = one.min(other) > 0.0 && one.max(other) < 1.0;
    (in_doubt && (one - other).abs() <= ALIKE).then_some((one + other) / 2.0)
}

impl<'a> Eyes<'a> {
    fn new(lines: &'a Sightlines<'a>, eyes: &[Post], above_m: f64, within_m: f64) -> Self {
        let top = |post: &Post| (*post, lines.top_m(Stand::at(*post, above_m)).unwrap_or(f64::NAN));
        Self { lines, places: eyes.iter().map(top).collect(), within_m }
    }

    /// Asks one eye after the other, each with its height above the sea, by what the earlier ones have taught of the object.
    fn asker<T>(&self, object: &Stand, ask: impl Fn(&mut Known, Line, Post) -> Option<T>) -> impl FnMut(&(Post, f64)) -> Option<T> {
        let (object, object_m) = (*object, self.lines.top_m(*object).unwrap_or(f64::NAN));
        let mut known = Known::default();
        move |(eye, eye_m)| {
            let distance_m = self.lines.index.spacing.between_m(*eye, object.post);
            if (eye_m + object_m).is_nan() || distance_m > self.within_m {
                return None;
            }
            let line = self.lines.sight_to(Ray::new(*eye, object.post, distance_m), *eye_m, object_m, object);
            ask(&mut known, line, *eye)
        }
    }
}

impl Known {
    /// Whether the ground that hid the object from an earlier eye still stands `by_m` above the sight.
    fn still_hidden(&self, lines: &Sightlines<'_>, line: &Line, by_m: f64) -> bool {
        self.hidden_at.is_some_and(|share| {
            let at_m = share * line.ray.length_m;
            line.height_m(at_m) - lines.heights.quick_m(line.ray.post(at_m)) < -by_m
        })
    }

    fn in_sight(&mut self, lines: &Sightlines<'_>, steep: &Steep, line: &Line, eye: Post) -> Option<bool> {
        if line.ray.length_m <= 0.0 {
            return Some(true);
        }
        if self.still_hidden(lines, line, GRAZE_M) {
            return Some(false);
        }
        // What shows of a hilltop is another place for every eye: nothing is proved for the next.
        if line.until_m < line.ray.length_m {
            let clearance = walk(lines.heights, &lines.index.blocks, line, 0.0, |_| ());
            let hidden = clearance.least.is_some_and(|least| least.1 < -GRAZE_M);
            return (clearance.void_m.is_none() || hidden).then_some(!hidden);
        }
        let proof = self.proof.filter(|proof| lines.index.spacing.between_m(proof.eye, eye) < proof.holds_m);
        let near_m = proof.map_or(NEAR_POSTS * line.ray.step_m(), |proof| proof.near_share * line.ray.length_m);
        let mut walk = Walk::new(lines.heights, line.ray);
        let mut found = near(&mut walk, line, near_m);
        if matches!(found, Found::Clear) && proof.is_none() {
            let near_share = walk.at_m / line.ray.length_m;
            let holds_m;
            (found, holds_m) = far(lines, steep, &mut walk, line, eye);
            self.proof = Some(Proof { eye, holds_m, near_share });
        }
        self.learn(found, lines, line)
    }

    fn learn(&mut self, found: Found, lines: &Sightlines<'_>, line: &Line) -> Option<bool> {
        match found {
            Found::Clear => Some(true),
            Found::Ground(at_m) => {
                self.proof = None;
                self.hidden_at = Some(at_m / line.ray.length_m);
                Some(false)
            }
            Found::Unknown => {
                self.proof = None;
                let clearance = walk(lines.heights, &lines.index.blocks, line, 0.0, |_| ());
                clearance.least.is_some_and(|least| least.1 < -GRAZE_M).then_some(false)
            }
        }
    }

    fn chance(&mut self, lines: &Sightlines<'_>, line: &Line) -> Option<f64> {
        let spread = lines.heights.spread();
        if self.still_hidden(lines, line, surely_hidden_m(spread)) {
            return Some(0.0);
        }
        let mut errors = Errors::along(line, &lines.index.field, spread);
        let clearance = walk(lines.heights, &lines.index.blocks, line, errors.doubt_m(), |span| errors.take(span));
        let least = clearance.least.filter(|least| least.1 < -GRAZE_M);
        self.hidden_at = least.map(|least| least.0 / line.ray.length_m);
        let chance = if spread.sigma_m > 0.0 { errors.chance() } else { f64::from(u8::from(least.is_none())) };
        (clearance.void_m.is_none() || chance <= HIDDEN_CHANCE).then_some(chance)
    }
}

fn judge(span: &Span) -> Option<Found> {
    let (at_m, lowest_m) = span.lowest();
    if lowest_m.is_nan() { Some(Found::Unknown) } else { (lowest_m < -GRAZE_M).then_some(Found::Ground(at_m)) }
}

/// The ground up to a distance from the eye.
fn near(walk: &mut Walk<'_>, line: &Line, to_m: f64) -> Found {
    while walk.at_m < to_m && !walk.done() {
        if let Some(found) = judge(&line.over(walk.piece())) {
            return found;
        }
    }
    Found::Clear
}

/// The rest of the way, and over how many metres around the eye it stays as clear as it is.
fn far(lines: &Sightlines<'_>, steep: &Steep, walk: &mut Walk<'_>, line: &Line, eye: Post) -> (Found, f64) {
    let length_m = line.ray.length_m;
    let (east_m, south_m) = lines.index.spacing.at(eye.row);
    // The eye's own ground, and the curve of the earth over a way that gets longer or shorter.
    let at_eye = steep.at(eye.column as usize, eye.row as usize) + 2.1 * lines.fall * length_m + length_m / EARTH_RADIUS_M;
    let wanted_m = WANTED_POSTS * east_m.min(south_m);
    let mut holds_m = (SIDE as f64 - 1.0) * east_m.min(south_m);
    let held_m = |walk: &Walk<'_>, from_m: f64, room_m: f64| {
        let (column, row) = walk.cell();
        room_m / (1.0 - from_m / length_m).max(1e-9) / (at_eye + steep.at(column, row))
    };
    while !walk.done() {
        let from_m = walk.at_m;
        let passed = lines.index.blocks.first().and_then(|blocks| {
            let room_m = line.over_block(walk, blocks);
            let held_m = held_m(walk, from_m, room_m);
            (held_m >= wanted_m.min(holds_m)).then_some((held_m, blocks.shift))
        });
        if let Some((held_m, shift)) = passed {
            holds_m = holds_m.min(held_m);
            walk.leave(shift);
            continue;
        }
        let steepest = held_m(walk, from_m, 1.0);
        let span = line.over(walk.piece());
        if let Some(found) = judge(&span) {
            return (found, 0.0);
        }
        holds_m = holds_m.min(span.lowest().1.max(0.0) * steepest);
    }
    (Found::Clear, holds_m)
}

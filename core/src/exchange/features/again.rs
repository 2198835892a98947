//! Where a line comes over its own ground again: the way back of one walked there and back, a second round, a spur.

use super::drawn::LEAST_SHARED_M;
use super::join::JOIN_M;
use super::raster::{Raster, distance_m, share};
use super::trace::{SAME_M, Trace};

/// Two passes with errors of their own lie within so many of their spreads of each other in 95 of 100 places: 1.96 √2.
const SPREADS_APART: f64 = 2.77;
/// However wide the spread, ways farther apart than this are two, metres.
const MOST_APART_M: f64 = 30.0;
/// The legs of a hairpin that opens by 8 degrees are apart after so many times the distance within which two passes are one.
const HAIRPIN: f64 = 7.0;
/// Passes that are turned by no more than 30 degrees run along each other: the sine.
const SAME_WAY_SINE: f64 = 0.5;
/// So much of a stretch at least lies beside the earlier pass, and so many metres of one are one of the other (common practice, no source).
const LEAST_BESIDE: f64 = 0.8;
const LEAST_RATIO: f64 = 0.5;
/// A line is looked at in steps of this length at least, metres, and in so many at most.
const LEAST_STEP_M: f64 = 5.0;
const MOST_STEPS: f64 = 50_000.0;
/// Who draws a line back over itself repeats its points, to the last figure that the file writes, metres.
const HAIR_M: f64 = 0.1;
/// Most straight pieces about a place that are looked at.
const MOST_NEAR: usize = 200;
/// So many stretches at the end of those found may still go on.
const MOST_OPEN: usize = 16;
/// Two passes of one way that were not drawn from each other change sides so often: no two sides of a loop, nor the legs of a hairpin,
/// do (common practice, no source).
const LEAST_CHANGES: usize = 5;
/// The mean way from one pass to the other is no longer than so much of their distance (common practice, no source).
const MOST_SHIFTED: f64 = 0.7;
const MOST_UNCHANGED_M: f64 = 300.0;

/// How near two passes of one line are where they are one way.
#[derive(Debug, Clone, Copy)]
pub(super) struct Nearness {
    pub(super) within_m: f64,
    /// A shorter stretch over the same ground is a crossing, a fork or a hairpin, metres.
    pub(super) least_m: f64,
    /// Whether the passes must change sides over and over.
    weaving: bool,
}

impl Nearness {
    /// The second pass repeats the points of the first.
    pub(super) fn exact() -> Self {
        Self { within_m: HAIR_M, least_m: LEAST_SHARED_M, weaving: false }
    }

    /// Each pass has an error of its own. What a receiver recorded may be off to one side throughout; what was drawn so is two ways.
    pub(super) fn spread(spread_m: f64, is_recorded: bool) -> Self {
        let within_m = (SPREADS_APART * spread_m).clamp(JOIN_M, MOST_APART_M);
        Self { within_m, least_m: (HAIRPIN * within_m).max(LEAST_SHARED_M), weaving: !is_recorded }
    }
}

/// A place of the line on earlier ground: metres along it, the same of the earlier place, and how far it lies east and north of that.
#[derive(Debug, Clone, Copy)]
struct Image {
    at_m: f64,
    was_m: f64,
    off_m: (f64, f64),
    /// Whether it lies to the right of the earlier pass.
    is_right: bool,
}

/// A stretch over earlier ground.
#[derive(Debug, Clone)]
pub(super) struct Again {
    images: Vec<Image>,
    /// At how many steps of the search it was found.
    steps: usize,
    /// Whether it runs against the earlier pass.
    pub(super) is_back: bool,
}

impl Again {
    /// Where it begins and ends, metres along the line, each with the earlier place.
    pub(super) fn ends(&self) -> [(f64, f64); 2] {
        [self.images.first(), self.images.last()].map(|end| end.map_or((0.0, 0.0), |end| (end.at_m, end.was_m)))
    }

    pub(super) fn length_m(&self) -> f64 {
        let [from, to] = self.ends();
        to.0 - from.0
    }

    /// The earlier place of one of its places.
    pub(super) fn was_m(&self, at_m: f64) -> f64 {
        let after = self.images.partition_point(|image| image.at_m < at_m).clamp(1, self.images.len().saturating_sub(1).max(1));
        match self.images.get(after - 1..).unwrap_or_default() {
            [a, b, ..] if b.at_m > a.at_m => a.was_m + (b.was_m - a.was_m) * ((at_m - a.at_m) / (b.at_m - a.at_m)).clamp(0.0, 1.0),
            [only, ..] => only.was_m,
            [] => at_m,
        }
    }

    /// How often it changes sides.
    fn changes(&self) -> usize {
        self.images.windows(2).filter(|pair| if let [a, b] = pair { a.is_right != b.is_right } else { false }).count()
    }

    /// Whether it lies in one direction of the earlier pass rather than about it, as the upper legs of a zigzag do of the lower ones.
    fn is_shifted(&self) -> bool {
        let count = self.images.len() as f64;
        let mean = |of: &dyn Fn(&Image) -> f64| self.images.iter().map(of).sum::<f64>() / count;
        let (east_m, north_m) = (mean(&|image| image.off_m.0), mean(&|image| image.off_m.1));
        let spread_m = mean(&|image| image.off_m.0.powi(2) + image.off_m.1.powi(2)).sqrt();
        spread_m > JOIN_M && east_m.hypot(north_m) > MOST_SHIFTED * spread_m
    }
}

/// The stretches over earlier ground, in their order along the line. `left` is how many straight pieces may still be looked at.
pub(super) fn stretches(trace: &Trace<'_>, near: Nearness, left: &mut usize) -> Vec<Again> {
    let step_m = (near.within_m / 2.0).max(LEAST_STEP_M).max(trace.length_m() / MOST_STEPS);
    let mut search = Search { trace, near, step_m, raster: Raster::of(std::slice::from_ref(&trace.plane), near.within_m), left };
    let mut found: Vec<Again> = Vec::new();
    let steps = (trace.length_m() / step_m).ceil() as usize;
    for step in 0..=steps {
        if *search.left == 0 {
            return Vec::new();
        }
        let images = search.earlier((step as f64 * step_m).min(trace.length_m()), false);
        search.go_on(&mut found, images);
    }
    let long_m = LEAST_BESIDE * near.least_m - 2.0 * step_m;
    found.retain(|again| again.steps as f64 * step_m >= long_m);
    found.iter_mut().for_each(|again| search.settle(again));
    let mut kept: Vec<Again> = Vec::new();
    for again in found.into_iter().filter(|again| search.is_one_way(again)) {
        if kept.last().is_none_or(|before| before.ends()[1].0 <= again.ends()[0].0) {
            kept.push(again);
        }
    }
    kept
}

struct Search<'a, 't> {
    trace: &'a Trace<'t>,
    near: Nearness,
    step_m: f64,
    raster: Raster,
    left: &'a mut usize,
}

impl Search<'_, '_> {
    /// The earlier places of one, and whether the line runs against them there; at a corner, whichever way it runs.
    fn earlier(&mut self, at_m: f64, at_a_corner: bool) -> Vec<(Image, bool)> {
        let (here, half_m) = (self.trace.at(at_m), self.near.within_m);
        let mut pieces: Vec<usize> = self.raster.beside(&[here, here]).map(|(_, piece)| piece).take(MOST_NEAR.min(*self.left)).collect();
        *self.left -= pieces.len();
        pieces.sort_unstable();
        pieces.dedup();
        let way = self.trace.direction(at_m, half_m);
        let image = |piece: usize| {
            let pair = self.trace.plane.get(piece..piece + 2)?;
            let (from_m, to_m) = (*self.trace.along_m.get(piece)?, *self.trace.along_m.get(piece + 1)?);
            let was_m = from_m + (to_m - from_m) * share(here, pair);
            if was_m >= at_m || distance_m(here, pair) > self.near.within_m {
                return None;
            }
            let (then, there) = (self.trace.direction(was_m, half_m), self.trace.at(was_m));
            let is_back = way.0 * then.0 + way.1 * then.1 < 0.0;
            let is_along = (way.0 * then.1 - way.1 * then.0).abs() <= SAME_WAY_SINE;
            let off_m = (here.0 - there.0, here.1 - there.1);
            if was_m <= 0.0 && off_m.0 * then.0 + off_m.1 * then.1 < -SAME_M {
                return None;
            }
            let is_right = off_m.0 * then.1 - off_m.1 * then.0 > 0.0;
            let is_another = is_back || at_m - was_m >= self.near.least_m;
            ((is_along || at_a_corner) && is_another).then_some((Image { at_m, was_m, off_m, is_right }, is_back))
        };
        pieces.into_iter().filter_map(image).collect()
    }

    /// Lets the longest stretch go on that one of the images goes on with; else the earliest begins a new one.
    fn go_on(&self, found: &mut Vec<Again>, images: Vec<(Image, bool)>) {
        let before = found.len().saturating_sub(MOST_OPEN);
        let longest = found.iter_mut().skip(before).filter_map(|again| self.next(again, &images).map(|image| (again, image)));
        if let Some((again, image)) = longest.max_by(|a, b| a.0.length_m().total_cmp(&b.0.length_m())) {
            again.images.push(image);
            again.steps += 1;
        } else if let Some((first, is_back)) = images.into_iter().min_by(|a, b| a.0.was_m.total_cmp(&b.0.was_m)) {
            found.push(Again { images: vec![first], steps: 1, is_back });
        }
    }

    /// Of some images that with which a stretch goes on most evenly.
    fn next(&self, again: &Again, images: &[(Image, bool)]) -> Option<Image> {
        let last = again.images.last()?;
        let off_m = |image: &Image| {
            let gone_m = image.at_m - last.at_m;
            let should_m = if again.is_back { last.was_m - gone_m } else { last.was_m + gone_m };
            (image.was_m - should_m).abs() - (3.0 * self.near.within_m + gone_m.abs() / 2.0)
        };
        let same = images.iter().filter(|(image, is_back)| {
            *is_back == again.is_back && (image.at_m - last.at_m).abs() <= self.near.least_m + self.step_m && off_m(image) <= 0.0
        });
        same.map(|(image, _)| *image).min_by(|a, b| off_m(a).total_cmp(&off_m(b)))
    }

    /// Finds to a hair where a stretch begins and ends, and lets both be points of the line where it has one close by.
    fn settle(&mut self, again: &mut Again) {
        self.reach(again, self.step_m);
        again.images.reverse();
        self.reach(again, -self.step_m);
        again.images.reverse();
    }

    /// Draws the last image of a stretch on, up to a step.
    fn reach(&mut self, again: &mut Again, step_m: f64) {
        const HALVES: usize = 10;
        let Some(last) = again.images.last().copied() else { return };
        let mut beyond_m = (last.at_m + step_m).clamp(0.0, self.trace.length_m());
        let mut within_m = last.at_m;
        for _ in 0..HALVES {
            let at_m = f64::midpoint(within_m, beyond_m);
            match self.image_of(again, at_m, false) {
                Some(image) => {
                    again.images.push(image);
                    within_m = at_m;
                }
                None => beyond_m = at_m,
            }
        }
        self.end_at_a_point(again, within_m, step_m);
    }

    fn image_of(&mut self, again: &Again, at_m: f64, at_a_corner: bool) -> Option<Image> {
        let mut images = self.earlier(at_m, at_a_corner);
        images.iter_mut().filter(|_| at_a_corner).for_each(|(_, is_back)| *is_back = again.is_back);
        self.next(again, &images)
    }

    /// Ends a stretch at the outermost point of the line that lies on earlier ground, when that is close.
    fn end_at_a_point(&mut self, again: &mut Again, within_m: f64, step_m: f64) {
        let aside_m = self.near.within_m.copysign(step_m);
        let (from_m, to_m) = (within_m - 3.0 * aside_m, within_m + aside_m);
        let points: Vec<f64> = self.trace.points_between(from_m.min(to_m), from_m.max(to_m)).map(|(at_m, _)| at_m).collect();
        let outermost = if step_m > 0.0 { points.last() } else { points.first() };
        if let Some(at_m) = outermost.copied()
            && let Some(image) = self.image_of(again, at_m, true)
        {
            let is_inside = |one: &Image| if step_m > 0.0 { one.at_m < at_m } else { one.at_m > at_m };
            again.images.retain(is_inside);
            again.images.push(image);
        }
    }

    fn is_one_way(&self, again: &Again) -> bool {
        let [from, to] = again.ends();
        let (long_m, was_m) = (to.0 - from.0, (to.1 - from.1).abs());
        let beside_m = again.steps as f64 * self.step_m;
        let weaves = || again.changes() >= LEAST_CHANGES.max((long_m / MOST_UNCHANGED_M) as usize);
        long_m >= self.near.least_m
            && beside_m >= LEAST_BESIDE * long_m
            && (LEAST_RATIO..=1.0 / LEAST_RATIO).contains(&(was_m / long_m))
            && (!self.near.weaving || weaves())
            && ((again.is_back && !self.near.weaving) || !again.is_shifted())
    }
}

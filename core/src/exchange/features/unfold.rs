//! A way is on the ground once, however often its line comes over it: there and back is the way there, a second round is none, a spur
//! that is walked in and out is a line beside the one that goes on, and a stick with a loop is the stick once and the loop.

use super::again::{Again, Nearness, stretches};
use super::shape::{Pos, distance_m};
use super::trace::Trace;

/// Most pairs of straight pieces of the lines of one file that are looked at, so that a file made to take time cannot.
pub(super) const MOST_PAIRS: usize = 5_000_000;

/// Metres along the line, from where to where; both the same for a single place.
type Range = (f64, f64);
/// A way made of ranges of the line, one after the other.
type Way = Vec<Range>;

/// What a line is on the ground.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Unfolded {
    /// Its ways, the one with which the line begins first.
    pub(super) ways: Vec<Vec<Pos>>,
    /// How much of the line was over ground that it had come over before, metres.
    pub(super) again_m: f64,
}

/// The ways of a line that comes over its own ground again; nothing when it does not. `left` is how many straight pieces may still be
/// looked at.
pub(super) fn unfold(line: &[Pos], spread_m: f64, is_recorded: bool, left: &mut usize) -> Option<Unfolded> {
    let mut unfolded = Unfolded { ways: vec![line.to_vec()], again_m: 0.0 };
    for near in [Nearness::exact(), Nearness::spread(spread_m, is_recorded)] {
        let mut ways = Vec::new();
        for way in unfolded.ways {
            let (parts, again_m) = apart(way, near, left);
            ways.extend(parts);
            unfolded.again_m += again_m;
        }
        unfolded.ways = ways;
    }
    (unfolded.again_m > 0.0).then_some(unfolded)
}

/// The ways of a line, and how much of it was over earlier ground, metres.
fn apart(line: Vec<Pos>, near: Nearness, left: &mut usize) -> (Vec<Vec<Pos>>, f64) {
    let Some(trace) = Trace::of(&line) else { return (vec![line], 0.0) };
    let found = stretches(&trace, near, left);
    let all = if found.is_empty() { Vec::new() } else { ways(&trace, &found, near) };
    let ways: Vec<Vec<Pos>> = all.iter().map(|way| points(&trace, way)).filter(|way| way.len() >= 2).collect();
    // A scribble no longer than its own spread has no way that stands out.
    if ways.is_empty() { (vec![line], 0.0) } else { (ways, found.iter().map(Again::length_m).sum()) }
}

/// The ways, the stretches between those found one after the other.
fn ways(trace: &Trace<'_>, found: &[Again], near: Nearness) -> Vec<Way> {
    let least_m = 2.0 * near.within_m;
    let mut drawn = Drawn { ways: Vec::new(), open: Vec::new(), turned: false, least_m };
    let mut begin: (f64, Option<f64>) = (0.0, None);
    for next in found.iter().map(Some).chain([None]) {
        let tip_m = next.and_then(|next| tip_m(trace, next, near));
        let (from_m, was_m) = next.map_or((trace.length_m(), None), |next| (next.ends()[0].0, Some(next.ends()[0].1)));
        let closes_m = was_m.map(|was_m| kept_m(was_m, found)).filter(|_| tip_m.is_none());
        // A round ends where it began.
        let over_m = closes_m.filter(|closes_m| *closes_m <= 3.0 * near.within_m).unwrap_or_default();
        let end_m = tip_m.unwrap_or(from_m - over_m);
        if end_m - begin.0 > least_m {
            drawn.draw((begin.0, end_m), begin.1);
            drawn.turned = tip_m.is_some();
            drawn.open.extend(closes_m.map(|closes_m| place(closes_m - over_m)));
        }
        if let Some(next) = next {
            let (to_m, was_m) = next.ends()[1];
            begin = (to_m, Some(kept_m(was_m, found)));
        }
    }
    drawn.ways.push(drawn.open);
    drawn.ways.sort_by(|a, b| ends(a).0.total_cmp(&ends(b).0));
    drawn.ways
}

/// The ways that are drawn, and the one that may go on.
struct Drawn {
    ways: Vec<Way>,
    open: Way,
    /// Whether the line has just turned round at the end of it.
    turned: bool,
    /// What is shorter is rounding, metres.
    least_m: f64,
}

impl Drawn {
    /// Draws a stretch that leaves the ground drawn so far at a place of it. What lies between that place and the end at which the
    /// line has turned round is a spur; the way goes on without it.
    fn draw(&mut self, stretch: Range, leaves_m: Option<f64>) {
        if let Some(leaves_m) = leaves_m {
            let goes_on = (ends(&self.open).1 - leaves_m).abs() <= self.least_m;
            match cut(&self.open, leaves_m, self.least_m).filter(|_| self.turned) {
                Some((main, spur)) => {
                    self.open = main;
                    self.ways.push(spur);
                }
                None if goes_on => {}
                None => {
                    let done = std::mem::replace(&mut self.open, vec![place(leaves_m)]);
                    self.ways.extend((!done.is_empty()).then_some(done));
                }
            }
        }
        self.open.push(stretch);
    }
}

/// The pieces of a recording, those one that go on where the last broke off: the receiver was at rest, or lost the sky for a moment.
pub(super) fn resumed(pieces: Vec<Vec<Pos>>, spread_m: f64) -> Vec<Vec<Pos>> {
    let within_m = Nearness::spread(spread_m, true).within_m;
    let mut all: Vec<Vec<Pos>> = Vec::with_capacity(pieces.len());
    for piece in pieces {
        match all.last_mut().filter(|last| last.last().zip(piece.first()).is_some_and(|(a, b)| distance_m(*a, *b) <= within_m)) {
            Some(last) => last.extend(piece),
            None => all.push(piece),
        }
    }
    all
}

fn place(along_m: f64) -> Range {
    (along_m, along_m)
}

/// Where a way begins and ends, metres along the line.
fn ends(way: &[Range]) -> Range {
    (way.first().map_or(0.0, |range| range.0), way.last().map_or(0.0, |range| range.1))
}

/// A way in two at a place inside it that is no nearer than so to either end of its range.
fn cut(way: &[Range], at_m: f64, least_m: f64) -> Option<(Way, Way)> {
    let number = way.iter().position(|range| range.0 + least_m < at_m && at_m < range.1 - least_m)?;
    let (mut main, mut spur) = (way.to_vec(), way.to_vec());
    main.truncate(number + 1);
    spur.drain(..number);
    main.last_mut().into_iter().for_each(|range| range.1 = at_m);
    spur.first_mut().into_iter().for_each(|range| range.0 = at_m);
    Some((main, spur))
}

/// Where the line turns round to run back over where it came from: the point that is farthest from there; nothing where it comes back
/// by a loop.
fn tip_m(trace: &Trace<'_>, next: &Again, near: Nearness) -> Option<f64> {
    let [(from_m, was_m), _] = next.ends();
    if !next.is_back || from_m - was_m > near.least_m {
        return None;
    }
    let (x, y) = trace.at(was_m);
    let far_m = |along_m: f64| {
        let at = trace.at(along_m);
        (at.0 - x).hypot(at.1 - y)
    };
    let points = trace.points_between(was_m, from_m).map(|(along_m, _)| along_m);
    points.max_by(|a, b| far_m(*a).total_cmp(&far_m(*b))).or(Some(f64::midpoint(was_m, from_m)))
}

/// The earliest place on the ground of one: what it lies on may itself lie on earlier ground.
fn kept_m(along_m: f64, found: &[Again]) -> f64 {
    const MOST_PASSES: usize = 100;
    let mut kept_m = along_m;
    for _ in 0..MOST_PASSES {
        let before = found.partition_point(|again| again.ends()[0].0 < kept_m);
        let over = before.checked_sub(1).and_then(|last| found.get(last)).filter(|again| kept_m < again.ends()[1].0);
        match over.map(|again| again.was_m(kept_m)) {
            Some(was_m) if was_m < kept_m => kept_m = was_m,
            Some(_) | None => break,
        }
    }
    kept_m
}

/// The points of a way. Where two ranges meet the place that was there first counts.
fn points(trace: &Trace<'_>, way: &[Range]) -> Vec<Pos> {
    let mut points = Vec::new();
    for (number, range) in way.iter().enumerate() {
        let before = number.checked_sub(1).and_then(|before| way.get(before));
        let is_first = |at_m: f64, other_m: Option<f64>| other_m.is_none_or(|other_m| at_m <= other_m);
        points.extend(trace.place(range.0).filter(|_| is_first(range.0, before.map(|before| before.1))));
        points.extend(trace.points_between(range.0, range.1).map(|(_, at)| at));
        points.extend(trace.place(range.1).filter(|_| is_first(range.1, way.get(number + 1).map(|after| after.0))));
    }
    points.dedup();
    points
}

//! Stretches of the line where one may stand, each with its share and its limits.

use super::Odds;
use super::odds::{LineOdds, levels_of_shares};
use super::passes::joined;
use super::weigh::Weighed;
use crate::measure::{Covariance, Point};
use crate::sheet::{Line, LinePlace};

/// The set that stretches are cut from holds this share of the probability.
const KEPT_SHARE: f64 = 0.999;
/// Places less likely than this share of the likeliest are "elsewhere", not a stretch of their own, where only the chance of a plainly wrong
/// reading is left, the same everywhere on the line ...
const FLOOR_OF_PEAK: f64 = 1e-2;
/// ... but what is so many times likelier than any place is with every reading plainly wrong, for that several readings speak together (very
/// strong evidence: R. Kass and A. Raftery 1995, Journal of the American Statistical Association 90, 773; from memory).
const SPOKEN_FOR: f64 = 150.0;
/// Within one run, hills that stand apart in the set of this share are places of their own, parted where it is least likely between.
const PARTED_SHARE: f64 = 0.95;
/// Gaps shorter than this do not part two stretches.
const JOIN_M: f64 = 30.0;
/// Stretches with a smaller share are not reported.
const LEAST_SHARE: f64 = 0.001;

/// A part of the line where one may stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Which of the scene's lines it is a part of, from 0.
    pub line: usize,
    /// Share of the probability, 0 to 1.
    pub share: f64,
    /// Where it begins and ends, metres along the line. On a ring it may lie over the place where the line begins: then this, as the
    /// limits, goes on below nothing or beyond the line's length.
    pub reach_m: (f64, f64),
    /// The likeliest place in it.
    pub best: LinePlace,
    /// The limits about the likeliest place that hold 50 %, metres along the line, given that one stands in this stretch.
    pub limits_50_m: (f64, f64),
    /// The limits about it that hold 95 %; those of 50 % lie within them.
    pub limits_95_m: (f64, f64),
    /// One sigma about the likeliest place within the stretch, metres along the line.
    pub spread_m: f64,
    /// Covariance in the plane about the likeliest place: the odds along the line, bends included, and the line's own error across it.
    pub covariance: Covariance,
}

/// Limits of which the farther lies so many times as far as the nearer have no middle.
const UNEVEN: f64 = 3.0;

impl Stretch {
    /// Whether the likeliest place lies about in the middle of its limits ("about"), or so near one of them that only both tell how it
    /// lies ("between").
    #[must_use]
    pub fn shape(&self) -> &'static str {
        let (low_m, high_m) = (self.best.along_m - self.limits_95_m.0, self.limits_95_m.1 - self.best.along_m);
        if low_m.max(high_m) > UNEVEN * low_m.min(high_m) { "between" } else { "about" }
    }

    /// Half-width at 95 %, metres: from the likeliest place to the farther of the two limits.
    #[must_use]
    pub fn half_width_95_m(&self) -> f64 {
        (self.limits_95_m.1 - self.best.along_m).max(self.best.along_m - self.limits_95_m.0)
    }
}

/// The stretches, likeliest first, and the share of the probability that lies in none of them.
///
/// The limits are widened by the share elsewhere, so that all limits together hold 50 % and 95 % of
/// the whole as long as that share stays below 5 %.
pub(super) fn stretches(lines: &[&Line], weighed: &Weighed) -> (Vec<Stretch>, f64) {
    let all: &[LineOdds] = &weighed.lines;
    let peak = all.iter().map(|line| line.odds.peak()).fold(0.0, f64::max);
    let [kept, core] = levels_of_shares(all.iter().map(|line| &line.odds), [KEPT_SHARE, PARTED_SHARE]);
    let level = kept.max((peak * FLOOR_OF_PEAK).min(weighed.unread_per_m * SPOKEN_FOR));
    let found = lines.iter().enumerate().zip(all).flat_map(|((number, line), one)| runs(number, line, &one.odds, (level, core)));
    let kept: Vec<Run<'_>> = found.filter(|run| run.share >= LEAST_SHARE).collect();
    let elsewhere = (1.0 - kept.iter().map(|run| run.share).sum::<f64>()).max(0.0);
    let told = |run: &Run<'_>| Some(stretch(lines.get(run.line)?, run, 1.0 - elsewhere));
    let mut stretches: Vec<Stretch> = kept.iter().filter_map(told).collect();
    stretches.sort_by(|a, b| b.share.total_cmp(&a.share));
    (joined(lines, stretches), elsewhere)
}

/// The odds along a line from where they are looked at first: on a ring from the least likely of its places, so that no stretch is cut in two.
#[derive(Clone, Copy)]
struct Round<'a> {
    odds: &'a Odds,
    first: usize,
}

impl<'a> Round<'a> {
    fn of(line: &Line, odds: &'a Odds, level: f64) -> Self {
        let over_start = [odds.per_m.first(), odds.per_m.last()].iter().any(|end| end.is_some_and(|density| *density >= level));
        if !(over_start && line.is_ring()) {
            return Self { odds, first: 0 };
        }
        let least = odds.per_m.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1));
        Self { odds, first: least.map_or(0, |(index, _)| index) }
    }

    /// The density of each entry, in the order in which they are looked at.
    fn entries(&self) -> impl Iterator<Item = f64> + 'a {
        let (before, from) = self.odds.per_m.split_at_checked(self.first).unwrap_or((&[], &self.odds.per_m));
        from.iter().chain(before).copied()
    }

    /// Those from `first` to `last`, both included.
    fn slice(&self, first: usize, last: usize) -> impl Iterator<Item = f64> + 'a {
        self.entries().skip(first).take(last + 1 - first)
    }

    fn share(&self, first: usize, last: usize) -> f64 {
        self.slice(first, last).sum::<f64>() * self.odds.step_m
    }

    /// Metres along the line where an entry begins; on a ring it may be beyond its length.
    fn start_m(&self, index: usize) -> f64 {
        (self.first + index) as f64 * self.odds.step_m
    }

    fn along_m(&self, index: usize) -> f64 {
        self.odds.along_m(self.first + index)
    }
}

/// Entries `first` to `last` of the odds, both included.
struct Run<'a> {
    line: usize,
    share: f64,
    first: usize,
    last: usize,
    round: Round<'a>,
}

/// The runs of a line above the level, parted where the core is.
fn runs<'a>(line: usize, on: &Line, odds: &'a Odds, (level, core): (f64, f64)) -> Vec<Run<'a>> {
    let round = Round::of(on, odds, level);
    let cores = runs_above(&round, core);
    let parted = runs_above(&round, level).into_iter().flat_map(|run| parted(&round, run, &cores));
    parted.map(|(first, last)| Run { line, share: round.share(first, last), first, last, round }).collect()
}

fn runs_above(round: &Round<'_>, level: f64) -> Vec<(usize, usize)> {
    let gap = (JOIN_M / round.odds.step_m) as usize;
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (index, _) in round.entries().enumerate().filter(|(_, density)| *density >= level && *density > 0.0) {
        match runs.last_mut() {
            Some((_, last)) if index - *last <= gap.max(1) => *last = index,
            _ => runs.push((index, index)),
        }
    }
    runs
}

/// A run cut between the hills in it.
fn parted(round: &Round<'_>, run: (usize, usize), cores: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let inside: Vec<&(usize, usize)> = cores.iter().filter(|core| core.0 >= run.0 && core.1 <= run.1).collect();
    let mut parts = Vec::new();
    let mut first = run.0;
    for pair in inside.windows(2) {
        if let [before, after] = pair {
            let between = round.slice(before.1, after.0).enumerate();
            let least = before.1 + between.min_by(|a, b| a.1.total_cmp(&b.1)).map_or(0, |(index, _)| index);
            parts.push((first, least));
            first = least + 1;
        }
    }
    parts.push((first, run.1));
    parts
}

fn stretch(line: &Line, run: &Run<'_>, kept: f64) -> Stretch {
    let (round, step_m) = (run.round, run.round.odds.step_m);
    let entries: Vec<f64> = round.slice(run.first, run.last).collect();
    let best = entries.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1)).map_or(0, |(index, _)| index);
    let best_m = round.along_m(run.first + best);
    let best_place = line.at(best_m);
    // On a ring the best place lies within the line, and the rest beside it.
    let back_m = best_m - best_place.along_m;
    let end_m = if line.is_ring() { f64::INFINITY } else { line.length_m() };
    let between =
        |first: usize, last: usize| (round.start_m(run.first + first) - back_m, (round.start_m(run.first + last + 1)).min(end_m) - back_m);
    let limits = |wanted: f64| {
        let (first, last) = grown_from(&entries, best, (wanted / kept).min(KEPT_SHARE));
        between(first, last)
    };
    Stretch {
        line: run.line,
        share: run.share,
        reach_m: between(0, run.last - run.first),
        best: best_place,
        limits_50_m: limits(0.5),
        limits_95_m: limits(0.95),
        spread_m: deviation(&entries, best) * step_m,
        covariance: covariance(line, run, best_place),
    }
}

/// The run of entries around the best one that holds `share` of their sum: it grows to the likelier side, entry by entry.
///
/// On a single hill this is the shortest run; limits of a greater share always hold those of a smaller one.
fn grown_from(entries: &[f64], best: usize, share: f64) -> (usize, usize) {
    let wanted = entries.iter().sum::<f64>() * share;
    let (mut first, mut last) = (best, best);
    let mut held = entries.get(best).copied().unwrap_or(0.0);
    while held < wanted {
        let before = first.checked_sub(1).and_then(|index| entries.get(index));
        match (before, entries.get(last + 1)) {
            (Some(left), right) if right.is_none_or(|right| left >= right) => {
                (first, held) = (first - 1, held + left);
            }
            (_, Some(right)) => (last, held) = (last + 1, held + right),
            _ => break,
        }
    }
    (first, last)
}

/// Root mean square distance of the entries from entry `about`, in entries, weighted by the entries.
fn deviation(entries: &[f64], about: usize) -> f64 {
    let total: f64 = entries.iter().sum();
    let square = entries.iter().enumerate().map(|(i, w)| (i as f64 - about as f64).powi(2) * w).sum::<f64>() / total;
    square.sqrt()
}

/// Most places that the covariance is summed over.
const COVARIANCE_PLACES: usize = 2_000;

/// Second moment of the places in the plane about the best one; on a bent line it is wider than the line is straight there.
fn covariance(line: &Line, run: &Run<'_>, best: LinePlace) -> Covariance {
    let stride = ((run.last - run.first) / COVARIANCE_PLACES).max(1);
    let (mut sum, mut total) = (Covariance::default(), 0.0);
    for (index, weight) in run.round.slice(run.first, run.last).enumerate().step_by(stride) {
        let place = line.at(run.round.along_m(run.first + index));
        let across: Point = place.direction.right().times(line.spread_m);
        let one = Covariance::outer(place.at.minus(best.at)).plus(Covariance::outer(across));
        sum = sum.plus(one.times(weight));
        total += weight;
    }
    sum.times(1.0 / total)
}

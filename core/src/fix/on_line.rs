//! A scene's sightings prepared for one of its lines.

use super::curve::Curve;
use super::directed::{Group, OnPiece, RUN_REACH_M, Sharp, groups, unsure_deg};
use super::odds::Odds;
use super::plains::{Plains, plains};
use super::scene::Scene;
use super::shared::{Here, Shared};
use super::steps::Steps;
use crate::measure::in_parts;
use crate::sheet::{Line, LinePlace};

/// The run of a line is weighed as finely as a bearing that spreads by so many metres: a bend turns it within metres.
pub(super) const LINE_RUN_M: f64 = 16.0;
/// The same where it may be read in several ways: from place to place another fits best.
const BENT_RUN_M: f64 = 1.0;
/// Ways of reading that differ by less than this, one sigma, are one, degrees.
const STRAIGHT_DEG: f64 = 0.1;
/// Turns of the line that add up to less than this are no bend: across them a logarithm is as good as smooth.
const BEND_RAD: f64 = 0.087;
/// The sine of a turn at one point that makes it a corner: what is read beyond it is another run.
const CORNER: f64 = 0.0175;
/// As near as this is just there, metres.
const JUST_M: f64 = 1e-3;
/// Where less than this share of the peak is left, nobody's identity is asked.
const LEAST_OF_PEAK: f64 = 1e-6;
/// Most places that the identity of a landmark is summed over, on each line.
const IDENTITY_PLACES: usize = 100;

/// A scene's sightings prepared for one of its lines.
#[derive(Debug)]
pub(super) struct OnLine<'a> {
    pub(super) line: &'a Line,
    pub(super) groups: Vec<Group<'a>>,
    pub(super) plains: Plains<'a>,
    pub(super) shared: Shared,
    pieces: Vec<(LinePlace, LinePlace)>,
    sharp: Vec<Sharp>,
    runs_along: bool,
}

impl<'a> OnLine<'a> {
    pub(super) fn new(scene: &'a Scene<'a>, index: usize, line: &'a Line) -> Self {
        let groups = groups(scene, index, line);
        let shared_deg = scene.trust.shared_spread_deg.hypot(scene.norths.declination_spread_deg());
        Self {
            line,
            plains: plains(scene, index, line),
            shared: Shared::over(&groups, shared_deg, scene.wrong_share),
            pieces: line.pieces().collect(),
            sharp: groups.iter().filter(|group| !group.is_of_line()).map(|group| group.sharp(shared_deg)).collect(),
            runs_along: groups.iter().any(Group::is_of_line),
            groups,
        }
    }

    /// The place and the piece at a distance along the line; beyond an end, the end.
    pub(super) fn spot(&self, along_m: f64) -> Option<OnPiece> {
        let piece = self.pieces.partition_point(|(_, end)| end.along_m < along_m).min(self.pieces.len().saturating_sub(1));
        let (start, end) = self.pieces.get(piece)?;
        let inside_m = (along_m - start.along_m).clamp(0.0, end.along_m - start.along_m);
        let at = start.at.plus(start.direction.times(inside_m));
        let place = LinePlace { along_m: start.along_m + inside_m, at, direction: start.direction };
        Some(OnPiece { piece, share: inside_m / (end.along_m - start.along_m), place })
    }

    /// What the compass readings say along the line; with `apart`, also what they say when one sighting is left out.
    pub(super) fn curve(&self, steps: Steps, apart: bool) -> Curve {
        let (along_m, bends): (Vec<f64>, Vec<bool>) = self.places(steps).into_iter().unzip();
        let (ln, without) = self.ln_at_all(&along_m, apart);
        Curve { along_m, bends, ln, without }
    }

    /// The same curve with places between where it matters, so that no two of those are farther apart than `near_m`.
    pub(super) fn refined(&self, curve: &Curve, near_m: f64, matters: impl Fn(f64, f64) -> bool) -> Curve {
        let mut between: Vec<f64> = Vec::new();
        for pair in curve.along_m.windows(2) {
            let [before, after] = pair else { continue };
            let parts = ((after - before) / near_m).ceil();
            if parts > 1.0 && matters(*before, *after) {
                between.extend((1..parts as usize).map(|part| before + (after - before) * part as f64 / parts));
            }
        }
        let (ln, without) = self.ln_at_all(&between, !curve.without.is_empty());
        let order = merged(&curve.along_m, &between);
        let bends = order.iter().map(|(is_new, index)| !is_new && curve.bends.get(*index).copied().unwrap_or(false)).collect();
        let all = |old: &[f64], new: &[f64]| {
            order.iter().filter_map(|(is_new, index)| if *is_new { new } else { old }.get(*index).copied()).collect()
        };
        Curve {
            bends,
            along_m: all(&curve.along_m, &between),
            ln: all(&curve.ln, &ln),
            without: curve.without.iter().zip(&without).map(|(old, new)| all(old, new)).collect(),
        }
    }

    /// The logarithm of what was observed without a compass, in the middle of each step that is told.
    pub(super) fn plain_logs(&self, steps: Steps) -> Vec<f64> {
        let (count, step_m) = steps.told(self.line);
        let middles: Vec<f64> = (0..count).map(|index| (index as f64 + 0.5) * step_m).collect();
        in_parts(&middles, self.plains.count(), |middles| {
            middles.iter().filter_map(|along_m| self.spot(*along_m)).map(|spot| self.plains.ln_at(spot.place)).collect::<Vec<_>>()
        })
        .concat()
    }

    /// The logarithm of everything that was observed there, and the length of a step.
    pub(super) fn logs(&self, curve: &Curve, plains: &[f64], steps: Steps) -> (f64, Vec<f64>) {
        let (_, step_m) = steps.told(self.line);
        let mut cursor = curve.cursor();
        let log = |(index, plain): (usize, &f64)| plain + cursor.at((index as f64 + 0.5) * step_m).of(&curve.ln);
        (step_m, plains.iter().enumerate().map(log).collect())
    }

    /// The logarithm of everything that was observed at a place.
    pub(super) fn ln_at(&self, spot: &OnPiece, here: &mut Here, groups: &[usize]) -> f64 {
        self.shared.look(self.groups.iter(), spot, here);
        self.plains.ln_at(spot.place) + self.shared.ln_likelihood(here, groups)
    }

    /// The number of every group.
    pub(super) fn all_groups(&self) -> Vec<usize> {
        (0..self.groups.len()).collect()
    }

    /// Places along the line, the nearer to each other the sharper a reading can be there, and whether the line bends at each.
    fn places(&self, steps: Steps) -> Vec<(f64, bool)> {
        let (count, step_m) = steps.told(self.line);
        let even = |count: usize| (0..count).map(|index| ((index as f64 + 0.5) * step_m, false)).collect();
        if self.groups.is_empty() {
            return even(1);
        }
        if steps.is_even() {
            return even(count);
        }
        let mut all = Vec::new();
        let mut start_m = 0.0;
        for end_m in self.parts_m() {
            all.push((start_m, true));
            all.extend(self.places_between(start_m, end_m, steps).into_iter().map(|along_m| (along_m, false)));
            start_m = end_m;
        }
        all.push((start_m, true));
        all
    }

    /// Where what is weighed along the line turns or jumps, and its end.
    fn parts_m(&self) -> Vec<f64> {
        let mut ends = self.bends_m();
        if self.runs_along {
            ends.extend(self.comes_into_reach_m());
            ends.sort_by(f64::total_cmp);
        }
        ends
    }

    /// Where a piece of the line comes into the reach of one who reads its run, and where it goes out of it: just within and just without.
    fn comes_into_reach_m(&self) -> Vec<f64> {
        let length_m = self.line.length_m();
        let corners = self.pieces.windows(2).filter_map(|pair| {
            let [(before, end), (after, _)] = pair else { return None };
            (before.direction.cross(after.direction).abs() > CORNER).then_some(end.along_m)
        });
        let around = |corner_m: f64| [RUN_REACH_M, RUN_REACH_M - JUST_M].map(|reach_m| [corner_m - reach_m, corner_m + reach_m]);
        let passed = corners.flat_map(|corner_m| self.line.passes_m(corner_m)).flat_map(around).flatten();
        passed.filter(|along_m| (0.0..length_m).contains(along_m)).collect()
    }

    /// Where the line has turned by more than a little since the bend before, and its end.
    fn bends_m(&self) -> Vec<f64> {
        let mut bends = Vec::new();
        let mut turned_rad = 0.0;
        for pair in self.pieces.windows(2) {
            let [(before, end), (after, _)] = pair else { continue };
            turned_rad += before.direction.cross(after.direction).atan2(before.direction.dot(after.direction)).abs();
            if turned_rad > BEND_RAD {
                bends.push(end.along_m);
                turned_rad = 0.0;
            }
        }
        bends.extend(self.pieces.last().map(|(_, end)| end.along_m));
        bends
    }

    /// Places between two bends: two at the least, so that a cubic goes through them.
    fn places_between(&self, start_m: f64, end_m: f64, steps: Steps) -> Vec<f64> {
        let mut inside: Vec<f64> = Vec::new();
        let mut at_m = start_m;
        while let Some(spot) = self.spot(at_m) {
            at_m += self.step_m(spot.place, steps);
            if at_m >= end_m {
                break;
            }
            inside.push(at_m);
        }
        if inside.len() < 2 { [1.0, 2.0].map(|third| start_m + (end_m - start_m) * third / 3.0).to_vec() } else { inside }
    }

    /// How far the next place may lie: a share of the smallest spread that the readings together leave here, and so near that nothing
    /// comes into reach and out of it between.
    fn step_m(&self, place: LinePlace, steps: Steps) -> f64 {
        let run_m = || if unsure_deg(self.line, place) > STRAIGHT_DEG { BENT_RUN_M } else { LINE_RUN_M };
        let run = if self.runs_along { run_m().powi(-2) } else { 0.0 };
        let here = self.sharp.iter().map(|group| group.at(place.at));
        let (sharp, far_m) = here.fold((run, f64::INFINITY), |(sharp, far_m), (one, far)| (sharp + one, far_m.min(far)));
        steps.weighed_m((1.0 / sharp).sqrt(), far_m)
    }

    /// For each group of several candidates: its number, and, summed over the places that are likely, the share of the probability on this line that each of them has.
    pub(super) fn identities(&self, odds: &Odds) -> Vec<(usize, Vec<f64>)> {
        let several = self.groups.iter().enumerate().filter(|(_, group)| group.candidates.len() > 1);
        let mut shares: Vec<(usize, Vec<f64>)> = several.map(|(index, group)| (index, vec![0.0; group.candidates.len()])).collect();
        if shares.is_empty() {
            return shares;
        }
        let least = odds.peak() * LEAST_OF_PEAK;
        let likely: Vec<(usize, f64)> = odds.per_m.iter().copied().enumerate().filter(|(_, density)| *density > least).collect();
        let stride = likely.len().div_ceil(IDENTITY_PLACES).max(1);
        let (mut here, width_m) = (Here::default(), stride as f64 * odds.step_m);
        for (index, density) in likely.into_iter().skip(stride / 2).step_by(stride) {
            let Some(spot) = self.spot(odds.along_m(index)) else { continue };
            let given = self.shared.identities(&self.groups, &spot, &mut here);
            for (group, shares) in &mut shares {
                let given = given.get(*group).into_iter().flatten();
                shares.iter_mut().zip(given).for_each(|(share, given)| *share += density * width_m * given);
            }
        }
        shares
    }

    /// One sigma of the error that the compass readings share, in one that grows with it by so much, degrees.
    pub(super) fn shared_deg_of(&self, gain: f64) -> f64 {
        self.shared.spread_deg * gain.abs()
    }

    /// The error that the compass readings share, for one who stands at a place: its mean and one sigma, degrees.
    pub(super) fn shared_deg(&self, along_m: f64) -> (f64, f64) {
        self.spot(along_m).map_or((0.0, self.shared.spread_deg), |spot| self.shared.given_place(&self.groups, &spot))
    }
}

/// Two lists in one order: which of them each entry is from (the second?), and its number there.
fn merged(first: &[f64], second: &[f64]) -> Vec<(bool, usize)> {
    let mut order = Vec::with_capacity(first.len() + second.len());
    let mut next = 0;
    for (index, value) in first.iter().enumerate() {
        while second.get(next).is_some_and(|other| other < value) {
            order.push((true, next));
            next += 1;
        }
        order.push((false, index));
    }
    order.extend((next..second.len()).map(|index| (true, index)));
    order
}

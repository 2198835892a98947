//! The length of the places that hold 95 %, as a further reading is expected to leave it.

use super::cells::Cell;
use super::proposal::{Foretold, Proposal};
use crate::measure::{normal_density, signed_difference_deg};

/// Readings at each truth, in sigmas, with their weights: Gauss and Hermite's three (Abramowitz and Stegun 1964, 25.4.46).
pub(in crate::fix) const READINGS: [(f64, f64); 3] =
    [(-1.732_050_807_568_877_2, 1.0 / 6.0), (0.0, 2.0 / 3.0), (1.732_050_807_568_877_2, 1.0 / 6.0)];
/// Farther from the reading than this only a plainly wrong one is left.
const REACH_SIGMAS: f64 = 6.0;
/// Share that the length is told for.
pub(in crate::fix) const SHARE: f64 = 0.95;

/// What does not change from one proposal to the next.
pub(super) struct Expecting<'a> {
    cells: &'a [Cell<'a>],
    truths: &'a [usize],
    wrong: f64,
    pub(super) now_m: f64,
}

impl<'a> Expecting<'a> {
    pub(super) fn new(cells: &'a [Cell<'a>], truths: &'a [usize], wrong: f64) -> Self {
        let now_m = length_m(cells.iter().map(|cell| (cell.mass, cell.width_m)).collect(), Vec::new());
        Self { cells, truths, wrong, now_m }
    }

    /// The mean over the truths and over what may be read there. What cannot be seen leaves the fix as it is.
    pub(super) fn leaves_m(&self, proposal: &Proposal<'_>) -> f64 {
        let foretold: Vec<Vec<Foretold>> = self.cells.iter().map(|cell| proposal.foretold(cell)).collect();
        let at = |(truth, chance): (&usize, &Option<f64>)| {
            let chance = chance.unwrap_or(1.0) * (1.0 - self.wrong);
            let sound_m = foretold.get(*truth).map_or(self.now_m, |truth| self.sound_m(truth, &foretold, proposal.turn_deg()));
            chance * sound_m + (1.0 - chance) * self.now_m
        };
        let total: f64 = self.truths.iter().zip(&proposal.chances).map(at).sum();
        total / self.truths.len().max(1) as f64
    }

    /// The mean for one truth, over readings that are not plainly wrong.
    fn sound_m(&self, truth: &[Foretold], foretold: &[Vec<Foretold>], turn_deg: f64) -> f64 {
        let read = |one: &Foretold| {
            let at = |(sigmas, weight): (f64, f64)| weight * self.after_m(one.mean_deg + sigmas * one.spread_deg, foretold, turn_deg);
            one.chance * READINGS.into_iter().map(at).sum::<f64>()
        };
        truth.iter().map(read).sum()
    }

    /// The length that one reading leaves.
    fn after_m(&self, read_deg: f64, foretold: &[Vec<Foretold>], turn_deg: f64) -> f64 {
        let (scale, tail) = (360.0 / turn_deg, self.wrong / turn_deg);
        let fits = |one: &Foretold| {
            let off_deg = signed_difference_deg(read_deg * scale, one.mean_deg * scale) / scale;
            if off_deg.abs() > REACH_SIGMAS * one.spread_deg { 0.0 } else { normal_density(off_deg, one.spread_deg) }
        };
        let (mut near, mut far) = (Vec::new(), Vec::new());
        for (cell, foretold) in self.cells.iter().zip(foretold) {
            // As the fix weighs it: by what would fit best.
            let sound = (1.0 - self.wrong) * foretold.iter().map(fits).fold(0.0, f64::max);
            let reached = if sound > 0.0 { &mut near } else { &mut far };
            reached.push((cell.mass * (sound + tail), cell.width_m));
        }
        length_m(near, far)
    }
}

/// Length of the densest cells that hold 95 % of the whole; the last counts by the part of it that is needed. Those far from the reading
/// are only looked through when the near ones do not hold as much.
///
/// Cells are mass and width. They are halved by density until the last one needed is found: to sort them all takes several times as long.
fn length_m(mut near: Vec<(f64, f64)>, mut far: Vec<(f64, f64)>) -> f64 {
    let (in_near, in_far) = (sum(&near).0, sum(&far).0);
    let wanted = SHARE * (in_near + in_far);
    if in_near < wanted {
        near.append(&mut far);
    }
    let (mut held, mut length) = (0.0, 0.0);
    let mut rest = near.as_mut_slice();
    while rest.len() > 1 {
        let middle = rest.len() / 2;
        rest.select_nth_unstable_by(middle, |a, b| (b.0 * a.1).total_cmp(&(a.0 * b.1)));
        let (denser, thinner) = rest.split_at_mut(middle);
        let (mass, width_m) = sum(denser);
        if held + mass >= wanted {
            rest = denser;
        } else {
            (held, length) = (held + mass, length + width_m);
            rest = thinner;
        }
    }
    let part = |(mass, width_m): &(f64, f64)| if *mass > 0.0 { width_m * ((wanted - held) / mass).clamp(0.0, 1.0) } else { 0.0 };
    length + rest.first().map_or(0.0, part)
}

/// Mass and width of all together.
fn sum(cells: &[(f64, f64)]) -> (f64, f64) {
    cells.iter().fold((0.0, 0.0), |sum, cell| (sum.0 + cell.0, sum.1 + cell.1))
}

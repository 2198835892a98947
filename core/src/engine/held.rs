//! A place held against the last fix: how it agrees, and what would explain it where it does not.

use super::state::{TakenFix, Trip};
use super::view::{CheckView, WitnessSlipView};
use super::{Refusal, show};
use crate::earth::Norths;
use crate::earth::{Compass, PlaceReading, read_place};
use crate::fix::{
    Check, SlipOfFix, Standing, There, Told, Verdict, WitnessSlip, WitnessSlips, slips_beside_place, witness_along, witness_slips,
};
use crate::logbook::Witness;
use crate::measure::{Covariance, Point};
use crate::sheet::Line;
use crate::words::{HeldTold, Words};

/// A place held against a fix.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Held {
    pub(super) check: Check,
    /// Weighed where it does not fit well.
    pub(super) slips: WitnessSlips,
    /// Whether the fix itself was told with a slip: a place that fits it proves little.
    pub(super) misread: bool,
    /// Where the log puts the walker, if legs were walked since the fix: the place is held against that.
    pub(super) reckoned: Option<Point>,
    /// Side of the square that was told, metres; 0 for a point.
    pub(super) square_m: f64,
}

impl Held {
    /// As words take it.
    pub(super) fn told(&self) -> HeldTold<'_> {
        HeldTold { check: &self.check, misread: self.misread, by_the_log: self.reckoned.is_some(), square_m: self.square_m }
    }
}

impl Trip {
    /// An independent place held against the last fix.
    pub(super) fn held_against(&self, witness: &Witness) -> Result<Held, Refusal> {
        let place = self.sheet.frame.to_plane(witness.at);
        let square_m = self.read_of(witness).square_m;
        if let Some((at, covariance)) = self.reckoned() {
            let check = Check::of(0, (at, covariance), place, witness.spread_m).ok_or_else(|| Refusal::plain("fix-needed"))?;
            return Ok(Held { check, slips: WitnessSlips::default(), misread: false, reckoned: Some(at), square_m });
        }
        let in_the_open = self.open.as_ref().and_then(|taken| taken.fix.check(place, witness.spread_m));
        let held = in_the_open.or_else(|| self.fix.as_ref().and_then(|taken| taken.fix.check(place, witness.spread_m)));
        let check = held.ok_or_else(|| Refusal::plain("fix-needed"))?;
        let slips = if check.verdict() == Verdict::Fits { WitnessSlips::default() } else { self.witness_slips(witness) };
        let of_fix = self.fix.as_ref().map(|taken| &taken.slips).or_else(|| self.open.as_ref().map(|taken| &taken.slips));
        Ok(Held { check, slips, misread: of_fix.is_some_and(|slips| slips.told().is_some()), reckoned: None, square_m })
    }

    /// Where the log puts the walker, and how surely; nothing when the last fix is newer than the last leg.
    fn reckoned(&self) -> Option<(Point, Covariance)> {
        let (car, walk) = self.walked().filter(|_| self.walked_on)?;
        let end = walk.ends.last()?;
        Some((end.at, car.covariance.plus(end.covariance)))
    }

    /// The place that one was held against, and the norths there.
    pub(super) fn held_at(&self, held: &Held) -> Option<(Point, &Norths)> {
        match held.reckoned {
            Some(at) => Some((at, &self.car.as_ref()?.norths)),
            None => self.fixed_at(held.check.stretch),
        }
    }

    fn witness_slips(&self, witness: &Witness) -> WitnessSlips {
        let reading = self.read_of(witness);
        let earlier = self.earlier();
        let (of_fix, there) = self.slips_of_fix(self.sheet.frame.to_plane(reading.at), witness.spread_m).unwrap_or_default();
        let on_others = self.fix.as_ref().map_or(&[][..], |taken| &taken.slips.on_others);
        let told = Told { text: &witness.typed, reading, spread_m: witness.spread_m, earlier: &earlier, of_fix: &of_fix, on_others, there };
        let lines: Vec<&Line> = self.fix.iter().flat_map(|taken| &taken.lines).filter_map(|line| self.sheet.lines.get(*line)).collect();
        witness_slips(&self.standings(), &lines, &self.sheet, &told)
    }

    /// The slips of the fix as a place is held against it, which is asked too; and how the sightings of the fix fit that place.
    fn slips_of_fix(&self, place: Point, spread_m: f64) -> Option<(Vec<SlipOfFix>, Option<There>)> {
        let Some(taken) = &self.fix else {
            let (slips, there) = self.open_slips_beside(self.open.as_ref()?, place, spread_m)?;
            return Some((slips, Some(there)));
        };
        let lines = self.lines_of(taken)?;
        let scene = taken.heard.scene(&lines, &taken.norths, taken.trust);
        let slips = slips_beside_place(&scene, &self.sheet.landmarks, taken.fix.best()?, witness_along("", place, spread_m, &lines));
        Some((slips, There::of(&scene, &taken.fix, place, spread_m)))
    }

    fn lines_of(&self, taken: &TakenFix) -> Option<Vec<&Line>> {
        taken.lines.iter().map(|line| self.sheet.lines.get(*line)).collect()
    }

    /// A witness's place as it was read; as it is kept where the text is not.
    fn read_of(&self, witness: &Witness) -> PlaceReading {
        let as_kept = PlaceReading { at: witness.at, square_m: 0.0, step_m: 0.0, stated_m: 0.0, zone: None };
        read_place(&witness.typed, &self.sheet.terms()).unwrap_or(as_kept)
    }

    fn standings(&self) -> Vec<Standing> {
        let on_line = self.fix.as_ref().map(|taken| taken.fix.standings());
        on_line.or_else(|| self.open.as_ref().map(|taken| taken.fix.standings())).unwrap_or_default()
    }

    /// Where the walker was before the last fix: at the fixes before it, at the car and at the ends of legs.
    fn earlier(&self) -> Vec<Point> {
        let before = self.fixed.iter().rev().skip(1).map(|at| self.sheet.frame.to_plane(*at));
        let walked = self.walk().map_or_else(Vec::new, |(car, walk)| {
            std::iter::once(car.point).chain(walk.ends.iter().map(|end| end.at)).collect::<Vec<Point>>()
        });
        before.chain(walked).collect()
    }
}

pub(super) fn check_view(trip: &Trip, words: &Words) -> Option<CheckView> {
    let held = trip.check.as_ref()?;
    let (best, norths) = trip.held_at(held)?;
    Some(CheckView {
        stretch: show::small(held.check.stretch + 1),
        distance_m: held.check.distance_m,
        bearing_deg_grid: norths.to_grid(held.check.plane_deg, best).degrees(),
        chi_square: held.check.chi_square,
        chance: held.check.chance,
        verdict: held.check.verdict().word().into(),
        told: words.check_told(&held.told(), best, norths),
        slips: held.slips.found.iter().enumerate().map(|(rank, slip)| slip_view(&held.slips, rank, slip, words)).collect(),
    })
}

fn slip_view(slips: &WitnessSlips, rank: usize, slip: &WitnessSlip, words: &Words) -> WitnessSlipView {
    WitnessSlipView {
        kind: slip.kind.word().into(),
        meant: slip.meant.clone(),
        chance: slip.chance,
        told: words.witness_slip(slips, rank, slip),
    }
}

//! The odds of each slip that would explain a place that does not fit.

use super::Check;
use super::misplaced::otherwise;
use super::slip::{WitnessSlip, WitnessSlipKind};
use super::there::There;
use crate::earth::{PlaceReading, digits_for_spread};
use crate::fix::{OnOther, Verdict};
use crate::measure::{Covariance, LINE_95, Point};
use crate::sheet::{Line, Sheet};

/// A place as it was told, to be held against a fix.
#[derive(Debug, Clone, Copy)]
pub struct Told<'a> {
    /// As it was typed; empty when it came from a receiver.
    pub text: &'a str,
    /// As it was read.
    pub reading: PlaceReading,
    /// One sigma per axis, metres.
    pub spread_m: f64,
    /// Where the walker was before.
    pub earlier: &'a [Point],
    /// The slips of the fix.
    pub of_fix: &'a [SlipOfFix],
    /// Where the sightings of the fix would put one on each line beside its own.
    pub on_others: &'a [OnOther],
    /// What the sightings of the fix say of the place.
    pub there: Option<There>,
}

/// A slip of a fix as a place is held against it.
#[derive(Debug, Clone, PartialEq)]
pub struct SlipOfFix {
    /// What the reading is of that was misread; empty where all share the slip.
    pub of: String,
    /// Where one would stand with it; its share is its odds against no slip.
    pub standing: Standing,
    /// Density of the place with it, times its chance, per square metre.
    pub density: f64,
}

/// A place of a fix, with the share of the probability that it holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The likeliest point of it.
    pub at: Point,
    /// How surely, about that point.
    pub covariance: Covariance,
    /// Its share, 0 to 1.
    pub share: f64,
}

impl Standing {
    /// Density of a place with its own spread for one who stands here, times the share, per square metre.
    #[must_use]
    pub fn density_of(&self, place: Point, spread_m: f64) -> f64 {
        self.share * normal_plane(place.minus(self.at), self.covariance, spread_m)
    }
}

/// All slips that were weighed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WitnessSlips {
    /// Probability that none of them explains it.
    pub none: f64,
    /// The likelier ones, likeliest first.
    pub found: Vec<WitnessSlip>,
}

/// What none of the slips explains is off by some distance between these two, metres, each tenfold as likely as another (common practice, no source) ...
const ANYWHERE_M: (f64, f64) = (100.0, 10_000.0);
/// ... of which this share lies on a line of the sheet: another place of it was taken for this one.
const ON_LINES: f64 = 0.25;
/// Less likely ones are not told.
const LEAST_CHANCE: f64 = 0.02;
/// One who stands beside the line stands about so far from it, one sigma, metres (common practice, no source).
const OFF_LINE_M: f64 = 200.0;
/// A place that a receiver or a person still tells lies about so far back, metres (common practice, no source).
pub(super) const JUST_COME_M: f64 = 1_000.0;
/// Between two places at which a likelihood is summed along a line, in sigmas.
const SUM_STEP_SIGMAS: f64 = 0.5;

/// Weighs every slip that would explain a place that does not fit, highest odds first. Nothing is corrected.
///
/// Units: metres; densities per square metre of the plane. `lines` are those that the fix was taken on; none in the open.
///
/// # References
/// Which slips there are: US Army TC 3-25.26 (2013) on reading coordinates (right and up, figures exchanged, the datum of the margin,
/// the square and its corner); the chances are common practice, no source.
#[must_use]
pub fn witness_slips(places: &[Standing], lines: &[&Line], sheet: &Sheet, told: &Told<'_>) -> WitnessSlips {
    let held = Held { places, lines, sheet, told, place: sheet.frame.to_plane(told.reading.at) };
    let mut all = held.misread();
    // What puts the place where it is foretold no better than as it was told explains nothing.
    let as_told = held.density(held.place, told.spread_m);
    all.retain(|one| one.chance > one.kind.chance() * as_told);
    all.push(held.stale());
    all.push(held.fix_wrong());
    all.extend(held.slips_of_fix());
    all.extend(held.off_line());
    let none = as_told + WitnessSlipKind::Unknown.chance() * held.anywhere();
    let total = none + all.iter().map(|slip| slip.chance).sum::<f64>();
    all.iter_mut().for_each(|slip| slip.chance /= total);
    all.retain(|slip| slip.chance >= LEAST_CHANCE);
    all.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    WitnessSlips { none: none / total, found: all }
}

struct Held<'a> {
    places: &'a [Standing],
    lines: &'a [&'a Line],
    sheet: &'a Sheet,
    told: &'a Told<'a>,
    place: Point,
}

impl WitnessSlips {
    /// Whether it is likelier that something else is wrong than the likeliest of the slips.
    #[must_use]
    pub fn leads_unknown(&self) -> bool {
        self.found.first().is_some_and(|first| first.chance < self.none)
    }
}

impl Held<'_> {
    /// Density of a place that is wrong for no known reason, per square metre: by its distance from the fix, and on the sheet's lines.
    fn anywhere(&self) -> f64 {
        anywhere(self.distance_m(self.place), along(self.sheet.lines.iter(), self.place, self.told.spread_m))
    }

    /// A slip that would put the place here; its chance is not divided by all of them yet.
    fn slip(&self, kind: WitnessSlipKind, meant: String, place: Point, spread_m: f64, share: f64) -> WitnessSlip {
        let chance = if self.fits(place, spread_m) { kind.chance() * share * self.density(place, spread_m) } else { 0.0 };
        WitnessSlip { kind, meant, of: String::new(), in_the_open: self.lines.is_empty(), distance_m: self.distance_m(place), chance }
    }

    /// Whether a place fits the fix: a slip that leaves it far off explains nothing.
    fn fits(&self, place: Point, spread_m: f64) -> bool {
        let held = |one: &Standing| Check::of(0, (one.at, one.covariance), place, spread_m);
        self.places.iter().filter_map(held).any(|check| check.verdict() != Verdict::Misfit)
    }

    /// Of all texts that a slip could have spoiled, and of all squares, the likeliest stands for its kind.
    fn misread(&self) -> Vec<WitnessSlip> {
        let mut all: Vec<WitnessSlip> = Vec::new();
        for one in otherwise(self.sheet, (self.told.text, self.told.reading), self.told.spread_m) {
            let Some((place, spread_m)) = one.instead() else { continue };
            let slip = self.slip(one.kind, one.written, place, spread_m, one.share);
            match all.iter_mut().find(|other| other.kind == slip.kind) {
                Some(other) if other.chance >= slip.chance => other.chance += slip.chance,
                Some(other) => *other = WitnessSlip { chance: slip.chance + other.chance, ..slip },
                None => all.push(slip),
            }
        }
        all
    }

    /// Half for where the walker was, half for the lines of the sheet: of that, half for the way that was just come.
    fn stale(&self) -> WitnessSlip {
        let all = || self.sheet.lines.iter();
        let just_come = |at: Point| (-self.distance_m(at) / JUST_COME_M).exp();
        let anywhere = along(all(), self.place, self.told.spread_m);
        let lines = f64::midpoint(anywhere, along_by(all(), self.place, self.told.spread_m, just_come));
        let point = |at: &Point| normal_plane(self.place.minus(*at), Covariance::default(), self.told.spread_m.max(LEAST_STALE_M));
        let earlier = self.told.earlier.iter().map(point).sum::<f64>() / self.told.earlier.len().max(1) as f64;
        let density = if self.told.earlier.is_empty() { lines } else { f64::midpoint(lines, earlier) };
        self.elsewhere(WitnessSlipKind::Stale, density)
    }

    /// Elsewhere, as its own odds have it: several readings that agree leave little for that.
    fn fix_wrong(&self) -> WitnessSlip {
        let kind = WitnessSlipKind::FixWrong;
        if let Some(there) = self.told.there {
            return self.weighed(kind, there.elsewhere);
        }
        self.elsewhere(kind, along(self.lines.iter().copied(), self.place, self.told.spread_m))
    }

    /// The place lies where a slip that was told with the fix would put one, or on another line where its sightings would.
    fn slips_of_fix(&self) -> Vec<WitnessSlip> {
        let of = |kind: WitnessSlipKind, of: &str, one: &Standing, density: f64| {
            let (earth, spread_m) = (self.sheet.to_earth(one.at), one.covariance.ellipse().major_m);
            WitnessSlip {
                chance: kind.chance() * density,
                kind,
                meant: self.sheet.reference(earth, digits_for_spread(LINE_95 * spread_m)),
                of: of.to_owned(),
                in_the_open: self.lines.is_empty(),
                distance_m: self.place.minus(one.at).length_m(),
            }
        };
        let on_other = |one: &OnOther| {
            let density = one.standing.density_of(self.place, self.told.spread_m);
            of(WitnessSlipKind::OtherLine(one.line.clone()), "", &one.standing, density)
        };
        let of_fix = self.told.of_fix.iter().map(|one| of(WitnessSlipKind::SlipOfFix, &one.of, &one.standing, one.density));
        of_fix.chain(self.told.on_others.iter().map(on_other)).collect()
    }

    /// Anywhere beside the lines, as the sightings have it there; where they are not asked, near the places of the fix.
    fn off_line(&self) -> Option<WitnessSlip> {
        let wide_m = self.told.spread_m.hypot(OFF_LINE_M);
        let density = match self.told.there {
            Some(there) => along(self.lines.iter().copied(), self.place, wide_m) * there.beside,
            None => self.density(self.place, wide_m),
        };
        (!self.lines.is_empty()).then(|| self.elsewhere(WitnessSlipKind::OffLine, density))
    }

    /// Density of a place with its own spread as the fix foretells it, per square metre.
    fn density(&self, place: Point, spread_m: f64) -> f64 {
        self.places.iter().map(|one| one.density_of(place, spread_m)).sum()
    }

    /// To the nearest place of the fix, metres.
    fn distance_m(&self, place: Point) -> f64 {
        self.places.iter().map(|one| place.minus(one.at).length_m()).fold(f64::INFINITY, f64::min)
    }

    fn elsewhere(&self, kind: WitnessSlipKind, density: f64) -> WitnessSlip {
        let chance = kind.chance() * density;
        self.weighed(kind, chance)
    }

    fn weighed(&self, kind: WitnessSlipKind, chance: f64) -> WitnessSlip {
        WitnessSlip {
            kind,
            meant: String::new(),
            of: String::new(),
            in_the_open: self.lines.is_empty(),
            distance_m: self.distance_m(self.place),
            chance,
        }
    }
}

/// A place that is kept from before is hardly known better than this, metres.
const LEAST_STALE_M: f64 = 10.0;

/// Density of a place that is wrong for no known reason, so far from where one stands, by that on lines.
pub(super) fn anywhere(distance_m: f64, on_lines: f64) -> f64 {
    let distance_m = distance_m.max(ANYWHERE_M.0);
    let in_plane = 1.0 / (std::f64::consts::TAU * distance_m * distance_m * (ANYWHERE_M.1 / ANYWHERE_M.0).ln());
    (1.0 - ON_LINES) * in_plane + ON_LINES * on_lines
}

/// Degrees carry a sign, a point, a comma or a letter of the compass; figures of a grid are whole.
pub(super) fn is_in_degrees(text: &str) -> bool {
    text.is_empty() || text.contains(['.', ',', '°'])
}

/// Density of a place if one stood anywhere on lines, every metre equally likely.
pub(super) fn along<'a>(lines: impl Iterator<Item = &'a Line>, place: Point, spread_m: f64) -> f64 {
    along_by(lines, place, spread_m, |_| 1.0)
}

/// The same with a weight for each metre by where it lies.
pub(super) fn along_by<'a>(lines: impl Iterator<Item = &'a Line>, place: Point, spread_m: f64, weight: impl Fn(Point) -> f64) -> f64 {
    let (mut sum, mut whole) = (0.0, 0.0);
    for line in lines {
        let sigma_m = spread_m.hypot(line.spread_m).max(1.0);
        let count = (line.length_m() / (SUM_STEP_SIGMAS * sigma_m)).ceil().max(1.0);
        let step_m = line.length_m() / count;
        for at in (0..count as usize).map(|nth| line.at((nth as f64 + 0.5) * step_m).at) {
            let metres = step_m * weight(at);
            sum += metres * normal_plane(at.minus(place), Covariance::default(), sigma_m);
            whole += metres;
        }
    }
    if whole > 0.0 { sum / whole } else { 0.0 }
}

pub(in crate::fix) fn normal_plane(step: Point, covariance: Covariance, spread_m: f64) -> f64 {
    let own = Covariance { east2: spread_m * spread_m, east_north: 0.0, north2: spread_m * spread_m };
    covariance.plus(own).density(step)
}

//! A place that was told: the slips that would put it where it was told, as likelihoods of where one stands.

use super::slip::WitnessSlipKind;
use super::typed::{meant, noughts};
use super::weigh::{JUST_COME_M, along, along_by, anywhere, is_in_degrees, normal_plane};
use crate::earth::{Counted, OldDatum, PlaceReading, read_place};
use crate::measure::{Covariance, Point};
use crate::sheet::Sheet;

/// No square of a reference in the field is wider, metres: that of four figures.
const WIDEST_SQUARE_M: f64 = 1_000.0;
/// Farther off than this many sigmas it says nothing.
const FAR_SIGMAS: f64 = 6.0;

/// One slip with which a place may have been told.
#[derive(Debug, Clone, PartialEq)]
pub struct Misplaced {
    /// Which one.
    pub kind: WitnessSlipKind,
    /// The text as it would have been meant; empty when the figures are right.
    pub written: String,
    /// The part of the kind's chance that it has.
    pub share: f64,
    law: Law,
}

/// How likely it was to tell the place.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Law {
    /// As if it had been told here, one sigma per axis, metres.
    Here(Point, f64),
    /// From before: everywhere as likely, and the likelier the nearer one came past it, densities per square metre.
    Before { told: Point, even: f64, near: f64 },
    /// For no known reason: everywhere as likely on the lines, and each tenfold of the distance.
    Unknown { told: Point, on_lines: f64 },
}

impl Misplaced {
    fn here(kind: WitnessSlipKind, written: String, share: f64, at: Point, spread_m: f64) -> Self {
        Self { kind, written, share, law: Law::Here(at, spread_m) }
    }

    /// Density with which the place was told to one who stands somewhere, per square metre; `wider_m` is what else is unsure, one sigma.
    #[must_use]
    pub fn density(&self, stood_at: Point, wider_m: f64) -> f64 {
        match self.law {
            Law::Here(at, spread_m) => normal_plane(stood_at.minus(at), Covariance::default(), spread_m.hypot(wider_m)),
            Law::Before { told, even, near } => even + near * (-stood_at.minus(told).length_m() / JUST_COME_M).exp(),
            Law::Unknown { told, on_lines } => anywhere(stood_at.minus(told).length_m(), on_lines),
        }
    }

    /// The point from which it only falls.
    #[must_use]
    pub fn centre(&self) -> Point {
        match self.law {
            Law::Here(at, _) => at,
            Law::Before { told, .. } | Law::Unknown { told, .. } => told,
        }
    }

    /// How far from that point it says anything, metres; everywhere where that is not told.
    #[must_use]
    pub fn reach_m(&self) -> Option<f64> {
        if let Law::Here(_, spread_m) = self.law { Some(FAR_SIGMAS * spread_m) } else { None }
    }

    /// Where the place would lie, with one sigma per axis, metres; nothing where that is not told.
    pub(super) fn instead(&self) -> Option<(Point, f64)> {
        if let Law::Here(at, spread_m) = self.law { Some((at, spread_m)) } else { None }
    }
}

/// Every slip with which a place may have been told.
#[must_use]
pub fn misplaced(sheet: &Sheet, (text, reading): (&str, PlaceReading), spread_m: f64) -> Vec<Misplaced> {
    let told = sheet.frame.to_plane(reading.at);
    let mut all = otherwise(sheet, (text, reading), spread_m);
    // What moves it by less than its spread is none.
    all.retain(|one| one.centre().minus(told).length_m() > spread_m);
    let on_lines = along(sheet.lines.iter(), told, spread_m);
    let near = along_by(sheet.lines.iter(), told, spread_m, |at| (-at.minus(told).length_m() / JUST_COME_M).exp());
    let of = |kind: WitnessSlipKind, law: Law| Misplaced { kind, written: String::new(), share: 1.0, law };
    all.push(of(WitnessSlipKind::Stale, Law::Before { told, even: on_lines / 2.0, near: near / 2.0 }));
    all.push(of(WitnessSlipKind::Unknown, Law::Unknown { told, on_lines }));
    all
}

/// Those with which the place would lie elsewhere: other figures, another datum, the middle of a wider square.
pub(super) fn otherwise(sheet: &Sheet, (text, reading): (&str, PlaceReading), spread_m: f64) -> Vec<Misplaced> {
    let misread = meant(text).into_iter().filter_map(|one| {
        let other = read_place(&one.text, &sheet.terms()).ok()?;
        Some(Misplaced::here(one.kind, one.text, 1.0 / one.among, sheet.frame.to_plane(other.at), spread_m))
    });
    let counted = if reading.square_m > 0.0 || !is_in_degrees(text) { Counted::Utm } else { Counted::Degrees };
    let moved = |datum: &OldDatum| {
        let place = sheet.frame.to_plane(datum.as_if_on(reading.at, counted)?);
        Some(Misplaced::here(WitnessSlipKind::Datum(*datum), String::new(), 1.0, place, spread_m.hypot(datum.spread_m())))
    };
    let corner = |noughts: u32| {
        let unit_m = if reading.square_m > 0.0 { reading.square_m } else { 1.0 };
        let side_m = unit_m * 10_f64.powi(i32::try_from(noughts).ok()?);
        let middle = sheet.frame.to_plane(reading.at).plus(Point::new((side_m - unit_m) / 2.0, (side_m - unit_m) / 2.0));
        // Noughts come by chance, too: as many of them in both numbers once in a hundred, in ten thousand, …
        let rarity = 100_f64.powi(i32::try_from(noughts).ok()?).min(100.0);
        let spread_m = spread_m.hypot(side_m / 12f64.sqrt());
        (side_m <= WIDEST_SQUARE_M).then(|| Misplaced::here(WitnessSlipKind::Corner, String::new(), rarity, middle, spread_m))
    };
    let datums = OldDatum::in_use_at(reading.at);
    misread.chain(datums.iter().filter_map(moved)).chain((1..=noughts(text)).filter_map(corner)).collect()
}

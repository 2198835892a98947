//! Which mark is wrong: each is left out in turn, and the others say where it should be.

use super::view::View;
use super::{PhotoCaution, PhotoKind, PhotoMark, PhotoTerms, hull};
use crate::measure::Point;

/// Marks may miss this many of their spreads before anything is said: bent paper and lenses do that.
const TOLERATED: f64 = 4.0;
/// Leaving out a wrong mark must shrink the spread to this part, or below what is tolerated.
const SHRINKS_TO: f64 = 0.25;
/// A reference is off by whole squares when it is within this part of a square of it.
const NEAR_SQUARE: f64 = 0.25;
/// The same where nothing else tells a mistyped reference from a view aslant.
const VERY_NEAR_SQUARE: f64 = 0.1;
/// Squares by which a reference can be mistyped and still be told as a slip.
const MOST_SQUARES: f64 = 99.0;

/// The fit without one mark.
struct Without {
    mark: usize,
    spread_px: f64,
    /// From where the others put the crossing to what was typed, units of the grid.
    step: Point,
}

/// A view aslant whose depth differs by more than this share of it over the marks' root mean square distance is none that a hand takes
/// of a sheet (common practice, no source): marks that ask for one are wrong.
const MOST_SLANT: f64 = 0.35;

pub(super) fn cautions(marks: &[PhotoMark], view: &View, terms: &PhotoTerms, unit_m: f64) -> Vec<PhotoCaution> {
    let mirrored = view.is_mirrored().then_some(PhotoCaution::Mirrored);
    mirrored.into_iter().chain(misfits(marks, view, terms, unit_m)).collect()
}

/// Whether the marks fit as seen aslant where they do not as from square above. Four always do: of those a reference that is off by whole
/// squares explains it better.
fn is_aslant(marks: &[PhotoMark], view: &View, spread_px: f64, terms: &PhotoTerms) -> bool {
    let aslant = (view.kind == PhotoKind::Affine).then(|| View::fitted(marks, PhotoKind::Projective).ok()).flatten();
    let needed = marks.len() <= PhotoKind::Projective.marks_needed();
    aslant.filter(|_| !(needed && may_be_slip(marks, view, terms))).is_some_and(|aslant| {
        let left_px = aslant.spread_px(marks).unwrap_or(0.0);
        aslant.slant() <= MOST_SLANT && left_px <= (SHRINKS_TO * spread_px).min(TOLERATED * terms.mark_spread_px)
    })
}

fn misfits(marks: &[PhotoMark], view: &View, terms: &PhotoTerms, unit_m: f64) -> Vec<PhotoCaution> {
    let Some(spread_px) = view.spread_px(marks) else {
        let may_be_aslant = view.kind == PhotoKind::Affine && terms.kind.is_none();
        return vec![if may_be_aslant { PhotoCaution::UncheckedSlant } else { PhotoCaution::Unchecked }];
    };
    if spread_px <= TOLERATED * terms.mark_spread_px {
        return Vec::new();
    }
    if is_aslant(marks, view, spread_px, terms) {
        return vec![PhotoCaution::Slant { spread_px }];
    }
    // With one mark over, leaving out any one leaves a perfect fit.
    if marks.len() <= view.kind.marks_needed() + 1 {
        return vec![PhotoCaution::OneWrong { spread_px, either: None }];
    }
    let mut all: Vec<Without> = (0..marks.len()).filter_map(|mark| without(marks, view, mark)).collect();
    all.sort_by(|a, b| a.spread_px.total_cmp(&b.spread_px));
    // Where two marks and the others' middle lie in one line, leaving out either may explain it alike.
    let alike = |without: &Without| without.spread_px <= terms.mark_spread_px.max(SHRINKS_TO * spread_px);
    if all.get(1).is_some_and(alike) {
        let either = match all.as_slice() {
            [one, other, rest @ ..] if !rest.first().is_some_and(alike) => Some((one.mark.min(other.mark), one.mark.max(other.mark))),
            _ => None,
        };
        return vec![PhotoCaution::OneWrong { spread_px, either }];
    }
    let best = all.into_iter().next();
    let explains =
        |without: &Without| without.spread_px <= (SHRINKS_TO * spread_px).max(terms.mark_spread_px) && without.step.length_m() > 0.0;
    match best.filter(explains) {
        Some(without) => vec![named(&without, terms, unit_m)],
        None => vec![PhotoCaution::Loose { spread_px }],
    }
}

fn without(marks: &[PhotoMark], view: &View, mark: usize) -> Option<Without> {
    let others: Vec<PhotoMark> = marks.iter().enumerate().filter(|(at, _)| *at != mark).map(|(_, other)| *other).collect();
    let left_out = marks.get(mark)?;
    let view = View::fitted(&others, view.kind).ok()?;
    let step = left_out.at.minus(view.grid_at(hull::pixel(left_out))?);
    // Marks that are all needed leave no spread.
    Some(Without { mark: mark + 1, spread_px: view.spread_px(&others).unwrap_or(0.0), step })
}

/// Whether one mark left out would be off by whole squares, as a reference is that was typed wrongly.
fn may_be_slip(marks: &[PhotoMark], view: &View, terms: &PhotoTerms) -> bool {
    let whole = |without: Without| {
        let squares = without.step.times(1.0 / terms.square);
        let rounded = Point::new(squares.east_m.round(), squares.north_m.round());
        rounded.length_m() > 0.0 && squares.minus(rounded).length_m() < VERY_NEAR_SQUARE
    };
    (0..marks.len()).filter_map(|mark| without(marks, view, mark)).any(whole)
}

fn named(without: &Without, terms: &PhotoTerms, unit_m: f64) -> PhotoCaution {
    let squares = without.step.times(1.0 / terms.square);
    let (east, north) = (squares.east_m.round(), squares.north_m.round());
    let near = squares.minus(Point::new(east, north)).length_m() < NEAR_SQUARE;
    let whole = east.abs() + north.abs() > 0.0 && east.abs().max(north.abs()) <= MOST_SQUARES;
    if near && whole {
        PhotoCaution::Slip { mark: without.mark, east: east as i32, north: north as i32 }
    } else {
        PhotoCaution::Misfit { mark: without.mark, off_m: without.step.length_m() * unit_m }
    }
}

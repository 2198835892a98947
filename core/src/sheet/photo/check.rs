//! Which mark is wrong: each is left out in turn, and the others say where it should be.

use super::view::View;
use super::{PhotoCaution, PhotoKind, PhotoMark, PhotoTerms, hull};
use crate::measure::Point;

/// Marks may miss this many of their spreads before all of them together are called bad: bent paper and lenses do that.
const TOLERATED: f64 = 4.0;
/// A good set of marks shows a wrong one as often as this.
const BY_CHANCE: f64 = 0.01;
/// The others fit by what was stated of marks up to so many times its spread; beyond, they tell it themselves.
const AS_STATED: f64 = 2.0;
/// Two marks explain a misfit alike while neither is twenty times likelier: twice the logarithm of that.
const ALIKE: f64 = 5.99;
/// A mark explains a misfit of which no more than this share of the squares is left without it (our choice).
const LEFT_OVER: f64 = 0.1;
/// A reference is off by whole squares when it is within this part of a square of it.
const NEAR_SQUARE: f64 = 0.25;
/// The same where nothing else tells a mistyped reference from a view aslant.
const VERY_NEAR_SQUARE: f64 = 0.1;
/// Squares by which a reference can be mistyped and still be told as a slip.
const MOST_SQUARES: f64 = 99.0;

/// The fit without one mark.
struct Without {
    mark: usize,
    /// Sum of the squares that the others are off, square pixels.
    squares_px2: f64,
    /// From where the others put the crossing to where it was marked, pixels to the right and down.
    step_px: Point,
    /// From where the others put the spot to what was typed, units of the grid.
    step: Point,
    /// How often a good mark would be as far off.
    by_chance: f64,
}

/// A view aslant whose depth differs by more than this share of it over the marks' root mean square distance is none that a hand takes
/// of a sheet (common practice, no source): marks that ask for one are wrong.
const MOST_SLANT: f64 = 0.35;

pub(super) fn cautions(marks: &[PhotoMark], view: &View, terms: &PhotoTerms, unit_m: f64) -> Vec<PhotoCaution> {
    let mirrored = view.is_mirrored().then_some(PhotoCaution::Mirrored);
    mirrored.into_iter().chain(misfits(marks, view, terms, unit_m)).collect()
}

fn misfits(marks: &[PhotoMark], view: &View, terms: &PhotoTerms, unit_m: f64) -> Vec<PhotoCaution> {
    let Some(spread_px) = view.spread_px(marks) else {
        let may_be_aslant = view.kind == PhotoKind::Affine && terms.kind.is_none();
        return vec![if may_be_aslant { PhotoCaution::UncheckedSlant } else { PhotoCaution::Unchecked }];
    };
    let mut all: Vec<Without> = (0..marks.len()).filter_map(|mark| without(marks, view, mark, terms)).collect();
    all.sort_by(|a, b| a.squares_px2.total_cmp(&b.squares_px2));
    let stands_out = |without: &Without| without.by_chance * (marks.len() as f64) < BY_CHANCE;
    let is_loose = spread_px > TOLERATED * terms.mark_spread_px;
    if !is_loose && !all.iter().any(stands_out) {
        return Vec::new();
    }
    let best_px2 = all.first().map_or(f64::INFINITY, |best| best.squares_px2);
    if is_aslant(marks, view, best_px2, terms) {
        if marks.len() <= PhotoKind::Projective.marks_needed() {
            return vec![PhotoCaution::SlantOrWrong { spread_px }];
        }
        let instead = all.first().filter(|one| marks.len() > view.kind.marks_needed() + 1 && stands_out(one)).map(|one| one.mark);
        return vec![PhotoCaution::Slant { spread_px, instead }];
    }
    // With one mark over, leaving out any one leaves a perfect fit.
    if marks.len() <= view.kind.marks_needed() + 1 {
        return vec![PhotoCaution::OneWrong { spread_px, either: None }];
    }
    let over = (2 * marks.len()).saturating_sub(view.kind.count() + 2) as f64;
    let scale_px = terms.mark_spread_px.max((best_px2 / over).sqrt());
    let alike = |without: &Without| without.squares_px2 - best_px2 < ALIKE * scale_px * scale_px;
    match all.as_slice() {
        [one, other, rest @ ..] if stands_out(one) && alike(other) => {
            let both = (one.mark.min(other.mark), one.mark.max(other.mark));
            vec![PhotoCaution::OneWrong { spread_px, either: (!rest.first().is_some_and(alike)).then_some(both) }]
        }
        [one, ..] if stands_out(one) => vec![named(one, terms, unit_m)],
        [one, other, ..] => {
            let explains = |without: &Without| without.squares_px2 < LEFT_OVER * view.squares_px2(marks);
            let first = Some(one).filter(|one| explains(one) && !explains(other)).map(|one| one.mark);
            vec![PhotoCaution::Loose { spread_px, first }]
        }
        [] | [_] => vec![PhotoCaution::Loose { spread_px, first: None }],
    }
}

/// Whether the marks fit as seen aslant where they do not as from square above, and no worse than without their worst; clearly better where
/// the person says that they are of a scan. Four always do: of those a reference that is off by whole squares explains it better.
fn is_aslant(marks: &[PhotoMark], view: &View, best_px2: f64, terms: &PhotoTerms) -> bool {
    let aslant = (view.kind == PhotoKind::Affine).then(|| View::fitted(marks, PhotoKind::Projective).ok()).flatten();
    let needed = marks.len() <= PhotoKind::Projective.marks_needed();
    aslant.filter(|_| !(needed && may_be_slip(marks, view, terms))).is_some_and(|aslant| {
        let alike_px2 = ALIKE * terms.mark_spread_px * terms.mark_spread_px;
        let most_px2 = if needed || terms.kind.is_none() { best_px2 + alike_px2 } else { best_px2 - alike_px2 };
        aslant.slant() <= MOST_SLANT && aslant.squares_px2(marks) < most_px2
    })
}

/// What the others say of a mark. As far off as it is a good one is by chance as the spread stated of marks has it, or, where the others
/// fit worse than that, as their own has it: the tail of a plane normal, and that of its spread taken from so many residuals.
///
/// # References
/// The chi-squared and F distributions with two degrees of freedom, whose tails are elementary (from memory).
fn without(marks: &[PhotoMark], view: &View, mark: usize, terms: &PhotoTerms) -> Option<Without> {
    let others: Vec<PhotoMark> = marks.iter().enumerate().filter(|(at, _)| *at != mark).map(|(_, other)| *other).collect();
    let left_out = marks.get(mark)?;
    let view = View::fitted(&others, view.kind).ok()?;
    let step = left_out.at.minus(view.grid_at(hull::pixel(left_out))?);
    let (step_px, squares) = view.miss(left_out)?;
    // Marks that are all needed leave no spread.
    let (spread_px, over) = (view.spread_px(&others).unwrap_or(0.0), (2 * others.len() - view.kind.count()) as f64);
    let by_chance = if spread_px <= AS_STATED * terms.mark_spread_px {
        (-squares / (2.0 * terms.mark_spread_px.max(spread_px).powi(2))).exp()
    } else {
        (1.0 + squares / (spread_px * spread_px * over)).powf(-over / 2.0)
    };
    Some(Without { mark: mark + 1, squares_px2: view.squares_px2(&others), step_px, step, by_chance })
}

/// Whether one mark left out would be off by whole squares, as a reference is that was typed wrongly.
fn may_be_slip(marks: &[PhotoMark], view: &View, terms: &PhotoTerms) -> bool {
    let whole = |without: Without| {
        let squares = without.step.times(1.0 / terms.square);
        let rounded = Point::new(squares.east_m.round(), squares.north_m.round());
        rounded.length_m() > 0.0 && squares.minus(rounded).length_m() < VERY_NEAR_SQUARE
    };
    (0..marks.len()).filter_map(|mark| without(marks, view, mark, terms)).any(whole)
}

fn named(without: &Without, terms: &PhotoTerms, unit_m: f64) -> PhotoCaution {
    let squares = without.step.times(1.0 / terms.square);
    let (east, north) = (squares.east_m.round(), squares.north_m.round());
    let near = squares.minus(Point::new(east, north)).length_m() < NEAR_SQUARE;
    let whole = east.abs() + north.abs() > 0.0 && east.abs().max(north.abs()) <= MOST_SQUARES;
    if near && whole {
        PhotoCaution::Slip { mark: without.mark, east: east as i32, north: north as i32 }
    } else {
        PhotoCaution::Misfit { mark: without.mark, off_px: without.step_px, off_m: without.step.length_m() * unit_m }
    }
}

//! How many figures the two numbers of a grid have, as typed and on the sheet or in the middle of a grid.

use super::parts::{Part, Parts, whole_digits};
use super::{FarPart, Form, PlaceDoubt, PlaceReading, Terms, own, read_form};
use crate::earth::{Axis, Grid, LatLon};
use crate::measure::Point;

/// Figures before the point of the two numbers of the text, the last ones, in the order in which the grid's are written.
pub(super) fn typed_figures(parts: &Parts, grid: &Grid) -> Option<(usize, usize)> {
    let rest = |count: usize| parts.all.get(parts.all.len().checked_sub(count)?..);
    let (first, second) = [4, 3, 2].into_iter().filter_map(rest).find_map(|rest| own::numbers(rest, grid))?;
    Some((whole_digits(first), whole_digits(second)))
}

/// The same of a point.
pub(super) fn figures_of(grid: &Grid, point: Point) -> (usize, usize) {
    let count = |value: f64| format!("{:.0}", value.abs().floor()).len();
    let (first, second) = grid.axes().numbers(point);
    (count(first), count(second))
}

/// Whether two numbers of five figures were read by letters that were not typed, where the sheet's coordinates have five figures and
/// six; then whether it is the easting that has six.
pub(super) fn is_five_and_five(text: &str, terms: &Terms, near: LatLon) -> Option<bool> {
    let (form, parts, _) = read_form(text, terms);
    let is_short = form == Form::Lettered && matches!(parts.all.first(), Some(Part::Number(_)));
    let grid = terms.grid.filter(|grid| is_short && typed_figures(&parts, grid) == Some((5, 5)))?;
    match figures_of(grid, grid.project(near).ok()?) {
        (6, 5) => Some(true),
        (5, 6) => Some(false),
        _ => None,
    }
}

/// The number that has fewer figures than in the middle of the grid's area, where the other has not.
pub(super) fn few_figures(typed: String, terms: &Terms) -> Option<PlaceDoubt> {
    let grid = terms.grid.filter(|grid| !grid.is_utm_ups())?;
    let (form, parts, _) = read_form(&typed, terms);
    let (first, second) = typed_figures(&parts, grid).filter(|_| form == Form::Own)?;
    let usual = figures_of(grid, grid.project(grid.middle_of_area()?).ok()?);
    let doubt = |axis, figures| Some(PlaceDoubt::FewFigures { typed: typed.clone(), grid: grid.name().into(), axis, figures });
    match (first < usual.0, second < usual.1) {
        (true, false) => doubt(grid.axes().first, (first, usual.0)),
        (false, true) => doubt(grid.axes().second, (second, usual.1)),
        _ => None,
    }
}

/// The number whose count of figures is that of no place on the sheet, `reach` metres around a place, and which lies off it by more than
/// half of what its first figure counts there: a figure was lost or typed twice, and in a grid of small numbers that leads not far.
pub(super) fn lost_figure(text: &str, reading: &PlaceReading, terms: &Terms, (near, reach_m): (LatLon, f64)) -> Option<FarPart> {
    let grid = terms.grid?;
    let (form, parts, _) = read_form(text, terms);
    let (first, second) = typed_figures(&parts, grid).filter(|_| form == Form::Own)?;
    let (typed, middle) = (grid.project(reading.at).ok()?, grid.project(near).ok()?);
    let reach = reach_m * grid.factors(near).ok()?.scale;
    let (axes, usual) = (grid.axes(), figures_of(grid, middle));
    let is_lost = |axis: Axis, figures: usize, usual: usize| {
        let (value, middle) = (axis.of(typed), axis.of(middle));
        let on_sheet = [middle - reach, middle, middle + reach].map(|value| format!("{:.0}", value.abs().floor()).len());
        let least_off = 0.5 * 10f64.powi(i32::try_from(usual).unwrap_or(0) - 1);
        !on_sheet.contains(&figures) && (value - middle).abs() - reach > least_off
    };
    match (is_lost(axes.first, first, usual.0), is_lost(axes.second, second, usual.1)) {
        (true, false) => Some(FarPart::Figures(axes.first, first, usual.0)),
        (false, true) => Some(FarPart::Figures(axes.second, second, usual.1)),
        (true, true) => Some(FarPart::BothFigures),
        (false, false) => None,
    }
}

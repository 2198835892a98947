//! How many figures easting and northing have, as typed and on the sheet or in the middle of a grid.

use super::parts::{Part, Parts, pair, whole_digits};
use super::{Form, PlaceDoubt, Terms, read_form};
use crate::earth::LatLon;
use crate::measure::Point;

/// Figures before the point of easting and northing, the last two numbers of the text.
pub(super) fn typed_figures(parts: &Parts) -> Option<(usize, usize)> {
    let rest = |count: usize| parts.all.get(parts.all.len().checked_sub(count)?..);
    let (east, north) = [4, 3, 2].into_iter().filter_map(rest).find_map(pair)?;
    Some((whole_digits(east), whole_digits(north)))
}

pub(super) fn figures_of(point: Point) -> (usize, usize) {
    let count = |value: f64| format!("{:.0}", value.abs().floor()).len();
    (count(point.east_m), count(point.north_m))
}

/// Whether two numbers of five figures were read by letters that were not typed, where the sheet's coordinates have five figures and
/// six; then whether it is the easting that has six.
pub(super) fn is_five_and_five(text: &str, terms: &Terms, near: LatLon) -> Option<bool> {
    let (form, parts, _) = read_form(text, terms);
    let is_short = form == Form::Lettered && matches!(parts.all.first(), Some(Part::Number(_))) && typed_figures(&parts) == Some((5, 5));
    match figures_of(terms.grid.filter(|_| is_short)?.project(near).ok()?) {
        (6, 5) => Some(true),
        (5, 6) => Some(false),
        _ => None,
    }
}

/// The number that has fewer figures than in the middle of the grid's area, where the other has not.
pub(super) fn few_figures(typed: String, terms: &Terms) -> Option<PlaceDoubt> {
    let grid = terms.grid.filter(|grid| !grid.is_utm_ups())?;
    let (form, parts, _) = read_form(&typed, terms);
    let ((east, north), usual) =
        (typed_figures(&parts).filter(|_| form == Form::Own)?, figures_of(grid.project(grid.middle_of_area()?).ok()?));
    let doubt = |is_easting, figures| Some(PlaceDoubt::FewFigures { typed: typed.clone(), grid: grid.name().into(), is_easting, figures });
    match (east < usual.0, north < usual.1) {
        (true, false) => doubt(true, (east, usual.0)),
        (false, true) => doubt(false, (north, usual.1)),
        _ => None,
    }
}

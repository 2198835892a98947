//! A short reference that was completed with another square of 100 km than those of the sheet.

use super::mgrs::compact;
use super::parts::Part;
use super::{Form, PlaceReading, Terms, mgrs_in_zone, read_form, spaced};
use crate::earth::{Grid, LatLon};

const SQUARE_M: f64 = 100_000.0;

/// The whole reference of a short one, in as many digits as were typed.
#[must_use]
pub fn completed(text: &str, reading: &PlaceReading, terms: &Terms) -> String {
    let digits = u8::try_from(text.chars().filter(char::is_ascii_digit).count()).unwrap_or(10);
    let own = || terms.grid.map(|grid| grid.reference(reading.at, digits));
    let counted = reading.zone.and_then(|zone| mgrs_in_zone(zone, reading.at, digits)).map(|reference| spaced(&reference));
    counted.or_else(own).unwrap_or_default()
}

/// Whether a reference without its square letters was read in a square that the sheet, `reach_m` around `near`, does not touch.
pub(super) fn is_other_square(text: &str, reading: &PlaceReading, terms: &Terms, near: LatLon, reach_m: f64) -> bool {
    let is_told = terms.beginning.is_some_and(|beginning| !beginning.trim().is_empty());
    if is_told || !is_without_letters(text, terms) {
        return false;
    }
    let counted = reading.zone.map(|zone| Grid::of_zone(zone, reading.at));
    let Some(grid) = counted.as_ref().or(terms.grid) else { return false };
    let (Ok(read), Ok(middle)) = (grid.project(reading.at), grid.project(near)) else { return false };
    let column = |metres: f64| (metres / SQUARE_M).floor();
    let touches = |read_m: f64, middle_m: f64| (column(middle_m - reach_m)..=column(middle_m + reach_m)).contains(&column(read_m));
    !touches(read.east_m, middle.east_m) || !touches(read.north_m, middle.north_m)
}

fn is_without_letters(text: &str, terms: &Terms) -> bool {
    match read_form(text, terms) {
        (Form::Mgrs, ..) => compact(text).is_ok_and(|typed| typed.chars().all(|c| c.is_ascii_digit())),
        (Form::Lettered, parts, _) => matches!(parts.all.first(), Some(Part::Number(_))),
        (Form::Degrees | Form::Coordinates | Form::Own, ..) => false,
    }
}

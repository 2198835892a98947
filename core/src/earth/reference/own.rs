//! The sheet's own grid: two plain numbers in the order and directions of its axes, and its references as they are written.

use super::parts::{Part, Parts, number, pair, whole_digits};
use super::{PlaceReading, Read, Terms, cut, lettered, mgrs_in_zone, mgrs_of, part_of_grid, spaced};
use crate::earth::{Axis, Grid, LatLon};

/// Reads two plain numbers as easting and northing, or what the grid has for them, in the sheet's own grid and unit; nothing without
/// such a grid.
///
/// On a sheet of UTM, on whatever datum, or UPS only long numbers are coordinates: short ones are digits of a grid reference.
pub(super) fn read(parts: &Parts, terms: &Terms) -> Option<Read> {
    let grid = terms.grid?;
    let long = |(first, second): &(&str, &str)| whole_digits(first) > 3 && whole_digits(second) > 3;
    let (first, second) = numbers(&parts.all, grid).filter(|numbers| !parts.has_marks || long(numbers))?;
    if grid.utm_zone().is_some() && whole_digits(first) < 6 {
        return None;
    }
    Some(coordinates(grid, first, second))
}

/// Two numbers in the order in which those of the grid are written; of one that counts west or south also behind or before the letters
/// of its register: `Y 25000 X 2850000`.
pub(super) fn numbers<'a>(parts: &'a [Part], grid: &Grid) -> Option<(&'a str, &'a str)> {
    let axes = grid.axes();
    match parts {
        _ if axes.are_plain() => pair(parts),
        [Part::Number(first), Part::Number(second)] => Some((first, second)),
        [Part::Word(one), Part::Number(a), Part::Word(other), Part::Number(b)]
        | [Part::Number(a), Part::Word(one), Part::Number(b), Part::Word(other)] => {
            let letters = [axes.letters.0, axes.letters.1].map(String::from);
            match [one, other] {
                order if order == [&letters[0], &letters[1]] => Some((a, b)),
                order if order == [&letters[1], &letters[0]] => Some((b, a)),
                _ => None,
            }
        }
        _ => None,
    }
}

/// How the numbers of a grid are written, as the identifier that sentences select by.
pub(super) fn form_of(grid: &Grid) -> &'static str {
    let axes = grid.axes();
    match (axes.first, axes.second) {
        (Axis::West, Axis::South) => "west-south",
        (Axis::South, Axis::West) => "south-west",
        _ => "own",
    }
}

/// Numbers that lead farther than this from the grid's area are taken for exchanged ones, or for ones of the other sign, if those lie in
/// it, metres: the area of the register is a box, and a sheet may reach over its border (our choice).
const MEANT_OTHERWISE_FROM_M: f64 = 20_000.0;

fn coordinates(grid: &Grid, first: &str, second: &str) -> Read {
    let ((first, first_step), (second, second_step)) = (number(first).ok_or("part-easting")?, number(second).ok_or("part-northing")?);
    let place = |first, second| grid.unproject(grid.axes().point(first, second));
    let read = place(first, second).map_err(|error| part_of_grid(&error));
    let is_far = read.as_ref().map_or(true, |at| grid.beyond_area_m(*at) > MEANT_OTHERWISE_FROM_M);
    let lies_in_it = |(first, second)| place(first, second).is_ok_and(|at| grid.is_used_at(at));
    if is_far && lies_in_it((second, first)) {
        return Err("part-swapped");
    }
    let has_area = grid.middle_of_area().is_some();
    if is_far && has_area && [(-first, -second), (-first, second), (first, -second)].into_iter().any(lies_in_it) {
        return Err("part-signs");
    }
    let at = read?;
    let unit_m = grid.factors(at).map_or(1.0, |factors| 1.0 / factors.scale);
    Ok(PlaceReading { at, square_m: 0.0, step_m: first_step.max(second_step) * unit_m, stated_m: 0.0, zone: grid.zone() })
}

impl Grid {
    /// Whether its references have the letters of the British National Grid.
    #[must_use]
    pub fn has_letters(&self) -> bool {
        lettered::is_lettered(self)
    }

    /// The reference of a place on a sheet of this grid: MGRS on UTM and UPS of WGS 84, counted on in the grid's own zone over its edges
    /// as the sheet prints it, letters on the British National Grid, both cut to a square; else its two numbers in the order of its axes.
    ///
    /// Two plain numbers are read as they stand, not as a square: they are cut to a tenth of what the digits (2 to 10) stand for in the
    /// grid's unit, and to whole units with all of them, negative ones towards minus infinity.
    #[must_use]
    pub fn reference(&self, at: LatLon, digits: u8) -> String {
        if let Some(reference) = self.zone().and_then(|zone| mgrs_in_zone(zone, at, digits)) {
            return spaced(&reference);
        }
        let Ok(point) = self.project(at) else { return spaced(&mgrs_of(at, digits)) };
        let letters = if lettered::is_lettered(self) { lettered::write(point, digits) } else { None };
        letters.unwrap_or_else(|| {
            let step = 10f64.powi((4 - i32::from(digits / 2)).clamp(0, 3));
            let (first, second) = self.axes().numbers(point);
            format!("{:.0} {:.0}", cut(first, step), cut(second, step))
        })
    }
}

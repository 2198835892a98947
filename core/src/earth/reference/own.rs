//! The sheet's own grid: two plain numbers in the order and directions of its axes, and its references as they are written.

use super::figures::figures_of;
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
    if is_of_other_unit(parts, grid) {
        return Some(Err("part-unit"));
    }
    Some(coordinates(grid, first, second))
}

/// Metres behind the numbers of a grid that counts in another unit.
fn is_of_other_unit(parts: &Parts, grid: &Grid) -> bool {
    let is_metres = |part: &Part| matches!(part, Part::Word(word) if matches!(word.as_str(), "M" | "ME" | "MN"));
    !grid.counts_metres() && parts.all.iter().any(is_metres)
}

/// How a grid reference in numbers states its square, behind them: half of its side.
pub(super) const HALF_MARKS: [&str; 3] = ["±", "+/-", "+-"];

/// Reads two numbers of the sheet's own grid with half of the side of their square behind them: `2600150 1200350 ±50 m`, in metres, feet,
/// or, without a unit, in that of the grid. The numbers are its middle. Nothing without such a grid or such a half.
pub(super) fn read_square(text: &str, terms: &Terms) -> Option<(Parts, Read)> {
    let (before, half) = HALF_MARKS.iter().find_map(|mark| text.split_once(mark))?;
    let (grid, parts) = (terms.grid?, Parts::of(before));
    let (first, second) = numbers(&parts.all, grid).filter(|(first, second)| whole_digits(first).max(whole_digits(second)) > 3)?;
    let read = half_of(half, grid).ok_or("part-half").and_then(|(half, is_metres)| {
        let reading = coordinates(grid, first, second)?;
        let unit_m = if is_metres { 1.0 } else { grid.factors(reading.at).map_or(1.0, |factors| 1.0 / factors.scale) };
        Ok(PlaceReading { square_m: 2.0 * half * unit_m, step_m: 0.0, ..reading })
    });
    Some((parts, read))
}

/// Half of a square's side, and whether it is in metres, else in the grid's unit.
fn half_of(text: &str, grid: &Grid) -> Option<(f64, bool)> {
    let typed = text.trim();
    let figures = typed.trim_end_matches(|c: char| c.is_ascii_alphabetic() || c == '\'' || c.is_whitespace());
    let half: f64 = figures.parse().ok().filter(|half: &f64| half.is_finite() && *half > 0.0 && *half <= MOST_HALF)?;
    match typed.get(figures.len()..)?.trim().to_ascii_lowercase().as_str() {
        "" => Some((half, grid.counts_metres())),
        // Beside letters of the axes an m has become the mark of minutes.
        "m" | "'" => Some((half, true)),
        "ft" => Some((half * FOOT_M, true)),
        _ => None,
    }
}

/// The widest half of a square that is read: of one of 100 km.
const MOST_HALF: f64 = 50_000.0;
/// The international foot; the survey foot is longer by two in a million, which no square shows.
const FOOT_M: f64 = 0.3048;

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

/// Where two bare numbers lead when they are exchanged, in a grid whose register has the northing first; nothing where that is out of its
/// area, or they say themselves which is which.
pub(super) fn exchanged(parts: &Parts, grid: &Grid) -> Option<LatLon> {
    let [Part::Number(first), Part::Number(second), ..] = parts.all.as_slice() else { return None };
    let is_bare = parts.all.len() == 2 && grid.is_registered_northing_first();
    let ((first, _), (second, _)) = (number(first).filter(|_| is_bare)?, number(second)?);
    grid.unproject(grid.axes().point(second, first)).ok().filter(|at| grid.is_used_at(*at))
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

fn coordinates(grid: &Grid, first_typed: &str, second_typed: &str) -> Read {
    let (first, first_step) = number(first_typed).ok_or("part-easting")?;
    let (second, second_step) = number(second_typed).ok_or("part-northing")?;
    let place = |first, second| grid.unproject(grid.axes().point(first, second));
    let read = place(first, second).map_err(|error| part_of_grid(&error));
    let is_far = read.as_ref().map_or(true, |at| grid.beyond_area_m(*at) > MEANT_OTHERWISE_FROM_M);
    let lies_in_it = |(first, second)| place(first, second).is_ok_and(|at| grid.is_used_at(at));
    if is_far && lies_in_it((second, first)) || read.is_err() && place(second, first).is_ok() {
        return Err("part-swapped");
    }
    let has_area = grid.middle_of_area().is_some();
    if is_far && has_area && [(-first, -second), (-first, second), (first, -second)].into_iter().any(lies_in_it) {
        return Err("part-signs");
    }
    let is_short = || {
        let usual = grid.middle_of_area().and_then(|middle| grid.project(middle).ok()).map(|middle| figures_of(grid, middle));
        let typed = (whole_digits(first_typed), whole_digits(second_typed));
        let are_short = |usual: (usize, usize)| (typed.0 < usual.0, typed.1 < usual.1);
        usual.map(are_short).is_some_and(|(first, second)| first && second || read.is_err() && (first || second))
    };
    if is_far && is_short() {
        return Err("part-few-figures");
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
    /// grid's unit, and to whole units with all of them, negative ones towards minus infinity. It stands beside a spread of its own;
    /// [`Grid::square_reference`] is the one that states its square.
    #[must_use]
    pub fn reference(&self, at: LatLon, digits: u8) -> String {
        self.lettered_reference(at, digits).unwrap_or_else(|(first, second)| {
            let step = 10f64.powi((4 - i32::from(digits / 2)).clamp(0, 3));
            format!("{:.0} {:.0}", cut(first, step), cut(second, step))
        })
    }

    /// The reference of a place with its square, which is read as it is written: as [`Grid::reference`] where that has letters; else the
    /// numbers are cut to a square as theirs are and its middle is written, with half of its side behind it: `2600150 1200350 ±50 m`.
    /// With all digits they are the nearest whole units: so they are read, as a point and not as a square.
    #[must_use]
    pub fn square_reference(&self, at: LatLon, digits: u8) -> String {
        self.lettered_reference(at, digits).unwrap_or_else(|(first, second)| {
            let side = 10f64.powi((5 - i32::from(digits / 2)).clamp(0, 4));
            if side <= 1.0 {
                return format!("{:.0} {:.0}", first.round() + 0.0, second.round() + 0.0);
            }
            let middle = |number: f64| cut(number, side) + side / 2.0;
            let unit = self.unit().map_or("\u{a0}m", |unit| if unit.to_lowercase().contains("foot") { "\u{a0}ft" } else { "" });
            format!("{:.0} {:.0} ±{:.0}{unit}", middle(first), middle(second), side / 2.0)
        })
    }

    /// The reference of a place that was read, no sharper than it was written: where it has letters with [`PlaceReading::digits`]; else its
    /// numbers to whole units, with half of the side of its square behind them in metres, rounded up.
    #[must_use]
    pub fn reference_of(&self, reading: &PlaceReading) -> String {
        const LEAST_HALF_M: f64 = 1.0;
        self.lettered_reference(reading.at, reading.digits()).unwrap_or_else(|(first, second)| {
            let half_m = reading.side_m() / 2.0;
            if half_m <= LEAST_HALF_M {
                return format!("{:.0} {:.0}", first.round() + 0.0, second.round() + 0.0);
            }
            // A hair less, so that what was read as a whole number is not rounded up beyond it.
            format!("{first:.0} {second:.0} ±{:.0}\u{a0}m", (half_m - 1e-3).ceil())
        })
    }

    /// Its reference with letters, else its two numbers.
    fn lettered_reference(&self, at: LatLon, digits: u8) -> Result<String, (f64, f64)> {
        if let Some(reference) = self.zone().and_then(|zone| mgrs_in_zone(zone, at, digits)) {
            return Ok(spaced(&reference));
        }
        let Ok(point) = self.project(at) else { return Ok(spaced(&mgrs_of(at, digits))) };
        let letters = if lettered::is_lettered(self) { lettered::write(point, digits) } else { None };
        letters.ok_or_else(|| self.axes().numbers(point))
    }
}

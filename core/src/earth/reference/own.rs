//! The sheet's own grid: two plain numbers, and its references as they are written.

use super::parts::{Parts, number, pair, whole_digits};
use super::{OWN_TOLERANCE, PlaceReading, Read, Terms, lettered, mgrs_in_zone, mgrs_of, part_of_grid, spaced, steadied};
use crate::earth::{Grid, LatLon};
use crate::measure::Point;

/// Reads two plain numbers as easting and northing in the sheet's own grid and unit; nothing without such a grid.
///
/// On a sheet of UTM, on whatever datum, or UPS only long numbers are coordinates: short ones are digits of a grid reference.
pub(super) fn read(parts: &Parts, terms: &Terms) -> Option<Read> {
    let grid = terms.grid?;
    let long = |(east, north): &(&str, &str)| whole_digits(east) > 3 && whole_digits(north) > 3;
    let (east, north) = pair(&parts.all).filter(|numbers| !parts.has_marks || long(numbers))?;
    if grid.utm_zone().is_some() && whole_digits(east) < 6 {
        return None;
    }
    Some(coordinates(grid, east, north))
}

/// Numbers that lead farther than this from the grid's area are taken for exchanged ones, if those lie in it, metres: the area of the
/// register is a box, and a sheet may reach over its border (our choice).
const SWAPPED_FROM_M: f64 = 20_000.0;

fn coordinates(grid: &Grid, east: &str, north: &str) -> Read {
    let ((east, east_step), (north, north_step)) = (number(east).ok_or("part-easting")?, number(north).ok_or("part-northing")?);
    let read = grid.unproject(Point::new(east, north)).map_err(|error| part_of_grid(&error));
    let is_far = read.as_ref().map_or(true, |at| grid.beyond_area_m(*at) > SWAPPED_FROM_M);
    if is_far && grid.unproject(Point::new(north, east)).is_ok_and(|at| grid.is_used_at(at)) {
        return Err("part-swapped");
    }
    let at = read?;
    let unit_m = grid.factors(at).map_or(1.0, |factors| 1.0 / factors.scale);
    Ok(PlaceReading { at, square_m: 0.0, step_m: east_step.max(north_step) * unit_m, zone: grid.zone() })
}

impl Grid {
    /// The reference of a place on a sheet of this grid, cut: MGRS on UTM and UPS of WGS 84, counted on in the grid's own zone
    /// over its edges as the sheet prints it, letters on the British National Grid, else easting and northing cut to what the digits (2 to 10) stand for in the grid's unit.
    #[must_use]
    pub fn reference(&self, at: LatLon, digits: u8) -> String {
        if let Some(reference) = self.zone().and_then(|zone| mgrs_in_zone(zone, at, digits)) {
            return spaced(&reference);
        }
        let Ok(point) = self.project(at) else { return spaced(&mgrs_of(at, digits)) };
        let letters = if lettered::is_lettered(self) { lettered::write(point, digits) } else { None };
        letters.unwrap_or_else(|| {
            let unit = 10f64.powi(5 - i32::from(digits / 2).clamp(1, 5));
            let cut = |value: f64| (steadied(value, OWN_TOLERANCE) / unit).floor() * unit;
            format!("{:.0} {:.0}", cut(point.east_m), cut(point.north_m))
        })
    }
}

//! The squares of old maps: on the ellipsoids of Clarke and Bessel MGRS letters its rows ten on.
//!
//! # References
//! The scheme as GEOTRANS has it (NGA's code in the package `mgrs` 1.4.6): Clarke 1866, Clarke 1880, Bessel 1841 and that of Namibia.
//! Table `tests/tables/grid/old_letters.json`.

use super::mgrs::{beginnings, compact, on_own_datum, split_digits, square};
use super::{PlaceReading, Terms, mgrs_in_zone};
use crate::earth::{Grid, LatLon, geodesic_between};

const ROWS: &str = "ABCDEFGHJKLMNPQRSTUV";
const ROWS_ON: usize = 10;

/// A place by the letters of an old map, on the datum of that map; nothing when the grid is none or the letters lead nowhere.
pub(super) fn read(starts: &[String], typed: &str, terms: &Terms) -> Option<PlaceReading> {
    terms.grid.filter(|grid| grid.has_old_letters())?;
    let shifted = starts.iter().filter_map(|start| other_row(&(start.clone() + typed)));
    let readings = shifted.filter_map(|whole| square(&whole).ok()).map(|reading| on_own_datum(reading, terms));
    let away_m = |reading: &PlaceReading| terms.near.map_or(0.0, |near| geodesic_between(reading.at, near).0);
    readings.filter(|reading| reading.zone.is_none()).min_by(|a, b| away_m(a).total_cmp(&away_m(b)))
}

/// The same where both schemes have the letters, a thousand kilometres apart: the one nearer to the sheet.
pub(super) fn nearer(reading: PlaceReading, starts: &[String], typed: &str, terms: &Terms) -> PlaceReading {
    const HALF_WAY_M: f64 = 500_000.0;
    let Some(near) = terms.near else { return reading };
    let away_m = |reading: &PlaceReading| geodesic_between(reading.at, near).0;
    if away_m(&reading) < HALF_WAY_M {
        return reading;
    }
    read(starts, typed, terms).filter(|old| away_m(old) < away_m(&reading)).unwrap_or(reading)
}

/// The square letters of a text that was read by those of an old map, and those of WGS 84 for that square.
pub(super) fn typed_old(text: &str, reading: &PlaceReading, terms: &Terms) -> Option<(String, String)> {
    let typed = compact(text).ok()?;
    let starts = beginnings(&typed, terms).ok()?;
    read(&starts, &typed, terms).filter(|old| old.at == reading.at)?;
    let old = starts.first()?.clone() + &typed;
    Some((letters_of(&old)?.to_owned(), letters_of(&other_row(&old)?)?.to_owned()))
}

impl Grid {
    /// The letters of the square about a place on a map of this grid, and those of WGS 84; nothing where they are the same.
    #[must_use]
    pub fn old_letters_at(&self, at: LatLon) -> Option<(String, String)> {
        let zone = self.utm_zone().filter(|_| self.has_old_letters())?;
        // The letters go by the numbers, which WGS 84 has elsewhere.
        let numbers = Self::of_zone(zone, at).unproject(self.project(at).ok()?).ok()?;
        let new = mgrs_in_zone(zone, numbers, 2)?;
        Some((letters_of(&other_row(&new)?)?.to_owned(), letters_of(&new)?.to_owned()))
    }
}

fn letters_of(whole: &str) -> Option<&str> {
    let letters = split_digits(whole).0;
    letters.get(letters.len().checked_sub(2)?..)
}

/// The reference with the row letter ten on.
fn other_row(whole: &str) -> Option<String> {
    let (letters, digits) = split_digits(whole);
    let (before, row) = letters.split_at_checked(letters.len().checked_sub(1)?)?;
    let index = (ROWS.find(row)? + ROWS_ON) % ROWS.len();
    Some(format!("{before}{}{digits}", ROWS.get(index..=index)?))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing, clippy::unwrap_used, reason = "a test may stop where it fails")]

    use crate::earth::{Grid, Terms, read_place};

    #[test]
    fn the_letters_of_old_maps_are_read_on_their_datum() {
        let table: serde_json::Value = serde_json::from_str(include_str!("../../../../tests/tables/grid/old_letters.json")).unwrap();
        let rows = table["rows"].as_array().unwrap();
        for row in rows {
            let grid = Grid::named(row["grid"].as_str().unwrap()).unwrap();
            let terms = Terms { grid: Some(&grid), ..Terms::default() };
            let reference = row["reference"].as_str().unwrap();
            let read = grid.project(read_place(reference, &terms).unwrap().at).unwrap();
            let off = (read.east_m - row["east_m"].as_f64().unwrap()).hypot(read.north_m - row["north_m"].as_f64().unwrap());
            assert!(off < 0.001, "{row}: {off} m");
            // The same without its zone, near the place.
            let near = Terms { near: grid.unproject(read).ok(), ..terms };
            let short = reference.get(3..).unwrap();
            let again = grid.project(read_place(short, &near).unwrap().at).unwrap();
            assert!(again.minus(read).length_m() < 0.001, "{short} of {row}");
            let (old, new) = grid.old_letters_at(near.near.unwrap()).unwrap();
            assert_eq!(Some(old.as_str()), reference.get(3..5), "{row}");
            assert_ne!(old, new);
        }
        assert_eq!(rows.len(), 40);
    }

    #[test]
    fn on_wgs_84_and_its_like_no_other_letters_are_read() {
        for grid in ["EPSG:32611", "EPSG:26911", "EPSG:25833"] {
            let grid = Grid::named(grid).unwrap();
            let terms = Terms { grid: Some(&grid), ..Terms::default() };
            assert!(read_place("11SPN1340587075", &terms).is_err() && !grid.has_old_letters(), "{}", grid.name());
        }
    }
}

//! The polar areas of MGRS: their letters and how far their squares reach.
//!
//! # References
//! NGA.STND.0037_2.0.0_GRIDS (2014), UPS: zones A and B about the south pole, Y and Z about the north pole, parted by the meridians
//! of 0° and 180°. Letters as in `GeographicLib` 2.1.2, source of its class MGRS: `upscols_`, `upsrows_`.

use crate::earth::LatLon;

/// Zone letter, the sentence that names its letters, those of the columns and of the rows.
const LETTERS: [(char, &str, &str, &str); 4] = [
    ('A', "part-square-a", "JKLPQRSTUXYZ", SOUTHERN_ROWS),
    ('B', "part-square-b", "ABCFGHJKLPQR", SOUTHERN_ROWS),
    ('Y', "part-square-y", "RSTUXYZ", NORTHERN_ROWS),
    ('Z', "part-square-z", "ABCFGHJ", NORTHERN_ROWS),
];
const NORTHERN_ROWS: &str = "ABCDEFGHJKLMNP";
const SOUTHERN_ROWS: &str = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/// Easting and northing of a pole, metres.
pub(super) const POLE_M: f64 = 2_000_000.0;

/// The polar areas begin at 84° N and 80° S; their squares are printed half a degree on, where they overlap with the zones of UTM.
///
/// # References
/// NGA.STND.0036_1.0.0_GRIDS (2014): UPS with an overlap of 30′ (from memory).
pub(super) fn is_polar(at: LatLon) -> bool {
    at.lat_deg() >= 83.5 || at.lat_deg() <= -79.5
}

/// Which letters exist, where those of a reference near a pole do not.
pub(super) fn part_of_square(whole: &str) -> Option<&'static str> {
    let mut letters = whole.chars();
    let (zone, column, row) = (letters.next()?, letters.next()?, letters.next()?);
    let (_, part, columns, rows) = LETTERS.iter().find(|(letter, ..)| *letter == zone)?;
    let is_square = column.is_ascii_alphabetic() && row.is_ascii_alphabetic();
    (is_square && !(columns.contains(column) && rows.contains(row))).then_some(part)
}

/// Whether a coordinate lies in the half that the letter names; on the meridian between them either letter is right.
pub(super) fn is_in_half(letter: &str, east_m: f64) -> bool {
    match letter {
        "A" | "Y" => east_m <= POLE_M,
        "B" | "Z" => east_m >= POLE_M,
        _ => true,
    }
}

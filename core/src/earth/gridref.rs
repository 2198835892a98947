//! Grid references of the Military Grid Reference System: read as the centre of a square, written by truncation.
//!
//! The mathematics is the crate `mgrs-convert`; here is what a person's typing needs on top of it.
//!
//! # References
//! NGA.STND.0037_2.0.0_GRIDS (2014). Case files `tests/vectors/earth/grid.json`.

use std::str::FromStr;

use mgrs_convert::{Mgrs, ParseErrorKind, Precision};

use super::{LatLon, PlaceError};

/// Digits of a reference to the metre.
pub const DIGITS_FULL: u8 = 10;

/// The square that a grid reference names.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Square {
    /// Centre of the square.
    pub centre: LatLon,
    /// Side of the square in metres.
    pub side_m: f64,
}

/// Writes the MGRS reference of a place with 2, 4, 6, 8 or 10 digits, without spaces, truncated.
///
/// Other counts are brought to the nearest of these. Accuracy: 5 nm against GeographicLib 2.1.2.
#[must_use]
pub fn mgrs_of(at: LatLon, digits: u8) -> String {
    let pairs = (digits / 2).clamp(1, 5);
    match (mgrs_convert::LatLon::new(at.lat_deg(), at.lon_deg()), Precision::new(pairs)) {
        (Ok(place), Ok(precision)) => place.to_mgrs(precision).to_string(),
        _ => String::new(),
    }
}

/// Puts the spaces of the trade into a reference: `33TVM56964953` becomes `33T VM 5696 4953`.
#[must_use]
pub fn spaced(reference: &str) -> String {
    let (letters, digits) = split_digits(reference);
    let zone_end = letters.len().saturating_sub(2);
    let (zone, square) = letters.split_at_checked(zone_end).unwrap_or((letters, ""));
    let (east, north) = digits.split_at_checked(digits.len() / 2).unwrap_or((digits, ""));
    format!("{zone} {square} {east} {north}").trim().to_owned()
}

/// Digits that a spread deserves: 8 up to 150 m (half-width at 95 %), else 6.
#[must_use]
pub fn digits_for_spread(half_width_95_m: f64) -> u8 {
    if half_width_95_m <= 150.0 { 8 } else { 6 }
}

/// Reads a reference; see [`super::read_place`].
pub(super) fn read(text: &str, beginning: Option<&str>) -> Result<Square, PlaceError> {
    let wrong = |part| PlaceError::Reference { typed: text.into(), part };
    let whole = completed(text, beginning).map_err(wrong)?;
    if ["32X", "34X", "36X"].iter().any(|zone| whole.starts_with(zone)) {
        // Around Svalbard these zones do not exist: their neighbours are widened.
        return Err(wrong("part-zone"));
    }
    let mgrs = Mgrs::from_str(&whole).map_err(|error| wrong(part_of(&error)))?;
    let pairs = i32::from(mgrs.precision().get());
    if pairs == 0 {
        return Err(wrong("part-no-digits"));
    }
    if pairs > 5 {
        return Err(wrong("part-too-many-digits"));
    }
    let centre = mgrs.to_latlon();
    Ok(Square { centre: LatLon::computed(centre.lat(), centre.lon()), side_m: 10f64.powi(5 - pairs) })
}

fn split_digits(reference: &str) -> (&str, &str) {
    let end = reference.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    reference.split_at_checked(end).unwrap_or((reference, ""))
}

/// The reference without spaces, its beginning filled in from the sheet.
fn completed(text: &str, beginning: Option<&str>) -> Result<String, &'static str> {
    let groups: Vec<&str> = text.split_whitespace().collect();
    check_groups(&groups)?;
    let typed: String = groups.concat().to_ascii_uppercase();
    if typed.is_empty() {
        return Err("part-empty");
    }
    if !typed.is_ascii() {
        return Err("part-characters");
    }
    let start: String = beginning.unwrap_or("").split_whitespace().collect::<String>().to_ascii_uppercase();
    let (letters, _) = split_digits(&typed);
    match letters.len() {
        0 if start.len() >= 4 => Ok(start + &typed),
        2 if start.len() >= 4 => Ok(start.get(..start.len() - 2).unwrap_or("").to_owned() + &typed),
        0 | 2 => Err("part-no-zone"),
        _ => Ok(typed),
    }
}

/// Two groups of digits must be equally long: `856 11315` is not `8561 1315`.
fn check_groups(groups: &[&str]) -> Result<(), &'static str> {
    let figures = |group: &&&str| group.chars().all(|c| c.is_ascii_digit());
    let numbers: Vec<&&str> = groups.iter().rev().take_while(figures).collect();
    match numbers.as_slice() {
        [north, east] if north.len() != east.len() => Err("part-unequal-groups"),
        [_, _, _, ..] => Err("part-unequal-groups"),
        _ => Ok(()),
    }
}

fn part_of(error: &mgrs_convert::Error) -> &'static str {
    let mgrs_convert::Error::Parse(kind) = error else {
        return "part-outside-grid";
    };
    match *kind {
        ParseErrorKind::Empty => "part-empty",
        ParseErrorKind::GridZoneOnly => "part-no-digits",
        ParseErrorKind::BadZoneNumber => "part-zone",
        ParseErrorKind::BadBandLetter => "part-band",
        ParseErrorKind::BadSquareLetters | ParseErrorKind::SquareZoneMismatch => "part-square",
        ParseErrorKind::SquareBandMismatch => "part-square-band",
        ParseErrorKind::OddDigitCount => "part-odd-digits",
        ParseErrorKind::TooManyDigits => "part-too-many-digits",
        ParseErrorKind::NonAsciiOrWhitespace | ParseErrorKind::TrailingInput | _ => "part-characters",
    }
}

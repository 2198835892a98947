//! Grid references of the Military Grid Reference System: read as the centre of a square, written by truncation.
//!
//! The mathematics is the crate `mgrs-convert`; here is what a person's typing needs on top of it.
//!
//! # References
//! NGA.STND.0037_2.0.0_GRIDS (2014). Case files `tests/vectors/earth/grid.json`.

use std::str::FromStr;

use mgrs_convert::{Mgrs, ParseErrorKind, Precision, UtmUps};

use super::no_reference::no_reference;
use super::parts::{Part, Parts, whole_digits};
use super::{MGRS_TOLERANCE_M, PlaceReading, Read, Terms, mgrs_in_zone, odd, old_letters, steadied, ups, zone_in, zone_of};
use crate::earth::{Grid, LatLon, geodesic_between, geodesic_from};
use crate::measure::TrueBearing;

/// The letters with which a reference near a pole begins: it has no zone.
const UPS: [char; 4] = ['A', 'B', 'Y', 'Z'];

/// Writes the MGRS reference of a place with 2, 4, 6, 8 or 10 digits, without spaces, truncated.
///
/// Other counts are brought to the nearest of these. Accuracy: 5 nm against GeographicLib 2.1.2.
#[must_use]
pub fn mgrs_of(at: LatLon, digits: u8) -> String {
    let pairs = (digits / 2).clamp(1, 5);
    match (mgrs_convert::LatLon::new(at.lat_deg(), at.lon_deg()), Precision::new(pairs)) {
        (Ok(place), Ok(precision)) => steadied_mgrs(place, precision).unwrap_or_else(|| place.to_mgrs(precision)).to_string(),
        _ => String::new(),
    }
}

/// The reference of a place that lies at a whole metre but for rounding; nothing when it does not.
fn steadied_mgrs(place: mgrs_convert::LatLon, precision: Precision) -> Option<Mgrs> {
    let utm = place.to_utmups();
    let (east, north) = (steadied(utm.easting(), MGRS_TOLERANCE_M), steadied(utm.northing(), MGRS_TOLERANCE_M));
    if east <= utm.easting() && north <= utm.northing() {
        return None;
    }
    let moved =
        if utm.zone() == 0 { UtmUps::ups(utm.is_north(), east, north) } else { UtmUps::utm(utm.zone(), utm.is_north(), east, north) };
    moved.ok()?.to_mgrs(precision).ok()
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

/// A reference that is spaced for reading in two parts: the zone, which one knows, and what is read off the sheet. Only an MGRS
/// reference, of four parts, has a zone; any other is read as a whole.
#[must_use]
pub fn zone_and_square(reference: &str) -> (&str, &str) {
    let has_zone = reference.split(' ').count() == 4;
    reference.split_once(' ').filter(|_| has_zone).unwrap_or(("", reference))
}

/// Reads a reference; see [`super::read_place`].
pub(super) fn read(text: &str, terms: &Terms) -> Read {
    if let Some(part) = no_reference(text, terms) {
        return Err(part);
    }
    let typed = compact(text)?;
    read_typed(&typed, terms).map_err(|part| match split_digits(&typed).0 {
        "" => of_beginning(part),
        _ if has_letters_alone(&typed) => without_zone(part),
        _ => part,
    })
}

/// Digits alone have no letters that could be wrong: those of the beginning are.
fn of_beginning(part: &'static str) -> &'static str {
    match part {
        "part-zone" | "part-band" | "part-zone-svalbard" => "part-beginning",
        "part-column-1" | "part-column-2" | "part-column-3" | "part-row" | "part-square-band" => "part-beginning-square",
        other => other,
    }
}

/// Whether two square letters stand before the figures, and no zone before them.
fn has_letters_alone(typed: &str) -> bool {
    let letters = split_digits(typed).0;
    letters.len() == 2 && letters.chars().all(|c| c.is_ascii_alphabetic())
}

/// Letters without a zone are those of a square on the sheet or beside it, or none that is read here.
fn without_zone(part: &'static str) -> &'static str {
    match part {
        "part-no-zone" => "part-zone-missing",
        "part-column-1" | "part-column-2" | "part-column-3" | "part-row" | "part-square" | "part-square-band" => "part-letters-not-here",
        other => other,
    }
}

fn read_typed(typed: &str, terms: &Terms) -> Read {
    let starts = beginnings(typed, terms)?;
    let read = match starts.as_slice() {
        [only] => square(&(only.clone() + typed)),
        several => nearest(typed, several, terms),
    };
    let is_short = zone_in(typed).is_none();
    let read = if is_short { read.map(|reading| on_own_datum(reading, terms)) } else { read };
    match read {
        Ok(reading) => Ok(old_letters::nearer(reading, &starts, typed, terms)),
        Err(part) => old_letters::read(&starts, typed, terms).ok_or(part),
    }
}

/// A short reference was read off the sheet: on a UTM grid of another datum its digits count there.
pub(super) fn on_own_datum(reading: PlaceReading, terms: &Terms) -> PlaceReading {
    let moved = terms.grid.zip(reading.zone).and_then(|(grid, zone)| grid.with_numbers_of(reading.at, zone));
    moved.map_or(reading, |at| PlaceReading { at, zone: None, ..reading })
}

/// Of the squares that a short reference may mean, the one whose centre is nearest to the sheet.
fn nearest(typed: &str, beginnings: &[String], terms: &Terms) -> Read {
    let near = terms.near.ok_or("part-no-zone")?;
    let readings = beginnings.iter().filter_map(|beginning| square(&(beginning.clone() + typed)).ok());
    let away = |reading: &PlaceReading| geodesic_between(reading.at, near).0;
    readings.min_by(|a, b| away(a).total_cmp(&away(b))).ok_or("part-square")
}

pub(super) fn square(whole: &str) -> Read {
    if ["32X", "34X", "36X"].iter().any(|zone| whole.starts_with(zone)) {
        // Around Svalbard these zones do not exist: their neighbours are widened.
        return Err("part-zone-svalbard");
    }
    if whole.starts_with(|c: char| c.is_ascii_alphabetic()) && !whole.starts_with(UPS) {
        return Err("part-zone");
    }
    let letters = split_digits(whole).0.trim_start_matches(|c: char| c.is_ascii_digit());
    if letters.len() == 1 {
        return Err("part-square-missing");
    }
    if letters.len() == 2 && letters.len() < split_digits(whole).0.len() {
        return Err("part-letter-missing");
    }
    let mgrs = Mgrs::from_str(whole).map_err(|error| ups::part_of_square(whole).unwrap_or_else(|| part_of(&error, whole)))?;
    let pairs = i32::from(mgrs.precision().get());
    if pairs == 0 {
        return Err("part-no-digits");
    }
    if pairs > 5 {
        return Err("part-too-many-digits");
    }
    let centre = mgrs.to_latlon();
    let at = LatLon::computed(centre.lat(), centre.lon());
    if whole.starts_with(UPS) && !ups::is_polar(at) {
        return Err("part-ups-square");
    }
    Ok(PlaceReading {
        at,
        square_m: 10f64.powi(5 - pairs),
        step_m: 0.0,
        stated_m: 0.0,
        zone: zone_in(whole).or(whole.starts_with(UPS).then_some(0)),
    })
}

pub(super) fn split_digits(reference: &str) -> (&str, &str) {
    let end = reference.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    reference.split_at_checked(end).unwrap_or((reference, ""))
}

/// The reference in upper case without blanks.
pub(super) fn compact(text: &str) -> Result<String, &'static str> {
    let groups: Vec<&str> = text.split_whitespace().collect();
    check_characters(text, &groups)?;
    check_groups(&groups)?;
    Ok(groups.concat().to_ascii_uppercase())
}

/// What may stand before the typed text: nothing, the sheet's own beginning, or those of the squares around it.
pub(super) fn beginnings(typed: &str, terms: &Terms) -> Result<Vec<String>, &'static str> {
    let (letters, _) = split_digits(typed);
    let left_out = match letters.len() {
        0 => 2,
        2 if !letters.starts_with(|c: char| c.is_ascii_digit()) => 0,
        _ => return Ok(vec![String::new()]),
    };
    let start = compact_beginning(terms.beginning.unwrap_or(""));
    let cut = |whole: &str| whole.get(..(whole.len() + left_out).saturating_sub(2)).map(str::to_owned);
    match beginning_of(&start) {
        Beginning::None => {}
        Beginning::Whole => return Ok(cut(&start).into_iter().collect()),
        Beginning::Zone if left_out == 0 => return Ok(vec![start]),
        Beginning::Zone => return Err("part-beginning-short"),
        Beginning::Wrong => return Err("part-beginning"),
    }
    let near = terms.near.ok_or("part-no-zone")?;
    let zone = terms.zone.or_else(|| terms.grid.and_then(Grid::utm_zone)).unwrap_or_else(|| zone_of(near));
    let mut around: Vec<String> = squares_around(near, zone).iter().filter_map(|square| cut(square)).collect();
    around.sort();
    around.dedup();
    Ok(around)
}

fn compact_beginning(beginning: &str) -> String {
    beginning.split_whitespace().collect::<String>().to_ascii_uppercase()
}

/// Whether more stands in a beginning than a zone and its band: it is meant to complete digits.
pub(super) fn holds_square(beginning: &str) -> bool {
    matches!(beginning_of(&compact_beginning(beginning)), Beginning::Whole | Beginning::Wrong)
}

/// What the sheet's own beginning holds.
enum Beginning {
    None,
    /// Zone and band, the square letters missing.
    Zone,
    /// Zone, band and square letters.
    Whole,
    Wrong,
}

fn beginning_of(start: &str) -> Beginning {
    let letters = start.trim_start_matches(|c: char| c.is_ascii_digit());
    let zone = start.len() - letters.len();
    let is_zone = start.get(..zone).and_then(|zone| zone.parse().ok()).is_some_and(|zone: u8| (1..=60).contains(&zone));
    let is_ups = zone == 0 && letters.starts_with(UPS);
    match letters.len() {
        _ if start.is_empty() => Beginning::None,
        _ if !letters.chars().all(|c| c.is_ascii_alphabetic()) || !(is_zone || is_ups) => Beginning::Wrong,
        1 => Beginning::Zone,
        3 => Beginning::Whole,
        _ => Beginning::Wrong,
    }
}

/// Zone, band and square letters of a place and of those 90 km away in eight directions, counted in one zone; where that has no
/// squares any more, in the place's own.
fn squares_around(near: LatLon, zone: u8) -> Vec<String> {
    const AWAY_M: f64 = 90_000.0;
    let directions = (0..8).map(|eighth| TrueBearing::new(f64::from(eighth) * 45.0));
    let places = std::iter::once(near).chain(directions.map(|bearing| geodesic_from(near, bearing, AWAY_M).0));
    let square = |place| mgrs_in_zone(zone, place, 2).unwrap_or_else(|| mgrs_of(place, 2));
    places.map(|place| split_digits(&square(place)).0.to_owned()).collect()
}

/// Letters and figures only; two numbers with a point or a sign are a latitude and a longitude that lack their comma.
fn check_characters(text: &str, groups: &[&str]) -> Result<(), &'static str> {
    let is_number = |group: &&str| group.trim_matches(';').parse::<f64>().is_ok_and(f64::is_finite);
    let are_two = || groups.len() == 2 && groups.iter().all(is_number) || are_two_with_points(text);
    match odd::part_of(text) {
        Some("part-characters" | "part-point") if are_two() => Err("part-no-comma"),
        Some(part) => Err(part),
        None => Ok(()),
    }
}

/// Two numbers of up to three figures before the point, and no letters: `47.5/11.2`.
fn are_two_with_points(text: &str) -> bool {
    let is_degrees = |part: &Part| matches!(part, Part::Number(number) if number.contains('.') && whole_digits(number) <= 3);
    let parts = Parts::of(text).all;
    parts.len() == 2 && parts.iter().all(is_degrees)
}

/// Two groups of digits must be equally long: `856 11315` is not `8561 1315`. More are figures grouped by thousands, or no reference.
fn check_groups(groups: &[&str]) -> Result<(), &'static str> {
    let figures = |group: &&&str| group.chars().all(|c| c.is_ascii_digit());
    let numbers: Vec<&&str> = groups.iter().rev().take_while(figures).collect();
    match numbers.as_slice() {
        [north, east] if north.len() != east.len() => Err("part-unequal-groups"),
        [_, _, _, ..] => Err("part-grouped"),
        _ => Ok(()),
    }
}

/// Which of the two square letters a zone does not have.
///
/// # References
/// NGA.STND.0037_2.0.0_GRIDS (2014): the columns of three zones one after another are A to H, J to R and S to Z, the rows A to V, all
/// without I and O (from memory; every pair was held against `GeographicLib` 2.1.2 through `mgrs` 1.5).
fn part_of_square(whole: &str) -> &'static str {
    let columns = match zone_in(whole).unwrap_or_default() % 3 {
        1 => ("ABCDEFGH", "part-column-1"),
        2 => ("JKLMNPQR", "part-column-2"),
        _ => ("STUVWXYZ", "part-column-3"),
    };
    let column = whole.trim_start_matches(|c: char| c.is_ascii_digit()).chars().nth(1);
    if column.is_some_and(|column| columns.0.contains(column)) { "part-row" } else { columns.1 }
}

fn part_of(error: &mgrs_convert::Error, whole: &str) -> &'static str {
    let mgrs_convert::Error::Parse(kind) = error else {
        return "part-outside-grid";
    };
    match *kind {
        ParseErrorKind::Empty => "part-empty",
        ParseErrorKind::GridZoneOnly => "part-no-digits",
        ParseErrorKind::BadZoneNumber => "part-zone",
        ParseErrorKind::BadBandLetter => "part-band",
        ParseErrorKind::BadSquareLetters | ParseErrorKind::SquareZoneMismatch => part_of_square(whole),
        ParseErrorKind::SquareBandMismatch => "part-square-band",
        ParseErrorKind::OddDigitCount => "part-odd-digits",
        ParseErrorKind::TooManyDigits => "part-too-many-digits",
        ParseErrorKind::NonAsciiOrWhitespace | ParseErrorKind::TrailingInput | _ => "part-letters",
    }
}

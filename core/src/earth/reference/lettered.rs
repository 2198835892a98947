//! The lettered references of the British National Grid.
//!
//! # References
//! Ordnance Survey, A guide to coordinate systems in Great Britain: two letters name a square of 100 km, the first in
//! squares of 500 km, both in rows of five from the north-west without I; digits are cut, east before north.

use super::parts::{Part, Parts};
use super::{OWN_TOLERANCE, PlaceReading, Read, Terms, part_of_grid, steadied};
use crate::earth::{Grid, LatLon};
use crate::measure::Point;

/// The grid that bears these letters.
const BRITISH: &str = "EPSG:27700";
const SQUARE_M: f64 = 100_000.0;
const LETTERS: &str = "ABCDEFGHJKLMNOPQRSTUVWXYZ";

/// The squares in which land lies that the grid is made for.
///
/// # References
/// Ordnance Survey, A guide to coordinate systems in Great Britain, the figure of its squares (from memory).
const IN_USE: [&str; 56] = [
    "HP", "HT", "HU", "HW", "HX", "HY", "HZ", "NA", "NB", "NC", "ND", "NF", "NG", "NH", "NJ", "NK", "NL", "NM", "NN", "NO", "NR", "NS",
    "NT", "NU", "NW", "NX", "NY", "NZ", "OV", "SC", "SD", "SE", "SH", "SJ", "SK", "SM", "SN", "SO", "SP", "SR", "SS", "ST", "SU", "SV",
    "SW", "SX", "SY", "SZ", "TA", "TF", "TG", "TL", "TM", "TQ", "TR", "TV",
];

impl Grid {
    /// The two letters of the square of 100 km where a place lies, where no land that the grid is made for lies in that square.
    #[must_use]
    pub fn square_without_land(&self, at: LatLon) -> Option<String> {
        let point = self.project(at).ok().filter(|_| is_lettered(self))?;
        let letters: String = write(point, 2)?.chars().take(2).collect();
        (!IN_USE.contains(&letters.as_str())).then_some(letters)
    }

    /// Whether a place on a grid with letters lies beyond the squares that have any.
    #[must_use]
    pub fn is_beyond_letters(&self, at: LatLon) -> bool {
        is_lettered(self) && self.project(at).is_ok_and(|point| write(point, 2).is_none())
    }
}

/// Whether a grid's references have letters.
pub(super) fn is_lettered(grid: &Grid) -> bool {
    grid.definition().eq_ignore_ascii_case(BRITISH)
}

/// One square letter before short figures, as on the grid of Ireland, where no letters are read.
pub(super) fn is_one_letter(text: &str, terms: &Terms) -> bool {
    let parts = Parts::of(text).all;
    let numbers = parts.get(1..).unwrap_or_default();
    let are_short = |part: &Part| matches!(part, Part::Number(number) if number.len() <= 10 && !number.contains(['.', '-']));
    let begins = matches!(parts.first(), Some(Part::Word(word)) if word.len() == 1);
    // One number of seven figures or more is half of two coordinates.
    let is_half = matches!(numbers, [Part::Number(number)] if number.len() > 6 && number.len() % 2 == 1);
    let is_ups = numbers.len() == 2 && numbers.iter().all(|part| matches!(part, Part::Number(number) if number.len() > 5));
    begins
        && !is_ups
        && !is_half
        && (1..=2).contains(&numbers.len())
        && numbers.iter().all(are_short)
        && terms.grid.is_some_and(|grid| !grid.is_utm_ups())
}

/// Reads `NN 166 712`, or `166 712` near a place on the sheet; nothing when it does not look like that.
pub(super) fn read(parts: &Parts, terms: &Terms) -> Option<Read> {
    let grid = terms.grid.filter(|grid| is_lettered(grid))?;
    let (letters, numbers) = match parts.all.split_first()? {
        (Part::Word(word), rest) if word.len() == 2 => (Some(word.as_str()), rest),
        (Part::Number(_), _) => (None, parts.all.as_slice()),
        (Part::Word(_), _) => return None,
    };
    let digits = match numbers {
        [Part::Number(both)] => both.split_at_checked(both.len() / 2).filter(|_| both.len() % 2 == 0),
        [Part::Number(east), Part::Number(north)] => Some((east.as_str(), north.as_str())),
        _ => None,
    };
    // Signs and points are those of the grid's two numbers.
    if letters.is_none() && numbers.iter().any(|part| matches!(part, Part::Number(number) if number.contains(['.', '-', '+']))) {
        return None;
    }
    let letters = letters.or_else(|| terms.beginning.map(str::trim).filter(|letters| letters.len() == 2));
    let short = digits.is_some_and(|(east, north)| (1..=5).contains(&east.len()) && (1..=5).contains(&north.len()));
    if !short && !matches!(parts.all.first(), Some(Part::Word(_))) {
        return None;
    }
    if numbers.len() > 2 {
        return Some(Err("part-grouped"));
    }
    Some(square(grid, letters, digits, terms))
}

fn square(grid: &Grid, letters: Option<&str>, digits: Option<(&str, &str)>, terms: &Terms) -> Read {
    let (east, north) = digits.ok_or("part-odd-digits")?;
    let plain = |text: &str| text.chars().all(|c| c.is_ascii_digit());
    if east.contains('.') || north.contains('.') {
        return Err("part-point");
    }
    if east.len() != north.len() || !plain(east) || !plain(north) {
        return Err("part-unequal-groups");
    }
    let side_m = SQUARE_M / 10f64.powi(i32::try_from(east.len()).map_err(|_| "part-too-many-digits")?);
    if side_m < 1.0 {
        return Err("part-too-many-digits");
    }
    let part = |text: &str| text.parse::<f64>().map(|number| (number + 0.5) * side_m).map_err(|_| "part-no-digits");
    let inside = Point::new(part(east)?, part(north)?);
    let corner = match (letters, terms.near) {
        (Some(letters), _) => corner_of(&letters.to_ascii_uppercase()).ok_or("part-square")?,
        (None, Some(near)) => nearest_corner(grid, near, inside).ok_or("part-no-zone")?,
        (None, None) => return Err("part-no-zone"),
    };
    let at = grid.unproject(corner.plus(inside)).map_err(|error| part_of_grid(&error))?;
    Ok(PlaceReading { at, square_m: side_m, step_m: 0.0, stated_m: 0.0, zone: None })
}

/// South-west corner of a lettered square; letters begin a row of five further west and south than the grid does.
fn corner_of(letters: &str) -> Option<Point> {
    let mut indices = letters.chars().map(|letter| LETTERS.find(letter).map(|index| index as i32));
    let (big, small) = (indices.next()??, indices.next()??);
    let east = (big % 5) * 5 + small % 5 - 10;
    let north = 19 - (big / 5) * 5 - small / 5;
    ((0..7).contains(&east) && (0..13).contains(&north)).then(|| Point::new(f64::from(east), f64::from(north)).times(SQUARE_M))
}

fn nearest_corner(grid: &Grid, near: LatLon, inside: Point) -> Option<Point> {
    let near = grid.project(near).ok()?;
    let corner = |near_m: f64, inside_m: f64| ((near_m - inside_m) / SQUARE_M).round() * SQUARE_M;
    Some(Point::new(corner(near.east_m, inside.east_m), corner(near.north_m, inside.north_m)))
}

/// Writes a point of the grid with letters and digits, cut; nothing outside the lettered squares.
pub(super) fn write(point: Point, digits: u8) -> Option<String> {
    let point = Point::new(steadied(point.east_m, OWN_TOLERANCE), steadied(point.north_m, OWN_TOLERANCE));
    let (east, north) = ((point.east_m / SQUARE_M).floor() as i32, (point.north_m / SQUARE_M).floor() as i32);
    if !(0..7).contains(&east) || !(0..13).contains(&north) {
        return None;
    }
    let big = (19 - north) / 5 * 5 + (east + 10) / 5;
    let small = (19 - north) % 5 * 5 + east % 5;
    let letter = |index: i32| usize::try_from(index).ok().and_then(|index| LETTERS.chars().nth(index));
    let pairs = usize::from(digits / 2).clamp(1, 5);
    let unit = 10f64.powi(i32::try_from(5 - pairs).unwrap_or(0));
    let cut = |metres: f64| (metres.rem_euclid(SQUARE_M) / unit).floor() as u32;
    Some(format!("{}{} {:0pairs$} {:0pairs$}", letter(big)?, letter(small)?, cut(point.east_m), cut(point.north_m)))
}

//! Latitude and longitude in degrees, degrees and minutes, degrees, minutes and seconds.

use super::parts::{Part, Parts};
use super::{METRES_PER_DEGREE, PlaceReading, Read, Terms, odd, odd_angles, run_together, utm};
use crate::earth::LatLon;
use crate::measure::read_degrees;

/// Reads a latitude and a longitude; nothing when the text does not look like them.
pub(super) fn read(text: &str, parts: &Parts, terms: &Terms) -> Option<Read> {
    if is_half_of_zone(parts) {
        return None;
    }
    if let Some(part) = odd_angles::part_of(text, parts).or_else(|| half_letter(text, parts)) {
        return Some(Err(part));
    }
    if let Some(parted) = run_together::parted(text, parts, terms) {
        return Some(parted.and_then(|(lat, lon)| place(&lat, &lon)));
    }
    let parted = semicolon_as_comma(text, parts);
    let text = parted.as_deref().unwrap_or(text);
    let halves = halves(text, parts)?;
    if metres(parts).is_some() {
        // On a sheet's own grid two long numbers with a comma are easting and northing.
        return terms.grid.is_none().then_some(Err("part-metres-as-degrees"));
    }
    let read = halves.and_then(|(first, second)| place(first, second));
    // Behind a zone and square letters no decimals are meant.
    let has_square = parts.all.iter().filter_map(word).any(|word| word.len() > 1);
    let is_kept = |part: &str| part.ends_with("-beyond") || part == ODD || part == IN_REFERENCE && has_square;
    let named = |part: &'static str| match digits_of_short(parts, terms) {
        Some(in_reference) if part.ends_with("-beyond") => in_reference,
        _ if !is_kept(part) && has_comma_decimals(text) => "part-commas",
        _ => part,
    };
    Some(read.map_err(named))
}

/// A zone with its half before easting and northing, whatever parts these.
fn is_half_of_zone(parts: &Parts) -> bool {
    let long = |number: &str| super::parts::whole_digits(number) >= 6;
    match parts.all.as_slice() {
        [Part::Number(zone), Part::Word(half), Part::Number(easting), Part::Number(northing)] => {
            zone.len() <= 2 && matches!(half.as_str(), "N" | "S") && long(easting) && long(northing)
        }
        _ => false,
    }
}

/// Two angles with a word each of which one names no half of the world: O is east in German and west in French, and whole words
/// are of many languages.
fn half_letter(text: &str, parts: &Parts) -> Option<&'static str> {
    let numbers: Vec<&str> = parts.all.iter().filter_map(number).collect();
    let are_angles = numbers.len() >= 2 && numbers.iter().all(|number| super::parts::whole_digits(number) <= 3);
    let is_written_so = text.contains(['°', ',']) || numbers.iter().filter(|number| number.contains('.')).count() == 2;
    let (one, other) = a_word_each(&parts.all)?;
    (are_angles && is_written_so && !(is_half(one) && is_half(other))).then_some("part-half-letter")
}

/// The words of two angles that have one each, both behind their figures or both before them.
fn a_word_each(parts: &[Part]) -> Option<(&str, &str)> {
    let words: Vec<(usize, &str)> = parts.iter().enumerate().filter_map(|(index, part)| Some((index, word(part)?))).collect();
    let [(first, one), (second, other)] = *words.as_slice() else { return None };
    let (is_before, is_behind) = (first == 0 && second + 1 < parts.len(), first > 0 && second + 1 == parts.len());
    (second > first + 1 && (is_before || is_behind)).then_some((one, other))
}

/// What stands between or beside two numbers that are the digits of a short reference, where a beginning would complete them.
fn digits_of_short(parts: &Parts, terms: &Terms) -> Option<&'static str> {
    let numbers: Vec<&str> = parts.all.iter().filter_map(number).collect();
    let [east, north] = *numbers.as_slice() else { return None };
    let are_digits =
        east.len() >= 3 && east.len() == north.len() && numbers.iter().all(|number| number.chars().all(|c| c.is_ascii_digit()));
    let is_begun = terms.beginning.is_some_and(|beginning| !beginning.trim().is_empty());
    (are_digits && is_begun).then_some(if parts.all.len() == 2 { IN_REFERENCE } else { "part-letters" })
}

/// Two plain numbers that are too long for degrees.
fn metres(parts: &Parts) -> Option<(&str, &str)> {
    let long = |number: &str| super::parts::whole_digits(number) > 3;
    super::parts::pair(&parts.all).filter(|(first, second)| long(first) && long(second))
}

/// Latitude and longitude parted by a semicolon, with a comma in its place.
fn semicolon_as_comma(text: &str, parts: &Parts) -> Option<String> {
    let are_halves = parts.all.iter().filter_map(word).all(is_half);
    (are_halves && text.contains(['.', '°']) && !text.contains(',') && text.matches(';').count() == 1).then(|| text.replace(';', ","))
}

/// A comma that stands in a grid reference.
const IN_REFERENCE: &str = "part-comma-in-reference";

/// A comma between two figures: of decimals, more likely than between two angles that cannot be read.
fn has_comma_decimals(text: &str) -> bool {
    let figure = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    text.split_once(',').is_some_and(|(before, after)| figure(before.chars().next_back()) && figure(after.chars().next()))
}

/// The text of the two angles: cut at the comma, or between the letters of the halves of the world.
fn halves<'a>(text: &'a str, parts: &Parts) -> Option<Result<(&'a str, &'a str), &'static str>> {
    if let Some((first, second)) = text.split_once(',') {
        let has_letters = parts.all.iter().filter_map(word).any(|word| word.len() > 1 || !is_half(word));
        if has_letters && utm::are_coordinates(parts) {
            return None;
        }
        let has_figures = |half: &str| half.contains(|c: char| c.is_ascii_digit());
        if has_letters && has_figures(first) && has_figures(second) && !text.contains('°') {
            return Some(Err(IN_REFERENCE));
        }
        let whole = !second.contains(',');
        return Some(if whole { Ok((first, second)) } else { Err("part-commas") });
    }
    let words: Vec<&str> = parts.all.iter().filter_map(word).collect();
    let small = parts.all.iter().all(|part| !matches!(part, Part::Number(number) if super::parts::whole_digits(number) > 3));
    let is_angle = text.contains(['°', '.']);
    match words.as_slice() {
        [a, b] if small && is_half(a) && is_half(b) => {
            if is_latitude(a) != is_latitude(b) {
                return Some(cut_at_letters(text).ok_or("part-hemisphere"));
            }
            return (is_angle || alternate(&parts.all)).then_some(Err("part-hemisphere"));
        }
        [one] if small && is_half(one) && with_point(parts) == 2 => return Some(Err("part-hemisphere")),
        [] if small && is_angle && numbers(parts) == 1 => return Some(Err("part-one-angle")),
        [one] if small && is_angle && is_half(one) && (numbers(parts) == 1 || text.contains('°')) => return Some(Err("part-one-angle")),
        _ => {}
    }
    text.contains('°').then_some(Err("part-hemisphere"))
}

/// Figures and letters by turns, as of two angles with a letter each.
fn alternate(parts: &[Part]) -> bool {
    parts.len() == 4 && parts.windows(2).all(|two| matches!(two, [Part::Number(_), Part::Word(_)] | [Part::Word(_), Part::Number(_)]))
}

fn numbers(parts: &Parts) -> usize {
    parts.all.iter().filter_map(number).count()
}

fn with_point(parts: &Parts) -> usize {
    parts.all.iter().filter_map(number).filter(|number| number.contains('.')).count()
}

/// The number of a part that is one.
pub(super) fn number(part: &Part) -> Option<&str> {
    match part {
        Part::Number(number) => Some(number),
        Part::Word(_) => None,
    }
}

/// The word of a part that is one.
pub(super) fn word(part: &Part) -> Option<&str> {
    match part {
        Part::Word(word) => Some(word),
        Part::Number(_) => None,
    }
}

fn is_half(word: &str) -> bool {
    matches!(word, "N" | "S" | "E" | "W")
}

fn is_latitude(word: &str) -> bool {
    matches!(word, "N" | "S")
}

/// `52 N 13 E` is cut behind its first letter, `N 52 E 13` before its second.
fn cut_at_letters(text: &str) -> Option<(&str, &str)> {
    let mut letters = text.char_indices().filter(|(_, c)| c.is_ascii_alphabetic());
    let ((first, _), (second, _)) = (letters.next()?, letters.next()?);
    let leads = text.get(..first)?.trim().is_empty();
    text.split_at_checked(if leads { second } else { first + 1 })
}

/// An angle with the half of the world it names, if it does.
struct Angle {
    degrees: f64,
    step_deg: f64,
    half: Option<char>,
}

fn place(first: &str, second: &str) -> Read {
    let (a, b) = (angle(first, "part-latitude")?, angle(second, "part-longitude")?);
    let (lat, lon) = match (a.half, b.half) {
        (None | Some('N' | 'S'), None | Some('E' | 'W')) => (a, b),
        (Some('E' | 'W'), Some('N' | 'S')) => (b, a),
        _ => return Err("part-hemisphere"),
    };
    let at = LatLon::new(lat.degrees, lon.degrees).map_err(|_| beyond(lat.degrees, lon.degrees))?;
    let across = lon.step_deg * at.lat_deg().to_radians().cos();
    Ok(PlaceReading { at, square_m: 0.0, step_m: METRES_PER_DEGREE * lat.step_deg.max(across), stated_m: 0.0, zone: None })
}

/// Which of two angles is too large.
pub(super) fn beyond(lat_deg: f64, lon_deg: f64) -> &'static str {
    match (lat_deg.abs() > 90.0, lon_deg.abs() > 90.0) {
        (true, false) => "part-latitude-longitude-beyond",
        (true, true) => "part-latitude-beyond",
        (false, _) => "part-longitude-beyond",
    }
}

/// A character that belongs in no angle.
const ODD: &str = "part-odd-in-angle";

/// Reads one angle, or says which part of the place is wrong.
fn angle(text: &str, part: &'static str) -> Result<Angle, &'static str> {
    let text = text.trim();
    let is_plain = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'));
    if let Some(degrees) = text.parse::<f64>().ok().filter(|_| is_plain) {
        let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let step_deg = 10f64.powi(-i32::try_from(decimals).unwrap_or(0));
        return Ok(Angle { degrees, step_deg, half: None });
    }
    let upper = text.to_uppercase();
    let letter = |c: &char| is_half(c.encode_utf8(&mut [0; 4]));
    let half = upper.chars().next().filter(letter).or_else(|| upper.chars().next_back().filter(letter));
    let inner = half.map_or(upper.as_str(), |half| upper.trim_matches(half));
    let (sign, inner) = match (half, inner.trim_start().strip_prefix(['-', '\u{2212}'])) {
        (None, Some(rest)) => (-1.0, rest),
        (Some('S' | 'W'), None) => (-1.0, inner),
        (_, None) => (1.0, inner),
        (Some(_), Some(_)) => return Err("part-sign-and-letter"),
    };
    let wrong = || match () {
        () if odd::odd_in_angle(text).is_some() => ODD,
        () if groups_of(inner) > 3 => "part-many-figures",
        () if has_minutes_alone(inner) => "part-no-degrees",
        () if has_one_figure(inner) => "part-one-figure",
        () if !are_marks_in_order(inner) => "part-marks",
        () if has_decimals_inside(inner) => "part-decimals-inside",
        () if !inner.contains(|c: char| c.is_ascii_digit()) && part == "part-latitude" => "part-latitude-no-figures",
        () if !inner.contains(|c: char| c.is_ascii_digit()) => "part-longitude-no-figures",
        () => part,
    };
    let written = read_degrees(inner).ok_or_else(wrong)?;
    Ok(Angle { degrees: sign * written.degrees, step_deg: written.step_deg, half })
}

/// Groups of figures in an angle: degrees, minutes and seconds are the most.
fn groups_of(inner: &str) -> usize {
    inner.split(|c: char| !c.is_ascii_digit() && c != '.').filter(|group| !group.is_empty()).count()
}

/// One number with the mark of minutes or seconds.
fn has_minutes_alone(inner: &str) -> bool {
    groups_of(inner) == 1 && !inner.contains('°') && inner.contains(['\'', '′', '’', '"', '″', '”'])
}

/// Minutes or seconds of one figure, where figures alone part them: `45 6` may have lost one.
fn has_one_figure(inner: &str) -> bool {
    let mut groups = inner.split_whitespace();
    let is_figures = inner.chars().all(|c| c.is_ascii_digit() || c.is_whitespace());
    is_figures && groups.next().is_some() && groups.any(|group| group.len() == 1)
}

/// Whether the marks of degrees, minutes and seconds follow one another in this order, none left out.
fn are_marks_in_order(inner: &str) -> bool {
    let place = |c: char| match c {
        '°' => Some(0),
        '\'' | '′' | '’' => Some(1),
        '"' | '″' | '”' => Some(2),
        _ => None,
    };
    inner.chars().filter_map(place).enumerate().all(|(index, place)| index == place)
}

/// A point before the last of degrees, minutes and seconds.
fn has_decimals_inside(inner: &str) -> bool {
    let groups: Vec<&str> = inner.split(|c: char| !c.is_ascii_digit() && c != '.').filter(|group| !group.is_empty()).collect();
    groups.iter().rev().skip(1).any(|group| group.contains('.'))
}

/// A place in degrees and decimal minutes: `52°30.258'N 13°24.170'E`.
#[must_use]
pub fn degrees_minutes(at: LatLon) -> String {
    let written = |value: f64, halves: [char; 2]| {
        let thousandths = (value.abs() * 60_000.0).round() as u64;
        let (degrees, minutes) = (thousandths / 60_000, thousandths % 60_000);
        format!("{degrees}°{:02}.{:03}'{}", minutes / 1000, minutes % 1000, half_of(value, halves))
    };
    format!("{} {}", written(at.lat_deg(), ['N', 'S']), written(at.lon_deg(), ['E', 'W']))
}

/// A place in degrees, minutes and seconds: `52°30'15.5"N 13°24'10.2"E`.
#[must_use]
pub fn degrees_minutes_seconds(at: LatLon) -> String {
    let written = |value: f64, halves: [char; 2]| {
        let tenths = (value.abs() * 36_000.0).round() as u64;
        let (degrees, minutes, seconds) = (tenths / 36_000, tenths / 600 % 60, tenths % 600);
        format!("{degrees}°{minutes:02}'{:02}.{}\"{}", seconds / 10, seconds % 10, half_of(value, halves))
    };
    format!("{} {}", written(at.lat_deg(), ['N', 'S']), written(at.lon_deg(), ['E', 'W']))
}

fn half_of(value: f64, [positive, negative]: [char; 2]) -> char {
    if value < 0.0 { negative } else { positive }
}

//! Texts that are refused for more than one of their characters: what they were meant for, and which part of that is wrong.

use super::degrees::{number, word};
use super::own::HALF_MARKS;
use super::parts::{Part, Parts, pair, whole_digits};
use super::{Terms, plain};

/// Names of datums and grids whose year or number stands behind them.
const DATUMS: [&str; 20] = [
    "NAD", "ETRS", "WGS", "CH", "LV", "ED", "OSGB", "GDA", "AGD", "JGD", "ITRF", "NZGD", "RGF", "HD", "PD", "PZ", "SK", "MGA", "SIRGAS",
    "NTF",
];
/// Those that stand alone.
const ALONE: [&str; 8] = ["EPSG", "DHDN", "OSGB", "SIRGAS", "PULKOVO", "SWEREF", "POTSDAM", "BESSEL"];

/// The part that is wrong with a text that could not be read: the one that was found, or what it hides.
pub(super) fn part_of(typed: &str, found: &'static str, terms: &Terms) -> &'static str {
    let by_character = matches!(found, "part-point" | "part-characters" | "part-unequal-groups");
    let lacks_square = matches!(found, "part-square-missing" | "part-grouped");
    whole(typed, terms)
        .or_else(|| angles(typed, terms).filter(|_| by_character))
        .or_else(|| is_one_angle(typed).then_some("part-one-angle").filter(|_| lacks_square))
        .unwrap_or(found)
}

/// What stands beside a place, or where two numbers of it are one.
fn whole(typed: &str, terms: &Terms) -> Option<&'static str> {
    let text = plain(typed);
    let parts = Parts::of(&text).all;
    if names_datum(&text) {
        return Some("part-datum");
    }
    let is_begun = terms.beginning.is_some_and(|beginning| !beginning.trim().is_empty()) || is_lettered(&parts);
    if is_begun && has_unit_behind(&parts) {
        return Some("part-unit");
    }
    if are_powers_of_ten(&text) {
        return Some("part-power-of-ten");
    }
    if is_angle_of_two_halves(&parts) {
        return Some("part-one-angle");
    }
    if has_half_behind_zone(&text) {
        return Some("part-half-beside-zone");
    }
    if text.contains('°') && matches!(parts.as_slice(), [Part::Number(_), Part::Word(letters), Part::Number(_), ..] if letters.len() == 3)
    {
        return Some("part-characters");
    }
    if are_run_together(&parts) {
        return Some("part-metres-run-together");
    }
    (terms.grid.is_none() && has_half_behind(&text)).then_some("part-coordinates-alone")
}

/// Angles that would be characters out of place in a reference.
fn angles(typed: &str, terms: &Terms) -> Option<&'static str> {
    let text = plain(typed);
    let parts = Parts::of(&text).all;
    let numbers: Vec<&str> = parts.iter().filter_map(number).collect();
    let words: Vec<&str> = parts.iter().filter_map(word).collect();
    let (signs, points) = (count(&numbers, |number| number.starts_with(['-', '+'])), count(&numbers, |number| number.contains('.')));
    let are_small = !numbers.is_empty() && numbers.iter().all(|number| whole_digits(number) <= 3);
    let is_plain = text.chars().all(|c| c.is_ascii_alphanumeric() || c.is_whitespace() || matches!(c, '.' | '-' | '+'));
    match (numbers.len(), words.len()) {
        _ if !are_small || !is_plain => None,
        (4 | 6, 0) if signs > 0 || points == 2 => Some("part-no-comma"),
        (2, 0) if terms.beginning.is_none() && terms.near.is_none() && may_be_degrees(&numbers) => Some("part-digits-or-angles"),
        (2, 1..) if points == 2 && words.iter().all(|word| word.chars().all(|c| "NSEW".contains(c))) => Some("part-hemisphere"),
        _ => None,
    }
}

fn count(numbers: &[&str], is: impl Fn(&str) -> bool) -> usize {
    numbers.iter().filter(|number| is(number)).count()
}

/// Two whole numbers of unequal length, which are no digits of a square.
fn may_be_degrees(numbers: &[&str]) -> bool {
    let within =
        |number: Option<&&str>, most: u16| number.and_then(|number| number.parse().ok()).is_some_and(|degrees: u16| degrees <= most);
    let [one, other] = *numbers else { return false };
    one.len() != other.len() && within(numbers.first(), 90) && within(numbers.last(), 180)
}

/// The name of a datum or of a grid beside numbers: `NAD27 46.5N 20.4E`, `EPSG:2056 2600150 1200350`.
fn names_datum(text: &str) -> bool {
    let tokens: Vec<&str> = text.split(|c: char| !c.is_ascii_alphanumeric() && c != '.').filter(|token| !token.is_empty()).collect();
    let has_figure = |token: &&str| token.contains(|c: char| c.is_ascii_digit());
    let has_two_beside =
        |index: usize| tokens.iter().enumerate().filter(|(other, token)| *other != index && has_figure(token)).count() >= 2;
    let is_name = |index: usize| {
        let token = tokens.get(index).map_or_else(String::new, |token| token.to_ascii_uppercase());
        let letters = token.trim_end_matches(|c: char| c.is_ascii_digit());
        let behind = tokens.get(index + 1).filter(|next| next.len() <= 4 && next.chars().all(|c| c.is_ascii_digit()));
        let has_year = (2..=4).contains(&(token.len() - letters.len()));
        let figures_apart = usize::from(!has_year && behind.is_some());
        let rest = tokens.len().saturating_sub(1 + figures_apart);
        let is_one = has_year && DATUMS.contains(&letters) || figures_apart == 1 && letters.len() > 2 && DATUMS.contains(&letters);
        (is_one || ALONE.contains(&letters)) && rest >= 2
    };
    (0..tokens.len()).any(|index| is_name(index) && has_two_beside(index))
}

/// Zone and band, or nothing, before easting and northing that run together.
fn are_run_together(parts: &[Part]) -> bool {
    match parts {
        [Part::Number(all)] | [Part::Number(_), Part::Word(_), Part::Number(all)] => {
            let is_one = matches!(parts, [_] | [_, Part::Word(_), _]) && parts.iter().filter_map(word).all(|word| word.len() == 1);
            is_one && (12..=15).contains(&all.len()) && all.chars().all(|c| c.is_ascii_digit())
        }
        _ => false,
    }
}

/// Square letters before two numbers.
fn is_lettered(parts: &[Part]) -> bool {
    matches!(parts, [Part::Word(letters), Part::Number(_), Part::Number(_), ..] if letters.len() == 2)
}

/// Digits that a beginning completes, or two square letters before them, with a unit of length behind them.
fn has_unit_behind(parts: &[Part]) -> bool {
    let is_unit = |word: &str| matches!(word, "M" | "KM" | "FT");
    let digits = if is_lettered(parts) { parts.get(1..).unwrap_or_default() } else { parts };
    let ends = matches!(digits.last(), Some(Part::Word(word)) if is_unit(word));
    ends && digits.first().is_some_and(|first| number(first).is_some()) && digits.iter().filter_map(word).all(is_unit)
}

/// Two numbers such as `7.5E5`.
fn are_powers_of_ten(text: &str) -> bool {
    let is_power = |token: &str| {
        let upper = token.to_ascii_uppercase();
        let figures = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit() || c == '.');
        upper.split_once('E').is_some_and(|(number, power)| number.contains('.') && figures(number) && figures(power) && power.len() == 1)
    };
    text.split_whitespace().filter(|token| is_power(token.trim_matches(','))).count() == 2
}

/// One angle with the letters of two halves: `47 N E`, `S 47 12 30 E`.
fn is_angle_of_two_halves(parts: &[Part]) -> bool {
    let is_half = |part: &Part| word(part).is_some_and(|word| matches!(word, "N" | "S" | "E" | "W"));
    let numbers: Vec<usize> = parts.iter().enumerate().filter(|(_, part)| number(part).is_some()).map(|(index, _)| index).collect();
    let (Some(first), Some(last)) = (numbers.first(), numbers.last()) else { return false };
    let is_one = numbers.len() <= 3 && last - first + 1 == numbers.len();
    let are_small = parts.iter().filter_map(number).all(|number| whole_digits(number) <= 3);
    is_one && are_small && parts.len() == numbers.len() + 2 && parts.iter().all(|part| number(part).is_some() || is_half(part))
}

/// Half of a square behind easting and northing that have their zone: the figures tell how large that is.
fn has_half_behind_zone(text: &str) -> bool {
    let before = HALF_MARKS.iter().find_map(|mark| text.split_once(mark)).map(|(before, _)| Parts::of(before).all);
    let long = |number: &str| whole_digits(number) >= 6;
    before.is_some_and(|before| {
        matches!(before.as_slice(), [Part::Number(_), Part::Word(_), Part::Number(one), Part::Number(other)] if long(one) && long(other))
    })
}

/// Degrees, minutes and seconds with the letter of one half, and no other angle.
fn is_one_angle(typed: &str) -> bool {
    let parts = Parts::of(&plain(typed)).all;
    let is_half = |part: Option<&Part>| part.and_then(word).is_some_and(|word| matches!(word, "N" | "S" | "E" | "W"));
    let words = parts.iter().filter_map(word).count();
    let numbers: Vec<&str> = parts.iter().filter_map(number).collect();
    let are_small = (1..=3).contains(&numbers.len()) && numbers.iter().all(|number| whole_digits(number) <= 3);
    words == 1 && are_small && (is_half(parts.first()) || is_half(parts.last()))
}

/// Half of a square behind two numbers of a grid that is not told.
fn has_half_behind(text: &str) -> bool {
    let before = HALF_MARKS.iter().find_map(|mark| text.split_once(mark)).map(|(before, _)| Parts::of(before).all);
    let long = |number: &str| whole_digits(number) >= 4;
    before.is_some_and(|before| pair(&before).is_some_and(|(first, second)| long(first) && long(second)))
}

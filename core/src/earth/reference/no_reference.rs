//! Numbers with something beside them that are no digits of a reference: which part of them is wrong.

use super::Terms;
use super::parts::{Part, Parts, pair, whole_digits};

/// Units that are typed behind a length.
const UNITS: [&str; 9] = ["FT", "FEET", "FOOT", "USFT", "YD", "KM", "KFT", "MI", "MM"];
/// Letters of easting and northing that stand behind a number.
const AXES: [&str; 6] = ["E", "N", "ME", "MN", "R", "H"];

/// What is wrong with two numbers that are no digits of a reference: coordinates without their zone, or with it in the wrong place, with a
/// unit or a word beside them, or one number alone.
pub(super) fn no_reference(text: &str, terms: &Terms) -> Option<&'static str> {
    let parts = Parts::of(text).all;
    let behind_zone = behind_zone(&parts);
    if has_units(&parts) || has_units(behind_zone) {
        return Some("part-unit");
    }
    if has_behind(&parts) {
        return Some(if ends_with_zone(&parts) { "part-zone-behind" } else { "part-word-beside" });
    }
    match parts.as_slice() {
        [Part::Word(_), Part::Number(zone), Part::Word(_), rest @ ..] if is_zone(zone) && are_digits(rest) => Some("part-zone-order"),
        [Part::Word(_), Part::Number(zone), rest @ ..] if is_zone(zone) && are_long(rest) => Some("part-zone-order"),
        [Part::Number(zone), Part::Word(word), rest @ ..] if is_zone(zone) && is_no_half(word) && are_long(rest) => Some("part-half-word"),
        [Part::Word(ups), Part::Word(_), Part::Number(_)] if ups == "UPS" => Some("part-one-number"),
        [Part::Word(ups), Part::Word(_), Part::Number(_), Part::Number(_)] if ups == "UPS" => Some("part-few-figures"),
        _ if is_one_number(behind_zone) => Some("part-one-number"),
        _ if have_other_letters(behind_zone) => Some("part-axis-letters"),
        [Part::Word(_), rest @ ..] if are_long(rest) && terms.grid.is_some() => Some("part-word-beside"),
        [Part::Word(_), rest @ ..] if are_long(rest) => Some("part-coordinates-alone"),
        all if are_long(all) => Some("part-coordinates-alone"),
        _ => None,
    }
}

/// What stands behind the zone and its half or band, or all where no zone begins it.
fn behind_zone(parts: &[Part]) -> &[Part] {
    match parts {
        [Part::Number(zone), Part::Word(word), rest @ ..] if is_zone(zone) && is_half(word) => rest,
        [Part::Number(zone), rest @ ..] if is_zone(zone) => rest,
        all => all,
    }
}

fn is_zone(number: &str) -> bool {
    number.parse().is_ok_and(|zone: u8| (1..=60).contains(&zone))
}

fn is_half(word: &str) -> bool {
    word.len() == 1 || matches!(word, "NORTH" | "SOUTH")
}

/// A word that is neither a half of the earth nor band and square letters.
fn is_no_half(word: &str) -> bool {
    !is_half(word) && word.len() != 3
}

/// A unit behind the second of two numbers, or behind each, metres beside another one too. Behind a zone the same letters are those of a square: `33T KM 5696 4953`.
fn has_units(parts: &[Part]) -> bool {
    let is_unit = |part: &Part| matches!(part, Part::Word(word) if UNITS.contains(&word.as_str()));
    let is_metres = |part: &Part| matches!(part, Part::Word(word) if word == "M");
    match parts {
        [Part::Number(_), one, Part::Number(_), other] => {
            is_unit(one) && (is_unit(other) || is_metres(other)) || is_metres(one) && is_unit(other)
        }
        [Part::Number(_), Part::Number(_), last] => is_unit(last),
        _ => false,
    }
}

/// Two numbers of coordinates, with the letters of easting and northing or without.
fn are_long(parts: &[Part]) -> bool {
    let long = |number: &str| whole_digits(number) >= 6;
    pair(parts).is_some_and(|(east, north)| long(east) && long(north))
}

/// One or two groups of figures.
fn are_digits(parts: &[Part]) -> bool {
    (1..=2).contains(&parts.len()) && parts.iter().all(|part| matches!(part, Part::Number(_)))
}

/// Words behind two numbers of equal length, or behind coordinates, which are none of their letters.
fn has_behind(parts: &[Part]) -> bool {
    let rest = match parts {
        [Part::Number(east), Part::Number(north), rest @ ..] if east.len() == north.len() && east.len() > 1 => rest,
        _ => {
            let behind = |parts: &'_ [Part]| [4, 3, 2].into_iter().find(|count| parts.get(..*count).is_some_and(are_long));
            let parts = if behind(parts).is_some() { parts } else { behind_zone_and_word(parts) };
            behind(parts).and_then(|count| parts.get(count..)).unwrap_or_default()
        }
    };
    rest.iter().any(|part| matches!(part, Part::Word(_))) && pair(parts).is_none()
}

/// The same with a letter before it, which is a zone near a pole.
fn behind_zone_and_word(parts: &[Part]) -> &[Part] {
    match behind_zone(parts) {
        [Part::Word(word), rest @ ..] if word.len() == 1 => rest,
        rest if are_long(rest.get(..2).unwrap_or_default()) => rest,
        _ => parts,
    }
}

/// Whether a zone or square letters stand last.
fn ends_with_zone(parts: &[Part]) -> bool {
    match parts {
        [Part::Number(_), Part::Number(digits), Part::Word(letters)] => digits.len() <= 5 && letters.len() == 2,
        [_, .., Part::Number(zone), Part::Word(letters)] => is_zone(zone) && letters.len() <= 3,
        [Part::Number(_), .., Part::Word(name), Part::Number(zone)] => is_zone(zone) && matches!(name.as_str(), "ZONE" | "UTM"),
        _ => false,
    }
}

/// One number of coordinates with the letter of its axis, or with so many figures that it is none of a square.
fn is_one_number(parts: &[Part]) -> bool {
    let is_axis = |word: &str| AXES.contains(&word);
    match parts {
        [Part::Number(number), Part::Word(word)] | [Part::Word(word), Part::Number(number)] => is_axis(word) && whole_digits(number) >= 6,
        _ => false,
    }
}

/// Coordinates with a letter each, of which one is none of easting and northing.
fn have_other_letters(parts: &[Part]) -> bool {
    match parts {
        [Part::Number(a), Part::Word(x), Part::Number(b), Part::Word(y)]
        | [Part::Word(x), Part::Number(a), Part::Word(y), Part::Number(b)] => {
            pair(parts).is_none() && x.len() == 1 && y.len() == 1 && [a, b].iter().all(|number| whole_digits(number) >= 6)
        }
        _ => false,
    }
}

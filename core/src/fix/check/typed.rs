//! What a reference would have been without a slip of the eye or the finger: the same text with other figures.

use super::WitnessSlipKind;

/// A text as it may have been meant, and among how many of its kind.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Meant {
    pub(super) kind: WitnessSlipKind,
    pub(super) text: String,
    pub(super) among: f64,
}

/// Every text that differs from the one typed by a known slip.
pub(super) fn meant(typed: &str) -> Vec<Meant> {
    let characters: Vec<char> = typed.chars().collect();
    let figures = figures(&characters);
    let mut texts: Vec<(WitnessSlipKind, String)> = Vec::new();
    texts.extend(exchanged(&characters, &figures).into_iter().map(|text| (WitnessSlipKind::Exchanged, text)));
    texts.extend(misread(&characters, &figures).into_iter().map(|text| (WitnessSlipKind::Misread, text)));
    texts.extend(swapped(&characters, &figures).map(|text| (WitnessSlipKind::Swapped, text)));
    texts.extend(squares(&characters, &figures).into_iter().map(|text| (WitnessSlipKind::Square, text)));
    let among = |kind: &WitnessSlipKind| texts.iter().filter(|(other, _)| other == kind).count() as f64;
    texts.iter().map(|(kind, text)| Meant { kind: kind.clone(), text: text.clone(), among: among(kind) }).collect()
}

/// Where the figures of the coordinates stand: behind the last letter of a reference, else all of them.
fn figures(characters: &[char]) -> Vec<usize> {
    let is_figure = |index: &usize| characters.get(*index).is_some_and(char::is_ascii_digit);
    let behind = characters.iter().rposition(|one| one.is_ascii_alphabetic()).map_or(0, |last| last + 1);
    let last: Vec<usize> = (behind..characters.len()).filter(is_figure).collect();
    if last.len() >= 2 { last } else { (0..characters.len()).filter(is_figure).collect() }
}

/// The letters of a 100 km square, the two before the figures, one of them another.
fn squares(characters: &[char], figures: &[usize]) -> Vec<String> {
    let before = figures.first().copied().unwrap_or(0);
    let letters: Vec<usize> =
        (0..before).rev().take_while(|index| characters.get(*index).is_some_and(|one| !one.is_ascii_digit())).collect();
    let letters: Vec<usize> = letters.into_iter().filter(|index| characters.get(*index).is_some_and(char::is_ascii_alphabetic)).collect();
    let (Some(row), Some(column)) = (letters.first(), letters.get(1)) else { return Vec::new() };
    let others = |index: usize| {
        let told = characters.get(index).map(char::to_ascii_uppercase);
        ('A'..='Z')
            .filter(move |other| Some(*other) != told && !matches!(other, 'I' | 'O'))
            .map(move |other| with(characters, &[(index, other)]))
    };
    [*column, *row].into_iter().flat_map(others).collect()
}

fn with(characters: &[char], changes: &[(usize, char)]) -> String {
    let changed = |(index, one): (usize, &char)| changes.iter().find(|(at, _)| *at == index).map_or(*one, |(_, other)| *other);
    characters.iter().enumerate().map(changed).collect()
}

/// Two neighbouring figures exchanged.
fn exchanged(characters: &[char], figures: &[usize]) -> Vec<String> {
    let pair = |pair: &[usize]| match pair {
        [a, b] if b - a == 1 => Some((*a, *characters.get(*a)?, *b, *characters.get(*b)?)),
        _ => None,
    };
    let differing = figures.windows(2).filter_map(pair).filter(|(_, first, _, second)| first != second);
    differing.map(|(a, first, b, second)| with(characters, &[(a, second), (b, first)])).collect()
}

/// One figure read or typed as another.
fn misread(characters: &[char], figures: &[usize]) -> Vec<String> {
    let others = |index: &usize| {
        let (index, told) = (*index, characters.get(*index).copied());
        ('0'..='9').filter(move |other| Some(*other) != told).map(move |other| with(characters, &[(index, other)]))
    };
    figures.iter().flat_map(others).collect()
}

/// Easting and northing in each other's place.
fn swapped(characters: &[char], figures: &[usize]) -> Option<String> {
    let text: String = characters.iter().collect();
    if let Some((first, second)) = text.split_once(',').filter(|(_, second)| !second.contains(',')) {
        return Some(format!("{}, {}", second.trim(), first.trim()));
    }
    let first = *figures.first()?;
    let tail: String = characters.get(first..)?.iter().collect();
    let head: String = characters.get(..first)?.iter().collect();
    let parts: Vec<&str> = tail.split_whitespace().collect();
    let other = match parts.as_slice() {
        [easting, northing] => format!("{northing} {easting}"),
        [both] if both.len() % 2 == 0 => {
            let (easting, northing) = both.split_at(both.len() / 2);
            format!("{northing}{easting}")
        }
        _ => return None,
    };
    Some(head + &other).filter(|other| *other != text)
}

/// Whether a text is latitude and longitude: two numbers of degrees, parted by a comma.
pub(super) fn is_of_degrees(text: &str) -> bool {
    let degrees = |part: &str| part.trim().trim_end_matches('°').parse::<f64>().is_ok_and(|degrees| degrees.abs() <= 180.0);
    text.split_once(',').is_some_and(|(first, second)| degrees(first) && degrees(second))
}

/// A reference filled up with noughts: so many at the end of both its numbers. The corner of a wider square is then told as a point.
pub(super) fn noughts(typed: &str) -> u32 {
    let characters: Vec<char> = typed.chars().collect();
    let figures = figures(&characters);
    let tail: String = figures.first().and_then(|first| characters.get(*first..)).unwrap_or_default().iter().collect();
    let parts: Vec<&str> = tail.split(|one: char| !one.is_ascii_digit()).filter(|part| !part.is_empty()).collect();
    let (easting, northing) = match parts.as_slice() {
        [easting, northing] => (*easting, *northing),
        [both] if both.len() % 2 == 0 => both.split_at(both.len() / 2),
        _ => return 0,
    };
    if typed.contains('.') || typed.contains('°') {
        return 0;
    }
    let ending = |number: &str| (number.len() - number.trim_end_matches('0').len()).min(number.len().saturating_sub(1));
    u32::try_from(ending(easting).min(ending(northing))).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(kind: &WitnessSlipKind, typed: &str) -> Vec<String> {
        meant(typed).into_iter().filter(|one| one.kind == *kind).map(|one| one.text).collect()
    }

    #[test]
    fn neighbouring_figures_are_exchanged_and_the_zone_is_left_alone() {
        let texts = of(&WitnessSlipKind::Exchanged, "35VLG 123 456");
        assert_eq!(texts, ["35VLG 213 456", "35VLG 132 456", "35VLG 123 546", "35VLG 123 465"]);
        assert_eq!(of(&WitnessSlipKind::Exchanged, "35VLG 111 111"), Vec::<String>::new());
    }

    #[test]
    fn one_letter_of_the_square_may_be_another() {
        let texts = of(&WitnessSlipKind::Square, "35VLG 123 456");
        assert_eq!(texts.len(), 46);
        assert!(texts.contains(&"35VMG 123 456".to_owned()) && texts.contains(&"35VLH 123 456".to_owned()), "{texts:?}");
        assert_eq!(of(&WitnessSlipKind::Square, "58.6, 25.2"), Vec::<String>::new());
    }

    #[test]
    fn easting_and_northing_change_places() {
        assert_eq!(of(&WitnessSlipKind::Swapped, "35VLG 123 456"), ["35VLG 456 123"]);
        assert_eq!(of(&WitnessSlipKind::Swapped, "35VLG123456"), ["35VLG456123"]);
        assert_eq!(of(&WitnessSlipKind::Swapped, "58.6, 25.2"), ["25.2, 58.6"]);
        assert_eq!(of(&WitnessSlipKind::Swapped, "35VLG 123 123"), Vec::<String>::new());
    }

    #[test]
    fn each_figure_may_be_each_other() {
        assert_eq!(of(&WitnessSlipKind::Misread, "12 34").len(), 36);
    }

    #[test]
    fn noughts_at_the_end_of_both_numbers_are_counted() {
        assert_eq!(noughts("35VLG 41200 55600"), 2);
        assert_eq!(noughts("35VLG4120055600"), 2);
        assert_eq!(noughts("35VLG 41200 55612"), 0);
        assert_eq!(noughts("35VLG 00000 00000"), 4);
        assert_eq!(noughts("58.600, 25.200"), 0);
    }
}

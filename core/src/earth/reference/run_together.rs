//! Degrees, minutes and seconds written without anything between them: `4730N 01112E`, `N473015 E0111200`.

use super::parts::{Part, Parts, whole_digits};
use super::{Terms, own};

/// Latitude and longitude with blanks between their degrees, minutes and seconds; which part is wrong where their figures may be
/// parted in more than one way; nothing when the text is not written so.
///
/// The figures say what they are by their number alone: two of latitude and three of longitude are degrees, two more minutes, two
/// more seconds.
///
/// # References
/// ISO 6709:2008, annex H: ±DDMM and ±DDDMM, ±DDMMSS and ±DDDMMSS, with decimals behind the last (from memory).
pub(super) fn parted(text: &str, parts: &Parts, terms: &Terms) -> Option<Result<(String, String), &'static str>> {
    let is_plain = text.chars().all(|c| c.is_ascii_alphanumeric() || c.is_whitespace() || matches!(c, '.' | ','));
    let [one, other] = lettered(&parts.all)?;
    // Two numbers of the sheet's own grid with the letters of easting and northing, where they lie in it.
    let is_own = terms.grid.is_some_and(|grid| grid.utm_zone().is_none()) && matches!(own::read(parts, terms), Some(Ok(_)));
    let lat_first = is_latitude(one.1);
    if !is_plain || is_own || lat_first == is_latitude(other.1) {
        return None;
    }
    let (lat, lon) = if lat_first { (one, other) } else { (other, one) };
    match (whole_digits(lat.0), whole_digits(lon.0)) {
        (4, 5) | (6, 7) => Some(Ok((blanked(lat, 2), blanked(lon, 3)))),
        (4..=5, 3..=7) | (3, 4..=7) => Some(Err("part-run-together")),
        _ => None,
    }
}

/// A number and the letter of its half of the world, twice, all letters behind or all before.
fn lettered(parts: &[Part]) -> Option<[(&str, &str); 2]> {
    let halves = match parts {
        [Part::Number(a), Part::Word(x), Part::Number(b), Part::Word(y)]
        | [Part::Word(x), Part::Number(a), Part::Word(y), Part::Number(b)] => [(a.as_str(), x.as_str()), (b.as_str(), y.as_str())],
        _ => return None,
    };
    halves.iter().all(|(_, word)| matches!(*word, "N" | "S" | "E" | "W")).then_some(halves)
}

fn is_latitude(word: &str) -> bool {
    matches!(word, "N" | "S")
}

/// `4730.5`, of which the first two figures are degrees, as `47 30.5 N`.
fn blanked((figures, half): (&str, &str), degrees: usize) -> String {
    let whole = whole_digits(figures);
    let mut blanked = String::new();
    for (index, figure) in figures.chars().enumerate() {
        if index >= degrees && index < whole && (index - degrees).is_multiple_of(2) {
            blanked.push(' ');
        }
        blanked.push(figure);
    }
    format!("{blanked} {half}")
}

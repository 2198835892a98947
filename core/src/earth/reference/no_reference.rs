//! Two numbers that are no digits of a reference.

use super::parts::{Part, Parts, pair, whole_digits};

/// Units that are typed behind a length.
const UNITS: [&str; 8] = ["FT", "FEET", "FOOT", "USFT", "YD", "KM", "MI", "MM"];

/// Two numbers that are no digits of a reference: coordinates without their zone, with a unit behind them or a power of ten.
pub(super) fn no_reference(text: &str) -> Option<&'static str> {
    let parts = Parts::of(text).all;
    let is_unit = |part: &Part| matches!(part, Part::Word(word) if UNITS.contains(&word.as_str()));
    // Behind a zone the same letters are those of a square: `33T KM 5696 4953`.
    let has_units = match parts.as_slice() {
        [Part::Number(_), one, Part::Number(_), other] => is_unit(one) && is_unit(other),
        [Part::Number(_), Part::Number(_), last] => is_unit(last),
        _ => false,
    };
    if has_units {
        return Some("part-unit");
    }
    let groups: Vec<&str> = text.split_whitespace().map(|group| group.trim_end_matches(',')).collect();
    if groups.len() == 2 && groups.iter().all(|group| group.parse::<f64>().is_ok()) && groups.iter().any(|group| group.contains(['e', 'E']))
    {
        return Some("part-power-of-ten");
    }
    let long = |number: &str| whole_digits(number) >= 6;
    pair(&parts).filter(|(first, second)| long(first) && long(second)).map(|_| "part-coordinates-alone")
}

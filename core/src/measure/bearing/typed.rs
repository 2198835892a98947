//! What a typed bearing says beside its value: its unit, how fine it is, its north.

use super::North;
use crate::measure::AngleUnit;
use crate::measure::angle::{read_degrees, read_figures};

/// The unit in which a bearing was typed; degrees where its figures cannot be read.
#[must_use]
pub fn typed_unit(text: &str) -> AngleUnit {
    let (figures, _) = split_north(text.trim());
    read_figures(figures).map_or(AngleUnit::Degrees, |(_, unit)| unit)
}

/// What one unit of the last figure typed of a bearing is worth, degrees: 1 for "214 mag", 0.5 minutes of "306 52.5 true" are 1/600.
#[must_use]
pub fn typed_step_deg(text: &str) -> f64 {
    let (figures, _) = split_north(text.trim());
    let circle = typed_unit(text).circle();
    let inner = figures.trim_matches(|c: char| c.is_alphabetic() || c.is_whitespace());
    read_degrees(inner).map_or(1.0, |written| written.step_deg) * 360.0 / circle
}

/// Whether degrees and minutes are parted by a blank alone and would be a bearing without it, too.
pub(super) fn has_blank(figures: &str) -> bool {
    let inner = figures.trim().trim_matches(|c: char| c.is_ascii_alphabetic() || c.is_whitespace());
    let most = if inner.len() < figures.trim().len() { 90.0 } else { 360.0 };
    let only_figures = inner.chars().all(|c| c.is_ascii_digit() || c == '.' || c.is_whitespace());
    let joined: String = inner.split_whitespace().collect();
    let has_parts = joined.len() < inner.len();
    let whole = joined.split('.').next().unwrap_or_default().len();
    only_figures && has_parts && whole <= 3 && joined.parse().is_ok_and(|degrees: f64| degrees <= most)
}

/// The north at the end of a text, and what stands before it.
pub(super) fn split_north(typed: &str) -> (&str, Option<North>) {
    let typed = typed.get(..typed.len().saturating_sub(5)).filter(|_| ends_with_word_north(typed)).unwrap_or(typed).trim_end();
    let words = [("magnetic", North::Magnetic), ("mag", North::Magnetic), ("grid", North::Grid), ("true", North::True)];
    let ends_with = |word: &str| {
        let (figures, end) = typed.split_at_checked(typed.len().checked_sub(word.len())?)?;
        end.eq_ignore_ascii_case(word).then_some(figures)
    };
    let by_word = words.iter().find_map(|(word, north)| Some((ends_with(word)?, *north)));
    match (by_word, by_word.map_or_else(|| north_by_letter(typed), |(figures, _)| north_by_letter(figures))) {
        (None, by_letter) => by_letter.map_or((typed, None), |(figures, north)| (figures, Some(north))),
        // Said twice: the same north.
        (Some((_, north)), Some((figures, twice))) if twice == north => (figures, Some(north)),
        (Some((figures, north)), _) => (figures, Some(north)),
    }
}

/// The north by its letter behind the figures: `190°M`, `190°T`, `190 T`, `190 GN`. M is mils and G gradians, too, where no mark says that
/// degrees are counted.
fn north_by_letter(typed: &str) -> Option<(&str, North)> {
    let typed = typed.trim_end();
    let figures = typed.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let letters = typed.get(figures.len()..)?;
    let before = figures.trim_end();
    // A unit, or the letter of a quarter, which stands before leaves no other meaning.
    let has_unit = before.len() < figures.len() && before.ends_with(|c: char| c.is_ascii_alphabetic());
    let has_mark = has_unit || before.ends_with(['°', 'º', '˚', '\'', '′', '’', '"', '″', '”']);
    let north = match letters {
        "T" | "TN" => North::True,
        "MN" => North::Magnetic,
        "GN" => North::Grid,
        "M" if has_mark => North::Magnetic,
        "G" if has_mark => North::Grid,
        _ => return None,
    };
    figures.contains(|c: char| c.is_ascii_digit()).then_some((figures, north))
}

/// "true north" and "grid north" say no more than "true" and "grid".
fn ends_with_word_north(typed: &str) -> bool {
    let end = typed.len().checked_sub(5).and_then(|start| typed.get(start..));
    end.is_some_and(|end| end.eq_ignore_ascii_case("north"))
}

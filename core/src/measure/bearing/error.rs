//! What is wrong with a bearing that cannot be read.

use super::typed::split_north;
use crate::measure::{AngleUnit, Arg, Message, Telling};

/// Why a bearing could not be read. Each carries the text as it was typed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BearingError {
    /// No number, or a word that is not a north.
    #[error("bearing-unreadable")]
    Unreadable(String),
    /// A number without its north.
    #[error("bearing-without-north")]
    WithoutNorth(String),
    /// Below 0 or above the whole circle.
    #[error("bearing-out-of-range")]
    OutOfRange(String),
    /// Decimals with a comma.
    #[error("bearing-comma")]
    Comma(String),
    /// More than 90 degrees from north or south.
    #[error("bearing-quarter")]
    Quarter(String),
    /// A blank among the figures, which make a bearing with it and without it: degrees and minutes, or one number.
    #[error("bearing-blank")]
    Blank(String),
    /// Minutes or seconds of 60 or more.
    #[error("bearing-minutes")]
    Minutes(String),
}

impl BearingError {
    /// What is wrong with figures that cannot be read.
    pub(super) fn of_figures(figures: &str, typed: &str) -> Self {
        let figures = figures.trim().to_lowercase();
        let inner = figures.trim_matches(|c: char| c.is_alphabetic() || c.is_whitespace());
        let parts = || inner.split(|c: char| !c.is_ascii_digit() && c != '.').filter(|part| !part.is_empty());
        let numbers: Vec<f64> = parts().filter_map(|part| part.parse().ok()).collect();
        let is_quadrant = figures.starts_with(['n', 's']) && figures.ends_with(['e', 'w']);
        let is_one_number = figures.ends_with(char::is_alphabetic) && !is_quadrant || is_range(inner);
        match numbers.as_slice() {
            _ if inner.contains(',') => Self::Comma(typed.into()),
            _ if inner.chars().any(char::is_alphabetic) => Self::Unreadable(typed.into()),
            [degrees, ..] if is_quadrant && *degrees > 90.0 => Self::Quarter(typed.into()),
            [_, rest @ ..] if !is_one_number && rest.len() < 3 && rest.iter().any(|part| *part >= 60.0) => Self::Minutes(typed.into()),
            _ => Self::Unreadable(typed.into()),
        }
    }
}

impl Telling for BearingError {
    fn message(&self) -> Message {
        let (id, typed) = match self {
            Self::Unreadable(typed) => ("bearing-unreadable", typed),
            Self::WithoutNorth(typed) => ("bearing-without-north", typed),
            Self::OutOfRange(typed) => ("bearing-out-of-range", typed),
            Self::Comma(typed) => ("bearing-comma", typed),
            Self::Quarter(typed) => ("bearing-quarter", typed),
            Self::Minutes(typed) => ("bearing-minutes", typed),
            Self::Blank(typed) => ("bearing-blank", typed),
        };
        let (part, odd) = odd_part(typed.trim());
        Message::new(id).with("typed", Arg::Text(typed.clone())).text("part", part).text("odd", odd).text("joined", joined(typed))
    }
}

/// The figures without their blanks, and as degrees and minutes.
fn joined(typed: &str) -> String {
    split_north(typed.trim()).0.split_whitespace().collect()
}

/// Two numbers with a dash or a stroke between them.
fn is_range(inner: &str) -> bool {
    let figure = |text: &str, last: bool| if last { text.trim_end().chars().next_back() } else { text.trim_start().chars().next() };
    let parts = inner.split_once(['-', '\u{2012}', '\u{2013}', '\u{2014}', '\u{2212}', '/']);
    let is_figure = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    parts.is_some_and(|(before, behind)| is_figure(figure(before, true)) && is_figure(figure(behind, false)))
}

const NORTHS: [&str; 4] = ["mag", "magnetic", "grid", "true"];

/// Which part of a bearing cannot be read, and its text.
fn odd_part(typed: &str) -> (&'static str, String) {
    let (figures, north) = split_north(typed);
    let words: Vec<&str> = figures.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).collect();
    let is_north = |word: &&str| NORTHS.iter().any(|north| north.eq_ignore_ascii_case(word));
    let is_unit = |word: &str| AngleUnit::named(word).is_some();
    let ends = figures.trim_end().ends_with(char::is_alphabetic);
    let last = words.last().copied().unwrap_or_default();
    if is_range(figures) {
        return ("range", String::new());
    }
    if let Some(c) = typed.chars().find(|c| is_foreign(*c)) {
        return ("character", c.into());
    }
    let figures = figures.trim();
    let is_quarter = figures.starts_with(['N', 'S', 'n', 's']) && figures.ends_with(['E', 'W', 'e', 'w']);
    match words.as_slice() {
        _ if !typed.chars().any(|c| c.is_ascii_digit()) => ("figures", String::new()),
        [first, ..] if is_north(first) && typed.starts_with(first) => ("first", (*first).to_owned()),
        all if all.iter().any(is_north) => ("behind", String::new()),
        [] => ("blanks", String::new()),
        [_, _] if is_quarter => ("blanks", String::new()),
        [_, unit, _] if is_quarter && is_unit(unit) => ("quarter-unit", (*unit).to_owned()),
        [.., word, unit] if ends && is_unit(unit) && !is_quarter_letter(word) => ("unit", (*word).to_owned()),
        [.., unit] if ends && is_unit(unit) => ("blanks", String::new()),
        ["M" | "G" | "m" | "g"] if ends && north.is_none() => ("letter", last.to_uppercase()),
        [.., "T" | "MN" | "TN" | "GN"] if ends && north.is_some() => ("other-north", String::new()),
        [.., "M" | "G"] if ends && north.is_some() && figures.contains('°') => ("other-north", String::new()),
        all if (ends || figures.starts_with(char::is_alphabetic)) && all.iter().all(|word| is_quarter_letter(word)) => {
            ("quarter", String::new())
        }
        _ if !ends || matches!(last, "O" | "o" | "l" | "I") => ("character", last.to_owned()),
        _ if north.is_some() => ("unit", last.to_owned()),
        _ => ("north", last.to_owned()),
    }
}

fn is_quarter_letter(word: &str) -> bool {
    matches!(word, "N" | "S" | "E" | "W" | "n" | "s" | "e" | "w")
}

/// What is neither a Latin letter, a figure, a mark of degrees nor a sign.
fn is_foreign(c: char) -> bool {
    !(c.is_ascii_alphanumeric() || c.is_whitespace() || ".,-+°º˚'′’\"″”".contains(c))
}

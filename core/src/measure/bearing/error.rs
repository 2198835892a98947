//! What is wrong with a bearing that cannot be read.

use crate::measure::{Arg, Message, Telling};

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
        match numbers.as_slice() {
            _ if inner.contains(',') => Self::Comma(typed.into()),
            _ if inner.chars().any(char::is_alphabetic) => Self::Unreadable(typed.into()),
            [degrees, ..] if is_quadrant && *degrees > 90.0 => Self::Quarter(typed.into()),
            [_, rest @ ..] if rest.len() < 3 && rest.iter().any(|part| *part >= 60.0) => Self::Minutes(typed.into()),
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
        };
        Message::new(id).with("typed", Arg::Text(typed.clone()))
    }
}

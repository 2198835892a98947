//! Dates as the magnetic model counts them.

use std::fmt;

use chrono::{Datelike, NaiveDate};

use crate::earth::{InstantError, date_of};

/// A decimal year: an instant ("2025.5"), a whole day that is reckoned at its beginning, 0 h, or a year of which no more is known
/// ("2026"), which is reckoned in its middle.
///
/// A day is `year + (day of the year - 1) / (365 or 366)`, the convention of the publisher's software. The instant is what
/// counts: "2030-01-01" and "2030.0" are one, and both lie past the model, which ends with 2029.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DecimalYear {
    from: f64,
    until: f64,
}

impl DecimalYear {
    /// An instant. What is no sensible number lies outside every model.
    #[must_use]
    pub fn new(years: f64) -> Self {
        Self { from: years, until: years }
    }

    /// A moment that is not known within a year, as the margins of maps name it.
    #[must_use]
    pub fn of_year(year: i32) -> Self {
        Self { from: f64::from(year), until: f64::from(year) + 1.0 }
    }

    /// Reads "2025.5", a date "2025-07-02", or a year "2025".
    ///
    /// # Errors
    /// [`InstantError`] when the text is neither.
    pub fn parse(text: &str) -> Result<Self, InstantError> {
        let typed = text.trim();
        // Eight figures are a date without its marks.
        let figures = typed.split('.').next().is_some_and(|whole| (3..=4).contains(&whole.len()))
            && typed.chars().all(|c| c.is_ascii_digit() || c == '.');
        if let Some(year) = typed.parse().ok().filter(|_| figures) {
            return Ok(Self::of_year(year));
        }
        let read = if figures { typed.parse().ok().map(Self::new) } else { date_of(text).ok().map(Self::from) };
        read.ok_or_else(|| InstantError::Year(text.into()))
    }

    /// The years at which the model is reckoned.
    #[must_use]
    pub fn years(self) -> f64 {
        if self.is_whole_year() { f64::midpoint(self.from, self.until) } else { self.from }
    }

    /// Whether no more than a year is known.
    #[must_use]
    pub fn is_whole_year(self) -> bool {
        self.until - self.from > 0.5
    }

    /// One sigma of the moment that is meant, years: it may be any of a whole year, a uniform spread; 0 for a day or an instant.
    #[must_use]
    pub fn spread_years(self) -> f64 {
        if self.is_whole_year() { (self.until - self.from) / f64::sqrt(12.0) } else { 0.0 }
    }

    /// Whether it lies from `first` to `last`, this one not included.
    pub(super) fn lies_within(self, first: f64, last: f64) -> bool {
        (first..last).contains(&self.years())
    }

    /// The day, when it is one.
    fn day(self) -> Option<NaiveDate> {
        let first = NaiveDate::from_yo_opt(self.from.floor() as i32, 1)?;
        let passed = (self.from.fract().abs() * days_of(first.year())).round();
        first.checked_add_days(chrono::Days::new(passed as u64)).filter(|_| self.until > self.from && !self.is_whole_year())
    }
}

impl From<NaiveDate> for DecimalYear {
    fn from(date: NaiveDate) -> Self {
        let years = |passed: u32| f64::from(date.year()) + f64::from(passed) / days_of(date.year());
        Self { from: years(date.ordinal0()), until: years(date.ordinal()) }
    }
}

/// The day as "2026-07-01", an instant as "2026.5", a year as "2026".
impl fmt::Display for DecimalYear {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.day() {
            Some(day) => day.fmt(f),
            None => self.from.fmt(f),
        }
    }
}

fn days_of(year: i32) -> f64 {
    if NaiveDate::from_ymd_opt(year, 2, 29).is_some() { 366.0 } else { 365.0 }
}

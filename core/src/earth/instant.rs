//! Time as a value: instants and dates as a person writes them.

use chrono::{DateTime, NaiveDate};

use super::DecimalYear;
use crate::measure::{Message, Telling};

/// An instant, milliseconds since 1970-01-01 UTC.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Instant(i64);

/// A date or time that cannot be read. It carries the text as typed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("date-unreadable")]
pub enum InstantError {
    /// Where a day is needed.
    Day(String),
    /// Where a year alone would do.
    Year(String),
}

impl Telling for InstantError {
    fn message(&self) -> Message {
        let (typed, or_year) = match self {
            Self::Day(typed) => (typed, "no"),
            Self::Year(typed) => (typed, "yes"),
        };
        Message::new("date-unreadable").text("typed", typed.clone()).text("lacks", lacking(typed.trim())).text("or-year", or_year)
    }
}

/// What a time would be read with that is not: its zone, its seconds, its day, the century of its year.
fn lacking(typed: &str) -> &'static str {
    let is_time = |text: String| DateTime::parse_from_rfc3339(&text).is_ok();
    let (clock, zone) = typed.split_at(typed.get(..MINUTES_END).map_or(typed.len(), str::len));
    match () {
        () if is_time(format!("{typed}Z")) || is_time(format!("{typed}:00Z")) => "zone",
        () if is_time(format!("{clock}:00{zone}")) => "seconds",
        () if NaiveDate::parse_from_str(&format!("{typed}-01"), "%Y-%m-%d").is_ok() && typed.len() == MONTH_END => "day",
        () if (1..=2).contains(&typed.len()) && typed.chars().all(|c| c.is_ascii_digit()) => "year",
        () => "none",
    }
}

/// Where the month of a date ends: `2026-07`.
const MONTH_END: usize = 7;
/// Where the minutes of a time end: `2026-07-01T09:30`.
const MINUTES_END: usize = 16;

impl Instant {
    /// An instant from milliseconds since 1970-01-01 UTC.
    #[must_use]
    pub fn from_unix_ms(unix_ms: i64) -> Self {
        Self(unix_ms)
    }

    /// Reads RFC 3339 with its zone ("2026-07-01T09:30:00+02:00"), or a date alone (its noon in UTC).
    ///
    /// # Errors
    /// [`InstantError`] when the text is neither.
    pub fn parse(text: &str) -> Result<Self, InstantError> {
        if let Ok(time) = Self::parse_time(text) {
            return Ok(time);
        }
        let date = date_of(text)?;
        let noon = date.and_hms_opt(12, 0, 0).ok_or_else(|| InstantError::Day(text.into()))?;
        Ok(Self(noon.and_utc().timestamp_millis()))
    }

    /// Reads RFC 3339 with its zone; a date alone will not do where the hour counts.
    ///
    /// # Errors
    /// [`InstantError`] when the text is none.
    pub fn parse_time(text: &str) -> Result<Self, InstantError> {
        let time = DateTime::parse_from_rfc3339(text.trim()).map_err(|_| InstantError::Day(text.into()))?;
        Ok(Self(time.timestamp_millis()))
    }

    /// Milliseconds since 1970-01-01 UTC.
    #[must_use]
    pub fn unix_ms(self) -> i64 {
        self.0
    }

    /// Seconds from an earlier instant to this one; negative from a later one.
    #[must_use]
    pub fn seconds_since(self, earlier: Self) -> f64 {
        (self.0 - earlier.0) as f64 / 1000.0
    }

    /// The date in UTC.
    #[must_use]
    pub fn date(self) -> NaiveDate {
        DateTime::from_timestamp_millis(self.0).map_or(NaiveDate::MIN, |time| time.date_naive())
    }
}

impl Instant {
    /// The decimal year at the beginning of its day in UTC.
    #[must_use]
    pub fn decimal_year(self) -> f64 {
        DecimalYear::from(self.date()).years()
    }
}

/// Reads a date "2026-07-01", or the date in UTC of a time.
///
/// # Errors
/// [`InstantError`] when it is none.
pub fn date_of(text: &str) -> Result<NaiveDate, InstantError> {
    let typed = text.trim();
    let of_time = || DateTime::parse_from_rfc3339(typed).map(|time| time.to_utc().date_naive());
    NaiveDate::parse_from_str(typed, "%Y-%m-%d").or_else(|_| of_time()).map_err(|_| InstantError::Day(text.into()))
}

#[cfg(test)]
mod tests {
    use super::lacking;

    /// RFC 3339, 5.6: a time has its seconds and its zone.
    #[test]
    fn what_a_time_lacks_is_named() {
        for (typed, lacks) in [
            ("2026-11-27T15:00:00", "zone"),
            ("2026-11-27 15:00", "zone"),
            ("2026-11-27T15:00-08:00", "seconds"),
            ("2026-11-27T15:00Z", "seconds"),
            ("2026-11-31T15:00:00", "none"),
            ("2026-11-27T25:00:00Z", "none"),
            ("yesterday", "none"),
            ("2026-07", "day"),
            ("2026-13", "none"),
            ("26", "year"),
            ("7", "year"),
            ("zw\u{f6}lf Uhr mittags \u{f6}", "none"),
        ] {
            assert_eq!(lacking(typed), lacks, "{typed}");
        }
    }
}

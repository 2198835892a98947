//! Figures as a person reads them. A number and its unit are bound by a no-break space.

use std::borrow::Cow;

use chrono::{DateTime, SecondsFormat};

use crate::ground::HeightUnit;
use crate::measure::{AngleUnit, GRADIANS, MILS, quadrant_of, turns_text};

/// Longest text that a sentence repeats, characters.
const MOST_CHARACTERS: usize = 160;

/// Text as it may stand in one line: control characters become blanks, those that turn others about are left out, a long one is cut.
pub(super) fn plain(text: &str) -> String {
    let one_line: String =
        text.chars().take(MOST_CHARACTERS).filter(|c| !turns_text(*c)).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(MOST_CHARACTERS).is_some() { one_line + " …" } else { one_line }
}

/// What follows a number and never begins a line without it.
const UNITS: [&str; 14] = ["%", "°C", "µT", "gon", "h", "hPa", "km", "m", "mil", "min", "mm", "nT", "s", "double paces"];

/// A part of a sentence with its numbers bound to their units, and ± to its number. A part that begins with a unit follows a number.
pub(super) fn bound(part: &str) -> Cow<'_, str> {
    let mut whole = String::new();
    let mut from = 0;
    for (at, _) in part.match_indices(' ').filter(|(at, _)| binds(part, *at)) {
        whole.extend([part.get(from..at).unwrap_or_default(), "\u{a0}"]);
        from = at + 1;
    }
    if from == 0 { Cow::Borrowed(part) } else { Cow::Owned(whole + part.get(from..).unwrap_or_default()) }
}

/// Whether the blank there stands between a number and its unit, or after ±.
fn binds(part: &str, at: usize) -> bool {
    let (before, after) = part.split_at(at);
    let unit = after.trim_start_matches(' ');
    let ends = |rest: &str| !rest.starts_with(char::is_alphanumeric);
    let is_unit = UNITS.iter().any(|name| unit.strip_prefix(name).is_some_and(ends));
    before.ends_with('±') || is_unit && before.chars().next_back().is_none_or(|c| c.is_ascii_digit())
}

/// A number with a fixed count of decimals; "-0" is "0".
pub(super) fn number(value: f64, decimals: u8) -> String {
    let text = format!("{value:.*}", usize::from(decimals));
    let nothing = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
    if nothing { text.trim_start_matches('-').to_owned() } else { text }
}

/// Whole metres up to 10 km, then kilometres with one decimal.
pub(super) fn metres(metres: f64) -> String {
    if metres.abs() >= 9_999.5 { format!("{}\u{a0}km", number(metres / 1000.0, 1)) } else { format!("{}\u{a0}m", number(metres, 0)) }
}

/// A height in its unit; in feet with a decimal less.
pub(super) fn height(metres: f64, unit: HeightUnit, decimals: u8) -> String {
    match unit {
        HeightUnit::Metres => format!("{}\u{a0}m", number(metres, decimals)),
        HeightUnit::Feet => format!("{}\u{a0}ft", number(metres / unit.metres(), decimals.saturating_sub(1))),
    }
}

/// A distance on a scale or ruler: kilometres from 1 km on, without needless decimals.
pub(super) fn metres_or_kilometres(metres: f64) -> String {
    if metres.abs() < 999.5 {
        return self::metres(metres);
    }
    let text = number(metres / 1000.0, 2);
    format!("{}\u{a0}km", text.trim_end_matches('0').trim_end_matches('.'))
}

/// An angle that is not a bearing: "7.6°".
pub(super) fn degrees(degrees: f64, decimals: u8) -> String {
    format!("{}°", number(degrees, decimals))
}

/// An angle between bearings in their unit; degrees for quadrants. A mil is the eighteenth part of a degree: one decimal less.
pub(super) fn turn(degrees: f64, unit: AngleUnit, decimals: u8) -> String {
    match unit {
        AngleUnit::Degrees | AngleUnit::Quadrant => self::degrees(degrees, decimals),
        AngleUnit::Mils => format!("{}\u{a0}mil", number(degrees * MILS / 360.0, decimals.saturating_sub(1))),
        AngleUnit::Gradians => format!("{}\u{a0}gon", number(degrees * GRADIANS / 360.0, decimals)),
    }
}

/// A bearing's figures in a unit, decimals only when it is not whole: "019°", "347.5°", "3559 mil", "395.4 gon", "S 36° E".
pub(super) fn bearing_figures(degrees: f64, unit: AngleUnit, decimals: u8) -> String {
    match unit {
        AngleUnit::Degrees => format!("{}°", figures(degrees, 360.0, 3, decimals)),
        AngleUnit::Mils => format!("{}\u{a0}mil", figures(degrees * MILS / 360.0, MILS, 4, 0)),
        AngleUnit::Gradians => format!("{}\u{a0}gon", figures(degrees * GRADIANS / 360.0, GRADIANS, 3, decimals)),
        AngleUnit::Quadrant => {
            let unit = 10f64.powi(i32::from(decimals));
            let (from, angle, towards) = quadrant_of((degrees * unit).round() / unit);
            format!("{from}\u{a0}{}°\u{a0}{towards}", figures(angle, 360.0, 1, decimals))
        }
    }
}

/// A value on a circle of `circle` units, whole digits filled up with zeros; decimals that are zero are left out.
fn figures(value: f64, circle: f64, digits: usize, decimals: u8) -> String {
    let unit = 10f64.powi(i32::from(decimals));
    // A remainder of nothing may bear a minus; with 0 added it does not.
    let rounded = (value * unit).round().rem_euclid(circle * unit) / unit + 0.0;
    let text = format!("{rounded:.*}", usize::from(decimals));
    let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
    let part = part.trim_end_matches('0');
    if part.is_empty() { format!("{whole:0>digits$}") } else { format!("{whole:0>digits$}.{part}") }
}

/// A share in per cent: whole, "under 1 %" and "over 99 %" at the edges.
pub(super) fn share(share: f64) -> String {
    let percent = share * 100.0;
    if percent > 0.0 && percent < 0.5 {
        "<\u{a0}1\u{a0}%".into()
    } else if (99.5..100.0).contains(&percent) {
        ">\u{a0}99\u{a0}%".into()
    } else {
        format!("{}\u{a0}%", number(percent, 0))
    }
}

/// A time as RFC 3339 in UTC to the second.
pub(super) fn time(unix_ms: i64) -> String {
    DateTime::from_timestamp_millis(unix_ms).map_or_else(String::new, |time| time.to_rfc3339_opts(SecondsFormat::Secs, true))
}

/// A time of day to the nearest minute by a clock so many minutes ahead of UTC: "19:22".
pub(super) fn clock(unix_ms: i64, utc_offset_min: i32) -> String {
    let minutes = ((unix_ms + HALF_MINUTE_MS).div_euclid(60_000) + i64::from(utc_offset_min)).rem_euclid(24 * 60);
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

const HALF_MINUTE_MS: i64 = 30_000;

/// The same, with its date before it when that is not the day (days since 1970-01-01) of which is spoken: "2026-07-02 00:14".
pub(super) fn clock_on(unix_ms: i64, utc_offset_min: i32, day: i64) -> String {
    let there_ms = unix_ms + HALF_MINUTE_MS + i64::from(utc_offset_min) * 60_000;
    let clock = clock(unix_ms, utc_offset_min);
    if there_ms.div_euclid(86_400_000) == day {
        return clock;
    }
    DateTime::from_timestamp_millis(there_ms).map_or_else(String::new, |time| format!("{}\u{a0}{clock}", time.date_naive()))
}

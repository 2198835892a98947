//! The earth's magnetic field by the World Magnetic Model, in double precision.
//!
//! The coefficients are the publisher's files, word for word (`core/src/earth/wmm`, public domain).
//!
//! # References
//! A. Chulliat and others (2025), The US/UK World Magnetic Model for 2025-2030, technical report, NOAA NCEI and
//! British Geological Survey: equations of section 1.2, error model of chapter 3, zones of section 1.9 (sections from
//! memory). Test values in `tests/references/published`.

mod release;
mod synthesis;
#[cfg(test)]
mod tests;
mod year;

use chrono::NaiveDate;

use self::release::{ErrorModel, Release};
use self::synthesis::Vector;
use super::LatLon;
use crate::measure::{Message, Telling};

pub use self::year::DecimalYear;

/// The field at a place and date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MagneticField {
    /// Magnetic north against true north, degrees, east positive; at a pole against the meridian of the longitude given.
    pub declination_deg: f64,
    /// Dip of the field below the horizon, degrees.
    pub inclination_deg: f64,
    /// Horizontal strength, nanotesla.
    pub horizontal_nt: f64,
    /// Strength towards true north, nanotesla.
    pub north_nt: f64,
    /// Strength towards east, nanotesla.
    pub east_nt: f64,
    /// Strength downwards, nanotesla.
    pub down_nt: f64,
    /// Total strength, nanotesla.
    pub total_nt: f64,
    /// Change of the declination, degrees per year, east positive.
    pub declination_deg_per_year: f64,
    /// Change of the inclination, degrees per year.
    pub inclination_deg_per_year: f64,
    /// Change of the horizontal strength, nanotesla per year.
    pub horizontal_nt_per_year: f64,
    /// Change of the total strength, nanotesla per year.
    pub total_nt_per_year: f64,
    /// One sigma of the declination by the model's own error model, degrees, at most 180; with what changes within the year where no
    /// more than that is known of the date, as in the next three.
    pub declination_spread_deg: f64,
    /// One sigma of the inclination by the model's own error model, degrees.
    pub inclination_spread_deg: f64,
    /// One sigma of the horizontal strength by the model's own error model, nanotesla.
    pub horizontal_spread_nt: f64,
    /// One sigma of the total strength by the model's own error model, nanotesla.
    pub total_spread_nt: f64,
    /// Whether a compass can be trusted here.
    pub caution: Option<Caution>,
    /// Which release of the model told it: "WMM2025".
    pub model: &'static str,
}

/// Where the horizontal field is too weak for a compass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caution {
    /// 2,000 to 6,000 nT: a compass may become inaccurate.
    Weak,
    /// Below 2,000 nT: do not rely on a compass.
    Blackout,
}

impl Telling for Caution {
    fn message(&self) -> Message {
        Message::new(match self {
            Self::Weak => "caution-weak-field",
            Self::Blackout => "caution-blackout",
        })
    }
}

/// Why there is no field.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MagneticError {
    /// The model does not reach the date.
    #[error("date-outside-model")]
    DateOutside(DecimalYear),
    /// The model does not reach the height.
    #[error("height-outside-model")]
    HeightOutside,
    /// The coefficients that were built in cannot be read: the build is at fault, not the person.
    #[error("internal")]
    Unreadable,
}

impl Telling for MagneticError {
    fn message(&self) -> Message {
        match self {
            Self::DateOutside(year) => Message::new("date-outside-model").text("date", year.to_string()),
            Self::HeightOutside => Message::new("height-outside-model"),
            Self::Unreadable => Message::new("internal"),
        }
    }
}

/// Heights that the model reaches, metres above the ellipsoid.
const HEIGHTS_M: std::ops::RangeInclusive<f64> = -1_000.0..=850_000.0;

/// The field at a place, `height_m` above the ellipsoid of WGS 84, from 2020.0 to 2030.0, which is past the last day.
///
/// # Units
/// Degrees, metres, nanotesla, decimal years.
///
/// # Accuracy
/// The report's worked example is met to 2e-10 nT, the published test values to half their last printed digit in degrees, to
/// 5e-7 nT east and, for a reason that lies in the print (tests), to 2e-6 nT down and 4.5e-4 nT north. What the model itself may be off is told by the spreads;
/// they do not hold local iron, rock or magnetic storms.
///
/// # Errors
/// [`MagneticError`] outside the model's dates or heights.
pub fn magnetic_field(at: LatLon, height_m: f64, year: impl Into<DecimalYear>) -> Result<MagneticField, MagneticError> {
    let year = year.into();
    if !HEIGHTS_M.contains(&height_m) {
        return Err(MagneticError::HeightOutside);
    }
    let release = Release::in_force(year).ok_or(MagneticError::DateOutside(year))?;
    let terms = release.terms().ok_or(MagneticError::Unreadable)?;
    let (field, rate) = synthesis::field_and_rate(terms, at, height_m, year.years() - release.epoch());
    Ok(field_of(field, rate, release).within(year.spread_years()))
}

impl MagneticField {
    /// The same with what it changes within a time of which one sigma is so many years in its spreads.
    fn within(self, spread_years: f64) -> Self {
        Self {
            declination_spread_deg: self.declination_spread_deg.hypot(self.declination_deg_per_year * spread_years).min(180.0),
            inclination_spread_deg: self.inclination_spread_deg.hypot(self.inclination_deg_per_year * spread_years),
            horizontal_spread_nt: self.horizontal_spread_nt.hypot(self.horizontal_nt_per_year * spread_years),
            total_spread_nt: self.total_spread_nt.hypot(self.total_nt_per_year * spread_years),
            ..self
        }
    }
}

/// The first and the last day on which the model holds.
fn modelled_days() -> (NaiveDate, NaiveDate) {
    let (first, last) = release::reach();
    let year_begins = |year: f64| NaiveDate::from_yo_opt(year as i32, 1).unwrap_or_default();
    (year_begins(first), year_begins(last).pred_opt().unwrap_or_default())
}

/// The day nearest to a date on which the model holds, and how many years lie between; the date itself and 0 where it holds.
#[must_use]
pub fn nearest_modelled_day(date: NaiveDate) -> (NaiveDate, f64) {
    let (begins, ends) = modelled_days();
    let nearest = date.clamp(begins, ends);
    (nearest, (DecimalYear::from(date).years() - DecimalYear::from(nearest).years()).abs())
}

/// The same of a decimal year: itself where the model holds, else the first or the last day.
#[must_use]
pub fn nearest_modelled(year: DecimalYear) -> DecimalYear {
    let (begins, ends) = modelled_days();
    match year {
        year if Release::in_force(year).is_some() => year,
        year if year.years() < DecimalYear::from(begins).years() => begins.into(),
        _ => ends.into(),
    }
}

fn field_of(field: Vector, rate: Vector, release: &Release) -> MagneticField {
    let horizontal_nt = field.north.hypot(field.east);
    let spreads = release.error_model();
    MagneticField {
        declination_deg: field.east.atan2(field.north).to_degrees(),
        inclination_deg: field.down.atan2(horizontal_nt).to_degrees(),
        horizontal_nt,
        north_nt: field.north,
        east_nt: field.east,
        down_nt: field.down,
        total_nt: horizontal_nt.hypot(field.down),
        declination_deg_per_year: declination_rate_deg(field, rate),
        inclination_deg_per_year: inclination_rate_deg(field, rate),
        horizontal_nt_per_year: horizontal_rate(field, rate),
        total_nt_per_year: field.dot(rate) / divisor(field.length()),
        declination_spread_deg: declination_spread_deg(horizontal_nt, spreads),
        inclination_spread_deg: spreads.inclination_deg,
        horizontal_spread_nt: spreads.horizontal_nt,
        total_spread_nt: spreads.total_nt,
        caution: caution_of(horizontal_nt),
        model: release.name(),
    }
}

/// At a magnetic pole the horizontal field vanishes; its direction and change are then told as 0 rather than as no number.
fn divisor(strength_nt: f64) -> f64 {
    strength_nt.max(1e-9)
}

fn horizontal_rate(field: Vector, rate: Vector) -> f64 {
    (field.north * rate.north + field.east * rate.east) / divisor(field.north.hypot(field.east))
}

fn declination_rate_deg(field: Vector, rate: Vector) -> f64 {
    let horizontal = divisor(field.north.hypot(field.east));
    ((field.north * rate.east - field.east * rate.north) / horizontal / horizontal).to_degrees()
}

fn inclination_rate_deg(field: Vector, rate: Vector) -> f64 {
    let (horizontal, total) = (field.north.hypot(field.east), divisor(field.length()));
    ((horizontal * rate.down - field.down * horizontal_rate(field, rate)) / total / total).to_degrees()
}

/// The cap of half a circle is the one of the model's own software (from memory).
fn declination_spread_deg(horizontal_nt: f64, spreads: &ErrorModel) -> f64 {
    spreads.declination_deg.hypot(spreads.declination_deg_nt / divisor(horizontal_nt)).min(180.0)
}

fn caution_of(horizontal_nt: f64) -> Option<Caution> {
    match horizontal_nt {
        h if h < 2_000.0 => Some(Caution::Blackout),
        h if h < 6_000.0 => Some(Caution::Weak),
        _ => None,
    }
}

//! The earth's magnetic field by the World Magnetic Model, through the crate `world_magnetic_model`.
//!
//! # References
//! WMM2025 technical report, NOAA NCEI and British Geological Survey (2024); case files
//! `tests/vectors/earth/declination.json`.

use chrono::{Datelike, NaiveDate};
use uom::si::angle::degree;
use uom::si::f32::{Angle, Length};
use uom::si::length::meter;
use uom::si::magnetic_flux_density::nanotesla;
use world_magnetic_model::{GeomagneticField, WarningZone};

use super::LatLon;
use crate::measure::{Message, Telling};

/// The field at a place and date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MagneticField {
    /// Magnetic north against true north, degrees, east positive.
    pub declination_deg: f64,
    /// One sigma of the declination by the model's own error model, degrees.
    pub declination_spread_deg: f64,
    /// Dip of the field below the horizon, degrees.
    pub inclination_deg: f64,
    /// Horizontal strength, nanotesla.
    pub horizontal_nt: f64,
    /// Total strength, nanotesla.
    pub total_nt: f64,
    /// One sigma of the dip, degrees.
    pub inclination_spread_deg: f64,
    /// One sigma of the total strength, nanotesla.
    pub total_spread_nt: f64,
    /// Whether a compass can be trusted here.
    pub caution: Option<Caution>,
}

/// Where the horizontal field is too weak for a compass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caution {
    /// 2,000 to 6,000 nT: a compass may become inaccurate.
    Weak,
    /// Below 2,000 nT: do not rely on a compass.
    Blackout,
}

/// Why there is no field.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MagneticError {
    /// The model does not reach the date.
    #[error("date-outside-model")]
    DateOutside(NaiveDate),
    /// The model does not reach the height.
    #[error("height-outside-model")]
    HeightOutside,
}

impl Telling for MagneticError {
    fn message(&self) -> Message {
        match self {
            Self::DateOutside(date) => Message::new("date-outside-model").text("date", date.to_string()),
            Self::HeightOutside => Message::new("height-outside-model"),
        }
    }
}

/// The field at a place, `height_m` above the ellipsoid, on a date from 2020-01-01 to 2029-12-31.
///
/// Accuracy: within the last printed digit (0.01°) of the published test values; the model's own
/// spread is given beside the declination and does not hold local iron, rock or storms.
///
/// # Errors
/// [`MagneticError`] outside the model's dates or heights.
pub fn magnetic_field(at: LatLon, height_m: f64, date: NaiveDate) -> Result<MagneticField, MagneticError> {
    let outside = || MagneticError::DateOutside(date);
    let day = u16::try_from(date.ordinal()).map_err(|_| outside())?;
    let day = time::Date::from_ordinal_date(date.year(), day).map_err(|_| outside())?;
    let field = GeomagneticField::new(
        Length::new::<meter>(height_m as f32),
        Angle::new::<degree>(at.lat_deg() as f32),
        Angle::new::<degree>(at.lon_deg() as f32),
        day,
    );
    match field {
        Ok(field) => Ok(read_field(&field)),
        Err(world_magnetic_model::Error::HeightOutsideOfValidityRange { .. }) => Err(MagneticError::HeightOutside),
        Err(_) => Err(outside()),
    }
}

fn read_field(field: &GeomagneticField) -> MagneticField {
    MagneticField {
        declination_deg: f64::from(field.declination().get::<degree>()),
        declination_spread_deg: f64::from(field.declination_uncertainty().get::<degree>()),
        inclination_deg: f64::from(field.inclination().get::<degree>()),
        horizontal_nt: f64::from(field.h().get::<nanotesla>()),
        total_nt: f64::from(field.f().get::<nanotesla>()),
        inclination_spread_deg: 0.20,
        total_spread_nt: 138.0,
        caution: field.declination_warning().map(|zone| match zone {
            WarningZone::BlackoutZone => Caution::Blackout,
            WarningZone::CautionZone => Caution::Weak,
        }),
    }
}

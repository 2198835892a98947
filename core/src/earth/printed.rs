//! The north diagram that a paper map prints, brought to today and held against the model.

use serde::{Deserialize, Serialize};

use crate::measure::{NorthDiagram, signed_difference_deg};

/// A printed diagram older than this is not to be trusted, years.
///
/// # References
/// US Army TC 3-25.26 (2013), chapter 6: caution on declination diagrams more than 20 years old.
pub const OLD_YEARS: f64 = 20.0;

/// What the margin of a sheet prints. East is positive.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PrintedNorths {
    /// Magnetic north against true north, degrees. This or the next.
    #[serde(default)]
    pub declination_deg: Option<f64>,
    /// Magnetic north against grid north, degrees.
    #[serde(default)]
    pub grid_magnetic_deg: Option<f64>,
    /// The year that it is printed for, such as 1994 or 1994.5.
    pub year: f64,
    /// How the declination changes, minutes of arc a year, east positive.
    #[serde(default)]
    pub annual_change_min: f64,
}

/// A printed diagram at a date, beside the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintedReport {
    /// Years since it was printed.
    pub age_years: f64,
    /// Its declination brought to the date, degrees.
    pub declination_deg: f64,
    /// Its grid-magnetic angle brought to the date, degrees, from -180 (excluded) to 180.
    pub grid_magnetic_deg: f64,
    /// Printed minus model, degrees.
    pub differs_deg: f64,
}

impl PrintedReport {
    /// Whether it is too old to be trusted.
    #[must_use]
    pub fn is_old(&self) -> bool {
        self.age_years > OLD_YEARS
    }
}

impl PrintedNorths {
    /// Whether its numbers can be: one angle given, angles within a half circle, years from 1800 to 2100, at most 2° a year.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        let angle = match (self.declination_deg, self.grid_magnetic_deg) {
            (Some(angle), None) | (None, Some(angle)) => angle,
            _ => return false,
        };
        angle.abs() <= 180.0 && (1800.0..=2100.0).contains(&self.year) && self.annual_change_min.abs() <= 120.0
    }

    /// The diagram brought to a decimal year with its own annual change, beside the model's at the place.
    ///
    /// The annual change holds for some years only; over decades the sum is an old guess, and its age says so.
    /// The convergence is the grid's at the place: a printed grid-magnetic angle plus it is the declination.
    #[must_use]
    pub fn at(&self, year: f64, model: &NorthDiagram) -> PrintedReport {
        let age_years = year - self.year;
        let from_grid = self.grid_magnetic_deg.map(|angle| angle + model.convergence_deg);
        let printed_deg = self.declination_deg.or(from_grid).unwrap_or_default();
        let declination_deg = printed_deg + age_years * self.annual_change_min / 60.0;
        PrintedReport {
            age_years,
            declination_deg,
            grid_magnetic_deg: signed_difference_deg(declination_deg, model.convergence_deg),
            differs_deg: signed_difference_deg(declination_deg, model.declination_deg),
        }
    }
}

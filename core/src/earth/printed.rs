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
    /// How the declination changes, minutes of arc a year, east positive; nothing where the margin does not say it.
    #[serde(default)]
    pub annual_change_min: Option<f64>,
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
    /// Whether it would agree with the model if its angle lay on the other side of north: west taken for east.
    pub agrees_turned: bool,
}

/// From this difference on a printed diagram is asked for its sign, degrees (our choice).
const DIFFERS_DEG: f64 = 2.0;
/// With the other sign it then differs by no more than this share (our choice).
const TURNED_SHARE: f64 = 0.25;

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
        angle.abs() <= 180.0 && (1800.0..=2100.0).contains(&self.year) && self.annual_change_min.is_none_or(|change| change.abs() <= 120.0)
    }

    /// The diagram brought to a decimal year with its own annual change, beside the model's at the place.
    ///
    /// The annual change holds for some years only; over decades the sum is an old guess, and its age says so.
    /// The convergence is the grid's at the place: a printed grid-magnetic angle plus it is the declination.
    #[must_use]
    pub fn at(&self, year: f64, model: &NorthDiagram) -> PrintedReport {
        let declination_deg = self.declination_deg_in(year, model.convergence_deg);
        let differs = |printed_deg: f64| signed_difference_deg(printed_deg, model.declination_deg);
        let (differs_deg, turned_deg) = (differs(declination_deg), self.turned_deg(year, model.convergence_deg).map(differs));
        let agrees = turned_deg.iter().any(|turned| turned.abs() <= TURNED_SHARE * differs_deg.abs());
        PrintedReport {
            age_years: year - self.year,
            declination_deg,
            grid_magnetic_deg: signed_difference_deg(declination_deg, model.convergence_deg),
            differs_deg,
            agrees_turned: differs_deg.abs() >= DIFFERS_DEG && agrees,
        }
    }

    /// Its declination brought to a decimal year on a grid with this convergence, degrees.
    #[must_use]
    pub fn declination_deg_in(&self, year: f64, convergence_deg: f64) -> f64 {
        let from_grid = self.grid_magnetic_deg.map(|angle| angle + convergence_deg);
        self.declination_deg.or(from_grid).unwrap_or_default() + self.change_deg(year)
    }

    /// What its annual change makes up to a decimal year, degrees.
    fn change_deg(&self, year: f64) -> f64 {
        (year - self.year) * self.annual_change_min.unwrap_or(0.0) / 60.0
    }

    /// The same with the angle on the other side of north: with its change as it stands, and turned too.
    fn turned_deg(&self, year: f64, convergence_deg: f64) -> [f64; 2] {
        let turned = |change_deg: f64| {
            let from_grid = self.grid_magnetic_deg.map(|angle| convergence_deg - angle);
            self.declination_deg.map(|angle| -angle).or(from_grid).unwrap_or_default() + change_deg
        };
        let change_deg = self.change_deg(year);
        [turned(change_deg), turned(-change_deg)]
    }

    /// One sigma of the declination brought to a decimal year, degrees: as it is printed, and what its change may be off over its age.
    ///
    /// # References
    /// Common practice, no source: a quarter of a degree as printed, a tenth of a degree for each year since.
    #[must_use]
    pub fn spread_deg_in(&self, year: f64) -> f64 {
        const PRINTED_DEG: f64 = 0.25;
        const DEG_PER_YEAR: f64 = 0.1;
        PRINTED_DEG.hypot(DEG_PER_YEAR * (year - self.year))
    }
}

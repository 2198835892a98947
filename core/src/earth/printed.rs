//! The north diagram that a paper map prints, brought to a date and held against the model.

use serde::{Deserialize, Serialize};

use super::{DecimalYear, DeclinationBy, LatLon, MagneticField, magnetic_field, nearest_modelled};
use crate::measure::{LINE_95, Message, Telling, signed_difference_deg};

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
    /// The year that it is printed for, such as 1994 or 1994.5; a whole one is reckoned in its middle.
    pub year: f64,
    /// How the declination changes, minutes of arc a year, east positive; nothing where the margin does not say it.
    #[serde(default)]
    pub annual_change_min: Option<f64>,
}

/// What of a printed diagram cannot be, as it was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PrintedFault {
    /// Neither of its two angles is given, or both.
    Angles,
    /// Its angle, degrees.
    Angle(String),
    /// Its year.
    Year(String),
    /// Its annual change, minutes of arc.
    Change(String),
}

impl Telling for PrintedFault {
    fn message(&self) -> Message {
        let (figure, typed) = match self {
            Self::Angles => ("both", None),
            Self::Angle(deg) => ("angle", Some(deg)),
            Self::Year(year) => ("year", Some(year)),
            Self::Change(minutes) => ("change", Some(minutes)),
        };
        Message::new("printed-norths-unreadable").text("figure", figure).text("typed", typed.cloned().unwrap_or_default())
    }
}

/// A printed diagram brought to a date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintedReport {
    /// Years since it was printed: since the middle of its year, where no more of that is known.
    pub age_years: f64,
    /// Its declination brought to the date, degrees.
    pub declination_deg: f64,
    /// Its grid-magnetic angle brought to the date, degrees, from -180 (excluded) to 180.
    pub grid_magnetic_deg: f64,
    /// How far both may be off; nothing where the build is at fault.
    pub off: Option<PrintedOff>,
    /// The same held against the model; nothing where the build is at fault.
    pub beside: Option<BesideModel>,
}

/// How far a printed diagram that was brought to a date may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintedOff {
    /// One sigma of the declination, degrees; the convergence is a grid's and has none.
    pub spread_deg: f64,
    /// One sigma of what the declination may have changed otherwise than was told since its year, degrees.
    pub change_deg: f64,
}

/// A printed diagram held against the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BesideModel {
    /// Printed minus model, degrees.
    pub differs_deg: f64,
    /// One sigma of both together, degrees: that of the diagram brought to the day and the model's.
    pub spread_deg: f64,
    /// Which sign, if it were turned, would make it agree: west taken for east.
    pub turned: Option<TurnedSign>,
    /// When.
    pub when: Compared,
}

/// When a diagram and the model are held against each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Compared {
    /// On the date.
    OnDate,
    /// In the diagram's own year, as the model does not hold on the date.
    InOwnYear,
    /// As it holds in neither, on the day on which it does that is nearest to the diagram's own year.
    On(DecimalYear),
}

/// The sign of a diagram that may be on the wrong side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TurnedSign {
    /// That of the angle.
    Angle,
    /// That of the yearly change.
    Change,
    /// Those of both.
    Both,
}

/// From this difference on a printed diagram asks for another look whatever its spread, and is asked for its sign, degrees (our choice).
const DIFFERS_DEG: f64 = 2.0;
/// With the other sign it then differs by no more than this share (our choice).
const TURNED_SHARE: f64 = 0.25;

impl PrintedReport {
    /// Whether it is too old to be trusted.
    #[must_use]
    pub fn is_old(&self) -> bool {
        self.age_years > OLD_YEARS
    }

    /// Whether it asks for another look before it is used: beside the model on the date when it is old or a sign of it may be turned,
    /// else when it differs by too much ([`BesideModel::is_wrong`]).
    #[must_use]
    pub fn is_doubtful(&self) -> bool {
        self.beside.is_some_and(|beside| match beside.when {
            Compared::OnDate => self.is_old() || beside.turned.is_some(),
            Compared::InOwnYear | Compared::On(_) => beside.is_wrong(),
        })
    }
}

impl BesideModel {
    /// Whether it differs by more than its spread explains, or by 2° or more.
    #[must_use]
    pub fn is_wrong(&self) -> bool {
        self.is_beyond_spread() || self.differs_deg.abs() >= DIFFERS_DEG
    }

    /// Whether it differs by more than the spread of both at 95 %.
    #[must_use]
    pub fn is_beyond_spread(&self) -> bool {
        self.differs_deg.abs() > LINE_95 * self.spread_deg
    }
}

impl PrintedNorths {
    /// Which of its numbers cannot be: one angle is given, angles within a half circle, years from 1800 to 2100, at most 2° a year.
    #[must_use]
    pub fn fault(&self) -> Option<PrintedFault> {
        let ((Some(angle_deg), None) | (None, Some(angle_deg))) = (self.declination_deg, self.grid_magnetic_deg) else {
            return Some(PrintedFault::Angles);
        };
        let change_min = self.annual_change_min.unwrap_or_default();
        let is_year = (1800.0..=2100.0).contains(&self.year);
        match (angle_deg.abs() <= 180.0, is_year, change_min.abs() <= 120.0) {
            (false, ..) => Some(PrintedFault::Angle(angle_deg.to_string())),
            (true, false, _) => Some(PrintedFault::Year(self.year.to_string())),
            (true, true, false) => Some(PrintedFault::Change(change_min.to_string())),
            (true, true, true) => None,
        }
    }

    /// The diagram brought to a date with its own annual change, beside the model at the place; on another day where the model does not
    /// hold on the date ([`Compared`]).
    ///
    /// The annual change holds for some years only; over decades the sum is an old guess, and its age says so.
    /// The convergence is the grid's at the place: a printed grid-magnetic angle plus it is the declination.
    #[must_use]
    pub fn report(&self, at: LatLon, convergence_deg: f64, date: DecimalYear) -> PrintedReport {
        let declination_deg = self.declination_deg_in(date.years(), convergence_deg);
        let own = self.when();
        let (on, when) = match (nearest_modelled(date), nearest_modelled(own)) {
            (on, _) if on == date => (on, Compared::OnDate),
            (_, on) if on == own => (on, Compared::InOwnYear),
            (_, on) => (on, Compared::On(on)),
        };
        let beside = |field: MagneticField| self.beside(&field, (on, when), convergence_deg);
        let off = |field: MagneticField| PrintedOff {
            spread_deg: self.spread_deg_in(date, &field),
            change_deg: self.change_spread_deg_in(date, &field).min(MOST_DEG),
        };
        PrintedReport {
            age_years: self.age_years(date),
            declination_deg,
            grid_magnetic_deg: signed_difference_deg(declination_deg, convergence_deg),
            off: magnetic_field(at, 0.0, nearest_modelled(date)).ok().map(off),
            beside: magnetic_field(at, 0.0, on).ok().map(beside),
        }
    }

    /// What is told of a declination that it tells for a date outside the model, at a place where the grid has this convergence.
    #[must_use]
    pub fn declination_by(&self, at: LatLon, convergence_deg: f64, date: DecimalYear) -> DeclinationBy {
        let report = self.report(at, convergence_deg, date);
        DeclinationBy::Diagram { age_years: report.age_years, is_wrong: report.beside.is_some_and(|beside| beside.is_wrong()) }
    }

    /// Years from when its angle holds to a date: a whole year is its middle.
    #[must_use]
    pub fn age_years(&self, date: DecimalYear) -> f64 {
        date.years() - self.when().years()
    }

    /// When its angle holds: where its year is a whole one, no more is known.
    fn when(&self) -> DecimalYear {
        if self.year.fract() == 0.0 { DecimalYear::of_year(self.year as i32) } else { DecimalYear::new(self.year) }
    }

    fn beside(&self, field: &MagneticField, (on, when): (DecimalYear, Compared), convergence_deg: f64) -> BesideModel {
        let (year, model_deg) = (on.years(), field.declination_deg);
        let differs_deg = signed_difference_deg(self.declination_deg_in(year, convergence_deg), model_deg);
        let off_deg = |sign: TurnedSign| signed_difference_deg(self.turned_deg(sign, year, convergence_deg), model_deg).abs();
        let signs = [TurnedSign::Angle, TurnedSign::Change, TurnedSign::Both];
        let nearest = signs.into_iter().min_by(|a, b| off_deg(*a).total_cmp(&off_deg(*b)));
        let agrees = |sign: &TurnedSign| differs_deg.abs() >= DIFFERS_DEG && off_deg(*sign) <= TURNED_SHARE * differs_deg.abs();
        let spread_deg = self.spread_deg_in(on, field).hypot(field.declination_spread_deg);
        BesideModel { differs_deg, spread_deg, turned: nearest.filter(agrees), when }
    }

    /// Its declination brought to a decimal year on a grid with this convergence, degrees.
    #[must_use]
    pub fn declination_deg_in(&self, year: f64, convergence_deg: f64) -> f64 {
        let from_grid = self.grid_magnetic_deg.map(|angle| angle + convergence_deg);
        let change_deg = (year - self.when().years()) * self.annual_change_min.unwrap_or(0.0) / 60.0;
        self.declination_deg.or(from_grid).unwrap_or_default() + change_deg
    }

    /// The same with a sign turned.
    fn turned_deg(&self, sign: TurnedSign, year: f64, convergence_deg: f64) -> f64 {
        let (angle, change) = match sign {
            TurnedSign::Angle => (-1.0, 1.0),
            TurnedSign::Change => (1.0, -1.0),
            TurnedSign::Both => (-1.0, -1.0),
        };
        let turned = Self {
            declination_deg: self.declination_deg.map(|deg| angle * deg),
            grid_magnetic_deg: self.grid_magnetic_deg.map(|deg| angle * deg),
            annual_change_min: self.annual_change_min.map(|min| change * min),
            ..*self
        };
        turned.declination_deg_in(year, convergence_deg)
    }

    /// One sigma of the declination brought to a decimal year, degrees: as it is printed; what the field there differs by from any model,
    /// from which the diagram was drawn as well; what the change may be off over its age; and what changes within its own year and the
    /// one that is asked, where no more than these are known.
    ///
    /// `field` is the model's at the place, on its nearest day: its spread and its yearly change.
    ///
    /// # References
    /// Common practice, no source: a quarter of a degree as printed.
    #[must_use]
    pub fn spread_deg_in(&self, year: DecimalYear, field: &MagneticField) -> f64 {
        const PRINTED_DEG: f64 = 0.25;
        let change_deg = self.annual_change_min.map_or(field.declination_deg_per_year, |minutes| minutes / 60.0);
        let within_deg = change_deg * year.spread_years().hypot(self.when().spread_years());
        let brought_deg = self.change_spread_deg_in(year, field);
        PRINTED_DEG.hypot(field.declination_spread_deg).hypot(brought_deg).hypot(within_deg).min(MOST_DEG)
    }

    /// One sigma of what the declination may have changed otherwise than the diagram tells from its year to a decimal year, degrees.
    ///
    /// A diagram without a change may have changed as the model does, and one with it by a fifth of that more or less; by a tenth of a
    /// degree a year at least.
    ///
    /// # References
    /// Common practice, no source: a tenth of a degree for each year since. The fifth is our choice.
    fn change_spread_deg_in(&self, year: DecimalYear, field: &MagneticField) -> f64 {
        const LEAST_DEG_PER_YEAR: f64 = 0.1;
        const CHANGE_OFF: f64 = 0.2;
        let share = if self.annual_change_min.is_some() { CHANGE_OFF } else { 1.0 };
        let per_year = (share * field.declination_deg_per_year.abs()).max(LEAST_DEG_PER_YEAR);
        per_year * self.age_years(year).abs()
    }
}

/// Nothing is known then: 95 % of a normal reach round the circle.
const MOST_DEG: f64 = 90.0;

//! The three norths over a whole sheet.

use chrono::NaiveDate;

use super::{
    Caution, DecimalYear, Grid, LocalFrame, MagneticError, MagneticField, PrintedNorths, geodesic_from, magnetic_field,
    nearest_modelled_day,
};
use crate::measure::{GridBearing, MagneticBearing, NamedBearing, North, NorthDiagram, Point, TrueBearing, signed_difference_deg};

/// Turns bearings read at a point into bearings of the plane, and back.
pub trait Compass {
    /// A bearing read at a point, as a bearing of the plane, degrees.
    fn to_plane_deg(&self, bearing: NamedBearing, point: Point) -> f64;
    /// A bearing of the plane at a point, from the compass's north.
    fn to_magnetic(&self, plane_deg: f64, point: Point) -> MagneticBearing;
    /// A bearing of the plane at a point, from the sheet's north.
    fn to_grid(&self, plane_deg: f64, point: Point) -> GridBearing;
}

/// One diagram for the whole plane, whose north is the grid's: the desk without a sheet.
impl Compass for NorthDiagram {
    fn to_plane_deg(&self, bearing: NamedBearing, _point: Point) -> f64 {
        self.true_to_grid(self.to_true(bearing)).degrees()
    }

    fn to_magnetic(&self, plane_deg: f64, _point: Point) -> MagneticBearing {
        MagneticBearing::new(plane_deg - self.grid_magnetic_deg())
    }

    fn to_grid(&self, plane_deg: f64, _point: Point) -> GridBearing {
        GridBearing::new(plane_deg)
    }
}

/// What tells the declination on a date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DeclinationBy {
    /// The magnetic model.
    Model,
    /// The diagram that the sheet prints: the model does not hold on the date.
    Diagram {
        /// Years since it was printed.
        age_years: f64,
        /// Whether it differs by too much from the model ([`super::BesideModel::is_wrong`]).
        is_wrong: bool,
    },
    /// The model on the nearest day on which it holds, so many years away: no bearing may be turned by it, it is told roughly alone.
    NearestDay(f64),
}

/// Declination and convergence anywhere near a frame's origin, on one date.
///
/// The declination is a plane through the model's values at the origin and 10 km north and east
/// of it. Accuracy: within 0.005° of the model inside 20 km below 65° of latitude (test `declination_plane_follows_the_model`);
/// measured up to 0.06° at 80° and 0.2° at 88° of latitude, and some tenths of a degree 300 km from the origin.
#[derive(Debug, Clone)]
pub struct Norths {
    frame: LocalFrame,
    grid: Grid,
    date: NaiveDate,
    declination_deg: f64,
    east_per_m: f64,
    north_per_m: f64,
    spread_deg: f64,
    /// One sigma as it is told: on a day on which the model does not hold what it may have changed by, too, degrees.
    told_spread_deg: f64,
    by: DeclinationBy,
    caution: Option<Caution>,
    /// What this compass reads too much, degrees.
    compass_error_deg: f64,
}

impl Norths {
    /// The norths around a frame's origin for a sheet's grid on a date.
    ///
    /// # Errors
    /// [`MagneticError`] when the model does not reach the date.
    pub fn over(frame: LocalFrame, grid: Grid, date: NaiveDate) -> Result<Self, MagneticError> {
        const STEP_M: f64 = 10_000.0;
        let origin = magnetic_field(frame.origin(), 0.0, date)?;
        let slope = |bearing_deg: f64| {
            let (there, _) = geodesic_from(frame.origin(), TrueBearing::new(bearing_deg), STEP_M);
            let change = magnetic_field(there, 0.0, date)?.declination_deg - origin.declination_deg;
            Ok(signed_difference_deg(change, 0.0) / STEP_M)
        };
        Ok(Self {
            east_per_m: slope(90.0)?,
            north_per_m: slope(0.0)?,
            declination_deg: origin.declination_deg,
            spread_deg: origin.declination_spread_deg,
            told_spread_deg: origin.declination_spread_deg,
            by: DeclinationBy::Model,
            caution: origin.caution,
            compass_error_deg: 0.0,
            frame,
            grid,
            date,
        })
    }

    /// The norths on any date: outside the model's dates by the diagram that the sheet prints, else by the model's nearest day, by
    /// which no magnetic bearing may be turned.
    ///
    /// # Errors
    /// [`MagneticError`] when the build is at fault.
    pub fn on_any_date(frame: LocalFrame, grid: Grid, date: NaiveDate, printed: Option<&PrintedNorths>) -> Result<Self, MagneticError> {
        let (nearest, years) = nearest_modelled_day(date);
        let frame_origin = frame.origin();
        let norths = Self { date, ..Self::over(frame, grid, nearest)? };
        if years <= 0.0 {
            return Ok(norths);
        }
        Ok(match printed {
            Some(printed) => {
                let field = magnetic_field(frame_origin, 0.0, nearest)?;
                norths.by_diagram(printed, DecimalYear::from(date), &field)
            }
            None => norths.by_nearest_day(nearest, years),
        })
    }

    /// The declination of the diagram for the whole sheet.
    fn by_diagram(self, printed: &PrintedNorths, year: DecimalYear, field: &MagneticField) -> Self {
        let convergence_deg = self.diagram(Point::default()).convergence_deg;
        let by = printed.declination_by(self.frame.origin(), convergence_deg, year);
        let spread_deg = printed.spread_deg_in(year, field);
        Self {
            declination_deg: printed.declination_deg_in(year.years(), convergence_deg),
            east_per_m: 0.0,
            north_per_m: 0.0,
            spread_deg,
            told_spread_deg: spread_deg,
            by,
            ..self
        }
    }

    /// The yearly change that the model has on its nearest day, a tenth of a degree at least, may have held or not: what it makes
    /// up in those years is one sigma. Common practice, no source.
    fn by_nearest_day(self, nearest: NaiveDate, years: f64) -> Self {
        const LEAST_DEG_PER_YEAR: f64 = 0.1;
        // Nothing is known then: 95 % of a normal reach round the circle.
        const MOST_DEG: f64 = 90.0;
        let rate = magnetic_field(self.frame.origin(), 0.0, nearest).map_or(0.0, |field| field.declination_deg_per_year);
        let changed_deg = years * rate.abs().max(LEAST_DEG_PER_YEAR);
        Self { told_spread_deg: self.spread_deg.hypot(changed_deg).min(MOST_DEG), by: DeclinationBy::NearestDay(years), ..self }
    }

    /// What tells the declination.
    #[must_use]
    pub fn by(&self) -> DeclinationBy {
        self.by
    }

    /// Whether a bearing can be turned by them.
    ///
    /// # Errors
    /// [`MagneticError::DateOutside`] for a magnetic one where the declination is not known.
    pub fn can_turn(&self, bearing: NamedBearing) -> Result<(), MagneticError> {
        let unknown = matches!(self.by, DeclinationBy::NearestDay(_)) && bearing.north() == North::Magnetic;
        if unknown { Err(MagneticError::DateOutside(DecimalYear::from(self.date))) } else { Ok(()) }
    }

    /// The same norths for a compass that reads too much by so many degrees: every magnetic bearing is one as it reads.
    #[must_use]
    pub fn with_compass_error(mut self, error_deg: f64) -> Self {
        self.compass_error_deg = error_deg;
        self
    }

    /// The date they hold for.
    #[must_use]
    pub fn date(&self) -> NaiveDate {
        self.date
    }

    /// Whether a compass can be trusted here.
    #[must_use]
    pub fn caution(&self) -> Option<Caution> {
        self.caution
    }

    /// One sigma of the declination, degrees.
    #[must_use]
    pub fn declination_spread_deg(&self) -> f64 {
        self.spread_deg
    }

    /// Declination at a point of the plane, degrees.
    #[must_use]
    pub fn declination_deg(&self, point: Point) -> f64 {
        self.declination_deg + self.east_per_m * point.east_m + self.north_per_m * point.north_m
    }

    /// The north diagram at a point of the plane. Outside the grid's reach the convergence is 0.
    #[must_use]
    pub fn diagram(&self, point: Point) -> NorthDiagram {
        let factors = self.grid.factors(self.frame.to_earth(point));
        NorthDiagram {
            declination_deg: self.declination_deg(point),
            declination_spread_deg: self.told_spread_deg,
            convergence_deg: factors.map_or(0.0, |factors| factors.convergence_deg),
            convergence_spread_deg: 0.0,
            year: Some(DecimalYear::from(self.date).years()),
        }
    }

    /// A bearing of the plane at a point, from true north.
    #[must_use]
    pub fn to_true(&self, plane_deg: f64, point: Point) -> TrueBearing {
        TrueBearing::new(plane_deg + self.frame.true_minus_plane_deg(point))
    }

    /// What to add to a magnetic bearing at a point to have a bearing of the plane, degrees.
    #[must_use]
    pub fn plane_minus_magnetic_deg(&self, point: Point) -> f64 {
        self.declination_deg(point) - self.compass_error_deg - self.frame.true_minus_plane_deg(point)
    }
}

impl Compass for Norths {
    fn to_plane_deg(&self, bearing: NamedBearing, point: Point) -> f64 {
        let turn = match bearing {
            NamedBearing::Magnetic(_) => self.plane_minus_magnetic_deg(point),
            NamedBearing::True(_) => -self.frame.true_minus_plane_deg(point),
            NamedBearing::Grid(_) => self.diagram(point).convergence_deg - self.frame.true_minus_plane_deg(point),
        };
        bearing.degrees() + turn
    }

    fn to_magnetic(&self, plane_deg: f64, point: Point) -> MagneticBearing {
        MagneticBearing::new(plane_deg - self.plane_minus_magnetic_deg(point))
    }

    fn to_grid(&self, plane_deg: f64, point: Point) -> GridBearing {
        self.diagram(point).true_to_grid(self.to_true(plane_deg, point))
    }
}

#[cfg(test)]
#[allow(clippy::expect_used, reason = "a test may stop where it fails")]
mod tests {
    use super::{DeclinationBy, Norths};
    use crate::earth::{Grid, LatLon, LocalFrame, PrintedNorths, date_of};
    use crate::measure::{NamedBearing, North, Point};

    fn on(date: &str, printed: Option<&PrintedNorths>) -> Norths {
        let frame = LocalFrame::around(LatLon::new(47.5, 11.2).expect("place"));
        Norths::on_any_date(frame, Grid::of_place(frame.origin()), date_of(date).expect("date"), printed).expect("norths")
    }

    /// The sums by hand: 4.25° and 9′ a year over 6.996 years from the middle of 2024 make 5.299°; 0.25°, 0.6996°, the 0.362° of the model
    /// (its error model with H 21,466 nT there) and the 9′ of the diagram's own year by the root of twelve together 0.828°.
    #[test]
    fn outside_the_models_dates_the_diagram_turns_or_nothing_does() {
        let printed = PrintedNorths { declination_deg: Some(4.25), grid_magnetic_deg: None, year: 2024.0, annual_change_min: Some(9.0) };
        let magnetic = NamedBearing::new(110.0, North::Magnetic);
        let by_diagram = on("2031-07-01", Some(&printed));
        assert!((by_diagram.declination_deg(Point::new(9_000.0, 0.0)) - 5.299).abs() < 0.001 && by_diagram.can_turn(magnetic).is_ok());
        assert!((by_diagram.declination_spread_deg() - 0.828).abs() < 0.001, "{}", by_diagram.declination_spread_deg());
        // West for east: 8.5° off what the model has for 2024.
        let turned = PrintedNorths { declination_deg: Some(-4.25), ..printed };
        let wrong = |norths: &Norths| matches!(norths.by(), DeclinationBy::Diagram { is_wrong: true, .. });
        assert!(!wrong(&by_diagram) && wrong(&on("2031-07-01", Some(&turned))));
        for date in ["2031-07-01", "1970-01-01"] {
            let nearest = on(date, None);
            assert!(matches!(nearest.by(), DeclinationBy::NearestDay(_)) && nearest.can_turn(magnetic).is_err(), "{date}");
            assert!(nearest.can_turn(NamedBearing::new(110.0, North::Grid)).is_ok());
            let told_deg = nearest.diagram(Point::default()).declination_spread_deg;
            assert!(told_deg > nearest.declination_spread_deg() + 0.01, "{date}: {told_deg}");
        }
        for printed in [None, Some(&printed)] {
            assert_eq!(on("2029-12-31", printed).by(), DeclinationBy::Model);
        }
    }
}

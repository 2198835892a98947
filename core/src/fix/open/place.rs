//! The places of a fix in the open as they are kept, and as an independent place is held against them.

use super::take::{OpenFix, OpenShape};
use crate::fix::{Check, Standing};
use crate::measure::{Covariance, PLANE_95, Point};

impl OpenFix {
    /// Where one may stand, each place with its covariance about it, in the order of the report; never empty.
    ///
    /// # Accuracy
    /// The 95 % ellipse of each is 2.448 of its sigmas, as that of a normal distribution is: where a reading may be plainly wrong
    /// it is so much wider. A region's is that of the places in it, about the likeliest.
    #[must_use]
    pub fn places(&self) -> Vec<(Point, Covariance)> {
        match self.shape {
            OpenShape::Ellipse => vec![(self.at, self.covariance.times((self.sigmas_95 / PLANE_95).powi(2)))],
            OpenShape::Regions => self.regions.iter().map(|one| (one.best, one.about_best())).collect(),
        }
    }

    /// The same as an independent place is held against them, each with its share of the probability.
    #[must_use]
    pub fn standings(&self) -> Vec<Standing> {
        let share =
            |index: usize| if self.shape == OpenShape::Ellipse { 1.0 } else { self.regions.get(index).map_or(0.0, |one| one.share) };
        let places = self.places().into_iter().enumerate();
        places.map(|(index, (at, covariance))| Standing { at, covariance, share: share(index) }).collect()
    }

    /// Holds a place of the plane with one sigma per axis against the fix.
    ///
    /// # Accuracy
    /// Against an ellipse the chi-square of two degrees of freedom. Against regions the chance is that of standing where it is no
    /// likelier than at the likeliest place within 2.448 sigmas of the other: at least what it should be.
    ///
    /// # References
    /// The chi-square of two degrees of freedom has the upper tail `exp(-x/2)` (Abramowitz and Stegun 1964, 26.4.4).
    #[must_use]
    pub fn check(&self, place: Point, spread_m: f64) -> Option<Check> {
        let own = Covariance { east2: spread_m * spread_m, east_north: 0.0, north2: spread_m * spread_m };
        let held = self.places().into_iter().enumerate().filter_map(|(stretch, (at, covariance))| {
            let chi_square = covariance.plus(own).chi_square(place.minus(at))?;
            Some((stretch, place.minus(at), chi_square))
        });
        let (stretch, step, chi_square) = held.min_by(|a, b| a.2.total_cmp(&b.2))?;
        let chance = match self.shape {
            OpenShape::Ellipse => (-chi_square / 2.0).exp(),
            OpenShape::Regions => self.chance_near(place, PLANE_95 * spread_m),
        };
        let chi_square = if self.shape == OpenShape::Ellipse { chi_square } else { -2.0 * chance.max(f64::MIN_POSITIVE).ln() };
        Some(Check { stretch, distance_m: step.length_m(), plane_deg: step.bearing_deg(), chi_square, chance })
    }

    fn chance_near(&self, place: Point, within_m: f64) -> f64 {
        let near = |cell: &&super::Cell| cell.holds(place) || cell.at.minus(place).length_m() <= within_m;
        let most = self.odds.cells.iter().find(near).map_or(0.0, |cell| cell.per_m2);
        self.odds.cells.iter().filter(|cell| cell.per_m2 <= most).map(super::Cell::share).sum::<f64>().min(1.0)
    }
}

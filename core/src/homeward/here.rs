//! Where one is by dead reckoning, and how far it is home.

use crate::earth::{Compass, LatLon, Norths, digits_for_spread};
use crate::measure::{Covariance, GridBearing, LINE_95, MagneticBearing, PLANE_95, Point};
use crate::sheet::Sheet;
use crate::travel::Reckoning;

/// The reckoned place in the sheet's terms.
#[derive(Debug, Clone, PartialEq)]
pub struct Here {
    /// The point in the sheet's plane.
    pub point: Point,
    /// On the earth.
    pub at: LatLon,
    /// The sheet's grid reference with the digits that the spread deserves.
    pub reference: String,
    /// One-sigma covariance of the place: the car's own and the walk's.
    pub covariance: Covariance,
    /// Half-axes of the 95 % ellipse, metres: greater and smaller.
    pub half_axes_95_m: (f64, f64),
    /// Greater half-axis of the 95 % ellipse of the walk alone, metres: how far one may stand from where its legs lead from the car.
    pub walked_95_m: f64,
    /// The way home; nothing while one stands at the car.
    pub home: Option<Home>,
}

impl Here {
    /// Half-width of the 95 % limits of the distance to the car, metres; at the car, which has no direction, that of the walk.
    #[must_use]
    pub fn home_95_m(&self) -> f64 {
        self.home.map_or(self.walked_95_m, |home| home.distance_95_m)
    }
}

/// The straight way home from a reckoned place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Home {
    /// Metres to the car.
    pub distance_m: f64,
    /// Half-width of the 95 % limits of that distance, metres; the car's own spread does not enter.
    pub distance_95_m: f64,
    /// Half-width of the 95 % limits across it, metres.
    pub across_95_m: f64,
    /// The bearing by the compass.
    pub magnetic: MagneticBearing,
    /// The bearing on the sheet.
    pub grid: GridBearing,
}

/// The place at the end of a reckoned walk that began at the car.
#[must_use]
pub fn here(sheet: &Sheet, norths: &Norths, car: Covariance, walk: &Reckoning) -> Here {
    let point = walk.end();
    let covariance = car.plus(walk.covariance());
    let ellipse = covariance.ellipse();
    let at = sheet.to_earth(point);
    Here {
        point,
        at,
        reference: sheet.reference(at, digits_for_spread(PLANE_95 * ellipse.major_m)),
        covariance,
        half_axes_95_m: (PLANE_95 * ellipse.major_m, PLANE_95 * ellipse.minor_m),
        walked_95_m: PLANE_95 * walk.covariance().ellipse().major_m,
        home: home(norths, walk),
    }
}

fn home(norths: &Norths, walk: &Reckoning) -> Option<Home> {
    let step = walk.start.minus(walk.end());
    let distance_m = step.length_m();
    (distance_m > 0.5).then(|| {
        let direction = step.times(1.0 / distance_m);
        let middle = walk.end().plus(step.times(0.5));
        Home {
            distance_m,
            distance_95_m: LINE_95 * walk.covariance().spread_along_m(direction),
            across_95_m: LINE_95 * walk.covariance().spread_along_m(direction.right()),
            magnetic: norths.to_magnetic(step.bearing_deg(), middle),
            grid: norths.to_grid(step.bearing_deg(), middle),
        }
    })
}

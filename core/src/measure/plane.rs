//! Points and spreads in a plane of metres, east and north.

use super::wrap_deg;

/// A point, or the step between two points: metres east and north.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Metres east.
    pub east_m: f64,
    /// Metres north.
    pub north_m: f64,
}

impl Point {
    /// A point from metres east and north.
    #[must_use]
    pub fn new(east_m: f64, north_m: f64) -> Self {
        Self { east_m, north_m }
    }

    /// The step of `distance_m` along a bearing of the plane, degrees clockwise from its north.
    #[must_use]
    pub fn polar(distance_m: f64, bearing_deg: f64) -> Self {
        let (sin, cos) = bearing_deg.to_radians().sin_cos();
        Self::new(distance_m * sin, distance_m * cos)
    }

    /// The sum of two steps.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self::new(self.east_m + other.east_m, self.north_m + other.north_m)
    }

    /// The step from `other` to here.
    #[must_use]
    pub fn minus(self, other: Self) -> Self {
        Self::new(self.east_m - other.east_m, self.north_m - other.north_m)
    }

    /// The step stretched by a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self::new(self.east_m * factor, self.north_m * factor)
    }

    /// The step turned a quarter to the right (clockwise).
    #[must_use]
    pub fn right(self) -> Self {
        Self::new(self.north_m, -self.east_m)
    }

    /// Inner product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.east_m * other.east_m + self.north_m * other.north_m
    }

    /// Outer product: positive when `other` lies to the right of this step.
    #[must_use]
    pub fn cross(self, other: Self) -> f64 {
        other.east_m * self.north_m - other.north_m * self.east_m
    }

    /// Length in metres.
    #[must_use]
    pub fn length_m(self) -> f64 {
        self.east_m.hypot(self.north_m)
    }

    /// Bearing of the step in the plane, degrees clockwise from its north, 0 to 360.
    #[must_use]
    pub fn bearing_deg(self) -> f64 {
        wrap_deg(self.east_m.atan2(self.north_m).to_degrees())
    }
}

/// The covariance of a point, square metres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Covariance {
    /// Variance east.
    pub east2: f64,
    /// Covariance of east and north.
    pub east_north: f64,
    /// Variance north.
    pub north2: f64,
}

/// The one-sigma ellipse of a [`Covariance`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ellipse {
    /// Greater half-axis, metres, one sigma.
    pub major_m: f64,
    /// Smaller half-axis, metres, one sigma.
    pub minor_m: f64,
    /// Bearing of the greater half-axis in the plane, degrees, 0 to 180.
    pub major_bearing_deg: f64,
}

impl Covariance {
    /// The spread of a step known along and across a direction.
    ///
    /// `direction` is a unit step; spreads are one sigma in metres.
    #[must_use]
    pub fn along_across(direction: Point, along_m: f64, across_m: f64) -> Self {
        Self::outer(direction.times(along_m)).plus(Self::outer(direction.right().times(across_m)))
    }

    /// The covariance of a single error that moves the point by `step` per sigma.
    #[must_use]
    pub fn outer(step: Point) -> Self {
        Self { east2: step.east_m * step.east_m, east_north: step.east_m * step.north_m, north2: step.north_m * step.north_m }
    }

    /// The covariance of the sum of independent errors.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { east2: self.east2 + other.east2, east_north: self.east_north + other.east_north, north2: self.north2 + other.north2 }
    }

    /// The covariance with every variance multiplied by a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self { east2: self.east2 * factor, east_north: self.east_north * factor, north2: self.north2 * factor }
    }

    /// One sigma along a unit direction, metres.
    #[must_use]
    pub fn spread_along_m(self, direction: Point) -> f64 {
        let (e, n) = (direction.east_m, direction.north_m);
        (e * e * self.east2 + 2.0 * e * n * self.east_north + n * n * self.north2).max(0.0).sqrt()
    }

    /// Density of a normal distribution with this covariance at a step from its middle, per square metre; 0 without an area.
    #[must_use]
    pub fn density(self, step: Point) -> f64 {
        let area = (self.east2 * self.north2 - self.east_north * self.east_north).max(0.0).sqrt() * std::f64::consts::TAU;
        self.chi_square(step).map_or(0.0, |chi_square| (-chi_square / 2.0).exp() / area)
    }

    /// Square of a step's length in sigmas; `None` when the covariance has no area.
    #[must_use]
    pub fn chi_square(self, step: Point) -> Option<f64> {
        let determinant = self.east2 * self.north2 - self.east_north * self.east_north;
        let (e, n) = (step.east_m, step.north_m);
        let square = (e * e * self.north2 - 2.0 * e * n * self.east_north + n * n * self.east2) / determinant;
        (determinant > 0.0 && square.is_finite()).then_some(square)
    }

    /// The one-sigma ellipse.
    #[must_use]
    pub fn ellipse(self) -> Ellipse {
        let mean = f64::midpoint(self.east2, self.north2);
        let half = (self.north2 - self.east2) / 2.0;
        let radius = half.hypot(self.east_north);
        let bearing_deg = self.east_north.atan2(half).to_degrees() / 2.0;
        Ellipse {
            major_m: (mean + radius).max(0.0).sqrt(),
            minor_m: (mean - radius).max(0.0).sqrt(),
            major_bearing_deg: bearing_deg.rem_euclid(180.0),
        }
    }
}

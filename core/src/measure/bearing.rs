//! Bearings that know their north, and the diagram that leads from one north to another.

mod error;
#[cfg(test)]
mod tests;
mod typed;

pub use error::BearingError;
use typed::{has_blank, split_north};
pub use typed::{typed_step_deg, typed_unit};

use super::angle::read_figures;

/// Brings an angle into 0 (included) to 360 (excluded) degrees.
#[must_use]
pub fn wrap_deg(angle_deg: f64) -> f64 {
    let wrapped = angle_deg.rem_euclid(360.0);
    if wrapped >= 360.0 { 0.0 } else { wrapped }
}

/// `a - b` on the circle, from -180 (excluded) to 180 (included) degrees.
#[must_use]
pub fn signed_difference_deg(a_deg: f64, b_deg: f64) -> f64 {
    let difference = wrap_deg(a_deg - b_deg);
    if difference > 180.0 { difference - 360.0 } else { difference }
}

/// Which north a bearing is counted from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum North {
    /// The geographic pole.
    True,
    /// The sheet's grid lines.
    Grid,
    /// The compass needle.
    Magnetic,
}

impl North {
    /// The word for it in records: true, grid or mag.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::True => "true",
            Self::Grid => "grid",
            Self::Magnetic => "mag",
        }
    }
}

macro_rules! bearing_type {
    ($name:ident, $doc:literal) => {
        #[doc = $doc]
        ///
        /// Degrees clockwise, kept in 0 (included) to 360 (excluded).
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $name(f64);

        impl $name {
            /// A bearing from degrees, brought into the circle.
            #[must_use]
            pub fn new(degrees: f64) -> Self {
                Self(wrap_deg(degrees))
            }

            /// Degrees, 0 to 360.
            #[must_use]
            pub fn degrees(self) -> f64 {
                self.0
            }

            /// The opposite bearing: 180 degrees on; 180 gives 0.
            #[must_use]
            pub fn back(self) -> Self {
                Self::new(self.0 + 180.0)
            }
        }
    };
}

bearing_type!(TrueBearing, "A bearing from true north.");
bearing_type!(GridBearing, "A bearing from the north of the sheet's grid.");
bearing_type!(MagneticBearing, "A bearing from magnetic north.");

/// The angles between the three norths at one place and date.
///
/// East is positive: `grid_magnetic = declination - convergence`, `grid = magnetic + grid_magnetic`,
/// `true = grid + convergence`.
///
/// # References
/// The sign rule is the one of US Army TC 3-25.26 (2013), declination diagram; case files
/// `tests/vectors/measure/bearings.json`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct NorthDiagram {
    /// Magnetic north against true north, degrees, east positive.
    pub declination_deg: f64,
    /// One sigma of the declination, degrees.
    pub declination_spread_deg: f64,
    /// Grid north against true north, degrees, east positive.
    pub convergence_deg: f64,
    /// One sigma of the convergence, degrees: nothing where a grid tells it, more where it was read off a sheet.
    pub convergence_spread_deg: f64,
    /// The decimal year for which the declination holds; none where nobody said.
    pub year: Option<f64>,
}

impl NorthDiagram {
    /// The grid-magnetic angle, degrees, east positive.
    #[must_use]
    pub fn grid_magnetic_deg(&self) -> f64 {
        signed_difference_deg(self.declination_deg, self.convergence_deg)
    }

    /// One sigma that turning adds to a bearing, degrees: of the angles that lie between the two norths, taken for independent.
    #[must_use]
    pub fn turning_spread_deg(&self, from: North, to: North) -> f64 {
        let crosses = |north| (from == north) != (to == north);
        let of = |crosses: bool, spread_deg: f64| if crosses { spread_deg } else { 0.0 };
        of(crosses(North::Magnetic), self.declination_spread_deg).hypot(of(crosses(North::Grid), self.convergence_spread_deg))
    }

    /// Magnetic to true.
    #[must_use]
    pub fn magnetic_to_true(&self, bearing: MagneticBearing) -> TrueBearing {
        TrueBearing::new(bearing.degrees() + self.declination_deg)
    }

    /// True to magnetic.
    #[must_use]
    pub fn true_to_magnetic(&self, bearing: TrueBearing) -> MagneticBearing {
        MagneticBearing::new(bearing.degrees() - self.declination_deg)
    }

    /// True to grid.
    #[must_use]
    pub fn true_to_grid(&self, bearing: TrueBearing) -> GridBearing {
        GridBearing::new(bearing.degrees() - self.convergence_deg)
    }

    /// Grid to true.
    #[must_use]
    pub fn grid_to_true(&self, bearing: GridBearing) -> TrueBearing {
        TrueBearing::new(bearing.degrees() + self.convergence_deg)
    }

    /// Any bearing to true.
    #[must_use]
    pub fn to_true(&self, bearing: NamedBearing) -> TrueBearing {
        match bearing {
            NamedBearing::True(b) => b,
            NamedBearing::Grid(b) => self.grid_to_true(b),
            NamedBearing::Magnetic(b) => self.magnetic_to_true(b),
        }
    }

    /// Any bearing to the wanted north.
    #[must_use]
    pub fn turn(&self, bearing: NamedBearing, to: North) -> NamedBearing {
        if bearing.north() == to {
            return bearing;
        }
        let from_true = self.to_true(bearing);
        match to {
            North::True => NamedBearing::True(from_true),
            North::Grid => NamedBearing::Grid(self.true_to_grid(from_true)),
            North::Magnetic => NamedBearing::Magnetic(self.true_to_magnetic(from_true)),
        }
    }
}

/// A bearing together with the north it is counted from, as a person says it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NamedBearing {
    /// From true north.
    True(TrueBearing),
    /// From grid north.
    Grid(GridBearing),
    /// From magnetic north.
    Magnetic(MagneticBearing),
}

impl NamedBearing {
    /// A bearing of `degrees` from `north`.
    #[must_use]
    pub fn new(degrees: f64, north: North) -> Self {
        match north {
            North::True => Self::True(TrueBearing::new(degrees)),
            North::Grid => Self::Grid(GridBearing::new(degrees)),
            North::Magnetic => Self::Magnetic(MagneticBearing::new(degrees)),
        }
    }

    /// Which north it is counted from.
    #[must_use]
    pub fn north(self) -> North {
        match self {
            Self::True(_) => North::True,
            Self::Grid(_) => North::Grid,
            Self::Magnetic(_) => North::Magnetic,
        }
    }

    /// Degrees, 0 to 360.
    #[must_use]
    pub fn degrees(self) -> f64 {
        match self {
            Self::True(b) => b.degrees(),
            Self::Grid(b) => b.degrees(),
            Self::Magnetic(b) => b.degrees(),
        }
    }

    /// The opposite bearing, same north.
    #[must_use]
    pub fn back(self) -> Self {
        Self::new(self.degrees() + 180.0, self.north())
    }

    /// Reads figures and the north, which must be named: `"214 mag"`, `"032.5° grid"`, `"3200 mil mag"`, `"200 gon true"`,
    /// `"S36E mag"`, `"306 52 05.4 true"` (degrees, minutes, seconds); the north by its letter where that is no unit: `"190°M"`, `"190°T"`,
    /// `"190 GN"`.
    ///
    /// # Errors
    /// [`BearingError`] when there is no number, no north, or the number is outside the circle; for `"2 14 mag"` too, which may
    /// be 2°14′ or 214°.
    pub fn parse(text: &str) -> Result<Self, BearingError> {
        let (figures, north) = split_north(text.trim());
        let (degrees, _) = read_figures(figures).ok_or_else(|| BearingError::of_figures(figures, text))?;
        if has_blank(figures) {
            return Err(BearingError::Blank(text.into()));
        }
        if !(0.0..=360.0).contains(&degrees) {
            return Err(BearingError::OutOfRange(text.into()));
        }
        let north = north.ok_or_else(|| BearingError::WithoutNorth(text.into()))?;
        Ok(Self::new(degrees, north))
    }
}

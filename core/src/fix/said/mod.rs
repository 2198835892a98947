//! What a walker says of the ground, held against the heights of the sheet at any place.

mod along;
mod asked;
mod kinds;
mod lattice;

pub use along::{along, distance_along, said_along, witness_along, witness_likelihood};
pub(in crate::fix) use along::{misplaced_along, witness_tail_told};
pub use asked::{Lay, SaidAt};
pub use kinds::{HereKind, kinds_along};
pub use lattice::Lattice;

use crate::ground::{AltimeterReading, LandformKind, Trend};
use crate::measure::{NamedBearing, Point};

/// One thing said of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GroundSaid {
    /// What it does towards a bearing.
    Slope {
        /// The bearing.
        towards: NamedBearing,
        /// Up, level or down.
        trend: Trend,
        /// How steeply and with which sigma, degrees, up positive, when that was measured.
        steep_deg: Option<(f64, f64)>,
        /// Over how many metres.
        over_m: f64,
    },
    /// A landform at a bearing and a rough distance.
    Landform {
        /// What it is.
        kind: LandformKind,
        /// The bearing and its sigma, degrees; nothing when it is underfoot.
        bearing: Option<(NamedBearing, f64)>,
        /// How far it is, metres.
        distance_m: f64,
        /// The factor by which that may be wrong either way, one sigma.
        distance_factor: f64,
    },
    /// Where the slope underfoot falls to.
    Aspect {
        /// The bearing.
        falls: NamedBearing,
        /// One sigma, degrees.
        spread_deg: f64,
    },
    /// An altimeter.
    Height {
        /// What it reads.
        reading: AltimeterReading,
        /// Where it was set.
        set_at: Option<Point>,
    },
}

impl GroundSaid {
    /// The word for its kind.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Slope { .. } => "slope",
            Self::Landform { .. } => "landform",
            Self::Aspect { .. } => "aspect",
            Self::Height { .. } => "height",
        }
    }

    /// The same if its figures were feet; nothing for what is not told in metres of height.
    #[must_use]
    pub fn in_feet(&self) -> Option<Self> {
        match self {
            Self::Height { reading, set_at } => Some(Self::Height { reading: reading.in_feet(), set_at: *set_at }),
            Self::Slope { .. } | Self::Landform { .. } | Self::Aspect { .. } => None,
        }
    }

    /// How far landforms matter to it, metres: nothing for what is no landform.
    fn landforms_within_m(&self) -> Option<f64> {
        match self {
            // Beyond two sigmas of the distance a landform fits no better than a wrong word.
            Self::Landform { distance_m, distance_factor, .. } => Some(distance_m * distance_factor * distance_factor),
            Self::Slope { .. } | Self::Aspect { .. } | Self::Height { .. } => None,
        }
    }
}

#[cfg(test)]
mod tests;

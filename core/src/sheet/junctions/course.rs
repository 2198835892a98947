//! On a bridge, in a tunnel or on the ground: what of two lines that cross a walker sees there.

use super::{is_walked, is_water, kind};
use crate::sheet::Line;

/// How a line runs past others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Course {
    /// A way, on its level: 0 on the ground, above it on a bridge, below it in a tunnel.
    Way(i8),
    Water,
    /// A wire overhead.
    Wire,
    /// A fence, a wall, or a line of the ground itself.
    Ground,
}

/// What two lines are to each other where they cross and have no point in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Encounter {
    Meets,
    /// One is on a bridge over the other.
    Passes,
    /// One is in a tunnel below the other, or on a bridge high above it.
    Unseen,
}

impl Course {
    /// The course of a piece of a line on its level.
    pub(super) fn of(line: &Line, level: i8) -> Self {
        match () {
            () if is_walked(line) => Self::Way(level),
            () if is_water(line) => Self::Water,
            () if kind::is_wire(line) => Self::Wire,
            () => Self::Ground,
        }
    }

    pub(super) fn encounter(self, other: Self) -> Encounter {
        let met = |meets: bool| if meets { Encounter::Meets } else { Encounter::Unseen };
        match (self, other) {
            (Self::Way(a), Self::Way(b)) if a != b && a.max(b) > 0 => Encounter::Passes,
            (Self::Way(a), Self::Way(b)) => met(a == b),
            // From a bridge one sees the water below and the wire above, and is past the fence before one knows.
            (Self::Way(level), Self::Ground) | (Self::Ground, Self::Way(level)) => met(level == 0),
            (Self::Way(level), Self::Water | Self::Wire) | (Self::Water | Self::Wire, Self::Way(level)) => met(level >= 0),
            (Self::Water | Self::Wire | Self::Ground, Self::Water | Self::Wire | Self::Ground) => Encounter::Meets,
        }
    }
}

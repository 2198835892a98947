//! On a bridge, in a tunnel or on the ground: what of two lines that cross a walker sees there.

use super::{is_walked, is_water, kind};
use crate::sheet::{LEVEL_ALONE, Line};

/// How a line runs past others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Course {
    /// A way, on its level: 0 on the ground, above it on a bridge, below it in a tunnel; whether that is said of it.
    Way(i8, bool),
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
    /// On two levels, and nobody says by what.
    PassesSomehow,
    /// One is in a tunnel below the other, or on a bridge high above it.
    Unseen,
}

impl Course {
    /// The course of a piece of a line on its level.
    pub(super) fn of(line: &Line, level: i8) -> Self {
        match () {
            () if is_walked(line) && level > LEVEL_ALONE / 2 => Self::Way(level - LEVEL_ALONE, false),
            () if is_walked(line) => Self::Way(level, true),
            () if is_water(line) => Self::Water,
            () if kind::is_wire(line) => Self::Wire,
            () => Self::Ground,
        }
    }

    pub(super) fn encounter(self, other: Self) -> Encounter {
        let met = |meets: bool| if meets { Encounter::Meets } else { Encounter::Unseen };
        match (self, other) {
            (Self::Way(a, a_said), Self::Way(b, b_said)) if a != b => {
                let (upper, lower) = if a > b { ((a, a_said), (b, b_said)) } else { ((b, b_said), (a, a_said)) };
                match (upper, lower) {
                    ((1.., true), _) => Encounter::Passes,
                    (_, (..0, true)) => Encounter::Unseen,
                    _ => Encounter::PassesSomehow,
                }
            }
            (Self::Way(..), Self::Way(..)) => Encounter::Meets,
            // From a bridge one sees the water below and the wire above, and is past the fence before one knows.
            (Self::Way(level, _), Self::Ground) | (Self::Ground, Self::Way(level, _)) => met(level == 0),
            (Self::Way(level, _), Self::Water | Self::Wire) | (Self::Water | Self::Wire, Self::Way(level, _)) => met(level >= 0),
            (Self::Water | Self::Wire | Self::Ground, Self::Water | Self::Wire | Self::Ground) => Encounter::Meets,
        }
    }
}

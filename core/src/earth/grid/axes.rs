//! The order and directions in which a grid's numbers are written.

use serde_json::Value;

use super::known::known;
use super::{Grid, GridError};
use crate::measure::Point;

/// Which way a number of a grid counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// An easting.
    East,
    /// A northing.
    North,
    /// A westing.
    West,
    /// A southing.
    South,
}

/// The two numbers of a grid, in the order in which they are written.
///
/// In the core a point of a grid always counts to its east and north: a westing or southing is its negative there, so that
/// convergence, scale and bearings need not know of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Axes {
    /// Of the first number.
    pub first: Axis,
    /// Of the second.
    pub second: Axis,
    /// What the register calls them: X and Y, for the most part.
    pub letters: (char, char),
}

impl Axis {
    fn named(direction: &str) -> Option<Self> {
        match direction {
            "east" => Some(Self::East),
            "north" => Some(Self::North),
            "west" => Some(Self::West),
            "south" => Some(Self::South),
            _ => None,
        }
    }

    /// The word for it in records and sentences.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::East => "east",
            Self::North => "north",
            Self::West => "west",
            Self::South => "south",
        }
    }

    /// The number of a point along it.
    #[must_use]
    pub fn of(self, point: Point) -> f64 {
        match self {
            Self::East => point.east_m,
            Self::North => point.north_m,
            Self::West => -point.east_m,
            Self::South => -point.north_m,
        }
    }

    fn is_across(self) -> bool {
        matches!(self, Self::East | Self::West)
    }
}

impl Axes {
    /// Easting, then northing.
    pub const PLAIN: Self = Self { first: Axis::East, second: Axis::North, letters: ('E', 'N') };

    /// Those of a described grid: easting first where it counts east and north in whatever order, as all maps print it; else the order
    /// of its register, in which such grids are used. Nothing where they are other directions.
    ///
    /// # References
    /// EPSG registry, coordinate systems 6501 (southing, westing) and 6503 (westing, southing) among others, as PROJ 9.6 tells them.
    pub(super) fn described(flat: &Value) -> Option<Self> {
        let axes = flat.pointer("/coordinate_system/axis").and_then(Value::as_array)?;
        let [first, second] = axes.as_slice() else { return None };
        // About a pole every direction is south or north, along a meridian that is told: PROJ has these as easting and northing.
        if [first, second].iter().any(|axis| axis.get("meridian").is_some()) {
            return Some(Self::PLAIN);
        }
        let direction = |axis: &Value| axis.get("direction").and_then(Value::as_str).and_then(Axis::named);
        let letter = |axis: &Value| axis.get("abbreviation").and_then(Value::as_str).and_then(|letters| letters.chars().next());
        let letters = (letter(first).unwrap_or(' '), letter(second).unwrap_or(' '));
        let axes = Self { first: direction(first)?, second: direction(second)?, letters };
        match (axes.first, axes.second) {
            (Axis::North, Axis::East) | (Axis::East, Axis::North) => Some(Self::PLAIN),
            (Axis::South, Axis::West) | (Axis::West, Axis::South) => Some(axes),
            // Northing and westing: PROJ 9.6 makes no transformation of them.
            _ => None,
        }
    }

    /// Whether the register of a described grid that counts east and north has the northing first.
    pub(super) fn has_northing_first(flat: &Value) -> bool {
        let axis = |place: usize, member: &str| flat.pointer(&format!("/coordinate_system/axis/{place}/{member}"));
        let direction = |place: usize| axis(place, "direction").and_then(Value::as_str);
        axis(0, "meridian").is_none() && (direction(0), direction(1)) == (Some("north"), Some("east"))
    }

    /// Whether they are easting and northing.
    #[must_use]
    pub fn are_plain(self) -> bool {
        (self.first, self.second) == (Axis::East, Axis::North)
    }

    /// Whether the number across, easting or westing, comes first.
    #[must_use]
    pub fn across_first(self) -> bool {
        self.first.is_across()
    }

    /// A point to the east and north by its numbers as they are written.
    #[must_use]
    pub fn point(self, first: f64, second: f64) -> Point {
        let signed = |axis: Axis, value: f64| if matches!(axis, Axis::West | Axis::South) { -value } else { value };
        let (first, second) = (signed(self.first, first), signed(self.second, second));
        if self.across_first() { Point::new(first, second) } else { Point::new(second, first) }
    }

    /// The numbers of a point as they are written.
    #[must_use]
    pub fn numbers(self, point: Point) -> (f64, f64) {
        (self.first.of(point), self.second.of(point))
    }
}

impl Grid {
    /// Whether its register has the northing first of two numbers that are read easting first here, as maps print them.
    #[must_use]
    pub fn is_registered_northing_first(&self) -> bool {
        !self.is_utm_ups() && known(self.definition()).is_ok_and(|known| known.northing_first)
    }

    /// The order and directions of its numbers.
    #[must_use]
    pub fn axes(&self) -> Axes {
        if self.is_utm_ups() { Axes::PLAIN } else { known(&self.definition).map_or(Axes::PLAIN, |known| known.axes) }
    }

    /// A grid as [`Grid::named`] takes it, for coordinates in files: there no order but easting and northing can be relied on.
    ///
    /// # Errors
    /// [`GridError`] as there, and [`GridError::Turned`] for one that counts west or south.
    pub fn of_file(definition: &str) -> Result<Self, GridError> {
        Self::named(definition)?.counting_east_and_north()
    }

    pub(super) fn counting_east_and_north(self) -> Result<Self, GridError> {
        if self.axes().are_plain() { Ok(self) } else { Err(GridError::Turned(self.name)) }
    }
}

//! Which way along a line one faces, or went.

use crate::sheet::Line;

/// A point of a ring that is farther than this share of a round is reached about as soon either way.
const SHORTER_WAY: f64 = 0.45;

/// Which way along a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// In the line's direction, from its first point to its last.
    Onward,
    /// Against it.
    Backward,
    /// The walker does not say.
    Either,
}

impl Way {
    /// The other way; not known where this is not known.
    #[must_use]
    pub fn turned(self) -> Self {
        match self {
            Self::Onward => Self::Backward,
            Self::Backward => Self::Onward,
            Self::Either => Self::Either,
        }
    }
}

/// Which way along a line one faces, or went: each place of it may have its own answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Facing {
    /// The same way all along.
    Way(Way),
    /// Towards a known point, on each of the scene's lines that has it; on a line without it the way is not known.
    Towards(Vec<Spot>),
    /// Away from one.
    AwayFrom(Vec<Spot>),
}

impl Facing {
    /// Which way that is for one who stands at a distance along one of the scene's lines: towards the nearest of several points, on a ring
    /// by the shorter way, where one is.
    #[must_use]
    pub fn at(&self, index: usize, line: &Line, along_m: f64) -> Way {
        let points = match self {
            Self::Way(way) => return *way,
            Self::Towards(points) => points,
            Self::AwayFrom(points) => return Self::Towards(points.clone()).at(index, line, along_m).turned(),
        };
        let ways = points.iter().filter(|point| point.line == index).map(|point| line.way_m(along_m, point.along_m));
        match ways.min_by(|a, b| a.abs().total_cmp(&b.abs())) {
            None => Way::Either,
            Some(way_m) if line.is_ring() && way_m.abs() > SHORTER_WAY * line.length_m() => Way::Either,
            Some(way_m) if way_m >= 0.0 => Way::Onward,
            Some(_) => Way::Backward,
        }
    }

    /// The other way.
    #[must_use]
    pub fn turned(&self) -> Self {
        match self {
            Self::Way(way) => Self::Way(way.turned()),
            Self::Towards(points) => Self::AwayFrom(points.clone()),
            Self::AwayFrom(points) => Self::Towards(points.clone()),
        }
    }
}

/// A place on one of the lines that may be stood on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Which of the scene's lines, from 0.
    pub line: usize,
    /// Metres along it.
    pub along_m: f64,
}

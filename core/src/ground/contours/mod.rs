//! Contours: lines of equal height over the posts.

mod label;
mod levels;
mod simplify;
mod trace;

pub use label::LabelPlace;

use super::{HeightSpread, Heights, Post};
use crate::earth::{GridError, LatLon};
use crate::measure::{Arg, Message, Telling};
use levels::Levels;
use trace::Tracer;

/// Every so many contours is an index contour (the usual count on paper maps; common practice, no source).
pub const INDEX_EVERY: i64 = 5;
/// Most contours between the lowest and the highest ground.
const MOST_LEVELS: usize = 10_000;

/// Within so many sigmas to each side lie 90 % of a normal distribution.
const NINETY_SIGMAS: f64 = 1.645;

/// Which heights get a contour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// From contour to contour, metres: the caller turns feet into metres.
    pub interval_m: f64,
    /// A height that has a contour, and an index contour; 0 is the sea.
    pub base_m: f64,
}

impl Interval {
    /// From contour to contour at the least that heights of a spread carry, metres.
    ///
    /// # References
    /// United States National Map Accuracy Standards (Bureau of the Budget, 1947), vertical accuracy: not more than 10 % of the elevations
    /// tested shall be in error by more than one-half of the contour interval; 90 % of a normal distribution lie within 1.645 sigmas.
    #[must_use]
    pub fn least_m(spread: HeightSpread) -> f64 {
        2.0 * NINETY_SIGMAS * spread.sigma_m
    }
}

/// One line of equal height.
#[derive(Debug, Clone, PartialEq)]
pub struct Contour {
    /// Its height, metres.
    pub height_m: f64,
    /// Whether it is an index contour.
    pub index: bool,
    /// Whether it is a ring: then its last place is its first.
    pub closed: bool,
    /// Whether it is a ring round lower ground: a hollow.
    pub depression: bool,
    /// Its places among the posts, higher ground to the left of the way.
    pub posts: Vec<Post>,
}

/// Why there are no contours.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ContourError {
    /// The interval or the base is no height.
    #[error("contour-interval")]
    Interval,
    /// The interval is too small for the heights.
    #[error("contour-too-many")]
    TooMany(usize),
}

impl Telling for ContourError {
    fn message(&self) -> Message {
        match self {
            Self::Interval => Message::new("contour-interval"),
            Self::TooMany(levels) => Message::new("contour-too-many")
                .with("levels", Arg::Count(i64::try_from(*levels).unwrap_or(i64::MAX)))
                .with("most", Arg::Count(MOST_LEVELS as i64)),
        }
    }
}

impl Heights {
    /// The contours of all heights, from the lowest upwards.
    ///
    /// Lines run straight from edge to edge of the cells between posts, through the points where the height along the edge
    /// is that of the contour. A post at the very height of a contour counts as above it; one
    /// that stands alone in it has no line. Where a cell is a saddle, the
    /// contour goes round the side that the saddle point of the bilinear surface lies on. At a void and at the border a line
    /// ends; it never follows them.
    ///
    /// # Units
    /// Metres above the sea.
    ///
    /// # Accuracy
    /// Exact on the edges; inside a cell the straight line leaves the bilinear surface's own curve by a part of the cell.
    ///
    /// # Errors
    /// [`ContourError`].
    pub fn contours(&self, interval: Interval) -> Result<Vec<Contour>, ContourError> {
        let mut contours = Vec::new();
        self.each_contour(interval, &mut |contour| contours.push(contour))?;
        Ok(contours)
    }

    /// The same, one after the other: who keeps less of each needs less memory.
    ///
    /// # Errors
    /// [`ContourError`].
    pub fn each_contour(&self, interval: Interval, take: &mut dyn FnMut(Contour)) -> Result<(), ContourError> {
        let mut levels = Levels::of(self, interval)?;
        let cells = levels.take_cells();
        let mut tracer = Tracer::new(self, &levels);
        for (level, cells) in cells {
            tracer.trace(level, levels.height_m(level), &cells, take);
        }
        Ok(())
    }
}

impl Contour {
    /// The places of the contour on the earth.
    ///
    /// # Errors
    /// [`GridError`] when the grid of the heights has no place for one.
    pub fn places(&self, heights: &Heights) -> Result<Vec<LatLon>, GridError> {
        self.posts.iter().map(|post| heights.layout().place_of(*post)).collect()
    }
}

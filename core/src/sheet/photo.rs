//! The photographed paper map: marked grid crossings give the way from its pixels to the grid.
//!
//! Pixels count to the right and down from the upper left corner. The fit is made from the grid to the pixels, because a
//! crossing is exact and the finger that marks it is not.

mod check;
mod crossing;
mod fit;
mod hull;
mod told;
mod view;

#[cfg(test)]
mod tests;

use crate::earth::{Grid, GridError, LatLon};
use crate::measure::{Covariance, Point};

pub use fit::PhotoFit;

/// A grid crossing marked on the photo.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhotoMark {
    /// Pixels from the left edge.
    pub x_px: f64,
    /// Pixels from the upper edge.
    pub y_px: f64,
    /// Easting and northing of the crossing, in the grid's own unit.
    pub at: Point,
}

/// How the photo is laid over the grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PhotoKind {
    /// Shifted, turned, stretched, sheared: a scan, or a photo taken square from above. Three marks.
    Affine,
    /// Also seen aslant: any photo of a flat sheet. Four marks.
    Projective,
}

/// What is known about the marks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhotoTerms {
    /// How the photo is laid over the grid; by the number of marks when left out: aslant from six on.
    pub kind: Option<PhotoKind>,
    /// One sigma of a mark along each axis, pixels.
    pub mark_spread_px: f64,
    /// Side of a grid square, in the grid's own unit.
    pub square: f64,
}

impl Default for PhotoTerms {
    /// Three pixels (a fingertip on an enlarged photo; common practice, no source) and squares of 1000.
    fn default() -> Self {
        Self { kind: None, mark_spread_px: 3.0, square: 1000.0 }
    }
}

/// By how much a mark misses the fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhotoResidual {
    /// Pixels from the fitted crossing to the mark.
    pub px: f64,
    /// The same on the ground, metres east and north.
    pub step: Point,
}

/// A tap on the photo as a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhotoPlace {
    /// The place.
    pub at: LatLon,
    /// Its easting and northing, in the grid's own unit.
    pub grid_at: Point,
    /// Its spread along grid east and north, square metres, the map's own error not included.
    pub spread: Covariance,
    /// Whether it lies outside the marks, where the fit is not held.
    pub outside: bool,
}

impl PhotoPlace {
    /// One sigma along the worse axis, metres.
    #[must_use]
    pub fn spread_m(&self) -> f64 {
        self.spread.ellipse().major_m
    }
}

/// Why a photo cannot be laid over the grid.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PhotoError {
    /// Fewer marks than the fit needs.
    #[error("photo-too-few")]
    TooFew {
        /// Marks given.
        marks: usize,
        /// Marks needed.
        needed: usize,
    },
    /// More marks than are taken.
    #[error("photo-too-many")]
    TooMany(usize),
    /// All marks, or all but one, stand in a line.
    #[error("photo-in-line")]
    InLine,
    /// Two marks stand on one pixel or on one crossing.
    #[error("photo-twice")]
    Twice {
        /// The first, from 1.
        first: usize,
        /// The second, from 1.
        second: usize,
    },
    /// A number that is none, or a spread or square that is no length.
    #[error("photo-no-number")]
    NoNumber,
    /// No view of a flat sheet fits the marks.
    #[error("photo-no-view")]
    NoView,
    /// The tap lies where the photo shows nothing of the sheet's plane.
    #[error("photo-beyond")]
    Beyond,
    /// A mark's reference names a square of another grid.
    #[error("photo-off-lines")]
    OffLines(usize),
    /// The grid does not reach there.
    #[error("place-outside-grid")]
    Grid(GridError),
}

/// What one should know about a fit or a tap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PhotoCaution {
    /// Just as many marks as needed: a wrong one cannot show.
    Unchecked,
    /// Just as many marks as a view from square above needs: neither a wrong one nor a view aslant can show.
    UncheckedSlant,
    /// The marks do not fit as from square above, but do as seen aslant.
    Slant {
        /// One sigma of a mark as the fit has it, pixels.
        spread_px: f64,
        /// The mark, from 1, that explains it as well when it is wrong.
        instead: Option<usize>,
    },
    /// Four marks do not fit as from square above. Seen aslant any four do, so that one may as well be wrong.
    SlantOrWrong {
        /// One sigma of a mark as the fit has it, pixels.
        spread_px: f64,
    },
    /// The map lies mirrored, as no photo shows it.
    Mirrored,
    /// One mark is wrong, but with so few it cannot be told which.
    OneWrong {
        /// One sigma of a mark as the fit has it, pixels.
        spread_px: f64,
        /// The two marks of which either explains it, from 1, where there are just two.
        either: Option<(usize, usize)>,
    },
    /// One mark fits when whole squares are taken off its reference.
    Slip {
        /// Which mark, from 1.
        mark: usize,
        /// Squares too far east.
        east: i32,
        /// Squares too far north.
        north: i32,
    },
    /// One mark does not fit the others.
    Misfit {
        /// Which mark, from 1.
        mark: usize,
        /// From where the others put its crossing to where it was marked, pixels to the right and down.
        off_px: Point,
        /// How far that is on the ground, metres.
        off_m: f64,
    },
    /// The marks fit badly, and no single one explains it for sure.
    Loose {
        /// One sigma of a mark as the fit has it, pixels.
        spread_px: f64,
        /// The mark, from 1, without which hardly any of the misfit is left.
        first: Option<usize>,
    },
    /// A tap lies outside the marks.
    Outside,
}

/// Most marks of one photo.
pub(super) const MOST_MARKS: usize = 200;

impl PhotoKind {
    /// Marks needed.
    #[must_use]
    pub fn marks_needed(self) -> usize {
        match self {
            Self::Affine => 3,
            Self::Projective => 4,
        }
    }

    /// From six marks on a view aslant still leaves two marks to check it.
    fn by_marks(marks: usize) -> Self {
        if marks >= 6 { Self::Projective } else { Self::Affine }
    }
}

/// Checks what can be checked before anything is reckoned. Answers metres in a unit of the grid, near the marks.
fn sound(marks: &[PhotoMark], grid: &Grid, terms: &PhotoTerms, kind: PhotoKind) -> Result<f64, PhotoError> {
    let needed = kind.marks_needed();
    if marks.len() < needed {
        return Err(PhotoError::TooFew { marks: marks.len(), needed });
    }
    if marks.len() > MOST_MARKS {
        return Err(PhotoError::TooMany(marks.len()));
    }
    let numbers = marks.iter().flat_map(|mark| [mark.x_px, mark.y_px, mark.at.east_m, mark.at.north_m]);
    let lengths = [terms.mark_spread_px, terms.square].iter().all(|length| length.is_finite() && *length > 0.0);
    if !lengths || !numbers.into_iter().all(|number| number.abs() < 1e9) {
        return Err(PhotoError::NoNumber);
    }
    hull::check_apart(marks)?;
    let middle = hull::middle(marks.iter().map(|mark| mark.at));
    let place = grid.unproject(middle).map_err(PhotoError::Grid)?;
    Ok(1.0 / grid.factors(place).map_err(PhotoError::Grid)?.scale)
}

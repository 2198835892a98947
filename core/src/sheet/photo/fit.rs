//! A photo laid over the grid, and taps on it.

use super::view::View;
use super::{PhotoCaution, PhotoError, PhotoKind, PhotoMark, PhotoPlace, PhotoResidual, PhotoTerms, check, hull, sound};
use crate::earth::Grid;
use crate::measure::Point;

/// A photo laid over the grid.
#[derive(Debug, Clone)]
pub struct PhotoFit {
    grid: Grid,
    unit_m: f64,
    view: View,
    residuals: Vec<PhotoResidual>,
    cautions: Vec<PhotoCaution>,
    /// One sigma of a mark, pixels: that of the terms, or that of the residuals where it is greater.
    spread_px: f64,
    corners_px: Vec<Point>,
    /// The three marks that cannot show whether the photo is aslant.
    blind: Option<[Point; 3]>,
}

/// How much a photo from the hand is aslant where the marks do not show it: the share by which its depth differs over the marks' root
/// mean square distance, one sigma along each axis (some 10 degrees over a sheet as wide as half the camera's height; common practice,
/// no source).
const SLANT: f64 = 0.05;

impl PhotoFit {
    /// Lays a photo over the grid by its marks.
    ///
    /// # Units
    /// Pixels; the grid's own unit for eastings and northings; metres for residuals and spreads.
    ///
    /// # Accuracy
    /// Numbers and spreads as `scipy.optimize.least_squares` and `numpy.linalg.lstsq` give them, to 1e-6 of a pixel
    /// (`tests/vectors/sheet/photo.json`). A lens that bends lines or a sheet that is not flat shows in the residuals
    /// and widens the spread; it is not modelled. Three marks of a photo of which nothing is said cannot show whether it is aslant: the
    /// spread then counts a slant of 5 % of the depth (one sigma).
    ///
    /// # Errors
    /// [`PhotoError`] when there are too few marks, when they stand in a line, or when no view of a flat sheet fits them.
    ///
    /// # References
    /// R. Hartley, A. Zisserman (2004), Multiple View Geometry in Computer Vision, 4.1 and 5.2 (from memory): the linear
    /// start, normalised, and the covariance of a transferred point.
    pub fn of(marks: &[PhotoMark], grid: &Grid, terms: &PhotoTerms) -> Result<Self, PhotoError> {
        let kind = terms.kind.unwrap_or_else(|| PhotoKind::by_marks(marks.len()));
        let unit_m = sound(marks, grid, terms, kind)?;
        let view = View::fitted(marks, kind)?;
        let residuals: Option<Vec<PhotoResidual>> = marks.iter().map(|mark| view.residual(mark, unit_m)).collect();
        let residuals = residuals.ok_or(PhotoError::NoView)?;
        let cautions = check::cautions(marks, &view, terms, unit_m);
        let spread_px = view.spread_px(marks).unwrap_or(0.0).max(terms.mark_spread_px);
        let corners_px = hull::convex(&marks.iter().map(hull::pixel).collect::<Vec<_>>());
        let blind = match marks {
            [a, b, c] if terms.kind.is_none() => Some([a.at, b.at, c.at]),
            _ => None,
        };
        Ok(Self { grid: grid.clone(), unit_m, view, residuals, cautions, spread_px, corners_px, blind })
    }

    /// How the photo is laid over the grid.
    #[must_use]
    pub fn kind(&self) -> PhotoKind {
        self.view.kind
    }

    /// By how much each mark misses, in the order of the marks.
    #[must_use]
    pub fn residuals(&self) -> &[PhotoResidual] {
        &self.residuals
    }

    /// One sigma of a mark along each axis, pixels: as stated, or as the residuals show where that is more.
    #[must_use]
    pub fn spread_px(&self) -> f64 {
        self.spread_px
    }

    /// What one should know about the fit.
    #[must_use]
    pub fn cautions(&self) -> &[PhotoCaution] {
        &self.cautions
    }

    /// The place under a tap.
    ///
    /// # Errors
    /// [`PhotoError::Beyond`] where the photo shows nothing of the sheet's plane, [`PhotoError::Grid`] off the grid.
    pub fn place(&self, x_px: f64, y_px: f64) -> Result<PhotoPlace, PhotoError> {
        let tap = Point::new(x_px, y_px);
        let grid_at = self.view.grid_at(tap).ok_or(PhotoError::Beyond)?;
        let at = self.grid.unproject(grid_at).map_err(PhotoError::Grid)?;
        let spread = self.view.spread(grid_at).ok_or(PhotoError::Beyond)?;
        let aslant = self.blind.map(|marks| self.view.slant_spread(marks, grid_at, SLANT).ok_or(PhotoError::Beyond)).transpose()?;
        let spread = spread.times((self.spread_px * self.unit_m).powi(2));
        let spread = spread.plus(aslant.unwrap_or_default().times(self.unit_m.powi(2)));
        Ok(PhotoPlace { at, grid_at, spread, outside: !hull::encloses(&self.corners_px, tap) })
    }

    /// The spread of a tap in the middle of the marks along the worse axis, one sigma in metres.
    #[must_use]
    pub fn middle_spread_m(&self) -> f64 {
        let middle = hull::middle(self.corners_px.iter().copied());
        self.place(middle.east_m, middle.north_m).map_or(f64::INFINITY, |place| place.spread_m())
    }

    /// The pixel of an easting and northing, right and down; `None` where the photo cannot show it.
    #[must_use]
    pub fn pixel_of(&self, grid_at: Point) -> Option<(f64, f64)> {
        self.view.pixel_of(grid_at).map(|pixel| (pixel.east_m, pixel.north_m))
    }
}

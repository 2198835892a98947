//! The view itself: least squares from the grid to the pixels, and its spread.

use nalgebra::{DMatrix, DVector, Matrix2, Vector2};

use super::{PhotoError, PhotoKind, PhotoMark, PhotoResidual, hull};
use crate::measure::{Covariance, Point};

/// The way from the grid to the pixels, both moved to the middle of the marks and shrunk to about 1.
#[derive(Debug, Clone)]
pub(super) struct View {
    pub(super) kind: PhotoKind,
    middle: Point,
    size: f64,
    middle_px: Point,
    size_px: f64,
    /// u = (p0 X + p1 Y + p2) / w, v = (p3 X + p4 Y + p5) / w, w = p6 X + p7 Y + 1.
    numbers: [f64; 8],
    /// Their covariance for marks of a spread of 1.
    covariance: DMatrix<f64>,
}

/// Rounds of the least squares, and the change of a number that ends them.
const MOST_ROUNDS: usize = 50;
const STILL: f64 = 1e-12;
/// A fit whose numbers hang together more than this is none.
const LEAST_SINGULAR: f64 = 1e-6;
/// Rounds of the decomposition.
const MOST_SVD_ROUNDS: usize = 500;

impl View {
    /// The view that fits marks best, in pixels.
    pub(super) fn fitted(marks: &[PhotoMark], kind: PhotoKind) -> Result<Self, PhotoError> {
        let (middle, size) = centre(marks.iter().map(|mark| mark.at));
        let (middle_px, size_px) = centre(marks.iter().map(hull::pixel));
        let mut view =
            Self { kind, middle, size, middle_px, size_px, numbers: [0.0; 8], covariance: DMatrix::zeros(kind.count(), kind.count()) };
        view.start(marks)?;
        for _ in 0..MOST_ROUNDS {
            // The marks were found to lie in no line: what fails here is that nothing shows them so.
            let (change, covariance) = solve(view.slopes(marks), view.misses(marks)).map_err(|_| PhotoError::NoView)?;
            view.covariance = covariance;
            view.numbers.iter_mut().zip(change.iter()).for_each(|(number, change)| *number += change);
            if change.amax() < STILL {
                break;
            }
            let tame = change.amax() < 1e6;
            if !tame {
                return Err(PhotoError::NoView);
            }
        }
        let shown = marks.iter().all(|mark| view.depth(view.small(mark.at)) > 0.0);
        if shown && view.numbers.iter().all(|number| number.is_finite()) { Ok(view) } else { Err(PhotoError::NoView) }
    }

    /// The linear fit of u w = p0 X + p1 Y + p2, which is the affine one when w is 1.
    fn start(&mut self, marks: &[PhotoMark]) -> Result<(), PhotoError> {
        let wanted: Vec<Point> = marks.iter().map(|mark| self.small_px(hull::pixel(mark))).collect();
        let rows = marks.iter().zip(&wanted).flat_map(|(mark, px)| linear(self.small(mark.at), *px));
        let count = self.kind.count();
        let matrix = DMatrix::from_row_iterator(2 * marks.len(), count, rows.flat_map(|row| row.into_iter().take(count)));
        let right = DVector::from_iterator(2 * marks.len(), wanted.iter().flat_map(|px| [px.east_m, px.north_m]));
        let (numbers, _) = solve(matrix, right).map_err(|_| hull::why_none(marks))?;
        self.numbers.iter_mut().zip(numbers.iter()).for_each(|(number, found)| *number = *found);
        Ok(())
    }

    fn small(&self, at: Point) -> Point {
        at.minus(self.middle).times(1.0 / self.size)
    }

    fn small_px(&self, pixel: Point) -> Point {
        pixel.minus(self.middle_px).times(1.0 / self.size_px)
    }

    /// w: positive in front of the camera.
    fn depth(&self, at: Point) -> f64 {
        let [.., g, h] = self.numbers;
        g * at.east_m + h * at.north_m + 1.0
    }

    /// By which share the depth differs over the marks' root mean square distance from their middle.
    pub(super) fn slant(&self) -> f64 {
        let [.., g, h] = self.numbers;
        g.hypot(h)
    }

    /// Whether east and north turn the other way round on the photo than on the ground; pixels count down.
    pub(super) fn is_mirrored(&self) -> bool {
        self.stretch(Point::default()).determinant() > 0.0
    }

    /// The covariance of a tap's place, square units, when the depth may differ by so much over the marks' root mean square distance in
    /// any direction, and three marks lie as if from square above all the same.
    ///
    /// A small slant `g` moves a place `X` by `X (g · X)`, and the fit takes off what it moves the marks by: `Σ w (X (g · X))` with the
    /// weights that make the place of the marks.
    pub(super) fn slant_spread(&self, marks: [Point; 3], at: Point, slant: f64) -> Option<Covariance> {
        let [a, b, c] = marks.map(|mark| self.small(mark));
        let at = self.small(at);
        let (ab, ac) = (b.minus(a), c.minus(a));
        let whole = ab.cross(ac);
        let (to_b, to_c) = (at.minus(a).cross(ac) / whole, ab.cross(at.minus(a)) / whole);
        let square =
            |point: Point| Matrix2::new(point.east_m, 0.0, point.north_m, 0.0) * Matrix2::new(point.east_m, point.north_m, 0.0, 0.0);
        let moved = square(a) * (1.0 - to_b - to_c) + square(b) * to_b + square(c) * to_c - square(at);
        let all = moved * moved.transpose() * (slant * self.size).powi(2);
        all.iter().all(|number| number.is_finite()).then(|| Covariance { east2: all.m11, east_north: all.m12, north2: all.m22 })
    }

    fn seen(&self, at: Point) -> Point {
        let [a, b, c, d, e, f, ..] = self.numbers;
        let (x, y) = (at.east_m, at.north_m);
        Point::new(a * x + b * y + c, d * x + e * y + f).times(1.0 / self.depth(at))
    }

    pub(super) fn pixel_of(&self, at: Point) -> Option<Point> {
        let at = self.small(at);
        let pixel = self.middle_px.plus(self.seen(at).times(self.size_px));
        (self.depth(at) > 0.0 && pixel.length_m().is_finite()).then_some(pixel)
    }

    pub(super) fn grid_at(&self, pixel: Point) -> Option<Point> {
        let ([a, b, c, d, e, f, g, h], Point { east_m: u, north_m: v }) = (self.numbers, self.small_px(pixel));
        let turn = Matrix2::new(a - g * u, b - h * u, d - g * v, e - h * v);
        let found = turn.try_inverse()? * Vector2::new(u - c, v - f);
        let at = Point::new(found.x, found.y);
        let shown = self.depth(at) > f64::EPSILON && at.length_m().is_finite();
        shown.then(|| self.middle.plus(at.times(self.size)))
    }

    /// Pixels by unit of the grid, both ways, at a place: its inverse gives units by pixel.
    fn stretch(&self, at: Point) -> Matrix2<f64> {
        let ([a, b, _, d, e, _, g, h], seen) = (self.numbers, self.seen(at));
        let slopes = Matrix2::new(a - g * seen.east_m, b - h * seen.east_m, d - g * seen.north_m, e - h * seen.north_m);
        slopes / self.depth(at) * (self.size_px / self.size)
    }

    /// The covariance of a tap's place, square units, when a mark and the tap have a spread of one pixel.
    pub(super) fn spread(&self, at: Point) -> Option<Covariance> {
        let at = self.small(at);
        let back = self.stretch(at).try_inverse()?;
        let all = back * (Matrix2::identity() + self.of_fit(at)) * back.transpose();
        all.iter().all(|number| number.is_finite()).then(|| Covariance { east2: all.m11, east_north: all.m12, north2: all.m22 })
    }

    /// How u and v move with each of the numbers.
    fn rows(&self, at: Point) -> [[f64; 8]; 2] {
        let (seen, w) = (self.seen(at), self.depth(at));
        linear(at, seen).map(|row| row.map(|slope| slope / w))
    }

    fn slopes(&self, marks: &[PhotoMark]) -> DMatrix<f64> {
        let count = self.kind.count();
        let rows = marks.iter().flat_map(|mark| self.rows(self.small(mark.at)));
        DMatrix::from_row_iterator(2 * marks.len(), count, rows.flat_map(|row| row.into_iter().take(count)))
    }

    fn misses(&self, marks: &[PhotoMark]) -> DVector<f64> {
        let miss = |mark: &PhotoMark| {
            let step = self.small_px(hull::pixel(mark)).minus(self.seen(self.small(mark.at)));
            [step.east_m, step.north_m]
        };
        DVector::from_iterator(2 * marks.len(), marks.iter().flat_map(miss))
    }

    /// One sigma of a mark by the residuals, pixels; nothing when no mark is left over.
    pub(super) fn spread_px(&self, marks: &[PhotoMark]) -> Option<f64> {
        let over = (2 * marks.len()).saturating_sub(self.kind.count());
        (over > 0).then(|| (self.misses(marks).norm_squared() / over as f64).sqrt() * self.size_px)
    }

    /// Sum of the squares that marks are off, square pixels.
    pub(super) fn squares_px2(&self, marks: &[PhotoMark]) -> f64 {
        self.misses(marks).norm_squared() * self.size_px * self.size_px
    }

    /// How far a mark that the fit does not know lies from where the fit puts its crossing, pixels right and down, and the square of that
    /// against the spread of both when a mark has a spread of one pixel.
    pub(super) fn miss(&self, mark: &PhotoMark) -> Option<(Point, f64)> {
        let step_px = hull::pixel(mark).minus(self.pixel_of(mark.at)?);
        let step = Vector2::new(step_px.east_m, step_px.north_m);
        let squares = step.dot(&((Matrix2::identity() + self.of_fit(self.small(mark.at))).try_inverse()? * step));
        squares.is_finite().then_some((step_px, squares))
    }

    /// The covariance of where the fit puts a place on the photo, square pixels, when a mark has a spread of one pixel.
    fn of_fit(&self, at: Point) -> Matrix2<f64> {
        let count = self.kind.count();
        let slopes = DMatrix::from_row_iterator(2, count, self.rows(at).into_iter().flat_map(|row| row.into_iter().take(count)));
        let of_fit = &slopes * &self.covariance * slopes.transpose();
        Matrix2::from_iterator(of_fit.iter().copied())
    }

    pub(super) fn residual(&self, mark: &PhotoMark, unit_m: f64) -> Option<PhotoResidual> {
        let step_px = hull::pixel(mark).minus(self.pixel_of(mark.at)?);
        let step = self.stretch(self.small(mark.at)).try_inverse()? * Vector2::new(step_px.east_m, step_px.north_m);
        Some(PhotoResidual { px: step_px.length_m(), step: Point::new(step.x, step.y).times(unit_m) })
    }
}

impl PhotoKind {
    /// Numbers of the fit.
    pub(super) fn count(self) -> usize {
        2 * self.marks_needed()
    }
}

/// Two rows of the linear fit.
fn linear(at: Point, px: Point) -> [[f64; 8]; 2] {
    let (x, y, u, v) = (at.east_m, at.north_m, px.east_m, px.north_m);
    [[x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y], [0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y]]
}

/// Mean of points and their root mean square distance from it.
fn centre(points: impl ExactSizeIterator<Item = Point> + Clone) -> (Point, f64) {
    let (middle, count) = (hull::middle(points.clone()), points.len().max(1) as f64);
    let squares: f64 = points.map(|point| point.minus(middle).length_m().powi(2)).sum();
    (middle, (squares / count).sqrt().max(f64::MIN_POSITIVE))
}

/// Least squares, and the inverse of the normal matrix.
fn solve(matrix: DMatrix<f64>, right: DVector<f64>) -> Result<(DVector<f64>, DMatrix<f64>), PhotoError> {
    // A number that is none would keep the decomposition turning for ever.
    if !matrix.iter().chain(right.iter()).all(|number| number.is_finite()) {
        return Err(PhotoError::NoView);
    }
    let parts = matrix.try_svd(true, true, f64::EPSILON, MOST_SVD_ROUNDS).ok_or(PhotoError::NoView)?;
    let (greatest, least) = (parts.singular_values.max(), parts.singular_values.min());
    let apart = least > greatest * LEAST_SINGULAR;
    if !apart {
        return Err(PhotoError::InLine);
    }
    let v_t = parts.v_t.as_ref().ok_or(PhotoError::NoView)?;
    let scaled = DMatrix::from_diagonal(&parts.singular_values.map(|value| 1.0 / value)) * v_t;
    let covariance = scaled.transpose() * &scaled;
    let solution = parts.solve(&right, 0.0).map_err(|_| PhotoError::NoView)?;
    Ok((solution, covariance))
}

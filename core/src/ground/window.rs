//! The part of a grid of heights that an area needs.

use super::{Heights, HeightsError, Lattice, Layout, Post};
use crate::earth::{GridError, LatLon};

/// A piece of the earth between two parallels and two meridians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Its south-western corner.
    pub south_west: LatLon,
    /// Its north-eastern corner; it may lie beyond the date line.
    pub north_east: LatLon,
}

/// A rectangle of posts in a grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Window {
    /// Columns of the grid west of it.
    pub left: usize,
    /// Rows of the grid north of it.
    pub top: usize,
    /// Columns of posts in it.
    pub columns: usize,
    /// Rows of posts in it.
    pub rows: usize,
}

/// Places asked for along each edge of an area: a projected grid bends it.
const EDGE_PLACES: u8 = 16;
/// Posts taken beyond the area on each side, so that every place in it lies between posts.
const MARGIN_POSTS: f64 = 1.0;

impl Bounds {
    /// Degrees from the western to the eastern meridian, 0 to 360.
    #[must_use]
    pub fn width_deg(&self) -> f64 {
        (self.north_east.lon_deg() - self.south_west.lon_deg()).rem_euclid(360.0)
    }

    /// A place in it: 0 to 1 from west to east and from south to north.
    fn place(&self, east: f64, north: f64) -> LatLon {
        let (south, west) = (self.south_west.lat_deg(), self.south_west.lon_deg());
        LatLon::computed(south + north * (self.north_east.lat_deg() - south), west + east * self.width_deg())
    }

    /// Places along its four edges.
    fn edges(&self) -> impl Iterator<Item = LatLon> + '_ {
        let along = |step: u8| f64::from(step) / f64::from(EDGE_PLACES);
        (0..=EDGE_PLACES).map(along).flat_map(|t| [self.place(t, 0.0), self.place(t, 1.0), self.place(0.0, t), self.place(1.0, t)])
    }
}

impl Window {
    /// All posts of a grid.
    #[must_use]
    pub fn whole(layout: &Layout) -> Self {
        Self { left: 0, top: 0, columns: layout.columns, rows: layout.rows }
    }

    /// The number of posts in it.
    #[must_use]
    pub fn posts(&self) -> usize {
        self.columns.saturating_mul(self.rows)
    }
}

/// Least and greatest of a number.
type Reach = (f64, f64);

impl Layout {
    /// The posts that an area needs: those in it and one beyond on each side; `None` when fewer than two by two are there.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no coordinates for the area.
    pub fn window(&self, bounds: &Bounds) -> Result<Option<Window>, GridError> {
        let ((west, east), (north, south)) = match &self.lattice {
            Lattice::Geographic => (self.columns_of_meridians(bounds), self.rows_of_parallels(bounds)),
            Lattice::Projected(_) => self.reach_of_edges(bounds)?,
        };
        let columns = between(west, east, self.columns);
        let rows = between(north, south, self.rows);
        Ok(columns.zip(rows).map(|((left, columns), (top, rows))| Window { left, top, columns, rows }))
    }

    /// The layout of the posts in a window.
    #[must_use]
    pub fn cut(&self, window: &Window) -> Self {
        Self {
            lattice: self.lattice.clone(),
            columns: window.columns,
            rows: window.rows,
            west: self.west + window.left as f64 * self.step_east,
            north: self.north - window.top as f64 * self.step_south,
            ..*self
        }
    }

    /// Both meridians stand on that side of the date line on which the area's middle is nearer to the grid's.
    fn columns_of_meridians(&self, bounds: &Bounds) -> (f64, f64) {
        let half = bounds.width_deg() / 2.0;
        let middle = self.west + self.step_east * (self.columns.saturating_sub(1)) as f64 / 2.0;
        let apart = (bounds.south_west.lon_deg() + half - middle + 180.0).rem_euclid(360.0) - 180.0;
        let column = |lon_deg: f64| (lon_deg - self.west) / self.step_east;
        (column(middle + apart - half), column(middle + apart + half))
    }

    fn rows_of_parallels(&self, bounds: &Bounds) -> (f64, f64) {
        let row = |lat_deg: f64| (self.north - lat_deg) / self.step_south;
        (row(bounds.north_east.lat_deg()), row(bounds.south_west.lat_deg()))
    }

    /// Least and greatest column and row along the edges of an area.
    fn reach_of_edges(&self, bounds: &Bounds) -> Result<(Reach, Reach), GridError> {
        let nothing = (f64::INFINITY, f64::NEG_INFINITY);
        let widened = |(low, high): (f64, f64), value: f64| (low.min(value), high.max(value));
        let mut reach = (nothing, nothing);
        for place in bounds.edges() {
            let Post { column, row } = self.post_of(place)?;
            reach = (widened(reach.0, column), widened(reach.1, row));
        }
        Ok(reach)
    }
}

/// A border that lies on a post by so little of a step lies on it.
const SAME_POST: f64 = 1e-6;

/// First and number of the whole steps that span an interval with its margin, cut to what there is.
fn between(low: f64, high: f64, there: usize) -> Option<(usize, usize)> {
    let last = there.saturating_sub(1) as f64;
    let first = ((low + SAME_POST).floor() - MARGIN_POSTS).clamp(0.0, last);
    let end = ((high - SAME_POST).ceil() + MARGIN_POSTS).clamp(0.0, last);
    let touches = low <= last && high >= 0.0;
    (touches && end - first >= 1.0).then_some((first as usize, (end - first) as usize + 1))
}

impl Heights {
    /// The heights in a window.
    ///
    /// # Errors
    /// [`HeightsError::Layout`] when the window reaches beyond the grid or holds fewer than two by two posts.
    pub fn cut(&self, window: &Window) -> Result<Self, HeightsError> {
        let whole = self.layout();
        let right = window.left.saturating_add(window.columns);
        if right > whole.columns || window.top.saturating_add(window.rows) > whole.rows {
            return Err(HeightsError::Layout);
        }
        let rows = self.values_m().chunks_exact(whole.columns).skip(window.top).take(window.rows);
        let values: Vec<f32> = rows.filter_map(|row| row.get(window.left..right)).flatten().copied().collect();
        Self::new(whole.cut(window), self.spread(), values)
    }
}

impl Heights {
    /// Every so-many-th column and row, from the north-western post on.
    ///
    /// # Errors
    /// [`HeightsError::Layout`] when fewer than two by two posts are left.
    pub fn every(&self, step: usize) -> Result<Self, HeightsError> {
        let (whole, step) = (self.layout(), step.max(1));
        let (columns, rows) = (whole.columns.div_ceil(step), whole.rows.div_ceil(step));
        let (step_east, step_south) = (whole.step_east * step as f64, whole.step_south * step as f64);
        let layout = Layout { columns, rows, step_east, step_south, ..whole.clone() };
        let kept = self.values_m().chunks_exact(whole.columns).step_by(step).flat_map(|row| row.iter().step_by(step));
        Self::new(layout, self.spread(), kept.copied().collect())
    }
}

#[cfg(test)]
mod tests {
    #![allow(
        clippy::expect_used,
        clippy::float_cmp,
        clippy::indexing_slicing,
        clippy::panic,
        clippy::unwrap_used,
        reason = "a test may stop where it fails"
    )]

    use super::{Bounds, Window};
    use crate::earth::{Grid, LatLon};
    use crate::ground::{HeightSpread, Heights, Lattice, Layout, Post};

    fn degrees() -> Layout {
        Layout { lattice: Lattice::Geographic, columns: 11, rows: 11, west: 179.5, north: 46.0, step_east: 0.1, step_south: 0.1 }
    }

    fn bounds(south: f64, west: f64, north: f64, east: f64) -> Bounds {
        Bounds { south_west: LatLon::new(south, west).unwrap(), north_east: LatLon::new(north, east).unwrap() }
    }

    #[test]
    fn an_area_over_the_date_line_is_one_window() {
        let window = degrees().window(&bounds(45.42, 179.91, 45.58, -179.95)).unwrap();
        assert_eq!(window, Some(Window { left: 3, top: 3, columns: 5, rows: 5 }));
        assert_eq!(degrees().window(&bounds(45.4, 10.0, 45.6, 11.0)).unwrap(), None, "half the world away");
        assert_eq!(degrees().window(&bounds(46.2, 179.9, 46.4, 180.0)).unwrap(), None, "north of it");
        assert_eq!(degrees().window(&bounds(40.0, 100.0, 50.0, -100.0)).unwrap(), Some(Window::whole(&degrees())));
    }

    #[test]
    fn every_place_of_an_area_lies_between_the_posts_of_its_window() {
        let grid = Grid::named("33N").unwrap();
        let (west, north) = (400_000.0, 5_100_000.0);
        let layout = Layout { lattice: Lattice::Projected(grid), columns: 400, rows: 300, west, north, step_east: 50.0, step_south: 50.0 };
        let area = bounds(45.93, 13.75, 45.99, 13.9);
        let window = layout.window(&area).unwrap().unwrap();
        let cut = layout.cut(&window);
        assert!(window.posts() < layout.columns * layout.rows);
        for step in 0..=40_u8 {
            let t = f64::from(step) / 40.0;
            for place in [(t, 0.0), (t, 1.0), (0.0, t), (1.0, t)].map(|(east, north)| area.place(east, north)) {
                let Post { column, row } = cut.post_of(place).unwrap();
                assert!(column >= 0.0 && row >= 0.0 && column <= (cut.columns - 1) as f64 && row <= (cut.rows - 1) as f64);
            }
        }
    }

    #[test]
    fn a_cut_keeps_each_height_in_its_place() {
        let spread = HeightSpread { sigma_m: 5.0, correlation_m: 300.0 };
        let heights = Heights::new(degrees(), spread, (0..121_u8).map(f32::from).collect()).unwrap();
        let cut = heights.cut(&Window { left: 2, top: 4, columns: 3, rows: 5 }).unwrap();
        let at = LatLon::new(45.35, 179.85).unwrap();
        assert!((cut.at_m(at).unwrap() - heights.at_m(at).unwrap()).abs() < 1e-9);
        assert_eq!(cut.post_m(0, 0), Some(46.0));
        assert!(heights.cut(&Window { left: 9, top: 0, columns: 3, rows: 2 }).is_err());
    }
}

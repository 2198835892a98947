//! Where the posts of a grid of heights stand on the earth.

use crate::earth::{Grid, GridError, LatLon, geodesic_between};
use crate::measure::{Arg, Message, Point, Telling};

/// A place among the posts of a grid: columns to the east and rows to the south of its first post. Whole numbers are posts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Post {
    /// Columns east of the north-western post.
    pub column: f64,
    /// Rows south of the north-western post.
    pub row: f64,
}

/// In which coordinates the posts stand in equal steps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Lattice {
    /// Longitude and latitude in degrees, WGS 84.
    Geographic,
    /// Eastings and northings of a grid.
    Projected(Grid),
}

/// Where the posts of a grid stand: the north-western one, and the steps from post to post.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// The coordinates in which they stand.
    pub lattice: Lattice,
    /// Columns of posts, west to east.
    pub columns: usize,
    /// Rows of posts, north to south.
    pub rows: usize,
    /// Longitude or easting of the first column.
    pub west: f64,
    /// Latitude or northing of the first row.
    pub north: f64,
    /// From column to column, degrees or grid units, positive.
    pub step_east: f64,
    /// From row to row, degrees or grid units, positive.
    pub step_south: f64,
}

/// Most posts of one grid: two degree tiles of one second, or 27 km by 27 km every 5 m. Three such grids, as joining holds them, and a file stay
/// below 512 MB.
const MOST_POSTS: usize = 30_000_000;

/// Why heights cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum HeightsError {
    /// Fewer than two columns or rows, or steps that are no lengths.
    #[error("heights-layout")]
    Layout,
    /// More posts than are held.
    #[error("heights-too-many")]
    TooMany(usize),
    /// Another number of values than the layout has posts.
    #[error("heights-count")]
    Count {
        /// Posts of the layout.
        posts: usize,
        /// Values given.
        values: usize,
    },
}

impl Telling for HeightsError {
    fn message(&self) -> Message {
        let count = |number: usize| Arg::Count(i64::try_from(number).unwrap_or(i64::MAX));
        match self {
            Self::Layout => Message::new("heights-layout"),
            Self::TooMany(posts) => Message::new("heights-too-many").with("posts", count(*posts)).with("most", count(MOST_POSTS)),
            Self::Count { posts, values } => Message::new("heights-count").with("posts", count(*posts)).with("values", count(*values)),
        }
    }
}

impl Layout {
    /// The number of posts; `None` when the layout cannot be.
    ///
    /// # Errors
    /// [`HeightsError::Layout`], [`HeightsError::TooMany`].
    pub fn posts(&self) -> Result<usize, HeightsError> {
        let sound = self.columns >= 2 && self.rows >= 2;
        let steps = [self.step_east, self.step_south].iter().all(|step| step.is_finite() && *step > 0.0);
        if !(sound && steps && self.west.is_finite() && self.north.is_finite()) {
            return Err(HeightsError::Layout);
        }
        let posts = self.columns.saturating_mul(self.rows);
        if posts > MOST_POSTS { Err(HeightsError::TooMany(posts)) } else { Ok(posts) }
    }

    /// Where a place lies among the posts; it may lie outside them.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no coordinates for the place.
    pub fn post_of(&self, at: LatLon) -> Result<Post, GridError> {
        let (x, y) = match &self.lattice {
            Lattice::Geographic => {
                let middle = self.west + self.step_east * self.columns as f64 / 2.0;
                (middle + (at.lon_deg() - middle + 180.0).rem_euclid(360.0) - 180.0, at.lat_deg())
            }
            Lattice::Projected(grid) => grid.project(at).map(|point| (point.east_m, point.north_m))?,
        };
        Ok(Post { column: (x - self.west) / self.step_east, row: (self.north - y) / self.step_south })
    }

    /// Metres from a place to the nearest end of the posts; negative outside them.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no coordinates there.
    pub fn to_the_end_m(&self, at: LatLon) -> Result<f64, GridError> {
        let post = self.post_of(at)?;
        let (east_m, south_m) = self.spacing_in_middle_m()?;
        let columns = post.column.min((self.columns - 1) as f64 - post.column);
        let rows = post.row.min((self.rows - 1) as f64 - post.row);
        Ok((columns * east_m).min(rows * south_m))
    }

    /// The place of a post on the earth.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no place for it.
    pub fn place_of(&self, post: Post) -> Result<LatLon, GridError> {
        let (x, y) = (self.west + post.column * self.step_east, self.north - post.row * self.step_south);
        match &self.lattice {
            Lattice::Geographic => Ok(LatLon::computed(y, x)),
            Lattice::Projected(grid) => grid.unproject(Point::new(x, y)),
        }
    }

    /// Metres on the ground from column to column and from row to row, in the middle of the grid.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no place for it.
    pub fn spacing_in_middle_m(&self) -> Result<(f64, f64), GridError> {
        self.spacing_m(Post { column: self.columns as f64 / 2.0, row: self.rows as f64 / 2.0 })
    }

    /// Metres on the ground from column to column and from row to row, at a post.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no place for it.
    pub fn spacing_m(&self, post: Post) -> Result<(f64, f64), GridError> {
        let at = |column: f64, row: f64| self.place_of(Post { column: post.column + column, row: post.row + row });
        let east_m = geodesic_between(at(-0.5, 0.0)?, at(0.5, 0.0)?).0;
        let south_m = geodesic_between(at(0.0, -0.5)?, at(0.0, 0.5)?).0;
        Ok((east_m, south_m))
    }
}

//! The ground at a walker's feet: steps of metres on the grid, and what rises or falls.

use super::aspect::{Aspect, Gradient};
use super::rise::Rise;
use crate::earth::{GridError, LatLon, geodesic_from};
use crate::ground::{Heights, Layout, Post};
use crate::measure::TrueBearing;

/// Half the length over which the run of the posts is measured, metres.
const HALF_M: f64 = 50.0;

/// Parts of a way at whose ends it is looked for what stands or lies on it, the least of that, metres, and how far it is to be trusted (our own choices).
const PARTS: u8 = 20;
const LEAST_M: f64 = 3.0;
const SURE: f64 = 0.5;

/// How far from a post the ground underfoot is looked at, metres; at least one post.
const UNDERFOOT_M: f64 = 50.0;

/// How far the posts move with a metre on the ground, around one place.
///
/// # Accuracy
/// Within 20 km of the place a step of 100 m ends within 1 m of where it should, below 65° of latitude.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// Columns and rows per metre to true east.
    per_east: Post,
    /// Columns and rows per metre to true north.
    per_north: Post,
}

impl Steps {
    /// The steps around a place.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no coordinates there.
    pub fn at(layout: &Layout, place: LatLon) -> Result<Self, GridError> {
        let per = |bearing_deg: f64| -> Result<Post, GridError> {
            let end = |bearing_deg: f64| layout.post_of(geodesic_from(place, TrueBearing::new(bearing_deg), HALF_M).0);
            let (ahead, behind) = (end(bearing_deg)?, end(bearing_deg + 180.0)?);
            let share = |ahead: f64, behind: f64| (ahead - behind) / (2.0 * HALF_M);
            Ok(Post { column: share(ahead.column, behind.column), row: share(ahead.row, behind.row) })
        };
        Ok(Self { per_east: per(90.0)?, per_north: per(0.0)? })
    }

    /// The place among the posts so many metres from one on a true bearing.
    #[must_use]
    pub fn from(&self, post: Post, bearing: TrueBearing, distance_m: f64) -> Post {
        let (sin, cos) = bearing.degrees().to_radians().sin_cos();
        let (east_m, north_m) = (distance_m * sin, distance_m * cos);
        Post {
            column: post.column + east_m * self.per_east.column + north_m * self.per_north.column,
            row: post.row + east_m * self.per_east.row + north_m * self.per_north.row,
        }
    }

    /// Metres from post to post, the greater of the two ways.
    fn spacing_m(&self) -> f64 {
        (1.0 / self.per_east.column.hypot(self.per_east.row)).max(1.0 / self.per_north.column.hypot(self.per_north.row))
    }
}

/// Heights with the steps around one place: made once, asked at every place within 20 km.
#[derive(Debug, Clone, Copy)]
pub struct Footing<'a> {
    heights: &'a Heights,
    steps: Steps,
}

impl<'a> Footing<'a> {
    /// The ground around a place.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no coordinates there.
    pub fn new(heights: &'a Heights, around: LatLon) -> Result<Self, GridError> {
        Ok(Self { heights, steps: Steps::at(heights.layout(), around)? })
    }

    /// How the ground rises from a post over a distance on a true bearing; `None` where either height is not known.
    ///
    /// # Units
    /// Metres; the usual distance is [`Rise::USUAL_M`].
    #[must_use]
    pub fn rise(&self, from: Post, bearing: TrueBearing, distance_m: f64) -> Option<Rise> {
        let end_m = self.heights.at_post_m(self.steps.from(from, bearing, distance_m))?;
        let rise_m = end_m - self.heights.at_post_m(from)?;
        (distance_m > 0.0).then(|| Rise::new(bearing, distance_m, rise_m, self.heights.spread().of_difference_m(distance_m)))
    }

    /// How far the ground between a post and the end of a way lies below, or stands above (positive), both of its ends; the farther of the two, where that is
    /// more than the heights may be wrong. `None` where it is neither, or not known.
    ///
    /// # Accuracy
    /// Looked at every twentieth of the way.
    #[must_use]
    pub fn on_the_way_m(&self, from: Post, bearing: TrueBearing, distance_m: f64) -> Option<f64> {
        let at_m = |part: u8| self.heights.at_post_m(self.steps.from(from, bearing, distance_m * f64::from(part) / f64::from(PARTS)));
        let heights_m = (0..=PARTS).map(at_m).collect::<Option<Vec<f64>>>()?;
        let (first_m, last_m) = heights_m.first().copied().zip(heights_m.last().copied())?;
        let lowest_m = heights_m.iter().copied().fold(f64::INFINITY, f64::min) - first_m.min(last_m);
        let highest_m = heights_m.iter().copied().fold(f64::NEG_INFINITY, f64::max) - first_m.max(last_m);
        let off_m = if -lowest_m > highest_m { lowest_m } else { highest_m };
        let is_told = off_m.abs() >= LEAST_M && self.heights.spread().strength(off_m.abs(), distance_m / 2.0) >= SURE;
        is_told.then_some(off_m)
    }

    /// The slope underfoot and the direction it falls towards; `None` where a height around the post is not known.
    ///
    /// # Accuracy
    /// A plane through eight heights 50 m around, or one post when posts are farther apart.
    #[must_use]
    pub fn aspect(&self, at: Post) -> Option<Aspect> {
        let radius_m = UNDERFOOT_M.max(self.steps.spacing_m());
        let mut heights_m = [0.0; 8];
        for (height_m, eighth) in heights_m.iter_mut().zip(0_u8..) {
            *height_m = self.heights.at_post_m(self.steps.from(at, TrueBearing::new(45.0 * f64::from(eighth)), radius_m))?;
        }
        Some(Gradient::through(&heights_m, radius_m, self.heights.spread()).aspect())
    }
}

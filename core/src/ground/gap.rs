//! Ground without heights around a place.

use super::{Bounds, Heights};
use crate::earth::{GridError, LatLon};

/// An area is looked at in so many places along each side.
const PLACES: u32 = 100;

/// What is not known of the ground around a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// How near the nearest ground without a height comes, metres.
    pub from_m: f64,
    /// Its share of the ground that was looked over and lies inside the grid, 0 to 1.
    pub share: f64,
}

impl Heights {
    /// The ground within a distance of a place that has no height; `None` where all of it has. What lies beyond the border of the grid
    /// is no part of it.
    ///
    /// # Units
    /// Metres.
    ///
    /// # Accuracy
    /// By posts: the distance is within one step of them, the share within their number.
    ///
    /// # Errors
    /// [`GridError`] when the grid has no coordinates for the place.
    pub fn gap_around(&self, at: LatLon, within_m: f64) -> Result<Option<Gap>, GridError> {
        let layout = self.layout();
        let middle = layout.post_of(at)?;
        let (east_m, south_m) = layout.spacing_m(middle)?;
        let (mut posts, mut unknown, mut nearest_m) = (0_usize, 0_usize, f64::INFINITY);
        for (row, values) in self.values_m().chunks(layout.columns).enumerate() {
            let down_m = (row as f64 - middle.row) * south_m;
            if down_m.abs() > within_m {
                continue;
            }
            for (column, value) in values.iter().enumerate() {
                let away_m = down_m.hypot((column as f64 - middle.column) * east_m);
                if away_m <= within_m {
                    posts += 1;
                    if value.is_nan() {
                        unknown += 1;
                        nearest_m = nearest_m.min(away_m);
                    }
                }
            }
        }
        let from_m = (nearest_m - east_m.min(south_m)).max(0.0);
        Ok((unknown > 0).then(|| Gap { from_m, share: unknown as f64 / posts as f64 }))
    }
    /// The share of an area that has no height, outside of the grid or in a gap of it, 0 to 1.
    ///
    /// # Accuracy
    /// By 100 places along each side.
    #[must_use]
    pub fn share_without(&self, area: &Bounds) -> f64 {
        let (low, high) = (area.south_west, area.north_east);
        let wide_deg = (high.lon_deg() - low.lon_deg()).rem_euclid(360.0);
        let share = |i: u32| (f64::from(i) + 0.5) / f64::from(PLACES);
        let at = |row: u32, column: u32| {
            LatLon::computed(low.lat_deg() + share(row) * (high.lat_deg() - low.lat_deg()), low.lon_deg() + share(column) * wide_deg)
        };
        let places = (0..PLACES).flat_map(|row| (0..PLACES).map(move |column| (row, column)));
        let without = places.filter(|(row, column)| self.at_m(at(*row, *column)).is_none()).count();
        without as f64 / f64::from(PLACES * PLACES)
    }
}

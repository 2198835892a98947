//! The area that a grid is made for.

use proj::Area;

use super::known::Known;
use crate::earth::{LatLon, geodesic_between};

/// From its western to its eastern border, degrees: about a pole the whole circle.
fn width_deg(area: &Area) -> f64 {
    let width_deg = area.east - area.west;
    if width_deg >= 360.0 { 360.0 } else { width_deg.rem_euclid(360.0) }
}

/// Whether a place lies in an area, or no farther than a margin beside it.
pub(super) fn lies_in(area: &Area, at: LatLon, margin_deg: f64) -> bool {
    let east_of_west = (at.lon_deg() - area.west + margin_deg).rem_euclid(360.0);
    let width = width_deg(area) + 2.0 * margin_deg;
    let whole_circle = area.east - area.west >= 340.0;
    let high_enough = at.lat_deg() >= area.south - margin_deg && at.lat_deg() <= area.north + margin_deg;
    high_enough && (whole_circle || east_of_west <= width)
}

impl Known {
    /// How far a place lies outside the area of use, metres; 0 inside and where none is registered.
    pub(super) fn beyond_area_m(&self, at: LatLon) -> f64 {
        let Some(area) = self.area.as_ref().filter(|_| !self.reaches(at, 0.0)) else { return 0.0 };
        let lat_deg = at.lat_deg().clamp(area.south.min(area.north), area.north.max(area.south));
        let width_deg = width_deg(area);
        let is_within = (at.lon_deg() - area.west).rem_euclid(360.0) <= width_deg;
        let meridians = if is_within { [at.lon_deg(); 2] } else { [area.west, area.east] };
        let to = |lon_deg: f64| geodesic_between(at, LatLon::computed(lat_deg, lon_deg)).0;
        meridians.into_iter().map(to).fold(f64::INFINITY, f64::min)
    }

    /// The middle of the area of use.
    pub(super) fn middle(&self) -> Option<LatLon> {
        let area = self.area.as_ref()?;
        let width_deg = width_deg(area);
        Some(LatLon::computed(f64::midpoint(area.south, area.north), area.west + width_deg / 2.0))
    }

    /// Whether a place lies in the area of use, or beside it.
    pub(super) fn reaches(&self, at: LatLon, margin_deg: f64) -> bool {
        self.area.as_ref().is_none_or(|area| lies_in(area, at, margin_deg))
    }
}

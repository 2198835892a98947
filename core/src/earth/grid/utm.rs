//! UTM and UPS on WGS 84 without PROJ: a list of places from all over the earth needs no object of PROJ for each zone.

use crate::earth::LatLon;
use crate::measure::Point;

/// A zone of the crate whose edges are nowhere moved, and its middle meridian, degrees: Norway and Svalbard lie elsewhere.
const PLAIN_ZONE_MIDDLE_DEG: f64 = -123.0;
/// Half a zone.
const HALF_ZONE_DEG: f64 = 3.0;

/// Easting and northing of a place in a zone (0 of UPS), where it lies within 3° of its middle, or near its pole; nothing elsewhere.
///
/// # Accuracy
/// 5 nm against GeographicLib 2.1.2; the longitude moved to the plain zone is rounded to 3e-14°, 3 nm.
pub(super) fn point_of(zone: u8, at: LatLon) -> Option<Point> {
    let off_deg = (at.lon_deg() - middle_deg(zone) + 180.0).rem_euclid(360.0) - 180.0;
    if zone > 0 && off_deg.abs() >= HALF_ZONE_DEG {
        return None;
    }
    let lon_deg = if zone > 0 { PLAIN_ZONE_MIDDLE_DEG + off_deg } else { at.lon_deg() };
    let utm = mgrs_convert::LatLon::new(at.lat_deg(), lon_deg).ok()?.to_utmups();
    ((utm.zone() == 0) == (zone == 0)).then(|| Point::new(utm.easting(), utm.northing()))
}

fn middle_deg(zone: u8) -> f64 {
    f64::from(zone) * 6.0 - 183.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::point_of;
    use crate::earth::LatLon;
    use crate::earth::grid::Grid;
    use crate::earth::grid::known::known;

    /// PROJ in the version of the library, over zones, both halves, the widened ones and the poles.
    #[test]
    fn it_agrees_with_proj() {
        let place = |step| LatLon::new(f64::from(step * 37 % 1799) / 10.0 - 89.9, f64::from(step * 101 % 3599) / 10.0 - 179.9).unwrap();
        let mut places: Vec<(Grid, LatLon)> = (0..2_000).map(place).map(|at| (Grid::of_place(at), at)).collect();
        // Grid by grid: PROJ is slow to make one, and few are kept at hand.
        places.sort_by(|(a, _), (b, _)| a.definition().cmp(b.definition()));
        let mut compared = 0;
        for (grid, at) in places {
            let Some(point) = point_of(grid.zone().unwrap(), at) else { continue };
            let by_proj = known(grid.definition()).unwrap().point_of(at).unwrap();
            let off_m = point.minus(by_proj).length_m();
            assert!(off_m < 1e-6, "{at:?}: {off_m}");
            compared += 1;
        }
        assert!(compared > 1_900, "{compared}");
    }
}

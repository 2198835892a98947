//! How much of the earth a sheet takes in.

use super::Sheet;
use crate::earth::{LatLon, geodesic_between};
use crate::ground::Bounds;
use crate::measure::Point;

/// Places asked for along each edge of the sheet's plane: meridians and parallels bend in it.
const EDGE_PLACES: u8 = 16;

impl Sheet {
    /// The meridians and parallels that hold every line and landmark, and `beyond_m` metres more on each side.
    ///
    /// # Accuracy
    /// Every place in it is inside; up to 2 % of the sheet's width more may be, because meridians bend in the plane.
    #[must_use]
    pub fn bounds(&self, beyond_m: f64) -> Bounds {
        let (low, high) = self.area(beyond_m);
        let middle_deg = self.frame.origin().lon_deg();
        let (mut south, mut north) = (90.0_f64, -90.0_f64);
        let (mut west, mut east) = (180.0_f64, -180.0_f64);
        for point in edges(low, high) {
            let at = self.frame.to_earth(point);
            let apart_deg = (at.lon_deg() - middle_deg + 180.0).rem_euclid(360.0) - 180.0;
            (south, north) = (south.min(at.lat_deg()), north.max(at.lat_deg()));
            (west, east) = (west.min(apart_deg), east.max(apart_deg));
        }
        let corner = |lat_deg: f64, apart_deg: f64| LatLon::computed(lat_deg, middle_deg + apart_deg);
        Bounds { south_west: corner(south, west), north_east: corner(north, east) }
    }

    /// The corners, south-west and north-east, of the plane's smallest upright rectangle around everything on the sheet, and
    /// `beyond_m` metres more on each side.
    #[must_use]
    pub fn area(&self, beyond_m: f64) -> (Point, Point) {
        let on_lines = self.lines.iter().flat_map(|line| line.points());
        let all = on_lines.chain(self.landmarks.iter().map(|landmark| landmark.at));
        let (low, high) = all.fold((Point::default(), Point::default()), |(low, high), at| {
            let least = Point::new(low.east_m.min(at.east_m), low.north_m.min(at.north_m));
            (least, Point::new(high.east_m.max(at.east_m), high.north_m.max(at.north_m)))
        });
        let beyond = Point::new(beyond_m, beyond_m);
        (low.minus(beyond), high.plus(beyond))
    }

    /// How far a place lies from the nearest thing on the sheet, metres along the geodesic.
    #[must_use]
    pub fn away_m(&self, at: LatLon) -> f64 {
        let point = self.frame.to_plane(at);
        let on_lines = self.lines.iter().map(|line| line.nearest(point).at);
        let all = on_lines.chain(self.landmarks.iter().map(|landmark| landmark.at));
        all.map(|there| geodesic_between(at, self.to_earth(there)).0).fold(f64::INFINITY, f64::min)
    }

    /// How far everything on the sheet lies from its middle at most, metres.
    #[must_use]
    pub fn reach_m(&self) -> f64 {
        let (low, high) = self.area(0.0);
        Point::new(high.east_m.max(-low.east_m), high.north_m.max(-low.north_m)).length_m()
    }
}

/// Places along the four edges of a rectangle.
fn edges(low: Point, high: Point) -> impl Iterator<Item = Point> {
    let between = |from: f64, to: f64, step: u8| from + (to - from) * f64::from(step) / f64::from(EDGE_PLACES);
    (0..=EDGE_PLACES).flat_map(move |step| {
        let (east_m, north_m) = (between(low.east_m, high.east_m, step), between(low.north_m, high.north_m, step));
        [(east_m, low.north_m), (east_m, high.north_m), (low.east_m, north_m), (high.east_m, north_m)]
            .map(|(east_m, north_m)| Point::new(east_m, north_m))
    })
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

    use crate::earth::{LatLon, geodesic_between};
    use crate::sheet::{DraftLandmark, DraftLine, Paper, Sheet, SheetDraft};

    fn sheet(lat_deg: f64, lon_deg: f64) -> Sheet {
        let line = DraftLine {
            name: "road".into(),
            kind: "road".into(),
            points: vec![(lat_deg, lon_deg), (lat_deg + 0.05, lon_deg + 0.02)],
            spread_m: 0.0,
            ..DraftLine::default()
        };
        let mast =
            DraftLandmark { name: "mast".into(), kind: "mast".into(), at: (lat_deg - 0.03, lon_deg + 0.04), spread_m: 0.0, height_m: None };
        let (name, grid) = ("s".into(), None);
        let draft = SheetDraft {
            name,
            grid,
            position_spread_m: None,
            norths: None,
            lines: vec![line],
            known_points: vec![],
            landmarks: vec![mast],
            paper: Paper::default(),
        };
        Sheet::build(&draft).unwrap()
    }

    /// The metres are geodesics by `geographiclib-rs` on WGS 84.
    #[test]
    fn the_bounds_lie_so_far_beyond_everything() {
        for (lat_deg, lon_deg) in [(46.0, 14.0), (-41.0, 179.97), (70.0, -179.99)] {
            let bounds = sheet(lat_deg, lon_deg).bounds(2000.0);
            let (south_west, north_east) = (bounds.south_west, bounds.north_east);
            let middle_deg = lon_deg + 0.02;
            let south =
                geodesic_between(LatLon::computed(south_west.lat_deg(), middle_deg), LatLon::computed(lat_deg - 0.03, middle_deg)).0;
            let north =
                geodesic_between(LatLon::computed(north_east.lat_deg(), middle_deg), LatLon::computed(lat_deg + 0.05, middle_deg)).0;
            let west = geodesic_between(LatLon::computed(lat_deg, south_west.lon_deg()), LatLon::computed(lat_deg, lon_deg)).0;
            let east = geodesic_between(LatLon::computed(lat_deg, lon_deg + 0.04), LatLon::computed(lat_deg, north_east.lon_deg())).0;
            for (side, beyond_m) in [("south", south), ("north", north), ("west", west), ("east", east)] {
                assert!((1990.0..2120.0).contains(&beyond_m), "{side} of {lat_deg}, {lon_deg}: {beyond_m}");
            }
        }
    }
}

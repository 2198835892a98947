//! Distances and bearings on the ellipsoid, by the crate `geographiclib-rs`.
//!
//! # References
//! C. F. F. Karney (2013), Algorithms for geodesics, J. Geodesy 87, 43-55.

use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};

use super::LatLon;
use crate::measure::TrueBearing;

/// Distance in metres, true bearing at the start, and true bearing on arrival, on WGS 84.
///
/// Accuracy: 4 nm against GeographicLib for Python 2.1.
#[must_use]
pub fn geodesic_between(from: LatLon, to: LatLon) -> (f64, TrueBearing, TrueBearing) {
    let (distance_m, start_deg, end_deg, _arc): (f64, f64, f64, f64) =
        Geodesic::wgs84().inverse(from.lat_deg(), from.lon_deg(), to.lat_deg(), to.lon_deg());
    (distance_m, TrueBearing::new(start_deg), TrueBearing::new(end_deg))
}

/// How far the far end of a geodesic moves aside for each radian that it is turned by, metres: near by the distance itself, less
/// and less towards the far side of the earth, where every bearing leads.
///
/// Accuracy: as [`geodesic_between`].
#[must_use]
pub fn reduced_length_m(from: LatLon, to: LatLon) -> f64 {
    let (_, _, _, reduced_m, _arc): (f64, f64, f64, f64, f64) =
        Geodesic::wgs84().inverse(from.lat_deg(), from.lon_deg(), to.lat_deg(), to.lon_deg());
    reduced_m.abs()
}

/// The place `distance_m` from `from` along a geodesic that leaves with a true bearing, and the bearing on arrival.
#[must_use]
pub fn geodesic_from(from: LatLon, bearing: TrueBearing, distance_m: f64) -> (LatLon, TrueBearing) {
    let (lat_deg, lon_deg, end_deg): (f64, f64, f64) =
        Geodesic::wgs84().direct(from.lat_deg(), from.lon_deg(), bearing.degrees(), distance_m);
    (LatLon::computed(lat_deg, lon_deg), TrueBearing::new(end_deg))
}

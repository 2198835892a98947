//! Zones of UTM: references counted on over a zone's edge, as a sheet's grid is printed, and how far beyond it a place lies.

use mgrs_convert::{Precision, UtmUps};

use super::mgrs::{mgrs_of, split_digits};
use super::{OWN_TOLERANCE, steadied};
use crate::earth::{Grid, LatLon, geodesic_between};
use crate::measure::Point;

/// The zone that a place belongs to, the exceptions of Norway and Svalbard included; 0 near a pole.
#[must_use]
pub fn zone_of(at: LatLon) -> u8 {
    zone_in(&mgrs_of(at, 2)).unwrap_or(0)
}

/// The zone with which a reference or the beginning of one begins: one or two figures before a letter.
#[must_use]
pub fn zone_in(text: &str) -> Option<u8> {
    let upper = text.trim_start().to_ascii_uppercase();
    let typed = upper.trim_start_matches("UTM").trim_start();
    let rest = typed.trim_start_matches(|c: char| c.is_ascii_digit());
    let is_before_letter = rest.trim_start().starts_with(|c: char| c.is_ascii_alphabetic());
    typed.strip_suffix(rest)?.parse().ok().filter(|zone| is_before_letter && (1..=60).contains(zone))
}

/// The MGRS reference of a place counted in a zone, also where that is not the place's own, cut to 2 to 10 digits and without
/// spaces; nothing where the zone has no squares any more (400 km from its middle), or for 0 away from a pole.
///
/// # Accuracy
/// As [`mgrs_of`] in the place's own zone, else that of PROJ, below a micrometre.
#[must_use]
pub fn mgrs_in_zone(zone: u8, at: LatLon, digits: u8) -> Option<String> {
    if zone == zone_of(at) {
        return Some(mgrs_of(at, digits));
    }
    let north = at.lat_deg() >= 0.0;
    let point = Grid::of_zone(zone, at).project(at).ok()?;
    let Point { east_m, north_m } = Point::new(steadied(point.east_m, OWN_TOLERANCE), steadied(point.north_m, OWN_TOLERANCE));
    let counted = if zone == 0 { UtmUps::ups(north, east_m, north_m) } else { UtmUps::utm(zone, north, east_m, north_m) };
    let precision = Precision::new((digits / 2).clamp(1, 5)).ok()?;
    Some(counted.ok()?.to_mgrs(precision).ok()?.to_string())
}

/// Zone and band of a place counted in a zone: "33T", as a sheet's references begin.
#[must_use]
pub fn zone_and_band(zone: u8, at: LatLon) -> Option<String> {
    let reference = mgrs_in_zone(zone, at, 2)?;
    let (letters, _) = split_digits(&reference);
    letters.get(..letters.len().checked_sub(2)?).map(str::to_owned)
}

/// How far a place lies beyond the nearer edge of a zone, metres along its parallel; 0 inside. Zone 0 is UPS: along the meridian to
/// 84° N or 80° S.
///
/// # References
/// NGA.STND.0037_2.0.0_GRIDS (2014): zones of 6° from 180° W on; 31V ends at 3° E, where 32V begins; in band X zones 31, 33, 35
/// and 37 end at 9°, 21° and 33° E.
#[must_use]
pub fn beyond_zone_m(at: LatLon, zone: u8) -> f64 {
    let own = zone_of(at);
    if zone == own {
        return 0.0;
    }
    if own == 0 || zone == 0 {
        let edge_deg = if at.lat_deg() > 0.0 { 84.0 } else { -80.0 };
        return geodesic_between(at, LatLon::computed(edge_deg, at.lon_deg())).0;
    }
    let (west, east) = edges_deg(zone, at.lat_deg());
    let to = |edge_deg: f64| geodesic_between(at, LatLon::computed(at.lat_deg(), edge_deg)).0;
    to(west).min(to(east))
}

/// The meridians between which a zone lies at a latitude, degrees.
fn edges_deg(zone: u8, lat_deg: f64) -> (f64, f64) {
    let west = f64::from(zone) * 6.0 - 186.0;
    match zone {
        31 if (56.0..64.0).contains(&lat_deg) => (0.0, 3.0),
        32 if (56.0..64.0).contains(&lat_deg) => (3.0, 12.0),
        31 if lat_deg >= 72.0 => (0.0, 9.0),
        33 if lat_deg >= 72.0 => (9.0, 21.0),
        35 if lat_deg >= 72.0 => (21.0, 33.0),
        37 if lat_deg >= 72.0 => (33.0, 42.0),
        _ => (west, west + 6.0),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::{beyond_zone_m, mgrs_in_zone, zone_and_band, zone_in, zone_of};
    use crate::earth::{LatLon, Terms, read_place};

    fn place(lat_deg: f64, lon_deg: f64) -> LatLon {
        LatLon::new(lat_deg, lon_deg).unwrap()
    }

    /// Eastings and northings by pyproj 3.7.2 in zone 33: 745045.99, 4949051.31 and 826297.60, 6321079.44 (south); letters by the
    /// scheme of NGA.STND.0037, by hand.
    #[test]
    fn a_reference_is_counted_on_over_its_zones_edge_and_read_again() {
        for (at, wanted) in [(place(44.653, 18.0905), "33TYK4504549051"), (place(-33.2, 18.5), "33HZD2629721079")] {
            let written = mgrs_in_zone(33, at, 10).unwrap();
            assert_eq!(written, wanted);
            let read = read_place(&written, &Terms::default()).unwrap();
            assert!(crate::earth::geodesic_between(read.at, at).0 < 0.71 && read.zone == Some(33));
        }
        assert_eq!(mgrs_in_zone(33, place(44.653, 24.0), 10), None, "zone 33 has no squares there");
        assert_eq!(zone_and_band(33, place(44.653, 18.0905)).as_deref(), Some("33T"));
    }

    /// Distances along the ellipsoid by pyproj 3.7.2 (Geod): 44.653° N from 18° to 18.0905° E, 60.5° N from 12° to 13° E, 78° N from
    /// 10° to 9° E.
    #[test]
    fn how_far_a_place_lies_beyond_a_zone() {
        for (at, zone, wanted_m) in
            [(place(44.653, 18.0905), 33, 7178.5766), (place(60.5, 13.0), 32, 54955.3326), (place(78.0, 10.0), 31, 23218.8202)]
        {
            assert!((beyond_zone_m(at, zone) - wanted_m).abs() < 0.001, "{zone}: {}", beyond_zone_m(at, zone));
        }
        // By the same library: 81° N to 84° N along the meridian.
        assert!((beyond_zone_m(place(81.0, 10.0), 0) - 335_023.488).abs() < 0.01, "{}", beyond_zone_m(place(81.0, 10.0), 0));
        assert!(beyond_zone_m(place(44.653, 17.9), 33) == 0.0 && zone_of(place(85.0, 10.0)) == 0);
    }

    #[test]
    fn the_zone_of_a_beginning() {
        assert_eq!(["33TYK", "3 3T", "utm 7n", "SU", "61T", "450490"].map(zone_in), [Some(33), None, Some(7), None, None, None]);
    }
}

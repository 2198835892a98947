//! Older datums that the numbers of a place may be counted on.

use proj::Proj;

use super::LatLon;

/// An older datum by its mean shift to WGS 84.
///
/// # References
/// EPSG Dataset (in the database of PROJ): geocentric translations 1173, 1133, 1195, 1254, 1230 and 1108, published first in NIMA
/// TR8350.2 (2000), each the mean of a continent or country. Table `tests/tables/fix/old_datums.json`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OldDatum {
    name: &'static str,
    /// Semi-major axis and inverse flattening of its ellipsoid.
    ellipsoid: (f64, f64),
    shift_m: (f64, f64, f64),
    /// What the mean shift leaves, one sigma per axis, metres.
    spread_m: f64,
    /// Roughly where it was in use: south, west, north, east in degrees.
    area_deg: (f64, f64, f64, f64),
}

/// What the numbers of a place are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counted {
    /// Metres of UTM, as in a military reference.
    Utm,
    /// Latitude and longitude.
    Degrees,
}

const KNOWN: [OldDatum; 6] = [
    // Clarke 1866
    OldDatum {
        name: "NAD27",
        ellipsoid: (6_378_206.4, 294.978_698_213_898_2),
        shift_m: (-8.0, 160.0, 176.0),
        spread_m: 10.0,
        area_deg: (14.0, -170.0, 75.0, -50.0),
    },
    // International 1924
    OldDatum {
        name: "ED50",
        ellipsoid: (6_378_388.0, 297.0),
        shift_m: (-87.0, -98.0, -121.0),
        spread_m: 10.0,
        area_deg: (34.0, -12.0, 72.0, 45.0),
    },
    // Airy 1830
    OldDatum {
        name: "OSGB36",
        ellipsoid: (6_377_563.396, 299.324_964_6),
        shift_m: (375.0, -111.0, 431.0),
        // EPSG states 21 m; the finer 1314 lies 7 m an axis from it.
        spread_m: 10.0,
        area_deg: (49.5, -9.0, 61.5, 2.5),
    },
    // Krassowsky 1940
    OldDatum {
        name: "Pulkovo 1942",
        ellipsoid: (6_378_245.0, 298.3),
        shift_m: (28.0, -130.0, -95.0),
        // EPSG states none; the finer 1267 lies 12 m an axis from it.
        spread_m: 15.0,
        area_deg: (35.0, 12.0, 82.0, 180.0),
    },
    // Bessel 1841
    OldDatum {
        name: "Tokyo",
        ellipsoid: (6_377_397.155, 299.152_812_8),
        shift_m: (-148.0, 507.0, 685.0),
        spread_m: 29.0,
        area_deg: (20.0, 122.0, 46.0, 154.0),
    },
    // Australian National Spheroid
    OldDatum {
        name: "AGD66",
        ellipsoid: (6_378_160.0, 298.25),
        shift_m: (-133.0, -48.0, 148.0),
        spread_m: 6.0,
        area_deg: (-45.0, 108.0, -8.0, 156.0),
    },
];

impl OldDatum {
    /// The datums that were in use about a place.
    #[must_use]
    pub fn in_use_at(at: LatLon) -> Vec<Self> {
        let within = |datum: &&Self| {
            let (south, west, north, east) = datum.area_deg;
            (south..=north).contains(&at.lat_deg()) && (west..=east).contains(&at.lon_deg())
        };
        KNOWN.iter().filter(within).copied().collect()
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// What the mean shift leaves, one sigma per axis, metres.
    #[must_use]
    pub fn spread_m(&self) -> f64 {
        self.spread_m
    }

    /// Where a place really lies whose numbers, taken as if on WGS 84, were counted on this datum.
    ///
    /// Units: degrees. Heights are taken as zero. Nothing beyond the reach of UTM.
    ///
    /// # Accuracy
    /// That of the mean shift, see [`Self::spread_m`]; UTM numbers also carry the other ellipsoid, some 200 m of northing in NAD27.
    #[must_use]
    pub fn as_if_on(&self, at: LatLon, counted: Counted) -> Option<LatLon> {
        let (a, rf) = self.ellipsoid;
        let (x, y, z) = self.shift_m;
        let zone = match counted {
            Counted::Utm => format!("+step {} +step +inv +proj=utm +zone={} +a={a} +rf={rf} ", utm(at)?, zone(at)?),
            Counted::Degrees => String::new(),
        };
        let pipeline = format!(
            "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad {zone}+step +proj=cart +a={a} +rf={rf} \
             +step +proj=helmert +x={x} +y={y} +z={z} +step +inv +proj=cart +ellps=WGS84 +step +proj=unitconvert +xy_in=rad +xy_out=deg"
        );
        let (lon_deg, lat_deg) = Proj::new(&pipeline).ok()?.convert((at.lon_deg(), at.lat_deg())).ok()?;
        LatLon::new(lat_deg, lon_deg).ok()
    }
}

fn utm(at: LatLon) -> Option<String> {
    zone(at).map(|zone| format!("+proj=utm +zone={zone} +ellps=WGS84"))
}

/// The UTM zone, north or south of the equator alike: the false northing falls out.
fn zone(at: LatLon) -> Option<u8> {
    mgrs_convert::LatLon::new(at.lat_deg(), at.lon_deg()).ok().map(|place| place.to_utmups().zone()).filter(|zone| *zone > 0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing, clippy::unwrap_used, reason = "a test may stop where it fails")]

    use super::*;
    use crate::earth::geodesic_between;

    /// # References
    /// `tests/references/old_datums.py`: the registered transformations by pyproj 3.7.2, UTM by its own ellipsoid's projection.
    #[test]
    fn numbers_of_an_old_datum_lead_where_the_register_says() {
        let table: serde_json::Value = serde_json::from_str(include_str!("../../../tests/tables/fix/old_datums.json")).unwrap();
        let rows = table["rows"].as_array().unwrap();
        for row in rows {
            let number = |name: &str| row[name].as_f64().unwrap();
            let at = LatLon::new(number("lat_deg"), number("lon_deg")).unwrap();
            let datum = OldDatum::in_use_at(at).into_iter().find(|datum| row["datum"] == datum.name()).unwrap();
            let counted = if row["counted"] == "utm" { Counted::Utm } else { Counted::Degrees };
            let wanted = LatLon::new(number("moved_lat_deg"), number("moved_lon_deg")).unwrap();
            let off_m = geodesic_between(datum.as_if_on(at, counted).unwrap(), wanted).0;
            assert!(off_m < 0.001, "{row}: {off_m} m");
            assert!((datum.spread_m() - number("spread_m")).abs() < 1e-9, "{row}");
        }
        assert_eq!(rows.len(), 40);
    }

    #[test]
    fn no_old_datum_is_known_for_the_middle_of_the_ocean() {
        assert!(OldDatum::in_use_at(LatLon::new(0.0, -140.0).unwrap()).is_empty());
    }
}

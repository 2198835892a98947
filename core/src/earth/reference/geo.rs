//! Links of the form `geo:47.5,11.2;u=35`, as messengers and web pages hand a place on.
//!
//! # References
//! RFC 5870 (2010), 3.3 (grammar) and 3.4 (meaning of the parts), from memory: latitude, longitude and perhaps a height, then
//! parameters, `crs` first and `u` behind it; without `crs` it is `wgs84`. The uncertainty `u` is in metres along every axis, and no
//! share is named that lies within it. Parameters that are not known do not make a link invalid.

use super::degrees::beyond;
use super::parts::number;
use super::{METRES_PER_DEGREE, PlaceReading, Read};
use crate::earth::LatLon;

/// Reads a link; nothing when the text is none.
pub(super) fn read(text: &str) -> Option<Read> {
    let text = text.trim();
    let (scheme, path) = text.split_once(':')?;
    scheme.trim_end().eq_ignore_ascii_case("geo").then(|| place(path))
}

fn place(path: &str) -> Read {
    if path.contains('?') {
        return Err("part-geo-search");
    }
    let mut pieces = path.split(';').map(str::trim);
    let coordinates: Vec<&str> = pieces.next().unwrap_or_default().split(',').map(str::trim).collect();
    let (lat, lon) = match coordinates.as_slice() {
        [lat, lon] => (lat, lon),
        [lat, lon, height] if angle(height).is_some() => (lat, lon),
        _ => return Err("part-geo"),
    };
    let ((lat_deg, lat_step), (lon_deg, lon_step)) = (angle(lat).ok_or("part-geo")?, angle(lon).ok_or("part-geo")?);
    let stated_m = stated(pieces)?;
    let at = LatLon::new(lat_deg, lon_deg).map_err(|_| beyond(lat_deg, lon_deg))?;
    let across_deg = lon_step * at.lat_deg().to_radians().cos();
    Ok(PlaceReading { at, square_m: 0.0, step_m: METRES_PER_DEGREE * lat_step.max(across_deg), stated_m, zone: None })
}

/// A number with at most a minus, and what one unit of its last figure is.
fn angle(written: &str) -> Option<(f64, f64)> {
    let (whole, decimals) = written.strip_prefix('-').unwrap_or(written).split_once('.').unwrap_or((written, "0"));
    let are_figures = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit());
    (are_figures(whole.trim_start_matches('-')) && are_figures(decimals)).then(|| number(written)).flatten()
}

/// The uncertainty that the parameters state, metres; 0 where they state none.
fn stated<'a>(parameters: impl Iterator<Item = &'a str>) -> Result<f64, &'static str> {
    let mut stated_m = 0.0;
    for parameter in parameters {
        let (name, value) = parameter.split_once('=').map_or((parameter, ""), |(name, value)| (name.trim(), value.trim()));
        match name.to_ascii_lowercase().as_str() {
            "crs" if !value.eq_ignore_ascii_case("wgs84") => return Err("part-geo-system"),
            "u" => stated_m = angle(value).map(|(metres, _)| metres).filter(|metres| *metres >= 0.0).ok_or("part-geo-uncertainty")?,
            _ => {}
        }
    }
    Ok(stated_m)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use crate::earth::{LatLon, Terms, read_place};

    /// The first two are examples of RFC 5870 (6.1 and 6.3, from memory).
    #[test]
    fn links_are_read_with_the_uncertainty_that_they_state() {
        for (link, lat_deg, lon_deg, stated_m) in [
            ("geo:13.4125,103.8667", 13.4125, 103.8667, 0.0),
            ("geo:48.2010,16.3695,183", 48.201, 16.3695, 0.0),
            ("geo:48.198634,16.371648;crs=wgs84;u=40", 48.198_634, 16.371_648, 40.0),
            ("GEO:-33.8568,-151.2153;CRS=WGS84;U=12.5;lit=1", -33.8568, -151.2153, 12.5),
            ("geo: 90,0;u=0", 90.0, 0.0, 0.0),
        ] {
            let read = read_place(link, &Terms::default()).unwrap();
            assert_eq!((read.at, read.stated_m), (LatLon::new(lat_deg, lon_deg).unwrap(), stated_m), "{link}");
        }
        let wide = read_place("geo:47.523,11.214;u=400", &Terms::default()).unwrap();
        assert!((wide.spread_m() - 400.0).abs() < 1e-9 && wide.digits() == 4, "{} {}", wide.spread_m(), wide.digits());
        // The last figures say less than what is stated: 0.001 degrees are 111.2 m, by the root of twelve 32.1 m.
        let rounded = read_place("geo:47.523,11.214;u=5", &Terms::default()).unwrap();
        assert!((rounded.spread_m() - 32.1).abs() < 0.1, "{}", rounded.spread_m());
    }

    #[test]
    fn the_part_of_a_link_that_is_wrong_is_named() {
        for (link, part) in [
            ("geo:47.5", "part-geo"),
            ("geo:47.5,11.2,100,3", "part-geo"),
            ("geo:47.5,east", "part-geo"),
            ("geo:+47.5,11.2", "part-geo"),
            ("geo:4.75e1,11.2", "part-geo"),
            ("geo:47.5 N,11.2 E", "part-geo"),
            ("geo:66,30;crs=moon-1999", "part-geo-system"),
            ("geo:47.5,11.2;crs=", "part-geo-system"),
            ("geo:47.5,11.2;u=about", "part-geo-uncertainty"),
            ("geo:47.5,11.2;u=-5", "part-geo-uncertainty"),
            ("geo:0,0?q=47.5,11.2", "part-geo-search"),
            ("geo:95,11.2", "part-latitude-longitude-beyond"),
            ("geo:47.5,190", "part-longitude-beyond"),
        ] {
            assert_eq!(super::read(link), Some(Err(part)), "{link}");
        }
        assert_eq!(super::read("33TVM 569 495"), None);
    }
}

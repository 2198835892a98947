//! UTM and UPS coordinates on WGS 84, by the crate `mgrs-convert`.

use mgrs_convert::{Error, UtmUps};

use super::parts::{Part, Parts, number, pair, whole_digits};
use super::{Form, PlaceReading, Read, Terms, read_form, ups};
use crate::earth::{LatLon, geodesic_between};

/// A place in UTM or UPS coordinates, rounded to the metre: `18 north 585664 4511315`, `UPS north 2000000 2000000`.
///
/// Coordinates name a point and are rounded; a grid reference names a square and is cut.
#[must_use]
pub fn utm_of(at: LatLon) -> String {
    let Ok(place) = mgrs_convert::LatLon::new(at.lat_deg(), at.lon_deg()) else { return String::new() };
    let utm = place.to_utmups();
    let zone = if utm.zone() == 0 { "UPS".into() } else { utm.zone().to_string() };
    let half = if utm.is_north() { "north" } else { "south" };
    format!("{zone} {half} {:.0} {:.0}", utm.easting(), utm.northing())
}

/// Where a zone's coordinates count from.
#[derive(Clone, Copy, PartialEq)]
enum Half {
    North,
    South,
    /// A latitude band, which must fit.
    Band(char),
}

/// The single N or S behind the zone that was read as a half of the earth, as the northing does not lie in the band of that letter; nothing
/// beside a sheet, which tells where coordinates are meant.
#[must_use]
pub fn half_read(text: &str, terms: &Terms) -> Option<char> {
    let (form, parts, read) = read_form(text, terms);
    let at = read.ok().filter(|_| form == Form::Coordinates && terms.near.is_none())?.at;
    let all = without_name(&parts);
    let typed = typed(all).filter(|typed| typed.zone != "0" && typed.word.len() == 1)?;
    typed.word.chars().next().filter(|letter| matches!(letter, 'N' | 'S') && !is_in_band(at, *letter))
}

/// Zone, half or band, easting and northing as they were typed.
struct Typed<'a> {
    zone: &'a str,
    word: &'a str,
    east: &'a str,
    north: &'a str,
}

/// Whether a text looks like UTM or UPS coordinates.
pub(super) fn are_coordinates(parts: &Parts) -> bool {
    typed(without_name(parts)).is_some()
}

/// Reads a zone, a half or band, and two long numbers; nothing when the text does not look like that.
pub(super) fn read(parts: &Parts, terms: &Terms) -> Option<Read> {
    let all = without_name(parts);
    if let Some((Part::Word(word), rest)) = all.split_first()
        && word == "UPS"
        && pair(rest).is_some()
    {
        return Some(Err("part-no-pole"));
    }
    let are_metres = |(east, north): &(&str, &str)| whole_digits(east) == 6 && whole_digits(north) >= 5;
    if let [Part::Number(zone), rest @ ..] = all
        && zone.parse().is_ok_and(|zone: u8| (1..=60).contains(&zone))
        && pair(rest).is_some_and(|numbers| are_metres(&numbers))
    {
        return Some(Err("part-no-half"));
    }
    let read = typed(all).map(|typed| coordinates(&typed, terms));
    read.or_else(|| in_zone_of_beginning(pair(all).filter(are_metres)?, terms))
}

/// Easting and northing in the zone and band of the beginning that was given with them, where no grid says what they count in.
fn in_zone_of_beginning((east, north): (&str, &str), terms: &Terms) -> Option<Read> {
    let beginning = terms.beginning.filter(|_| terms.grid.is_none())?;
    let parts = Parts::of(beginning).all;
    let [Part::Number(zone), Part::Word(letters), ..] = parts.as_slice() else { return None };
    let zone = zone.parse().ok().filter(|zone: &u8| (1..=60).contains(zone))?;
    let half = Half::Band(letters.chars().next()?);
    let ((east, east_step), (north, north_step)) = (number(east)?, number(north)?);
    let at = point(zone, half, east, north);
    Some(at.map(|at| PlaceReading { at, square_m: 0.0, step_m: east_step.max(north_step), stated_m: 0.0, zone: Some(zone) }))
}

fn without_name(parts: &Parts) -> &[Part] {
    let is_name = |part: &&Part| matches!(part, Part::Word(word) if word == "UTM" || word == "ZONE");
    let names = parts.all.iter().take_while(is_name).count();
    parts.all.get(names..).unwrap_or_default()
}

fn typed(all: &[Part]) -> Option<Typed<'_>> {
    let (zone, word, rest) = match all {
        // A zone of figures is one of UTM: that near a pole has none.
        [Part::Number(zone), Part::Word(word), rest @ ..] if whole_digits(zone) == zone.len() => {
            (if zone.chars().all(|figure| figure == '0') { "none" } else { zone.as_str() }, word, rest)
        }
        [Part::Word(ups), Part::Word(word), rest @ ..] if ups == "UPS" => ("0", word, rest),
        [Part::Word(word), rest @ ..] if matches!(word.as_str(), "A" | "B" | "Y" | "Z") => ("0", word, rest),
        _ => return None,
    };
    let (east, north) = pair(rest).filter(|(east, _)| whole_digits(east) >= 5)?;
    is_half_word(word).then_some(Typed { zone, word, east, north })
}

fn is_half_word(word: &str) -> bool {
    matches!(word, "NORTH" | "SOUTH") || word.len() == 1
}

fn coordinates(&Typed { zone, word, east, north }: &Typed, terms: &Terms) -> Read {
    let zone: u8 = zone.parse().ok().filter(|zone| *zone <= 60).ok_or("part-zone")?;
    let is_polar = zone == 0;
    if is_polar && !matches!(word, "NORTH" | "N" | "SOUTH" | "S" | "A" | "B" | "Y" | "Z") {
        return Err("part-no-pole");
    }
    if !is_polar && word.len() == 1 && east.len() <= 5 && east.len() == north.len() {
        return Err("part-square-missing");
    }
    let ((east, east_step), (north, north_step)) = (number(east).ok_or("part-easting")?, number(north).ok_or("part-northing")?);
    if zone == 0 && !ups::is_in_half(word, east) && ups::is_in_half(word, 2.0 * ups::POLE_M - east) {
        return Err("part-ups-half");
    }
    let halves: &[Half] = match word {
        "NORTH" | "N" => &[Half::North],
        "SOUTH" => &[Half::South],
        "Y" | "Z" if is_polar => &[Half::North],
        "A" | "B" if is_polar => &[Half::South],
        // South, or the band S between 32 and 40 degrees north.
        "S" if zone > 0 => &[Half::South, Half::Band('S')],
        "S" => &[Half::South],
        _ => &[Half::Band(word.chars().next().unwrap_or(' '))],
    };
    let places: Vec<Result<LatLon, &'static str>> = halves.iter().map(|half| point(zone, *half, east, north)).collect();
    let is_swapped = || places.iter().all(Result::is_err) && halves.iter().any(|half| point(zone, *half, north, east).is_ok());
    let at = one_of(&places, terms).map_err(|part| if is_swapped() { "part-swapped" } else { part })?;
    if zone == 0 && !ups::is_polar(at) {
        return Err("part-ups-area");
    }
    Ok(PlaceReading { at, square_m: 0.0, step_m: east_step.max(north_step), stated_m: 0.0, zone: Some(zone) })
}

/// The only reading that is possible, or the one on the sheet.
fn one_of(places: &[Result<LatLon, &'static str>], terms: &Terms) -> Result<LatLon, &'static str> {
    let mut sound = places.iter().filter_map(|place| place.as_ref().ok());
    match (sound.next(), sound.next(), terms.near) {
        (Some(only), None, _) => Ok(*only),
        (Some(a), Some(b), Some(near)) => {
            let away = |place: &LatLon| geodesic_between(*place, near).0;
            Ok(if away(a) < away(b) { *a } else { *b })
        }
        (Some(_), Some(_), None) => Err("part-half-or-band"),
        (None, ..) => Err(places.iter().find_map(|place| place.err()).unwrap_or("part-outside-grid")),
    }
}

fn point(zone: u8, half: Half, east: f64, north: f64) -> Result<LatLon, &'static str> {
    let is_north = match half {
        Half::North => true,
        Half::South => false,
        Half::Band(band) if ('C'..='X').contains(&band) && !matches!(band, 'I' | 'O') => band >= 'N',
        Half::Band(_) => return Err("part-band"),
    };
    let utm = if zone == 0 { UtmUps::ups(is_north, east, north) } else { UtmUps::utm(zone, is_north, east, north) };
    let utm = utm.map_err(|error| match error {
        Error::EastingOutOfRange { .. } => "part-easting",
        Error::ZoneOutOfRange { .. } => "part-zone",
        Error::NorthingOutOfRange { .. }
        | Error::LatOutOfRange { .. }
        | Error::LonOutOfRange { .. }
        | Error::PrecisionOutOfRange { .. }
        | Error::OutsideMgrsExtent { .. }
        | Error::Parse(_)
        | _ => "part-northing",
    })?;
    let place = utm.to_latlon();
    let at = LatLon::computed(place.lat(), place.lon());
    match half {
        Half::Band(band) if !is_in_band(at, band) => Err("part-band-northing"),
        // Coordinates of the other half, counted on across the equator, are more likely a slip.
        Half::North if at.lat_deg() < -1.0 => Err("part-northing"),
        Half::South if at.lat_deg() > 1.0 => Err("part-northing"),
        Half::North | Half::South | Half::Band(_) => Ok(at),
    }
}

/// Bands are 8 degrees high from 80 south on, X 12; a point on an edge may bear either letter.
fn is_in_band(at: LatLon, band: char) -> bool {
    const EDGE_DEG: f64 = 1e-5;
    let Some(index) = "CDEFGHJKLMNPQRSTUVWX".find(band) else { return false };
    let south = -80.0 + 8.0 * index as f64;
    let north = if band == 'X' { 84.0 } else { south + 8.0 };
    (south - EDGE_DEG..=north + EDGE_DEG).contains(&at.lat_deg())
}

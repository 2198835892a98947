//! A place in other terms.

use super::{Answer, Answered, Refusal, grid_at, named_grid, terms_of};
use crate::earth::{
    DIGITS_FULL, DatumShift, Grid, LatLon, PlaceReading, Terms, degrees_minutes, degrees_minutes_seconds, mgrs_of, read_place, spaced,
    utm_of,
};
use crate::measure::{Arg, Message};

/// What [`answer_place`] is asked.
pub(super) struct PlaceQuestion<'a> {
    pub(super) place: &'a str,
    pub(super) beginning: Option<&'a str>,
    pub(super) digits: Option<u8>,
    pub(super) grid: Option<&'a String>,
    pub(super) sheet: &'a Terms<'a>,
}

/// A place in other terms.
pub(super) fn answer_place(asked: &PlaceQuestion) -> Answered {
    let named = named_grid(asked.grid)?;
    let terms = terms_of(named.as_ref(), asked.sheet);
    let reading = read_place(asked.place, &Terms { beginning: asked.beginning.or(terms.beginning), ..terms })?;
    let digits = asked.digits.unwrap_or(DIGITS_FULL);
    if ![2, 4, 6, 8, 10].contains(&digits) {
        return Err(Refusal::plain("digits-unreadable"));
    }
    let grid = grid_at(named, reading.at);
    let (at, factors) = (grid.project(reading.at)?, grid.factors(reading.at)?);
    let shift = grid.datum_shift(reading.at)?;
    let answer = Answer::Place {
        lat_deg: reading.at.lat_deg(),
        lon_deg: reading.at.lon_deg(),
        mgrs: mgrs_of(reading.at, digits),
        grid_name: grid.name().into(),
        easting_m: at.east_m,
        northing_m: at.north_m,
        convergence_deg: factors.convergence_deg,
        scale: factors.scale,
        square_m: reading.square_m,
        utm: utm_of(reading.at),
        dm: degrees_minutes(reading.at),
        dms: degrees_minutes_seconds(reading.at),
        own: grid.reference(reading.at, digits),
        accuracy_m: shift.accuracy_m(),
    };
    let told = place_told(reading.at, digits, &grid)
        .with("east", Arg::Number(at.east_m, 1))
        .with("north", Arg::Number(at.north_m, 1))
        .text("own", grid.reference(reading.at, digits))
        .text("lettered", if grid.is_utm_ups() { "no" } else { "yes" });
    let edge = other_zone(asked.place, &reading);
    Ok((answer, std::iter::once(told).chain(edge).chain(shift_told(&grid, shift)).collect()))
}

/// What to say where a place lies in another zone than was typed: a square that the zone's edge cuts, or coordinates that lead beyond it.
fn other_zone(typed: &str, reading: &PlaceReading) -> Option<Message> {
    let (named, own) = (zone_in(typed)?, zone_in(&mgrs_of(reading.at, 2))?);
    if named == own || (reading.square_m <= 0.0 && !has_metres(typed)) {
        return None;
    }
    let id = if reading.square_m > 0.0 { "place-zone-edge" } else { "place-zone-beyond" };
    Some(Message::new(id).text("zone", own.to_string()).text("typed", named.to_string()))
}

/// The zone with which a text begins: one or two figures before a letter.
fn zone_in(text: &str) -> Option<u8> {
    let upper = text.trim_start().to_ascii_uppercase();
    let typed = upper.trim_start_matches("UTM").trim_start();
    let rest = typed.trim_start_matches(|c: char| c.is_ascii_digit());
    let is_before_letter = rest.trim_start().starts_with(|c: char| c.is_ascii_alphabetic());
    typed.strip_suffix(rest)?.parse().ok().filter(|_| is_before_letter)
}

/// Whether a text holds a number that is too long for degrees.
fn has_metres(text: &str) -> bool {
    let whole = |number: &str| number.chars().take_while(|c| *c != '.').count();
    text.split(|c: char| !c.is_ascii_digit() && c != '.').any(|number| whole(number) > 3)
}

fn place_told(at: LatLon, digits: u8, grid: &Grid) -> Message {
    Message::new("place-told")
        .text("reference", spaced(&mgrs_of(at, digits)))
        .with("lat", Arg::Number(at.lat_deg(), 6))
        .with("lon", Arg::Number(at.lon_deg(), 6))
        .text("dms", degrees_minutes_seconds(at))
        .text("grid", grid.name())
}

/// What a shift to another datum is worth, where there is one to make; one that is not known is always told.
fn shift_told(grid: &Grid, shift: DatumShift) -> Option<Message> {
    let told = |id| Message::new(id).text("grid", grid.name());
    match shift {
        DatumShift::Unknown => Some(told("datum-shift-unknown")),
        DatumShift::OfDefinition => Some(told("datum-shift-of-definition")),
        DatumShift::Good(metres) if metres > 0.0 => {
            let accuracy = if metres < 1.0 { Arg::Text(format!("{metres}\u{a0}m")) } else { Arg::Metres(metres) };
            Some(told("datum-shift-told").with("accuracy", accuracy))
        }
        DatumShift::Good(_) => None,
    }
}

//! A place in other terms, and the way from one place to another.

use super::{Answer, Answered, Refusal, grid_of, place_of};
use crate::earth::{
    DIGITS_FULL, Grid, LatLon, Terms, date_of, degrees_minutes, degrees_minutes_seconds, geodesic_between, magnetic_field, mgrs_of,
    read_place, spaced, utm_of,
};
use crate::measure::{Arg, Message, NamedBearing, NorthDiagram};

/// What [`answer_place`] is asked.
pub(super) struct PlaceQuestion<'a> {
    pub(super) place: &'a str,
    pub(super) beginning: Option<&'a str>,
    pub(super) digits: Option<u8>,
    pub(super) grid: Option<&'a String>,
}

/// A place in other terms.
pub(super) fn answer_place(asked: &PlaceQuestion) -> Answered {
    let named = asked.grid.map(|name| Grid::named(name)).transpose()?;
    let reading = read_place(asked.place, &Terms { beginning: asked.beginning, grid: named.as_ref(), near: None })?;
    let digits = asked.digits.unwrap_or(DIGITS_FULL);
    if ![2, 4, 6, 8, 10].contains(&digits) {
        return Err(Refusal::plain("digits-unreadable"));
    }
    let grid = named.unwrap_or_else(|| Grid::of_place(reading.at));
    let (at, factors) = (grid.project(reading.at)?, grid.factors(reading.at)?);
    let accuracy_m = grid.datum_accuracy_m(reading.at)?;
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
        accuracy_m,
    };
    let told = place_told(reading.at, digits, &grid)
        .with("east", Arg::Number(at.east_m, 1))
        .with("north", Arg::Number(at.north_m, 1))
        .text("own", grid.reference(reading.at, digits))
        .text("lettered", if grid.is_utm_ups() { "no" } else { "yes" });
    Ok((answer, std::iter::once(told).chain(shift_told(&grid, accuracy_m)).collect()))
}

fn place_told(at: LatLon, digits: u8, grid: &Grid) -> Message {
    Message::new("place-told")
        .text("reference", spaced(&mgrs_of(at, digits)))
        .with("lat", Arg::Number(at.lat_deg(), 6))
        .with("lon", Arg::Number(at.lon_deg(), 6))
        .text("dms", degrees_minutes_seconds(at))
        .text("grid", grid.name())
}

/// What a shift to another datum is worth, where it is worth telling; a shift that is not known always is.
fn shift_told(grid: &Grid, accuracy_m: Option<f64>) -> Option<Message> {
    match accuracy_m {
        None => Some(Message::new("datum-shift-unknown").text("grid", grid.name())),
        Some(metres) if metres > 0.0 => {
            Some(Message::new("datum-shift-told").text("grid", grid.name()).with("accuracy", Arg::Metres(metres)))
        }
        Some(_) => None,
    }
}

/// Distance and bearings from one place to another.
pub(super) fn answer_between(from: &str, to: &str, grid: Option<&String>, date: Option<&String>) -> Answered {
    let (from, to) = (place_of(from)?.at, place_of(to)?.at);
    let grid = grid_of(grid, from)?;
    let field = date.map(|date| -> Result<_, Refusal> { Ok(magnetic_field(from, 0.0, date_of(date)?)?) }).transpose()?;
    let diagram = NorthDiagram {
        declination_deg: field.map_or(0.0, |field| field.declination_deg),
        declination_spread_deg: field.map_or(0.0, |field| field.declination_spread_deg),
        convergence_deg: grid.factors(from)?.convergence_deg,
    };
    let (distance_m, leaves, arrives) = geodesic_between(from, to);
    let on_grid = diagram.true_to_grid(leaves);
    let magnetic = field.map(|_| diagram.true_to_magnetic(leaves));
    let told = Message::new("between-told")
        .with("distance", Arg::Metres(distance_m))
        .with("true", Arg::Bearing(NamedBearing::True(leaves)))
        .with("grid", Arg::Bearing(NamedBearing::Grid(on_grid)))
        .text("has-magnetic", if magnetic.is_some() { "yes" } else { "no" })
        .with("magnetic", Arg::Bearing(NamedBearing::Magnetic(diagram.true_to_magnetic(leaves))))
        .with("back", Arg::Bearing(NamedBearing::True(arrives.back())));
    let answer = Answer::Between {
        distance_m,
        bearing_deg_true: leaves.degrees(),
        arrival_deg_true: arrives.degrees(),
        back_deg_true: arrives.back().degrees(),
        bearing_deg_grid: on_grid.degrees(),
        bearing_deg_mag: magnetic.map(|bearing| bearing.degrees()),
        grid_name: grid.name().into(),
    };
    Ok((answer, vec![told]))
}

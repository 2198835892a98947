//! A place in other terms, and the way from one place to another.

use super::{Answer, Answered, Refusal, grid_of, place_of};
use crate::earth::{
    DIGITS_FULL, Grid, LatLon, PlaceReading, Terms, date_of, degrees_minutes, degrees_minutes_seconds, geodesic_between, magnetic_field,
    mgrs_of, read_place, spaced, utm_of,
};
use crate::measure::{Arg, LINE_95, Message, NamedBearing, NorthDiagram, Telling};

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
    let edge = zone_edge(asked.place, &reading);
    Ok((answer, std::iter::once(told).chain(edge).chain(shift_told(&grid, accuracy_m)).collect()))
}

/// The zone of a square's middle where it is not the one that was typed: the square is cut by the zone's edge.
fn zone_edge(typed: &str, reading: &PlaceReading) -> Option<Message> {
    let zone_of = |text: &str| text.trim_start().chars().take_while(char::is_ascii_digit).collect::<String>();
    let (typed, own) = (zone_of(typed), zone_of(&mgrs_of(reading.at, 2)));
    let named = reading.square_m > 0.0 && matches!(typed.len(), 1 | 2) && !own.is_empty();
    (named && typed.parse::<u8>() != own.parse::<u8>()).then(|| Message::new("place-zone-edge").text("zone", own))
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
            let accuracy = if metres < 1.0 { Arg::Text(format!("{metres} m")) } else { Arg::Metres(metres) };
            Some(Message::new("datum-shift-told").text("grid", grid.name()).with("accuracy", accuracy))
        }
        Some(_) => None,
    }
}

/// Distance and bearings from one place to another.
pub(super) fn answer_between(from: &str, to: &str, grid: Option<&String>, date: Option<&String>) -> Answered {
    let typed = (place_of(from)?, place_of(to)?);
    let (from, to) = (typed.0.at, typed.1.at);
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
    let across_m = typed.0.spread_m().hypot(typed.1.spread_m());
    let (distance_spread_m, bearing_spread_deg) = (across_m, across_m.atan2(distance_m).to_degrees());
    let answer = Answer::Between {
        distance_m,
        distance_spread_m,
        bearing_spread_deg,
        bearing_deg_true: leaves.degrees(),
        arrival_deg_true: arrives.degrees(),
        back_deg_true: arrives.back().degrees(),
        bearing_deg_grid: on_grid.degrees(),
        bearing_deg_mag: magnetic.map(|bearing| bearing.degrees()),
        grid_name: grid.name().into(),
    };
    let is_same = distance_m < SAME_PLACE_M;
    let spread = (!is_same && across_m > 0.5).then(|| {
        Message::new("between-spread")
            .with("distance", Arg::Metres(LINE_95 * distance_spread_m))
            .with("bearing", Arg::Degrees(LINE_95 * bearing_spread_deg, 1))
    });
    let at_pole = [from, to].iter().any(|end| end.lat_deg().abs() > NEAR_POLE_DEG).then(|| Message::new("between-pole"));
    let caution = field.and_then(|field| field.caution).map(|caution| caution.message());
    let first = if is_same { Message::new("between-same") } else { told };
    Ok((answer, std::iter::once(first).chain(spread).chain(at_pole).chain(caution).collect()))
}

/// Nearer than this two places are one, metres.
const SAME_PLACE_M: f64 = 1e-3;
/// Beyond this latitude, a kilometre from the pole, a bearing changes by a degree within 20 m.
const NEAR_POLE_DEG: f64 = 89.99;

//! A place in other terms.

use super::grids::{Asked, beyond_letters, named_grid, outside_area, own_grid, shift_told};
use super::{Answer, Answered, Refusal};
use crate::earth::{
    DIGITS_FULL, Grid, PlaceReading, Terms, cut, degrees_minutes, degrees_minutes_seconds, exchanged_in_grid, geodesic_between, mgrs_of,
    read_place, spaced, utm_of,
};
use crate::measure::{Arg, LINE_95, Message, Point};

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
    let by = Asked { named: named.as_ref(), sheet: asked.sheet };
    let terms = by.terms();
    let reading = read_place(asked.place, &Terms { beginning: asked.beginning.or(terms.beginning), ..terms })?;
    // A person is told no more than was written; the answer of coordinates goes on to the metre.
    let told_digits = asked.digits.unwrap_or_else(|| reading.digits());
    let digits = if reading.square_m > 0.0 { told_digits } else { asked.digits.unwrap_or(DIGITS_FULL) };
    if ![2, 4, 6, 8, 10].contains(&digits) {
        return Err(Refusal::plain("digits-unreadable"));
    }
    let grid = by.grid_at(&reading, own_grid);
    let (at, factors) = (grid.project(reading.at)?, grid.factors(reading.at)?);
    let shift = grid.datum_shift(reading.at)?;
    let own = |digits: u8| asked.digits.map_or_else(|| grid.reference_of(&reading), |_| grid.square_reference(reading.at, digits));
    let answer = Answer::Place {
        lat_deg: reading.at.lat_deg(),
        lon_deg: reading.at.lon_deg(),
        mgrs: mgrs_of(reading.at, digits),
        grid_name: grid.name().into(),
        easting_m: at.east_m,
        northing_m: at.north_m,
        convergence_deg: factors.convergence_deg,
        scale: factors.scale,
        scale_factor: grid.metres_per_metre(reading.at)?,
        square_m: reading.square_m,
        utm: utm_of(reading.at),
        dm: degrees_minutes(reading.at),
        dms: degrees_minutes_seconds(reading.at),
        own: if reading.square_m > 0.0 { own(digits) } else { grid.square_reference(reading.at, digits) },
        accuracy_m: shift.accuracy_m().filter(|_| outside_area(&grid, reading.at).is_none()),
    };
    let mut told = vec![place_told(&reading, own(told_digits), &grid, at, told_digits)];
    told.extend(by.cautions(&reading, &grid));
    told.extend(order_told(asked.place, &terms, &reading));
    told.extend(shift_told(&grid, shift, reading.at).filter(|_| outside_area(&grid, reading.at).is_none()));
    told.extend(beyond_letters(&grid, reading.at));
    let is_named = terms.placed(asked.place).is_some();
    told.extend(if is_named { Some(named_told(asked.place, &reading)) } else { worth_told(&reading) });
    Ok((answer, told))
}

/// How the grid lies and stretches at the place, told after all that is to be minded.
#[allow(clippy::wildcard_enum_match_arm, reason = "no other answer has a grid to tell of")]
pub(in crate::engine) fn grid_lies(answer: &Answer) -> Option<Message> {
    match answer {
        Answer::Place { grid_name, convergence_deg, scale_factor, .. } => Some(
            Message::new("place-grid")
                .text("grid", grid_name.clone())
                .with("convergence", Arg::Degrees(convergence_deg.abs(), 2))
                .text("side", if *convergence_deg < 0.0 { "west" } else { "east" })
                .with("mapped", Arg::Number(METRES_PER_KM * scale_factor, 1)),
        ),
        _ => None,
    }
}

const METRES_PER_KM: f64 = 1000.0;

/// The place with no more decimals than its square deserves; its reference in the grid, and in its own zone where that differs.
fn place_told(reading: &PlaceReading, own: String, grid: &Grid, point: Point, digits: u8) -> Message {
    let at = reading.at;
    let standard = spaced(&mgrs_of(at, digits));
    let beside = match (grid.is_utm_ups(), own == standard) {
        (false, _) => "own",
        (true, false) => "zone",
        (true, true) => "none",
    };
    let is_wide = reading.square_m > MOST_FOR_SECONDS_M;
    let decimals = u8::from(reading.square_m <= 1.0);
    let degrees = degree_decimals(reading.square_m);
    // Whole numbers are cut as those of a reference are.
    let told = |number: f64| if decimals == 0 { cut(number, 1.0) } else { number };
    let (axes, (first, second)) = (grid.axes(), grid.axes().numbers(point));
    Message::new("place-told")
        .text("reference", if beside == "zone" { own.clone() } else { standard.clone() })
        .with("lat", Arg::Number(at.lat_deg(), degrees))
        .with("lon", Arg::Number(at.lon_deg(), degrees))
        .text("wide", if is_wide { "yes" } else { "no" })
        .text("dms", degrees_minutes_seconds(at))
        .text("grid", grid.name())
        .text("unit", grid.unit().unwrap_or_else(|| "metre".into()))
        .with("first", Arg::Number(told(first), decimals))
        .text("first-side", axes.first.word())
        .with("second", Arg::Number(told(second), decimals))
        .text("second-side", axes.second.word())
        .text("beside", beside)
        .text("own", if beside == "zone" { standard } else { own })
}

/// In which order two numbers were taken, in a grid whose register has the other, and where that leads.
fn order_told(typed: &str, terms: &Terms, reading: &PlaceReading) -> Option<Message> {
    let other = exchanged_in_grid(typed, terms)?;
    let far_m = geodesic_between(reading.at, other).0;
    let told = Message::new("place-order").text("grid", terms.grid?.name()).text("other", spaced(&mgrs_of(other, reading.digits())));
    (far_m > SAME_ORDER_M).then(|| told.with("far", Arg::Metres(far_m)))
}

/// Two numbers that are nearly one lead to one place in either order, metres.
const SAME_ORDER_M: f64 = 1_000.0;

/// A wider square than this is not told in seconds, metres.
const MOST_FOR_SECONDS_M: f64 = 100.0;
/// Coordinates whose last figure is worth less than this are told as they are, metres.
const LEAST_STEP_M: f64 = 2.0;

/// Decimals of a degree that half a square's side deserves, at most 6.
fn degree_decimals(square_m: f64) -> u8 {
    const METRES_PER_DEGREE: f64 = 111_200.0;
    if square_m <= 0.0 { 6 } else { (METRES_PER_DEGREE * 2.0 / square_m).log10().ceil().clamp(0.0, 6.0) as u8 }
}

/// What is told of a place that was typed by its name.
fn named_told(name: &str, reading: &PlaceReading) -> Message {
    Message::new("place-named").text("name", name.trim()).with("spread", Arg::Metres(LINE_95 * reading.stated_m))
}

/// How large the square was whose middle is told, or what a coordinate's last figure is worth.
fn worth_told(reading: &PlaceReading) -> Option<Message> {
    let told = |id, side_m: f64| Message::new(id).with("side", whole_or_half(side_m)).with("half", whole_or_half(side_m / 2.0));
    match (reading.square_m, reading.step_m) {
        (square_m, _) if square_m > 0.0 => Some(told("place-square", square_m)),
        _ if reading.stated_m > 0.0 => Some(Message::new("place-stated").with("stated", Arg::Metres(reading.stated_m))),
        (_, step_m) if step_m >= LEAST_STEP_M => Some(told("place-step", step_m)),
        _ => None,
    }
}

/// Metres; half a metre where that is all.
fn whole_or_half(metres: f64) -> Arg {
    if metres < 1.0 { Arg::Text(format!("{metres:.1}\u{a0}m")) } else { Arg::Metres(metres) }
}

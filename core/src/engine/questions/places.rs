//! A place in other terms.

use super::{Answer, Answered, Refusal, grid_of, place_of};
use crate::earth::{DIGITS_FULL, mgrs_of};
use crate::measure::{Arg, Message};

/// A place in other terms.
pub(super) fn answer_place(text: &str, digits: Option<u8>, grid: Option<&String>) -> Answered {
    let reading = place_of(text)?;
    let digits = digits.unwrap_or(DIGITS_FULL);
    if ![2, 4, 6, 8, 10].contains(&digits) {
        return Err(Refusal::plain("digits-unreadable"));
    }
    let grid = grid_of(grid, reading.at)?;
    let (at, factors) = (grid.project(reading.at)?, grid.factors(reading.at)?);
    let mgrs = mgrs_of(reading.at, digits);
    let told = Message::new("place-told")
        .text("reference", crate::earth::spaced(&mgrs))
        .with("lat", Arg::Number(reading.at.lat_deg(), 6))
        .with("lon", Arg::Number(reading.at.lon_deg(), 6))
        .text("grid", grid.name())
        .with("east", Arg::Number(at.east_m, 1))
        .with("north", Arg::Number(at.north_m, 1));
    let answer = Answer::Place {
        lat_deg: reading.at.lat_deg(),
        lon_deg: reading.at.lon_deg(),
        mgrs,
        grid_name: grid.name().into(),
        easting_m: at.east_m,
        northing_m: at.north_m,
        convergence_deg: factors.convergence_deg,
        scale: factors.scale,
        square_m: reading.square_m,
    };
    Ok((answer, vec![told]))
}

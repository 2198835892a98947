//! How places are read and written.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

mod odd;
mod odd_whole;
mod ways;
mod written;
mod wrong;

use super::{PlaceError, Terms, read_place};
use crate::earth::LatLon;

fn at(lat: f64, lon: f64) -> LatLon {
    LatLon::new(lat, lon).expect("on earth")
}

fn part(text: &str, terms: &Terms) -> &'static str {
    match read_place(text, terms) {
        Err(PlaceError::Reference { part, .. }) => part,
        Err(PlaceError::OffEarth { .. } | PlaceError::TwoSquares { .. }) => "other",
        Ok(reading) => panic!("{text} was read as {reading:?}"),
    }
}

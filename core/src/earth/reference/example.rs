//! How a place may be written: on the walker's own sheet where there is one.

use super::{DIGITS_FULL, Terms, form_of, mgrs_of, spaced, zone_and_band, zone_of};
use crate::earth::{Grid, LatLon};
use crate::measure::Message;

/// A place as an example of how one is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Example {
    /// Of which form references are there, as the identifier that sentences select by: `mgrs`, `lettered`, `own`.
    form: &'static str,
    reference: String,
    /// UTM or UPS coordinates.
    coordinates: String,
    /// Two numbers of the sheet's own grid; empty where nothing is known of where it lies.
    numbers: String,
    degrees: String,
}

/// Digits of the reference: ten metres, as one reads off a map.
const DIGITS: u8 = 8;
/// Where the example lies when nothing is known of where the walker is.
const ANYWHERE_DEG: (f64, f64) = (44.697_897, 14.456_823);

impl Example {
    /// The middle of the sheet, else of the grid.
    pub(super) fn on(terms: &Terms) -> Self {
        let near = terms.near.or_else(|| terms.grid?.middle_of_area());
        let at = near.unwrap_or_else(|| LatLon::computed(ANYWHERE_DEG.0, ANYWHERE_DEG.1));
        let zone = terms.zone.or_else(|| terms.grid.and_then(Grid::utm_zone)).unwrap_or_else(|| zone_of(at));
        let form = form_of(terms.grid);
        let reference = match terms.grid {
            Some(grid) if form != "mgrs" => grid.reference(at, DIGITS),
            _ => Grid::of_zone(zone, at).reference(at, DIGITS),
        };
        let numbers = terms.grid.filter(|grid| near.is_some() && grid.project(at).is_ok()).map(|grid| plain_numbers(grid, at));
        Self { form, reference, coordinates: coordinates(zone, at), numbers: numbers.unwrap_or_default(), degrees: degrees(at) }
    }

    pub(super) fn told(&self, message: Message) -> Message {
        let message = message.text("form", self.form).text("reference", self.reference.clone());
        let message = message.text("coordinates", self.coordinates.clone()).text("degrees", self.degrees.clone());
        let has_numbers = if self.numbers.is_empty() { "no" } else { "yes" };
        message.text("has-numbers", has_numbers).text("numbers", self.numbers.clone())
    }
}

fn plain_numbers(grid: &Grid, at: LatLon) -> String {
    let numbers = grid.project(at).map(|point| grid.axes().numbers(point));
    numbers.map_or_else(|_| String::new(), |(first, second)| format!("{first:.0} {second:.0}"))
}

/// With zone and band before them: "33T 456965 4949535".
fn coordinates(zone: u8, at: LatLon) -> String {
    let numbers = plain_numbers(&Grid::of_zone(zone, at), at);
    let beginning = zone_and_band(zone, at).unwrap_or_else(|| spaced(&mgrs_of(at, DIGITS_FULL)).chars().take(1).collect());
    format!("{beginning} {numbers}")
}

fn degrees(at: LatLon) -> String {
    let half = |value: f64, [positive, negative]: [char; 2]| if value < 0.0 { negative } else { positive };
    let (lat_deg, lon_deg) = (at.lat_deg(), at.lon_deg());
    format!("{:.4} {} {:.4} {}", lat_deg.abs(), half(lat_deg, ['N', 'S']), lon_deg.abs(), half(lon_deg, ['E', 'W']))
}

//! What to doubt of places that were typed: far from the sheet, or with a figure too few.

use super::grids::{Asked, named_grid};
use crate::earth::{PlaceDoubt, Terms, doubt_of, half_read, read_place};
use crate::engine::record::Record;
use crate::measure::{Message, Telling};
use crate::sheet::Sheet;

/// What to doubt of the places in a question that was answered.
#[allow(clippy::wildcard_enum_match_arm, reason = "other questions hold no places that a sheet completes")]
pub(in crate::engine) fn doubts_of(record: &Record, sheet: Option<&Sheet>) -> Vec<Message> {
    match record {
        Record::Norths { place, grid, .. } => doubts(&[place], None, grid.as_ref(), sheet),
        Record::Place { place, beginning, grid, .. } => doubts(&[place], beginning.as_deref(), grid.as_ref(), sheet),
        Record::Turn(turn) => doubts(&turn.place.as_deref().map_or_else(Vec::new, |place| vec![place]), None, turn.grid.as_ref(), sheet),
        Record::Between { from, to, grid, .. } => doubts(&[from, to], None, grid.as_ref(), sheet),
        _ => Vec::new(),
    }
}

fn doubts(places: &[&str], beginning: Option<&str>, grid: Option<&String>, sheet: Option<&Sheet>) -> Vec<Message> {
    let of_sheet = sheet.map_or_else(Terms::default, Sheet::terms);
    let Ok(named) = named_grid(grid) else { return Vec::new() };
    let terms = Asked { named: named.as_ref(), sheet: &of_sheet }.terms();
    let terms = Terms { beginning: beginning.or(terms.beginning), ..terms };
    let reach_m = sheet.map_or(0.0, Sheet::reach_m);
    let doubt = |text: &&str| {
        let reading = read_place(text, &terms).ok()?;
        Some(match (doubt_of(text, &reading, &terms, reach_m)?, sheet) {
            (PlaceDoubt::Far { typed, part, .. }, Some(sheet)) => PlaceDoubt::Far { typed, part, away_m: sheet.away_m(reading.at) },
            (doubt, _) => doubt,
        })
    };
    let half = |text: &&str| Some(half_told(text, half_read(text, &terms)?));
    places.iter().filter_map(half).chain(places.iter().filter_map(doubt).map(|doubt| doubt.message())).collect()
}

/// As which half of the earth the letter behind a zone was read.
fn half_told(typed: &str, letter: char) -> Message {
    Message::new("place-half").text("typed", typed.trim()).text("letter", letter.to_string())
}

/// What to doubt of a place that was typed off the open sheet.
pub(in crate::engine) fn doubt_on(text: &str, sheet: Option<&Sheet>) -> Option<Message> {
    doubts(&[text], None, None, sheet).pop()
}

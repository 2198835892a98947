//! The lines of the field book as values.

use crate::earth::{Instant, LatLon};
use crate::fix::Instrument;
use crate::sheet::SheetDraft;
use crate::travel::{Leg, Pace};

/// One entry of a trip.
#[derive(Debug, Clone, PartialEq)]
pub enum Entry {
    /// The walker's pace.
    Pace(Pace),
    /// A compass that was checked.
    Compass(CompassRow),
    /// A fix: what was observed, and the place it gave.
    Fix(FixRow),
    /// An independent place held against the fix before it.
    Check(Witness),
    /// The place where the car stands.
    Keep(KeptEntry),
    /// A leg walked.
    Leg(Leg),
    /// The way back by the reversed log is begun.
    TurnRound,
    /// The end of the next leg of the way back is reached.
    Reached,
    /// The end of the trip.
    Close,
}

/// A compass check: what it gave, and what was read.
#[derive(Debug, Clone, PartialEq)]
pub struct CompassRow {
    /// Which instrument it is of.
    pub instrument: Instrument,
    /// What it reads too much, degrees.
    pub error_deg: f64,
    /// One sigma of that, degrees.
    pub error_spread_deg: f64,
    /// One sigma of a single reading, where the readings tell it, degrees.
    pub reading_spread_deg: Option<f64>,
    /// The readings as they came in, JSON.
    pub observed: String,
}

/// A fix as observed.
#[derive(Debug, Clone, PartialEq)]
pub struct FixRow {
    /// The line of the likeliest place; empty in the open.
    pub line: String,
    /// All lines that it could have been, with the walker's own odds; none: the fix was taken in the open.
    pub lines: Vec<(String, Option<f64>)>,
    /// With what was read.
    pub instrument: Instrument,
    /// What was observed, each as it came in, JSON.
    pub observed: Vec<String>,
    /// The likeliest place.
    pub at: LatLon,
    /// The same along the line from its first point, metres; 0 in the open.
    pub along_m: f64,
    /// One sigma along the line, metres; 0 in the open.
    pub spread_along_m: f64,
}

/// An independent place: typed from the map, or told by a receiver.
#[derive(Debug, Clone, PartialEq)]
pub struct Witness {
    /// As it was typed; empty in logbooks that did not keep it.
    pub typed: String,
    /// Where it is.
    pub at: LatLon,
    /// One sigma per axis, metres.
    pub spread_m: f64,
}

/// The kept place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptEntry {
    /// The walker's word for it.
    pub name: String,
    /// The entry of the fix it was taken from.
    pub fix_entry: i64,
    /// Which stretch of that fix, from 1.
    pub stretch: usize,
}

/// The newest trip with its entries that are not struck.
#[derive(Debug, Clone, PartialEq)]
pub struct TripRows {
    /// Its number.
    pub id: i64,
    /// The sheet it is walked on.
    pub sheet: SheetDraft,
    /// Entries in their order: number, time, entry.
    pub entries: Vec<(i64, Instant, Entry)>,
}

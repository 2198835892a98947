//! What readings of a compass cannot tell, and which cannot be used at all.

use crate::measure::{Arg, Message, Telling};

/// What the readings cannot tell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Untold {
    /// There are no readings at all.
    NoReadings,
    /// No reading has a known answer: the shared error stays unknown.
    NoKnownBearing,
    /// One known bearing only: the compass and this one reading cannot be told apart.
    OneKnownBearing,
    /// Known bearings were read only where the needle is turned.
    KnownWhereAttracted,
    /// The known readings do not point one way: something was read wrongly.
    Scattered,
    /// A known reading points the other way and is left out: the wrong end of the needle. Its number, from 0.
    Reversed(usize),
    /// All known readings were taken at this station, and no line joins it to another: iron there would look the same.
    OneStation(String),
    /// A line is likelier misread than turned by its ends: read it anew.
    Contradicts {
        /// One end.
        from: String,
        /// The other end.
        to: String,
        /// Whether fore and back bearing are nearly the same: the back bearing may have been turned round already.
        is_turned: bool,
    },
}

impl Telling for Untold {
    fn message(&self) -> Message {
        match self {
            Self::NoReadings => Message::new("compass-no-readings"),
            Self::NoKnownBearing => Message::new("compass-no-known-bearing"),
            Self::OneKnownBearing => Message::new("compass-one-known-bearing"),
            Self::KnownWhereAttracted => Message::new("compass-known-where-attracted"),
            Self::Scattered => Message::new("compass-scattered"),
            Self::Reversed(index) => Message::new("compass-reversed").with("which", Arg::Count(*index as i64 + 1)),
            Self::OneStation(station) => Message::new("compass-one-station").text("station", station.clone()),
            Self::Contradicts { from, to, is_turned } => {
                let message = Message::new("compass-line-contradicts").text("from", from.clone()).text("to", to.clone());
                message.text("turned", if *is_turned { "yes" } else { "no" })
            }
        }
    }
}

/// Why readings cannot be used at all.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CompassCheckError {
    /// A bearing or a spread that is no number, or a spread out of its range (0 to 90°; that of a reading above 0).
    #[error("compass-number-unusable")]
    Number,
    /// A line that ends where it begins, or a station without a name.
    #[error("compass-line-unusable")]
    Line(String),
    /// More stations than [`super::MOST_STATIONS`], or as many lines.
    #[error("compass-too-many-stations")]
    TooMany,
}

impl Telling for CompassCheckError {
    fn message(&self) -> Message {
        match self {
            Self::Number => Message::new("compass-number-unusable"),
            Self::Line(station) => Message::new("compass-line-unusable").text("station", station.clone()),
            Self::TooMany => Message::new("compass-too-many-stations"),
        }
    }
}

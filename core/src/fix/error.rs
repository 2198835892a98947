//! Why there is no fix on a line.

use super::fit::with_off;
use super::{Off, SlipKind};
use crate::measure::{Arg, Message, NamedBearing, Telling};

/// Why there is no fix.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FixError {
    /// Nothing was sighted.
    #[error("no-sighting")]
    NoSighting,
    /// More sightings than are weighed together.
    #[error("too-many-sightings")]
    TooMany(usize),
    /// The bearing meets the line nowhere.
    #[error("no-crossing")]
    NoCrossing {
        /// The landmark.
        landmark: String,
        /// The line.
        line: String,
        /// The reading.
        reading: NamedBearing,
        /// By how many degrees it misses the line at the nearest.
        miss_deg: f64,
        /// The likeliest slip with which it would meet a line, and the reading that it would be.
        meant: Option<Box<(SlipKind, NamedBearing)>>,
    },
    /// Nothing that was observed fits any place of the lines.
    #[error("fits-nowhere")]
    FitsNowhere {
        /// The kind of the sighting that fits best of all.
        what: &'static str,
        /// What it is of.
        of: String,
        /// The line on which it fits best.
        line: String,
        /// By how much it is off there.
        off: Option<Off>,
        /// Whether it fits best at an end of the line.
        at_end: bool,
        /// The likeliest slip with which a running fix would fit, and the reading that it would be.
        meant: Option<Box<(SlipKind, Option<NamedBearing>)>>,
    },
}

impl Telling for FixError {
    fn message(&self) -> Message {
        match self {
            Self::NoSighting => Message::new("no-sighting"),
            Self::TooMany(count) => Message::new("too-many-sightings").with("count", Arg::Count(*count as i64)),
            Self::NoCrossing { landmark, line, reading, miss_deg, meant } => {
                let message = Message::new("no-crossing")
                    .text("landmark", landmark.clone())
                    .text("line", line.clone())
                    .with("reading", Arg::Bearing(*reading))
                    .with("miss", Arg::Degrees(*miss_deg, 0));
                with_slip(message, meant.as_deref().map(|(kind, meant)| (kind, Some(*meant))))
            }
            Self::FitsNowhere { what, of, line, off, at_end, meant } => {
                let message = Message::new("fits-nowhere").text("what", *what).text("of", of.clone()).text("line", line.clone());
                let message = message.text("end", if *at_end { "end" } else { "within" });
                with_slip(with_off(message, *off), meant.as_deref().map(|(kind, meant)| (kind, *meant)))
            }
        }
    }
}

/// A sentence with the slip that would explain it, and the reading that was meant.
fn with_slip(message: Message, meant: Option<(&SlipKind, Option<NamedBearing>)>) -> Message {
    let Some((kind, meant)) = meant else { return message.text("slip", "none").text("meant", "") };
    let slip = if matches!(kind, SlipKind::Tens | SlipKind::Hundreds) { "misread" } else { kind.word() };
    let message = message.text("slip", slip);
    match meant {
        Some(meant) => message.with("meant", Arg::Bearing(meant)),
        None => message.text("meant", ""),
    }
}

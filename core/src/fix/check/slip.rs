//! What may be wrong with a place that does not fit the fix.

use super::typed::is_of_degrees;
use crate::earth::OldDatum;
use crate::measure::{Arg, Message, Telling};

/// A known way in which a place held against a fix comes to lie far from it.
#[derive(Debug, Clone, PartialEq)]
pub enum WitnessSlipKind {
    /// Two neighbouring figures exchanged.
    Exchanged,
    /// One figure read or typed as another.
    Misread,
    /// Easting and northing, or latitude and longitude, in each other's place.
    Swapped,
    /// Other letters of the 100 km square.
    Square,
    /// The numbers are counted on an older datum.
    Datum(OldDatum),
    /// A reference of fewer figures filled up with noughts: the corner of its square, not its middle.
    Corner,
    /// A position from before: it lies elsewhere on a line of the sheet, or where the walker was.
    Stale,
    /// The place is right and the fix is wrong: it lies on the line of the fix, elsewhere.
    FixWrong,
    /// The place is right and a reading of the fix was misread.
    SlipOfFix,
    /// The place is right and the walker stands beside the line of the fix, near its place: on a track that the sheet lacks, or off it.
    OffLine,
    /// The place is right and the walker stands on another line of the sheet.
    OtherLine(String),
    /// Wrong for no known reason; only of a place that is weighed in, of one that is checked it is told otherwise.
    Unknown,
}

impl WitnessSlipKind {
    /// Chance of it, for a place that is held against a fix. Common practice, no source.
    #[must_use]
    pub fn chance(&self) -> f64 {
        match self {
            Self::Stale => 0.03,
            Self::FixWrong | Self::OffLine | Self::Unknown => 0.02,
            Self::Exchanged | Self::Misread | Self::Swapped | Self::Corner => 0.01,
            // Each has its own odds.
            Self::SlipOfFix | Self::OtherLine(_) => 1.0,
            Self::Datum(_) | Self::Square => 0.005,
        }
    }

    /// The word for it in records.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Exchanged => "exchanged",
            Self::Misread => "misread",
            Self::Swapped => "swapped",
            Self::Square => "square",
            Self::Datum(_) => "datum",
            Self::Corner => "corner",
            Self::Stale => "stale",
            Self::FixWrong => "fix-wrong",
            Self::SlipOfFix => "slip-of-fix",
            Self::OffLine => "off-line",
            Self::OtherLine(_) => "other-line",
            Self::Unknown => "unknown",
        }
    }
}

/// A slip that would explain why a place does not fit, with its odds.
#[derive(Debug, Clone, PartialEq)]
pub struct WitnessSlip {
    /// Which one.
    pub kind: WitnessSlipKind,
    /// The text as it would have been meant; where one would stand with the slip of the fix, or on the other line; empty when the figures are right.
    pub meant: String,
    /// What the reading of the fix is of that was misread; empty where its readings share the slip, and with any other.
    pub of: String,
    /// Whether the fix was taken in the open, on no line.
    pub in_the_open: bool,
    /// How far from the fix, or from where one would stand with its slip, the place would then lie, metres.
    pub distance_m: f64,
    /// Probability of it, against all others and against none of them.
    pub chance: f64,
}

impl Telling for WitnessSlip {
    fn message(&self) -> Message {
        let id = match self.kind {
            WitnessSlipKind::Exchanged => "witness-slip-exchanged",
            WitnessSlipKind::Misread => "witness-slip-misread",
            WitnessSlipKind::Swapped => "witness-slip-swapped",
            WitnessSlipKind::Square => "witness-slip-square",
            WitnessSlipKind::Datum(_) => "witness-slip-datum",
            WitnessSlipKind::Corner => "witness-slip-corner",
            WitnessSlipKind::Stale => "witness-slip-stale",
            WitnessSlipKind::FixWrong => "witness-slip-fix-wrong",
            WitnessSlipKind::SlipOfFix => "witness-slip-of-fix",
            WitnessSlipKind::OffLine => "witness-slip-off-line",
            WitnessSlipKind::OtherLine(_) => "witness-slip-other-line",
            WitnessSlipKind::Unknown => "witness-slip-unknown",
        };
        let message = Message::new(id)
            .text("meant", self.meant.clone())
            .with("chance", Arg::Share(self.chance))
            .text("where", if self.in_the_open { "open" } else { "line" })
            .text("counted", if is_of_degrees(&self.meant) { "degrees" } else { "grid" })
            .with("distance", Arg::Metres(self.distance_m));
        match &self.kind {
            WitnessSlipKind::Datum(datum) => message.text("datum", datum.name()),
            WitnessSlipKind::OtherLine(line) => message.text("line", line.clone()),
            WitnessSlipKind::SlipOfFix => message.text("of", self.of.clone()).text("shared", if self.of.is_empty() { "yes" } else { "no" }),
            WitnessSlipKind::Exchanged
            | WitnessSlipKind::Misread
            | WitnessSlipKind::Swapped
            | WitnessSlipKind::Square
            | WitnessSlipKind::Corner
            | WitnessSlipKind::Stale
            | WitnessSlipKind::FixWrong
            | WitnessSlipKind::OffLine
            | WitnessSlipKind::Unknown => message,
        }
    }
}

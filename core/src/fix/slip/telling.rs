//! The sentence of a slip: what fits if it was made, and what to read again.

use super::kinds::{Also, Slip, SlipKind};
use crate::fix::WitnessSlipKind;
use crate::measure::{Arg, LINE_95, Message, Telling};

impl Telling for Slip {
    fn message(&self) -> Message {
        let id = match &self.kind {
            SlipKind::Reversed => "slip-reversed",
            SlipKind::Tens | SlipKind::Hundreds => "slip-misread",
            SlipKind::Exchanged => "slip-exchanged",
            SlipKind::DialReversed => "slip-dial-reversed",
            SlipKind::Quadrant => "slip-quadrant",
            SlipKind::Gradians => "slip-gradians",
            SlipKind::Mils => "slip-mils",
            SlipKind::OtherLandmark(_) => "slip-other-landmark",
            SlipKind::OtherNorth { .. } => "slip-other-north",
            SlipKind::WrongWay { .. } => "slip-wrong-way",
            SlipKind::Twice { .. } => "slip-twice",
            SlipKind::Deflected => "slip-deflected",
            SlipKind::PaceKind => "slip-pace-kind",
            SlipKind::LostHundred => "slip-lost-hundred",
            SlipKind::MilesKilometres => "slip-miles-kilometres",
            SlipKind::Point => "slip-point",
            SlipKind::Feet => "slip-feet",
            SlipKind::OtherSide => "slip-other-side",
            SlipKind::OtherPoint { .. } => "slip-other-point",
            SlipKind::OtherWay => "slip-other-way",
            SlipKind::MarksExchanged => "slip-marks-exchanged",
            SlipKind::BearingsExchanged => "slip-bearings-exchanged",
            SlipKind::AllReversed => "slip-all-reversed",
            SlipKind::FacedOtherWay => "slip-faced-other-way",
            SlipKind::LandmarksExchanged { .. } => "slip-landmarks-exchanged",
            SlipKind::OtherLine(_) => "slip-other-line",
            SlipKind::Misplaced(_) => "slip-misplaced",
        };
        let mut message = Message::new(id).text("of", self.of.clone()).with("chance", Arg::Share(self.chance));
        if let Some(told) = self.told {
            message = message.with("told", Arg::Bearing(told));
        }
        if let Some((turned_deg, spread_deg)) = self.then.as_ref().and_then(|then| then.turned_deg) {
            message = message.with("turned", Arg::Turn(turned_deg.abs(), 0)).with("turned-spread", Arg::Turn(LINE_95 * spread_deg, 0));
            message = message.text("way", if turned_deg < 0.0 { "little" } else { "much" });
        } else if self.kind == SlipKind::Deflected {
            message = message.text("way", "unknown").text("turned", "").text("turned-spread", "");
        }
        if let Some(meant) = self.meant {
            message = message.with("meant", Arg::Bearing(meant));
        }
        match &self.kind {
            SlipKind::OtherLandmark(other) => message.text("other", other.clone()),
            SlipKind::OtherLine(other) => {
                message.text("other", other.clone()).text("heard", if self.of.is_empty() { "all" } else { "part" })
            }
            SlipKind::OtherPoint { name, counted } => {
                message.text("other", name.clone()).text("what", if *counted { "counted" } else { "here" })
            }
            SlipKind::Misplaced(kind) => {
                let datum = if let WitnessSlipKind::Datum(datum) = kind { datum.name() } else { self.written.as_str() };
                message.text("kind", kind.word()).text("meant", datum.to_owned())
            }
            SlipKind::Feet => message.text(
                "what",
                if self.sighting.is_none() {
                    "all"
                } else if self.of.is_empty() {
                    "height"
                } else {
                    "distance"
                },
            ),
            SlipKind::LandmarksExchanged { one, other } => message.text("one", one.clone()).text("other", other.clone()),
            SlipKind::OtherNorth { told, meant } => message.text("told-north", told.word()).text("meant-north", meant.word()),
            SlipKind::WrongWay { told } | SlipKind::Twice { told } => message.text("told-north", told.word()),
            SlipKind::Reversed
            | SlipKind::Tens
            | SlipKind::Hundreds
            | SlipKind::Exchanged
            | SlipKind::DialReversed
            | SlipKind::Quadrant
            | SlipKind::Gradians
            | SlipKind::Mils
            | SlipKind::Deflected
            | SlipKind::PaceKind
            | SlipKind::LostHundred
            | SlipKind::MilesKilometres
            | SlipKind::Point
            | SlipKind::OtherWay
            | SlipKind::MarksExchanged
            | SlipKind::BearingsExchanged
            | SlipKind::AllReversed
            | SlipKind::FacedOtherWay
            | SlipKind::OtherSide => message,
        }
    }
}

impl Telling for Also {
    fn message(&self) -> Message {
        let message = Message::new("slip-also");
        let message = if let SlipKind::OtherPoint { name, counted } = &self.kind {
            message.text("kind", if *counted { "counted" } else { "here" }).text("other", name.clone())
        } else if let SlipKind::OtherNorth { meant, .. } = &self.kind {
            message.text("kind", "other-north").text("meant-north", meant.word())
        } else {
            message.text("kind", self.kind.word())
        };
        match self.meant {
            Some(meant) => message.with("meant", Arg::Bearing(meant)),
            None => message,
        }
    }
}

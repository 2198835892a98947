//! What may go wrong in the readings of a simulated walker, and how each slip spoils them.

use gatepost_core::fix::{Slip, SlipKind};

use crate::fix::Dice;

/// What went wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Wrong {
    // In the first bearing.
    Reversed,
    Tens,
    Hundreds,
    Exchanged,
    DialReversed,
    Quadrant,
    Gradians,
    Mils,
    OtherLandmark,
    // In all bearings, or two.
    OtherNorth,
    OppositeWay,
    Twice,
    Deflected,
    AllReversed,
    LandmarksExchanged,
    // In an angle.
    MarksExchanged,
    // In what only a line has.
    PaceKind,
    LostHundred,
    MilesKilometres,
    Feet,
    OtherWay,
    CountedElsewhere,
    StoodElsewhere,
    OtherSide,
    FacedOtherWay,
    BearingsExchanged,
    OtherLine,
}

impl Wrong {
    /// What bearings and angles suffer.
    pub(super) const OF_BEARINGS: [Self; 16] = [
        Self::Reversed,
        Self::Tens,
        Self::Hundreds,
        Self::Exchanged,
        Self::DialReversed,
        Self::Quadrant,
        Self::Gradians,
        Self::Mils,
        Self::OtherLandmark,
        Self::OtherNorth,
        Self::OppositeWay,
        Self::Twice,
        Self::Deflected,
        Self::AllReversed,
        Self::LandmarksExchanged,
        Self::MarksExchanged,
    ];
    /// What else there is on a line.
    pub(super) const OF_LINES: [Self; 11] = [
        Self::PaceKind,
        Self::LostHundred,
        Self::MilesKilometres,
        Self::Feet,
        Self::OtherWay,
        Self::CountedElsewhere,
        Self::StoodElsewhere,
        Self::OtherSide,
        Self::FacedOtherWay,
        Self::BearingsExchanged,
        Self::OtherLine,
    ];

    /// Whether a slip is told as this one, or as one of those that say the same.
    pub(super) fn is_named(self, slip: &Slip) -> bool {
        slip.kinds().any(|kind| self.is(kind)) && slip.sighting.is_none_or(|index| index == 0)
    }

    /// Whether a kind is this one.
    pub(super) fn is(self, kind: &SlipKind) -> bool {
        match self {
            Self::Reversed => *kind == SlipKind::Reversed,
            Self::Tens => *kind == SlipKind::Tens,
            Self::Hundreds => *kind == SlipKind::Hundreds,
            Self::Exchanged => *kind == SlipKind::Exchanged,
            Self::DialReversed => *kind == SlipKind::DialReversed,
            Self::Quadrant => *kind == SlipKind::Quadrant,
            Self::Gradians => *kind == SlipKind::Gradians,
            Self::Mils => *kind == SlipKind::Mils,
            Self::OtherLandmark => matches!(kind, SlipKind::OtherLandmark(_)),
            Self::OtherNorth => matches!(kind, SlipKind::OtherNorth { .. }),
            Self::OppositeWay => matches!(kind, SlipKind::WrongWay { .. }),
            Self::Twice => matches!(kind, SlipKind::Twice { .. }),
            Self::Deflected => *kind == SlipKind::Deflected,
            Self::AllReversed => *kind == SlipKind::AllReversed,
            Self::LandmarksExchanged => matches!(kind, SlipKind::LandmarksExchanged { .. }),
            Self::MarksExchanged => *kind == SlipKind::MarksExchanged,
            Self::PaceKind => *kind == SlipKind::PaceKind,
            Self::LostHundred => *kind == SlipKind::LostHundred,
            Self::MilesKilometres => *kind == SlipKind::MilesKilometres,
            Self::Feet => *kind == SlipKind::Feet,
            Self::OtherWay => *kind == SlipKind::OtherWay,
            Self::CountedElsewhere => matches!(kind, SlipKind::OtherPoint { counted: true, .. }),
            Self::StoodElsewhere => matches!(kind, SlipKind::OtherPoint { counted: false, .. }),
            Self::OtherSide => *kind == SlipKind::OtherSide,
            Self::FacedOtherWay => *kind == SlipKind::FacedOtherWay,
            Self::BearingsExchanged => *kind == SlipKind::BearingsExchanged,
            Self::OtherLine => matches!(kind, SlipKind::OtherLine(_)),
        }
    }

    /// The first bearing as it is told; nothing where nobody could tell it so.
    pub(super) fn of_first(self, read_deg: f64, dice: &mut Dice) -> Option<f64> {
        let read_deg = read_deg.rem_euclid(360.0);
        let sign = |dice: &mut Dice| if dice.even() < 0.5 { 1.0 } else { -1.0 };
        match self {
            Self::Reversed => Some(read_deg + 180.0),
            Self::Tens => Some(read_deg + 10.0 * sign(dice)),
            Self::Hundreds => Some(read_deg + if read_deg < 180.0 { 100.0 } else { -100.0 }),
            Self::Exchanged => exchanged(read_deg.round(), dice.even() < 0.5),
            Self::DialReversed => Some(360.0 - read_deg),
            // Counted from the nearer of north and south.
            Self::Quadrant => (read_deg > 90.0).then(|| (read_deg % 180.0).min(180.0 - read_deg % 180.0)),
            Self::Gradians => Some(read_deg / 0.9).filter(|told| *told < 360.0),
            Self::Mils => Some(read_deg * 6_400.0 / 360.0).filter(|told| *told < 360.0),
            Self::OtherLandmark
            | Self::OtherNorth
            | Self::OppositeWay
            | Self::Twice
            | Self::Deflected
            | Self::AllReversed
            | Self::LandmarksExchanged
            | Self::MarksExchanged
            | Self::PaceKind
            | Self::LostHundred
            | Self::MilesKilometres
            | Self::Feet
            | Self::OtherWay
            | Self::CountedElsewhere
            | Self::StoodElsewhere
            | Self::OtherSide
            | Self::FacedOtherWay
            | Self::BearingsExchanged
            | Self::OtherLine => Some(read_deg),
        }
    }
}

/// Two neighbouring figures of three exchanged; nothing where they are alike or the outcome is on no dial.
fn exchanged(read_deg: f64, last: bool) -> Option<f64> {
    let (hundreds, tens, ones) = ((read_deg / 100.0).floor(), (read_deg / 10.0).floor() % 10.0, read_deg % 10.0);
    let told_deg = if last { hundreds * 100.0 + ones * 10.0 + tens } else { tens * 100.0 + hundreds * 10.0 + ones };
    ((told_deg - read_deg).abs() > 0.5 && told_deg <= 360.0).then_some(told_deg)
}

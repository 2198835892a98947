//! The known slips and how often they happen.

use crate::fix::{Region, Standing, Stretch};
use crate::measure::{Arg, LINE_95, Message, NamedBearing, North, Telling};

/// A known mistake.
#[derive(Debug, Clone, PartialEq)]
pub enum SlipKind {
    /// The wrong end of the needle, or a back bearing that was not turned.
    Reversed,
    /// A figure read off by ten.
    Tens,
    /// A figure read off by a hundred.
    Hundreds,
    /// Two figures exchanged.
    Exchanged,
    /// A dial that runs the other way.
    DialReversed,
    /// A bearing counted in its quarter, told as one of the whole circle.
    Quadrant,
    /// Gradians told as degrees.
    Gradians,
    /// Another landmark than the one that was named.
    OtherLandmark(String),
    /// All readings of one north were really counted from another.
    OtherNorth {
        /// As it was told.
        told: North,
        /// As it was meant.
        meant: North,
    },
    /// The grid-magnetic angle was taken off where it should be added.
    WrongWay,
    /// Metal or current near turned the needle for all readings here.
    Deflected,
    /// Single paces told as double ones, or the other way round.
    PaceKind,
    /// A hundred lost or counted twice.
    LostHundred,
    /// Miles told as kilometres, or the other way round.
    MilesKilometres,
    /// Left told for right, ahead for behind.
    OtherSide,
    /// Another known point than the one that was named: stood at, or counted from.
    OtherPoint {
        /// The other one.
        name: String,
        /// Whether a distance was counted from it; else one stands there.
        counted: bool,
    },
    /// A distance that was travelled the other way along the line.
    OtherWay,
    /// The two landmarks of an angle exchanged.
    MarksExchanged,
    /// One stands on another line of the sheet than was named.
    OtherLine(String),
}

impl SlipKind {
    /// Chance of this slip in one sighting, or in one fix where it is common to all readings.
    ///
    /// # References
    /// Which slips there are: US Army TC 3-25.26 (2013) names reversed plotting, declination left out or applied the wrong way, and
    /// figures misread; the chances are common practice, no source.
    #[must_use]
    pub fn chance(&self) -> f64 {
        match self {
            Self::OtherLandmark(_) | Self::OtherLine(_) => 0.02,
            Self::Reversed
            | Self::OtherNorth { .. }
            | Self::WrongWay
            | Self::Tens
            | Self::Deflected
            | Self::PaceKind
            | Self::OtherPoint { .. }
            | Self::MarksExchanged
            | Self::LostHundred => 0.01,
            Self::Hundreds => 0.006,
            Self::Exchanged | Self::MilesKilometres | Self::OtherSide | Self::OtherWay => 0.004,
            Self::DialReversed | Self::Quadrant | Self::Gradians => 0.002,
        }
    }

    /// The word for it in records.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Reversed => "reversed",
            Self::Tens => "tens",
            Self::Hundreds => "hundreds",
            Self::Exchanged => "exchanged",
            Self::DialReversed => "dial-reversed",
            Self::Quadrant => "quadrant",
            Self::Gradians => "gradians",
            Self::OtherLandmark(_) => "other-landmark",
            Self::OtherNorth { .. } => "other-north",
            Self::WrongWay => "wrong-way",
            Self::Deflected => "deflected",
            Self::PaceKind => "pace-kind",
            Self::LostHundred => "lost-hundred",
            Self::MilesKilometres => "miles-kilometres",
            Self::OtherSide => "other-side",
            Self::OtherPoint { .. } => "other-point",
            Self::OtherWay => "other-way",
            Self::MarksExchanged => "marks-exchanged",
            Self::OtherLine(_) => "other-line",
        }
    }
}

/// A slip with its odds.
#[derive(Debug, Clone, PartialEq)]
pub struct Slip {
    /// Which one.
    pub kind: SlipKind,
    /// In which of the scene's sightings, from 0; nothing when all readings share it.
    pub sighting: Option<usize>,
    /// What the sighting is of, as the walker named it.
    pub of: String,
    /// The bearing as it was told.
    pub told: Option<NamedBearing>,
    /// The bearing that it would have been.
    pub meant: Option<NamedBearing>,
    /// Probability of it, against no slip and all others.
    pub chance: f64,
    /// Whether the other sightings foretell the reading so well that it shows: what is not exposed is a caution, no finding.
    pub exposed: bool,
    /// Where one would then stand; reckoned for the likelier ones only.
    pub then: Option<Then>,
}

/// What would follow from a slip.
#[derive(Debug, Clone, PartialEq)]
pub struct Then {
    /// Where one would then stand.
    pub place: ThenPlace,
    /// What all bearings were then read too much, and one sigma of it, degrees; only for a needle that was turned.
    pub turned_deg: Option<(f64, f64)>,
}

/// The likeliest place, its share of the probability and its limits.
#[derive(Debug, Clone, PartialEq)]
pub enum ThenPlace {
    /// On a line of the sheet.
    OnLine {
        /// Its name.
        line: String,
        /// Where on it.
        stretch: Stretch,
    },
    /// In the open.
    InTheOpen(Region),
}

/// All slips that were weighed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Slips {
    /// Probability that there is none.
    pub none: f64,
    /// The likelier ones, likeliest first.
    pub found: Vec<Slip>,
}

/// No slip is counted as at least so likely: odds against it stay a number.
const LEAST_NONE: f64 = 1e-6;
/// A slip is a finding from this probability on.
const TOLD_CHANCE: f64 = 0.5;

impl Slips {
    /// Where one would stand with each slip for which that was reckoned: its share is its odds against no slip.
    #[must_use]
    pub fn standings(&self) -> Vec<Standing> {
        let standing = |slip: &Slip| {
            let (at, covariance) = match &slip.then.as_ref()?.place {
                ThenPlace::OnLine { stretch, .. } => (stretch.best.at, stretch.covariance),
                ThenPlace::InTheOpen(region) => (region.best, region.about_best()),
            };
            Some(Standing { at, covariance, share: slip.chance / self.none.max(LEAST_NONE) })
        };
        self.found.iter().filter_map(standing).collect()
    }

    /// The slip to be told as a finding: it shows, and is likelier than everything else together.
    #[must_use]
    pub fn finding(&self) -> Option<&Slip> {
        self.found.first().filter(|slip| slip.exposed && slip.chance > TOLD_CHANCE)
    }
}

impl Telling for Slip {
    fn message(&self) -> Message {
        let id = match &self.kind {
            SlipKind::Reversed => "slip-reversed",
            SlipKind::Tens | SlipKind::Hundreds => "slip-misread",
            SlipKind::Exchanged => "slip-exchanged",
            SlipKind::DialReversed => "slip-dial-reversed",
            SlipKind::Quadrant => "slip-quadrant",
            SlipKind::Gradians => "slip-gradians",
            SlipKind::OtherLandmark(_) => "slip-other-landmark",
            SlipKind::OtherNorth { .. } => "slip-other-north",
            SlipKind::WrongWay => "slip-wrong-way",
            SlipKind::Deflected => "slip-deflected",
            SlipKind::PaceKind => "slip-pace-kind",
            SlipKind::LostHundred => "slip-lost-hundred",
            SlipKind::MilesKilometres => "slip-miles-kilometres",
            SlipKind::OtherSide => "slip-other-side",
            SlipKind::OtherPoint { .. } => "slip-other-point",
            SlipKind::OtherWay => "slip-other-way",
            SlipKind::MarksExchanged => "slip-marks-exchanged",
            SlipKind::OtherLine(_) => "slip-other-line",
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
            SlipKind::OtherLandmark(other) | SlipKind::OtherLine(other) => message.text("other", other.clone()),
            SlipKind::OtherPoint { name, counted } => {
                message.text("other", name.clone()).text("what", if *counted { "counted" } else { "here" })
            }
            SlipKind::OtherNorth { told, meant } => message.text("told-north", told.word()).text("meant-north", meant.word()),
            SlipKind::Reversed
            | SlipKind::Tens
            | SlipKind::Hundreds
            | SlipKind::Exchanged
            | SlipKind::DialReversed
            | SlipKind::Quadrant
            | SlipKind::Gradians
            | SlipKind::WrongWay
            | SlipKind::Deflected
            | SlipKind::PaceKind
            | SlipKind::LostHundred
            | SlipKind::MilesKilometres
            | SlipKind::OtherWay
            | SlipKind::MarksExchanged
            | SlipKind::OtherSide => message,
        }
    }
}

//! The known slips and how often they happen.

use crate::fix::{Region, SlipOfFix, Standing, Stretch, WitnessSlipKind};
use crate::measure::{NamedBearing, North};

/// 6,400 mils and 400 gradians go round.
pub(super) const DEG_PER_MIL: f64 = 360.0 / 6_400.0;
/// See [`DEG_PER_MIL`].
pub(super) const DEG_PER_GRADIAN: f64 = 0.9;

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
    /// Mils told as degrees.
    Mils,
    /// Another landmark than the one that was named.
    OtherLandmark(String),
    /// All readings of one north were really counted from another.
    OtherNorth {
        /// As it was told.
        told: North,
        /// As it was meant.
        meant: North,
    },
    /// The angle between the needle's north and the one that was told was applied the wrong way round.
    WrongWay {
        /// As it was told.
        told: North,
    },
    /// It was applied twice: by a dial that is set off for it, and again.
    Twice {
        /// As it was told.
        told: North,
    },
    /// Metal or current near turned the needle for all readings here.
    Deflected,
    /// Single paces told as double ones, or the other way round.
    PaceKind,
    /// A hundred lost or counted twice.
    LostHundred,
    /// Miles told as kilometres, or the other way round.
    MilesKilometres,
    /// The decimal point of a trip meter left out, or put in.
    Point,
    /// Feet told as metres.
    Feet,
    /// Left told for right, ahead for behind.
    OtherSide,
    /// Another known point than the one that was named: stood at, or counted from.
    OtherPoint {
        /// The other one.
        name: String,
        /// Whether a distance was counted from it; else one stands there.
        counted: bool,
    },
    /// A distance, or a run, that was travelled the other way along the line.
    OtherWay,
    /// The two bearings of a running fix exchanged.
    BearingsExchanged,
    /// All bearings read from the wrong end of the needle.
    AllReversed,
    /// All sides told while one faced the other way along the line.
    FacedOtherWay,
    /// Two landmarks, each taken for the other.
    LandmarksExchanged {
        /// One of them.
        one: String,
        /// The other.
        other: String,
    },
    /// The two landmarks of an angle exchanged.
    MarksExchanged,
    /// One stands on another line of the sheet than was named.
    OtherLine(String),
    /// An independent place that was weighed in was told wrongly.
    Misplaced(WitnessSlipKind),
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
            Self::Misplaced(kind) => kind.chance(),
            Self::OtherLandmark(_) | Self::OtherLine(_) => 0.02,
            Self::Reversed
            | Self::OtherNorth { .. }
            | Self::WrongWay { .. }
            | Self::Twice { .. }
            | Self::Tens
            | Self::Deflected
            | Self::PaceKind
            | Self::OtherPoint { .. }
            | Self::MarksExchanged
            | Self::LandmarksExchanged { .. }
            | Self::OtherWay
            | Self::LostHundred => 0.01,
            Self::Hundreds => 0.006,
            Self::Exchanged
            | Self::MilesKilometres
            | Self::Point
            | Self::Feet
            | Self::OtherSide
            | Self::FacedOtherWay
            | Self::AllReversed => 0.004,
            Self::DialReversed | Self::Quadrant | Self::Gradians | Self::Mils | Self::BearingsExchanged => 0.002,
        }
    }

    /// How often it is made in all readings of one thing, where it is made in the first, and of so many things: a thing is mistaken once for
    /// all, and no other with it; figures are read each time anew. Common practice, no source.
    pub(in crate::fix) fn chance_again_in(&self, things: usize) -> Option<f64> {
        if let Self::OtherLandmark(_) = self { (things < 2).then_some(1.0) } else { Some(0.3f64.powi(i32::try_from(things).ok()?)) }
    }

    /// How many degrees of a bearing go to a degree that is told, where figures of another dial were told as degrees: a reading is foretold so
    /// much less densely.
    pub(in crate::fix) fn per_told(&self) -> f64 {
        if let Self::Mils = self {
            DEG_PER_MIL
        } else if let Self::Gradians = self {
            DEG_PER_GRADIAN
        } else {
            1.0
        }
    }

    /// Whether it turns all readings of the compass alike.
    fn turns_all(&self) -> bool {
        matches!(self, Self::Deflected | Self::OtherNorth { .. } | Self::WrongWay { .. } | Self::Twice { .. })
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
            Self::Mils => "mils",
            Self::OtherLandmark(_) => "other-landmark",
            Self::OtherNorth { .. } => "other-north",
            Self::WrongWay { .. } => "wrong-way",
            Self::Twice { .. } => "twice",
            Self::Deflected => "deflected",
            Self::PaceKind => "pace-kind",
            Self::LostHundred => "lost-hundred",
            Self::MilesKilometres => "miles-kilometres",
            Self::Point => "point",
            Self::Feet => "feet",
            Self::OtherSide => "other-side",
            Self::OtherPoint { .. } => "other-point",
            Self::OtherWay => "other-way",
            Self::MarksExchanged => "marks-exchanged",
            Self::BearingsExchanged => "bearings-exchanged",
            Self::AllReversed => "all-reversed",
            Self::FacedOtherWay => "faced-other-way",
            Self::LandmarksExchanged { .. } => "landmarks-exchanged",
            Self::OtherLine(_) => "other-line",
            Self::Misplaced(_) => "misplaced",
        }
    }
}

/// Another slip with which a sighting would say the same as with the one that it is told beside: nothing but reading again parts them.
#[derive(Debug, Clone, PartialEq)]
pub struct Also {
    /// Which one.
    pub kind: SlipKind,
    /// The bearing that it would have been.
    pub meant: Option<NamedBearing>,
}

/// A slip with its odds.
#[derive(Debug, Clone, PartialEq)]
pub struct Slip {
    /// Which one; of those that say the same, the commonest.
    pub kind: SlipKind,
    /// The others with which the sighting would say the same to within what it is worth, the commonest first.
    pub also: Vec<Also>,
    /// In which of the scene's sightings, from 0; nothing when all readings share it.
    pub sighting: Option<usize>,
    /// Further sightings in which it was made again: readings of the same thing.
    pub again: Vec<usize>,
    /// What the sighting is of, as the walker named it; for another line, the known points counted from that it lacks.
    pub of: String,
    /// The bearing as it was told.
    pub told: Option<NamedBearing>,
    /// The bearing that it would have been.
    pub meant: Option<NamedBearing>,
    /// The reference that it would have been, of a place that was told wrongly; empty where its figures are right.
    pub written: String,
    /// Probability of it and of those that say the same, against no slip and all others.
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
    /// Where one would stand on each line beside those of the fix, however unlikely.
    pub on_others: Vec<OnOther>,
}

/// Where the sightings would put one on a line beside those of the fix.
#[derive(Debug, Clone, PartialEq)]
pub struct OnOther {
    /// Its name.
    pub line: String,
    /// The likeliest place on it; its share is its odds against no slip.
    pub standing: Standing,
}

/// No slip is counted as at least so likely: odds against it stay a number.
const LEAST_NONE: f64 = 1e-6;
/// With less than this for no slip at all there is one, whichever it is.
const SURELY_SOME: f64 = 0.05;
/// A slip is a finding from this probability on, and something was misread.
const TOLD_CHANCE: f64 = 0.5;

impl Slip {
    /// The sightings that it was made in; none when all readings share it.
    pub fn sightings(&self) -> impl Iterator<Item = usize> {
        self.sighting.into_iter().chain(self.again.iter().copied())
    }

    /// All kinds that this explanation is told with.
    pub fn kinds(&self) -> impl Iterator<Item = &SlipKind> {
        std::iter::once(&self.kind).chain(self.also.iter().map(|also| &also.kind))
    }
}

impl Slips {
    /// The likeliest of what turns all bearings alike, when most of the odds lie with that, whichever it is.
    #[must_use]
    pub fn all_turned(&self) -> Option<&Slip> {
        let turns = |slip: &&Slip| slip.exposed && slip.kind.turns_all();
        let chance: f64 = self.found.iter().filter(turns).map(|slip| slip.chance).sum();
        self.found.iter().find(turns).filter(|_| chance > TOLD_CHANCE)
    }

    /// Each slip for which it was reckoned where one would stand, but on another line, as a place is held against the fix: the density of the
    /// place with it is told.
    #[must_use]
    pub fn standings(&self, density: impl Fn(&Standing) -> f64) -> Vec<SlipOfFix> {
        let standing = |slip: &Slip| {
            let (at, covariance) = match &slip.then.as_ref()?.place {
                ThenPlace::OnLine { stretch, .. } => (stretch.best.at, stretch.covariance),
                ThenPlace::InTheOpen(region) => (region.best, region.about_best()),
            };
            let standing = Standing { at, covariance, share: slip.chance / self.none.max(LEAST_NONE) };
            Some(SlipOfFix { of: slip.of.clone(), density: density(&standing), standing })
        };
        self.found.iter().filter(|slip| !matches!(slip.kind, SlipKind::OtherLine(_))).filter_map(standing).collect()
    }

    /// The slip to be told as a finding: it shows, and is likelier than everything else together.
    #[must_use]
    pub fn finding(&self) -> Option<&Slip> {
        self.found.first().filter(|slip| slip.exposed && slip.chance > TOLD_CHANCE)
    }

    /// Whether something was misread for all that can be known, be it this slip or that.
    #[must_use]
    pub fn some_made(&self) -> bool {
        self.told().is_some() && self.none < SURELY_SOME
    }

    /// The slip that is told: the finding, else the likeliest where it is likelier than not that something was misread, be it this or that.
    #[must_use]
    pub fn told(&self) -> Option<&Slip> {
        self.finding().or_else(|| self.found.first().filter(|_| self.none < TOLD_CHANCE))
    }
}

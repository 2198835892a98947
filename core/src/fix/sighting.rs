//! One thing observed beside the line, as data with its spread.

use super::{Facing, GroundSighting, Spot, Way};
use crate::measure::NamedBearing;
use crate::sheet::Landmark;

/// Where a thing stands, seen by one who faces along the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quarter {
    /// In the half circle before the walker.
    Ahead,
    /// In the half circle behind.
    Behind,
    /// On the left hand.
    Left,
    /// On the right hand.
    Right,
}

/// A bearing read to a landmark, or to one of several that it may be.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingSighting {
    /// What was sighted: one landmark, or all that it may be, equally likely beforehand. Two bearings to
    /// one of the same several are of the same one where they differ by no more than three sigmas, else each has its own. A feature that is only roughly placed is a landmark with a wide spread.
    pub candidates: Vec<Landmark>,
    /// What was read.
    pub reading: NamedBearing,
    /// One sigma of the reading, degrees; the instrument's own when none is given.
    pub spread_deg: Option<f64>,
}

impl BearingSighting {
    /// A bearing to a landmark that is surely the one.
    #[must_use]
    pub fn to(landmark: Landmark, reading: NamedBearing, spread_deg: Option<f64>) -> Self {
        Self { candidates: vec![landmark], reading, spread_deg }
    }

    /// The landmark, when it is surely the one.
    #[must_use]
    pub fn sure(&self) -> Option<&Landmark> {
        match self.candidates.as_slice() {
            [only] => Some(only),
            _ => None,
        }
    }
}

/// Two bearings to one landmark with a measured run between them: a running fix.
#[derive(Debug, Clone, PartialEq)]
pub struct RunningSighting {
    /// What was sighted twice.
    pub landmark: Landmark,
    /// The first reading, before the run.
    pub first: NamedBearing,
    /// The second reading, here.
    pub second: NamedBearing,
    /// One sigma of each reading, degrees; the instrument's own when none is given.
    pub spread_deg: Option<f64>,
    /// Length of the run, metres.
    pub run_m: f64,
    /// One sigma of that, as a share of it.
    pub run_spread_share: f64,
    /// How it was run.
    pub run: Run,
}

/// How a run between two bearings went.
#[derive(Debug, Clone, PartialEq)]
pub enum Run {
    /// Along the line that is stood on; towards a known point that was not passed on the run.
    Along(Facing),
    /// Straight, on a bearing.
    Straight(NamedBearing),
}

/// Which figure a display shows of what lies between two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// The nearest one.
    Nearest,
    /// The last one that is full, until the next is.
    UntilFull,
    /// Nobody knows: either, as likely as the other.
    Unknown,
}

impl Figure {
    /// The ways in which it may be, with their chances.
    pub(in crate::fix) fn ways(self) -> &'static [(Self, f64)] {
        match self {
            Self::Nearest => &[(Self::Nearest, 1.0)],
            Self::UntilFull => &[(Self::UntilFull, 1.0)],
            Self::Unknown => &[(Self::Nearest, 0.5), (Self::UntilFull, 0.5)],
        }
    }

    /// The middle of what it leaves open minus what is shown, in steps.
    fn middle(self) -> f64 {
        match self {
            Self::Nearest => 0.0,
            Self::UntilFull => 0.5,
            Self::Unknown => 0.25,
        }
    }

    /// One sigma of what it leaves open, in steps: uniform over one, or over the two halves that overlap.
    fn sigma(self) -> f64 {
        match self {
            Self::Nearest | Self::UntilFull => 1.0 / 12f64.sqrt(),
            Self::Unknown => (1.0f64 / 12.0 + 1.0 / 16.0).sqrt(),
        }
    }
}

/// What counts a distance along a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Counter {
    /// A trip meter.
    Meter {
        /// Width of the step in which it shows a distance, metres.
        step_m: f64,
        /// Which figure it shows.
        figure: Figure,
    },
    /// Paces.
    Paces {
        /// Metres to each that is counted.
        each_m: f64,
    },
}

/// A distance along the line from a known point of it.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredSighting {
    /// The known point's name.
    pub known: String,
    /// The known point, on each of the scene's lines that has it, and which way the line was travelled from there.
    pub from: Vec<(Spot, Way)>,
    /// What was measured, metres.
    pub distance_m: f64,
    /// By what.
    pub counter: Counter,
    /// One sigma of the scale, as a share of the distance.
    pub scale_share: f64,
    /// The other known points that it may have been counted from by mistake.
    pub others: Vec<OtherPoint>,
}

impl MeasuredSighting {
    /// The middle of what a reading leaves open before the error of the scale, metres.
    #[must_use]
    pub fn middle_m(&self) -> f64 {
        self.middle_if_m(self.figure())
    }

    /// The same if its display shows figures in some way, metres.
    pub(in crate::fix) fn middle_if_m(&self, figure: Figure) -> f64 {
        self.distance_m + figure.middle() * self.step_m()
    }

    /// Which figure its display shows; paces are counted to the nearest.
    pub(in crate::fix) fn figure(&self) -> Figure {
        match self.counter {
            Counter::Meter { figure, .. } => figure,
            Counter::Paces { .. } => Figure::Nearest,
        }
    }

    /// Width of the step in which it is shown, metres; 0 for paces.
    #[must_use]
    pub fn step_m(&self) -> f64 {
        match self.counter {
            Counter::Meter { step_m, .. } => step_m,
            Counter::Paces { .. } => 0.0,
        }
    }

    /// One sigma of its own where it ends, metres: a display may stand anywhere in its step.
    pub(in crate::fix) fn own_m(&self) -> f64 {
        (self.step_m() * self.figure().sigma()).hypot(self.scale_share * self.distance_m)
    }
}

/// A known point that may have been mistaken for another.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherPoint {
    /// Its name.
    pub name: String,
    /// Where it is on each of the scene's lines that has it, and which way the line would have been travelled from there.
    pub from: Vec<(Spot, Way)>,
}

/// One thing observed.
#[derive(Debug, Clone, PartialEq)]
pub enum Sighting {
    /// A bearing to a landmark.
    Bearing(BearingSighting),
    /// Two bearings to one landmark with a run between.
    Running(RunningSighting),
    /// The bearing along the line itself, either way.
    LineRun {
        /// What was read.
        reading: NamedBearing,
        /// One sigma, degrees; the instrument's own when none is given.
        spread_deg: Option<f64>,
    },
    /// The angle from one landmark clockwise to another; no north enters.
    Angle {
        /// The left one.
        left: Landmark,
        /// The right one.
        right: Landmark,
        /// Degrees from left to right.
        angle_deg: f64,
        /// One sigma, degrees; that of two readings when none is given.
        spread_deg: Option<f64>,
    },
    /// On which side a landmark stands for one who faces along the line.
    Side {
        /// The landmark.
        landmark: Landmark,
        /// Where it stands.
        quarter: Quarter,
        /// Which way along the line the walker faces.
        facing: Facing,
        /// How surely a walker tells one side from the other, one sigma, degrees.
        spread_deg: f64,
    },
    /// A landmark seen, or looked for and not seen.
    Seen {
        /// The landmark.
        landmark: Landmark,
        /// Whether it was seen.
        seen: bool,
    },
    /// A bend, junction, bridge or crossing is here.
    Here {
        /// The known point's name, or the word for its kind.
        known: String,
        /// All places of that kind on the lines.
        places: Vec<Spot>,
        /// One sigma of standing at it, metres.
        spread_m: f64,
        /// The other known points that it may be by mistake.
        others: Vec<OtherPoint>,
    },
    /// The trip meter, or paces, from a known point.
    Measured(MeasuredSighting),
    /// What the ground says, as a likelihood along each of the scene's lines.
    Ground(GroundSighting),
}

impl Sighting {
    /// Every landmark that was sighted or looked for, or may have been.
    #[must_use]
    pub fn landmarks(&self) -> Vec<&Landmark> {
        match self {
            Self::Bearing(bearing) => bearing.candidates.iter().collect(),
            Self::Running(running) => vec![&running.landmark],
            Self::Angle { left, right, .. } => vec![left, right],
            Self::Side { landmark, .. } | Self::Seen { landmark, .. } => vec![landmark],
            Self::LineRun { .. } | Self::Here { .. } | Self::Measured(_) | Self::Ground(_) => Vec::new(),
        }
    }

    /// The word for its kind.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Bearing(_) => "bearing",
            Self::Running(_) => "running",
            Self::LineRun { .. } => "line-run",
            Self::Angle { .. } => "angle",
            Self::Side { .. } => "side",
            Self::Seen { .. } => "seen",
            Self::Here { .. } => "here",
            Self::Measured(_) => "measured",
            Self::Ground(ground) => ground.what,
        }
    }

    /// The landmark or known point that it is of, as the walker named it: all of them when it may be one of several; empty for what has no name.
    #[must_use]
    pub fn named(&self) -> String {
        match self {
            Self::Bearing(bearing) => bearing.candidates.iter().map(|mark| mark.name.as_str()).collect::<Vec<_>>().join(" / "),
            Self::Side { landmark, .. } | Self::Seen { landmark, .. } => landmark.name.clone(),
            Self::Running(running) => running.landmark.name.clone(),
            Self::Angle { left, right, .. } => format!("{} – {}", left.name, right.name),
            Self::Ground(ground) => ground.of.clone(),
            Self::Here { known, .. } => known.clone(),
            Self::Measured(measured) => measured.known.clone(),
            Self::LineRun { .. } => String::new(),
        }
    }
}

/// The names of things observed, told apart. Each has its number in the list, from 0, and its kind: where several of a kind are of one
/// thing, the number follows the name, from 1.
#[must_use]
pub fn told_apart<'a>(observed: impl Iterator<Item = (usize, &'a str, String)>) -> Vec<String> {
    let all: Vec<(usize, &str, String)> = observed.collect();
    let is_alone = |kind: &str, name: &str| all.iter().filter(|(_, other, named)| (*other, named.as_str()) == (kind, name)).count() < 2;
    let told = |(number, kind, name): &(usize, &str, String)| match (name.as_str(), is_alone(kind, name)) {
        ("", _) | (_, true) => name.clone(),
        (name, false) => format!("{name} ({})", number + 1),
    };
    all.iter().map(told).collect()
}

//! One leg of a walk as it stands in the log.

use crate::measure::{LINE_95, Message, NamedBearing, Telling};

/// Double paces to 100 m when nothing was measured: a double pace of 1.6 m.
///
/// # References
/// Forestry pace stick of 1.6 m, 62.5 double paces to 100 m (trade text, edition not known).
pub const DEFAULT_DOUBLE_PACES_PER_100_M: f64 = 62.5;

/// How paces are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PaceKind {
    /// Every step.
    Single,
    /// Every second step.
    Double,
}

/// This walker's pace.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// Double paces to 100 m.
    pub double_per_100_m: f64,
    /// One sigma of that figure, as a share of it; every leg has the same error.
    pub spread_share: f64,
}

/// Spread of a pace that was not measured, and of one that was.
///
/// # References
/// 5 % in woods is common practice, no source; calibrated on like ground 2 to 3 %.
const UNMEASURED_SHARE: f64 = 0.05;
const MEASURED_SHARE: f64 = 0.03;

impl Default for Pace {
    fn default() -> Self {
        Self { double_per_100_m: DEFAULT_DOUBLE_PACES_PER_100_M, spread_share: UNMEASURED_SHARE }
    }
}

impl Pace {
    /// A measured pace.
    ///
    /// # Errors
    /// [`LegError::Pace`] unless it is 20 to 500 paces to 100 m and the spread below 50 %.
    pub fn measured(per_100_m: f64, kind: PaceKind, spread_share: Option<f64>) -> Result<Self, LegError> {
        let double_per_100_m = match kind {
            PaceKind::Double => per_100_m,
            PaceKind::Single => per_100_m / 2.0,
        };
        let spread_share = spread_share.unwrap_or(MEASURED_SHARE);
        let sound = (20.0..=500.0).contains(&per_100_m) && (0.0..0.5).contains(&spread_share);
        if sound { Ok(Self { double_per_100_m, spread_share }) } else { Err(LegError::Pace(per_100_m)) }
    }

    /// Half-width of the 95 % limits of the double paces to 100 m.
    #[must_use]
    pub fn double_95_per_100_m(&self) -> f64 {
        LINE_95 * self.spread_share * self.double_per_100_m
    }

    /// Metres of a number of paces.
    #[must_use]
    pub fn metres(&self, count: f64, kind: PaceKind) -> f64 {
        let doubles = match kind {
            PaceKind::Double => count,
            PaceKind::Single => count / 2.0,
        };
        doubles * 100.0 / self.double_per_100_m
    }

    /// Double paces of a distance in metres.
    #[must_use]
    pub fn double_paces(&self, metres: f64) -> f64 {
        metres * self.double_per_100_m / 100.0
    }
}

/// A distance as it was counted or measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Distance {
    /// Paces and their kind.
    Paces {
        /// How many.
        count: f64,
        /// Of which kind.
        kind: PaceKind,
    },
    /// Metres, horizontal.
    Metres(f64),
}

impl Distance {
    /// Checks that the distance is more than nothing and at most 100 km.
    ///
    /// # Errors
    /// [`LegError::Distance`].
    pub fn checked(self) -> Result<Self, LegError> {
        const MOST: f64 = 100_000.0;
        let number = match self {
            Self::Paces { count, .. } => count,
            Self::Metres(metres) => metres,
        };
        if number > 0.0 && number <= MOST { Ok(self) } else { Err(LegError::Distance(number)) }
    }

    /// The distance in metres for a pace.
    #[must_use]
    pub fn metres(&self, pace: &Pace) -> f64 {
        match *self {
            Self::Paces { count, kind } => pace.metres(count, kind),
            Self::Metres(metres) => metres,
        }
    }
}

/// Right or left of the way one walks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl Side {
    /// The other side: the same side of the ground when one walks back.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// What to add to a bearing to face this side, degrees.
    #[must_use]
    pub fn turn_deg(self) -> f64 {
        match self {
            Self::Left => -90.0,
            Self::Right => 90.0,
        }
    }
}

/// A box detour: out at a right angle, on for the leg's whole distance, back by the same count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Detour {
    /// The side one went out to.
    pub side: Side,
    /// How far out, and back again.
    pub out: Distance,
}

/// One leg: a bearing and a distance, and what was met at its end.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// The bearing walked.
    pub bearing: NamedBearing,
    /// The distance gained along it.
    pub distance: Distance,
    /// The box walked round something in the way.
    pub detour: Option<Detour>,
    /// What was met at the end.
    pub met: Option<String>,
}

/// Why a leg or a pace cannot be taken.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum LegError {
    /// Not more than nothing, or more than 100 km.
    #[error("distance-unreadable")]
    Distance(f64),
    /// A pace no person has.
    #[error("pace-unreadable")]
    Pace(f64),
}

impl Telling for LegError {
    fn message(&self) -> Message {
        let (id, number) = match self {
            Self::Distance(number) => ("distance-unreadable", number),
            Self::Pace(number) => ("pace-unreadable", number),
        };
        Message::new(id).text("typed", number.to_string())
    }
}

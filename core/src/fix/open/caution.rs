//! Why there is no fix in the open, and what a walker must be told about one.

use crate::fix::cautions::namesake;
use crate::measure::{Arg, Message, Telling};

/// Why there is no fix in the open.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum OpenError {
    /// Nothing was sighted.
    #[error("no-sighting")]
    NoSighting,
    /// More sightings than are weighed together.
    #[error("too-many-sightings")]
    TooMany(usize),
    /// The area in which one may stand is empty or endless.
    #[error("open-no-area")]
    NoArea,
    /// A sighting whose numbers cannot be: its place in the list, from 1.
    #[error("open-unusable")]
    Unusable(usize),
    /// No place of the area is possible by all that was observed.
    #[error("open-nowhere")]
    Nowhere,
}

impl Telling for OpenError {
    fn message(&self) -> Message {
        match self {
            Self::NoSighting => Message::new("no-sighting"),
            Self::TooMany(count) => Message::new("too-many-sightings").with("count", Arg::Count(*count as i64)),
            Self::NoArea => Message::new("open-no-area"),
            Self::Unusable(number) => Message::new("open-unusable").with("number", Arg::Count(*number as i64)),
            Self::Nowhere => Message::new("open-nowhere"),
        }
    }
}

/// A place that slides more than so many times as far as its angle is wide slides without limit, in plain words.
const MOST_TIMES: f64 = 30.0;

/// What a walker must be told about a fix in the open.
#[derive(Debug, Clone, PartialEq)]
pub enum OpenCaution {
    /// All bearings cross at flat angles.
    PoorCut {
        /// The best cut among them, degrees.
        cut_deg: f64,
        /// Half-length of the 95 % area, metres.
        reach_m: f64,
    },
    /// The place lies near the circle through the three marks whose angles were measured.
    DangerCircle {
        /// Distance from that circle, as a share of its radius.
        off_share: f64,
        /// How many times farther the place slides than one such angle at that distance is wide; nothing when without limit.
        times: Option<f64>,
        /// Half-length of the 95 % area, metres.
        reach_m: f64,
    },
    /// The three marks whose angles were measured and the place lie in one line.
    InLine,
    /// More than one region is left.
    SeveralRegions(usize),
    /// Fewer measurements than a place needs: the area is all that is known.
    TooFew,
    /// A reading does not fit the others.
    Misfit {
        /// The landmark, or the two of an angle.
        landmark: String,
        /// How many sigmas it is off.
        sigmas: f64,
    },
    /// One turn of all bearings explains why they do not meet.
    SharedTurn {
        /// Read too much by this, degrees; negative for too little.
        turn_deg: f64,
        /// One sigma of that, degrees.
        spread_deg: f64,
        /// The landmarks whose reading alone, if wrong, explains it as well.
        rivals: Vec<String>,
    },
    /// The sheet has another of its name.
    Namesake {
        /// The landmark.
        landmark: String,
        /// The other.
        other: String,
        /// How far apart they lie, metres.
        apart_m: f64,
    },
    /// What was sighted should not be in sight from there, by the heights.
    Hidden {
        /// The landmark.
        landmark: String,
    },
    /// It should not be in sight from where the readings meet: the place lies beside that, where it is.
    HiddenWhereMet {
        /// The landmark.
        landmark: String,
    },
    /// Angles that go once round add up to something else than a circle.
    NotRound {
        /// What they add up to, degrees.
        sum_deg: f64,
    },
    /// The readings meet outside of the area.
    BeyondArea,
    /// The region reaches the edge of the area: it may go on beyond.
    AtEdge,
    /// So much is left for standing elsewhere that the limits do not hold their share of the whole.
    Elsewhere(f64),
    /// The horizontal field is weak here.
    WeakField,
    /// The compass cannot be relied on here.
    Blackout,
}

impl Telling for OpenCaution {
    fn message(&self) -> Message {
        match self {
            Self::PoorCut { cut_deg, reach_m } => {
                Message::new("open-poor-cut").with("cut", Arg::Degrees(*cut_deg, 0)).with("reach", Arg::Metres(*reach_m))
            }
            Self::DangerCircle { times: Some(times), reach_m, .. } if *times < MOST_TIMES => {
                Message::new("open-danger-circle").with("times", Arg::Number(*times, 0)).with("reach", Arg::Metres(*reach_m))
            }
            Self::DangerCircle { .. } => Message::new("open-on-danger-circle"),
            Self::InLine => Message::new("open-in-line"),
            Self::SeveralRegions(count) => Message::new("open-several").with("count", Arg::Count(*count as i64)),
            Self::TooFew => Message::new("open-too-few"),
            Self::Misfit { landmark, sigmas } => {
                Message::new("open-misfit").text("landmark", landmark.clone()).with("sigmas", Arg::Number(*sigmas, 1))
            }
            Self::SharedTurn { turn_deg, spread_deg, rivals } => turn_message(*turn_deg, *spread_deg, rivals),
            Self::Namesake { landmark, other, apart_m } => namesake(landmark, other, *apart_m),
            Self::Hidden { landmark } => Message::new("caution-hidden").text("landmark", landmark.clone()),
            Self::HiddenWhereMet { landmark } => Message::new("open-hidden-where-met").text("landmark", landmark.clone()),
            Self::NotRound { sum_deg } => Message::new("open-not-round").with("sum", Arg::Turn(*sum_deg, 1)),
            Self::BeyondArea => Message::new("open-beyond-area"),
            Self::AtEdge => Message::new("open-at-edge"),
            Self::Elsewhere(share) => Message::new("open-elsewhere").with("share", Arg::Share(*share)),
            Self::WeakField => Message::new("caution-weak-field"),
            Self::Blackout => Message::new("caution-blackout"),
        }
    }
}

fn turn_message(turn_deg: f64, spread_deg: f64, rivals: &[String]) -> Message {
    let id = if rivals.is_empty() { Message::new("open-shared-turn") } else { Message::new("open-shared-turn-or-one") };
    id.with("turn", Arg::Degrees(turn_deg.abs(), 1))
        .text("side", if turn_deg > 0.0 { "much" } else { "little" })
        .with("spread", Arg::Degrees(crate::measure::LINE_95 * spread_deg, 1))
        .text("rivals", rivals.join(", "))
}

//! Everything that a fix in the open is taken from.

use std::fmt;

use crate::earth::Norths;
use crate::fix::said::witness_tail_told;
use crate::fix::{BearingSighting, Misplaced, Trust, WRONG_READING};
use crate::ground::HeightUnit;
use crate::measure::Point;
use crate::sheet::Landmark;

/// One thing observed away from any line.
#[derive(Debug, Clone)]
pub enum OpenSighting<'a> {
    /// A bearing to a landmark, or to one of several that it may be.
    Bearing(BearingSighting),
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
    /// A distance to a landmark.
    Distance {
        /// The landmark.
        landmark: Landmark,
        /// Metres.
        distance_m: f64,
        /// One sigma, metres.
        spread_m: f64,
    },
    /// What the ground says, seen or not seen: a likelihood of the place.
    Ground(OpenGround<'a>),
}

impl OpenSighting<'_> {
    /// The same if the metres that were told were feet; nothing where none were told.
    pub(super) fn in_feet(&self) -> Option<Self> {
        let unit_m = HeightUnit::Feet.metres();
        match self {
            Self::Distance { landmark, distance_m, spread_m } => {
                Some(Self::Distance { landmark: landmark.clone(), distance_m: distance_m * unit_m, spread_m: spread_m * unit_m })
            }
            Self::Ground(ground) => ground.in_feet.copied().map(Self::Ground),
            Self::Bearing(_) | Self::Angle { .. } => None,
        }
    }
}

/// A likelihood over the plane, reckoned from the ground by those who know it.
#[derive(Clone, Copy)]
pub struct OpenGround<'a> {
    /// The likelihood at a place; never below nothing.
    pub likelihood: &'a dyn Fn(Point) -> f64,
    /// What it nowhere exceeds.
    pub most: f64,
    /// The finest detail of it, metres: nothing of this size is passed over.
    pub detail_m: f64,
    /// The place from which it only falls, the same to all sides, where there is one: what it does not exceed in an area is then known.
    pub falls_from: Option<Point>,
    /// Among how many that are the same answer, said again: all together count as one.
    pub again: f64,
    /// Whether nobody said it: it follows from another sighting, as that what was sighted is in sight.
    pub implied: bool,
    /// The landmark of which it says that it is in sight.
    pub sight_of: Option<&'a str>,
    /// By how much what was told is off at a place, and one sigma of that, metres; nothing for what is not told in metres.
    pub off_m: Option<&'a dyn Fn(Point) -> Option<(f64, f64)>>,
    /// The same if the metres that were told were feet.
    pub in_feet: Option<&'a OpenGround<'a>>,
    /// Of an independent place.
    pub witness: Option<OpenWitness<'a>>,
}

/// An independent place that is weighed in, and the slips that it may have been told with.
#[derive(Debug, Clone, Copy)]
pub struct OpenWitness<'a> {
    /// As it was told.
    pub of: &'a str,
    /// Every slip.
    pub misplaced: &'a [Misplaced],
    /// The one that it is taken to have been told with.
    pub slip: Option<&'a Misplaced>,
}

impl<'a> OpenGround<'a> {
    /// What was told once of the ground, and nowhere exceeds `most`; nothing of `detail_m`, metres, is passed over.
    #[must_use]
    pub fn of(likelihood: &'a dyn Fn(Point) -> f64, most: f64, detail_m: f64) -> Self {
        Self {
            likelihood,
            most,
            detail_m,
            falls_from: None,
            again: 1.0,
            implied: false,
            sight_of: None,
            off_m: None,
            in_feet: None,
            witness: None,
        }
    }

    /// The likelihood at a place, where so many readings are plainly wrong.
    pub(super) fn at(&self, place: Point, wrong: f64) -> f64 {
        match self.witness {
            Some(OpenWitness { slip: Some(slip), .. }) => slip.density(place, 0.0),
            Some(witness) if !witness.misplaced.is_empty() && wrong < WRONG_READING => {
                ((self.likelihood)(place) - witness_tail_told()).max(0.0)
            }
            Some(_) | None => (self.likelihood)(place),
        }
    }

    /// The same told with each slip that it may have been told with.
    pub(super) fn with_slips(self) -> impl Iterator<Item = (&'a Misplaced, Self)> {
        let slips = self.witness.into_iter().flat_map(|witness| witness.misplaced.iter().map(move |slip| (slip, witness)));
        slips.map(move |(slip, witness)| {
            let witness = Some(OpenWitness { slip: Some(slip), ..witness });
            (slip, Self { falls_from: Some(slip.centre()), witness, ..self })
        })
    }
}

impl fmt::Debug for OpenGround<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "OpenGround(at most {}, detail {} m)", self.most, self.detail_m)
    }
}

/// The area in which one may stand: every square metre of it equally likely beforehand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Its corner in the south-west.
    pub low: Point,
    /// Its corner in the north-east.
    pub high: Point,
}

impl Bounds {
    /// A square about a place.
    #[must_use]
    pub fn about(middle: Point, half_m: f64) -> Self {
        let half = Point::new(half_m, half_m);
        Self { low: middle.minus(half), high: middle.plus(half) }
    }

    /// Its middle.
    #[must_use]
    pub fn middle(&self) -> Point {
        self.low.plus(self.high).times(0.5)
    }

    /// From corner to corner.
    #[must_use]
    pub fn across(&self) -> Point {
        self.high.minus(self.low)
    }

    /// Whether a place lies inside.
    #[must_use]
    pub fn holds(&self, at: Point) -> bool {
        (self.low.east_m..=self.high.east_m).contains(&at.east_m) && (self.low.north_m..=self.high.north_m).contains(&at.north_m)
    }

    /// Whether there is any area inside, of finite size.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        let across = self.across();
        across.east_m > 0.0 && across.north_m > 0.0 && across.length_m().is_finite()
    }
}

/// Sightings, norths and the instrument of one fix in the open.
#[derive(Debug, Clone)]
pub struct OpenScene<'a> {
    /// What was observed.
    pub sightings: Vec<OpenSighting<'a>>,
    /// The norths over the sheet.
    pub norths: &'a Norths,
    /// What a reading with this instrument is worth.
    pub trust: Trust,
    /// A first guess, where there is one.
    pub near: Option<Point>,
    /// Where one may stand.
    pub bounds: Bounds,
}

impl OpenScene<'_> {
    /// One sigma of the error that all bearings share, degrees, the magnetic model's own in it.
    #[must_use]
    pub fn shared_spread_deg(&self) -> f64 {
        self.trust.shared_spread_deg.hypot(self.norths.declination_spread_deg())
    }
}

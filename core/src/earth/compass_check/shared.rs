//! The error that all readings of a compass share, and how far single readings scatter.

use super::attraction::Surveyed;
use super::{CompassReadings, KnownReading, Untold};
use crate::measure::{Arg, LINE_95, Message, Telling, circular_mean_deg, parted, signed_difference_deg, student_95};

/// What a compass reads too much everywhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SharedError {
    /// Take this off every reading, degrees.
    pub error_deg: f64,
    /// One sigma of it, degrees: the readings' part and the declination's.
    pub spread_deg: f64,
    /// One sigma of the readings' part alone, degrees: what one reading is off, over the root of their number.
    pub own_spread_deg: f64,
    /// Half-width at 95 %, degrees; wider than 1.96 sigma where few readings had to tell their own scatter (Student).
    pub half_width_95_deg: f64,
    /// How many known bearings it rests on.
    pub readings: usize,
}

/// A compass that is sound reads within some degrees of the truth; one beyond this was read wrongly, or in another place (our choice).
const PLAUSIBLE_DEG: f64 = 30.0;
/// Nearer than this to half a circle the wrong end of the needle was read (our choice).
const REVERSED_DEG: f64 = 30.0;

/// An error that no sound compass has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Implausible {
    /// The error told, degrees.
    pub error_deg: f64,
    /// Whether it is about half a circle.
    pub is_reversed: bool,
}

impl Telling for Implausible {
    fn message(&self) -> Message {
        let message = Message::new("compass-error-implausible").with("error", Arg::Turn(self.error_deg.abs(), 0));
        message.text("kind", if self.is_reversed { "reversed" } else { "wrong" })
    }
}

impl SharedError {
    /// Whether no sound compass has this error: more than 30°.
    #[must_use]
    pub fn implausible(&self) -> Option<Implausible> {
        let error_deg = self.error_deg;
        (error_deg.abs() > PLAUSIBLE_DEG).then(|| Implausible { error_deg, is_reversed: error_deg.abs() > 180.0 - REVERSED_DEG })
    }
}

/// How far a single reading is off, the shared error apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadingSpread {
    /// One sigma, degrees.
    pub spread_deg: f64,
    /// On how many independent differences it rests; 0 when it is what was believed beforehand.
    pub freedom: usize,
    /// One sigma as it was believed beforehand, degrees.
    pub believed_deg: f64,
}

impl ReadingSpread {
    /// Whether the readings scatter more than such a compass does by chance once in a hundred times.
    ///
    /// # References
    /// Chi-square of two differences, 99 %: 9.210 (printed tables, from memory); of more differences it is less for each.
    #[must_use]
    pub fn strays(&self) -> bool {
        const MOST_TIMES: f64 = 2.146; // the root of 9.210 / 2
        self.freedom >= LEAST_FREEDOM && self.spread_deg > MOST_TIMES * self.believed_deg
    }
}

/// Known bearings against what was read, at the stations where that speaks of the compass.
pub(super) struct Compared<'a> {
    readings: &'a CompassReadings,
    /// Those that point the other way, by their number among the known readings, from 0; they are left out.
    reversed: Vec<usize>,
    /// The mean of read less known; none without readings or when they do not point one way.
    mean_deg: Option<f64>,
    count: usize,
    /// How many of them rest on the declination.
    by_declination: usize,
    /// Sum of the squared deviations from the mean.
    squares: f64,
    /// Mean of the squared spreads of the known bearings.
    known_variance: f64,
    pairs_squares: f64,
    pairs_freedom: usize,
}

/// With fewer independent differences than this the belief beforehand says more.
const LEAST_FREEDOM: usize = 2;

/// Readings that happen to agree do not make a compass better than this share of the belief beforehand (our choice).
const LEAST_SHARE_OF_BELIEF: f64 = 0.25;

impl<'a> Compared<'a> {
    pub(super) fn with(readings: &'a CompassReadings, surveyed: &Surveyed) -> Self {
        let speaks = |(_, known): &(usize, &KnownReading)| surveyed.speaks_of_compass(&known.station);
        let off = |(index, k): (usize, &KnownReading)| (index, signed_difference_deg(k.read_deg_mag, k.known_deg_mag));
        let all: Vec<(usize, f64)> = readings.known.iter().enumerate().filter(speaks).map(off).collect();
        let (kept, reversed) = parted(&all);
        let usable: Vec<&KnownReading> = kept.iter().filter_map(|(index, _)| readings.known.get(*index)).collect();
        let residuals: Vec<f64> = kept.iter().map(|(_, off)| *off).collect();
        let (mean_deg, squares) = mean_and_squares(&residuals);
        let known_squares: f64 = usable.iter().map(|known| known.known_spread_deg.powi(2)).sum();
        Self {
            readings,
            reversed,
            mean_deg,
            count: usable.len(),
            by_declination: usable.iter().filter(|known| known.by_declination).count(),
            squares,
            known_variance: known_squares / usable.len().max(1) as f64,
            pairs_squares: surveyed.squares,
            pairs_freedom: surveyed.freedom,
        }
    }

    /// How far a single reading is off: from the scatter of known bearings and closures together, else as believed.
    pub(super) fn reading(&self) -> ReadingSpread {
        let freedom = if self.mean_deg.is_some() { self.count - 1 } else { 0 };
        let (all, believed_deg) = (freedom + self.pairs_freedom, self.readings.reading_spread_deg);
        if all < LEAST_FREEDOM {
            return ReadingSpread { spread_deg: believed_deg, freedom: 0, believed_deg };
        }
        let own = if freedom > 0 { (self.squares - freedom as f64 * self.known_variance).max(0.0) } else { 0.0 };
        let spread_deg = ((own + self.pairs_squares) / all as f64).sqrt();
        ReadingSpread { spread_deg: spread_deg.max(LEAST_SHARE_OF_BELIEF * believed_deg), freedom: all, believed_deg }
    }

    pub(super) fn shared(&self) -> Option<SharedError> {
        let reading = self.reading();
        let own_deg = ((reading.spread_deg.powi(2) + self.known_variance) / self.count as f64).sqrt();
        // The mean takes the declination's error in by the share of its readings that rest on it.
        let common_deg = self.readings.declination_spread_deg * self.by_declination as f64 / self.count as f64;
        self.mean_deg.map(|error_deg| SharedError {
            error_deg,
            spread_deg: own_deg.hypot(common_deg),
            own_spread_deg: own_deg,
            half_width_95_deg: (student_95(reading.freedom) * own_deg).hypot(LINE_95 * common_deg),
            readings: self.count,
        })
    }

    /// What the known bearings cannot tell, and which of them were left out.
    pub(super) fn untold(&self) -> Vec<Untold> {
        let reversed = self.reversed.iter().map(|index| Untold::Reversed(*index));
        reversed.chain(self.lacking()).collect()
    }

    fn lacking(&self) -> Option<Untold> {
        match (self.readings.known.len(), self.count) {
            (0, _) if self.readings.pairs.is_empty() => Some(Untold::NoReadings),
            (0, _) => Some(Untold::NoKnownBearing),
            (_, 0) => Some(Untold::KnownWhereAttracted),
            (_, 1) => Some(Untold::OneKnownBearing),
            _ => self.mean_deg.is_none().then_some(Untold::Scattered),
        }
    }
}

/// The mean on the circle, so that a needle read at its wrong end has a mean too; and the squares around it.
fn mean_and_squares(residuals: &[f64]) -> (Option<f64>, f64) {
    let Some(near_deg) = circular_mean_deg(residuals) else { return (None, 0.0) };
    let off: Vec<f64> = residuals.iter().map(|residual| signed_difference_deg(*residual, near_deg)).collect();
    let middle = off.iter().sum::<f64>() / off.len() as f64;
    let squares = off.iter().map(|off| (off - middle).powi(2)).sum();
    (Some(signed_difference_deg(near_deg + middle, 0.0)), squares)
}

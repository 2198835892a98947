//! The error that all readings of a compass share, and how far single readings scatter.

use super::attraction::Surveyed;
use super::stations::{Known, Numbered};
use super::{CompassReadings, Untold};
use crate::measure::{Arg, LINE_95, Message, Telling, signed_difference_deg, student_95};

/// What a compass reads too much everywhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SharedError {
    /// Take this off every reading, degrees.
    pub error_deg: f64,
    /// One sigma of it, degrees: the readings' part and the declination's.
    pub spread_deg: f64,
    /// One sigma of it without the declination's, degrees: what one reading is off over the root of their number, and the watch.
    pub own_spread_deg: f64,
    /// One sigma of the normal whose 95 % are those of the readings and the watch, degrees: what a later reckoning goes on with. Wider
    /// than [`Self::own_spread_deg`] where few readings had to tell their own scatter (Student).
    pub kept_spread_deg: f64,
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

/// Farther off than this a compass that is sound and was read right seldom is; it may be kept (common practice, no source).
const UNUSUAL_DEG: f64 = 8.0;

/// An error that a compass may have and that more likely has another cause.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unusual {
    /// The error told, degrees.
    pub error_deg: f64,
    /// Whether the declination is as large, be it set on the compass rightly or the wrong way.
    pub is_declination: bool,
}

impl Telling for Unusual {
    fn message(&self) -> Message {
        let message = Message::new("compass-error-unusual").with("error", Arg::Turn(self.error_deg.abs(), 0));
        message.text("kind", if self.is_declination { "declination" } else { "other" })
    }
}

impl SharedError {
    /// Whether an error of 8° to 30° asks for another look, given the declination there in degrees.
    #[must_use]
    pub fn unusual(&self, declination_deg: f64) -> Option<Unusual> {
        let error_deg = self.error_deg;
        let is_declination = (error_deg.abs() - declination_deg.abs()).abs() <= self.half_width_95_deg.min(UNUSUAL_DEG);
        (error_deg.abs() > UNUSUAL_DEG && self.implausible().is_none()).then_some(Unusual { error_deg, is_declination })
    }

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
    /// Chi-square of one difference, 99 %: 6.635, of two: 9.210 (printed tables, from memory); of more differences it is less for each.
    #[must_use]
    pub fn strays(&self) -> bool {
        self.freedom > 0 && self.spread_deg > most_times(self.freedom) * self.believed_deg
    }
}

/// By how many times what is believed readings of so many independent differences scatter by chance once in a hundred times.
fn most_times(freedom: usize) -> f64 {
    if freedom < LEAST_FREEDOM { 2.576 } else { 2.146 }
}

/// Known bearings against what was read, at the stations where that speaks of the compass.
pub(super) struct Compared<'a> {
    readings: &'a CompassReadings,
    numbered: &'a Numbered,
    /// By the likeliest set of turned stations.
    mean: Option<Mean>,
    /// The mean over all sets, and its variance between them.
    between: (f64, f64),
    pairs_squares: f64,
    pairs_freedom: usize,
}

/// Read less known, at the stations that are not turned.
#[derive(Clone, Copy)]
struct Mean {
    mean_deg: f64,
    count: usize,
    /// Sum of the squared deviations from the mean.
    squares: f64,
    /// Mean of the squared spreads of the known bearings.
    known_variance: f64,
    /// What one sigma of the watch moves the mean by, degrees.
    clock_deg: f64,
    /// The share of them that rest on the declination.
    by_declination: f64,
}

/// With fewer independent differences than this the belief beforehand says more.
const LEAST_FREEDOM: usize = 2;

/// Readings that happen to agree do not make a compass better than this share of the belief beforehand (our choice).
const LEAST_SHARE_OF_BELIEF: f64 = 0.25;

impl<'a> Compared<'a> {
    pub(super) fn with(readings: &'a CompassReadings, numbered: &'a Numbered, surveyed: &Surveyed) -> Self {
        let speak = |is_turned: &dyn Fn(Option<usize>) -> bool| -> Vec<Known> {
            numbered.known.iter().copied().filter(|known| !is_turned(known.station)).collect()
        };
        let means: Vec<(f64, Option<Mean>)> = surveyed.turned().map(|(share, is_turned)| (share, mean_of(&speak(&is_turned)))).collect();
        let (pairs_squares, pairs_freedom) = surveyed.scatter();
        let mean = means.first().and_then(|(_, mean)| *mean);
        Self { readings, numbered, mean, between: between(&means), pairs_squares, pairs_freedom }
    }

    /// How far a single reading is off: from the scatter of known bearings and closures together, else as believed.
    pub(super) fn reading(&self) -> ReadingSpread {
        let freedom = self.mean.map_or(0, |mean| mean.count - 1);
        let (all, believed_deg) = (freedom + self.pairs_freedom, self.readings.reading_spread_deg);
        let own = self.mean.map_or(0.0, |mean| (mean.squares - freedom as f64 * mean.known_variance).max(0.0));
        let spread_deg = ((own + self.pairs_squares) / all.max(1) as f64).sqrt();
        // One difference says less than the belief, unless it contradicts it.
        if all < LEAST_FREEDOM && spread_deg <= most_times(1) * believed_deg {
            return ReadingSpread { spread_deg: believed_deg, freedom: 0, believed_deg };
        }
        ReadingSpread { spread_deg: spread_deg.max(LEAST_SHARE_OF_BELIEF * believed_deg), freedom: all, believed_deg }
    }

    pub(super) fn shared(&self) -> Option<SharedError> {
        let (mean, reading) = (self.mean?, self.reading());
        let (error_deg, between) = self.between;
        let read_deg = ((reading.spread_deg.powi(2) + mean.known_variance) / mean.count as f64 + between).sqrt();
        let own_deg = read_deg.hypot(mean.clock_deg);
        // The mean takes the declination's error in by the share of its readings that rest on it.
        let common_deg = self.readings.declination_spread_deg * mean.by_declination;
        Some(SharedError {
            error_deg: signed_difference_deg(error_deg, 0.0),
            spread_deg: own_deg.hypot(common_deg),
            own_spread_deg: own_deg,
            kept_spread_deg: (student_95(reading.freedom) * read_deg).hypot(LINE_95 * mean.clock_deg).min(180.0) / LINE_95,
            // Beyond half a circle there is nothing.
            half_width_95_deg: (student_95(reading.freedom) * read_deg).hypot(LINE_95 * common_deg.hypot(mean.clock_deg)).min(180.0),
            readings: mean.count,
        })
    }

    /// What the known bearings cannot tell, and which of them were left out.
    pub(super) fn untold(&self) -> Vec<Untold> {
        let reversed = self.numbered.reversed.iter().map(|index| Untold::Reversed(*index));
        reversed.chain(self.lacking()).collect()
    }

    fn lacking(&self) -> Option<Untold> {
        match (self.readings.known.len(), self.mean.map_or(0, |mean| mean.count)) {
            (0, _) if self.readings.pairs.is_empty() => Some(Untold::NoReadings),
            (0, _) => Some(Untold::NoKnownBearing),
            _ if self.numbered.known.is_empty() => Some(Untold::Scattered),
            (_, 0) => Some(Untold::KnownWhereAttracted),
            (_, 1) => Some(Untold::OneKnownBearing),
            _ => self.one_place(),
        }
    }

    /// Iron at the only station would look like an error of the compass.
    fn one_place(&self) -> Option<Untold> {
        let first = self.numbered.known.first()?.station;
        let alone = self.numbered.lines.is_empty() && self.numbered.known.iter().all(|known| known.station == first);
        let name = first.and_then(|station| self.numbered.names.get(station));
        name.filter(|_| alone).map(|name| Untold::OneStation(name.clone()))
    }
}

fn mean_of(known: &[Known]) -> Option<Mean> {
    if known.is_empty() {
        return None;
    }
    let count = known.len() as f64;
    let mean_deg = known.iter().map(|known| known.off_deg).sum::<f64>() / count;
    let squares = known.iter().map(|known| (known.off_deg - mean_deg).powi(2)).sum();
    let known_variance = known.iter().map(|known| known.spread_deg.powi(2)).sum::<f64>() / count;
    let by_declination = known.iter().filter(|known| known.by_declination).count() as f64 / count;
    let clock_deg = known.iter().map(|known| known.clock_deg).sum::<f64>().abs() / count;
    Some(Mean { mean_deg, count: known.len(), squares, known_variance, clock_deg, by_declination })
}

/// The mean by all sets with their shares, so that a station in doubt counts as far as it may be clean; and the variance between them.
fn between(means: &[(f64, Option<Mean>)]) -> (f64, f64) {
    let told: Vec<(f64, f64)> = means.iter().filter_map(|(share, mean)| mean.map(|mean| (*share, mean.mean_deg))).collect();
    let all: f64 = told.iter().map(|(share, _)| share).sum();
    let middle = told.iter().map(|(share, mean)| share * mean).sum::<f64>() / all.max(f64::MIN_POSITIVE);
    let squares: f64 = told.iter().map(|(share, mean)| share * (mean - middle).powi(2)).sum();
    (middle, squares / all.max(f64::MIN_POSITIVE))
}

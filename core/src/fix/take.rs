//! Taking a fix: bearings to landmarks, weighed along a line.

use super::cautions::cautions;
use super::crossing::crossings;
use super::sighted::{self, SightedFrom};
use super::stretch::stretches;
use super::weigh::{step_m, weigh};
use super::{BearingSighting, Crossing, FixCaution, Odds, Sighted, Stretch, Trust};
use crate::earth::Norths;
use crate::measure::{Arg, Message, NamedBearing, Telling};
use crate::sheet::Line;

/// A bearing that misses the whole line by more than this many of its sigmas meets no line.
const MISS_SIGMAS: f64 = 3.0;

/// Most sightings of one fix: their joint density then stays within the range of numbers.
const MOST_SIGHTINGS: usize = 60;

/// A fix on a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Fix {
    /// The line's name.
    pub line: String,
    /// Where one may stand, likeliest first; never empty.
    pub stretches: Vec<Stretch>,
    /// Share of the probability that lies in none of the stretches: the reading is plainly wrong.
    pub elsewhere: f64,
    /// One sigma across the line, metres: the map's own error.
    pub across_spread_m: f64,
    /// What each sighting said.
    pub sighted: Vec<Sighted>,
    /// The probability along the line.
    pub odds: Odds,
    /// What the walker must be told.
    pub cautions: Vec<FixCaution>,
}

/// Why there is no fix.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FixError {
    /// Nothing was sighted.
    #[error("no-sighting")]
    NoSighting,
    /// More sightings than are weighed together.
    #[error("too-many-sightings")]
    TooMany(usize),
    /// The bearing meets the line nowhere.
    #[error("no-crossing")]
    NoCrossing {
        /// The landmark.
        landmark: String,
        /// The line.
        line: String,
        /// The reading.
        reading: NamedBearing,
        /// By how many degrees it misses the line at the nearest.
        miss_deg: f64,
    },
}

impl Telling for FixError {
    fn message(&self) -> Message {
        match self {
            Self::NoSighting => Message::new("no-sighting"),
            Self::TooMany(count) => Message::new("too-many-sightings").with("count", Arg::Count(*count as i64)),
            Self::NoCrossing { landmark, line, reading, miss_deg } => Message::new("no-crossing")
                .text("landmark", landmark.clone())
                .text("line", line.clone())
                .with("reading", Arg::Bearing(*reading))
                .with("miss", Arg::Degrees(*miss_deg, 0)),
        }
    }
}

/// Takes a fix on a line from bearings to landmarks.
///
/// Each bearing is 98 % normal with its spread (reading, half a graduation of rounding, landmark,
/// line) and 2 % uniform on the circle; the error that the readings share is one normal, summed out.
/// Beforehand every metre of the line is equally likely.
///
/// # Errors
/// [`FixError`] without a sighting, or when every bearing misses the whole line.
///
/// # References
/// Modified resection: US Army TC 3-25.26 (2013); along the line `d·sigma / sin(cut)`.
pub fn take(line: &Line, sightings: &[BearingSighting], norths: &Norths, trust: &Trust) -> Result<Fix, FixError> {
    if sightings.len() > MOST_SIGHTINGS {
        return Err(FixError::TooMany(sightings.len()));
    }
    let readings = |name: &str| sightings.iter().filter(|one| one.landmark.name == name).count();
    let prepared: Vec<SightedFrom> =
        sightings.iter().map(|sighting| SightedFrom::new(line, sighting, norths, trust, readings(&sighting.landmark.name))).collect();
    let crossed: Vec<Vec<Crossing>> = prepared.iter().map(|from| crossings(line, from)).collect();
    refuse_if_all_miss(line, sightings, &prepared, &crossed)?;
    let odds = weigh(line, &prepared, step_m(line, &crossed)).ok_or(FixError::NoSighting)?;
    let (stretches, elsewhere) = stretches(line, &odds);
    let best = stretches.first().ok_or(FixError::NoSighting)?.best;
    let sighted: Vec<Sighted> = sightings
        .iter()
        .zip(&prepared)
        .zip(crossed)
        .map(|((sighting, from), crossings)| sighted::describe(line, sighting, from, crossings, best))
        .collect();
    let cautions = cautions(line, &stretches, &sighted, norths);
    Ok(Fix { line: line.name.clone(), stretches, elsewhere, across_spread_m: line.spread_m, sighted, odds, cautions })
}

fn refuse_if_all_miss(
    line: &Line,
    sightings: &[BearingSighting],
    prepared: &[SightedFrom],
    crossed: &[Vec<Crossing>],
) -> Result<(), FixError> {
    let mut refusal = Err(FixError::NoSighting);
    for ((sighting, from), crossings) in sightings.iter().zip(prepared).zip(crossed) {
        let (miss_deg, spread_deg) = nearest_miss(line, from);
        if !crossings.is_empty() || miss_deg <= MISS_SIGMAS * spread_deg {
            return Ok(());
        }
        let (landmark, reading) = (sighting.landmark.name.clone(), sighting.reading);
        refusal = Err(FixError::NoCrossing { landmark, line: line.name.clone(), reading, miss_deg });
    }
    refusal
}

/// The least residual over the line's vertices and its sigma, degrees.
fn nearest_miss(line: &Line, from: &SightedFrom) -> (f64, f64) {
    let ends = line.pieces().enumerate().flat_map(|(index, (start, end))| [(index, 0.0, start), (index, 1.0, end)]);
    let misses = ends.map(|(index, share, place)| (from.residual_deg(index, share, place).abs(), from.angle_spread_deg(place)));
    misses.min_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1))).unwrap_or((180.0, 1.0))
}

//! Taking a fix: bearings to landmarks, weighed along a line.

use super::crossing::{crossings, cut_deg};
use super::stretch::stretches;
use super::{Crossing, Instrument, Odds, Stretch};
use crate::earth::{Caution, Compass, Norths};
use crate::measure::{
    Arg, Covariance, LINE_95, Message, NamedBearing, Point, Telling, normal_density, normal_nodes, signed_difference_deg,
};
use crate::sheet::{Landmark, Line, LinePlace};

/// Share of readings that are plainly wrong: uniform on the circle.
const WRONG_READING: f64 = 0.02;
/// A bearing that misses the whole line by more than this many of its sigmas meets no line.
const MISS_SIGMAS: f64 = 3.0;
/// A residual of more than this many sigmas is told as a misfit.
const MISFIT_SIGMAS: f64 = 2.5;
/// Cuts flatter than this are told, degrees: at 30° the spread along the line is doubled.
const POOR_CUT_DEG: f64 = 30.0;
/// Most entries of an odds table.
const MOST_STEPS: f64 = 40_000.0;
/// Nodes over the shared compass error: at least, and at most.
const SHARED_NODES: (f64, f64) = (31.0, 301.0);

/// A bearing read to a landmark.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingSighting {
    /// What was sighted.
    pub landmark: Landmark,
    /// What was read.
    pub reading: NamedBearing,
    /// One sigma of the reading, degrees; the instrument's own when none is given.
    pub spread_deg: Option<f64>,
}

/// A sighting prepared for one line: the bearing in the plane at each vertex, and the spreads.
#[derive(Debug, Clone)]
pub(super) struct SightedFrom {
    mark: Point,
    mark_spread_m: f64,
    line_spread_m: f64,
    plane_deg: Vec<f64>,
    own_deg: f64,
    shared_deg: f64,
}

impl SightedFrom {
    fn new(line: &Line, sighting: &BearingSighting, norths: &Norths, instrument: Instrument) -> Self {
        let rounding_deg = instrument.graduation_deg() / 12f64.sqrt();
        Self {
            mark: sighting.landmark.at,
            mark_spread_m: sighting.landmark.spread_m,
            line_spread_m: line.spread_m,
            plane_deg: line.points().map(|at| norths.to_plane_deg(sighting.reading, at)).collect(),
            own_deg: sighting.spread_deg.unwrap_or(instrument.reading_spread_deg()).hypot(rounding_deg),
            shared_deg: instrument.shared_spread_deg().hypot(norths.declination_spread_deg()),
        }
    }

    /// The landmark's place.
    pub(super) fn mark(&self) -> Point {
        self.mark
    }

    /// The reading as a bearing of the plane, at a share of the way along a piece of the line.
    pub(super) fn piece_plane_deg(&self, piece: usize, share: f64) -> f64 {
        match (self.plane_deg.get(piece), self.plane_deg.get(piece + 1)) {
            (Some(start), Some(end)) => start + (end - start) * share,
            _ => 0.0,
        }
    }

    /// One sigma of the reading without the shared error, degrees: reading, rounding, landmark and line.
    fn own_spread_deg(&self, place: LinePlace) -> f64 {
        let ray = self.mark.minus(place.at);
        let distance_m = ray.length_m().max(1.0);
        let line_m = self.line_spread_m * cut_deg(ray, place.direction).to_radians().cos();
        let map_deg = (self.mark_spread_m.hypot(line_m) / distance_m).to_degrees();
        self.own_deg.hypot(map_deg)
    }

    /// One sigma of the whole bearing at a place, degrees.
    pub(super) fn angle_spread_deg(&self, place: LinePlace) -> f64 {
        self.own_spread_deg(place).hypot(self.shared_deg)
    }

    fn residual_deg(&self, piece: usize, share: f64, place: LinePlace) -> f64 {
        signed_difference_deg(self.piece_plane_deg(piece, share), self.mark.minus(place.at).bearing_deg())
    }
}

/// A sighting as the fix sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighted {
    /// The landmark's name.
    pub landmark: String,
    /// What was read.
    pub reading: NamedBearing,
    /// Every crossing of its back bearing with the line, in the line's order.
    pub crossings: Vec<Crossing>,
    /// At the best place: the reading as a bearing of the plane, degrees.
    pub plane_deg: f64,
    /// At the best place: reading minus the bearing that the sheet gives, degrees.
    pub residual_deg: f64,
    /// At the best place: one sigma of the reading, everything included, degrees.
    pub spread_deg: f64,
    /// At the best place: metres to the landmark.
    pub distance_m: f64,
    /// At the best place: angle between bearing and line, degrees.
    pub cut_deg: f64,
}

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

impl Fix {
    /// Covariance of the place in the plane for one of the stretches.
    #[must_use]
    pub fn covariance(&self, stretch: &Stretch) -> Covariance {
        Covariance::along_across(stretch.best.direction, stretch.spread_m, self.across_spread_m)
    }
}

/// What a walker must be told about a fix.
#[derive(Debug, Clone, PartialEq)]
pub enum FixCaution {
    /// The bearing cuts the line at a flat angle.
    PoorCut {
        /// The landmark.
        landmark: String,
        /// Angle between bearing and line, degrees.
        cut_deg: f64,
    },
    /// More than one stretch is left.
    SeveralPlaces(usize),
    /// A reading does not fit the others or the line.
    Misfit {
        /// The landmark.
        landmark: String,
        /// Reading minus the sheet's bearing, degrees.
        residual_deg: f64,
    },
    /// The horizontal field is weak here.
    WeakField,
    /// The compass cannot be relied on here.
    Blackout,
    /// The place lies at an end of the line as the sheet has it.
    AtEnd,
}

impl Telling for FixCaution {
    fn message(&self) -> Message {
        match self {
            Self::PoorCut { landmark, cut_deg } => {
                Message::new("caution-poor-cut").text("landmark", landmark.clone()).with("cut", Arg::Degrees(*cut_deg, 0))
            }
            Self::SeveralPlaces(count) => Message::new("caution-several-places").with("count", Arg::Count(*count as i64)),
            Self::Misfit { landmark, residual_deg } => {
                Message::new("caution-misfit").text("landmark", landmark.clone()).with("by", Arg::Degrees(residual_deg.abs(), 0))
            }
            Self::WeakField => Message::new("caution-weak-field"),
            Self::Blackout => Message::new("caution-blackout"),
            Self::AtEnd => Message::new("caution-at-end"),
        }
    }
}

/// Why there is no fix.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FixError {
    /// Nothing was sighted.
    #[error("no-sighting")]
    NoSighting,
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
pub fn take(line: &Line, sightings: &[BearingSighting], norths: &Norths, instrument: Instrument) -> Result<Fix, FixError> {
    let prepared: Vec<SightedFrom> = sightings.iter().map(|sighting| SightedFrom::new(line, sighting, norths, instrument)).collect();
    let crossed: Vec<Vec<Crossing>> = prepared.iter().map(|from| crossings(line, from)).collect();
    refuse_if_all_miss(line, sightings, &prepared, &crossed)?;
    let odds = weigh(line, &prepared, step_m(line, &crossed)).ok_or(FixError::NoSighting)?;
    let (stretches, elsewhere) = stretches(line, &odds);
    let best = stretches.first().ok_or(FixError::NoSighting)?.best;
    let sighted: Vec<Sighted> = sightings
        .iter()
        .zip(&prepared)
        .zip(crossed)
        .map(|((sighting, from), crossings)| describe(line, sighting, from, crossings, best))
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

/// A step of 1 m, finer where a crossing is sharper, coarser only on lines beyond 40 km.
fn step_m(line: &Line, crossed: &[Vec<Crossing>]) -> f64 {
    let sharpest = crossed.iter().flatten().map(|crossing| crossing.spread_along_m).fold(f64::INFINITY, f64::min);
    (sharpest / 8.0).min(1.0).max(line.length_m() / MOST_STEPS)
}

fn weigh(line: &Line, prepared: &[SightedFrom], wanted_step_m: f64) -> Option<Odds> {
    let count = (line.length_m() / wanted_step_m).ceil().max(1.0);
    let step_m = line.length_m() / count;
    let alone = prepared.len() == 1;
    let nodes = shared_nodes(prepared);
    let mut weights = Vec::with_capacity(count as usize);
    for (piece, (start, end)) in line.pieces().enumerate() {
        let length_m = end.along_m - start.along_m;
        while let Some(along_m) = Some((weights.len() as f64 + 0.5) * step_m).filter(|along_m| *along_m <= end.along_m) {
            let inside_m = along_m - start.along_m;
            let place = LinePlace { along_m, at: start.at.plus(start.direction.times(inside_m)), direction: start.direction };
            weights.push(likelihood(prepared, &nodes, alone, piece, inside_m / length_m, place));
        }
    }
    Odds::from_weights(step_m, weights)
}

/// Nodes close enough together for the sharpest reading; a single reading takes the shared error into its spread.
fn shared_nodes(prepared: &[SightedFrom]) -> Vec<(f64, f64)> {
    let shared_deg = prepared.first().map_or(0.0, |from| from.shared_deg);
    let sharpest_deg = prepared.iter().map(|from| from.own_deg).fold(f64::INFINITY, f64::min);
    let count = (18.0 * shared_deg / sharpest_deg).clamp(SHARED_NODES.0, SHARED_NODES.1);
    normal_nodes(if prepared.len() == 1 { 0.0 } else { shared_deg }, count as usize)
}

/// Likelihood of all readings at a place, the shared error summed out.
fn likelihood(prepared: &[SightedFrom], nodes: &[(f64, f64)], alone: bool, piece: usize, share: f64, place: LinePlace) -> f64 {
    let terms: Vec<(f64, f64)> = prepared
        .iter()
        .map(|from| {
            let spread_deg = if alone { from.angle_spread_deg(place) } else { from.own_spread_deg(place) };
            (from.residual_deg(piece, share, place), spread_deg)
        })
        .collect();
    let given = |shared: f64| terms.iter().map(|(residual, spread)| bearing_density(residual - shared, *spread)).product::<f64>();
    nodes.iter().map(|(shared, weight)| weight * given(*shared)).sum()
}

/// Density of a bearing's residual, per degree: normal with a uniform tail.
fn bearing_density(residual_deg: f64, spread_deg: f64) -> f64 {
    (1.0 - WRONG_READING) * normal_density(signed_difference_deg(residual_deg, 0.0), spread_deg) + WRONG_READING / 360.0
}

fn describe(line: &Line, sighting: &BearingSighting, from: &SightedFrom, crossings: Vec<Crossing>, best: LinePlace) -> Sighted {
    let ray = from.mark.minus(best.at);
    let piece = line.pieces().position(|(_, end)| best.along_m <= end.along_m).unwrap_or(0);
    let plane_deg = from.piece_plane_deg(piece, 0.5);
    Sighted {
        landmark: sighting.landmark.name.clone(),
        reading: sighting.reading,
        crossings,
        plane_deg: crate::measure::wrap_deg(plane_deg),
        residual_deg: signed_difference_deg(plane_deg, ray.bearing_deg()),
        spread_deg: from.angle_spread_deg(best),
        distance_m: ray.length_m(),
        cut_deg: cut_deg(ray, best.direction),
    }
}

fn cautions(line: &Line, stretches: &[Stretch], sighted: &[Sighted], norths: &Norths) -> Vec<FixCaution> {
    let mut told = Vec::new();
    match norths.caution() {
        Some(Caution::Blackout) => told.push(FixCaution::Blackout),
        Some(Caution::Weak) => told.push(FixCaution::WeakField),
        None => {}
    }
    if stretches.len() > 1 {
        told.push(FixCaution::SeveralPlaces(stretches.len()));
    }
    for one in sighted {
        if one.residual_deg.abs() > MISFIT_SIGMAS * one.spread_deg {
            told.push(FixCaution::Misfit { landmark: one.landmark.clone(), residual_deg: one.residual_deg });
        }
        if one.cut_deg < POOR_CUT_DEG && sighted.len() == 1 {
            told.push(FixCaution::PoorCut { landmark: one.landmark.clone(), cut_deg: one.cut_deg });
        }
    }
    let ends = |best: LinePlace, spread_m: f64| best.along_m < LINE_95 * spread_m || line.length_m() - best.along_m < LINE_95 * spread_m;
    if stretches.first().is_some_and(|first| ends(first.best, first.spread_m)) {
        told.push(FixCaution::AtEnd);
    }
    told
}

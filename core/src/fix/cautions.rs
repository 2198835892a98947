//! What a walker must be told about a fix.

use super::directed::unsure_deg;
use super::scene::Scene;
use super::{Account, Fit, Sighted, Sighting, Stretch, Verdict, told_apart};
use crate::earth::Caution;
use crate::ground::curvature_drop_m;
use crate::measure::{Arg, LINE_95, Message, Telling};
use crate::sheet::{Landmark, Line};

/// Farther landmarks are told, metres: from here on the earth's curve hides more than a person's height.
const FAR_M: f64 = 5_000.0;
/// Cuts flatter than this are told, degrees: at 30° the spread along the line is doubled.
const POOR_CUT_DEG: f64 = 30.0;

/// Limits over more than this share of the line tell nothing of its ends.
const MOST_OF_LINE: f64 = 0.5;
/// Where the ways of reading the run of the line differ by more than this, one sigma, it bends, degrees: on a straight one they are the same.
const BEND_DEG: f64 = 5.0;
/// Between two places at which that is asked, metres; and how many there are at the most.
const BEND_STEP_M: f64 = 15.0;
/// See [`BEND_STEP_M`].
const MOST_BEND_STEPS: f64 = 200.0;
/// What is in sight with a smaller chance should not be.
pub(super) const HIDDEN_CHANCE: f64 = 0.05;
/// Limits over more than this share of the line tell nothing of where on it.
const NEARLY_ALL: f64 = 0.85;

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
    /// Something observed without a compass does not fit the others or the line.
    OtherMisfit {
        /// Its kind.
        what: &'static str,
        /// What it is of.
        of: String,
        /// How it fits the likeliest place.
        fit: Fit,
    },
    /// The landmark is so far that the earth's curve hides its foot.
    Far {
        /// The landmark.
        landmark: String,
        /// How much of it lies below a level sight, metres.
        hidden_m: f64,
    },
    /// The horizontal field is weak here.
    WeakField,
    /// The compass cannot be relied on here.
    Blackout,
    /// The place lies at an end of the line as the sheet has it.
    AtEnd,
    /// The limits take in nearly all of the line.
    Anywhere,
    /// The run of the line was told near a bend.
    RunAtBend,
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
            Self::OtherMisfit { what, of, fit } => {
                fit.told(Message::new("caution-other-misfit").text("what", *what).text("of", of.clone()))
            }
            Self::Far { landmark, hidden_m } => {
                Message::new("caution-far").text("landmark", landmark.clone()).with("hidden", Arg::Metres(*hidden_m))
            }
            Self::WeakField => Message::new("caution-weak-field"),
            Self::Blackout => Message::new("caution-blackout"),
            Self::AtEnd => Message::new("caution-at-end"),
            Self::Anywhere => Message::new("caution-anywhere"),
            Self::RunAtBend => Message::new("caution-run-at-bend"),
            Self::Namesake { landmark, other, apart_m } => namesake(landmark, other, *apart_m),
            Self::Hidden { landmark } => Message::new("caution-hidden").text("landmark", landmark.clone()),
        }
    }
}

/// What is told where a sheet has two of a name.
pub(super) fn namesake(landmark: &str, other: &str, apart_m: f64) -> Message {
    Message::new("caution-namesake").text("landmark", landmark).text("other", other).with("apart", Arg::Metres(apart_m))
}

pub(super) fn cautions(
    lines: &[&Line],
    stretches: &[Stretch],
    (sighted, accounts): (&[Sighted], &[Account]),
    scene: &Scene<'_>,
) -> Vec<FixCaution> {
    let mut told = Vec::new();
    match scene.norths.caution() {
        Some(Caution::Blackout) => told.push(FixCaution::Blackout),
        Some(Caution::Weak) => told.push(FixCaution::WeakField),
        None => {}
    }
    if stretches.first().is_some_and(|first| lines.get(first.line).is_some_and(|line| is_anywhere(line, first))) {
        told.push(FixCaution::Anywhere);
    }
    if let Some((first, line)) = stretches.first().and_then(|first| Some((first, lines.get(first.line)?))) {
        told.extend(is_run_at_bend(scene, line, first).then_some(FixCaution::RunAtBend));
        told.extend(hidden(scene, first));
    }
    if stretches.len() > 1 {
        told.push(FixCaution::SeveralPlaces(stretches.len()));
    }
    let names = told_apart(sighted.iter().map(|one| (one.sighting, "", one.landmark.clone())));
    told.extend(sighted.iter().zip(names).flat_map(|(one, name)| of_sighting(one, &name, scene.sightings.len() == 1)));
    let is_told = |sighting: usize| sighted.iter().any(|one| one.sighting == sighting && one.verdict() == Verdict::Misfit);
    told.extend(accounts.iter().filter(|one| !is_told(one.sighting)).filter_map(other_misfit));
    if stretches.first().is_some_and(|first| lines.get(first.line).is_some_and(|line| is_at_end(line, first))) {
        told.push(FixCaution::AtEnd);
    }
    told
}

/// Whether the line bends within reach of the place, where its run was told.
fn is_run_at_bend(scene: &Scene<'_>, line: &Line, stretch: &Stretch) -> bool {
    let is_told = scene.sightings.iter().any(|sighting| matches!(sighting, Sighting::LineRun { .. }));
    let (low_m, high_m) = stretch.limits_95_m;
    let count = ((high_m - low_m) / BEND_STEP_M).ceil().clamp(1.0, MOST_BEND_STEPS);
    let places = (0..=count as usize).map(|step| low_m + (high_m - low_m) * step as f64 / count);
    is_told && places.chain([stretch.best.along_m]).any(|along_m| unsure_deg(line, line.at(along_m)) > BEND_DEG)
}

/// The sure landmarks that were sighted and that the heights hide from there.
fn hidden(scene: &Scene<'_>, stretch: &Stretch) -> Vec<FixCaution> {
    let mut names: Vec<&str> = Vec::new();
    for landmark in scene.sightings.iter().filter(|one| !matches!(one, Sighting::Seen { seen: false, .. })).flat_map(sure) {
        let chance = scene.chance(&landmark.name, stretch.line).map_or(1.0, |table| table.at(stretch.best.along_m));
        if chance < HIDDEN_CHANCE && !names.contains(&landmark.name.as_str()) {
            names.push(&landmark.name);
        }
    }
    names.into_iter().map(|landmark| FixCaution::Hidden { landmark: landmark.into() }).collect()
}

fn sure(sighting: &Sighting) -> Vec<&Landmark> {
    if let Sighting::Bearing(bearing) = sighting { bearing.sure().into_iter().collect() } else { sighting.landmarks() }
}

fn is_anywhere(line: &Line, stretch: &Stretch) -> bool {
    let (low_m, high_m) = stretch.limits_95_m;
    high_m - low_m > NEARLY_ALL * line.length_m()
}

/// Whether the place may lie beyond an end: it is within reach of the spread, and the spread is no mere part of knowing nothing.
fn is_at_end(line: &Line, stretch: &Stretch) -> bool {
    let (low_m, high_m) = stretch.limits_95_m;
    let reach_m = LINE_95 * stretch.spread_m;
    let near_m = stretch.best.along_m.min(line.length_m() - stretch.best.along_m);
    !line.is_ring() && near_m < reach_m && high_m - low_m < MOST_OF_LINE * line.length_m()
}

/// A misfit that is not told with the bearings.
fn other_misfit(account: &Account) -> Option<FixCaution> {
    let fit = account.fit.filter(|fit| account.what != "bearing" && fit.verdict() == Verdict::Misfit)?;
    Some(FixCaution::OtherMisfit { what: account.what, of: account.of.clone(), fit })
}

fn of_sighting(one: &Sighted, name: &str, alone: bool) -> Vec<FixCaution> {
    let mut told = Vec::new();
    let landmark = || name.to_owned();
    if one.verdict() == Verdict::Misfit {
        told.push(FixCaution::Misfit { landmark: landmark(), residual_deg: one.residual_deg });
    }
    if alone && one.cut_deg < POOR_CUT_DEG {
        told.push(FixCaution::PoorCut { landmark: landmark(), cut_deg: one.cut_deg });
    }
    if one.distance_m > FAR_M {
        told.push(FixCaution::Far { landmark: landmark(), hidden_m: curvature_drop_m(one.distance_m) });
    }
    told
}

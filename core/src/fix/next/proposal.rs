//! A sighting that may be taken next, and what it would read from each place.

use super::NextWhat;
use super::cells::Cell;
use crate::fix::Sighting;
use crate::fix::directed::{Look, folded_deg, looks};
use crate::fix::scene::Scene;
use crate::sheet::Landmark;

/// Nearer landmarks say little: their own spread turns the bearing; farther ones are hardly seen. Metres.
const REACH_M: (f64, f64) = (50.0, 20_000.0);

/// Ways of reading the run of a line that lie no farther apart than this are one, sigmas of a reading: a normal that wide foretells nearly the
/// same (our choice).
const ALIKE_SIGMAS: f64 = 0.25;

/// A sighting that may be taken next.
#[derive(Debug, Clone)]
pub(super) struct Proposal<'a> {
    landmark: Option<&'a Landmark>,
    /// One sigma of the reading and its rounding, degrees.
    own_deg: f64,
    /// The chance that it can be taken, from each of the places asked about.
    pub(super) chances: Vec<Option<f64>>,
}

/// A reading foretold from a place: a bearing of the plane and its one sigma, degrees.
#[derive(Debug, Clone, Copy)]
pub(super) struct Foretold {
    /// The chance that it is this that is read there.
    pub(super) chance: f64,
    pub(super) mean_deg: f64,
    pub(super) spread_deg: f64,
}

impl Proposal<'_> {
    pub(super) fn what(&self) -> NextWhat {
        self.landmark.map_or(NextWhat::LineRun, |landmark| NextWhat::Bearing(landmark.name.clone()))
    }

    /// After how many degrees the reading says the same again: a line runs either way.
    pub(super) fn turn_deg(&self) -> f64 {
        if self.landmark.is_some() { 360.0 } else { 180.0 }
    }

    /// What may be read from a cell: one bearing of a landmark, the run of the line in each way that it may be read.
    pub(super) fn foretold(&self, cell: &Cell<'_>) -> Vec<Foretold> {
        let (shared_deg, spread_deg) = cell.shared_deg;
        let spread_deg = self.own_deg.hypot(spread_deg);
        let Some(landmark) = self.landmark else {
            return self.runs(cell, spread_deg);
        };
        let (ray, map_m) = (landmark.at.minus(cell.place.at), landmark.spread_m.hypot(cell.line.spread_m));
        let map_deg = (map_m / ray.length_m().max(1.0)).to_degrees().min(90.0);
        vec![Foretold { chance: 1.0, mean_deg: ray.bearing_deg() + shared_deg, spread_deg: spread_deg.hypot(map_deg) }]
    }

    /// The run of the line in each way that it may be read from a cell. Ways that lie within [`ALIKE_SIGMAS`] of a reading are one: what
    /// is read does not tell them apart.
    fn runs(&self, cell: &Cell<'_>, spread_deg: f64) -> Vec<Foretold> {
        let mut told: Vec<Foretold> = Vec::new();
        for Look { chance, plane_deg } in looks(cell.line, cell.place) {
            let mean_deg = plane_deg + cell.shared_deg.0;
            let off_deg = |one: &Foretold| folded_deg(mean_deg, one.mean_deg);
            match told.iter_mut().find(|one| off_deg(one).abs() < ALIKE_SIGMAS * spread_deg) {
                Some(alike) => {
                    alike.mean_deg += off_deg(alike) * chance / (alike.chance + chance);
                    alike.chance += chance;
                }
                None => told.push(Foretold { chance, mean_deg, spread_deg }),
            }
        }
        told
    }

    /// The chance that it can be taken from where one stands; nothing when the heights do not tell.
    pub(super) fn chance(&self) -> Option<f64> {
        let known: Vec<f64> = self.chances.iter().filter_map(|chance| *chance).collect();
        (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
    }
}

/// Everything that is not sighted yet: bearings to landmarks in reach, and the run of the line. `seen` has the chances for each of the truths.
pub(super) fn proposals<'a>(
    scene: &Scene<'_>,
    landmarks: &'a [Landmark],
    cells: &[Cell<'_>],
    truths: &[usize],
    seen: &[Vec<Option<f64>>],
) -> Vec<Proposal<'a>> {
    let own_deg = scene.trust.own_deg(None);
    let is_sighted = |landmark: &Landmark| scene.sightings.iter().any(|sighting| has_bearing_to(sighting, landmark));
    let in_reach = |landmark: &Landmark| {
        let mut distances_m = truths.iter().filter_map(|truth| cells.get(*truth)).map(|cell| landmark.at.minus(cell.place.at).length_m());
        distances_m.all(|distance_m| (REACH_M.0..=REACH_M.1).contains(&distance_m))
    };
    let wanted = landmarks.iter().enumerate().filter(|(_, landmark)| !is_sighted(landmark) && in_reach(landmark));
    let bearings = wanted.map(|(index, landmark)| {
        let chances = seen.iter().map(|chances| chances.get(index).copied().flatten()).collect();
        Proposal { landmark: Some(landmark), own_deg, chances }
    });
    let is_run_read = scene.sightings.iter().any(|sighting| matches!(sighting, Sighting::LineRun { .. }));
    let run = (!is_run_read).then(|| Proposal { landmark: None, own_deg, chances: vec![None; truths.len()] });
    bearings.chain(run).collect()
}

/// Whether a bearing was surely taken to it.
fn has_bearing_to(sighting: &Sighting, landmark: &Landmark) -> bool {
    match sighting {
        Sighting::Bearing(bearing) => bearing.sure().is_some_and(|sure| sure.name == landmark.name),
        Sighting::Running(running) => running.landmark.name == landmark.name,
        Sighting::LineRun { .. }
        | Sighting::Angle { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => false,
    }
}

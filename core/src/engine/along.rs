//! What is in sight along the lines of the sheet, kept from fix to fix: a walker who adds a sighting stands on the same ground.

use std::sync::{Arc, Mutex, PoisonError};

use crate::ground::{Layout, Sightlines};
use crate::sheet::{Landmark, Line, Sheet};

/// Places along a line at which it is asked what is in sight, metres apart.
pub(super) const ALONG_M: f64 = 30.0;
/// Most chances that are kept, 16 bytes each.
const MOST_KEPT: usize = 1_000_000;

/// The chances that one landmark is in sight along one line.
pub(super) type Chances = Arc<Vec<Option<f64>>>;

/// What was asked before, by line and landmark.
#[derive(Debug, Clone, Default)]
pub(super) struct InSight(Arc<Mutex<Vec<OnLine>>>);

#[derive(Debug)]
struct OnLine {
    line: Line,
    of: Vec<(Landmark, Chances)>,
}

impl InSight {
    /// For each landmark the chance that it is in sight along a line, every [`ALONG_M`]; only what was never asked is reckoned.
    pub(super) fn along(&self, sheet: &Sheet, sights: &Sightlines<'_>, line: &Line, landmarks: &[&Landmark]) -> Vec<Chances> {
        let layout: &Layout = sights.heights().layout();
        // Whatever a panic left half done here is whole: entries are added in one step.
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let known = |kept: &[OnLine], landmark: &Landmark| {
            let on = kept.iter().find(|one| one.line == *line)?;
            on.of.iter().find(|(other, _)| other == landmark).map(|(_, chances)| Arc::clone(chances))
        };
        let asked: Vec<&Landmark> = landmarks.iter().copied().filter(|landmark| known(&kept, landmark).is_none()).collect();
        let mut found = sheet.chances_along(sights, layout, line, &asked, ALONG_M).into_iter().map(Arc::new);
        let all: Vec<Chances> = landmarks.iter().filter_map(|landmark| known(&kept, landmark).or_else(|| found.next())).collect();
        let new = landmarks.iter().zip(&all).filter(|(landmark, _)| asked.contains(landmark));
        let of: Vec<(Landmark, Chances)> = new.map(|(landmark, chances)| ((*landmark).clone(), Arc::clone(chances))).collect();
        keep(&mut kept, line, of);
        all
    }
}

fn keep(kept: &mut Vec<OnLine>, line: &Line, of: Vec<(Landmark, Chances)>) {
    let chances = |one: &OnLine| one.of.iter().map(|(_, chances)| chances.len()).sum::<usize>();
    if kept.iter().map(chances).sum::<usize>() > MOST_KEPT {
        kept.clear();
    }
    match kept.iter_mut().find(|one| one.line == *line) {
        Some(on) => on.of.extend(of),
        None => kept.push(OnLine { line: line.clone(), of }),
    }
}

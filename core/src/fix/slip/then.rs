//! Where one would stand if a slip was made.

use super::kinds::{Then, ThenPlace};
use crate::fix::Sighting;
use crate::fix::scene::Scene;
use crate::fix::steps::Steps;
use crate::fix::stretch::stretches;
use crate::fix::weigh::{prepared, weigh};
use crate::sheet::Line;

/// What a slip changes in a scene.
pub(super) enum Change {
    /// The sightings.
    Read(Vec<Sighting>),
    /// The error that the compass readings share, one sigma, degrees.
    Turned(f64),
    /// The line: one then stands at a place of another.
    Line(Then),
}

/// The likeliest place in a scene that is changed so.
pub(super) fn then(scene: &Scene<'_>, steps: &[Steps], change: Change) -> Option<Then> {
    let mut scene = scene.clone();
    let is_turned = matches!(change, Change::Turned(_));
    match change {
        Change::Read(sightings) => scene.sightings = sightings,
        Change::Turned(spread_deg) => scene.trust.shared_spread_deg = spread_deg,
        Change::Line(then) => return Some(then),
    }
    let weighed = weigh(&scene, steps)?;
    let lines: Vec<&Line> = scene.lines.iter().map(|choice| choice.line).collect();
    let (places, _) = stretches(&lines, &weighed);
    let stretch = *places.first()?;
    let turned = || prepared(&scene).get(stretch.line).map(|line| line.shared_deg(stretch.best.along_m));
    Some(Then {
        place: ThenPlace::OnLine { line: lines.get(stretch.line)?.name.clone(), stretch },
        turned_deg: if is_turned { turned() } else { None },
    })
}

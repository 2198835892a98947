//! That one stands on another line of the sheet than those that were named.

use super::kinds::{OnOther, Slip, SlipKind, Then, ThenPlace};
use super::odds::{Found, Like, WRONG_BESIDE_SLIPS, of_all, shows};
use super::then::Change;
use super::weigh::PLACES;
use crate::fix::scene::{Choice, Scene};
use crate::fix::steps::Steps;
use crate::fix::stretch::stretches;
use crate::fix::weigh::weigh;
use crate::fix::{Sighting, Standing, Stretch};
use crate::sheet::Line;

/// Ways that are easily taken for each other.
const WAYS: [&str; 3] = ["road", "track", "path"];
/// A line of another kind, a creek for a road, is mistaken so much more seldom (common practice, no source).
const UNLIKE: f64 = 0.05;
/// So little probability on the named lines is counted as this much: a weight stays a number.
const LEAST_SHARE: f64 = 1e-200;

/// The lines beside those of a scene that may have been taken for them, and everything observed as it counts along all of them, the
/// scene's own first.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside<'a> {
    /// The other lines.
    pub lines: Vec<&'a Line>,
    /// What was observed, for the scene's lines and after them these.
    pub sightings: Vec<Sighting>,
}

/// Weighs each line beside a scene's own, and tells every place on them.
pub(super) fn other_lines(scene: &Scene<'_>, beside: &Beside<'_>) -> (Vec<Found<Change>>, Vec<OnOther>) {
    let named = scene.lines.len();
    let wide = wide(scene, beside);
    let steps: Vec<Steps> = wide.lines.iter().map(|choice| Steps::coarse(choice.line, PLACES)).collect();
    let Some(weighed) = weigh(&wide, &steps) else { return (Vec::new(), Vec::new()) };
    let lines: Vec<&Line> = wide.lines.iter().map(|choice| choice.line).collect();
    let (places, _) = stretches(&lines, &weighed);
    let on_named: f64 = weighed.lines.iter().take(named).map(|line| line.share).sum();
    let others = wide.lines.iter().zip(&weighed.lines).enumerate().skip(named);
    let found = |(index, (choice, line)): (usize, (&Choice<'_>, &crate::fix::odds::LineOdds))| {
        let stretch = *places.iter().find(|place| place.line == index)?;
        let prior = choice.odds?;
        let weight = line.share / on_named.max(LEAST_SHARE);
        let exposed = shows(weight / prior);
        let then = Then { place: ThenPlace::OnLine { line: choice.line.name.clone(), stretch }, turned_deg: None };
        let slip = Slip { of: unheard(&beside.sightings, index), ..of_all(SlipKind::OtherLine(choice.line.name.clone()), exposed) };
        Some(Found { slip, prior, weight, like: Like::Nothing, change: Change::Line(then) })
    };
    let on_other = |place: &Stretch| {
        let line = lines.get(place.line).filter(|_| place.line >= named)?;
        let share = place.share / on_named.max(LEAST_SHARE);
        Some(OnOther { line: line.name.clone(), standing: Standing { at: place.best.at, covariance: place.covariance, share } })
    };
    (others.filter_map(found).collect(), places.iter().filter_map(on_other).collect())
}

/// The known points of distances that say nothing on a line because it lacks them.
fn unheard(sightings: &[Sighting], line: usize) -> String {
    let lacking = sightings.iter().filter_map(|sighting| {
        let Sighting::Measured(measured) = sighting else { return None };
        measured.from.iter().all(|(spot, _)| spot.line != line).then_some(measured.known.as_str())
    });
    lacking.collect::<Vec<_>>().join(", ")
}

/// Whether one line may well be taken for another: both are of one kind, or both are ways.
fn is_alike(one: &str, other: &str) -> bool {
    one == other || WAYS.contains(&one) && WAYS.contains(&other)
}

/// The scene with the lines beside it: the chance of the slip spread over them by their lengths and kinds, its own lines against each other as before.
fn wide<'a>(scene: &Scene<'a>, beside: &Beside<'a>) -> Scene<'a> {
    let own = scene.lines.iter().zip(scene.prior_per_m()).map(|(choice, per_m)| (choice.line, per_m * choice.line.length_m()));
    let length_m: f64 = beside.lines.iter().map(|line| line.length_m()).sum();
    let chance = SlipKind::OtherLine(String::new()).chance();
    let alike = |line: &Line| if scene.lines.iter().any(|choice| is_alike(&choice.line.kind, &line.kind)) { 1.0 } else { UNLIKE };
    let others = beside.lines.iter().map(|line| (*line, alike(line) * chance * line.length_m() / length_m));
    let lines = own.chain(others).map(|(line, odds)| Choice { line, odds: Some(odds) }).collect();
    let mut in_sight = scene.in_sight.clone();
    for tables in in_sight.values_mut() {
        // Whether a landmark is in sight from the others is not asked: it speaks neither for nor against them.
        let (sum, count) = tables.iter().flat_map(|table| &table.values).fold((0.0, 0.0), |(sum, count), value| (sum + value, count + 1.0));
        let mean = crate::fix::Table { step_m: 1.0, values: vec![if count > 0.0 { sum / count } else { 1.0 }] };
        tables.extend(beside.lines.iter().map(|_| mean.clone()));
    }
    Scene { lines, sightings: beside.sightings.clone(), in_sight, wrong_share: WRONG_BESIDE_SLIPS, ..scene.clone() }
}

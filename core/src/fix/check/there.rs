//! How the sightings of a fix fit a place that was told.

use super::weigh::normal_plane;
use crate::fix::Fix;
use crate::fix::directed::OnPiece;
use crate::fix::next::READINGS;
use crate::fix::on_line::OnLine;
use crate::fix::scene::Scene;
use crate::fix::shared::Here;
use crate::measure::{Covariance, Point};
use crate::sheet::LinePlace;

/// What is farther off than so many sigmas adds nothing.
const FAR_SIGMAS: f64 = 8.0;
/// The logarithm of the greatest ratio that is told: a product with it stays a number.
const MOST_LN: f64 = 300.0;

/// What the sightings of a fix say of a place that was told.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct There {
    /// Density with which they put one there, on the lines where the fix is on lines, but in none of the fix's places, per square metre.
    pub elsewhere: f64,
    /// How many times likelier they are for one who stands there, beside the line, than on the lines as a whole; nothing in the open.
    pub beside: f64,
}

impl There {
    /// Asks a fix, of a place of the plane with one sigma per axis, metres. What counts along a line counts from the nearest place of it.
    #[must_use]
    pub fn of(scene: &Scene<'_>, fix: &Fix, place: Point, spread_m: f64) -> Option<Self> {
        let off_m =
            |index: &usize| scene.lines.get(*index).map_or(f64::INFINITY, |choice| choice.line.nearest(place).at.minus(place).length_m());
        let nearest = (0..scene.lines.len()).min_by(|a, b| off_m(a).total_cmp(&off_m(b)))?;
        let line = OnLine::new(scene, nearest, scene.lines.get(nearest)?.line);
        let (groups, mut here) = (line.all_groups(), Here::default());
        let mut beside = 0.0;
        for (east, east_share) in READINGS {
            for (north, north_share) in READINGS {
                let at = place.plus(Point::new(east, north).times(spread_m));
                let spot = line.spot(line.line.nearest(at).along_m)?;
                let spot = OnPiece { place: LinePlace { at, ..spot.place }, ..spot };
                let ln = line.ln_at(&spot, &mut here, &groups) - fix.ln_evidence;
                beside += east_share * north_share * ln.min(MOST_LN).exp();
            }
        }
        Some(Self { elsewhere: elsewhere(scene, fix, place, spread_m), beside })
    }
}

fn elsewhere(scene: &Scene<'_>, fix: &Fix, place: Point, spread_m: f64) -> f64 {
    let mut sum = 0.0;
    for ((index, choice), told) in scene.lines.iter().enumerate().zip(&fix.lines) {
        let sigma_m = spread_m.hypot(choice.line.spread_m).max(1.0);
        let is_told = |along_m: f64| {
            let mut on = fix.stretches.iter().filter(|one| one.line == index);
            on.any(|one| choice.line.passes_m(along_m).any(|pass_m| (one.reach_m.0..=one.reach_m.1).contains(&pass_m)))
        };
        for (entry, per_m) in told.odds.per_m.iter().enumerate() {
            let along_m = told.odds.along_m(entry);
            let step = choice.line.at(along_m).at.minus(place);
            if step.length_m() < FAR_SIGMAS * sigma_m && !is_told(along_m) {
                sum += per_m * told.odds.step_m * normal_plane(step, Covariance::default(), sigma_m);
            }
        }
    }
    sum
}

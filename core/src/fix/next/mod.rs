//! What to sight next: by how much each further sighting is expected to shorten the limits of the fix.

mod cells;
mod expect;
mod proposal;

use self::cells::{cells, truths};
use self::expect::Expecting;
pub(super) use self::expect::{READINGS, SHARE};
use self::proposal::{Proposal, proposals};
use super::Fix;
use super::scene::Scene;
use crate::measure::{Point, signed_difference_deg};
use crate::sheet::Landmark;

/// What a further sighting would be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NextWhat {
    /// A bearing to the landmark of this name, with the instrument of the fix.
    Bearing(String),
    /// The bearing along the line itself.
    LineRun,
}

/// A sighting worth taking, and what it is expected to leave.
#[derive(Debug, Clone, PartialEq)]
pub struct NextSight {
    /// Which one.
    pub what: NextWhat,
    /// Length of the places that would then hold 95 %, metres along the lines: the mean over all that may be read.
    pub leaves_m: f64,
    /// The same now.
    pub now_m: f64,
    /// The chance that the landmark is in sight from where one stands; nothing when the heights do not tell.
    pub in_sight: Option<f64>,
    /// Whether it would tell the places of the fix apart.
    pub settles: bool,
}

/// Places in which one may truly stand.
pub(super) const TRUTHS: usize = 9;
/// A landmark is probably visible from this chance on.
pub(super) const PROBABLY: f64 = 0.5;
/// So many are named.
pub(super) const NAMED: usize = 3;
/// A sighting that shortens the limits by less than this share is not worth the time.
pub(super) const LEAST_GAIN: f64 = 0.05;
/// Two places are told apart when their bearings to a landmark differ by this many sigmas.
pub(super) const APART_SIGMAS: f64 = 4.0;

/// The best three sightings that are not taken yet, the best first; none when nothing would help.
///
/// Units: metres along the lines. `in_sight` tells, for a place, the chance of each of the landmarks being in sight, in their order.
///
/// The places of the fix are divided into at most 500 cells. For nine places in which one may stand and three readings at each, the
/// posterior after the reading is formed with the compass error as the fix left it there; the mean length of its highest-density
/// 95 % is what counts. Readings are plainly wrong as often as in the fix, and leave it then as it is.
///
/// # Accuracy
/// Ranking only: the length is that of a mean over 27 readings, to about one cell. Landmarks hidden more often than not are left out.
///
/// # References
/// The expected length after the observation: Lindley (1956), On a measure of the information provided by an experiment, with the
/// length of the highest-density region as the loss.
#[must_use]
pub fn next_sights(scene: &Scene<'_>, fix: &Fix, landmarks: &[Landmark], in_sight: &dyn Fn(Point) -> Vec<Option<f64>>) -> Vec<NextSight> {
    let cells = cells(scene, fix);
    let truths = truths(&cells, TRUTHS);
    let seen: Vec<Vec<Option<f64>>> = truths.iter().filter_map(|truth| cells.get(*truth)).map(|cell| in_sight(cell.place.at)).collect();
    let expecting = Expecting::new(&cells, &truths, scene.wrong_share);
    let proposals = proposals(scene, landmarks, &cells, &truths, &seen);
    let probable = proposals.iter().filter(|proposal| proposal.chance().is_none_or(|chance| chance >= PROBABLY));
    let told = probable.map(|proposal| NextSight {
        what: proposal.what(),
        leaves_m: expecting.leaves_m(proposal),
        now_m: expecting.now_m,
        in_sight: proposal.chance(),
        settles: fix.settled_by(proposal, landmarks, scene),
    });
    let mut all: Vec<NextSight> = told.filter(|one| one.leaves_m < one.now_m * (1.0 - LEAST_GAIN)).collect();
    all.sort_by(|a, b| a.leaves_m.total_cmp(&b.leaves_m));
    all.truncate(NAMED);
    all
}

impl Fix {
    /// Whether the readings from all other places would differ from that of the likeliest one by more than chance.
    fn settled_by(&self, proposal: &Proposal<'_>, landmarks: &[Landmark], scene: &Scene<'_>) -> bool {
        let NextWhat::Bearing(name) = proposal.what() else { return false };
        let Some((landmark, (best, others))) = landmarks.iter().find(|one| one.name == name).zip(self.stretches.split_first()) else {
            return false;
        };
        let to = |place: Point| landmark.at.minus(place);
        let ray = to(best.best.at);
        let map_deg = (landmark.spread_m / ray.length_m().max(1.0)).to_degrees();
        let sigma_deg = scene.trust.spread_deg().hypot(map_deg);
        let apart_deg = |place: Point| signed_difference_deg(ray.bearing_deg(), to(place).bearing_deg()).abs();
        !others.is_empty() && others.iter().all(|other| apart_deg(other.best.at) > APART_SIGMAS * sigma_deg)
    }
}

#[cfg(test)]
mod tests;

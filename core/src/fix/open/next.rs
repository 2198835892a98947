//! What to sight next in the open: by how much a bearing to each landmark is expected to shrink the area.

use std::f64::consts::PI;

use super::equation::equations;
use super::likelihood::Likelihood;
use super::odds::OpenOdds;
use super::scene::{OpenScene, OpenSighting};
use super::take::OpenFix;
use crate::fix::next::{APART_SIGMAS, LEAST_GAIN, NAMED, PROBABLY, READINGS, SHARE, TRUTHS};
use crate::fix::{NextSight, NextWhat, WRONG_READING};
use crate::measure::{Point, normal_density, signed_difference_deg};
use crate::sheet::Landmark;

/// The cells weighed hold this share of the fix.
const KEPT_SHARE: f64 = 0.995;
/// Nearer landmarks say little, farther ones are hardly seen. Metres.
const REACH_M: (f64, f64) = (50.0, 20_000.0);
const CIRCLE_DEG: f64 = 360.0;

/// The best three landmarks that are not sighted yet, the best first; none when nothing would help.
///
/// Units: metres, the width of a circle with the area that holds 95 %. `in_sight` tells, for a place, the chance of each of the
/// landmarks being in sight, in their order.
///
/// # Accuracy
/// Ranking only: the mean over nine places and three readings at each, over coarse cells. The error that all bearings share is taken
/// as unknown in the new one too, which tells its gain rather too small.
///
/// # References
/// As for the next sighting on a line: Lindley (1956), with the area of the highest-density region as the loss.
#[must_use]
pub fn open_next(
    scene: &OpenScene<'_>,
    fix: &OpenFix,
    landmarks: &[Landmark],
    in_sight: &dyn Fn(Point) -> Vec<Option<f64>>,
) -> Vec<NextSight> {
    let equations = equations(scene);
    let likelihood = Likelihood::new(scene, &equations, WRONG_READING);
    let Some(odds) = OpenOdds::rough(&likelihood, &scene.bounds) else { return Vec::new() };
    let cells = kept(&odds);
    let truths = truths(&cells);
    let seen: Vec<Vec<Option<f64>>> = truths.iter().map(|truth| in_sight(truth.at)).collect();
    let now_m = width_m(cells.iter().map(|cell| (cell.share, cell.area_m2)).collect());
    let expecting = Expecting { cells: &cells, truths: &truths, now_m };
    let wanted = landmarks.iter().enumerate().filter(|(_, mark)| !is_sighted(scene, mark) && in_reach(&truths, mark));
    let told = wanted.filter_map(|(index, mark)| {
        let chances: Vec<Option<f64>> = seen.iter().map(|chances| chances.get(index).copied().flatten()).collect();
        let known: Vec<f64> = chances.iter().filter_map(|chance| *chance).collect();
        let in_sight = (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64);
        let (leaves_m, settles) = (expecting.leaves_m(scene, mark, &chances), settles(scene, fix, mark));
        let probable = in_sight.is_none_or(|chance| chance >= PROBABLY);
        probable.then(|| NextSight { what: NextWhat::Bearing(mark.name.clone()), leaves_m, now_m, in_sight, settles })
    });
    let mut all: Vec<NextSight> = told.filter(|one| one.leaves_m < one.now_m * (1.0 - LEAST_GAIN)).collect();
    all.sort_by(|a, b| a.leaves_m.total_cmp(&b.leaves_m));
    all.truncate(NAMED);
    all
}

/// A piece of the area in which one may stand.
#[derive(Clone, Copy)]
struct Place {
    at: Point,
    share: f64,
    area_m2: f64,
}

fn kept(odds: &OpenOdds) -> Vec<Place> {
    let level = odds.level_of_share(KEPT_SHARE);
    let dense = odds.cells.iter().take_while(|cell| cell.per_m2 >= level && cell.per_m2 > 0.0);
    dense.map(|cell| Place { at: cell.at, share: cell.share(), area_m2: cell.area_m2() }).collect()
}

/// So many places in which one may truly stand, each equally likely.
fn truths(cells: &[Place]) -> Vec<Place> {
    let total: f64 = cells.iter().map(|cell| cell.share).sum();
    let mut found = Vec::with_capacity(TRUTHS);
    let mut held = 0.0;
    for cell in cells {
        held += cell.share / total;
        while found.len() < TRUTHS && held >= (found.len() as f64 + 0.5) / TRUTHS as f64 {
            found.push(*cell);
        }
    }
    found
}

fn is_sighted(scene: &OpenScene<'_>, landmark: &Landmark) -> bool {
    let is_it = |sighting: &OpenSighting<'_>| match sighting {
        OpenSighting::Bearing(bearing) => bearing.sure().is_some_and(|sure| sure.name == landmark.name),
        OpenSighting::Angle { .. } | OpenSighting::Distance { .. } | OpenSighting::Ground(_) => false,
    };
    scene.sightings.iter().any(is_it)
}

fn in_reach(truths: &[Place], landmark: &Landmark) -> bool {
    truths.iter().all(|truth| (REACH_M.0..=REACH_M.1).contains(&landmark.at.minus(truth.at).length_m()))
}

/// One sigma of a bearing to a landmark from a place, degrees.
fn spread_deg(scene: &OpenScene<'_>, landmark: &Landmark, from: Point) -> f64 {
    let own_deg = scene.trust.own_deg(None);
    let map_deg = (landmark.spread_m / landmark.at.minus(from).length_m().max(1.0)).to_degrees().min(90.0);
    own_deg.hypot(scene.shared_spread_deg()).hypot(map_deg)
}

/// Whether the bearings from all other regions would differ from that of the likeliest one by more than chance.
fn settles(scene: &OpenScene<'_>, fix: &OpenFix, landmark: &Landmark) -> bool {
    let places = fix.places();
    let Some(((best, _), others)) = places.split_first() else { return false };
    let read_deg = |at: Point| landmark.at.minus(at).bearing_deg();
    let apart_deg = |at: Point| signed_difference_deg(read_deg(*best), read_deg(at)).abs();
    !others.is_empty() && others.iter().all(|(at, _)| apart_deg(*at) > APART_SIGMAS * spread_deg(scene, landmark, *best))
}

struct Expecting<'a> {
    cells: &'a [Place],
    truths: &'a [Place],
    now_m: f64,
}

impl Expecting<'_> {
    /// The mean over the truths and over what may be read there. What cannot be seen leaves the fix as it is.
    fn leaves_m(&self, scene: &OpenScene<'_>, landmark: &Landmark, chances: &[Option<f64>]) -> f64 {
        let foretold = |place: &Place| (landmark.at.minus(place.at).bearing_deg(), spread_deg(scene, landmark, place.at));
        let all: Vec<(f64, f64)> = self.cells.iter().map(foretold).collect();
        let at = |(truth, chance): (&Place, &Option<f64>)| {
            let chance = chance.unwrap_or(1.0) * (1.0 - WRONG_READING);
            let (mean_deg, spread_deg) = foretold(truth);
            let read = |(sigmas, weight): (f64, f64)| weight * self.after_m(mean_deg + sigmas * spread_deg, &all);
            chance * READINGS.into_iter().map(read).sum::<f64>() + (1.0 - chance) * self.now_m
        };
        self.truths.iter().zip(chances).map(at).sum::<f64>() / self.truths.len().max(1) as f64
    }

    /// The width that one reading leaves.
    fn after_m(&self, read_deg: f64, foretold: &[(f64, f64)]) -> f64 {
        let weighed = self.cells.iter().zip(foretold).map(|(cell, (mean_deg, spread_deg))| {
            let off_deg = signed_difference_deg(read_deg, *mean_deg);
            let fits = (1.0 - WRONG_READING) * normal_density(off_deg, *spread_deg) + WRONG_READING / CIRCLE_DEG;
            (cell.share * fits, cell.area_m2)
        });
        width_m(weighed.collect())
    }
}

/// The width of a circle with the area of the densest cells that hold 95 %; the last counts by the part of it that is needed.
fn width_m(mut cells: Vec<(f64, f64)>) -> f64 {
    let wanted = SHARE * cells.iter().map(|(share, _)| share).sum::<f64>();
    cells.sort_unstable_by(|a, b| (b.0 / b.1).total_cmp(&(a.0 / a.1)));
    let (mut held, mut area_m2) = (0.0, 0.0);
    for (share, own_m2) in cells {
        if held + share >= wanted {
            area_m2 += own_m2 * (wanted - held) / share;
            break;
        }
        (held, area_m2) = (held + share, area_m2 + own_m2);
    }
    (4.0 * area_m2 / PI).sqrt()
}

//! The crown of a hill: of a top that is looked for, what shows over the hill's own shoulder.
//!
//! A top is round: from below its highest place hides behind ground close before it that is hardly lower. Who sights the hill sights that
//! ground, in the same direction.

use super::clearance::Line;
use super::ray::Ray;
use super::sightline::Sightlines;

/// Ground this close before a top on a sight, metres, and no farther below it than this share of its height above the eye is its crown
/// (our choice); that share counts between these, metres.
const REACH_M: f64 = 150.0;
const DROP: f64 = 0.2;
const LEAST_DROP_M: f64 = 10.0;
const MOST_DROP_M: f64 = 30.0;
/// Nearer to the place than this the ground may be higher: a map has a summit so far off its top at times, metres (our choice).
const NEAR_M: f64 = 30.0;
/// Beyond, ground that rises by more than this again, or by half a spread of the heights, is another top, which hides what stands behind it, metres.
const DIP_M: f64 = 2.0;
/// At so many places of that the ground is looked at at most.
const MOST_PLACES: usize = 64;

impl Sightlines<'_> {
    /// The sight from an eye to what shows highest of a crown; its ground hides nothing of it.
    pub(super) fn to_crown(&self, ray: Ray, eye_m: f64, top_m: f64) -> Line {
        let step_m = (ray.step_m() / 4.0).max(REACH_M / MOST_PLACES as f64);
        let places = (1..=MOST_PLACES).map(|step| step as f64 * step_m).take_while(|back_m| *back_m <= REACH_M);
        let ground = places.map(|back_m| ray.length_m - back_m).take_while(|at_m| *at_m > 0.0);
        let ground = ground.map(|at_m| (at_m, self.heights.quick_m(ray.post(at_m))));
        let lowest_m = top_m - (DROP * (top_m - eye_m)).clamp(LEAST_DROP_M, MOST_DROP_M);
        let dip_m = DIP_M.max(self.heights.spread().sigma_m / 2.0);
        let mut down_to_m = top_m;
        let is_own = |(at_m, ground_m): &(f64, f64)| {
            let is_near = ray.length_m - at_m <= NEAR_M;
            let goes_on = is_near || *ground_m <= down_to_m + dip_m;
            down_to_m = if is_near { *ground_m } else { down_to_m.min(*ground_m) };
            *ground_m >= lowest_m && goes_on
        };
        let crown: Vec<(f64, f64)> = ground.take_while(is_own).collect();
        let steepness = |(at_m, ground_m): &(f64, f64)| (ground_m - eye_m) / at_m - self.fall * at_m;
        let top = (ray.length_m, top_m);
        let highest = crown.iter().fold(top, |highest, place| if steepness(place) > steepness(&highest) { *place } else { highest });
        let from_m = crown.last().map_or(ray.length_m, |place| place.0);
        Line::new(ray.to(highest.0), eye_m, highest.1, self.fall).until(from_m)
    }
}

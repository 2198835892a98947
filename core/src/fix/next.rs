//! What to sight next: the landmark whose bearing would narrow the fix most.

use super::crossing::cut_deg;
use super::{Fix, Trust};
use crate::measure::{LINE_95, signed_difference_deg};
use crate::sheet::{Landmark, Sheet};

/// A landmark that is not sighted yet, and what its bearing would leave.
#[derive(Debug, Clone, PartialEq)]
pub struct NextSight {
    /// The landmark's name.
    pub landmark: String,
    /// Half-width at 95 % along the line that would be left at the likeliest place, metres.
    pub leaves_95_m: f64,
    /// Whether it would tell the places of the fix apart.
    pub settles: bool,
}

/// Nearer landmarks say little: their own spread turns the bearing; farther ones are hardly seen. Metres.
const REACH_M: (f64, f64) = (100.0, 20_000.0);
/// Two places are told apart when their bearings to a landmark differ by this many sigmas.
const APART_SIGMAS: f64 = 4.0;

impl Fix {
    /// The landmark to sight next, if any would help: first one that tells the places apart, else the one that leaves least.
    ///
    /// Information adds: `1/left² = 1/now² + 1/own²`, own being `d·sigma / sin(cut)` at the likeliest place. Whether the ground
    /// hides the landmark is not asked here.
    #[must_use]
    pub fn next_sight(&self, sheet: &Sheet, trust: &Trust) -> Option<NextSight> {
        let sighted = |landmark: &&Landmark| self.sighted.iter().any(|one| one.landmark == landmark.name);
        let all = sheet.landmarks.iter().filter(|landmark| !sighted(landmark));
        let found = all.filter_map(|landmark| self.would_leave(landmark, trust));
        found.min_by(|a, b| b.settles.cmp(&a.settles).then(a.leaves_95_m.total_cmp(&b.leaves_95_m)))
    }

    fn would_leave(&self, landmark: &Landmark, trust: &Trust) -> Option<NextSight> {
        let best = self.stretches.first()?;
        let ray = landmark.at.minus(best.best.at);
        let distance_m = ray.length_m();
        if !(REACH_M.0..=REACH_M.1).contains(&distance_m) {
            return None;
        }
        let sigma_deg = trust.reading_spread_deg.hypot(trust.shared_spread_deg).hypot((landmark.spread_m / distance_m).to_degrees());
        let sin_cut = cut_deg(ray, best.best.direction).to_radians().sin().max(1e-3);
        let own_m = distance_m * sigma_deg.to_radians() / sin_cut;
        let left_m = own_m * best.spread_m / own_m.hypot(best.spread_m);
        let apart = |place: &super::Stretch| {
            let other = landmark.at.minus(place.best.at).bearing_deg();
            signed_difference_deg(ray.bearing_deg(), other).abs() > APART_SIGMAS * sigma_deg
        };
        let settles = self.stretches.len() > 1 && self.stretches.iter().skip(1).all(apart);
        Some(NextSight { landmark: landmark.name.clone(), leaves_95_m: LINE_95 * left_m, settles })
    }
}

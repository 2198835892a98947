//! Dead reckoning: where the legs lead, and how surely.

use super::{Leg, Pace};
use crate::earth::Compass;
use crate::measure::{Covariance, Point};

/// One sigma of every error of a walk.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WalkSpreads {
    /// Bearing of each leg, its own, degrees.
    pub leg_bearing_deg: f64,
    /// Distance of each leg, its own, as a share of it.
    pub leg_distance_share: f64,
    /// Bearing error that all legs share (compass, person, magnetic model), degrees.
    pub shared_bearing_deg: f64,
    /// Distance error that all legs share (the pace), as a share.
    pub shared_distance_share: f64,
}

impl WalkSpreads {
    /// Spreads of a walk with a compass of this shared error and this pace.
    ///
    /// # References
    /// Each leg's own bearing 3° and distance 3 %: US Army SMCT 071-329-1003 passes 3° for a
    /// compass at the cheek; the distance is common practice, no source.
    #[must_use]
    pub fn of(shared_bearing_deg: f64, pace: &Pace) -> Self {
        Self { leg_bearing_deg: 3.0, leg_distance_share: 0.03, shared_bearing_deg, shared_distance_share: pace.spread_share }
    }
}

/// The end of one leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegEnd {
    /// Where it ends in the plane.
    pub at: Point,
    /// The bearing of the plane walked, degrees.
    pub plane_deg: f64,
    /// Distance gained, metres.
    pub metres: f64,
    /// How far a detour went out, metres; 0 without one.
    pub detour_m: f64,
    /// One-sigma covariance of this end against the start, every error included.
    pub covariance: Covariance,
}

/// A reckoned walk.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoning {
    /// Where it starts.
    pub start: Point,
    /// The end of each leg.
    pub ends: Vec<LegEnd>,
    /// Metres walked, detours included.
    pub walked_m: f64,
    /// The part of the covariance that each leg adds on its own.
    pub own: Covariance,
}

impl Reckoning {
    /// Where it ends.
    #[must_use]
    pub fn end(&self) -> Point {
        self.ends.last().map_or(self.start, |end| end.at)
    }

    /// Covariance of the end against the start.
    #[must_use]
    pub fn covariance(&self) -> Covariance {
        self.ends.last().map_or_else(Covariance::default, |end| end.covariance)
    }
}

/// Reckons legs from a start.
///
/// Each leg's bearing is turned into the plane at the middle of the leg, so that the same leg
/// walked back is its exact opposite.
///
/// # References
/// Along a leg `share · L`, across it `sigma · L`; own errors add by squares, a shared bearing error
/// turns the whole walk. Case files `tests/vectors/travel/reversed_log.json`.
#[must_use]
pub fn reckon(start: Point, legs: &[Leg], pace: &Pace, compass: &dyn Compass, spreads: &WalkSpreads) -> Reckoning {
    let mut walk = Reckoning { start, ends: Vec::with_capacity(legs.len()), walked_m: 0.0, own: Covariance::default() };
    for leg in legs {
        let metres = leg.distance.metres(pace);
        let detour_m = leg.detour.map_or(0.0, |detour| detour.out.metres(pace));
        let plane_deg = plane_bearing(walk.end(), leg, metres, compass);
        let at = walk.end().plus(Point::polar(metres, plane_deg));
        walk.walked_m += metres + 2.0 * detour_m;
        walk.own = walk.own.plus(own_covariance(plane_deg, metres, detour_m, spreads));
        let covariance = walk.own.plus(shared_covariance(at.minus(start), spreads));
        walk.ends.push(LegEnd { at, plane_deg, metres, detour_m, covariance });
    }
    walk
}

fn plane_bearing(from: Point, leg: &Leg, metres: f64, compass: &dyn Compass) -> f64 {
    let mut middle = from;
    let mut plane_deg = compass.to_plane_deg(leg.bearing, middle);
    for _ in 0..3 {
        middle = from.plus(Point::polar(metres / 2.0, plane_deg));
        plane_deg = compass.to_plane_deg(leg.bearing, middle);
    }
    plane_deg
}

fn own_covariance(plane_deg: f64, metres: f64, detour_m: f64, spreads: &WalkSpreads) -> Covariance {
    let across = spreads.leg_bearing_deg.to_radians();
    let along = spreads.leg_distance_share;
    let direction = Point::polar(1.0, plane_deg);
    let leg = Covariance::along_across(direction, along * metres, across * metres);
    let side = Covariance::along_across(direction.right(), along * detour_m, across * detour_m);
    leg.plus(side).plus(side)
}

/// A shared bearing error turns the walk about its start; a shared pace error stretches it.
fn shared_covariance(from_start: Point, spreads: &WalkSpreads) -> Covariance {
    let turned = Covariance::outer(from_start.right().times(spreads.shared_bearing_deg.to_radians()));
    turned.plus(Covariance::outer(from_start.times(spreads.shared_distance_share)))
}

//! The reversed log: last leg first, every bearing turned round, every count kept.

use crate::earth::Compass;
use crate::measure::{Covariance, GridBearing, MagneticBearing, NamedBearing, Point};
use crate::travel::{Detour, Leg, Pace, Reckoning, Side, WalkSpreads, reckon};

/// One leg of the way back.
#[derive(Debug, Clone, PartialEq)]
pub struct BackLeg {
    /// Number of the leg in the log that is walked back, from 1.
    pub of_leg: usize,
    /// The bearing to walk, by the compass.
    pub magnetic: MagneticBearing,
    /// The same on the sheet.
    pub grid: GridBearing,
    /// Distance, metres.
    pub metres: f64,
    /// The same in double paces.
    pub double_paces: f64,
    /// The detour to walk again: the side as one faces now, and how far out in metres.
    pub detour: Option<(Side, f64)>,
    /// What was met where this leg ends; nothing at the last one, which ends at the start.
    pub meets: Option<String>,
    /// Metres from the turning point to the end of this leg, detours left out.
    pub total_m: f64,
    /// The same in double paces.
    pub total_double_paces: f64,
    /// Where it ends in the plane.
    pub end: Point,
}

/// The way back by the reversed log.
#[derive(Debug, Clone, PartialEq)]
pub struct WayBack {
    /// The legs in the order they are walked.
    pub legs: Vec<BackLeg>,
    /// Metres to walk, detours included.
    pub walk_m: f64,
    /// Distance between the end of the reversed log and the start of the log, by reckoning the
    /// reversed bearings anew, metres: a check that should give nothing.
    pub closes_m: f64,
    /// One-sigma covariance of the miss at the end.
    ///
    /// Errors shared by both ways (compass, pace) cancel; each leg's own error counts twice, out and back.
    pub miss: Covariance,
}

/// The way back from the end of a reckoned log to its start.
///
/// # References
/// The rule of the back bearing and the reversed order: NWCG PMS 475 (2007); rows in
/// `tests/vectors/travel/reversed_log.json`.
#[must_use]
pub fn reversed_log(legs: &[Leg], out: &Reckoning, pace: &Pace, compass: &dyn Compass, spreads: &WalkSpreads) -> WayBack {
    let reversed: Vec<Leg> = legs.iter().rev().map(turned_round).collect();
    let back = reckon(out.end(), &reversed, pace, compass, spreads);
    let mut total_m = 0.0;
    let mut told = Vec::with_capacity(legs.len());
    for (index, end) in back.ends.iter().enumerate() {
        let number = legs.len() - index;
        let leg = reversed.get(index);
        total_m += end.metres;
        let middle = end.at.minus(Point::polar(end.metres / 2.0, end.plane_deg));
        told.push(BackLeg {
            of_leg: number,
            magnetic: compass.to_magnetic(end.plane_deg, middle),
            grid: compass.to_grid(end.plane_deg, middle),
            metres: end.metres,
            double_paces: pace.double_paces(end.metres),
            detour: leg.and_then(|leg| leg.detour).map(|detour| (detour.side, end.detour_m)),
            meets: number.checked_sub(2).and_then(|before| legs.get(before)).and_then(|before| before.met.clone()),
            total_m,
            total_double_paces: pace.double_paces(total_m),
            end: end.at,
        });
    }
    WayBack { legs: told, walk_m: back.walked_m, closes_m: back.end().minus(out.start).length_m(), miss: out.own.plus(back.own) }
}

/// A leg walked the other way: back bearing, same count, the detour on the same side of the ground.
#[must_use]
pub fn turned_round(leg: &Leg) -> Leg {
    let bearing: NamedBearing = leg.bearing.back();
    let detour = leg.detour.map(|detour| Detour { side: detour.side.other(), out: detour.out });
    Leg { bearing, distance: leg.distance, detour, met: None }
}

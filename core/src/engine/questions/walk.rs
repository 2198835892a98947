//! Legs in the plane of the grid, without a sheet.

use super::{Answer, AnswerBackLeg, Answered, LegRecord, Refusal, diagram, understand};
use crate::homeward::reversed_log;
use crate::measure::{Arg, Message, NamedBearing, North, Point};
use crate::travel::{DEFAULT_DOUBLE_PACES_PER_100_M, Leg, Pace, PaceKind, Side, WalkSpreads, reckon};

/// Nearer to the start than this the legs lead back to it, metres.
const CLOSED_M: f64 = 1e-6;

/// What [`reckon_legs`] is asked.
pub(super) struct ReckonQuestion<'a> {
    pub(super) legs: &'a [LegRecord],
    pub(super) double_paces_per_100_m: Option<f64>,
    pub(super) declination_deg: f64,
    pub(super) convergence_deg: f64,
    pub(super) spreads: WalkSpreads,
}

/// Legs reckoned in the plane of the grid.
pub(super) fn reckon_legs(asked: &ReckonQuestion) -> Answered {
    let diagram = diagram(asked.declination_deg, asked.convergence_deg)?;
    let per_100_m = asked.double_paces_per_100_m.unwrap_or(DEFAULT_DOUBLE_PACES_PER_100_M);
    let pace = Pace::measured(per_100_m, PaceKind::Double, None)?;
    let legs: Result<Vec<Leg>, Refusal> = asked.legs.iter().map(understand::leg).collect();
    let legs = legs?;
    if legs.is_empty() {
        return Err(Refusal::plain("leg-needed"));
    }
    let spreads = checked_spreads(asked.spreads)?;
    let walk = reckon(Point::default(), &legs, &pace, &diagram, &spreads);
    let way = reversed_log(&legs, &walk, &pace, &diagram, &spreads);
    let (end, ellipse) = (walk.end(), walk.covariance().ellipse());
    let back = way.legs.iter().map(|leg| AnswerBackLeg {
        bearing_deg_grid: leg.grid.degrees(),
        bearing_deg_mag: leg.magnetic.degrees(),
        metres: leg.metres,
        detour_side: leg.detour.map(|(side, _)| if side == Side::Left { "left".into() } else { "right".into() }),
    });
    // Legs that close leave only rounding, which points anywhere.
    let closed = end.length_m() < CLOSED_M;
    let bearing_deg = |point: Point| if closed { 0.0 } else { point.bearing_deg() };
    let told = Message::new(if closed { "reckon-closed" } else { "reckon-told" })
        .with("legs", Arg::Count(legs.len() as i64))
        .with("walked", Arg::Metres(walk.walked_m))
        .with("direct", Arg::Metres(end.length_m()))
        .with("bearing", Arg::Bearing(NamedBearing::new(end.bearing_deg(), North::Grid)))
        .with("spread", Arg::Metres(crate::measure::PLANE_95 * ellipse.major_m));
    let answer = Answer::Reckon {
        east_m: end.east_m,
        north_m: end.north_m,
        direct_m: end.length_m(),
        direct_bearing_deg_grid: bearing_deg(end),
        home_bearing_deg_grid: bearing_deg(end.times(-1.0)),
        walked_m: walk.walked_m,
        axis_major_m: ellipse.major_m,
        axis_minor_m: ellipse.minor_m,
        back: back.collect(),
        closes_m: way.closes_m,
    };
    Ok((answer, vec![told]))
}

fn checked_spreads(spreads: WalkSpreads) -> Result<WalkSpreads, Refusal> {
    understand::bounded("leg_bearing_spread_deg", spreads.leg_bearing_deg, (0.0, 90.0))?;
    understand::bounded("leg_distance_spread_percent", spreads.leg_distance_share, (0.0, 1.0))?;
    understand::bounded("shared_bearing_spread_deg", spreads.shared_bearing_deg, (0.0, 90.0))?;
    understand::bounded("shared_distance_spread_percent", spreads.shared_distance_share, (0.0, 1.0))?;
    Ok(spreads)
}

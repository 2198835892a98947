//! Bearings from one north to another.

use super::{Answer, Answered, diagram, understand};
use crate::measure::{Arg, Message, NamedBearing};

/// A bearing from another north.
pub(super) fn answer_turn(bearing: &str, to: &str, declination_deg: f64, convergence_deg: f64) -> Answered {
    let diagram = diagram(declination_deg, convergence_deg)?;
    let (from, to_north) = (NamedBearing::parse(bearing)?, understand::north(to)?);
    let turned = diagram.turn(from, to_north);
    let told = Message::new("turn-told")
        .with("from", Arg::Bearing(from))
        .with("bearing", Arg::Bearing(turned))
        .with("back", Arg::Bearing(turned.back()))
        .with("angle", Arg::Degrees(diagram.grid_magnetic_deg(), 2));
    let answer = Answer::Turn {
        bearing_deg: turned.degrees(),
        north: to.trim().to_lowercase(),
        back_deg: turned.back().degrees(),
        grid_magnetic_deg: diagram.grid_magnetic_deg(),
    };
    Ok((answer, vec![told]))
}

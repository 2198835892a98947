//! Bearings from one north to another.

use super::{Answer, Answered, understand};
use crate::measure::{AngleUnit, Arg, Message, NamedBearing, NorthDiagram};
use crate::words::Words;

/// A bearing from another north, written in a unit.
pub(super) fn answer_turn(bearing: &str, to: &str, unit: AngleUnit, diagram: &NorthDiagram) -> Answered {
    let (from, to_north) = (NamedBearing::parse(bearing)?, understand::north(to)?);
    let turned = diagram.turn(from, to_north);
    let words = Words::english();
    let written = |bearing| words.bearing_in(bearing, unit, 1);
    let told = Message::new("turn-told")
        .text("from", written(from))
        .text("bearing", written(turned))
        .text("back", written(turned.back()))
        .with("angle", Arg::Degrees(diagram.grid_magnetic_deg(), 2));
    let answer = Answer::Turn {
        bearing_deg: turned.degrees(),
        north: to.trim().to_lowercase(),
        back_deg: turned.back().degrees(),
        grid_magnetic_deg: diagram.grid_magnetic_deg(),
        told: written(turned),
    };
    Ok((answer, vec![told]))
}

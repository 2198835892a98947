//! Bearings from one north to another.

use super::{Answer, Answered, understand};
use crate::measure::{AngleUnit, Arg, LINE_95, Message, NamedBearing, North, NorthDiagram, mean_of_readings};
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

/// The mean of several readings of one bearing.
pub(super) fn answer_mean(texts: &[String]) -> Answered {
    let readings: Result<Vec<NamedBearing>, _> = texts.iter().map(|text| NamedBearing::parse(text)).collect();
    let mean = mean_of_readings(&readings?)?;
    let count = u32::try_from(mean.count).unwrap_or(u32::MAX);
    let told = Message::new("mean-told")
        .with("bearing", Arg::Bearing(mean.bearing))
        .with("spread", Arg::Degrees(LINE_95 * mean.mean_spread_deg, 1))
        .with("one", Arg::Degrees(mean.spread_deg, 1))
        .with("count", Arg::Count(i64::from(count)))
        .with("widest", Arg::Degrees(mean.greatest_deviation_deg, 1))
        .with("which", Arg::Count(mean.farthest as i64 + 1));
    let answer = Answer::Mean {
        bearing_deg: mean.bearing.degrees(),
        north: north_word(mean.bearing.north()).into(),
        spread_deg: mean.spread_deg,
        mean_spread_deg: mean.mean_spread_deg,
        count,
        widest_deg: mean.greatest_deviation_deg,
        widest: u32::try_from(mean.farthest + 1).unwrap_or(u32::MAX),
    };
    Ok((answer, vec![told]))
}

fn north_word(north: North) -> &'static str {
    match north {
        North::True => "true",
        North::Grid => "grid",
        North::Magnetic => "mag",
    }
}

//! Bearings from one north to another.

use super::{Answer, Answered, understand};
use crate::measure::{AngleUnit, Arg, MeanReading, Message, NamedBearing, North, NorthDiagram, mean_of_readings, typed_step_deg};
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
        .text("angle", words.turn_in(diagram.grid_magnetic_deg(), unit, 2));
    let answer = Answer::Turn {
        bearing_deg: turned.degrees(),
        north: to_north.word().into(),
        back_deg: turned.back().degrees(),
        grid_magnetic_deg: diagram.grid_magnetic_deg(),
        told: written(turned),
    };
    Ok((answer, vec![told]))
}

/// The mean of several readings of one bearing.
pub(super) fn answer_mean(texts: &[String]) -> Answered {
    let readings: Result<Vec<NamedBearing>, _> = texts.iter().map(|text| NamedBearing::parse(text)).collect();
    let readings = readings?;
    let mean = mean_of_readings(&readings, step_deg(texts, &readings))?;
    let count = u32::try_from(mean.count).unwrap_or(u32::MAX);
    let told = Message::new("mean-told")
        .with("bearing", Arg::Bearing(mean.bearing))
        .with("spread", Arg::Turn(mean.half_95_deg, 1))
        .with("one", Arg::Turn(mean.spread_deg, 1))
        .with("count", Arg::Count(i64::from(count)))
        .text("agree", if mean.greatest_deviation_deg.abs() < 0.05 { "yes" } else { "no" })
        .with("widest", Arg::Turn(mean.greatest_deviation_deg, 1))
        .with("which", Arg::Count(mean.farthest as i64 + 1));
    let reversed = mean.reversed.iter().map(|index| {
        let read = texts.get(*index).map_or("", |text| text.trim());
        Message::new("mean-reversed").with("which", Arg::Count(*index as i64 + 1)).text("read", read)
    });
    let told = std::iter::once(told).chain(reversed).chain(wild_told(&mean)).collect();
    let number = |index: usize| u32::try_from(index + 1).unwrap_or(u32::MAX);
    let answer = Answer::Mean {
        bearing_deg: mean.bearing.degrees(),
        north: north_word(mean.bearing.north()).into(),
        spread_deg: mean.spread_deg,
        mean_spread_deg: mean.mean_spread_deg,
        half_95_deg: mean.half_95_deg,
        count,
        widest_deg: mean.greatest_deviation_deg,
        widest: number(mean.farthest),
        reversed: mean.reversed.iter().map(|index| number(*index)).collect(),
    };
    Ok((answer, told))
}

/// The readings that stand out, and the mean without them.
fn wild_told(mean: &MeanReading) -> Option<Message> {
    let without = mean.without_wild.as_ref()?;
    let numbers: Vec<String> = mean.wild.iter().map(|index| (index + 1).to_string()).collect();
    Some(
        Message::new("mean-wild")
            .text("which", numbers.join(", "))
            .with("wild", Arg::Count(mean.wild.len() as i64))
            .with("count", Arg::Count(without.count as i64))
            .with("bearing", Arg::Bearing(without.bearing))
            .with("spread", Arg::Turn(without.half_95_deg, 1)),
    )
}

/// To what the readings were rounded, degrees: the finest last figure; tenths that are all 0 or 5 are halves of a degree.
fn step_deg(texts: &[String], readings: &[NamedBearing]) -> f64 {
    let typed_deg = texts.iter().map(|text| typed_step_deg(text)).fold(f64::INFINITY, f64::min);
    let halves = readings.iter().all(|reading| (2.0 * reading.degrees()).fract().abs() < 1e-9);
    if typed_deg < 0.5 && halves { 0.5 } else { typed_deg }
}

fn north_word(north: North) -> &'static str {
    match north {
        North::True => "true",
        North::Grid => "grid",
        North::Magnetic => "mag",
    }
}

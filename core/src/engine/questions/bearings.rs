//! The mean of bearings.

use super::{Answer, Answered};
use crate::measure::{Arg, MeanReading, Message, NamedBearing, mean_of_readings, typed_step_deg};

/// The mean of several readings of one bearing.
pub(super) fn answer_mean(texts: &[String]) -> Answered {
    let readings: Result<Vec<NamedBearing>, _> = texts.iter().map(|text| NamedBearing::parse(text)).collect();
    let readings = readings?;
    let mean = mean_of_readings(&readings, step_deg(texts, &readings))?;
    let count = u32::try_from(mean.count).unwrap_or(u32::MAX);
    let told = Message::new("mean-told")
        .with("bearing", Arg::FineBearing(mean.bearing, decimals_for(mean.half_95_deg)))
        .with("spread", Arg::Turn(mean.half_95_deg, decimals_for(mean.half_95_deg)))
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
        north: mean.bearing.north().word().into(),
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
            .with("bearing", Arg::FineBearing(without.bearing, decimals_for(without.half_95_deg)))
            .with("spread", Arg::Turn(without.half_95_deg, decimals_for(without.half_95_deg))),
    )
}

/// Decimals of a degree that a half-width needs to have a figure: one at the least, four at the most.
fn decimals_for(half_deg: f64) -> u8 {
    (-half_deg.log10().floor()).clamp(1.0, 4.0) as u8
}

/// To what the readings were rounded, degrees: the finest last figure; tenths that are all 0 or 5 are halves of a degree.
fn step_deg(texts: &[String], readings: &[NamedBearing]) -> f64 {
    let typed_deg = texts.iter().map(|text| typed_step_deg(text)).fold(f64::INFINITY, f64::min);
    let halves = readings.iter().all(|reading| (2.0 * reading.degrees()).fract().abs() < 1e-9);
    if typed_deg < 0.5 && halves { 0.5 } else { typed_deg }
}

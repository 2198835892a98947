//! Declination, convergence and the light.

use super::{Answer, Answered, grid_of, place_of, understand};
use crate::earth::{Caution, Instant, date_of, light_from, magnetic_field};
use crate::measure::{Arg, Message};

/// The three norths at a place.
pub(super) fn answer_norths(place: &str, date: &str, height_m: Option<f64>, grid: Option<&String>) -> Answered {
    let at = place_of(place)?.at;
    let height_m = understand::bounded("height_m", height_m.unwrap_or(0.0), (-1_000.0, 850_000.0))?;
    let field = magnetic_field(at, height_m, date_of(date)?)?;
    let grid = grid_of(grid, at)?;
    let convergence_deg = grid.factors(at)?.convergence_deg;
    let answer = Answer::Norths {
        lat_deg: at.lat_deg(),
        lon_deg: at.lon_deg(),
        declination_deg: field.declination_deg,
        declination_spread_deg: field.declination_spread_deg,
        inclination_deg: field.inclination_deg,
        horizontal_nt: field.horizontal_nt,
        total_nt: field.total_nt,
        convergence_deg,
        grid_magnetic_deg: field.declination_deg - convergence_deg,
        grid_name: grid.name().into(),
    };
    let told = Message::new("norths-told")
        .with("declination", Arg::Degrees(field.declination_deg, 2))
        .with("spread", Arg::Degrees(crate::measure::LINE_95 * field.declination_spread_deg, 1))
        .with("convergence", Arg::Degrees(convergence_deg, 2))
        .text("grid", grid.name())
        .with("angle", Arg::Degrees(field.declination_deg - convergence_deg, 2));
    let caution = field.caution.map(|caution| match caution {
        Caution::Blackout => Message::new("caution-blackout"),
        Caution::Weak => Message::new("caution-weak-field"),
    });
    Ok((answer, std::iter::once(told).chain(caution).collect()))
}

/// The light that is left at a place.
pub(super) fn answer_light(place: &str, from: Instant) -> Answered {
    let light = light_from(place_of(place)?.at, from);
    let [sunset_unix_ms, dark_unix_ms] = [light.sunset, light.dark].map(|time| time.map(Instant::unix_ms));
    let told = Message::new("light-told")
        .text("has-sunset", if sunset_unix_ms.is_some() { "yes" } else { "no" })
        .with("sunset", Arg::Time(sunset_unix_ms.unwrap_or_default()))
        .text("has-dark", if dark_unix_ms.is_some() { "yes" } else { "no" })
        .with("dark", Arg::Time(dark_unix_ms.unwrap_or_default()));
    Ok((Answer::Light { sunset_unix_ms, dark_unix_ms }, vec![told]))
}

//! The sun and the light of a day.

use chrono::{DateTime, NaiveDate};

use super::{Answer, Answered, Refusal, place_of, understand};
use crate::earth::{Air, Daylight, Instant, LatLon, Polar, daylight, light_from, sun_position};
use crate::measure::{Arg, Message, NamedBearing};

/// What [`answer_light`] is asked.
pub(super) struct LightQuestion<'a> {
    pub(super) place: &'a str,
    pub(super) at: &'a str,
    pub(super) height_m: Option<f64>,
    pub(super) pressure_hpa: Option<f64>,
    pub(super) temperature_c: Option<f64>,
}

/// Where the sun stands, the light that is left, and the day's sunrise, sunset and twilights.
pub(super) fn answer_light(asked: &LightQuestion) -> Answered {
    let at = place_of(asked.place)?.at;
    let instant = Instant::parse(asked.at)?;
    let height_m = understand::bounded("height_m", asked.height_m.unwrap_or(0.0), (-1_000.0, 100_000.0))?;
    let standard = Air::standard(height_m);
    let air = Air {
        pressure_hpa: asked.pressure_hpa.unwrap_or(standard.pressure_hpa),
        temperature_c: asked.temperature_c.unwrap_or(standard.temperature_c),
    };
    let sun = sun_position(at, height_m, instant, air)?;
    let day = day_at(asked.at, at, instant)?;
    let light = light_from(at, instant);
    let whole = daylight(at, day)?;
    let ms = |time: Option<Instant>| time.map(Instant::unix_ms);
    let answer = Answer::Light {
        sunset_unix_ms: ms(light.sunset),
        dark_unix_ms: ms(light.dark),
        azimuth_deg_true: sun.azimuth.degrees(),
        elevation_deg: sun.elevation_deg,
        sunrise_unix_ms: ms(whole.sunrise),
        day_sunset_unix_ms: ms(whole.sunset),
        civil_dawn_unix_ms: ms(whole.civil_dawn),
        civil_dusk_unix_ms: ms(whole.civil_dusk),
        nautical_dawn_unix_ms: ms(whole.nautical_dawn),
        nautical_dusk_unix_ms: ms(whole.nautical_dusk),
        polar: whole.polar.map(|polar| polar_word(polar).into()),
    };
    let stands = Message::new("sun-told")
        .with("azimuth", Arg::Bearing(NamedBearing::True(sun.azimuth)))
        .with("elevation", Arg::Degrees(sun.elevation_deg, 1));
    Ok((answer, vec![left_told(light.sunset, light.dark), stands, day_told(day, &whole)]))
}

/// The day that is meant: the one of the clock that the time was given by, or, in UTC, of the place's own mean sun.
///
/// A clock may be about a day ahead of its longitude; the day of the longitude is then the one whose mean noon lies nearest
/// to the clock's.
fn day_at(text: &str, at: LatLon, instant: Instant) -> Result<NaiveDate, Refusal> {
    const MS_PER_DEGREE: f64 = 240_000.0;
    const S_PER_DEGREE: f64 = 240.0;
    const S_PER_DAY: f64 = 86_400.0;
    let Ok(clock) = DateTime::parse_from_rfc3339(text.trim()) else {
        return Ok(crate::earth::date_of(text)?);
    };
    let ahead_s = clock.offset().local_minus_utc();
    if ahead_s != 0 {
        let days = ((at.lon_deg() * S_PER_DEGREE - f64::from(ahead_s)) / S_PER_DAY).round();
        return Ok(clock.date_naive() + chrono::Duration::days(days as i64));
    }
    Ok(Instant::from_unix_ms(instant.unix_ms() + (at.lon_deg() * MS_PER_DEGREE) as i64).date())
}

fn left_told(sunset: Option<Instant>, dark: Option<Instant>) -> Message {
    let message = with_time(Message::new("light-told"), ("has-sunset", "sunset"), sunset);
    with_time(message, ("has-dark", "dark"), dark)
}

/// A time as an argument, and whether there is one.
fn with_time(message: Message, (has, name): (&'static str, &'static str), time: Option<Instant>) -> Message {
    let message = message.text(has, if time.is_some() { "yes" } else { "no" });
    message.with(name, Arg::Time(time.map_or(0, Instant::unix_ms)))
}

fn day_told(day: NaiveDate, whole: &Daylight) -> Message {
    let polar = whole.polar.map_or("none", polar_word);
    let mut message = Message::new("day-told").text("date", day.to_string()).text("polar", polar);
    for (names, time) in [
        (("has-sunrise", "sunrise"), whole.sunrise),
        (("has-sunset", "sunset"), whole.sunset),
        (("has-civil", "dawn"), whole.civil_dawn),
        (("has-dusk", "dusk"), whole.civil_dusk),
        (("has-nautical-dawn", "nautical-dawn"), whole.nautical_dawn),
        (("has-nautical-dusk", "nautical-dusk"), whole.nautical_dusk),
    ] {
        message = with_time(message, names, time);
    }
    message
}

fn polar_word(polar: Polar) -> &'static str {
    match polar {
        Polar::Day => "day",
        Polar::Night => "night",
    }
}

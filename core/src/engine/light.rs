//! The sun and the light of a day, over the heights of the sheet where they reach.

mod raised;

use raised::Raised;
pub(super) use raised::SunAndGround;

use chrono::{DateTime, NaiveDate};

use super::answer::Answer;
use super::commands::Done;
use super::{Engine, Refusal, understand};
use crate::earth::{Air, Daylight, Instant, LatLon, Light, OverGround, Polar, Terms, daylight, light_from, read_place, sun_position};
use crate::measure::{Arg, Message, NamedBearing};

/// What [`Engine::light`] is asked.
pub(super) struct LightQuestion<'a> {
    pub(super) place: &'a str,
    pub(super) at: Option<&'a String>,
    pub(super) height_m: Option<f64>,
    pub(super) pressure_hpa: Option<f64>,
    pub(super) temperature_c: Option<f64>,
}

/// A clock and the day of which is spoken.
#[derive(Clone, Copy)]
struct Clock {
    /// Minutes ahead of UTC.
    ahead_min: i32,
    day: NaiveDate,
}

impl Clock {
    fn told(self, time: Option<Instant>) -> Arg {
        let day = self.day.signed_duration_since(NaiveDate::default()).num_days();
        Arg::Clock(time.map_or(0, Instant::unix_ms), self.ahead_min, day)
    }

    fn zone(self) -> String {
        let (hours, minutes) = (self.ahead_min.abs() / 60, self.ahead_min.abs() % 60);
        match self.ahead_min {
            0 => "UTC".into(),
            ahead => format!("UTC{}{hours:02}:{minutes:02}", if ahead < 0 { '-' } else { '+' }),
        }
    }
}

impl Engine {
    /// Where the sun stands, the light that is left, and the day's sunrise, sunset and twilights.
    pub(super) fn light(&self, asked: &LightQuestion) -> Result<Done, Refusal> {
        let trip = self.trip.as_ref();
        let at = read_place(asked.place, &trip.map_or_else(Terms::default, |trip| trip.sheet.terms()))?.at;
        let text = asked.at.ok_or_else(|| Refusal::plain("time-missing"))?;
        let instant = instant_at(text, at)?;
        let typed_m = asked.height_m.map(|height_m| understand::bounded("height_m", height_m, (-1_000.0, 100_000.0))).transpose()?;
        let ground = trip.and_then(|trip| trip.ground.as_ref());
        // The ground that hides the sun and the height from which it is seen are of one truth.
        let on_sheet_m = ground.and_then(|ground| ground.heights.at_m(at));
        let height_m = on_sheet_m.or(typed_m).unwrap_or(0.0);
        let standard = Air::standard(height_m);
        let air = Air {
            pressure_hpa: asked.pressure_hpa.unwrap_or(standard.pressure_hpa),
            temperature_c: asked.temperature_c.unwrap_or(standard.temperature_c),
        };
        let sun = sun_position(at, height_m, instant, air)?;
        // Without air that was measured the almanacs' bend at the horizon stands.
        let measured = (asked.pressure_hpa.is_some() || asked.temperature_c.is_some()).then_some(air);
        let (ahead_min, day) = self.clock_at(text, at, instant)?;
        let (left, whole) = (light_from(at, instant, measured), daylight(at, day, measured)?);
        // In the night after it the coming day is told over the ground too.
        let is_past = left.is_down && left.sunrise.is_some_and(|rises| whole.sunset.is_some_and(|sets| sets < rises && sets < instant));
        let coming = day.succ_opt().filter(|_| is_past).and_then(|next| Some((daylight(at, next, measured).ok()?, next)));
        let day = day_shown(at, day, ahead_min);
        let days = (&whole, coming.as_ref().map(|(whole, _)| whole));
        let raised = ground.map(|ground| Raised::over(ground, at, air, instant, (&left, days))).transpose()?.unwrap_or_default();
        let clock = Clock { ahead_min, day };
        let coming = coming.map(|(whole, next)| (whole, Clock { ahead_min, day: day_shown(at, next, ahead_min) }));
        let today = Clock { day: local(instant, ahead_min), ..clock };
        let stands = Message::new("sun-told")
            .with("azimuth", Arg::Bearing(NamedBearing::True(sun.azimuth)))
            .with("elevation", Arg::Degrees(sun.elevation_deg.abs(), 1))
            .text("side", if sun.elevation_deg < 0.0 { "below" } else { "above" })
            .with("half", Arg::Degrees(if sun.elevation_deg.abs() < LOW_DEG { 0.3 } else { 0.1 }, 1))
            .text("air", if measured.is_some() { "given" } else { "usual" });
        let mut told = vec![left_told(&left, &raised, today), stands, day_told(&whole, clock)];
        told.extend((at.lat_deg().abs() > NEAR_POLE_DEG).then(|| Message::new("sun-pole")));
        told.extend(super::questions::doubt_on(asked.place, trip.map(|trip| &trip.sheet)));
        told.extend(asked.pressure_hpa.and_then(thin_air));
        told.extend(typed_m.zip(on_sheet_m).and_then(|(typed_m, on_sheet_m)| height_left_out(typed_m, on_sheet_m)));
        told.extend(raised.told((&left, today), (&whole, clock), coming.as_ref(), &self.words));
        let said = told.iter().map(|message| self.words.say(message)).collect();
        Ok(Done::answered(said, answer(&left, &whole, &raised, (sun.azimuth.degrees(), sun.elevation_deg))))
    }

    /// The minutes that the clock is ahead by which times are told, and the day that is meant: the one of the clock that the time
    /// was given by, or, in UTC, the one of the walker's clock; where that is UTC too, of the place's own mean sun.
    ///
    /// A clock may be about a day ahead of its longitude; the day of the longitude is then the one whose mean noon lies nearest
    /// to the clock's.
    fn clock_at(&self, text: &str, at: LatLon, instant: Instant) -> Result<(i32, NaiveDate), Refusal> {
        const MIN_PER_DAY: f64 = 1_440.0;
        let own_min = self.words.utc_offset_min();
        let Ok(clock) = DateTime::parse_from_rfc3339(text.trim()) else {
            return Ok((own_min, crate::earth::date_of(text)?));
        };
        let given_min = clock.offset().local_minus_utc() / 60;
        let ahead_min = if given_min == 0 { own_min } else { given_min };
        let sun_min = at.lon_deg() * MIN_PER_DEGREE;
        if ahead_min == 0 {
            return Ok((0, local(instant, sun_min as i32)));
        }
        let days = ((sun_min - f64::from(ahead_min)) / MIN_PER_DAY).round();
        Ok((ahead_min, local(instant, ahead_min) + chrono::Duration::days(days as i64)))
    }
}

/// The date that a clock shows at a day's mean noon: the sun's own, up to 16 minutes off, may fall beyond midnight by a clock that
/// is half a day off its longitude.
fn day_shown(at: LatLon, day: NaiveDate, ahead_min: i32) -> NaiveDate {
    const MIDDAY_MIN: f64 = 720.0;
    let minutes = MIDDAY_MIN - at.lon_deg() * MIN_PER_DEGREE + f64::from(ahead_min);
    // In UTC every longitude has its noon within its own day; the meridian of 180 degrees at one of its ends.
    let days = if ahead_min == 0 { 0 } else { (minutes / (2.0 * MIDDAY_MIN)).floor() as i64 };
    day + chrono::Duration::days(days)
}

/// Below this height the air's bend differs by tenths of a degree from day to day.
const LOW_DEG: f64 = 2.0;
/// Beyond this latitude, a kilometre from the pole, bearings change by a degree within 20 m.
const NEAR_POLE_DEG: f64 = 89.99;
const MIN_PER_DEGREE: f64 = 4.0;

/// A time; a date alone is the noon of the place's mean sun, when most of the day's light is still to come.
fn instant_at(text: &str, at: LatLon) -> Result<Instant, Refusal> {
    let instant = Instant::parse(text)?;
    let is_time = Instant::parse_time(text).is_ok();
    let later_ms = if is_time { 0.0 } else { at.lon_deg() * MIN_PER_DEGREE * 60_000.0 };
    Ok(Instant::from_unix_ms(instant.unix_ms() - later_ms as i64))
}

/// The date of a clock so many minutes ahead of UTC.
fn local(instant: Instant, ahead_min: i32) -> NaiveDate {
    Instant::from_unix_ms(instant.unix_ms() + i64::from(ahead_min) * 60_000).date()
}

/// That a height which was typed is not used where the sheet's heights have another.
fn height_left_out(typed_m: f64, on_sheet_m: f64) -> Option<Message> {
    let message = Message::new("light-height-of-sheet").with("typed", Arg::Metres(typed_m)).with("height", Arg::Metres(on_sheet_m));
    ((typed_m - on_sheet_m).abs() >= 1.0).then_some(message)
}

/// That a pressure is none of any mountain: that of the highest is 314 hPa in the standard atmosphere. In inches of mercury it would be one.
fn thin_air(pressure_hpa: f64) -> Option<Message> {
    const LEAST_HPA: f64 = 300.0;
    const HPA_PER_INCH: f64 = 33.863_9;
    let (meant_hpa, is_thin) = (pressure_hpa * HPA_PER_INCH, pressure_hpa < LEAST_HPA);
    let are_inches = (LEAST_HPA..=1_100.0).contains(&meant_hpa);
    let message = Message::new("light-air-thin").with("pressure", Arg::Number(pressure_hpa, 2)).text("inches", yes(are_inches));
    is_thin.then(|| message.with("meant", Arg::Number(meant_hpa, 0)))
}

fn yes(is: bool) -> &'static str {
    if is { "yes" } else { "no" }
}

fn answer(left: &Light, whole: &Daylight, raised: &Raised, (azimuth_deg_true, elevation_deg): (f64, f64)) -> Answer {
    let ms = |time: Option<Instant>| time.map(Instant::unix_ms);
    let over = |over: Option<OverGround>| over.map(|over| over.at.unix_ms());
    let is_bound = |over: Option<OverGround>| over.as_ref().map(OverGround::is_bound);
    let (goes, rises, sets) = (raised.left.sets(), raised.day.rises(), raised.day.sets());
    let polar = |polar: Option<Polar>| polar.map(|polar| polar_word(Some(polar)).into());
    Answer::Light {
        sunset_unix_ms: ms(left.sunset),
        sunset_95_s: left.sunset_95_s,
        dark_unix_ms: ms(left.dark),
        dawn_unix_ms: ms(left.dawn),
        touches_unix_ms: ms(left.touches),
        is_down: left.is_down,
        is_dark: left.is_dark,
        azimuth_deg_true,
        elevation_deg,
        sunrise_unix_ms: ms(whole.sunrise),
        day_sunset_unix_ms: ms(whole.sunset),
        touches_before_noon_unix_ms: ms(whole.touches_before),
        touches_after_noon_unix_ms: ms(whole.touches_after),
        civil_dawn_unix_ms: ms(whole.civil_dawn),
        civil_dusk_unix_ms: ms(whole.civil_dusk),
        nautical_dawn_unix_ms: ms(whole.nautical_dawn),
        nautical_dusk_unix_ms: ms(whole.nautical_dusk),
        polar: polar(whole.polar),
        civil_polar: polar(whole.civil_polar),
        nautical_polar: polar(whole.nautical_polar),
        behind_ground_unix_ms: over(goes),
        behind_ground_95_s: goes.and_then(|over| over.half_95_s),
        behind_ground_is_latest: is_bound(goes),
        ground_horizon_deg: goes.map(|over| over.horizon.elevation_deg),
        ground_known_to_m: goes.map(|over| over.horizon.known_to_m),
        ground_enough_to_m: goes.map(|over| over.horizon.enough_to_m),
        ground_sunrise_unix_ms: over(rises),
        ground_sunrise_is_earliest: is_bound(rises),
        ground_sunset_unix_ms: over(sets),
        ground_sunset_is_latest: is_bound(sets),
        ground_gaps: raised.day.answered(),
        ground_gaps_to_come: raised.left.answered(),
    }
}

fn left_told(light: &Light, raised: &Raised, clock: Clock) -> Message {
    let sun = match (light.is_down, light.sunset, light.sunrise) {
        _ if light.touches.is_some() => "touches",
        (_, _, Some(_)) if raised.shows_below_level(light) => "shows",
        (false, Some(_), _) => "sets",
        (false, None, _) => "up",
        (true, _, Some(_)) => "rises",
        (true, _, None) => "down",
    };
    let civil = match (light.is_dark, light.dark, light.dawn) {
        (false, Some(_), _) => "darkens",
        (false, None, _) => "light",
        (true, _, Some(_)) => "dawns",
        (true, _, None) => "dark",
    };
    Message::new("light-told")
        .text("sun", sun)
        .with("touches", clock.told(light.touches))
        .text("then", if light.is_down { "rises" } else { "sets" })
        .with("sunset", clock.told(light.sunset))
        .with("sunrise", clock.told(light.sunrise))
        .text("sure", yes(light.sunset_95_s.is_some()))
        .with("half", Arg::Number((light.sunset_95_s.unwrap_or_default() / 60.0).ceil(), 0))
        .text("civil", civil)
        .with("dark", clock.told(light.dark))
        .with("dawn", clock.told(light.dawn))
        .text("zone", clock.zone())
        .text("ground", yes(raised.holds()))
}

fn day_told(whole: &Daylight, clock: Clock) -> Message {
    let mut message = Message::new("day-told").text("date", clock.day.to_string()).text("zone", clock.zone());
    let touches = whole.touches_before.is_some() || whole.touches_after.is_some();
    message = message.text(
        "noon",
        match (whole.touches_before, whole.touches_after) {
            (Some(before), Some(after)) if before == after => "touches",
            (Some(_), Some(_)) => "both",
            _ => "above",
        },
    );
    for (name, polar) in
        [("polar", whole.polar.filter(|_| !touches)), ("civil-polar", whole.civil_polar), ("nautical-polar", whole.nautical_polar)]
    {
        message = message.text(name, polar_word(polar));
    }
    for ((has, name), (time, touches)) in [
        (("has-sunrise", "sunrise"), (whole.sunrise, whole.touches_before)),
        (("has-sunset", "sunset"), (whole.sunset, whole.touches_after)),
    ] {
        let word = if touches.is_some() { "touches" } else { yes(time.is_some()) };
        message = message.text(has, word).with(name, clock.told(touches.or(time)));
    }
    for ((has, name), time) in [
        (("has-civil", "dawn"), whole.civil_dawn),
        (("has-dusk", "dusk"), whole.civil_dusk),
        (("has-nautical-dawn", "nautical-dawn"), whole.nautical_dawn),
        (("has-nautical-dusk", "nautical-dusk"), whole.nautical_dusk),
    ] {
        message = message.text(has, yes(time.is_some())).with(name, clock.told(time));
    }
    message
}

fn polar_word(polar: Option<Polar>) -> &'static str {
    match polar {
        Some(Polar::Day) => "day",
        Some(Polar::Night) => "night",
        None => "none",
    }
}

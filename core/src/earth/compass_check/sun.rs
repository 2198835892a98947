//! The sun as the answer to a reading: how fast its bearing goes on, and which time would explain what was read.

use crate::earth::sun::{Air, SunError, sun_position};
use crate::earth::{Instant, LatLon};
use crate::measure::{Arg, LINE_95, Message, Telling, TrueBearing, signed_difference_deg};

/// The sun at the time when it was sighted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunKnown {
    /// Its bearing.
    pub azimuth: TrueBearing,
    /// Its height as it is seen, degrees.
    pub elevation_deg: f64,
    /// How far its bearing goes on in a minute about that time, degrees, clockwise positive.
    pub deg_per_min: f64,
    /// What one sigma of the watch moves its bearing by, degrees, clockwise positive.
    pub clock_deg: f64,
    /// One sigma of its bearing by that of the place, degrees.
    pub place_deg: f64,
    /// One sigma of its bearing by how plumb a sight is held, degrees.
    pub aslant_deg: f64,
}

/// One sigma by which a sight in the hand stands aslant, degrees. Common practice, no source.
const ASLANT_DEG: f64 = 1.0;

/// Mean radius of the earth, metres: IUGG, (2a + b) / 3.
const EARTH_M: f64 = 6_371_008.8;
/// A bearing is off by no more, degrees.
const MOST_DEG: f64 = 90.0;
/// Above this height a sun is hard to sight and its bearing runs, degrees (our choice).
const HIGH_DEG: f64 = 60.0;
/// Less than this is no tenth of a degree.
const LEAST_TOLD_DEG: f64 = 0.05;
/// A watch that moves the bearing by more than this at 95 % is told, degrees (our choice).
const MUCH_DEG: f64 = 1.0;

/// The sun from a place known to `place_spread_m` per axis, by a watch good to `watch_spread_s`, both one sigma.
///
/// # Units
/// Degrees, metres, seconds.
///
/// # Accuracy
/// As [`sun_position`]. The watch's part is half of what the bearing goes on between one sigma before and one after; that of the
/// place and of a sight held aslant the first order of a small triangle, their spread times the tangent of the height; near the zenith all
/// reach 90°.
///
/// # Errors
/// [`SunError`] for times out of reach.
pub fn sun_known(at: LatLon, instant: Instant, watch_spread_s: f64, place_spread_m: f64) -> Result<SunKnown, SunError> {
    let sun = |seconds: f64| sun_position(at, 0.0, moved(instant, seconds), Air::standard(0.0));
    let goes_on =
        |seconds: f64| Ok::<f64, SunError>(signed_difference_deg(sun(seconds)?.azimuth.degrees(), sun(-seconds)?.azimuth.degrees()) / 2.0);
    let stands = sun(0.0)?;
    let tangent = stands.elevation_deg.to_radians().tan().abs();
    let by_tangent = |spread_deg: f64| (spread_deg * tangent).min(MOST_DEG);
    Ok(SunKnown {
        azimuth: stands.azimuth,
        elevation_deg: stands.elevation_deg,
        deg_per_min: 2.0 * goes_on(30.0)?,
        clock_deg: goes_on(watch_spread_s)?.clamp(-MOST_DEG, MOST_DEG),
        place_deg: by_tangent((place_spread_m / EARTH_M).to_degrees()),
        aslant_deg: by_tangent(ASLANT_DEG),
    })
}

fn moved(instant: Instant, seconds: f64) -> Instant {
    Instant::from_unix_ms(instant.unix_ms() + (seconds * 1_000.0).round() as i64)
}

impl SunKnown {
    /// Whether its bearing runs so fast that the watch matters, or it stands too high to be sighted well.
    fn is_hard_to_sight(&self) -> bool {
        self.runs() || self.elevation_deg > HIGH_DEG
    }

    /// Whether the watch moves its bearing by more than a degree.
    fn runs(&self) -> bool {
        LINE_95 * self.clock_deg.abs() > MUCH_DEG
    }
}

/// What to mind of suns with the times at which they were sighted: of those hard to sight the one whose bearing runs fastest.
#[must_use]
pub fn suns_minded(suns: &[(&str, SunKnown)]) -> Option<Message> {
    let hard: Vec<&(&str, SunKnown)> = suns.iter().filter(|(_, sun)| sun.is_hard_to_sight()).collect();
    let (time, sun) = hard.iter().max_by(|(_, a), (_, b)| a.deg_per_min.abs().total_cmp(&b.deg_per_min.abs()))?;
    let message = Message::new("compass-sun-high").text("time", time.trim()).with("suns", Arg::Count(hard.len() as i64));
    let rate_deg = sun.deg_per_min.abs();
    let message = message.with("height", Arg::Degrees(sun.elevation_deg, 0)).text("runs", if sun.runs() { "yes" } else { "no" });
    Some(message.with("rate", Arg::Turn(rate_deg, if rate_deg < LEAST_TOLD_DEG { 2 } else { 1 })))
}

/// A reading of the sun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunSight {
    /// What the compass said, degrees from magnetic north.
    pub read_deg_mag: f64,
    /// When it was sighted.
    pub instant: Instant,
}

/// How another time would explain readings of the sun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TimeSlip {
    /// The time is off by so many minutes, later positive; the error would then be so many degrees.
    Off(i32, f64),
    /// No whole or half hour explains them; the sun's bearing goes on by so many degrees an hour.
    Unknown(f64),
}

/// The clocks of the world are whole and half hours apart: minutes.
const STEP_MIN: i32 = 30;
/// No two of them are farther apart than this, minutes.
const MOST_MIN: i32 = 14 * 60;
/// An error that a compass has at the right time, degrees (common practice, no source).
const SMALL_DEG: f64 = 4.0;

/// The shift of the clock by whole and half hours with which readings of the sun leave a small error, the least shift first.
/// Nothing without such readings.
#[must_use]
pub fn time_slip(at: LatLon, declination_deg: f64, sights: &[SunSight]) -> Option<TimeSlip> {
    let first = sights.first()?;
    let shifts = (1..=MOST_MIN / STEP_MIN).flat_map(|step| [step * STEP_MIN, -step * STEP_MIN]);
    let explains = |minutes: i32| {
        let offs: Option<Vec<f64>> = sights.iter().map(|sight| off_deg((at, declination_deg), sight, minutes)).collect();
        offs.filter(|offs| offs.iter().all(|off| off.abs() <= SMALL_DEG))
    };
    let found = shifts.filter_map(|minutes| Some((minutes, explains(minutes)?))).next();
    if let Some((minutes, offs)) = found {
        return Some(TimeSlip::Off(minutes, offs.iter().sum::<f64>() / offs.len() as f64));
    }
    let rate = sun_known(at, first.instant, 60.0, 0.0).ok()?.deg_per_min;
    Some(TimeSlip::Unknown(60.0 * rate.abs()))
}

/// Read less true with the clock moved, degrees; nothing where the sun is then down.
fn off_deg((at, declination_deg): (LatLon, f64), sight: &SunSight, minutes: i32) -> Option<f64> {
    let sun = sun_position(at, 0.0, moved(sight.instant, 60.0 * f64::from(minutes)), Air::standard(0.0)).ok()?;
    (sun.elevation_deg > 0.0).then(|| signed_difference_deg(sight.read_deg_mag + declination_deg, sun.azimuth.degrees()))
}

impl Telling for TimeSlip {
    fn message(&self) -> Message {
        match self {
            Self::Off(minutes, error_deg) => Message::new("compass-sun-time")
                .with("hours", Arg::Number(f64::from(minutes.abs()) / 60.0, u8::from(minutes % 60 != 0)))
                .text("side", if *minutes < 0 { "earlier" } else { "later" })
                .with("error", Arg::Turn(error_deg.abs(), 1)),
            Self::Unknown(rate_deg) => Message::new("compass-sun-hour").with("rate", Arg::Turn(*rate_deg, 0)),
        }
    }
}

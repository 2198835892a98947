//! What a compass should have read: a known bearing, a point sighted, the sun.

use super::record::CompassReadingRecord;
use super::{Refusal, understand};
use crate::earth::{Instant, KnownReading, LatLon, PlaceError, SunKnown, Terms, geodesic_between, read_place, sun_known};
use crate::measure::{Arg, LINE_95, MagneticBearing, Message, NamedBearing, North, NorthDiagram, typed_step_deg};
use crate::sheet::Sheet;

/// Where a compass is checked.
pub(super) struct Ground<'a> {
    /// Nothing where only magnetic bearings and pairs are told, which need no place.
    pub(super) at: Option<LatLon>,
    /// Where one stands to sight points, with its spread on each axis in metres, when that is said.
    pub(super) own: Option<(LatLon, f64)>,
    pub(super) diagram: NorthDiagram,
    pub(super) sheet: Option<&'a Sheet>,
}

/// A sun whose middle stands lower than this cannot have been sighted: half its own width and half a degree of unusual air.
const LOWEST_SUN_DEG: f64 = -0.8;

/// A sun is not taken from the height on, 84°, where how plumb a sight is held turns its bearing by more than this, degrees (our choice).
const HIGHEST_ASLANT_DEG: f64 = 10.0;
/// A bearing known no better than this at 95 % does not tell one end of the needle from the other, degrees.
const LEAST_KNOWN_DEG: f64 = 90.0;

/// Why a sun that was above the horizon has no bearing to hold a compass against: too high, or moved too far by what the watch and
/// the place may be off.
fn sun_says_nothing(time: &str, sun: &SunKnown) -> Option<Refusal> {
    let half_deg = LINE_95 * sun.clock_deg.hypot(sun.place_deg);
    let is_high = sun.aslant_deg > HIGHEST_ASLANT_DEG;
    let message = Message::new("compass-sun-no-bearing")
        .text("time", time.trim())
        .with("height", Arg::Degrees(sun.elevation_deg, 0))
        .text("why", if is_high { "high" } else { "watch" })
        .with("half", Arg::Turn(half_deg, 0));
    let message = message.with("aslant", Arg::Turn(sun.aslant_deg, 0));
    (is_high || half_deg > LEAST_KNOWN_DEG).then(|| Refusal::new(message))
}

fn sun_is_down(time: &str, elevation_deg: f64) -> Refusal {
    let message = Message::new("compass-sun-down").text("time", time.trim());
    Refusal::new(message.with("below", Arg::Degrees(-elevation_deg, 1)))
}

/// The bearing that should have been read, its own spread, and what one sigma of the watch moves it by, degrees.
struct Known {
    bearing: NamedBearing,
    spread_deg: f64,
    clock_deg: f64,
}

/// One sigma of a time that was read off a watch, seconds, when none is told: half a minute. Common practice, no source.
const WATCH_SPREAD_S: f64 = 30.0;

pub(super) fn watch_spread_s(record: &CompassReadingRecord) -> Result<f64, Refusal> {
    understand::bounded("time_spread_s", record.time_spread_s.unwrap_or(WATCH_SPREAD_S), (0.0, 3_600.0))
}

impl Ground<'_> {
    pub(super) fn known(&self, record: &CompassReadingRecord) -> Result<KnownReading, Refusal> {
        let read = magnetic(&record.read)?;
        let Known { bearing: known, spread_deg, clock_deg } = self.answer_to(record)?;
        let is_turned = known.north() != North::Magnetic;
        let told_deg = record.spread_deg.map(|told_deg| understand::bounded("spread_deg", told_deg, (0.0, 45.0))).transpose()?;
        Ok(KnownReading {
            station: record.station.as_deref().unwrap_or_default().trim().into(),
            read_deg_mag: read.degrees(),
            known_deg_mag: self.diagram.turn(known, North::Magnetic).degrees(),
            known_spread_deg: told_deg.unwrap_or(spread_deg.min(90.0)),
            clock_deg: if told_deg.is_some() { 0.0 } else { clock_deg },
            by_declination: is_turned,
        })
    }

    /// The bearing that should have been read, as it is known.
    fn answer_to(&self, record: &CompassReadingRecord) -> Result<Known, Refusal> {
        match (&record.known, &record.from, &record.to, &record.sun_at) {
            (Some(known), None, None, None) => {
                // As it was written. What was read is rounded too: that is part of how far a reading is off.
                let spread_deg = typed_step_deg(known) / 12f64.sqrt();
                Ok(Known { bearing: NamedBearing::parse(known)?, spread_deg, clock_deg: 0.0 })
            }
            (None, from, Some(to), None) => self.between(from.as_deref(), to),
            (None, None, None, Some(time)) => {
                let is_date = Instant::parse_time(time).is_err() && Instant::parse(time).is_ok();
                if is_date {
                    return Err(Refusal::named("sun-time-needed", time.trim()));
                }
                let place_spread_m = self.own.map_or(0.0, |(_, spread_m)| spread_m);
                let at = self.at.ok_or_else(|| Refusal::plain("place-missing"))?;
                let sun = sun_known(at, Instant::parse_time(time)?, watch_spread_s(record)?, place_spread_m)?;
                if sun.elevation_deg < LOWEST_SUN_DEG {
                    return Err(sun_is_down(time, sun.elevation_deg));
                }
                if let Some(refusal) = sun_says_nothing(time, &sun) {
                    return Err(refusal);
                }
                Ok(Known {
                    bearing: NamedBearing::True(sun.azimuth),
                    spread_deg: sun.place_deg.hypot(sun.aslant_deg),
                    clock_deg: sun.clock_deg,
                })
            }
            _ => Err(Refusal::plain("compass-known-needed")),
        }
    }

    /// From a place, the check's own when none is named, to another.
    fn between(&self, from: Option<&str>, to: &str) -> Result<Known, Refusal> {
        let from = from.map(|from| read(from, self.sheet)).transpose()?;
        let (from, from_spread_m) = from.or(self.own).ok_or_else(|| Refusal::plain("compass-place-needed"))?;
        let (to, to_spread_m) = read(to, self.sheet)?;
        let (distance_m, leaves, _) = geodesic_between(from, to);
        let across_m = from_spread_m.hypot(to_spread_m);
        if distance_m < 2.0 * across_m || distance_m < 1.0 {
            return Err(Refusal::plain("compass-points-too-near"));
        }
        let spread_deg = across_m.atan2(distance_m).to_degrees();
        Ok(Known { bearing: NamedBearing::True(leaves), spread_deg, clock_deg: 0.0 })
    }
}

/// A place as it is typed from the sheet that is carried; with one sigma on each axis, metres.
pub(super) fn read(text: &str, sheet: Option<&Sheet>) -> Result<(LatLon, f64), PlaceError> {
    read_place(text, &sheet.map_or_else(Terms::default, Sheet::terms)).map(|read| (read.at, read.spread_m()))
}

/// What was read on a compass counts from magnetic north.
pub(super) fn magnetic(text: &str) -> Result<MagneticBearing, Refusal> {
    match NamedBearing::parse(text)? {
        NamedBearing::Magnetic(bearing) => Ok(bearing),
        NamedBearing::Grid(_) | NamedBearing::True(_) => Err(Refusal::named("compass-read-not-magnetic", text)),
    }
}

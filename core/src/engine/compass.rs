//! Checking one's compass: known bearings, the sun, lines read from both ends; kept, it is taken off every later reading.

use super::answer::{Answer, AnswerCompassLine, AnswerStation};
use super::commands::Done;
use super::record::{CompassPairRecord, CompassReadingRecord, CompassRecord};
use super::{Engine, Refusal, questions, understand};
use crate::earth::{
    Air, Caution, CompassCheck, CompassReadings, DecimalYear, Grid, Instant, KnownReading, LatLon, Pair, Terms, Verdict, check_compass,
    geodesic_between, magnetic_field, read_place, sun_position,
};
use crate::fix::Instrument;
use crate::logbook::{CompassRow, Entry};
use crate::measure::{Arg, MagneticBearing, Message, NamedBearing, North, NorthDiagram, Telling};

/// Where a compass is checked.
struct Ground<'a> {
    at: LatLon,
    /// Where one stands to sight points, with its spread on each axis in metres, when that is said.
    own: Option<(LatLon, f64)>,
    diagram: NorthDiagram,
    terms: Terms<'a>,
}

impl Engine {
    /// Checks a compass, and keeps the outcome when that is asked.
    pub(super) fn compass(&mut self, record: &CompassRecord) -> Result<Done, Refusal> {
        let at = understand::instant(record.at.as_ref())?;
        let instrument = record.instrument.as_deref().map_or(Ok(Instrument::Baseplate), Instrument::named)?;
        let (readings, declination_deg, caution) = self.compass_readings(record, at, instrument)?;
        let check = check_compass(&readings)?;
        let mut said = self.words.compass(&check);
        said.extend(caution.map(|caution| self.words.say(&caution.message())));
        let wrong = check.shared.and_then(|shared| shared.implausible());
        said.extend(wrong.map(|wrong| self.words.say(&wrong.message())));
        let unusual = check.shared.and_then(|shared| shared.unusual(declination_deg));
        said.extend(unusual.map(|unusual| self.words.say(&unusual.message())));
        said.extend(self.far_places(record));
        if record.keep == Some(true) {
            if let Some(wrong) = wrong {
                return Err(Refusal::new(wrong.message().renamed("compass-error-not-kept")));
            }
            if caution == Some(Caution::Blackout) {
                return Err(Refusal::plain("compass-blackout-not-kept"));
            }
            self.keep_compass(at, record, instrument, &check)?;
            said.push(self.words.say(&Message::new("compass-kept").text("instrument", instrument.word())));
        }
        Ok(Done::answered(said, answer(&check)))
    }

    /// Which of the places named lies far from the sheet: the bearing to it is not the one that was sighted.
    fn far_places(&self, record: &CompassRecord) -> Vec<String> {
        let sheet = self.trip.as_ref().map(|trip| &trip.sheet);
        let ends = record.readings.iter().flat_map(|reading| [&reading.from, &reading.to]);
        let named = std::iter::once(&record.place).chain(ends).flatten();
        named.filter_map(|place| questions::doubt_on(place, sheet)).map(|doubt| self.words.say(&doubt)).collect()
    }

    fn compass_readings(
        &self,
        record: &CompassRecord,
        at: Instant,
        instrument: Instrument,
    ) -> Result<(CompassReadings, f64, Option<Caution>), Refusal> {
        let place = self.place_asked(record.place.as_deref())?;
        let own = Grid::of_place(place);
        let grid = self.trip.as_ref().map_or(&own, |trip| &trip.sheet.grid);
        let field = magnetic_field(place, 0.0, DecimalYear::from(at.date()))?;
        let diagram = NorthDiagram {
            declination_deg: field.declination_deg,
            declination_spread_deg: field.declination_spread_deg,
            convergence_deg: grid.factors(place)?.convergence_deg,
        };
        let terms = self.trip.as_ref().map_or_else(Terms::default, |trip| trip.sheet.terms());
        let ground = Ground { at: place, own: self.own_place(record.place.as_deref())?, diagram, terms };
        let known: Result<Vec<_>, Refusal> = record.readings.iter().map(|reading| ground.known(reading)).collect();
        let pairs: Result<Vec<_>, Refusal> = record.pairs.iter().map(pair).collect();
        let readings = CompassReadings {
            known: known?,
            pairs: pairs?,
            reading_spread_deg: match record.reading_spread_deg {
                Some(spread_deg) => understand::bounded("reading_spread_deg", spread_deg, (0.01, 45.0))?,
                None => instrument.trust().reading_spread_deg,
            },
            declination_spread_deg: field.declination_spread_deg,
        };
        Ok((readings, field.declination_deg, field.caution))
    }

    /// The place that is named, with its spread. A fix is none: it came from bearings of the same compass.
    fn own_place(&self, named: Option<&str>) -> Result<Option<(LatLon, f64)>, Refusal> {
        let terms = self.trip.as_ref().map_or_else(Terms::default, |trip| trip.sheet.terms());
        let read = named.map(|named| read_place(named, &terms)).transpose()?;
        Ok(read.map(|read| (read.at, read.spread_m())))
    }

    /// The part of the error's spread that comes from the declination is left out: a fix counts it itself.
    fn keep_compass(&mut self, at: Instant, record: &CompassRecord, instrument: Instrument, check: &CompassCheck) -> Result<(), Refusal> {
        self.now = Some(at);
        self.open_trip()?;
        let shared = check.shared.ok_or_else(|| Refusal::plain("compass-nothing-to-keep"))?;
        let observed = serde_json::to_string(record).map_err(|_| Refusal::plain("internal"))?;
        self.enter(
            at,
            Entry::Compass(CompassRow {
                instrument,
                error_deg: shared.error_deg,
                error_spread_deg: shared.own_spread_deg.max(LEAST_SPREAD_DEG),
                reading_spread_deg: (check.reading.freedom > 0).then_some(check.reading.spread_deg),
                observed,
            }),
        )
    }
}

/// A sun whose middle stands lower than this cannot have been sighted: half its own width and half a degree of unusual air.
const LOWEST_SUN_DEG: f64 = -0.8;

fn sun_is_down(time: &str, elevation_deg: f64) -> Refusal {
    let message = Message::new("compass-sun-down").text("time", time.trim());
    Refusal::new(message.with("below", Arg::Degrees(-elevation_deg, 1)))
}

/// Readings that happen to agree do not make an error known better than this, degrees. Common practice, no source.
const LEAST_SPREAD_DEG: f64 = 0.2;

impl Ground<'_> {
    fn known(&self, record: &CompassReadingRecord) -> Result<KnownReading, Refusal> {
        let read = magnetic(&record.read)?;
        let (known, spread_deg) = self.answer_to(record)?;
        let is_turned = known.north() != North::Magnetic;
        let spread_deg = understand::bounded("spread_deg", record.spread_deg.unwrap_or(spread_deg), (0.0, 45.0))?;
        Ok(KnownReading {
            station: record.station.as_deref().unwrap_or_default().trim().into(),
            read_deg_mag: read.degrees(),
            known_deg_mag: self.diagram.turn(known, North::Magnetic).degrees(),
            known_spread_deg: spread_deg,
            by_declination: is_turned,
        })
    }

    /// The bearing that should have been read, as it is known, and its own spread.
    fn answer_to(&self, record: &CompassReadingRecord) -> Result<(NamedBearing, f64), Refusal> {
        match (&record.known, &record.from, &record.to, &record.sun_at) {
            (Some(known), None, None, None) => Ok((NamedBearing::parse(known)?, 0.0)),
            (None, from, Some(to), None) => self.between(from.as_deref(), to),
            (None, None, None, Some(time)) => {
                let is_date = Instant::parse_time(time).is_err() && Instant::parse(time).is_ok();
                if is_date {
                    return Err(Refusal::named("sun-time-needed", time.trim()));
                }
                let sun = sun_position(self.at, 0.0, Instant::parse_time(time)?, Air::standard(0.0))?;
                if sun.elevation_deg < LOWEST_SUN_DEG {
                    return Err(sun_is_down(time, sun.elevation_deg));
                }
                Ok((NamedBearing::True(sun.azimuth), 0.0))
            }
            _ => Err(Refusal::plain("compass-known-needed")),
        }
    }

    /// From a place, the check's own when none is named, to another.
    fn between(&self, from: Option<&str>, to: &str) -> Result<(NamedBearing, f64), Refusal> {
        let from = from.map(|from| read_place(from, &self.terms)).transpose()?.map(|read| (read.at, read.spread_m()));
        let (from, from_spread_m) = from.or(self.own).ok_or_else(|| Refusal::plain("compass-place-needed"))?;
        let to = read_place(to, &self.terms)?;
        let (distance_m, leaves, _) = geodesic_between(from, to.at);
        let across_m = from_spread_m.hypot(to.spread_m());
        if distance_m < 2.0 * across_m || distance_m < 1.0 {
            return Err(Refusal::plain("compass-points-too-near"));
        }
        Ok((NamedBearing::True(leaves), across_m.atan2(distance_m).to_degrees()))
    }
}

fn pair(record: &CompassPairRecord) -> Result<Pair, Refusal> {
    Ok(Pair {
        from: record.from.trim().into(),
        to: record.to.trim().into(),
        fore_deg_mag: magnetic(&record.fore)?.degrees(),
        back_deg_mag: magnetic(&record.back)?.degrees(),
    })
}

/// What was read on a compass counts from magnetic north.
fn magnetic(text: &str) -> Result<MagneticBearing, Refusal> {
    match NamedBearing::parse(text)? {
        NamedBearing::Magnetic(bearing) => Ok(bearing),
        NamedBearing::Grid(_) | NamedBearing::True(_) => Err(Refusal::named("compass-read-not-magnetic", text)),
    }
}

fn answer(check: &CompassCheck) -> Answer {
    let stations = check.stations.iter().map(|station| AnswerStation {
        station: station.name.clone(),
        attraction_deg: station.attraction.map(|attraction| attraction.deg),
        spread_deg: station.attraction.map(|attraction| attraction.spread_deg),
        attracted_share: station.attracted_share,
        verdict: verdict_word(station.verdict).into(),
    });
    let lines = check.lines.iter().map(|line| AnswerCompassLine {
        from: line.from.clone(),
        to: line.to.clone(),
        closure_deg: line.closure_deg,
        bearing_deg_mag: line.corrected.map(|bearing| bearing.degrees()),
        spread_deg: line.spread_deg,
    });
    Answer::Compass {
        error_deg: check.shared.map(|shared| shared.error_deg),
        error_spread_deg: check.shared.map(|shared| shared.spread_deg),
        error_95_deg: check.shared.map(|shared| shared.half_width_95_deg),
        reading_spread_deg: check.reading.spread_deg,
        count: check.shared.map_or(0, |shared| u32::try_from(shared.readings).unwrap_or(u32::MAX)),
        stations: stations.collect(),
        lines: lines.collect(),
    }
}

/// The word for a station's verdict in records.
fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clean => "clean",
        Verdict::Attracted => "attracted",
        Verdict::NotToBeTold => "not-to-be-told",
    }
}

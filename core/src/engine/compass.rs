//! Checking one's compass: known bearings, the sun, lines read from both ends; kept, it is taken off every later reading.

use super::answer::{Answer, AnswerCompassLine, AnswerStation};
use super::commands::Done;
use super::compass_known::{Ground, magnetic, read, watch_spread_s};
use super::questions::Declination;
use super::record::{CompassPairRecord, CompassReadingRecord, CompassRecord, Record};
use super::{Engine, Refusal, questions, understand};
use crate::earth::{
    Caution, CompassCheck, CompassReadings, DecimalYear, Grid, Instant, LatLon, MagneticError, Pair, SharedError, SunSight, TimeSlip,
    Verdict, check_compass, sun_known, suns_minded, time_slip,
};
use crate::fix::Instrument;
use crate::logbook::{CompassRow, Entry};
use crate::measure::{Arg, LINE_95, Message, NamedBearing, North, NorthDiagram, Telling};
use crate::sheet::Sheet;

impl Engine {
    /// Checks a compass, and keeps the outcome when that is asked.
    pub(super) fn compass(&mut self, record: &CompassRecord) -> Result<Done, Refusal> {
        let at = understand::instant(record.at.as_ref())?;
        if record.readings.is_empty() && record.pairs.is_empty() {
            return Err(Refusal::plain("compass-no-readings"));
        }
        let instrument = record.instrument.as_deref().map_or(Ok(Instrument::Baseplate), Instrument::named)?;
        let (readings, declination) = self.compass_readings(record, at, instrument)?;
        let check = check_compass(&readings)?;
        let mut said = self.words.compass(&check);
        said.extend(self.grid_told(record)?.map(|told| self.words.say(&told)));
        said.extend(self.grid_minded(record)?.map(|told| self.words.say(&told)));
        let minded = declination.iter().flat_map(|declination| declination.minded(&at.date().to_string()));
        said.extend(minded.map(|minded| self.words.say(&minded)));
        let declination_deg = declination.as_ref().map_or(0.0, |declination| declination.deg);
        let wrong = check.shared.and_then(|shared| shared.implausible());
        said.extend(wrong.map(|wrong| self.words.say(&wrong.message())));
        let unusual = check.shared.and_then(|shared| shared.unusual(declination_deg));
        said.extend(unusual.map(|unusual| self.words.say(&unusual.message())));
        let is_large = wrong.is_some_and(|wrong| !wrong.is_reversed) || unusual.is_some();
        let is_told = check.shared.is_some_and(|shared| shared.error_deg.abs() > shared.half_width_95_deg);
        let (suns, slip) = self.suns(record, declination_deg, is_large && is_told)?;
        said.extend(suns.iter().map(|caution| self.words.say(caution)));
        said.extend(slip.map(|slip| self.words.say(&slip.message())));
        said.extend(self.far_places(record));
        if record.keep == Some(true) {
            if let Some(wrong) = wrong {
                return Err(Refusal::new(wrong.message().renamed("compass-error-not-kept")));
            }
            if let Some(wild) = &check.wild {
                return Err(Refusal::new(wild.not_kept()));
            }
            if declination.and_then(|declination| declination.caution) == Some(Caution::Blackout) {
                return Err(Refusal::plain("compass-blackout-not-kept"));
            }
            let width = check.shared.and_then(|shared| width_of(&shared, instrument));
            if let Some(Width { is_useless: true, message }) = width {
                return Err(Refusal::new(message.renamed("compass-wide-not-kept")));
            }
            self.keep_compass(at, record, instrument, &check)?;
            said.extend(width.map(|width| self.words.say(&width.message)));
            said.push(self.words.say(&Message::new("compass-kept").text("instrument", instrument.word())));
        }
        Ok(Done::answered(said, answer(&check)))
    }

    /// What to mind of the suns that were sighted; and, where the error is large, which time would explain it.
    fn suns(&self, record: &CompassRecord, declination_deg: f64, is_large: bool) -> Result<(Option<Message>, Option<TimeSlip>), Refusal> {
        let Some(at) = self.checked_at(record)? else { return Ok((None, None)) };
        let (mut suns, mut sights) = (Vec::new(), Vec::new());
        for (reading, time) in record.readings.iter().filter_map(|reading| Some((reading, reading.sun_at.as_deref()?))) {
            let instant = Instant::parse_time(time)?;
            suns.push((time, sun_known(at, instant, watch_spread_s(reading)?, 0.0)?));
            sights.push(SunSight { read_deg_mag: magnetic(&reading.read)?.degrees(), instant });
        }
        let all_suns = sights.len() == record.readings.len();
        Ok((suns_minded(&suns), time_slip(at, declination_deg, &sights).filter(|_| is_large && all_suns)))
    }

    /// Which of the places named lies far from the sheet: the bearing to it is not the one that was sighted.
    fn far_places(&self, record: &CompassRecord) -> Vec<String> {
        let sheet = self.carried();
        let ends = record.readings.iter().flat_map(|reading| [&reading.from, &reading.to]);
        let named = std::iter::once(&record.place).chain(ends).flatten();
        named.filter_map(|place| questions::doubt_on(place, sheet)).map(|doubt| self.words.say(&doubt)).collect()
    }

    /// What was read, and the declination; nothing of it where the model does not hold and all that is known is magnetic.
    fn compass_readings(
        &self,
        record: &CompassRecord,
        at: Instant,
        instrument: Instrument,
    ) -> Result<(CompassReadings, Option<Declination>), Refusal> {
        let place = self.checked_at(record)?;
        let (declination, convergence_deg) = match place {
            Some(place) => self.norths_for(record, place, at)?,
            None => (None, 0.0),
        };
        let diagram = NorthDiagram {
            declination_deg: declination.as_ref().map_or(0.0, |declination| declination.deg),
            declination_spread_deg: declination.as_ref().map_or(0.0, |declination| declination.spread_deg),
            convergence_deg,
            year: Some(DecimalYear::from(at.date()).years()),
            ..NorthDiagram::default()
        };
        let ground = Ground { at: place, own: self.own_place(record.place.as_deref())?, diagram, sheet: self.carried() };
        let known: Result<Vec<_>, Refusal> = record.readings.iter().map(|reading| ground.known(reading)).collect();
        let pairs: Result<Vec<_>, Refusal> = record.pairs.iter().map(pair).collect();
        let readings = CompassReadings {
            known: known?,
            pairs: pairs?,
            reading_spread_deg: match record.reading_spread_deg {
                Some(spread_deg) => understand::bounded("reading_spread_deg", spread_deg, (0.01, 45.0))?,
                None => instrument.trust().reading_spread_deg,
            },
            declination_spread_deg: diagram.declination_spread_deg,
        };
        Ok((readings, declination))
    }

    /// Declination and convergence where the compass is checked.
    fn norths_for(&self, record: &CompassRecord, place: LatLon, at: Instant) -> Result<(Option<Declination>, f64), Refusal> {
        let convergence_deg = self.grid_at(record, place)?.factors(place)?.convergence_deg;
        let declination = self.declination_at(place, at, convergence_deg);
        let declination = if is_magnetic_alone(record) { declination.ok() } else { Some(declination?) };
        Ok((declination, convergence_deg))
    }

    /// The grid from whose north bearings are counted there: the one that is named, else the sheet's, else that of the place's zone.
    fn grid_at(&self, record: &CompassRecord, place: LatLon) -> Result<Grid, Refusal> {
        let named = record.grid.as_deref().map(Grid::named).transpose()?;
        Ok(named.or_else(|| self.carried().map(|sheet| sheet.grid.clone())).unwrap_or_else(|| Grid::of_place(place)))
    }

    /// By which grid's north known bearings were turned, where some count from it.
    fn grid_told(&self, record: &CompassRecord) -> Result<Option<Message>, Refusal> {
        let counts = |known: &String| NamedBearing::parse(known).is_ok_and(|known| known.north() == North::Grid);
        if !record.readings.iter().filter_map(|reading| reading.known.as_ref()).any(counts) {
            return Ok(None);
        }
        let Some(place) = self.checked_at(record)? else { return Ok(None) };
        let grid = self.grid_at(record, place)?;
        let convergence_deg = grid.factors(place)?.convergence_deg;
        let message = Message::new("compass-by-grid").text("grid", grid.name()).with("convergence", Arg::Turn(convergence_deg.abs(), 2));
        Ok(Some(message.text("side", if convergence_deg < 0.0 { "west" } else { "east" })))
    }

    /// That the grid which is named is not made for where the compass is checked.
    fn grid_minded(&self, record: &CompassRecord) -> Result<Option<Message>, Refusal> {
        let Some(place) = self.checked_at(record)?.filter(|_| record.grid.is_some()) else { return Ok(None) };
        Ok(questions::outside_area(&self.grid_at(record, place)?, place))
    }

    /// What a compass that was checked makes of a bearing that was turned from or to its north: its error is not in that.
    pub(super) fn kept_minded(&self, record: &Record, turned: &Answer) -> Option<Message> {
        let (Record::Turn(turn), Answer::Turn { bearing_deg, .. }) = (record, turned) else { return None };
        let row = &self.trip.as_ref()?.compass.as_ref()?.row;
        let (from, to) = (NamedBearing::parse(&turn.bearing).ok()?.north(), understand::north(&turn.to).ok()?);
        let (way, other_deg) = match (from == North::Magnetic, to == North::Magnetic) {
            (true, false) => ("from", bearing_deg - row.error_deg),
            (false, true) => ("to", bearing_deg + row.error_deg),
            (true, true) | (false, false) => return None,
        };
        let message = Message::new("turn-compass-kept")
            .text("instrument", row.instrument.word())
            .with("error", Arg::Turn(row.error_deg.abs(), 1))
            .with("spread", Arg::Turn(LINE_95 * row.error_spread_deg, 1))
            .text("side", if row.error_deg < 0.0 { "low" } else { "high" });
        Some(message.text("way", way).with("other", Arg::Bearing(NamedBearing::new(other_deg, to))))
    }

    fn declination_at(&self, place: LatLon, at: Instant, convergence_deg: f64) -> Result<Declination, MagneticError> {
        let sheet = self.carried();
        let printed = sheet.and_then(|sheet| questions::printed_there(sheet.printed.as_ref(), &sheet.terms(), place));
        Declination::at((place, 0.0), at.date().into(), (printed, convergence_deg))
    }

    /// The place that is named, with its spread. A fix is none: it came from bearings of the same compass.
    fn own_place(&self, named: Option<&str>) -> Result<Option<(LatLon, f64)>, Refusal> {
        Ok(named.map(|named| read(named, self.carried())).transpose()?)
    }

    /// Where the compass is checked: the place that is named, else where the trip is; bearings from magnetic north alone need none.
    fn checked_at(&self, record: &CompassRecord) -> Result<Option<LatLon>, Refusal> {
        match self.own_place(record.place.as_deref())? {
            Some((at, _)) => Ok(Some(at)),
            None if self.trip.is_none() && is_magnetic_alone(record) => Ok(None),
            None => self.place_asked(None).map(Some),
        }
    }

    fn carried(&self) -> Option<&Sheet> {
        self.trip.as_ref().map(|trip| &trip.sheet)
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
                error_spread_deg: shared.kept_spread_deg.max(LEAST_SPREAD_DEG),
                reading_spread_deg: (check.reading.freedom > 0).then_some(check.reading.spread_deg),
                observed,
            }),
        )
    }
}

/// That an error is known less surely than that of a compass of its kind which was never checked.
struct Width {
    /// Whether so much less that keeping it would make every later bearing worse.
    is_useless: bool,
    message: Message,
}

/// With more times the spread that an unchecked compass of its kind has, an error is not kept: what was read to find it was read wrongly,
/// or is too little, and to take it off would move every bearing by as much as it mends (our choice). Below that a single reading of the
/// instrument can be kept, with a caution.
const MOST_TIMES_UNCHECKED: f64 = 2.0;

fn width_of(shared: &SharedError, instrument: Instrument) -> Option<Width> {
    let unchecked_deg = instrument.trust().shared_spread_deg;
    let message = Message::new("compass-kept-wide")
        .with("error", Arg::Turn(shared.error_deg.abs(), 1))
        .with("spread", Arg::Turn(LINE_95 * shared.kept_spread_deg, 1))
        .with("unchecked", Arg::Turn(LINE_95 * unchecked_deg, 1))
        .text("instrument", instrument.word());
    let is_useless = shared.kept_spread_deg > MOST_TIMES_UNCHECKED * unchecked_deg;
    (shared.kept_spread_deg > unchecked_deg).then_some(Width { is_useless, message })
}

/// Readings that happen to agree do not make an error known better than this, degrees. Common practice, no source.
const LEAST_SPREAD_DEG: f64 = 0.2;

/// Whether all that is known counts from magnetic north, as lines read from both ends do.
fn is_magnetic_alone(record: &CompassRecord) -> bool {
    record.readings.iter().all(is_known_magnetic)
}

/// Whether no declination stands between what is known and what was read.
fn is_known_magnetic(record: &CompassReadingRecord) -> bool {
    record.known.as_deref().is_some_and(|known| magnetic(known).is_ok())
}

fn pair(record: &CompassPairRecord) -> Result<Pair, Refusal> {
    Ok(Pair {
        from: record.from.trim().into(),
        to: record.to.trim().into(),
        fore_deg_mag: magnetic(&record.fore)?.degrees(),
        back_deg_mag: magnetic(&record.back)?.degrees(),
    })
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

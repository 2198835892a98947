//! Floor 8. The one door: opens a logbook, holds the open trip, takes one record per command
//! and answers with a snapshot. It reckons nothing itself.

mod draw;
mod questions;
mod record;
mod refusal;
mod show;
mod state;
mod understand;
mod view;

use std::path::PathBuf;

use serde::Serialize;

pub use questions::{Answer, AnswerBackLeg};
pub use record::{DetourRecord, LegRecord, Record, SightingRecord};
pub use refusal::{Refusal, RefusalView};
pub use view::{
    BackLegView, CarView, CrossingView, FixView, HereView, LegView, LineView, PaceView, PlaceView, SheetView, SightingView, Snapshot,
    Stage, WayBackView,
};

use crate::earth::Instant;
use crate::exchange::{SheetFormat, read_sheet};
use crate::fix::Instrument;
use crate::logbook::{Entry, FixRow, KeptEntry, Logbook};
use crate::measure::{Arg, LINE_95, Message};
use crate::sheet::Sheet;
use crate::travel::WalkSpreads;
use crate::words::Words;
use state::{TakenFix, Trip};

/// How the engine is opened.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Config {
    /// The logbook file; in memory when absent.
    pub logbook: Option<PathBuf>,
}

/// The answer to a record that was taken.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reply {
    /// What a person is told, sentence by sentence.
    pub said: Vec<String>,
    /// Everything a shell shows.
    pub snapshot: Snapshot,
    /// The answer to a question.
    pub answer: Option<Answer>,
}

/// The engine: one open logbook and the trip in it.
#[derive(Debug)]
pub struct Engine {
    logbook: Logbook,
    words: Words,
    trip: Option<Trip>,
    revision: u64,
}

/// What a command did, before it is shown.
struct Done {
    said: Vec<String>,
    way_back: Option<WayBackView>,
    answer: Option<Answer>,
}

impl Done {
    fn said(said: Vec<String>) -> Self {
        Self { said, way_back: None, answer: None }
    }
}

impl Engine {
    /// Opens the logbook and resumes its newest trip.
    ///
    /// # Errors
    /// A [`Refusal`] when the file is newer, damaged, foreign or cannot be written.
    pub fn open(config: &Config) -> Result<Self, Refusal> {
        let logbook = config.logbook.as_deref().map_or_else(Logbook::in_memory, Logbook::open)?;
        let mut engine = Self { logbook, words: Words::english(), trip: None, revision: 0 };
        engine.reload()?;
        Ok(engine)
    }

    /// The sentences.
    #[must_use]
    pub fn words(&self) -> &Words {
        &self.words
    }

    /// Takes one record.
    ///
    /// # Errors
    /// A [`Refusal`]; nothing was changed then.
    pub fn tell(&mut self, record: &Record) -> Result<Reply, Refusal> {
        if self.logbook.changed_elsewhere()? {
            self.reload()?;
        }
        let done = self.carry_out(record)?;
        Ok(Reply { said: done.said, snapshot: show::snapshot(self.revision, self.trip.as_ref(), done.way_back), answer: done.answer })
    }

    /// The snapshot as it stands.
    #[must_use]
    pub fn snapshot(&self) -> Snapshot {
        show::snapshot(self.revision, self.trip.as_ref(), None)
    }

    /// Takes one record as a line of JSON and answers with a line of JSON; see `DEVELOPERS.md`, "Records and replies".
    #[must_use]
    pub fn tell_json(&mut self, line: &str) -> String {
        #[derive(Serialize)]
        struct Taken {
            ok: bool,
            #[serde(flatten)]
            reply: Reply,
        }
        #[derive(Serialize)]
        struct Refused {
            ok: bool,
            refusal: RefusalView,
        }
        let told = match self.tell_line(line) {
            Ok(reply) => serde_json::to_string(&Taken { ok: true, reply }),
            Err(refusal) => serde_json::to_string(&Refused { ok: false, refusal: refusal.view(&self.words) }),
        };
        told.unwrap_or_else(|_| String::from(r#"{"ok":false,"refusal":{"code":"internal","sentence":""}}"#))
    }

    fn tell_line(&mut self, line: &str) -> Result<Reply, Refusal> {
        let record = parse_record(line)?;
        self.tell(&record)
    }

    fn reload(&mut self) -> Result<(), Refusal> {
        self.trip = self.logbook.newest_trip()?.map(Trip::resume).transpose()?;
        self.revision += 1;
        Ok(())
    }

    fn carry_out(&mut self, record: &Record) -> Result<Done, Refusal> {
        match record {
            Record::Carry { at, format, text } => self.carry(understand::instant(at.as_ref())?, format, text),
            Record::Pace { at, double_paces_per_100_m, single_paces_per_100_m, spread_percent } => {
                let pace = understand::pace(*double_paces_per_100_m, *single_paces_per_100_m, *spread_percent)?;
                self.pace(understand::instant(at.as_ref())?, pace)
            }
            Record::Fix { at, line, instrument, sightings } => {
                self.fix(understand::instant(at.as_ref())?, line.as_deref(), instrument.as_deref(), sightings)
            }
            Record::Keep { at, stretch, name } => self.keep(understand::instant(at.as_ref())?, *stretch, name.as_deref()),
            Record::Leg(leg) => self.leg(leg),
            Record::Where { .. } => self.here(),
            Record::Back { .. } => self.back(),
            Record::Undo { at } => self.undo(understand::instant(at.as_ref())?),
            Record::Close { at } => self.close(understand::instant(at.as_ref())?),
            Record::Chart { of, theme } => self.chart(of, theme.as_deref()),
            Record::Norths { .. } | Record::Place { .. } | Record::Turn { .. } | Record::Reckon { .. } => self.ask(record),
        }
    }

    fn ask(&self, record: &Record) -> Result<Done, Refusal> {
        let (answer, told) = match record {
            Record::Norths { place, date, height_m, grid } => questions::norths(place, date, *height_m, grid.as_ref()),
            Record::Place { place, digits, grid } => questions::place(place, *digits, grid.as_ref()),
            Record::Turn { bearing, to, declination_deg, convergence_deg } => {
                questions::turn(bearing, to, *declination_deg, *convergence_deg)
            }
            Record::Reckon {
                legs,
                double_paces_per_100_m,
                declination_deg,
                convergence_deg,
                leg_bearing_spread_deg,
                leg_distance_spread_percent,
                shared_bearing_spread_deg,
                shared_distance_spread_percent,
            } => questions::reckon_legs(&questions::ReckonQuestion {
                legs,
                double_paces_per_100_m: *double_paces_per_100_m,
                declination_deg: *declination_deg,
                convergence_deg: *convergence_deg,
                spreads: WalkSpreads {
                    leg_bearing_deg: *leg_bearing_spread_deg,
                    leg_distance_share: leg_distance_spread_percent / 100.0,
                    shared_bearing_deg: *shared_bearing_spread_deg,
                    shared_distance_share: shared_distance_spread_percent / 100.0,
                },
            }),
            Record::Carry { .. }
            | Record::Pace { .. }
            | Record::Fix { .. }
            | Record::Keep { .. }
            | Record::Leg(_)
            | Record::Where { .. }
            | Record::Back { .. }
            | Record::Undo { .. }
            | Record::Close { .. }
            | Record::Chart { .. } => Err(Refusal::plain("internal")),
        }?;
        Ok(Done { said: vec![self.words.say(&told)], way_back: None, answer: Some(answer) })
    }

    fn carry(&mut self, at: Instant, format: &str, text: &str) -> Result<Done, Refusal> {
        if self.trip.as_ref().is_some_and(|trip| trip.car.is_some() && !trip.closed) {
            return Err(Refusal::plain("trip-open"));
        }
        let format = match format {
            "geojson" => SheetFormat::GeoJson,
            "toml" => SheetFormat::Toml,
            other => return Err(Refusal::named("sheet-format-unknown", other)),
        };
        let draft = read_sheet(text, format)?;
        let sheet = Sheet::build(&draft)?;
        let trip = Trip::new(self.logbook.open_trip(&draft, at)?, sheet);
        let told = Message::new("carried")
            .text("name", trip.sheet.name.clone())
            .with("lines", Arg::Count(trip.sheet.lines.len() as i64))
            .with("landmarks", Arg::Count(trip.sheet.landmarks.len() as i64))
            .text("grid", trip.sheet.grid.name());
        self.trip = Some(trip);
        self.revision += 1;
        Ok(Done::said(vec![self.words.say(&told)]))
    }

    /// The trip that may still be added to.
    fn open_trip(&self) -> Result<&Trip, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        if trip.closed { Err(Refusal::plain("trip-needed")) } else { Ok(trip) }
    }

    /// Writes an entry, then takes it into the trip.
    fn enter(&mut self, at: Instant, entry: Entry) -> Result<(), Refusal> {
        let trip = self.trip.as_mut().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let id = self.logbook.add(trip.id, at, &entry)?;
        self.revision += 1;
        trip.apply(id, at, entry)
    }

    fn pace(&mut self, at: Instant, pace: crate::travel::Pace) -> Result<Done, Refusal> {
        self.open_trip()?;
        self.enter(at, Entry::Pace(pace))?;
        let spread = LINE_95 * pace.spread_share * pace.double_per_100_m;
        let told = Message::new("pace-set").with("count", Arg::Number(pace.double_per_100_m, 1)).with("spread", Arg::Number(spread, 1));
        Ok(Done::said(vec![self.words.say(&told)]))
    }

    fn fix(&mut self, at: Instant, line: Option<&str>, instrument: Option<&str>, sightings: &[SightingRecord]) -> Result<Done, Refusal> {
        let trip = self.open_trip()?;
        let (row, taken) = observe(trip, at, line, instrument, sightings)?;
        let id = self.logbook.add(trip.id, at, &Entry::Fix(row))?;
        let said = self.words.fix(&taken.fix, &taken.report);
        if let Some(trip) = self.trip.as_mut() {
            trip.put_fix(id, taken);
        }
        self.revision += 1;
        Ok(Done::said(said))
    }

    fn keep(&mut self, at: Instant, stretch: Option<usize>, name: Option<&str>) -> Result<Done, Refusal> {
        let trip = self.open_trip()?;
        if trip.car.is_some() {
            return Err(Refusal::plain("already-kept"));
        }
        let taken = trip.fix.clone().ok_or_else(|| Refusal::plain("fix-needed"))?;
        let stretch = stretch.unwrap_or(1);
        let place = taken.report.places.get(stretch.wrapping_sub(1)).ok_or_else(|| state::stretch_unknown(stretch, &taken.fix))?;
        let name = name.map(str::trim).filter(|name| !name.is_empty()).unwrap_or("car").to_owned();
        let reference = crate::earth::spaced(&crate::earth::mgrs_of(place.at, place.digits));
        let said = self.words.kept(&name, &reference, place.stretch.half_width_95_m());
        let fix_entry = trip.fix_entry;
        self.enter(at, Entry::Keep(KeptEntry { name, fix_entry, stretch }))?;
        Ok(Done::said(said))
    }

    fn leg(&mut self, record: &LegRecord) -> Result<Done, Refusal> {
        let at = understand::instant(record.at.as_ref())?;
        if self.open_trip()?.car.is_none() {
            return Err(Refusal::plain("keep-needed"));
        }
        self.enter(at, Entry::Leg(understand::leg(record)?))?;
        Ok(Done::said(self.last_leg_said()))
    }

    fn last_leg_said(&self) -> Vec<String> {
        let Some(trip) = &self.trip else { return Vec::new() };
        let walk = trip.walk();
        let end = walk.as_ref().and_then(|(_, walk)| walk.ends.last());
        let told = trip.legs.last().zip(end).map(|((_, leg), end)| self.words.leg(trip.legs.len(), leg, end, &trip.pace));
        told.into_iter().collect()
    }

    fn walked_trip(&self) -> Result<&Trip, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        if trip.car.is_some() { Ok(trip) } else { Err(Refusal::plain("keep-needed")) }
    }

    fn here(&self) -> Result<Done, Refusal> {
        let (car, _, here) = self.walked_trip()?.here().ok_or_else(|| Refusal::plain("keep-needed"))?;
        Ok(Done::said(self.words.here(&here, &car.name)))
    }

    fn back(&self) -> Result<Done, Refusal> {
        let trip = self.walked_trip()?;
        let (car, _, way) = trip.way_back().ok_or_else(|| Refusal::plain("keep-needed"))?;
        let along = (show::miss_along_95_m(car, &way), car.taken.fix.line.as_str());
        let said = self.words.way_back(&way, &trip.pace, &car.name, along);
        Ok(Done { said, way_back: Some(show::way_back_view(&trip.sheet, car, &way)), answer: None })
    }

    fn undo(&mut self, at: Instant) -> Result<Done, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let (entry, what) = trip.last.ok_or_else(|| Refusal::plain("nothing-to-undo"))?;
        self.logbook.strike(entry, at)?;
        self.reload()?;
        Ok(Done::said(vec![self.words.say(&Message::new("undone").text("what", what))]))
    }

    fn close(&mut self, at: Instant) -> Result<Done, Refusal> {
        self.open_trip()?;
        self.enter(at, Entry::Close)?;
        Ok(Done::said(vec![self.words.say(&Message::new("closed"))]))
    }

    fn chart(&self, of: &str, theme: Option<&str>) -> Result<Done, Refusal> {
        let theme = draw::theme(theme)?;
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let svg = match of {
            "fix" => {
                let taken = trip.fix.as_ref().ok_or_else(|| Refusal::plain("fix-needed"))?;
                draw::fix_svg(trip, taken, &self.words, theme).ok_or_else(|| Refusal::plain("fix-needed"))
            }
            "walk" => draw::walk_svg(trip, &self.words, theme).ok_or_else(|| Refusal::plain("keep-needed")),
            other => Err(Refusal::named("chart-unknown", other)),
        }?;
        let told = self.words.say(&Message::new("chart-drawn"));
        Ok(Done { said: vec![told], way_back: None, answer: Some(Answer::Chart { svg }) })
    }
}

/// Reads a record; what the reader says of a fault is passed on.
fn parse_record(line: &str) -> Result<Record, Refusal> {
    serde_json::from_str(line).map_err(|error| Refusal::new(Message::new("record-unreadable").text("detail", error.to_string())))
}

/// Takes the fix that sightings give, and the row that the logbook keeps of it.
fn observe(
    trip: &Trip,
    at: Instant,
    line: Option<&str>,
    instrument: Option<&str>,
    sightings: &[SightingRecord],
) -> Result<(FixRow, TakenFix), Refusal> {
    let line = trip.sheet.line(line)?;
    let instrument = instrument.map_or(Ok(Instrument::Baseplate), Instrument::named)?;
    let sightings: Result<Vec<_>, Refusal> = sightings.iter().map(understand::sighting).collect();
    let at_origin = trip.sheet.frame.origin();
    let mut row = FixRow { line: line.name.clone(), instrument, sightings: sightings?, at: at_origin, along_m: 0.0, spread_along_m: 0.0 };
    let taken = trip.take_fix(at, &row)?;
    if let Some(best) = taken.report.places.first() {
        (row.at, row.along_m, row.spread_along_m) = (best.at, best.stretch.best.along_m, best.stretch.spread_m);
    }
    Ok((row, taken))
}

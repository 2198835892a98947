//! Floor 8. The one door: opens a logbook, holds the open trip, takes one record per command
//! and answers with a snapshot. It reckons nothing itself.

mod along;
mod answer;
mod beside;
mod buffers;
mod by_hand;
mod car;
mod commands;
mod compass;
mod compass_known;
mod draw;
mod ground;
mod held;
mod import;
mod import_file;
mod import_terms;
mod light;
mod lines;
mod listed;
mod observe;
mod open;
mod open_ground;
mod open_told;
mod phone;
mod photo;
mod points;
mod profile;
mod questions;
mod record;
mod record_sheet;
mod record_sighting;
mod refusal;
mod relief;
mod replaced;
mod said;
mod show;
mod show_after;
mod show_open;
mod sights;
mod state;
mod strip;
mod understand;
mod view;
mod view_fix;

use std::path::PathBuf;
use std::sync::Arc;

use serde::Serialize;

pub use answer::{
    Answer, AnswerBackLeg, AnswerCompassLine, AnswerCutOrFill, AnswerDead, AnswerGroundGap, AnswerPhotoMark, AnswerPhotoPlace,
    AnswerPrinted, AnswerRise, AnswerSeenLandform, AnswerStation,
};
pub use buffers::{AnswerSample, AnswerSamples, AnswerSeenLandmark, AnswerSeenLandmarks};
pub use ground::SeenAsked;
pub use import::{Brought, GoesOn};
pub use record::{
    CompassPairRecord, CompassReadingRecord, CompassRecord, DetourRecord, LegRecord, PointsRecord, PrintedRecord, Record, TurnRecord,
};
pub use record_sheet::{PhotoKnownPointRecord, PhotoLandmarkRecord, PhotoLineRecord, PhotoMarkRecord, PhotoRecord, SheetRecord, TapRecord};
pub use record_sighting::SightingRecord;
pub use refusal::{Refusal, RefusalView};
pub use view::{
    AfterView, BackLegView, CarView, CheckView, ClosingView, HereView, KnownPointView, LegView, LightView, LineView, NextSightView,
    PaceView, SheetView, SightView, Snapshot, Stage, StripView, WayBackView, WitnessSlipView,
};
pub use view_fix::{
    AccountView, CrossingView, FixView, IdentityView, LineShareView, OpenFixView, OpenPlaceView, OpenSightingView, PlaceView,
    SharedTurnView, SightingView, SlipView,
};

pub use crate::exchange::{TypedKnownPoint, TypedLandmark, TypedLine, TypedSpot};

use crate::earth::Instant;
use crate::ground::HeightUnit;
use crate::logbook::Logbook;
use crate::measure::Message;
use crate::words::Words;
use state::{Ground, Trip};

/// How the engine is opened.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Config {
    /// The logbook file; in memory when absent.
    pub logbook: Option<PathBuf>,
    /// Minutes that the walker's clock is ahead of UTC; times of day are told by it.
    pub utc_offset_min: i32,
    /// How bearings are written in sentences: degrees, mils, gon or quadrant; degrees when absent.
    pub unit: Option<String>,
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
    /// Why the newest trip cannot be reckoned, when it cannot: the logbook is open all the same.
    trouble: Option<Refusal>,
    revision: u64,
    /// The time of the last record that had one.
    now: Option<Instant>,
}

impl Engine {
    /// Opens the logbook and resumes its newest trip.
    ///
    /// # Errors
    /// A [`Refusal`] when the file is newer, damaged, foreign or cannot be written.
    pub fn open(config: &Config) -> Result<Self, Refusal> {
        let logbook = config.logbook.as_deref().map_or_else(Logbook::in_memory, Logbook::open)?;
        let unit = understand::unit(config.unit.as_deref())?;
        // The farthest that a time with an offset may be written (RFC 3339 bounds hours by 23).
        understand::bounded("utc_offset_min", config.utc_offset_min.into(), (-1_439.0, 1_439.0))?;
        let words = Words::english().at_offset(config.utc_offset_min).in_unit(unit);
        let mut engine = Self { logbook, words, trip: None, trouble: None, revision: 0, now: None };
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
        self.replied(|engine| {
            if record.is_question() {
                engine.carry_out(record)
            } else if record.only_looks() {
                engine.refresh().and_then(|()| engine.carry_out(record))
            } else {
                engine.change(|engine| engine.carry_out(record))
            }
        })
    }

    /// Does what is asked and shows what came of it; the present stays as it was when it is refused.
    fn replied(&mut self, work: impl FnOnce(&mut Self) -> Result<commands::Done, Refusal>) -> Result<Reply, Refusal> {
        let before = self.now;
        let outcome = work(self);
        if outcome.is_err() {
            self.now = before;
        }
        let done = outcome?;
        let snapshot = self.snapshot_with(done.way_back)?;
        Ok(Reply { said: done.said, snapshot, answer: done.answer })
    }

    /// The snapshot as it stands; at a time, ages and light are told for it.
    ///
    /// # Errors
    /// A [`Refusal`] when the logbook or the time cannot be read.
    pub fn snapshot(&mut self, at: Option<&str>) -> Result<Snapshot, Refusal> {
        if let Some(at) = at {
            self.now = Some(Instant::parse(at)?);
        }
        self.snapshot_with(false)
    }

    fn snapshot_with(&self, way_back: bool) -> Result<Snapshot, Refusal> {
        let undo = self.trip.as_ref().and_then(|trip| trip.last);
        let undo = undo.map(|(_, what)| self.words.say(&Message::new("undo-what").text("what", what)));
        let beside = show::Beside { revision: self.revision, now: self.now, undo, draft: self.logbook.draft()? };
        Ok(show::snapshot(beside, self.trip.as_ref(), &self.words, way_back))
    }

    /// Takes one record as a line of JSON and answers with a line of JSON; see `DEVELOPERS.md`, "Records and replies".
    #[must_use]
    pub fn tell_json(&mut self, line: &str) -> String {
        written(self.tell_line(line), &self.words)
    }

    /// Brings a file in and answers with a line of JSON, as [`Engine::tell_json`] does.
    #[must_use]
    pub fn bring_json(&mut self, file: &Brought<'_>, goes_on: &mut GoesOn<'_>) -> String {
        written(self.bring(file, goes_on), &self.words)
    }

    fn tell_line(&mut self, line: &str) -> Result<Reply, Refusal> {
        let record = parse_record(line)?;
        self.tell(&record)
    }

    /// Does work as one change of the logbook: all of it or nothing, and no other process in between.
    fn change(&mut self, work: impl FnOnce(&mut Self) -> Result<commands::Done, Refusal>) -> Result<commands::Done, Refusal> {
        self.logbook.begin()?;
        let before = self.revision;
        let outcome = self.refresh().and_then(|()| work(self));
        let kept = outcome.and_then(|done| self.logbook.keep().map(|()| done).map_err(Refusal::from));
        if kept.is_err() {
            self.logbook.drop_change();
            // What was taken into the trip already goes with the change.
            if self.revision != before {
                self.reload()?;
            }
        }
        kept
    }

    fn refresh(&mut self) -> Result<(), Refusal> {
        if self.logbook.changed_elsewhere()? { self.reload() } else { Ok(()) }
    }

    /// Reads the newest trip anew. One that cannot be reckoned leaves the logbook open, and is told when it is asked for.
    fn reload(&mut self) -> Result<(), Refusal> {
        self.revision += 1;
        let resumed = self.logbook.newest_trip()?.map(|rows| Trip::resume(self.ground_of(rows.id), rows));
        match resumed.transpose() {
            Ok(trip) => self.hold(trip, None),
            Err(refusal) => self.hold(None, Some(refusal)),
        }
        Ok(())
    }

    /// From now on this is the trip, or this is why there is none; heights are written in the unit of its map.
    fn hold(&mut self, trip: Option<Trip>, trouble: Option<Refusal>) {
        self.words.write_heights_in(trip.as_ref().map_or(HeightUnit::Metres, |trip| trip.sheet.height_unit()));
        (self.trip, self.trouble) = (trip, trouble);
    }

    /// The newest heights of a trip's sheet; those that are held already are not read again.
    fn ground_of(&self, trip: i64) -> Result<Option<Ground>, Refusal> {
        let Some(row) = self.logbook.heights_of_trip(trip)?.into_iter().next() else { return Ok(None) };
        let held = self.trip.as_ref().and_then(|trip| trip.ground.as_ref()).filter(|ground| ground.row == row);
        if let Some(ground) = held {
            return Ok(Some(ground.clone()));
        }
        let heights = Arc::new(self.logbook.load_heights(row.id, None)?);
        Ok(Some(Ground::new(row, heights)))
    }
}

/// Reads a record; what the reader says of a fault is passed on.
fn parse_record(line: &str) -> Result<Record, Refusal> {
    serde_json::from_str(line).map_err(|error| {
        let is_object = serde_json::from_str::<serde_json::Map<String, serde_json::Value>>(line).is_ok();
        let message = Message::new("record-unreadable").text("json", if is_object { "yes" } else { "no" });
        Refusal::new(message.text("detail", error.to_string()))
    })
}

/// A reply or a refusal as a line of JSON.
fn written(outcome: Result<Reply, Refusal>, words: &Words) -> String {
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
    let told = match outcome {
        Ok(reply) => serde_json::to_string(&Taken { ok: true, reply }),
        Err(refusal) => serde_json::to_string(&Refused { ok: false, refusal: refusal.view(words) }),
    };
    told.unwrap_or_else(|_| String::from(r#"{"ok":false,"refusal":{"code":"internal","sentence":""}}"#))
}

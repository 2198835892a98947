//! Writing, inside the change that the engine has begun.

use rusqlite::{Connection, params};

use super::{Entry, FixRow, KeptEntry, Logbook, LogbookError};
use crate::earth::Instant;
use crate::measure::North;
use crate::sheet::SheetDraft;
use crate::travel::{Distance, Leg, PaceKind, Side};

impl Logbook {
    /// Takes a sheet in and opens a trip on it. Answers the trip's number.
    ///
    /// # Errors
    /// [`LogbookError`]; nothing is written then.
    pub fn open_trip(&mut self, draft: &SheetDraft, at: Instant) -> Result<i64, LogbookError> {
        let json = serde_json::to_string(draft).map_err(|error| LogbookError::Unwritable(error.to_string()))?;
        let connection = &self.connection;
        connection
            .execute("INSERT INTO sheet (name, draft, carried_unix_ms) VALUES (?1, ?2, ?3)", params![draft.name, json, at.unix_ms()])?;
        let sheet = connection.last_insert_rowid();
        connection.execute("INSERT INTO trip (sheet_id, opened_unix_ms) VALUES (?1, ?2)", params![sheet, at.unix_ms()])?;
        let trip = connection.last_insert_rowid();
        Ok(trip)
    }

    /// Adds an entry to a trip. Answers the entry's number.
    ///
    /// # Errors
    /// [`LogbookError`]; nothing is written then.
    pub fn add(&mut self, trip: i64, at: Instant, entry: &Entry) -> Result<i64, LogbookError> {
        let connection = &self.connection;
        connection.prepare_cached("INSERT INTO entry (trip_id, at_unix_ms, kind) VALUES (?1, ?2, ?3)")?.execute(params![
            trip,
            at.unix_ms(),
            kind(entry)
        ])?;
        let id = connection.last_insert_rowid();
        write_entry(connection, id, entry)?;
        Ok(id)
    }

    /// Keeps what is half typed; an empty text forgets it.
    ///
    /// # Errors
    /// [`LogbookError`] when the file cannot be written.
    pub fn set_draft(&mut self, text: &str) -> Result<(), LogbookError> {
        if text.is_empty() {
            self.connection.execute("DELETE FROM draft", [])?;
        } else {
            self.connection.execute("INSERT OR REPLACE INTO draft (id, text) VALUES (1, ?1)", [text])?;
        }
        Ok(())
    }

    /// Strikes an entry; it stays in the file.
    ///
    /// # Errors
    /// [`LogbookError`] when the file cannot be written.
    pub fn strike(&mut self, entry: i64, at: Instant) -> Result<(), LogbookError> {
        self.connection.execute("INSERT INTO strike (entry_id, at_unix_ms) VALUES (?1, ?2)", params![entry, at.unix_ms()])?;
        Ok(())
    }
}

fn kind(entry: &Entry) -> &'static str {
    match entry {
        Entry::Pace(_) => "pace",
        Entry::Compass(_) => "compass",
        Entry::Fix(_) => "fix",
        Entry::Check(_) => "check",
        Entry::Keep(_) => "keep",
        Entry::Leg(_) => "leg",
        Entry::TurnRound => "turn-round",
        Entry::Reached => "reached",
        Entry::Close => "close",
    }
}

fn write_entry(connection: &Connection, id: i64, entry: &Entry) -> Result<(), LogbookError> {
    match entry {
        Entry::Pace(pace) => {
            let row = params![id, pace.double_per_100_m, pace.spread_share];
            connection.execute("INSERT INTO pace VALUES (?1, ?2, ?3)", row)?;
        }
        Entry::Compass(row) => {
            let values = params![id, row.instrument.word(), row.error_deg, row.error_spread_deg, row.reading_spread_deg, row.observed];
            connection.execute("INSERT INTO compass VALUES (?1, ?2, ?3, ?4, ?5, ?6)", values)?;
        }
        Entry::Fix(fix) => write_fix(connection, id, fix)?,
        Entry::Check(witness) => {
            let row = params![id, witness.at.lat_deg(), witness.at.lon_deg(), witness.spread_m, witness.typed];
            connection.execute("INSERT INTO witness VALUES (?1, ?2, ?3, ?4, ?5)", row)?;
        }
        Entry::Keep(kept) => write_kept(connection, id, kept)?,
        Entry::Leg(leg) => write_leg(connection, id, leg)?,
        Entry::TurnRound | Entry::Reached | Entry::Close => {}
    }
    Ok(())
}

fn write_fix(connection: &Connection, id: i64, fix: &FixRow) -> Result<(), LogbookError> {
    let (lat_deg, lon_deg) = (fix.at.lat_deg(), fix.at.lon_deg());
    let lines = serde_json::to_string(&fix.lines).map_err(|error| LogbookError::Unwritable(error.to_string()))?;
    connection.prepare_cached("INSERT INTO fix VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)")?.execute(params![
        id,
        fix.line,
        fix.instrument.word(),
        lat_deg,
        lon_deg,
        fix.along_m,
        fix.spread_along_m,
        lines
    ])?;
    let mut insert = connection.prepare_cached("INSERT INTO sighting (entry_id, observed) VALUES (?1, ?2)")?;
    for observed in &fix.observed {
        insert.execute(params![id, observed])?;
    }
    Ok(())
}

fn write_kept(connection: &Connection, id: i64, kept: &KeptEntry) -> Result<(), LogbookError> {
    let stretch = i64::try_from(kept.stretch).unwrap_or(1);
    connection.execute("INSERT INTO kept VALUES (?1, ?2, ?3, ?4)", params![id, kept.name, kept.fix_entry, stretch])?;
    Ok(())
}

fn write_leg(connection: &Connection, id: i64, leg: &Leg) -> Result<(), LogbookError> {
    let (distance, unit) = number_and_unit(leg.distance);
    let out = leg.detour.map(|detour| number_and_unit(detour.out));
    let side = leg.detour.map(|detour| match detour.side {
        Side::Left => "left",
        Side::Right => "right",
    });
    connection.execute(
        "INSERT INTO leg VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        params![
            id,
            leg.bearing.degrees(),
            north_word(leg.bearing.north()),
            distance,
            unit,
            side,
            out.map(|(distance, _)| distance),
            out.map(|(_, unit)| unit),
            leg.met
        ],
    )?;
    Ok(())
}

fn number_and_unit(distance: Distance) -> (f64, &'static str) {
    match distance {
        Distance::Metres(metres) => (metres, "m"),
        Distance::Paces { count, kind: PaceKind::Single } => (count, "single"),
        Distance::Paces { count, kind: PaceKind::Double } => (count, "double"),
    }
}

pub(super) fn north_word(north: North) -> &'static str {
    match north {
        North::Magnetic => "mag",
        North::Grid => "grid",
        North::True => "true",
    }
}

//! Reading the open trip back, entry by entry.

use rusqlite::{Connection, OptionalExtension, Row};

use super::{CompassRow, Entry, FixRow, KeptEntry, Logbook, LogbookError, TripRows, Witness};
use crate::earth::{Instant, LatLon};
use crate::fix::Instrument;
use crate::measure::{NamedBearing, North};
use crate::sheet::SheetDraft;
use crate::travel::{Detour, Distance, Leg, Pace, PaceKind, Side};

impl Logbook {
    /// The newest trip, open or closed, with its entries that are not struck.
    ///
    /// # Errors
    /// [`LogbookError::Damaged`] when a row does not say what it must.
    pub fn newest_trip(&self) -> Result<Option<TripRows>, LogbookError> {
        let query = "SELECT trip.id, sheet.draft FROM trip JOIN sheet ON sheet.id = trip.sheet_id ORDER BY trip.id DESC LIMIT 1";
        let head: Option<(i64, String)> = self.connection.query_row(query, [], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
        let Some((id, draft)) = head else { return Ok(None) };
        let sheet: SheetDraft = serde_json::from_str(&draft).map_err(|error| LogbookError::Damaged(error.to_string()))?;
        Ok(Some(TripRows { id, sheet, entries: entries(&self.connection, id)? }))
    }
}

impl Logbook {
    /// What is half typed; empty when nothing is.
    ///
    /// # Errors
    /// [`LogbookError`] when the file cannot be read.
    pub fn draft(&self) -> Result<String, LogbookError> {
        let text = self.connection.query_row("SELECT text FROM draft", [], |row| row.get(0)).optional()?;
        Ok(text.unwrap_or_default())
    }
}

fn entries(connection: &Connection, trip: i64) -> Result<Vec<(i64, Instant, Entry)>, LogbookError> {
    let mut query = connection.prepare_cached(
        "SELECT id, at_unix_ms, kind FROM entry WHERE trip_id = ?1 AND id NOT IN (SELECT entry_id FROM strike) ORDER BY id",
    )?;
    let rows = query.query_map([trip], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
    let heads: Vec<(i64, i64, String)> = rows.collect::<Result<_, _>>()?;
    heads.into_iter().map(|(id, at, kind)| Ok((id, Instant::from_unix_ms(at), entry(connection, id, &kind)?))).collect()
}

fn entry(connection: &Connection, id: i64, kind: &str) -> Result<Entry, LogbookError> {
    match kind {
        "pace" => one(connection, "SELECT double_per_100_m, spread_share FROM pace WHERE entry_id = ?1", id, |row| {
            Ok(Entry::Pace(Pace { double_per_100_m: row.get(0)?, spread_share: row.get(1)? }))
        }),
        "compass" => read_compass(connection, id),
        "fix" => read_fix(connection, id),
        "check" => read_witness(connection, id),
        "keep" => one(connection, "SELECT name, fix_entry_id, stretch FROM kept WHERE entry_id = ?1", id, |row| {
            let stretch = usize::try_from(row.get::<_, i64>(2)?).unwrap_or(1);
            Ok(Entry::Keep(KeptEntry { name: row.get(0)?, fix_entry: row.get(1)?, stretch }))
        }),
        "leg" => one(
            connection,
            "SELECT bearing_deg, north, distance, unit, detour_side, detour_distance, detour_unit, met FROM leg WHERE entry_id = ?1",
            id,
            read_leg,
        ),
        "turn-round" => Ok(Entry::TurnRound),
        "reached" => Ok(Entry::Reached),
        "close" => Ok(Entry::Close),
        other => Err(LogbookError::Damaged(format!("an entry of kind {other}"))),
    }
}

fn one<T>(connection: &Connection, query: &str, id: i64, read: impl FnOnce(&Row) -> rusqlite::Result<T>) -> Result<T, LogbookError> {
    Ok(connection.prepare_cached(query)?.query_row([id], read)?)
}

fn read_witness(connection: &Connection, id: i64) -> Result<Entry, LogbookError> {
    let query = "SELECT lat_deg, lon_deg, spread_m, typed FROM witness WHERE entry_id = ?1";
    let (lat_deg, lon_deg, spread_m, typed): (f64, f64, f64, String) =
        one(connection, query, id, |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?)))?;
    let at = LatLon::new(lat_deg, lon_deg).map_err(|error| LogbookError::Damaged(error.to_string()))?;
    Ok(Entry::Check(Witness { typed, at, spread_m }))
}

fn read_compass(connection: &Connection, id: i64) -> Result<Entry, LogbookError> {
    let query = "SELECT instrument, error_deg, error_spread_deg, reading_spread_deg, observed FROM compass WHERE entry_id = ?1";
    let (word, error_deg, error_spread_deg, reading_spread_deg, observed): (String, f64, f64, Option<f64>, String) =
        one(connection, query, id, |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?, row.get(4)?)))?;
    let instrument = Instrument::named(&word).map_err(|error| LogbookError::Damaged(error.0))?;
    Ok(Entry::Compass(CompassRow { instrument, error_deg, error_spread_deg, reading_spread_deg, observed }))
}

fn read_fix(connection: &Connection, id: i64) -> Result<Entry, LogbookError> {
    let query = "SELECT line, instrument, lat_deg, lon_deg, along_m, spread_along_m, lines FROM fix WHERE entry_id = ?1";
    let (line, instrument, place, along_m, spread_along_m, lines): (String, String, (f64, f64), f64, f64, String) =
        one(connection, query, id, |row| {
            Ok((row.get(0)?, row.get(1)?, (row.get(2)?, row.get(3)?), row.get(4)?, row.get(5)?, row.get(6)?))
        })?;
    let damaged = |what: String| LogbookError::Damaged(what);
    let instrument = Instrument::named(&instrument).map_err(|error| damaged(error.0))?;
    let at = LatLon::new(place.0, place.1).map_err(|error| damaged(error.to_string()))?;
    let lines = serde_json::from_str(&lines).map_err(|error| damaged(error.to_string()))?;
    let mut observed = connection.prepare_cached("SELECT observed FROM sighting WHERE entry_id = ?1 ORDER BY id")?;
    let observed: Vec<String> = observed.query_map([id], |row| row.get(0))?.collect::<Result<_, _>>()?;
    Ok(Entry::Fix(FixRow { line, lines, instrument, observed, at, along_m, spread_along_m }))
}

fn bearing(row: &Row, degrees: usize, north: usize) -> rusqlite::Result<NamedBearing> {
    let north = match row.get::<_, String>(north)?.as_str() {
        "mag" => North::Magnetic,
        "grid" => North::Grid,
        _ => North::True,
    };
    Ok(NamedBearing::new(row.get(degrees)?, north))
}

fn distance(number: f64, unit: &str) -> Distance {
    match unit {
        "single" => Distance::Paces { count: number, kind: PaceKind::Single },
        "double" => Distance::Paces { count: number, kind: PaceKind::Double },
        _ => Distance::Metres(number),
    }
}

fn read_leg(row: &Row) -> rusqlite::Result<Entry> {
    let side: Option<String> = row.get(4)?;
    let out: Option<f64> = row.get(5)?;
    let unit: Option<String> = row.get(6)?;
    let detour = match (side.as_deref(), out, unit) {
        (Some("left"), Some(out), Some(unit)) => Some(Detour { side: Side::Left, out: distance(out, &unit) }),
        (Some("right"), Some(out), Some(unit)) => Some(Detour { side: Side::Right, out: distance(out, &unit) }),
        _ => None,
    };
    let unit: String = row.get(3)?;
    Ok(Entry::Leg(Leg { bearing: bearing(row, 0, 1)?, distance: distance(row.get(2)?, &unit), detour, met: row.get(7)? }))
}

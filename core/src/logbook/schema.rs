//! The schema by versions, and the checks before anything is written.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OptionalExtension};
use rusqlite_migration::{M, Migrations};

use super::LogbookError;

/// Written into the file's header so that a logbook is told from another program's database.
const APPLICATION_ID: i64 = 0x4750_4C42;

pub(super) fn migrations() -> Migrations<'static> {
    Migrations::new(vec![
        M::up(include_str!("schema.sql")),
        M::up(include_str!("schema_2.sql")),
        M::up(include_str!("schema_3.sql")),
        M::up(include_str!("schema_4.sql")),
        M::up(include_str!("schema_5.sql")),
        M::up(include_str!("schema_6.sql")),
    ])
}

/// Number of the newest schema.
pub(super) const NEWEST: i64 = 6;

pub(super) fn prepare(connection: &mut Connection, path: Option<&Path>) -> Result<(), LogbookError> {
    let version: i64 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    let application: i64 = connection.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let holds_tables = connection.query_row("SELECT 1 FROM sqlite_schema LIMIT 1", [], |_| Ok(())).optional()?.is_some();
    if application != APPLICATION_ID && (holds_tables || application != 0) {
        return Err(LogbookError::Foreign);
    }
    if version > NEWEST {
        return Err(LogbookError::Newer);
    }
    check_whole(connection)?;
    if let Some(path) = path.filter(|_| version > 0 && version < NEWEST) {
        back_up(connection, path, version)?;
    }
    connection.pragma_update(None, "journal_mode", "WAL")?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "fullfsync", true)?;
    if version < NEWEST {
        connection.pragma_update(None, "application_id", APPLICATION_ID)?;
        // A step may make a table anew to which others refer.
        connection.pragma_update(None, "foreign_keys", false)?;
        migrate(connection)?;
    }
    connection.pragma_update(None, "foreign_keys", true)?;
    Ok(())
}

/// The whole file, or every table but the tiles of heights once there are any: they are large, are read when they are asked for,
/// and each carries its own checksum.
fn check_whole(connection: &Connection) -> Result<(), LogbookError> {
    let has_tiles = "SELECT count(*) FROM sqlite_schema WHERE name = 'height_tile'";
    let has_tiles: i64 = connection.query_row(has_tiles, [], |row| row.get(0))?;
    let large = has_tiles > 0 && connection.query_row("SELECT 1 FROM height_tile LIMIT 1", [], |_| Ok(())).optional()?.is_some();
    let check = if large { CHECK_WITHOUT_TILES } else { "SELECT quick_check FROM pragma_quick_check WHERE quick_check <> 'ok'" };
    match connection.query_row(check, [], |row| row.get(0)).optional()? {
        None => Ok(()),
        Some(verdict) => Err(LogbookError::Damaged(verdict)),
    }
}

const CHECK_WITHOUT_TILES: &str =
    "SELECT quick_check FROM (SELECT name AS kept FROM sqlite_schema WHERE type = 'table' AND name <> 'height_tile'
    UNION ALL SELECT 'sqlite_schema'), pragma_quick_check(kept) WHERE quick_check <> 'ok' LIMIT 1";

/// A whole copy beside the file before its schema changes; an existing copy of that version is kept.
fn back_up(connection: &Connection, path: &Path, version: i64) -> Result<(), LogbookError> {
    let mut name = path.as_os_str().to_owned();
    name.push(format!(".v{version}"));
    let copy = PathBuf::from(name);
    if !copy.exists() {
        connection.execute("VACUUM INTO ?1", [copy.to_string_lossy()])?;
    }
    Ok(())
}

/// Another process may bring the same new file up to date at the same time: what counts is that it is.
fn migrate(connection: &mut Connection) -> Result<(), LogbookError> {
    let outcome = migrations().to_latest(connection);
    let version: i64 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    match outcome {
        Err(rusqlite_migration::Error::RusqliteError { err, .. }) if version != NEWEST => Err(err.into()),
        Err(error) if version != NEWEST => Err(LogbookError::Unwritable(error.to_string())),
        _ => Ok(()),
    }
}

//! The schema by versions, and the checks before anything is written.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OptionalExtension};
use rusqlite_migration::{M, Migrations};

use super::LogbookError;

/// Written into the file's header so that a logbook is told from another program's database.
const APPLICATION_ID: i64 = 0x4750_4C42;

pub(super) fn migrations() -> Migrations<'static> {
    Migrations::new(vec![M::up(include_str!("schema.sql")), M::up(include_str!("schema_2.sql")), M::up(include_str!("schema_4.sql"))])
}

/// Number of the newest schema.
pub(super) const NEWEST: i64 = 3;

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

fn check_whole(connection: &Connection) -> Result<(), LogbookError> {
    let verdict: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
    if verdict == "ok" { Ok(()) } else { Err(LogbookError::Damaged(verdict)) }
}

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

//! Floor 7. The logbook: one SQLite file, and the only room that knows SQLite.
//!
//! Rows are never rewritten: a correction strikes the old entry and adds a new one.

mod entry;
mod read;
mod schema;
mod write;

use std::path::Path;
use std::time::Duration;

use rusqlite::Connection;

use crate::measure::{Message, Telling};

pub use entry::{Entry, FixRow, KeptEntry, SightingRow, TripRows};

/// The open logbook. One writer; every entry is one transaction.
#[derive(Debug)]
pub struct Logbook {
    connection: Connection,
    seen_version: i64,
}

/// Why the logbook could not be opened, read or written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LogbookError {
    /// Written by a newer program.
    #[error("logbook-newer")]
    Newer,
    /// Not readable as a logbook; the file is left as it is.
    #[error("logbook-damaged")]
    Damaged(String),
    /// A database of some other program.
    #[error("logbook-foreign")]
    Foreign,
    /// The file cannot be made, opened or written.
    #[error("logbook-unwritable")]
    Unwritable(String),
}

impl Telling for LogbookError {
    fn message(&self) -> Message {
        match self {
            Self::Newer => Message::new("logbook-newer"),
            Self::Foreign => Message::new("logbook-foreign"),
            Self::Damaged(detail) => Message::new("logbook-damaged").text("detail", detail.clone()),
            Self::Unwritable(detail) => Message::new("logbook-unwritable").text("detail", detail.clone()),
        }
    }
}

impl From<rusqlite::Error> for LogbookError {
    fn from(error: rusqlite::Error) -> Self {
        use rusqlite::ErrorCode::{DatabaseCorrupt, NotADatabase};
        match error.sqlite_error_code() {
            Some(DatabaseCorrupt | NotADatabase) => Self::Damaged(error.to_string()),
            _ => Self::Unwritable(error.to_string()),
        }
    }
}

impl Logbook {
    /// Opens the logbook file, or makes it; an older one is brought up to date after a backup copy beside it.
    ///
    /// An acknowledged entry survives the kill of the process and, by `synchronous = FULL`, the loss of power.
    ///
    /// # Errors
    /// [`LogbookError`]; the file is never harmed.
    pub fn open(path: &Path) -> Result<Self, LogbookError> {
        let connection = Connection::open(path)?;
        connection.busy_timeout(Duration::from_secs(5))?;
        let mut logbook = Self { connection, seen_version: 0 };
        schema::prepare(&mut logbook.connection, Some(path))?;
        logbook.seen_version = logbook.data_version()?;
        Ok(logbook)
    }

    /// A logbook in memory, for questions and tests.
    ///
    /// # Errors
    /// [`LogbookError`] when there is no memory for it.
    pub fn in_memory() -> Result<Self, LogbookError> {
        let mut connection = Connection::open_in_memory()?;
        schema::prepare(&mut connection, None)?;
        Ok(Self { connection, seen_version: 0 })
    }

    /// Whether another process has written since this was last asked.
    ///
    /// # Errors
    /// [`LogbookError`] when the file cannot be read.
    pub fn changed_elsewhere(&mut self) -> Result<bool, LogbookError> {
        let now = self.data_version()?;
        let changed = now != self.seen_version;
        self.seen_version = now;
        Ok(changed)
    }

    fn data_version(&self) -> Result<i64, LogbookError> {
        Ok(self.connection.pragma_query_value(None, "data_version", |row| row.get(0))?)
    }
}

#[cfg(test)]
mod tests;

//! Floor 7. The logbook: one SQLite file, and the only room that knows SQLite.
//!
//! Rows are never rewritten: a correction strikes the old entry and adds a new one.

mod attached;
mod entry;
mod heights;
mod read;
mod schema;
mod tile;
mod write;

use std::path::Path;
use std::time::Duration;

use rusqlite::{Connection, OpenFlags};

use crate::measure::{Message, Telling};

pub use attached::{AttachedError, AttachedRow, attached_features};
pub use entry::{CompassRow, Entry, FixRow, KeptEntry, TripRows, Witness};
pub use heights::{HeightsOrigin, HeightsRow};

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
    /// Another program holds the file.
    #[error("logbook-busy")]
    Busy,
    /// The file cannot be made, opened or written.
    #[error("logbook-unwritable")]
    Unwritable(String),
}

impl Telling for LogbookError {
    fn message(&self) -> Message {
        match self {
            Self::Newer => Message::new("logbook-newer"),
            Self::Foreign => Message::new("logbook-foreign"),
            Self::Busy => Message::new("logbook-busy"),
            Self::Damaged(detail) => Message::new("logbook-damaged").text("detail", detail.clone()),
            Self::Unwritable(detail) => Message::new("logbook-unwritable").text("detail", detail.clone()),
        }
    }
}

impl From<rusqlite::Error> for LogbookError {
    fn from(error: rusqlite::Error) -> Self {
        use rusqlite::ErrorCode::{DatabaseBusy, DatabaseCorrupt, DatabaseLocked, NotADatabase, Unknown};
        let told = || error.to_string();
        match error.sqlite_error_code() {
            Some(DatabaseBusy | DatabaseLocked) => Self::Busy,
            // A missing table or column is told as "unknown": the file is not what it should be.
            Some(DatabaseCorrupt | NotADatabase | Unknown) => Self::Damaged(told()),
            Some(_) => Self::Unwritable(told()),
            // A row that is not there, or holds something else than it should.
            None => Self::Damaged(told()),
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
        check_header(path)?;
        // No address scheme is read and no name is special: what is named is a file.
        let path = std::path::absolute(path).map_err(|error| LogbookError::Unwritable(error.to_string()))?;
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(&path, flags)?;
        connection.busy_timeout(Duration::from_secs(5))?;
        let mut logbook = Self { connection, seen_version: 0 };
        schema::prepare(&mut logbook.connection, Some(&path))?;
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

    /// Begins a change: from here to [`Logbook::keep`] no other process can write.
    ///
    /// # Errors
    /// [`LogbookError::Busy`] when another one does.
    pub fn begin(&self) -> Result<(), LogbookError> {
        Ok(self.connection.execute_batch("BEGIN IMMEDIATE")?)
    }

    /// Keeps everything since [`Logbook::begin`]; afterwards it survives kill and loss of power.
    ///
    /// # Errors
    /// [`LogbookError`] when it cannot be written; nothing of it is kept then.
    pub fn keep(&self) -> Result<(), LogbookError> {
        Ok(self.connection.execute_batch("COMMIT")?)
    }

    /// Drops everything since [`Logbook::begin`]. Without a begun change it does nothing.
    pub fn drop_change(&self) {
        if !self.connection.is_autocommit() {
            // A failed rollback leaves SQLite to roll back by itself when the file is next opened.
            let _ = self.connection.execute_batch("ROLLBACK");
        }
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

/// A file that is there and is no SQLite file is left alone.
fn check_header(path: &Path) -> Result<(), LogbookError> {
    use std::io::Read;
    let Ok(file) = std::fs::File::open(path) else { return Ok(()) };
    let mut start = Vec::new();
    let read = file.take(16).read_to_end(&mut start);
    let sound = start.is_empty() || start.starts_with(b"SQLite format 3\0");
    if read.is_err() || sound { Ok(()) } else { Err(LogbookError::Damaged("SQLite format 3 ?".into())) }
}

#[cfg(test)]
mod tests;
#[cfg(test)]
mod tests_heights;

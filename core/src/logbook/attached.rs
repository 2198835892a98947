//! A GeoPackage as it was given: the rows of its layers of features. It is never written, and never becomes a logbook.
//!
//! # References
//! OGC 12-128r18, GeoPackage 1.3: contents (1.1.3), spatial reference systems (1.1.2), geometry columns (2.1.5).

use std::io::Read;

use rusqlite::config::DbConfig;
use rusqlite::limits::Limit;
use rusqlite::types::ValueRef;
use rusqlite::{Connection, ErrorCode, Row, params};

/// One row of a layer of features.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AttachedRow<'a> {
    /// The layer's name.
    pub layer: &'a str,
    /// The row's number.
    pub number: i64,
    /// The layer's grid: who numbers it, and the number, as in "EPSG:4326".
    pub grid: &'a str,
    /// The geometry as it is stored; none where the row has none.
    pub geometry: Option<&'a [u8]>,
    /// Columns that hold a text or a number, as text.
    pub properties: &'a [(String, String)],
}

/// Why a GeoPackage cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AttachedError {
    /// A database, but without the tables of contents of a GeoPackage.
    #[error("no-features")]
    NoFeatures,
    /// A table or column that it names is not there.
    #[error("no-table")]
    NoTable(String),
    /// All its layers are views.
    #[error("views")]
    Views(String),
    /// Damaged.
    #[error("damaged")]
    Damaged,
    /// Another fault; with what the reader says.
    #[error("told")]
    Unreadable(String),
}

impl AttachedError {
    /// The identifier of why it cannot be read.
    #[must_use]
    pub fn why(&self) -> &'static str {
        match self {
            Self::NoFeatures => "no-features",
            Self::NoTable(_) => "no-table",
            Self::Views(_) => "views",
            Self::Damaged => "damaged",
            Self::Unreadable(_) => "told",
        }
    }

    /// The name of what is not there or left out, or what the reader says.
    #[must_use]
    pub fn detail(&self) -> &str {
        match self {
            Self::NoFeatures | Self::Damaged => "",
            Self::NoTable(detail) | Self::Views(detail) | Self::Unreadable(detail) => detail,
        }
    }
}

impl From<rusqlite::Error> for AttachedError {
    fn from(error: rusqlite::Error) -> Self {
        let is = |code| error.sqlite_error_code() == Some(code);
        let is_damaged = is(ErrorCode::DatabaseCorrupt) || is(ErrorCode::NotADatabase);
        if is_damaged { Self::Damaged } else { Self::Unreadable(error.to_string()) }
    }
}

/// The largest text, blob or row that is read, bytes.
const MOST_LENGTH: i32 = 64_000_000;
/// Layers and columns beyond these are not looked at.
const MOST_LAYERS: usize = 256;
const MOST_COLUMNS: usize = 100;
/// Steps of SQLite after which a stranger's database is given up, in thousands: seconds for the tables of contents,
/// minutes for the rows.
const MOST_STEPS: u32 = 4_000_000;

/// Hands the rows of all layers of features to `take`, until it answers false. A layer that is a view is left out, as it would run what a stranger
/// wrote; the names of these are returned.
///
/// # Errors
/// [`AttachedError`] when the bytes are no GeoPackage or are damaged.
pub fn attached_features(bytes: &[u8], take: &mut dyn FnMut(AttachedRow<'_>) -> bool) -> Result<Vec<String>, AttachedError> {
    let connection = opened(bytes)?;
    let (layers, mut views) = (layers(&connection)?, Vec::new());
    let all = layers.len();
    for layer in layers {
        if is_view(&connection, &layer.name)? {
            views.push(shown(&layer.name));
        } else if !rows(&connection, &layer, take)? {
            break;
        }
    }
    if views.len() == all && all > 0 { Err(AttachedError::Views(views.join(", "))) } else { Ok(views) }
}

/// A database in memory that trusts nothing of what it holds.
fn opened(bytes: &[u8]) -> Result<Connection, AttachedError> {
    let mut connection = Connection::open_in_memory()?;
    connection.set_limit(Limit::SQLITE_LIMIT_LENGTH, MOST_LENGTH)?;
    connection.set_limit(Limit::SQLITE_LIMIT_ATTACHED, 0)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_TRIGGER, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_VIEW, false)?;
    let mut thousands = 0;
    let given_up = move || {
        thousands += 1;
        thousands > MOST_STEPS
    };
    connection.progress_handler(1000, Some(given_up));
    // A file that asks for a log beside it cannot be read from memory; bytes 18 and 19 ask for it ("Database File Format", 1.3.3).
    let (start, rest) = bytes.split_at(bytes.len().min(18));
    let journal: &[u8] = if rest.len() >= 2 { &[1, 1] } else { rest };
    let sound = start.chain(journal).chain(rest.get(2..).unwrap_or_default());
    connection.deserialize_read_exact("main", sound, bytes.len(), true)?;
    Ok(connection)
}

/// A layer of features.
struct Layer {
    name: String,
    geometry: String,
    grid: String,
}

fn layers(connection: &Connection) -> Result<Vec<Layer>, AttachedError> {
    for table in ["gpkg_contents", "gpkg_geometry_columns", "gpkg_spatial_ref_sys"] {
        if !is_table(connection, table)? {
            return Err(AttachedError::NoFeatures);
        }
    }
    let mut statement = connection.prepare(
        "SELECT c.table_name, g.column_name, coalesce(s.organization, 'SRS'), coalesce(s.organization_coordsys_id, g.srs_id)
           FROM gpkg_contents c
           JOIN gpkg_geometry_columns g ON g.table_name = c.table_name
           LEFT JOIN gpkg_spatial_ref_sys s ON s.srs_id = g.srs_id
          WHERE c.data_type = 'features' ORDER BY c.table_name LIMIT ?1",
    )?;
    let layer = |row: &Row<'_>| -> rusqlite::Result<Layer> {
        let (organization, number): (String, i64) = (row.get(2)?, row.get(3)?);
        Ok(Layer { name: row.get(0)?, geometry: row.get(1)?, grid: format!("{}:{number}", organization.to_uppercase()) })
    };
    let layers: Result<Vec<Layer>, rusqlite::Error> = statement.query_map(params![MOST_LAYERS as i64], layer)?.collect();
    Ok(layers?)
}

/// Only a plain table is read: a view or a virtual table would run what a stranger wrote.
fn is_table(connection: &Connection, name: &str) -> Result<bool, AttachedError> {
    let sql = "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = ?1 COLLATE NOCASE AND sql NOT LIKE 'CREATE VIRTUAL%'";
    let count: i64 = connection.query_row(sql, params![name], |row| row.get(0))?;
    Ok(count == 1)
}

fn is_view(connection: &Connection, name: &str) -> Result<bool, AttachedError> {
    let sql = "SELECT count(*) FROM sqlite_schema WHERE type = 'view' AND name = ?1 COLLATE NOCASE";
    let count: i64 = connection.query_row(sql, params![name], |row| row.get(0))?;
    Ok(count > 0)
}

fn shown(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(80).collect()
}

fn quoted(name: &str) -> String {
    format!("\"{}\"", name.replace('"', "\"\""))
}

/// Columns of a layer but its geometry; those that are computed are left alone.
fn columns(connection: &Connection, layer: &Layer) -> Result<Vec<String>, AttachedError> {
    let mut statement = connection.prepare("SELECT name FROM pragma_table_xinfo(?1) WHERE hidden = 0")?;
    let names: Result<Vec<String>, rusqlite::Error> = statement.query_map(params![layer.name], |row| row.get(0))?.collect();
    let names = names?;
    if !names.iter().any(|name| name.eq_ignore_ascii_case(&layer.geometry)) {
        return Err(AttachedError::NoTable(shown(&layer.geometry)));
    }
    Ok(names.into_iter().filter(|name| !name.eq_ignore_ascii_case(&layer.geometry)).take(MOST_COLUMNS).collect())
}

/// The rows of one layer; false when the taker wants no more.
fn rows(connection: &Connection, layer: &Layer, take: &mut dyn FnMut(AttachedRow<'_>) -> bool) -> Result<bool, AttachedError> {
    if !is_table(connection, &layer.name)? {
        return Err(AttachedError::NoTable(shown(&layer.name)));
    }
    let columns = columns(connection, layer)?;
    let listed: String = columns.iter().map(|name| format!(", {}", quoted(name))).collect();
    let sql = format!("SELECT rowid, {}{listed} FROM {}", quoted(&layer.geometry), quoted(&layer.name));
    let mut statement = connection.prepare(&sql)?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let number;
        let geometry = match row.get_ref(1)? {
            ValueRef::Null => None,
            ValueRef::Blob(bytes) | ValueRef::Text(bytes) => Some(bytes),
            // No geometry is a number: it is told as what it is not.
            value @ (ValueRef::Integer(_) | ValueRef::Real(_)) => {
                number = text(value, MOST_TEXT).unwrap_or_default();
                Some(number.as_bytes())
            }
        };
        let mut properties = Vec::new();
        for (index, name) in columns.iter().enumerate() {
            let most = if name.eq_ignore_ascii_case(TAGS) { MOST_TAGS } else { MOST_TEXT };
            properties.extend(text(row.get_ref(index + 2)?, most).map(|text| (name.clone(), text)));
        }
        let row = AttachedRow { layer: &layer.name, number: row.get(0)?, grid: &layer.grid, geometry, properties: &properties };
        if !take(row) {
            return Ok(false);
        }
    }
    Ok(true)
}

/// A text is read up to so many bytes; the column that holds many tags up to so many.
const MOST_TEXT: usize = 1000;
const MOST_TAGS: usize = 32_000;
const TAGS: &str = "other_tags";

/// A text or a number as text.
fn text(value: ValueRef<'_>, most: usize) -> Option<String> {
    match value {
        ValueRef::Text(bytes) => Some(String::from_utf8_lossy(bytes.get(..bytes.len().min(most)).unwrap_or_default()).into_owned()),
        ValueRef::Integer(number) => Some(number.to_string()),
        ValueRef::Real(number) => Some(number.to_string()),
        ValueRef::Null | ValueRef::Blob(_) => None,
    }
}

//! Floor 7. Open formats in: bytes to sheets and heights. Pure: no file is opened, no table touched.

mod base64;
mod contours;
mod features;
mod heights;
mod stated;
mod toml_sheet;
mod typed;
mod typed_places;
mod typed_strays;

use crate::earth::{Grid, GridError, PlaceError};
use crate::measure::{Arg, Message, Telling};
use crate::sheet::{Paper, SheetDraft};

pub use base64::{Base64Error, read_base64};
pub use contours::{begins_as_contours, contours_geojson};
pub use features::{
    Added, Area, Assumed, Continue, FarFile, FarRecord, Fault, Features, Format, GridUsed, Header, ImportError, LandmarkKind, LineKind,
    Minded, OpenRows, Part, Progress, Record, Row, Unread, Wanted, checked_size, lay_once, read_features,
};
pub use heights::{
    CommonPosts, Cover, HeightSource, HeightsDoubt, HeightsFileError, HeightsProgress, ImageFault, LineFault,
    MOST_BYTES as MOST_HEIGHTS_BYTES, OtherSpacing, Seam, WantedHeights, doubted, is_heights, join_heights, read_heights, read_part,
};
pub use typed::{Typed, TypedCaution, TypedKnownPoint, TypedLandmark, TypedLine, TypedSpot, add_typed, line_kind};
pub use typed_places::Continued;
pub use typed_strays::Stray;

/// Formats from which a sheet can be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetFormat {
    /// RFC 7946, longitude and latitude on WGS 84.
    GeoJson,
    /// Grid references typed from the paper map.
    Toml,
}

/// Largest text that is taken for a sheet, bytes.
const MOST_BYTES: usize = 32_000_000;

/// Why a text is no sheet.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ExchangeError {
    /// Not the format at all.
    #[error("sheet-unreadable")]
    Unreadable {
        /// The line of the text at which the reader stopped, from 1; 0 when it does not know.
        line: usize,
        /// "kind" where something of another kind stands, "missing" where a key is missing, else "told".
        why: &'static str,
        /// What stands there, the key, or what the reader says.
        detail: String,
    },
    /// One record is wrong.
    #[error("sheet-record")]
    Record {
        /// Which record: "feature 3", "landmark 2".
        record: String,
        /// The identifier of the sentence that says what is wrong with it.
        fault: &'static str,
    },
    /// A place in one record cannot be read.
    #[error("sheet-place")]
    Place {
        /// Which record.
        record: String,
        /// What is wrong with it.
        error: PlaceError,
    },
    /// A line is of no kind that there is.
    #[error("sheet-line-kind")]
    LineKind {
        /// Which line.
        record: String,
        /// What was typed for its kind.
        typed: String,
    },
    /// The grid is not known.
    #[error("grid-unknown")]
    Grid(GridError),
    /// A file of lines and landmarks cannot be taken.
    #[error(transparent)]
    File(#[from] ImportError),
    /// Larger than is taken.
    #[error("sheet-too-large")]
    TooLarge(usize),
}

impl Telling for ExchangeError {
    fn message(&self) -> Message {
        match self {
            Self::Unreadable { line, why, detail } => {
                let message = Message::new("sheet-unreadable").with("line", Arg::Count(*line as i64));
                message.text("why", *why).text("detail", detail.clone())
            }
            Self::Record { record, fault } => Message::new("sheet-record").text("record", record.clone()).text("fault", *fault),
            Self::Place { record, error } => error.message().text("record", record.clone()).renamed("sheet-place"),
            Self::LineKind { record, typed } => Message::new("sheet-line-kind").text("record", record.clone()).text("typed", typed.clone()),
            Self::Grid(error) => error.message(),
            Self::File(error) => error.message(),
            Self::TooLarge(bytes) => Message::new("sheet-too-large").with("megabytes", Arg::Count((bytes / 1_000_000) as i64)),
        }
    }
}

/// A sheet as it was read, and what to tell of it.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetRead {
    /// The sheet.
    pub draft: SheetDraft,
    /// What to mind of its lines, landmarks and references.
    pub minded: Vec<Message>,
    /// The grids in which a file gives its places.
    pub grids: Vec<GridUsed>,
}

/// Reads a sheet from text. GeoJSON is read as [`read_features`] reads it for any sheet, so that a file is the same on either way in.
///
/// # Errors
/// [`ExchangeError`] names the record that is wrong; nothing is taken half.
pub fn read_sheet(text: &str, format: SheetFormat) -> Result<SheetRead, ExchangeError> {
    if text.len() > MOST_BYTES {
        return Err(ExchangeError::TooLarge(text.len()));
    }
    let read = match format {
        SheetFormat::GeoJson => read_geojson(text)?,
        SheetFormat::Toml => toml_sheet::read(text).map(|(draft, cautions)| SheetRead {
            draft,
            minded: cautions.iter().map(Telling::message).collect(),
            grids: Vec::new(),
        })?,
    };
    if let Some(grid) = &read.draft.grid {
        Grid::named(grid).map_err(ExchangeError::Grid)?;
    }
    Ok(read)
}

/// A sheet of what a file holds; without a name of its own it has that of its first line or landmark.
fn read_geojson(text: &str) -> Result<SheetRead, ExchangeError> {
    let wanted = Wanted { format: Some(Format::GeoJson), ..Wanted::default() };
    let mut features = read_features(text.as_bytes(), &wanted, &|_, _| Ok(Vec::new()), &mut |_| Continue::On)?;
    let (mut minded, grids, assumed) = (features.minded.messages(), std::mem::take(&mut features.grids), features.assumed());
    let first = features.lines.first().map(|line| &line.name).or_else(|| features.landmarks.first().map(|mark| &mark.name));
    let name = first.cloned().unwrap_or_default();
    let draft = features.into_draft(&name).0;
    minded.extend(assumed.message(&draft));
    Ok(SheetRead { draft, minded, grids })
}

/// Whether what was drawn on a photo can be of a sheet.
///
/// # Errors
/// [`ExchangeError::Record`] names the line, point or landmark that is wrong.
pub fn checked_drawn(draft: &SheetDraft) -> Result<(), ExchangeError> {
    for (index, line) in draft.lines.iter().enumerate() {
        checked_name(&line.name, index + 1)?;
        if line.points.len() < 2 {
            return Err(record(line.name.clone(), "fault-two-points"));
        }
    }
    for (index, name) in draft.known_points.iter().map(|known| &known.name).chain(draft.landmarks.iter().map(|mark| &mark.name)).enumerate()
    {
        checked_name(name, index + 1)?;
    }
    for mark in &draft.landmarks {
        checked_height(mark.height_m, &mark.name)?;
    }
    check_known_points(draft)
}

fn check_known_points(draft: &SheetDraft) -> Result<(), ExchangeError> {
    let plain = |name: &str| name.trim().to_lowercase();
    let lines: Vec<String> = draft.lines.iter().map(|line| plain(&line.name)).collect();
    match draft.known_points.iter().find(|known| !lines.contains(&plain(&known.on))) {
        Some(known) => Err(record(format!("{} ({})", known.name, known.on), "fault-on-no-line")),
        None => Ok(()),
    }
}

fn record(record: impl Into<String>, fault: &'static str) -> ExchangeError {
    ExchangeError::Record { record: record.into(), fault }
}

/// A spread in a file must be a number of metres from 0 to 10 km.
fn checked_spread(spread_m: Option<f64>, name: &str) -> Result<f64, ExchangeError> {
    let spread_m = spread_m.unwrap_or(0.0);
    if (0.0..=10_000.0).contains(&spread_m) { Ok(spread_m) } else { Err(record(name, "fault-spread")) }
}

/// A height above the ground in a file must be a number of metres from 0 to 1000.
fn checked_height(height_m: Option<f64>, name: &str) -> Result<Option<f64>, ExchangeError> {
    let sound = height_m.is_none_or(|height_m| (0.0..=1000.0).contains(&height_m));
    if sound { Ok(height_m) } else { Err(record(name, "fault-height")) }
}

/// A printed scale is a number from 1,000 to 1,000,000, a printed year one from 1800 to 2100.
///
/// # Errors
/// [`ExchangeError::Record`] when it is not.
pub fn checked_paper(scale: Option<f64>, year: Option<f64>) -> Result<Paper, ExchangeError> {
    if !scale.is_none_or(|scale| (1_000.0..=1_000_000.0).contains(&scale)) {
        return Err(record("sheet", "fault-scale"));
    }
    if !year.is_none_or(|year| (1800.0..=2100.0).contains(&year)) {
        return Err(record("sheet", "fault-year"));
    }
    Ok(Paper { scale, year, ..Paper::default() })
}

/// A name must hold something to be read.
fn checked_name(name: &str, number: usize) -> Result<String, ExchangeError> {
    let name = name.trim();
    if name.is_empty() { Err(record(number.to_string(), "fault-no-name")) } else { Ok(name.to_owned()) }
}

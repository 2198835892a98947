//! Why a file cannot be taken, with the record that is wrong.

use crate::earth::GridError;
use crate::measure::{Arg, Message, Telling};

/// What kind of record of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// What GeoJSON says of the sheet itself.
    Sheet,
    /// A feature of GeoJSON.
    Feature,
    /// A recorded track of GPX.
    Track,
    /// A planned route of GPX.
    Route,
    /// A waypoint of GPX.
    Waypoint,
    /// A placemark of KML.
    Placemark,
    /// A row of a GeoPackage.
    Row,
    /// A node of OpenStreetMap, by its number there.
    Node,
    /// A way of OpenStreetMap, by its number there.
    Way,
    /// A relation of OpenStreetMap, by its number there.
    Relation,
    /// A block of a PBF file.
    Block,
}

impl Part {
    fn id(self) -> &'static str {
        match self {
            Self::Sheet => "at-sheet",
            Self::Feature => "at-feature",
            Self::Track => "at-track",
            Self::Route => "at-route",
            Self::Waypoint => "at-waypoint",
            Self::Placemark => "at-placemark",
            Self::Row => "at-row",
            Self::Node => "at-node",
            Self::Way => "at-way",
            Self::Relation => "at-relation",
            Self::Block => "at-block",
        }
    }
}

/// One record of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Record {
    /// What it is.
    pub part: Part,
    /// Its number: counted from 1, or its own where it has one.
    pub number: i64,
    /// Its name; may be empty.
    pub name: String,
    /// The name of its layer; empty where the file has none.
    pub layer: String,
}

impl Record {
    /// A record without a name.
    #[must_use]
    pub fn new(part: Part, number: i64) -> Self {
        Self { part, number, name: String::new(), layer: String::new() }
    }

    /// The record with its name.
    #[must_use]
    pub fn named(mut self, name: Option<&str>) -> Self {
        self.name = name.and_then(super::names::clean).unwrap_or_default();
        self
    }

    /// The record with its layer.
    #[must_use]
    pub fn of_layer(mut self, layer: &str) -> Self {
        self.layer = super::names::clean(layer).unwrap_or_default();
        self
    }

    /// The error that names this record.
    #[must_use]
    pub fn fault(self, fault: Fault) -> ImportError {
        ImportError::Record { record: self, fault }
    }

    /// What it is called: its name, else its number, behind its layer.
    pub(super) fn called(&self) -> String {
        match (self.name.as_str(), self.layer.as_str()) {
            ("", "") => self.number.to_string(),
            ("", layer) => format!("{layer} {}", self.number),
            (name, _) => name.to_owned(),
        }
    }

    fn text(&self) -> String {
        if self.part == Part::Sheet {
            return "\"sheet\"".to_owned();
        }
        match (self.layer.as_str(), self.name.as_str()) {
            ("", "") => self.number.to_string(),
            (of, "") | ("", of) => format!("{} ({of})", self.number),
            (layer, name) => format!("{} ({layer}: {name})", self.number),
        }
    }
}

/// What is wrong with one record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// A position is no latitude and longitude.
    OffEarth,
    /// A position lacks a number, or holds something else.
    NoPosition,
    /// A geometry that its format does not have.
    Geometry,
    /// A geometry of curves.
    Curved,
    /// A word stands where a number belongs.
    NoNumber,
    /// The record ends before its time, or its numbers contradict each other.
    Cut,
    /// Nested too deep.
    Nested,
    /// A grid that is not known.
    Grid,
    /// One grid more than a file may use.
    Grids,
    /// Packed in a way that is not read.
    Packed,
    /// Larger unpacked than is taken.
    Swollen,
    /// A spread that cannot be.
    Spread,
    /// It stands on a line that the file does not have.
    OnNoLine,
    /// What follows it cannot be understood without it.
    Needs,
}

impl Fault {
    fn id(self) -> &'static str {
        match self {
            Self::OffEarth => "fault-place-off-earth",
            Self::NoPosition => "fault-no-position",
            Self::Geometry => "fault-unknown-geometry",
            Self::Curved => "fault-curved",
            Self::NoNumber => "fault-no-number",
            Self::Cut => "fault-cut",
            Self::Nested => "fault-nested",
            Self::Grid => "fault-unknown-grid",
            Self::Grids => "fault-too-many-grids",
            Self::Packed => "fault-packed",
            Self::Swollen => "fault-swollen",
            Self::Spread => "fault-wrong-spread",
            Self::OnNoLine => "fault-no-such-line",
            Self::Needs => "fault-needs-more",
        }
    }
}

/// What stops the reader of a whole file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unread {
    /// The file ends too early.
    Ends,
    /// This stands where its format has something of another kind.
    Kind(String),
    /// Its text is not in UTF-8.
    NotUtf8,
    /// Its first element is not this.
    Without(&'static str),
    /// It declares what its elements are made of.
    Dtd,
    /// It names a character that is not known.
    Entity,
    /// It breaks the rules of its notation there.
    Broken(&'static str),
    /// It says no type of GeoJSON.
    NoType,
    /// It is TopoJSON.
    TopoJson,
    /// The container of a GeoPackage does not hold what it must: the identifier of why, and the name of what is wrong.
    Container {
        /// "no-features", "no-table", "views" or "told".
        why: &'static str,
        /// A table, layers, or what the reader says.
        detail: String,
    },
    /// What the reader says.
    Told(String),
}

impl Unread {
    fn id(&self) -> &'static str {
        match self {
            Self::Ends => "ends",
            Self::Kind(_) => "kind",
            Self::NotUtf8 => "not-utf-8",
            Self::Without(_) => "without",
            Self::Dtd => "dtd",
            Self::Entity => "entity",
            Self::Broken(_) => "broken",
            Self::NoType => "no-type",
            Self::TopoJson => "topojson",
            Self::Container { why, .. } => why,
            Self::Told(_) => "told",
        }
    }

    fn detail(&self) -> &str {
        match self {
            Self::Kind(detail) | Self::Told(detail) | Self::Container { detail, .. } => detail,
            Self::Without(named) | Self::Broken(named) => named,
            Self::Ends | Self::NotUtf8 | Self::Dtd | Self::Entity | Self::NoType | Self::TopoJson => "",
        }
    }

    /// What a reader of a library says, of which no more than this is told.
    pub(super) fn told(detail: &str) -> Self {
        Self::Told(detail.chars().take(200).collect())
    }
}

/// Why a file of lines and landmarks is not taken.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ImportError {
    /// None of the formats that are read.
    #[error("import-unknown-format")]
    UnknownFormat,
    /// Not what its format says.
    #[error("import-unreadable")]
    Unreadable {
        /// The line at which the reader stopped, from 1; 0 when it does not know.
        line: usize,
        /// What stops it.
        why: Unread,
    },
    /// One record is wrong.
    #[error("import-record")]
    Record {
        /// Which.
        record: Record,
        /// What is wrong with it.
        fault: Fault,
    },
    /// The grid that the file names for the sheet is not known.
    #[error("grid-unknown")]
    Grid(GridError),
    /// The borders of the area asked for are no latitudes and longitudes.
    #[error("import-area-off")]
    AreaOff,
    /// The area asked for is none.
    #[error("import-area")]
    NoArea,
    /// Larger than is taken.
    #[error("import-too-large")]
    TooLarge {
        /// The file's size, bytes.
        bytes: usize,
        /// The most that is taken, bytes.
        most: usize,
    },
    /// More in it than is taken.
    #[error("import-too-many")]
    TooMany {
        /// The most of one sort that is taken: points, pieces of lines, or landmarks.
        most: usize,
    },
    /// More lines and landmarks together than are taken from one file.
    #[error("import-too-many")]
    TooManyTogether {
        /// Lines in it, joined.
        lines: usize,
        /// Landmarks and named points in it.
        landmarks: usize,
        /// The most of both together.
        most: usize,
    },
    /// More points of lines than a sheet holds.
    #[error("import-too-many")]
    TooManyPoints {
        /// The most that it holds.
        most: usize,
    },
    /// Broken off by the person.
    #[error("import-stopped")]
    Stopped,
}

impl Telling for ImportError {
    fn message(&self) -> Message {
        let count = |number: &usize| Arg::Count(i64::try_from(*number).unwrap_or(i64::MAX));
        match self {
            Self::UnknownFormat => Message::new("import-unknown-format"),
            Self::AreaOff => Message::new("import-area-off"),
            Self::NoArea => Message::new("import-area"),
            Self::Stopped => Message::new("import-stopped"),
            Self::Grid(error) => error.message(),
            Self::Unreadable { line, why } => {
                let message = Message::new("import-unreadable").with("line", count(line)).text("why", why.id());
                message.text("detail", why.detail().to_owned())
            }
            Self::Record { record, fault } => {
                Message::new("import-record").text("part", record.part.id()).text("record", record.text()).text("fault", fault.id())
            }
            Self::TooLarge { bytes, most } => Message::new("import-too-large")
                .with("megabytes", count(&bytes.div_ceil(1_000_000)))
                .with("most", count(&(most / 1_000_000))),
            Self::TooMany { most } => Message::new("import-too-many").with("most", count(most)).text("of", "sort"),
            Self::TooManyTogether { lines, landmarks, most } => Message::new("import-too-many")
                .with("most", count(most))
                .text("of", "together")
                .with("lines", count(lines))
                .with("landmarks", count(landmarks)),
            Self::TooManyPoints { most } => Message::new("import-too-many").with("most", count(most)).text("of", "points"),
        }
    }
}

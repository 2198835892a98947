//! Why a file gives no heights.

use crate::earth::GridError;
use crate::ground::HeightsError;
use crate::measure::{Arg, Message, Telling};

/// Why a file gives no heights.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum HeightsFileError {
    /// None of the formats that are read.
    #[error("heights-file-unknown")]
    Unknown(String),
    /// Packed by a packing program.
    #[error("heights-file-packed")]
    Packed(String),
    /// Larger than is taken.
    #[error("heights-file-too-large")]
    TooLarge(usize),
    /// The name of a `.hgt` tile does not give its corner.
    #[error("heights-file-name")]
    Name(String),
    /// The length of a `.hgt` tile is none of those there are.
    #[error("heights-file-length")]
    Length {
        /// The file.
        name: String,
        /// How long it is.
        bytes: usize,
    },
    /// A line of an ASCII grid is wrong.
    #[error("heights-file-line")]
    Line {
        /// The line, from 1.
        line: usize,
        /// What is wrong.
        fault: LineFault,
    },
    /// A picture file that cannot be read as heights.
    #[error("heights-file-image")]
    Image(ImageFault),
    /// A picture file that is damaged.
    #[error("heights-file-image-damaged")]
    Damaged {
        /// The row from which on it cannot be read, from 1; 0 when it is the file's beginning.
        row: usize,
        /// What the reader says; nothing where the file ends too early.
        detail: String,
    },
    /// A number that no ground has and that no one has named as standing for no height.
    #[error("heights-file-post")]
    Post {
        /// Column in the file, from 1.
        column: usize,
        /// Row in the file, from 1.
        row: usize,
        /// The number there.
        number: f64,
    },
    /// So many posts stand far above or below all their neighbours, as no ground does.
    #[error("heights-file-rough")]
    Rough(usize),
    /// No post of the wanted area has a height.
    #[error("heights-file-gaps")]
    Gaps,
    /// The file describes a grid of its own, without a number.
    #[error("heights-file-grid-own")]
    GridOwn,
    /// The file does not say in which grid it lies, and nobody else did.
    #[error("heights-file-grid-needed")]
    GridNeeded,
    /// The same, and its numbers are too large for degrees.
    #[error("heights-file-grid-of-numbers")]
    GridOfNumbers {
        /// Easting of the north-western post.
        west: f64,
        /// Its northing.
        north: f64,
    },
    /// The file does not say whether its heights are metres, and its grid counts in another unit.
    #[error("heights-file-unit-needed")]
    UnitNeeded(String),
    /// Degrees on another datum than WGS 84, which lie up to hundreds of metres off.
    #[error("heights-file-datum")]
    Datum(String),
    /// Said to be in degrees, but the numbers are none.
    #[error("heights-file-not-degrees")]
    NotDegrees,
    /// No post of the file lies in the wanted area.
    #[error("heights-file-outside")]
    Outside,
    /// The grid is not known, or does not reach the place.
    #[error("grid-unknown")]
    Grid(GridError),
    /// The heights cannot be held.
    #[error("heights-layout")]
    Heights(HeightsError),
    /// Two files cannot be joined: other grids, other steps, or posts that do not meet.
    #[error("heights-tiles-differ")]
    TilesDiffer(usize),
    /// Nothing to join.
    #[error("heights-tiles-none")]
    NoTiles,
    /// The person broke off.
    #[error("heights-file-cancelled")]
    Cancelled,
}

/// What is wrong with a line of an ASCII grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineFault {
    /// A decimal comma.
    Comma,
    /// No number where one must be.
    NoNumber,
    /// A word of the header that is not known.
    Word,
    /// A word of the header given twice.
    Twice,
    /// The header lacks the number of columns or rows.
    Size,
    /// The header lacks the corner.
    Corner,
    /// The header lacks the step, or it is no length.
    Step,
    /// Fewer heights than columns times rows.
    Few,
    /// More heights than columns times rows.
    Many,
    /// A number that no ground has.
    Height,
}

/// Why a picture file is not read as heights.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ImageFault {
    /// Packed in a way that is not read.
    Packing(String),
    /// More than one number to a pixel, or numbers of a kind that is not read.
    Numbers,
    /// No place on the earth is given.
    NoPlace,
    /// The rows do not run west to east, north at the top.
    Turned,
    /// Heights in a unit that is not known.
    Unit(String),
    /// The file names two units for its heights.
    Units,
    /// The numbers are depths, counted downwards.
    Depths,
    /// Heights stored by another scale.
    Scaled,
    /// Part of it is masked out.
    Masked,
    /// One of its strips or tiles is larger than is read at a time.
    Pieces,
}

impl LineFault {
    fn id(self) -> &'static str {
        match self {
            Self::Comma => "fault-asc-comma",
            Self::NoNumber => "fault-asc-no-number",
            Self::Word => "fault-asc-word",
            Self::Twice => "fault-asc-twice",
            Self::Size => "fault-asc-size",
            Self::Corner => "fault-asc-corner",
            Self::Step => "fault-asc-step",
            Self::Few => "fault-asc-few",
            Self::Many => "fault-asc-many",
            Self::Height => "fault-asc-height",
        }
    }
}

impl Telling for ImageFault {
    fn message(&self) -> Message {
        match self {
            Self::Packing(kind) => Message::new("heights-file-packing").text("kind", kind.clone()),
            Self::Unit(unit) => Message::new("heights-file-unit").text("unit", unit.clone()),
            Self::Units => Message::new("heights-file-units-differ"),
            Self::Depths => Message::new("heights-file-depths"),
            Self::Numbers => Message::new("heights-file-numbers"),
            Self::NoPlace => Message::new("heights-file-no-place"),
            Self::Turned => Message::new("heights-file-turned"),
            Self::Scaled => Message::new("heights-file-scaled"),
            Self::Masked => Message::new("heights-file-masked"),
            Self::Pieces => Message::new("heights-file-pieces"),
        }
    }
}

impl Telling for HeightsFileError {
    fn message(&self) -> Message {
        let count = |number: usize| Arg::Count(i64::try_from(number).unwrap_or(i64::MAX));
        match self {
            Self::Unknown(name) => Message::new("heights-file-unknown").text("name", name.clone()),
            Self::Packed(name) => Message::new("heights-file-packed").text("name", name.clone()),
            Self::TooLarge(bytes) => {
                let most = super::MOST_BYTES / 1_000_000;
                Message::new("heights-file-too-large").with("megabytes", count(bytes / 1_000_000)).with("most", count(most))
            }
            Self::Name(name) => Message::new("heights-file-name").text("name", name.clone()),
            Self::Length { name, bytes } => Message::new("heights-file-length").text("name", name.clone()).with("bytes", count(*bytes)),
            Self::Line { line, fault } => Message::new("heights-file-line").with("line", count(*line)).text("fault", fault.id()),
            Self::Image(fault) => fault.message(),
            Self::Damaged { row, detail } => {
                let message = Message::new("heights-file-image-damaged").with("row", count(*row)).text("detail", detail.clone());
                message.text("ends", if detail.is_empty() { "early" } else { "there" })
            }
            Self::Post { column, row, number } => Message::new("heights-file-post")
                .with("column", count(*column))
                .with("row", count(*row))
                .text("number", format!("{number}")),
            Self::Rough(spikes) => Message::new("heights-file-rough").with("count", count(*spikes)),
            Self::Gaps => Message::new("heights-file-gaps"),
            Self::GridOwn => Message::new("heights-file-grid-own"),
            Self::GridNeeded => Message::new("heights-file-grid-needed"),
            Self::GridOfNumbers { west, north } => {
                Message::new("heights-file-grid-of-numbers").text("west", format!("{west}")).text("north", format!("{north}"))
            }
            Self::UnitNeeded(grid) => Message::new("heights-file-unit-needed").text("grid", grid.clone()),
            Self::Datum(name) => Message::new("heights-file-datum").text("code", name.clone()),
            Self::NotDegrees => Message::new("heights-file-not-degrees"),
            Self::Outside => Message::new("heights-file-outside"),
            Self::Grid(GridError::Outside(grid)) => Message::new("heights-file-grid-outside").text("grid", grid.clone()),
            Self::Grid(error) => error.message(),
            Self::Heights(error) => error.message(),
            Self::TilesDiffer(tile) => Message::new("heights-tiles-differ").with("tile", count(*tile)),
            Self::NoTiles => Message::new("heights-tiles-none"),
            Self::Cancelled => Message::new("heights-file-cancelled"),
        }
    }
}

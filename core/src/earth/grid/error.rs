//! Why a grid could not be used.

use crate::measure::{Message, Telling};

/// Why a grid could not be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum GridError {
    /// PROJ does not know the definition.
    #[error("grid-unknown")]
    Unknown(String),
    /// The grid has no coordinates for the place.
    #[error("place-outside-grid")]
    Outside(String),
    /// PROJ knows the definition and has no mathematics for its projection.
    #[error("grid-unreckoned")]
    Unreckoned(String),
    /// It shifts its datum by files that are not here: the grid, the names of the files.
    #[error("grid-shift-file")]
    ShiftFile(String, String),
    /// Its axes count west or south where only easting and northing can be read, or in no such direction at all.
    #[error("grid-turned")]
    Turned(String),
    /// Latitudes and longitudes, or axes through the earth.
    #[error("grid-of-degrees")]
    OfDegrees(String),
}

impl Telling for GridError {
    fn message(&self) -> Message {
        let (id, grid) = match self {
            Self::Unknown(grid) => return unknown(grid),
            Self::Outside(grid) => ("place-outside-grid", grid),
            Self::Unreckoned(grid) => ("grid-unreckoned", grid),
            Self::ShiftFile(grid, files) => return Message::new("grid-shift-file").text("grid", grid.clone()).text("files", files.clone()),
            Self::Turned(grid) => ("grid-turned", grid),
            Self::OfDegrees(grid) => ("grid-of-degrees", grid),
        };
        Message::new(id).text("grid", grid.clone())
    }
}

/// A zone that was typed without its half of the world was taken for a number of the register; those begin far above.
fn unknown(grid: &str) -> Message {
    let zone = grid.strip_prefix("EPSG:").unwrap_or(grid).parse::<u8>().ok().filter(|zone| (1..=60).contains(zone));
    let message = Message::new("grid-unknown").text("grid", grid).text("half", if zone.is_some() { "missing" } else { "told" });
    message.text("zone", zone.map_or_else(String::new, |zone| zone.to_string()))
}

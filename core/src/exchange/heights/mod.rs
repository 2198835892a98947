//! Heights of the ground from open formats: `.hgt` tiles, ASCII grids, GeoTIFF. Pure: bytes in, heights out.
//!
//! # References
//! The Shuttle Radar Topography Mission tile format (NASA/USGS `SRTM_Topo`); the Esri ASCII raster format; OGC 19-008r4 `GeoTIFF` 1.1.

mod ascii;
mod blocks;
mod doubt;
mod error;
mod geokeys;
mod geotiff;
mod hgt;
mod join;
mod part;
mod seam;
mod shades;
mod source;
mod vertical;
mod watched;
mod white;

#[cfg(test)]
mod tests;

use std::ops::ControlFlow;

use crate::ground::{Bounds, Heights, Lattice};

pub use doubt::{HeightsDoubt, doubted};
pub use error::{HeightsFileError, ImageFault, LineFault};
pub use join::{CommonPosts, join_heights};
pub use seam::Seam;
pub use source::{Cover, HeightSource, OtherSpacing};

/// What is wanted of a file, and what the file may leave unsaid.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WantedHeights {
    /// The area; the whole file when none is named.
    pub bounds: Option<Bounds>,
    /// In which coordinates the posts stand, for a file that does not say.
    pub lattice: Option<Lattice>,
    /// Metres in the unit of the heights, for a file that does not say.
    pub unit_m: Option<f64>,
    /// The number that stands for no height, for a file that does not say.
    pub void: Option<f64>,
    /// Where the heights come from; by the format when unknown.
    pub source: Option<HeightSource>,
    /// What covers the ground there.
    pub cover: Cover,
}

/// Told how much is read, 0 to 1; breaking stops the reading.
pub type HeightsProgress<'a> = dyn FnMut(f64) -> ControlFlow<()> + 'a;

/// Largest file that is taken, bytes. With the heights of [`crate::ground::HeightsError::TooMany`] it stays below 512 MB.
pub const MOST_BYTES: usize = 256 * 1024 * 1024;

/// The formats, told by what the bytes begin with; only `.hgt` has no mark of its own and is told by its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Format {
    Hgt,
    Ascii,
    GeoTiff,
}

/// Reads heights from a file's bytes; its name tells the corner of a `.hgt` tile.
///
/// # Units
/// Metres above the sea as the source has it; heights given in feet are turned into metres.
///
/// # Accuracy
/// Every post as the file holds it, rounded once to single precision (0.5 mm at 8000 m). The spread is that of the
/// source ([`HeightSource::spread`]), not measured from the file.
///
/// # Errors
/// [`HeightsFileError`] names what is wrong and where; nothing is taken half.
pub fn read_heights(name: &str, bytes: &[u8], wanted: &WantedHeights, progress: &mut HeightsProgress) -> Result<Heights, HeightsFileError> {
    read_part(name, bytes, wanted, progress).map(|(heights, _)| heights)
}

/// As [`read_heights`], with the share of the file's posts that lie outside of what is wanted, 0 to 1.
///
/// # Errors
/// As [`read_heights`].
pub fn read_part(
    name: &str,
    bytes: &[u8],
    wanted: &WantedHeights,
    progress: &mut HeightsProgress,
) -> Result<(Heights, f64), HeightsFileError> {
    if bytes.len() > MOST_BYTES {
        return Err(HeightsFileError::TooLarge(bytes.len()));
    }
    let format = format_of(name, bytes)?;
    let part = match format {
        Format::Hgt => hgt::read(name, bytes, wanted, progress),
        Format::Ascii => ascii::read(bytes, wanted, progress),
        Format::GeoTiff => geotiff::read(bytes, wanted, progress),
    }?;
    let by_format = if format == Format::Hgt { HeightSource::Srtm } else { HeightSource::Unknown };
    let left_out = 1.0 - part.window.posts() as f64 / part.file_posts.max(1) as f64;
    Ok((part.finish(wanted.source.unwrap_or(by_format).spread(wanted.cover))?, left_out))
}

/// Metres in the unit of heights when the file names none: what is wanted, else metres. Beside a grid in feet neither can be taken for granted.
fn unsaid_unit_m(wanted: &WantedHeights, lattice: &Lattice) -> Result<f64, HeightsFileError> {
    match (wanted.unit_m, lattice) {
        (Some(unit_m), _) => Ok(unit_m),
        (None, Lattice::Projected(grid)) if !grid.counts_metres() => Err(HeightsFileError::UnitNeeded(grid.name().into())),
        (None, _) => Ok(1.0),
    }
}

/// Whether a file may hold heights, by its name and how it begins.
#[must_use]
pub fn is_heights(name: &str, bytes: &[u8]) -> bool {
    format_of(name, bytes).is_ok()
}

fn format_of(name: &str, bytes: &[u8]) -> Result<Format, HeightsFileError> {
    let starts = |marks: &[&[u8]]| marks.iter().any(|mark| bytes.starts_with(mark));
    // II or MM, then 42, or 43 for files beyond 4 GB.
    if starts(&[b"II*\0", b"MM\0*", b"II+\0", b"MM\0+"]) {
        return Ok(Format::GeoTiff);
    }
    if name.to_ascii_lowercase().ends_with(".hgt") {
        return Ok(Format::Hgt);
    }
    if starts(&[b"PK\x03\x04", b"\x1f\x8b", b"BZh", b"7z\xbc\xaf", b"\xfd7zXZ"]) {
        return Err(HeightsFileError::Packed(name.into()));
    }
    if ascii::begins(bytes) { Ok(Format::Ascii) } else { Err(HeightsFileError::Unknown(name.into())) }
}

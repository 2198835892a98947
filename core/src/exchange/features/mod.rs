//! Lines and landmarks from open formats: bytes in, what a walker carries out.
//!
//! Every reader turns its file into shapes with tags; what they are, whether they are wanted, how pieces join and what
//! they are called is decided once, in [`gather`].

mod again;
mod area;
mod assumed;
mod by_hand;
mod cells;
mod closed;
mod course;
mod drawn;
mod encoding;
mod error;
mod far;
mod finish;
mod gather;
mod geojson;
mod geojson_fault;
mod geojson_shape;
mod geopackage;
mod gpx;
mod join;
mod kinds;
mod kml;
mod minded;
mod names;
mod onto;
mod onto_marks;
mod osm;
mod other_tags;
mod piece;
mod raster;
mod shape;
mod shared;
mod tag_heights;
mod tag_rules;
mod tags;
mod trace;
mod unfold;
mod wkb;
mod xml;

#[cfg(test)]
mod tests;
#[cfg(test)]
mod tests_again;
#[cfg(test)]
mod tests_beside;
#[cfg(test)]
mod tests_unfold;

use std::collections::{BTreeMap, BTreeSet};

use crate::earth::{Grid, LatLon, PrintedNorths};
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine, SheetDraft};

pub use area::Area;
pub use assumed::Assumed;
pub use by_hand::lay_once;
pub use error::{Fault, ImportError, Part, Record, Unread};
pub use far::{FarFile, FarRecord};
pub use gather::checked_size;
pub use geopackage::{OpenRows, Row};
pub use kinds::{LandmarkKind, LineKind};
pub use minded::Minded;
pub use onto::Added;

use gather::Gather;

/// Open formats that lines and landmarks are read from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// RFC 7946, longitude and latitude on WGS 84.
    GeoJson,
    /// GPX 1.0 and 1.1.
    Gpx,
    /// KML 2.x, unpacked.
    Kml,
    /// OGC GeoPackage 1.x: features in any grid that PROJ knows by number.
    GeoPackage,
    /// OpenStreetMap PBF.
    OsmPbf,
}

impl Format {
    /// The format of a file by how it begins.
    #[must_use]
    pub fn sniffed(bytes: &[u8]) -> Option<Self> {
        const LOOKED_AT: usize = 4096;
        let start = bytes.get(..LOOKED_AT.min(bytes.len())).unwrap_or_default();
        let text = String::from_utf8_lossy(start);
        let text = text.trim_start_matches('\u{feff}').trim_start();
        match () {
            () if start.starts_with(b"SQLite format 3\0") => Some(Self::GeoPackage),
            () if start.get(4..15) == Some(b"\x0a\x09OSMHeader") => Some(Self::OsmPbf),
            () if text.trim_start_matches('\u{1e}').starts_with('{') => Some(Self::GeoJson),
            () if !text.starts_with('<') => None,
            () if text.contains("<gpx") || text.contains(":gpx") => Some(Self::Gpx),
            () if text.contains("<kml") || text.contains(":kml") => Some(Self::Kml),
            () => None,
        }
    }

    /// The largest file that is taken, bytes. Text takes up to eight times its size while it is read.
    fn most_bytes(self) -> usize {
        match self {
            Self::GeoJson | Self::Gpx | Self::Kml => 64_000_000,
            Self::GeoPackage | Self::OsmPbf => 128_000_000,
        }
    }
}

/// A grid in which a file gives its places.
#[derive(Debug, Clone, PartialEq)]
pub struct GridUsed {
    /// The grid.
    pub grid: Grid,
    /// A place in it.
    pub at: LatLon,
    /// The layer that is in it; empty where the file has none.
    pub layer: String,
}

/// What the walker wants of a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    /// The format; found out when absent.
    pub format: Option<Format>,
    /// Only what lies in here; lines are cut at its border. Everything when absent.
    pub area: Option<Area>,
    /// Kinds of lines.
    pub lines: BTreeSet<LineKind>,
    /// Kinds of landmarks.
    pub landmarks: BTreeSet<LandmarkKind>,
    /// What a line is whose kind the file does not say.
    pub unsaid: LineKind,
    /// Most lines and landmarks together.
    pub limit: usize,
}

impl Default for Wanted {
    /// Everything, up to 20,000 lines and landmarks.
    fn default() -> Self {
        let (lines, landmarks) = (LineKind::ALL.into_iter().collect(), LandmarkKind::ALL.into_iter().collect());
        Self { format: None, area: None, lines, landmarks, unsaid: LineKind::UNSAID, limit: 20_000 }
    }
}

/// How far the reading has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Parts done: bytes, or rows of a GeoPackage.
    pub done: u64,
    /// Parts there are; 0 when that is not known. A file that is gone through twice counts twice.
    pub of: u64,
}

/// Whether to read on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Continue {
    /// Read on.
    On,
    /// Break off: nothing is taken.
    Stop,
}

/// What a file says of the sheet itself; only GeoJSON with the member `sheet` does.
#[derive(Debug, Clone, PartialEq, Default, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Header {
    /// The sheet's name.
    #[serde(default)]
    pub name: Option<String>,
    /// Definition of the grid.
    #[serde(default)]
    pub grid: Option<String>,
    /// One sigma per axis of anything drawn on the map, metres.
    #[serde(default)]
    pub position_spread_m: Option<f64>,
    /// The north diagram that the sheet prints.
    #[serde(default)]
    pub norths: Option<PrintedNorths>,
}

impl Header {
    /// Whether it says anything that a sheet has otherwise.
    #[must_use]
    pub fn differs_from(&self, draft: &SheetDraft) -> bool {
        let is_other = |own: bool, same: bool| own && !same;
        is_other(self.name.is_some(), self.name.as_ref() == Some(&draft.name))
            || is_other(self.grid.is_some(), self.grid == draft.grid)
            || is_other(self.position_spread_m.is_some(), self.position_spread_m == draft.position_spread_m)
            || is_other(self.norths.is_some(), self.norths == draft.norths)
    }
}

/// Lines and landmarks of a file, joined and named; no two lines and no two landmarks have one name.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Features {
    /// What the file says of the sheet.
    pub header: Header,
    /// Lines.
    pub lines: Vec<DraftLine>,
    /// Named points on these lines.
    pub known_points: Vec<DraftKnownPoint>,
    /// Landmarks.
    pub landmarks: Vec<DraftLandmark>,
    /// Metres above the sea by landmark, where the file states them.
    pub above_sea_m: BTreeMap<String, f64>,
    /// Records of the file, those that are left out among them.
    pub records: usize,
    /// Records of the file that were not wanted, lie outside the area or say nothing a walker can use.
    pub left_out: usize,
    /// The landmarks that state no spread.
    assumed: Assumed,
    /// What of them was not understood, or not believed.
    pub minded: Minded,
    /// The grids in which the file gives its places, one for each layer.
    pub grids: Vec<GridUsed>,
    /// What came twice in the file: taken once.
    pub already: usize,
    /// The names that the file itself gives the lines and the landmarks.
    own_names: Vec<Option<String>>,
    own_mark_names: Vec<Option<String>>,
}

impl Features {
    /// A sheet of these features alone.
    #[must_use]
    pub fn into_draft(self, name: &str) -> (SheetDraft, Added) {
        let header = self.header.clone();
        let mut draft = SheetDraft {
            name: header.name.filter(|name| !name.trim().is_empty()).unwrap_or_else(|| name.into()),
            grid: header.grid,
            position_spread_m: header.position_spread_m,
            norths: header.norths,
            ..SheetDraft::default()
        };
        let added = self.add_to(&mut draft);
        (draft, added)
    }

    /// The landmarks that state no spread.
    #[must_use]
    pub fn assumed(&self) -> Assumed {
        self.assumed
    }

    /// Adds these features to a sheet. What is there already is left out: a line of the same kind on the same ground, a landmark
    /// of the same kind and name, or without a name, within the spreads of both. A line that goes on where one of its name and
    /// kind ends becomes one with it; any other name that the sheet has already gets a number.
    pub fn add_to(self, draft: &mut SheetDraft) -> Added {
        onto::add(self, draft)
    }
}

/// Reads lines and landmarks from the bytes of a file. `open_rows` hands out the rows of a GeoPackage, which only the
/// room that knows its container can; the other formats do not ask for it.
///
/// # Accuracy
/// Places as the file states them: 1e-7 degrees against other readers (`tests/readers`).
///
/// # Errors
/// [`ImportError`] names the record that is wrong. Nothing is taken half.
///
/// # References
/// RFC 7946 (2016); GPX 1.1 schema (2004); OGC 12-007r2 KML 2.2; OGC 12-128r18 GeoPackage; OpenStreetMap wiki, "PBF Format".
pub fn read_features(
    bytes: &[u8],
    wanted: &Wanted,
    open_rows: OpenRows<'_>,
    progress: &mut dyn FnMut(Progress) -> Continue,
) -> Result<Features, ImportError> {
    let format = wanted.format.or_else(|| Format::sniffed(bytes)).ok_or(ImportError::UnknownFormat)?;
    if bytes.len() > format.most_bytes() {
        return Err(ImportError::TooLarge { bytes: bytes.len(), most: format.most_bytes() });
    }
    let mut gather = Gather::new(wanted, progress);
    match format {
        Format::GeoJson => geojson::read(bytes, &mut gather),
        Format::Gpx => gpx::read(bytes, &mut gather),
        Format::Kml => kml::read(bytes, &mut gather),
        Format::GeoPackage => geopackage::read(bytes, open_rows, &mut gather),
        Format::OsmPbf => osm::read(bytes, &mut gather),
    }?;
    gather.finish()
}

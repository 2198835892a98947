//! The records that make a sheet: typed from the paper map, or tapped on a photo of it.

use serde::Deserialize;

use super::record::PrintedRecord;
use crate::exchange::{TypedKnownPoint, TypedLandmark, TypedLine, TypedSpot};

/// A sheet by hand in [`super::Record::Sheet`].
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetRecord {
    /// When.
    pub at: Option<String>,
    /// The name of a new sheet; the open one is added to when absent.
    pub name: Option<String>,
    /// Zone and square letters that complete short references; those near the sheet when absent.
    pub beginning: Option<String>,
    /// The grid printed on the map; the UTM or UPS grid of the place when absent.
    pub grid: Option<String>,
    /// The number under the printed scale: 24000 for 1:24,000. It gives the map's own error.
    pub scale: Option<f64>,
    /// The year in which the map was made or last brought up to date.
    pub printed_year: Option<f64>,
    /// One sigma per axis of anything drawn on the map, metres; by its scale when absent.
    pub position_spread_m: Option<f64>,
    /// The north diagram in the margin.
    pub norths: Option<PrintedRecord>,
    /// Lines.
    #[serde(default)]
    pub lines: Vec<TypedLine>,
    /// Named points on lines.
    #[serde(default)]
    pub known_points: Vec<TypedKnownPoint>,
    /// Landmarks.
    #[serde(default)]
    pub landmarks: Vec<TypedLandmark>,
    /// Spot heights; they tell how far the heights of the sheet may be trusted.
    #[serde(default)]
    pub spots: Vec<TypedSpot>,
    /// Names of lines, known points and landmarks that were typed wrongly and are taken off first.
    #[serde(default)]
    pub strike: Vec<String>,
}

/// A photo of a paper map in [`super::Record::Photo`]. Pixels count to the right and down from the upper left corner.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoRecord {
    /// When; needed when lines or landmarks are given.
    pub at: Option<String>,
    /// The name of a new sheet; the open one is added to when absent.
    pub name: Option<String>,
    /// Zone and square letters that complete short references.
    pub beginning: Option<String>,
    /// The grid printed on the map; that of the sheet that is added to, else the UTM or UPS grid of the first mark, when absent.
    pub grid: Option<String>,
    /// The number under the printed scale: 24000 for 1:24,000. It gives the map's own error.
    pub scale: Option<f64>,
    /// The year in which the map was made or last brought up to date.
    pub printed_year: Option<f64>,
    /// affine (a scan, or from square above) or projective (aslant); by the number of marks when absent.
    pub kind: Option<String>,
    /// One sigma of a mark along each axis, pixels; 3 when absent.
    pub mark_spread_px: Option<f64>,
    /// Grid crossings that were marked.
    pub marks: Vec<PhotoMarkRecord>,
    /// Lines, tapped point by point.
    #[serde(default)]
    pub lines: Vec<PhotoLineRecord>,
    /// Named points on lines.
    #[serde(default)]
    pub known_points: Vec<PhotoKnownPointRecord>,
    /// Landmarks.
    #[serde(default)]
    pub landmarks: Vec<PhotoLandmarkRecord>,
    /// Places that are only asked for.
    #[serde(default)]
    pub taps: Vec<TapRecord>,
}

/// A marked grid crossing.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoMarkRecord {
    /// Pixels from the left edge.
    pub x_px: f64,
    /// Pixels from the upper edge.
    pub y_px: f64,
    /// Its grid reference: the square whose south-western corner it is, or coordinates.
    pub crossing: String,
}

/// A spot of the photo.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TapRecord {
    /// Pixels from the left edge.
    pub x_px: f64,
    /// Pixels from the upper edge.
    pub y_px: f64,
}

/// A line on the photo.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoLineRecord {
    /// Its name.
    pub name: String,
    /// road, track, path, creek, ridge or fence; a track when absent.
    pub kind: Option<String>,
    /// Its points, in the line's direction.
    pub taps: Vec<TapRecord>,
}

/// A named point of a line on the photo.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoKnownPointRecord {
    /// Its name.
    pub name: String,
    /// The line it lies on.
    pub on: String,
    /// Where.
    pub tap: TapRecord,
}

/// A landmark on the photo.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoLandmarkRecord {
    /// Its name.
    pub name: String,
    /// What it is: summit, mast, church.
    pub kind: Option<String>,
    /// Where.
    pub tap: TapRecord,
    /// Height of its top above the ground, metres.
    pub height_m: Option<f64>,
}

impl PhotoRecord {
    /// Whether nothing of it is kept.
    #[must_use]
    pub fn only_asks(&self) -> bool {
        self.name.is_none() && self.lines.is_empty() && self.known_points.is_empty() && self.landmarks.is_empty()
    }
}

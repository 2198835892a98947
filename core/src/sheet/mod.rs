//! Floor 4. What the walker carries of the area: lines, landmarks and the paper's grid.

mod bends;
mod draft;
mod folded;
mod junctions;
mod known;
mod line;
mod paper;
mod photo;
mod placed;
mod reach;
mod ring;
mod seen;
mod spots;

use std::sync::OnceLock;

use crate::earth::{Grid, GridError, LatLon, LocalFrame, MagneticError, Norths, PrintedFault, PrintedNorths, PrintedReport, Terms};
use crate::ground::HeightUnit;
use crate::measure::{Message, Point, Telling};

pub use draft::{DraftKnownPoint, DraftLandmark, DraftLine, LEVEL_ALONE, REACH_M, SheetDraft};
pub use folded::folded;
pub use junctions::{Junction, JunctionKind, junctions};
pub use known::KnownPlace;
pub use line::{Along, KnownPoint, Line, LinePlace};
pub use paper::Paper;
pub use photo::{PhotoCaution, PhotoError, PhotoFit, PhotoKind, PhotoMark, PhotoPlace, PhotoResidual, PhotoTerms};
pub use seen::{EYE_M, LANDFORMS_WITHIN_M, MOST_CLIFFS, MoreCliffs, MoreOfKind, SeenFrom, SeenLandmark};
pub use spots::{Spot, SpotCheck};

/// Position error of a map, one sigma per axis in metres, when the sheet states none.
///
/// # References
/// US National Map Accuracy Standards (1947): 90 % of well-defined points within 1/50 inch at
/// 1:20,000 and smaller; at 1:24,000 that is 12.2 m, and 12.2 m / 2.146 = 5.7 m a sigma per axis.
pub const MAP_SPREAD_M: f64 = 5.7;

/// A feature that can be sighted.
#[derive(Debug, Clone, PartialEq)]
pub struct Landmark {
    /// Its name on the sheet.
    pub name: String,
    /// What it is: summit, mast, church.
    pub kind: String,
    /// Its place in the sheet's plane.
    pub at: Point,
    /// One sigma per axis of that place, metres, the map's own error included.
    pub spread_m: f64,
    /// Height of its top above the ground, metres, when it is known.
    pub height_m: Option<f64>,
}

/// The sheet: everything of the area that the walker carries, in one plane of metres.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// The sheet's name.
    pub name: String,
    /// The grid printed on it.
    pub grid: Grid,
    /// The plane in which everything below is given.
    pub frame: LocalFrame,
    /// One sigma per axis of anything drawn on the map, metres.
    pub spread_m: f64,
    /// The north diagram that it prints.
    pub printed: Option<PrintedNorths>,
    /// Roads, tracks, creeks, ridges.
    pub lines: Vec<Line>,
    /// What can be sighted.
    pub landmarks: Vec<Landmark>,
    /// What the paper prints beside the map, its spot heights, and whom to name.
    pub paper: Paper,
    /// What is made out of the lines once it is asked for: they do not change after that.
    pub(crate) made_out: MadeOut,
}

/// Where lines meet, and what of them has a name.
#[derive(Debug, Clone, Default)]
pub(crate) struct MadeOut {
    junctions: OnceLock<Vec<Junction>>,
    known_places: OnceLock<Vec<KnownPlace>>,
}

/// Why a sheet cannot be used as it was given, or what it lacks.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SheetError {
    /// Neither a line nor a landmark: nothing tells where it lies.
    #[error("sheet-place-needed")]
    Empty,
    /// A fix on a line is asked for, and there is none.
    #[error("sheet-without-line")]
    WithoutLine,
    /// A line of fewer than two different points.
    #[error("line-too-short")]
    LineTooShort(String),
    /// Two lines or two landmarks of the same name.
    #[error("name-twice")]
    NameTwice(String),
    /// The printed north diagram cannot be.
    #[error("printed-norths-unreadable")]
    Norths(PrintedFault),
    /// Something stands more than 300 km from the sheet's middle.
    #[error("sheet-too-wide")]
    TooWide(String),
    /// The grid does not reach the sheet.
    #[error("place-outside-grid")]
    Grid(GridError),
    /// The sheet lies at a pole, where the plane of the declination does not hold.
    #[error("sheet-at-pole")]
    AtPole,
    /// A named point lies far from the line it is said to be on.
    #[error("known-point-off-line")]
    OffLine(String),
    /// No line of this name.
    #[error("line-unknown")]
    LineUnknown {
        /// The name asked for.
        name: String,
        /// The names there are.
        known: String,
    },
    /// Several lines, and none was named.
    #[error("line-needed")]
    LineNeeded(String),
    /// No landmark of this name.
    #[error("landmark-unknown")]
    LandmarkUnknown {
        /// The name asked for.
        name: String,
        /// The names there are.
        known: String,
    },
}

impl Telling for SheetError {
    fn message(&self) -> Message {
        let named = |id, name: &String| Message::new(id).text("name", name.clone());
        match self {
            Self::Empty => Message::new("sheet-place-needed"),
            Self::WithoutLine => Message::new("sheet-without-line"),
            Self::Norths(fault) => fault.message(),
            Self::AtPole => Message::new("sheet-at-pole"),
            Self::Grid(error) => error.message(),
            Self::LineTooShort(name) => named("line-too-short", name),
            Self::NameTwice(name) => named("name-twice", name),
            Self::TooWide(name) => named("sheet-too-wide", name),
            Self::OffLine(name) => named("known-point-off-line", name),
            Self::LineUnknown { name, known } => of_those_there(named("line-unknown", name), known),
            Self::LandmarkUnknown { name, known } => of_those_there(named("landmark-unknown", name), known),
            Self::LineNeeded(known) => Message::new("line-needed").text("known", known.clone()),
        }
    }
}

impl Sheet {
    /// The sheet that a draft describes.
    ///
    /// # Errors
    /// [`SheetError`] names the line or landmark that is wrong.
    pub fn build(draft: &SheetDraft) -> Result<Self, SheetError> {
        draft::build(draft)
    }

    /// The line of this name, or the only one when none is named. Case is ignored.
    ///
    /// # Errors
    /// [`SheetError::LineUnknown`], [`SheetError::LineNeeded`].
    pub fn line(&self, name: Option<&str>) -> Result<&Line, SheetError> {
        let Some(name) = name else {
            return match self.lines.as_slice() {
                [] => Err(SheetError::WithoutLine),
                [only] => Ok(only),
                _ => Err(SheetError::LineNeeded(self.line_names())),
            };
        };
        let found = self.lines.iter().find(|line| same_name(&line.name, name));
        found.ok_or_else(|| SheetError::LineUnknown { name: name.into(), known: self.line_names() })
    }

    /// A line, and after it the pieces of which it has the name of the whole.
    pub fn whole<'a>(&'a self, line: &'a Line) -> impl Iterator<Item = &'a Line> {
        let is_piece = |other: &&Line| other.part_of.as_deref().is_some_and(|whole| same_name(whole, &line.name));
        std::iter::once(line).chain(self.lines.iter().filter(move |other| is_piece(other)))
    }

    /// The landmark of this name. Case is ignored.
    ///
    /// # Errors
    /// [`SheetError::LandmarkUnknown`] with the names there are.
    pub fn landmark(&self, name: &str) -> Result<&Landmark, SheetError> {
        let found = self.landmarks.iter().find(|landmark| same_name(&landmark.name, name));
        found.ok_or_else(|| SheetError::LandmarkUnknown { name: name.into(), known: names(self.landmarks.iter().map(|l| &l.name)) })
    }

    /// For each of these landmarks that was sighted, the nearest other of its name, of which all but the first have a number at the end, that
    /// was not sighted too: who took the one may have seen the other. With how far they lie apart, metres.
    #[must_use]
    pub fn namesakes<'a>(&'a self, sighted: &[&str]) -> Vec<(&'a Landmark, &'a Landmark, f64)> {
        let without_number = |name: &'a str| match name.trim().rsplit_once(' ') {
            Some((base, number)) if number.parse::<u32>().is_ok() && self.landmark(base).is_ok() => base,
            _ => name,
        };
        let is_sighted = |name: &str| sighted.iter().any(|other| same_name(other, name));
        let namesake = |one: &'a Landmark| {
            let base = without_number(&one.name);
            let others = self.landmarks.iter().filter(|other| same_name(without_number(&other.name), base) && !is_sighted(&other.name));
            others.map(|other| (one, other, other.at.minus(one.at).length_m())).min_by(|a, b| a.2.total_cmp(&b.2))
        };
        self.landmarks.iter().filter(|one| is_sighted(&one.name)).filter_map(namesake).collect()
    }

    /// The three norths over the sheet on a date; outside the model's dates by the printed diagram, see [`Norths::on_any_date`].
    ///
    /// # Errors
    /// [`MagneticError`] when the build is at fault.
    pub fn norths(&self, date: chrono::NaiveDate) -> Result<Norths, MagneticError> {
        Norths::on_any_date(self.frame, self.grid.clone(), date, self.printed.as_ref())
    }

    /// The printed north diagram on a date, held against the model at the sheet's middle; nothing when none is printed.
    #[must_use]
    pub fn printed_norths(&self, date: chrono::NaiveDate) -> Option<PrintedReport> {
        let convergence_deg = self.grid.factors(self.frame.origin()).map_or(0.0, |factors| factors.convergence_deg);
        Some(self.printed?.report(self.frame.origin(), convergence_deg, date.into()))
    }

    /// The reference of a place as the sheet writes it, with so many digits (2 to 10).
    #[must_use]
    pub fn reference(&self, at: LatLon, digits: u8) -> String {
        self.grid.reference(at, digits)
    }

    /// What completes a place that is typed from this sheet: the zone of its references, else of its grid, else of its middle.
    #[must_use]
    pub fn terms(&self) -> Terms<'_> {
        Terms { beginning: None, grid: Some(&self.grid), near: Some(self.frame.origin()), zone: self.paper.zone(), names: Some(self) }
    }

    /// The unit in which the map writes heights: that of its grid.
    #[must_use]
    pub fn height_unit(&self) -> HeightUnit {
        let scale = self.grid.factors(self.frame.origin()).map_or(1.0, |factors| factors.scale);
        if FEET_PER_M.contains(&scale) { HeightUnit::Feet } else { HeightUnit::Metres }
    }

    /// Whether a landmark is one of the sheet's own.
    #[must_use]
    pub fn holds(&self, landmark: &Landmark) -> bool {
        self.landmarks.contains(landmark)
    }

    /// A point of the sheet on the earth.
    #[must_use]
    pub fn to_earth(&self, point: Point) -> LatLon {
        self.frame.to_earth(point)
    }

    fn line_names(&self) -> String {
        names(self.lines.iter().map(|line| &line.name))
    }
}

/// A message with the names that there are, if any.
pub fn of_those_there(message: Message, known: &str) -> Message {
    message.text("known", known).text("has", if known.is_empty() { "no" } else { "yes" })
}

/// Grid units per metre of a grid in feet, the scale of its projection included.
const FEET_PER_M: std::ops::Range<f64> = 3.2..3.4;

fn same_name(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

/// The first names of a list, as a person reads them.
fn names<'a>(all: impl Iterator<Item = &'a String>) -> String {
    const SHOWN: usize = 8;
    let all: Vec<&str> = all.map(String::as_str).collect();
    let shown = all.get(..SHOWN.min(all.len())).unwrap_or_default().join(", ");
    if all.len() > SHOWN { format!("{shown}, …") } else { shown }
}

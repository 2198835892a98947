//! A sheet as it is read or typed: places on the earth, before the plane is laid.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{KnownPoint, Landmark, Line, MAP_SPREAD_M, MadeOut, Paper, Sheet, SheetError};
use crate::earth::{Grid, LatLon, LocalFrame, PrintedNorths};
use crate::measure::{Point, in_parts};

/// A sheet as read from a file. This is also the shape in which the logbook keeps it.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct SheetDraft {
    /// The sheet's name.
    pub name: String,
    /// Definition of the grid; when absent the UTM grid of the zone with which the references begin, else that of the place.
    #[serde(default)]
    pub grid: Option<String>,
    /// One sigma per axis of anything drawn on the map, metres.
    #[serde(default)]
    pub position_spread_m: Option<f64>,
    /// The north diagram that the sheet prints.
    #[serde(default)]
    pub norths: Option<PrintedNorths>,
    /// Roads, tracks, creeks, ridges.
    pub lines: Vec<DraftLine>,
    /// Named points on lines.
    pub known_points: Vec<DraftKnownPoint>,
    /// What can be sighted.
    pub landmarks: Vec<DraftLandmark>,
    /// What the paper prints beside the map, its spot heights, and whom to name.
    #[serde(default)]
    pub paper: Paper,
}

/// A line of a [`SheetDraft`].
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct DraftLine {
    /// Its name.
    pub name: String,
    /// road, track, path, creek, ridge or fence.
    pub kind: String,
    /// Latitude and longitude of its points in degrees, in the line's direction.
    pub points: Vec<(f64, f64)>,
    /// One sigma per axis that comes from how the points were given, metres.
    pub spread_m: f64,
    /// The level on which each straight piece runs: 0 on the ground, above it on a bridge, below it in a tunnel; [`LEVEL_ALONE`] more where
    /// neither is said. Empty where all are on the ground.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub levels: Vec<i8>,
    /// The name of the whole of which it is a piece, where its own is that name with a number: a file leaves a gap, or the way branches.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part_of: Option<String>,
    /// Whether its file says by common points where it meets another line of that file, so that an end beside one meets nothing.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub noded: bool,
}

/// A named point on a line of a [`SheetDraft`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DraftKnownPoint {
    /// Its name.
    pub name: String,
    /// The line it lies on.
    pub on: String,
    /// Latitude and longitude in degrees.
    pub at: (f64, f64),
}

/// A landmark of a [`SheetDraft`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DraftLandmark {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: String,
    /// Latitude and longitude in degrees.
    pub at: (f64, f64),
    /// One sigma per axis of its place, metres, without the map's own error.
    pub spread_m: f64,
    /// Height of its top above the ground, metres, when it is known.
    #[serde(default)]
    pub height_m: Option<f64>,
}

/// So much is added to a level of which nobody says by what the way runs there: no bridge, no tunnel.
pub const LEVEL_ALONE: i8 = 32;

/// Nearer to a pole than this the declination turns too fast for a plane, degrees.
const MOST_LATITUDE_DEG: f64 = 89.0;
/// A named point farther from its line than this is a mistake, metres.
const MOST_OFF_LINE_M: f64 = 300.0;
/// Farther from the middle than this the plane is no longer a map, metres.
pub const REACH_M: f64 = 300_000.0;

pub(super) fn build(draft: &SheetDraft) -> Result<Sheet, SheetError> {
    check_names(draft)?;
    let origin = middle(draft).ok_or(SheetError::Empty)?;
    if origin.lat_deg().abs() > MOST_LATITUDE_DEG {
        return Err(SheetError::AtPole);
    }
    let frame = LocalFrame::around(origin);
    let grid = draft.grid.as_deref().map_or_else(|| Ok(unnamed_grid(draft, origin)), Grid::named).map_err(SheetError::Grid)?;
    grid.serves(origin).map_err(SheetError::Grid)?;
    let spread_m = draft.position_spread_m.or(draft.paper.spread_m()).unwrap_or(MAP_SPREAD_M);
    // Two thirds of the time in which a sheet opens go into this.
    let points = draft.lines.iter().map(|line| line.points.len()).sum::<usize>() / draft.lines.len().max(1);
    let lines = in_parts(&draft.lines, points, |part| part.iter().map(|line| build_line(draft, line, &frame, spread_m)).collect());
    let lines: Result<Vec<Vec<Line>>, SheetError> = lines.into_iter().collect();
    let landmarks: Result<Vec<Landmark>, SheetError> = draft.landmarks.iter().map(|mark| build_landmark(mark, &frame, spread_m)).collect();
    if let Some(fault) = draft.norths.and_then(|norths| norths.fault()) {
        return Err(SheetError::Norths(fault));
    }
    let (name, paper) = (draft.name.clone(), draft.paper.clone());
    Ok(Sheet {
        name,
        grid,
        frame,
        spread_m,
        printed: draft.norths,
        lines: lines?.into_iter().flatten().collect(),
        landmarks: landmarks?,
        paper,
        made_out: MadeOut::default(),
    })
}

/// The grid of a sheet for which none was named: of the zone in which its references are counted, where that reaches it.
fn unnamed_grid(draft: &SheetDraft, origin: LatLon) -> Grid {
    let counted = draft.paper.zone().map(|zone| Grid::of_zone(zone, origin)).filter(|grid| grid.serves(origin).is_ok());
    counted.unwrap_or_else(|| Grid::of_place(origin))
}

fn check_names(draft: &SheetDraft) -> Result<(), SheetError> {
    let mut seen = BTreeSet::new();
    let lines = draft.lines.iter().map(|line| (String::new(), &line.name));
    let known = draft.known_points.iter().map(|known| (known.on.trim().to_lowercase(), &known.name));
    let landmarks = draft.landmarks.iter().map(|landmark| (String::from("\n"), &landmark.name));
    for (among, name) in lines.chain(known).chain(landmarks) {
        if !seen.insert((among, name.trim().to_lowercase())) {
            return Err(SheetError::NameTwice(name.clone()));
        }
    }
    Ok(())
}

/// The middle of all lines' bounding box in latitude and longitude, without a line that of the landmarks; longitudes count
/// from the first point.
fn middle(draft: &SheetDraft) -> Option<LatLon> {
    let mut points: Vec<(f64, f64)> = draft.lines.iter().flat_map(|line| line.points.iter().copied()).collect();
    if points.is_empty() {
        points.extend(draft.landmarks.iter().map(|mark| mark.at));
    }
    let (_, first_lon) = *points.first()?;
    let near = |lon: f64| first_lon + (lon - first_lon + 180.0).rem_euclid(360.0) - 180.0;
    let span = |values: &mut dyn Iterator<Item = f64>| {
        let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        f64::midpoint(low, high)
    };
    let lat = span(&mut points.iter().map(|(lat, _)| *lat));
    let lon = span(&mut points.iter().map(|(_, lon)| near(*lon)));
    Some(LatLon::computed(lat, lon))
}

fn in_plane(frame: &LocalFrame, at: (f64, f64), name: &str) -> Result<Point, SheetError> {
    let point = frame.to_plane(LatLon::computed(at.0, at.1));
    if point.length_m() <= REACH_M { Ok(point) } else { Err(SheetError::TooWide(name.into())) }
}

fn build_line(draft: &SheetDraft, line: &DraftLine, frame: &LocalFrame, map_spread_m: f64) -> Result<Line, SheetError> {
    let points: Result<Vec<Point>, SheetError> = line.points.iter().map(|at| in_plane(frame, *at, &line.name)).collect();
    let spread_m = line.spread_m.hypot(map_spread_m);
    let mut built = Line::on_levels(&line.name, &line.kind, points?, &line.levels, spread_m)
        .ok_or_else(|| SheetError::LineTooShort(line.name.clone()))?;
    (built.part_of, built.noded) = (line.part_of.clone(), line.noded);
    for known in draft.known_points.iter().filter(|known| super::same_name(&known.on, &line.name)) {
        let point = in_plane(frame, known.at, &known.name)?;
        let nearest = built.nearest(point);
        if nearest.at.minus(point).length_m() > MOST_OFF_LINE_M {
            return Err(SheetError::OffLine(known.name.clone()));
        }
        let along_m = nearest.along_m;
        built.known_points.push(KnownPoint { name: known.name.clone(), along_m });
    }
    built.known_points.sort_by(|a, b| a.along_m.total_cmp(&b.along_m));
    Ok(built)
}

fn build_landmark(mark: &DraftLandmark, frame: &LocalFrame, map_spread_m: f64) -> Result<Landmark, SheetError> {
    Ok(Landmark {
        name: mark.name.clone(),
        kind: mark.kind.clone(),
        at: in_plane(frame, mark.at, &mark.name)?,
        spread_m: mark.spread_m.hypot(map_spread_m),
        height_m: mark.height_m,
    })
}

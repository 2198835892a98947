//! The last step of every reading: join, name, put known points on their lines, count.

use std::collections::BTreeMap;

use super::error::{Fault, ImportError};
use super::gather::{Gather, Mark, On, Piece};
use super::kinds::LandmarkKind;
use super::names::{Given, all, compared};
use super::shape::{Pos, metres_from};
use super::{Features, join};
use crate::earth::Grid;
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine};

/// A waypoint of which nothing is said is a known point of a line nearer than this, metres: about one spread of a
/// receiver on both (common practice, no source).
const ON_LINE_M: f64 = 10.0;

pub(super) fn finish(mut gather: Gather<'_>) -> Result<Features, ImportError> {
    if let Some(grid) = &gather.header.grid {
        Grid::named(grid).map_err(ImportError::Grid)?;
    }
    let (pieces, marks) = (std::mem::take(&mut gather.pieces), std::mem::take(&mut gather.marks));
    let pieces = join::join(pieces);
    if pieces.len() + marks.len() > gather.wanted.limit {
        return Err(ImportError::TooMany { most: gather.wanted.limit });
    }
    let named: Vec<(Option<&str>, &str)> = pieces.iter().map(|piece| (piece.name.as_deref(), piece.word.as_str())).collect();
    let names = all(&mut Given::default(), &named);
    let mut lines: Vec<Placed> = pieces.iter().zip(names).map(|(piece, name)| Placed { name, piece, given: Given::default() }).collect();
    let mut features = Features { left_out: gather.left_out, ..Features::default() };
    let mut landmarks = Vec::new();
    for (index, mark) in marks.into_iter().enumerate() {
        if index.is_multiple_of(16) {
            gather.tick(index as u64, 0)?;
        }
        match place(&mut lines, &mark)? {
            Some(known) => features.known_points.push(known),
            None if mark.on == On::IfNear && !gather.wanted.landmarks.contains(&LandmarkKind::Landmark) => features.left_out += 1,
            None => landmarks.push(mark),
        }
    }
    features.lines = lines.into_iter().map(Placed::into_draft).collect();
    take_landmarks(landmarks, &mut features);
    features.header = gather.header;
    Ok(features)
}

/// A line with its name, and the names of its known points.
struct Placed<'a> {
    name: String,
    piece: &'a Piece,
    given: Given,
}

impl Placed<'_> {
    fn into_draft(self) -> DraftLine {
        let piece = self.piece;
        DraftLine { name: self.name, kind: piece.word.clone(), points: piece.points.clone(), spread_m: piece.spread_m, levels: Vec::new() }
    }

    /// How far a place is from the line, metres; infinite when it is clearly farther than `within_m`.
    fn distance_m(&self, at: Pos, within_m: f64) -> f64 {
        let metres: Vec<(f64, f64)> = self.piece.points.iter().map(|point| metres_from(at, *point)).collect();
        let distance = |pair: &[(f64, f64)]| match pair {
            [a, b] => to_segment(*a, *b, within_m),
            _ => f64::INFINITY,
        };
        metres.windows(2).map(distance).fold(f64::INFINITY, f64::min)
    }
}

/// From the origin to a straight piece, metres.
fn to_segment(a: (f64, f64), b: (f64, f64), within_m: f64) -> f64 {
    let beside = |a: f64, b: f64| a.min(b) > within_m || a.max(b) < -within_m;
    if beside(a.0, b.0) || beside(a.1, b.1) {
        return f64::INFINITY;
    }
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let share = (-(a.0 * dx + a.1 * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
    let share = if share.is_finite() { share } else { 0.0 };
    (a.0 + dx * share).hypot(a.1 + dy * share)
}

/// The known point that a mark is, if it is one.
fn place(lines: &mut [Placed<'_>], mark: &Mark) -> Result<Option<DraftKnownPoint>, ImportError> {
    let (within_m, named) = match &mark.on {
        On::Nothing => return Ok(None),
        On::Line(name) => (f64::MAX, Some(compared(name))),
        On::IfNear => (ON_LINE_M, None),
    };
    let candidates = lines.iter_mut().filter(|line| match &named {
        Some(name) => line.piece.name.as_deref().is_some_and(|own| compared(own) == *name) || compared(&line.name) == *name,
        None => true,
    });
    let measured = candidates.map(|line| (line.distance_m(mark.at, within_m), line));
    let nearest = measured.filter(|(distance, _)| *distance <= within_m).min_by(|a, b| a.0.total_cmp(&b.0));
    match (nearest, named) {
        (Some((_, line)), _) => {
            let name = match mark.name.as_deref() {
                Some(name) => line.given.unlike(name),
                None => line.given.invented("point"),
            };
            Ok(Some(DraftKnownPoint { name, on: line.name.clone(), at: mark.at }))
        }
        (None, Some(_)) => Err(mark.record.clone().fault(Fault::OnNoLine)),
        (None, None) => Ok(None),
    }
}

fn take_landmarks(marks: Vec<Mark>, features: &mut Features) {
    let named: Vec<(Option<&str>, &str)> = marks.iter().map(|mark| (mark.name.as_deref(), mark.word.as_str())).collect();
    let names = all(&mut Given::default(), &named);
    let mut above_sea_m = BTreeMap::new();
    for (mark, name) in marks.into_iter().zip(names) {
        if let Some(height_m) = mark.above_sea_m {
            above_sea_m.insert(name.clone(), height_m);
        }
        let Mark { word: kind, at, spread_m, height_m, .. } = mark;
        features.landmarks.push(DraftLandmark { name, kind, at, spread_m, height_m });
    }
    features.above_sea_m = above_sea_m;
}

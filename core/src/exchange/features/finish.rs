//! The last step of every reading: join, name, put known points on their lines, count.

use std::collections::{BTreeMap, HashMap};

use super::Features;
use super::error::{Fault, ImportError};
use super::gather::{Gather, Mark, On};
use super::join;
use super::kinds::LandmarkKind;
use super::minded::Minded;
use super::names::{Given, all, compared};
use super::piece::Piece;
use super::shape::{distance_m, from_line_m};
use super::shared;
use crate::earth::Grid;
use crate::sheet::{DraftKnownPoint, DraftLandmark, DraftLine};

/// A waypoint of which nothing is said is a known point of a line nearer than this, metres: about one spread of a
/// receiver on both (common practice, no source).
const ON_LINE_M: f64 = 10.0;

/// Landmarks of a kind and name are one when they stand in the very same point, metres.
const SAME_M: f64 = 1e-4;
/// Of so many alike the last are looked at, so that a file made to take time cannot.
const MOST_ALIKE: usize = 1000;

pub(super) fn finish(mut gather: Gather<'_>) -> Result<Features, ImportError> {
    let header = gather.header.take().unwrap_or_default();
    if let Some(grid) = &header.grid {
        Grid::named(grid).map_err(ImportError::Grid)?;
    }
    let (pieces, marks) = (std::mem::take(&mut gather.pieces), std::mem::take(&mut gather.marks));
    let (pieces, mut again) = shared::once(pieces, &mut gather.minded);
    let pieces = join::join(pieces, &|_, _| true);
    tell_pieces(&pieces, &mut gather.minded);
    let marks = once(marks, &mut again);
    if pieces.len() + marks.len() > gather.wanted.limit {
        return Err(ImportError::TooManyTogether { lines: pieces.len(), landmarks: marks.len(), most: gather.wanted.limit });
    }
    let named: Vec<(Option<&str>, &str)> = pieces.iter().map(|piece| (piece.name.as_deref(), piece.word.as_str())).collect();
    let names = all(&mut Given::default(), &named);
    let mut lines: Vec<Placed> = pieces.iter().zip(names).map(|(piece, name)| Placed { name, piece, given: Given::default() }).collect();
    for (piece, Placed { name, .. }) in
        pieces.iter().zip(&lines).filter(|(piece, _)| piece.was.iter().any(|line| gather.unsaid.contains(line)))
    {
        gather.minded.unsaid_line(name.clone(), &piece.word);
        if let (None, Some(at)) = (&piece.name, piece.points.get(piece.points.len() / 2)) {
            gather.minded.invented_line(name, *at);
        }
    }
    let (records, left_out, assumed) = (gather.records, gather.left_out, gather.assumed);
    let mut features = Features { records, left_out, assumed, minded: std::mem::take(&mut gather.minded), ..Features::default() };
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
    features.own_names = pieces.iter().map(|piece| piece.name.clone()).collect();
    features.already = again;
    features.lines = lines.into_iter().map(Placed::into_draft).collect();
    take_landmarks(landmarks, &mut features);
    features.grids = gather.grids;
    features.header = header;
    Ok(features)
}

/// Tells which lines lie in several pieces.
fn tell_pieces(pieces: &[Piece], minded: &mut Minded) {
    let names = pieces.iter().filter_map(|piece| piece.name.as_deref());
    several(names).for_each(|(name, pieces)| minded.in_pieces(name, pieces));
}

/// The names that several have, and how many.
fn several<'a>(names: impl Iterator<Item = &'a str>) -> impl Iterator<Item = (&'a str, usize)> {
    let mut count: BTreeMap<String, (&str, usize)> = BTreeMap::new();
    for name in names {
        count.entry(compared(name)).or_insert((name, 0)).1 += 1;
    }
    count.into_values().filter(|(_, several)| *several > 1)
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
        DraftLine {
            kind: piece.word.clone(),
            points: piece.points.clone(),
            spread_m: piece.spread_m,
            levels: piece.levels.clone(),
            part_of: piece.part_of(&self.name),
            noded: piece.noded,
            name: self.name,
        }
    }
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
    let measured = candidates.map(|line| (from_line_m(mark.at, &line.piece.points, within_m), line));
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

/// Takes a landmark once that stands in the very same point as another of its kind and name.
fn once(marks: Vec<Mark>, again: &mut usize) -> Vec<Mark> {
    let mut kept: Vec<Mark> = Vec::with_capacity(marks.len());
    let mut alike: HashMap<(Option<String>, String), Vec<usize>> = HashMap::new();
    for mark in marks {
        let known = alike.entry((mark.name.as_deref().map(compared), mark.word.clone())).or_default();
        let is_it = |other: &Mark| other.on == mark.on && distance_m(other.at, mark.at) <= SAME_M;
        if known.iter().rev().take(MOST_ALIKE).filter_map(|index| kept.get(*index)).any(is_it) {
            *again += 1;
        } else {
            known.push(kept.len());
            kept.push(mark);
        }
    }
    kept
}

fn take_landmarks(marks: Vec<Mark>, features: &mut Features) {
    let named: Vec<(Option<&str>, &str)> = marks.iter().map(|mark| (mark.name.as_deref(), mark.word.as_str())).collect();
    let names = all(&mut Given::default(), &named);
    several(marks.iter().filter_map(|mark| mark.name.as_deref())).for_each(|(name, count)| features.minded.same_name(name, count));
    for (mark, name) in marks.iter().zip(&names).filter(|(mark, _)| mark.name.is_none() && mark.word == LandmarkKind::Landmark.word()) {
        features.minded.unnamed(name, mark.at);
    }
    features.own_mark_names = marks.iter().map(|mark| mark.name.clone()).collect();
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

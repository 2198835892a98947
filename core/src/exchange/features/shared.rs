//! What lines of one file have in common, point by point: two records draw one road, or a route runs over it. What only runs beside
//! another line stays, for a file of two ways side by side knows better.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::drawn::Stretch;
use super::minded::Minded;
use super::names::compared;
use super::piece::Piece;
use super::shape::{Pos, distance_m};

/// Of lines with more points than this together only whole copies are looked for, so that a file made to take memory cannot.
const MOST_POINTS: usize = 500_000;

/// A point by the bits of its latitude and longitude.
type Point = (u64, u64);
/// A straight piece by its two points, whichever way it runs, the line that has it and its number there.
type Edge = ((Point, Point), usize, usize);

/// Takes each way once: a piece with the points of another of its name and kind, whichever way it runs, is that one; of two that have
/// straight pieces in common the later is left without them, and one without a name without those that one with a name has. Lines of
/// two names stay whole, which is told. How many pieces were others again.
pub(super) fn once(pieces: Vec<Piece>, minded: &mut Minded) -> (Vec<Piece>, usize) {
    let (kept, again) = whole_once(pieces);
    if kept.iter().map(|piece| piece.points.len()).sum::<usize>() > MOST_POINTS {
        return (kept, again);
    }
    let edges = edges(&kept);
    let known = known(&kept, &edges, minded);
    let mut others = again;
    let mut left = Vec::with_capacity(kept.len());
    for (number, piece) in kept.into_iter().enumerate() {
        let Some(known) = known.get(&number) else {
            left.push(piece);
            continue;
        };
        let stretches = without(&piece.points, known);
        if stretches.is_empty() {
            others += 1;
        } else {
            minded.shared(piece.name.as_deref().unwrap_or(&piece.word));
        }
        left.extend(stretches.into_iter().map(|stretch| piece.stretch(stretch)));
    }
    (left, others)
}

/// Tells of lines of two names over the same ground, and takes nothing off.
pub(super) fn tell_in_common(pieces: &[Piece], minded: &mut Minded) {
    if pieces.iter().map(|piece| piece.points.len()).sum::<usize>() <= MOST_POINTS {
        known(pieces, &edges(pieces), minded);
    }
}

/// A piece by its name, its kind and the bits of its points.
type Way = (Option<String>, String, Vec<Point>);

fn whole_once(pieces: Vec<Piece>) -> (Vec<Piece>, usize) {
    let whole = pieces.len();
    let mut known: HashSet<Way> = HashSet::new();
    let mut is_new = |piece: &Piece| {
        let way: Vec<Point> = piece.points.iter().map(bits).collect();
        let back: Vec<Point> = way.iter().rev().copied().collect();
        known.insert((piece.name.as_deref().map(compared), piece.word.clone(), way.min(back)))
    };
    let kept: Vec<Piece> = pieces.into_iter().filter(|piece| is_new(piece)).collect();
    let again = whole - kept.len();
    (kept, again)
}

fn bits((lat, lon): &Pos) -> Point {
    (lat.to_bits(), lon.to_bits())
}

/// All straight pieces, those between the same points next to each other, the earlier line first.
fn edges(pieces: &[Piece]) -> Vec<Edge> {
    let of_pair = |pair: &[Pos]| {
        let (a, b) = pair.first().zip(pair.last()).map_or_else(Default::default, |(a, b)| (bits(a), bits(b)));
        (a.min(b), a.max(b))
    };
    let of_piece = |(line, piece): (usize, &Piece)| {
        piece.points.windows(2).enumerate().map(|(number, pair)| (of_pair(pair), line, number)).collect::<Vec<Edge>>()
    };
    let mut edges: Vec<Edge> = pieces.iter().enumerate().flat_map(of_piece).collect();
    edges.sort_unstable();
    edges
}

/// For each line the numbers of its straight pieces that another has taken.
fn known(pieces: &[Piece], edges: &[Edge], minded: &mut Minded) -> HashMap<usize, HashSet<usize>> {
    let own = |line: usize| pieces.get(line).map(|piece| (piece.name.as_deref().map(compared), piece.word.as_str()));
    let mut known: HashMap<usize, HashSet<usize>> = HashMap::new();
    let mut in_common: BTreeMap<(usize, usize), f64> = BTreeMap::new();
    for same in edges.chunk_by(|a, b| a.0 == b.0).filter(|same| same.len() > 1) {
        for (position, (_, line, number)) in same.iter().enumerate() {
            let others = || same.iter().enumerate().filter(|(_, (_, other, _))| other != line);
            let has_it = |(place, (_, other, _)): (usize, &Edge)| match (own(*other), own(*line)) {
                (Some((Some(_), kind)), Some((None, own_kind))) if kind == own_kind => true,
                (other, own) => place < position && other == own,
            };
            if others().any(has_it) {
                known.entry(*line).or_default().insert(*number);
            } else if let Some((_, (_, first, _))) =
                others().find(|(place, (_, other, _))| *place < position && are_two(pieces, *other, *line))
            {
                *in_common.entry((*first, *line)).or_default() += length_m(pieces, *line, *number);
            }
        }
    }
    for ((first, line), metres) in in_common {
        let name = |line: usize| pieces.get(line).and_then(|piece| piece.name.as_deref()).unwrap_or_default();
        minded.in_common(name(first), name(line), metres);
    }
    known
}

/// Whether two lines have two names.
fn are_two(pieces: &[Piece], one: usize, other: usize) -> bool {
    let name = |line: usize| pieces.get(line).and_then(|piece| piece.name.as_deref()).map(compared);
    name(one).zip(name(other)).is_some_and(|(one, other)| one != other)
}

fn length_m(pieces: &[Piece], line: usize, number: usize) -> f64 {
    let pair = pieces.get(line).and_then(|piece| piece.points.get(number..number + 2));
    if let Some([a, b]) = pair { distance_m(*a, *b) } else { 0.0 }
}

/// The stretches of a line without some of its straight pieces.
fn without(points: &[Pos], known: &HashSet<usize>) -> Vec<Stretch> {
    let numbers: Vec<usize> = (0..points.len().saturating_sub(1)).collect();
    let runs = numbers.chunk_by(|a, b| known.contains(a) == known.contains(b));
    let stretch = |run: &[usize]| {
        let (first, last) = (run.first().filter(|first| !known.contains(first))?, run.last()?);
        Some(Stretch { points: points.get(*first..last + 2)?.to_vec(), pieces: run.to_vec() })
    };
    runs.filter_map(stretch).collect()
}

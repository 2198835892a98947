//! Files cut a road into pieces at every junction: pieces of one name and kind that meet end to end become one line.

use std::collections::{BTreeMap, HashMap};

use super::cells::Cells;
use super::names::compared;
use super::piece::Piece;
use super::shape::{Pos, distance_m, metres_from};

/// Ends nearer than this are the same place, metres. Files that are cut at junctions repeat the point itself; this
/// leaves room for coordinates written with five decimals (0.55 m).
pub(super) const JOIN_M: f64 = 1.0;
/// Ends nearer than this are the very same point, metres.
const SAME_M: f64 = 1e-4;
/// Where more than two ends of one name meet, those that run on within this turn are joined, degrees.
const MOST_TURN_DEG: f64 = 60.0;

/// One end of a piece: its index, and whether it is the last point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
struct End {
    piece: usize,
    last: bool,
}

impl End {
    fn other(self) -> Self {
        Self { last: !self.last, ..self }
    }
}

/// Pieces of one name and kind, by their numbers.
type Groups<'a> = BTreeMap<(Option<String>, &'a str), Vec<usize>>;

fn groups(pieces: &[Piece]) -> Groups<'_> {
    let mut groups = Groups::new();
    for (index, piece) in pieces.iter().enumerate() {
        groups.entry((piece.name.as_deref().map(compared), piece.word.as_str())).or_default().push(index);
    }
    groups
}

/// Joins pieces that may be joined. A joined line runs in the direction of its piece that came first.
pub(super) fn join(pieces: Vec<Piece>, may_join: &dyn Fn(&Piece, &Piece) -> bool) -> Vec<Piece> {
    let may = |a: End, b: End| pieces.get(a.piece).zip(pieces.get(b.piece)).is_some_and(|(a, b)| may_join(a, b));
    let mut links = HashMap::new();
    for ((name, _), group) in &groups(&pieces) {
        link_group(&pieces, group, name.is_some(), &may, &mut links);
    }
    let chains = chains(pieces.len(), &links);
    let mut pieces: Vec<Option<Piece>> = pieces.into_iter().map(Some).collect();
    chains.iter().filter_map(|chain| merge(chain, &mut pieces)).collect()
}

fn at_end(pieces: &[Piece], end: End) -> Option<Pos> {
    let points = &pieces.get(end.piece)?.points;
    if end.last { points.last().copied() } else { points.first().copied() }
}

fn link_group(pieces: &[Piece], group: &[usize], named: bool, may: &dyn Fn(End, End) -> bool, links: &mut HashMap<End, End>) {
    let ends: Vec<(End, Pos)> = group
        .iter()
        .flat_map(|&piece| [End { piece, last: false }, End { piece, last: true }])
        .filter_map(|end| at_end(pieces, end).map(|at| (end, at)))
        .collect();
    let mut cells = Cells::within(JOIN_M);
    for (end, at) in &ends {
        cells.add(*at, (*end, *at));
    }
    for (end, _) in &ends {
        if links.contains_key(end) {
            continue;
        }
        let mut link = |a: End, b: End| {
            if may(a, b) {
                link(a, b, links);
            }
        };
        let meeting = |end: End| at_end(pieces, end).map(|at| meeting(&cells, end, at)).unwrap_or_default();
        match meeting(*end).as_slice() {
            [only] if only.piece != end.piece && meeting(*only) == [*end] => link(*end, *only),
            [] => {}
            several if named => link_straightest(pieces, *end, several, &meeting, &mut link),
            _ => {}
        }
    }
}

/// Most ends about one place that are looked at, and most that are told of: a star of more is no road that runs on.
const MOST_NEAR: usize = 200;
const MOST_MEETING: usize = 12;

/// Other ends at the place of this one: those in the very same point, or where there are none, those within the tolerance.
fn meeting(cells: &Cells<(End, Pos)>, end: End, at: Pos) -> Vec<End> {
    let others = cells.about(at).filter(|(other, _)| *other != end).take(MOST_NEAR);
    let mut near: Vec<(End, f64)> =
        others.map(|(other, there)| (*other, distance_m(at, *there))).filter(|(_, far)| *far <= JOIN_M).collect();
    if near.iter().any(|(_, far)| *far <= SAME_M) {
        near.retain(|(_, far)| *far <= SAME_M);
    }
    near.into_iter().take(MOST_MEETING).map(|(other, _)| other).collect()
}

fn link(a: End, b: End, links: &mut HashMap<End, End>) {
    if !links.contains_key(&a) && !links.contains_key(&b) {
        links.insert(a, b);
        links.insert(b, a);
    }
}

/// Where several of one name meet, the end runs on into the straightest other, if that in turn has none straighter.
fn link_straightest(pieces: &[Piece], end: End, others: &[End], meeting: &dyn Fn(End) -> Vec<End>, link: &mut dyn FnMut(End, End)) {
    let best = |from: End, among: &[End]| {
        among
            .iter()
            .copied()
            .filter(|to| to.piece != from.piece)
            .filter_map(|to| turn_deg(pieces, from, to).map(|turn| (to, turn)))
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .filter(|(_, turn)| *turn <= MOST_TURN_DEG)
            .map(|(to, _)| to)
    };
    let Some(to) = best(end, others) else { return };
    if best(to, &meeting(to)) == Some(end) {
        link(end, to);
    }
}

/// How much one turns when walking out of one end into another, degrees.
fn turn_deg(pieces: &[Piece], from: End, to: End) -> Option<f64> {
    let inward = |end: End| {
        let points = &pieces.get(end.piece)?.points;
        let (tip, next) = match (end.last, points.as_slice()) {
            (false, [first, second, ..]) => (first, second),
            (true, [.., second, last]) => (last, second),
            _ => return None,
        };
        let (east, north) = metres_from(*tip, *next);
        Some(east.atan2(north).to_degrees())
    };
    let difference = (inward(to)? - inward(from)? + 180.0).rem_euclid(360.0);
    Some(if difference > 180.0 { 360.0 - difference } else { difference })
}

/// A piece in a chain, and whether it is walked from its first point to its last.
type Step = (usize, bool);

fn chains(count: usize, links: &HashMap<End, End>) -> Vec<Vec<Step>> {
    let mut seen = vec![false; count];
    let mut all = Vec::new();
    for piece in 0..count {
        if seen.get(piece).copied().unwrap_or(true) {
            continue;
        }
        let start = head(End { piece, last: false }, links);
        all.push(walk(start, links, &mut seen));
    }
    all
}

/// The end at which a line begins when it is followed backwards from an end of one of its pieces.
fn head(from: End, links: &HashMap<End, End>) -> End {
    let mut end = from;
    while let Some(before) = links.get(&end) {
        end = before.other();
        if end == from {
            break;
        }
    }
    end
}

fn walk(start: End, links: &HashMap<End, End>, seen: &mut [bool]) -> Vec<Step> {
    let mut chain = Vec::new();
    let mut next = Some(start);
    while let Some(end) = next {
        match seen.get_mut(end.piece) {
            Some(seen) if !*seen => *seen = true,
            _ => break,
        }
        chain.push((end.piece, !end.last));
        next = links.get(&end.other()).copied();
    }
    chain
}

fn merge(chain: &[Step], pieces: &mut [Option<Piece>]) -> Option<Piece> {
    let mut merged: Option<Piece> = None;
    for (index, forward) in chain {
        let mut piece = pieces.get_mut(*index)?.take()?;
        if !forward {
            piece.turn_round();
        }
        match &mut merged {
            None => merged = Some(piece),
            Some(line) => line.go_on(piece),
        }
    }
    merged
}

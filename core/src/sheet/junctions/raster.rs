//! Pairs of pieces that may meet, by a raster; and where they do.

use std::collections::HashMap;

use crate::measure::Point;
use crate::sheet::{Line, LinePlace};

use super::course::{Course, Encounter};
use super::{LEAST_REACH_M, MOST_REACH_M, reach_m};

/// Two lines that meet: the number of each and the metres along it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pair {
    pub(super) a: (usize, f64),
    pub(super) b: (usize, f64),
}

/// Least width of a cell of the raster, metres: some pieces long, a few reaches wide.
const LEAST_CELL_M: f64 = 100.0;
/// Most pairs of pieces that are held against each other, so that a net made to take time cannot. A sheet of 5,000 lines
/// needs less than a hundredth of it.
const MOST_PAIRS: usize = 300_000_000;
/// Most meetings that are told of.
const MOST_MEETINGS: usize = 500_000;

/// Most pieces about the end of a line that are looked at.
const MOST_NEAR: usize = 10_000;

/// One straight piece of a line.
#[derive(Clone, Copy)]
struct Piece {
    line: usize,
    from: LinePlace,
    to: LinePlace,
    course: Course,
}

/// Which pieces pass through which cell. Cells are as wide as a piece is long on the average, so that there are never many
/// more cells than pieces.
struct Raster {
    cell_m: f64,
    cells: HashMap<(i64, i64), Vec<usize>>,
}

/// Where lines come together.
pub(super) struct Pairs {
    /// On one level, or in a point that both have.
    pub(super) meetings: Vec<Pair>,
    /// One on a bridge above the other.
    pub(super) passes: Vec<Pair>,
    /// On two levels, and nobody says by what.
    pub(super) somehow: Vec<Pair>,
}

impl Pairs {
    fn count(&self) -> usize {
        self.meetings.len() + self.passes.len() + self.somehow.len()
    }
}

/// Where any two lines meet, and where one crosses itself. Lines on two levels pass each other, except in a point that both have. Beyond
/// [`MOST_PAIRS`] and [`MOST_MEETINGS`] no more are looked for.
pub(super) fn pairs(lines: &[Line]) -> Pairs {
    let of_line = |(line, one): (usize, &Line)| {
        let pieces = one.pieces().zip(one.levels());
        pieces.map(move |((from, to), level)| Piece { line, from, to, course: Course::of(one, level) }).collect::<Vec<_>>()
    };
    let pieces: Vec<Piece> = lines.iter().enumerate().flat_map(of_line).collect();
    let raster = Raster::of(&pieces);
    let mut pairs = crossings(&pieces, &raster);
    pairs.meetings.retain(|pair| !closes(lines, pair));
    pairs.meetings.extend(touches(lines, &pieces, &raster));
    pairs
}

/// Whether a line only comes back to its own beginning there.
fn closes(lines: &[Line], pair: &Pair) -> bool {
    let ((a, one_m), (b, other_m)) = (pair.a, pair.b);
    let length_m = lines.get(a).map_or(0.0, Line::length_m);
    a == b && one_m.min(other_m) <= LEAST_REACH_M && one_m.max(other_m) >= length_m - LEAST_REACH_M
}

impl Piece {
    /// Whether one of its two ends is there, metres along the line.
    fn ends_at(&self, along_m: f64) -> bool {
        (along_m - self.from.along_m).abs() <= TOUCH_M || (along_m - self.to.along_m).abs() <= TOUCH_M
    }
}

impl Raster {
    fn of(pieces: &[Piece]) -> Self {
        let whole_m: f64 = pieces.iter().map(|piece| piece.to.along_m - piece.from.along_m).sum();
        let cell_m = (whole_m / pieces.len().max(1) as f64).max(LEAST_CELL_M);
        let mut raster = Self { cell_m, cells: HashMap::new() };
        for (index, piece) in pieces.iter().enumerate() {
            for cell in raster.passed(piece) {
                raster.cells.entry(cell).or_default().push(index);
            }
        }
        raster
    }

    fn cell(&self, value_m: f64) -> i64 {
        (value_m / self.cell_m).floor() as i64
    }

    /// The cells that a piece passes through, row by row.
    fn passed(&self, piece: &Piece) -> Vec<(i64, i64)> {
        let (a, b) = if piece.from.at.north_m <= piece.to.at.north_m { (piece.from.at, piece.to.at) } else { (piece.to.at, piece.from.at) };
        let step = b.minus(a);
        let east_at = |north_m: f64| a.east_m + step.east_m * ((north_m - a.north_m) / step.north_m).clamp(0.0, 1.0);
        let (first, last) = (self.cell(a.north_m), self.cell(b.north_m));
        let mut cells = Vec::new();
        for row in first..=last {
            let level = first == last;
            let low = if level { a.east_m } else { east_at(row as f64 * self.cell_m) };
            let high = if level { b.east_m } else { east_at((row + 1) as f64 * self.cell_m) };
            let (west, east) = (self.cell(low.min(high)), self.cell(low.max(high)));
            cells.extend((west..=east).map(|column| (column, row)));
        }
        cells
    }

    /// Pieces in the cells within reach of a point.
    fn around<'a>(&'a self, point: Point, pieces: &'a [Piece]) -> impl Iterator<Item = &'a Piece> {
        let range = |value: f64| self.cell(value - MOST_REACH_M)..=self.cell(value + MOST_REACH_M);
        let rows = range(point.north_m);
        let cells = range(point.east_m).flat_map(move |column| rows.clone().map(move |row| (column, row)));
        cells.filter_map(|cell| self.cells.get(&cell)).flatten().take(MOST_NEAR).filter_map(|index| pieces.get(*index))
    }
}

/// Where pieces cross that do not follow each other on one line.
fn crossings(pieces: &[Piece], raster: &Raster) -> Pairs {
    let mut pairs = Pairs { meetings: Vec::new(), passes: Vec::new(), somehow: Vec::new() };
    let mut left = MOST_PAIRS;
    for members in raster.cells.values() {
        for (index, first) in members.iter().enumerate() {
            for second in members.iter().skip(index + 1).take(left) {
                if let (Some(a), Some(b)) = (pieces.get(*first), pieces.get(*second))
                    && (a.line != b.line || are_apart(a, b))
                {
                    let Some(found) = crossing(a, b) else { continue };
                    let has_both = a.ends_at(found.a.1) && b.ends_at(found.b.1);
                    match a.course.encounter(b.course) {
                        Encounter::Meets => pairs.meetings.push(found),
                        _ if has_both => pairs.meetings.push(found),
                        Encounter::Passes => pairs.passes.push(found),
                        Encounter::PassesSomehow => pairs.somehow.push(found),
                        Encounter::Unseen => {}
                    }
                }
            }
            left = if pairs.count() < MOST_MEETINGS { left.saturating_sub(members.len() - index) } else { 0 };
        }
    }
    pairs
}

/// Whether two pieces of one line can cross without being neighbours.
fn are_apart(a: &Piece, b: &Piece) -> bool {
    let (first, second) = if a.from.along_m < b.from.along_m { (a, b) } else { (b, a) };
    second.from.along_m - first.to.along_m > LOOP_M
}

/// A line that comes back to itself within less than this is drawn so rather than made so, metres.
const LOOP_M: f64 = 2.0 * MOST_REACH_M;

/// Pieces that meet within this at their ends cross there: lines often meet in a point that both have, metres.
const TOUCH_M: f64 = 0.001;

/// What cutting and rounding leave between two points that were one, metres.
const COMMON_M: f64 = 1.0;

/// An end read off a map meets a line beside which it lies by so many spreads of both: two places a step of their last figures apart in either
/// way, on a line drawn in 10 m.
const END_SIGMAS: f64 = 1.8;

/// Where two pieces cross. One that two cells tell of is gathered into one junction later.
fn crossing(a: &Piece, b: &Piece) -> Option<Pair> {
    let (along_a, along_b) = (a.to.at.minus(a.from.at), b.to.at.minus(b.from.at));
    let turned = along_a.cross(along_b);
    let between = b.from.at.minus(a.from.at);
    let along = |piece: &Piece, share: f64| {
        let length_m = piece.to.along_m - piece.from.along_m;
        let metres = share * length_m;
        let inside = (-TOUCH_M..=length_m + TOUCH_M).contains(&metres);
        inside.then(|| (piece.line, piece.from.along_m + metres.clamp(0.0, length_m)))
    };
    let (share_a, share_b) = (between.cross(along_b) / turned, between.cross(along_a) / turned);
    Some(Pair { a: along(a, share_a)?, b: along(b, share_b)? })
}

/// How near the end of one line must come to another to meet it. Where a file says by common points what meets, an end beside a line does
/// not.
fn end_reach_m(line: &Line, other: &Line) -> f64 {
    if line.noded && other.noded { COMMON_M } else { reach_m(END_SIGMAS * line.spread_m, END_SIGMAS * other.spread_m) }
}

/// Ends of lines that lie on another line or near it.
fn touches(lines: &[Line], pieces: &[Piece], raster: &Raster) -> Vec<Pair> {
    let mut pairs = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        for along_m in [0.0, line.length_m()] {
            if pairs.len() >= MOST_MEETINGS {
                return pairs;
            }
            let end = line.at(along_m).at;
            let own = Course::of(line, line.level_at(along_m));
            let mut nearest: HashMap<usize, (f64, f64)> = HashMap::new();
            for piece in raster.around(end, pieces).filter(|piece| piece.line != index) {
                let (distance_m, other_m) = to_piece(end, piece);
                if own.encounter(piece.course) != Encounter::Meets && !(distance_m <= TOUCH_M && piece.ends_at(other_m)) {
                    continue;
                }
                let best = nearest.entry(piece.line).or_insert((f64::INFINITY, 0.0));
                if distance_m < best.0 {
                    *best = (distance_m, other_m);
                }
            }
            let reach = |other: usize| lines.get(other).map_or(0.0, |other| end_reach_m(line, other));
            let near = nearest.into_iter().filter(|(other, (distance_m, _))| *distance_m <= reach(*other));
            pairs.extend(near.map(|(other, (_, other_m))| Pair { a: (index, along_m), b: (other, other_m) }));
        }
    }
    pairs
}

/// Distance of a point from a piece, and the metres along the line to its nearest place on it.
fn to_piece(point: Point, piece: &Piece) -> (f64, f64) {
    let length_m = piece.to.along_m - piece.from.along_m;
    let on_m = point.minus(piece.from.at).dot(piece.from.direction).clamp(0.0, length_m);
    let nearest = piece.from.at.plus(piece.from.direction.times(on_m));
    (nearest.minus(point).length_m(), piece.from.along_m + on_m)
}

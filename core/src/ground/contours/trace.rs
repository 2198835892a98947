//! Follows one contour from cell to cell.

use super::levels::{Levels, VOID};
use super::{Contour, Heights, Post};

/// An edge of a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Edge {
    North,
    East,
    South,
    West,
}

use Edge::{East, North, South, West};

const EDGES: [Edge; 4] = [North, East, South, West];

impl Edge {
    /// The same edge as the neighbour over it has it.
    fn over(self) -> Self {
        match self {
            North => South,
            East => West,
            South => North,
            West => East,
        }
    }

    fn bit(self) -> u32 {
        1 << self as u32
    }
}

/// Where a contour leaves a cell that it enters by an edge, higher ground to the left.
///
/// `above` has a bit for each corner above the contour: north-west 1, north-east 2, south-east 4, south-west 8.
/// In a saddle `joined` says that the corners above are joined through the middle.
fn leaves(above: u32, joined: bool, enters: Edge) -> Option<Edge> {
    let (from, to) = match (above, joined, enters) {
        (1, _, _) | (5, false, West) => (West, North),
        (2, _, _) | (10, false, North) => (North, East),
        (4, _, _) | (5, false, East) => (East, South),
        (8, _, _) | (10, false, South) => (South, West),
        (3, _, _) => (West, East),
        (6, _, _) => (North, South),
        (12, _, _) => (East, West),
        (9, _, _) => (South, North),
        (7, _, _) | (5, true, West) => (West, South),
        (11, _, _) | (10, true, South) => (South, East),
        (13, _, _) | (5, true, East) => (East, North),
        (14, _, _) | (10, true, North) => (North, West),
        _ => return None,
    };
    (from == enters).then_some(to)
}

/// Follows contours over the cells of a grid.
pub(super) struct Tracer<'a> {
    values_m: &'a [f32],
    levels: &'a [i32],
    columns: usize,
    rows: usize,
    /// By cell: the number of the last contour in it, and by which edges it was entered.
    entered: Vec<u32>,
    number: u32,
}

impl<'a> Tracer<'a> {
    pub(super) fn new(heights: &'a Heights, levels: &'a Levels) -> Self {
        let (columns, rows) = (heights.layout().columns, heights.layout().rows);
        let entered = vec![0; columns * rows];
        Self { values_m: heights.values_m(), levels: &levels.of_post, columns, rows, entered, number: 0 }
    }

    /// Adds all lines of one height: first those that come in from a border or a void, then the rings.
    pub(super) fn trace(&mut self, level: i32, height_m: f64, cells: &[u32], take: &mut dyn FnMut(Contour)) {
        self.number += 1;
        let mut inside = Vec::with_capacity(cells.len());
        for cell in cells.iter().map(|cell| *cell as usize) {
            for edge in EDGES {
                if self.leaves(cell, level, height_m, edge).is_none() {
                    continue;
                }
                if self.neighbour(cell, edge).is_none() {
                    self.follow(cell, edge, level, height_m).into_iter().for_each(&mut *take);
                } else {
                    inside.push((cell, edge));
                }
            }
        }
        for (cell, edge) in inside {
            if !self.was_entered(cell, edge) {
                self.follow(cell, edge, level, height_m).into_iter().for_each(&mut *take);
            }
        }
    }

    /// The line that enters a cell by an edge; `None` where it only goes round a single post of its very height.
    fn follow(&mut self, start: usize, enters: Edge, level: i32, height_m: f64) -> Option<Contour> {
        let mut posts = vec![self.crossing(start, enters, height_m)];
        let (mut cell, mut edge) = (start, enters);
        let mut closed = false;
        while let Some(out) = self.leaves(cell, level, height_m, edge) {
            self.enter(cell, edge);
            let post = self.crossing(cell, out, height_m);
            if posts.last() != Some(&post) {
                posts.push(post);
            }
            let Some(next) = self.neighbour(cell, out) else { break };
            (cell, edge) = (next, out.over());
            closed = (cell, edge) == (start, enters);
            if closed {
                break;
            }
        }
        let depression = closed && turns_right(&posts);
        (posts.len() > 1).then(|| Contour { height_m, index: Levels::is_index(level), closed, depression, posts })
    }

    fn was_entered(&self, cell: usize, edge: Edge) -> bool {
        self.entered.get(cell).is_some_and(|mark| mark >> 4 == self.number && mark & edge.bit() != 0)
    }

    fn enter(&mut self, cell: usize, edge: Edge) {
        if let Some(mark) = self.entered.get_mut(cell) {
            let before = if *mark >> 4 == self.number { *mark } else { self.number << 4 };
            *mark = before | edge.bit();
        }
    }

    /// The cell over an edge; `None` at the border and where a corner of it is a void.
    fn neighbour(&self, cell: usize, edge: Edge) -> Option<usize> {
        let (column, row) = (cell % self.columns, cell / self.columns);
        let next = match edge {
            North => (row > 0).then(|| cell - self.columns),
            East => (column + 2 < self.columns).then_some(cell + 1),
            South => (row + 2 < self.rows).then_some(cell + self.columns),
            West => (column > 0).then(|| cell - 1),
        }?;
        self.corners(next).iter().all(|corner| self.levels.get(*corner).is_some_and(|level| *level != VOID)).then_some(next)
    }

    /// The posts of a cell: north-west, north-east, south-east, south-west.
    fn corners(&self, cell: usize) -> [usize; 4] {
        [cell, cell + 1, cell + self.columns + 1, cell + self.columns]
    }

    fn leaves(&self, cell: usize, level: i32, height_m: f64, enters: Edge) -> Option<Edge> {
        let corners = self.corners(cell);
        let bit = |(i, corner): (usize, &usize)| u32::from(self.levels.get(*corner).is_some_and(|own| *own >= level)) << i;
        let above = corners.iter().enumerate().map(bit).sum();
        let joined = matches!(above, 5 | 10) && self.saddle_m(corners) >= height_m;
        leaves(above, joined, enters)
    }

    /// Height of the saddle point of the bilinear surface over a cell.
    fn saddle_m(&self, corners: [usize; 4]) -> f64 {
        let [a, b, c, d] = corners.map(|corner| self.height_m(corner));
        (a * c - b * d) / (a + c - b - d)
    }

    fn height_m(&self, post: usize) -> f64 {
        self.values_m.get(post).map_or(f64::NAN, |value| f64::from(*value))
    }

    /// Where an edge of a cell has a height.
    fn crossing(&self, cell: usize, edge: Edge, height_m: f64) -> Post {
        let [north_west, north_east, _, south_west] = self.corners(cell);
        let (first, next) = match edge {
            North => (north_west, 1),
            East => (north_east, self.columns),
            South => (south_west, 1),
            West => (north_west, self.columns),
        };
        let (low, high) = (self.height_m(first), self.height_m(first + next));
        let share = ((height_m - low) / (high - low)).clamp(0.0, 1.0);
        let (column, row) = ((first % self.columns) as f64, (first / self.columns) as f64);
        if next == 1 { Post { column: column + share, row } } else { Post { column, row: row + share } }
    }
}

/// Whether a ring runs clockwise, so that what it holds lies to its right: rows run south, so that its area comes out positive.
fn turns_right(ring: &[Post]) -> bool {
    let first = ring.first().copied().unwrap_or(Post { column: 0.0, row: 0.0 });
    let from = |post: &Post| (post.column - first.column, post.row - first.row);
    let doubled = |pair: &[Post]| if let [a, b] = pair { from(a).0 * from(b).1 - from(b).0 * from(a).1 } else { 0.0 };
    ring.windows(2).map(doubled).sum::<f64>() > 0.0
}

//! The shape of the ground at every post by what its eight lines of sight meet.
//!
//! # References
//! J. Jasiewicz and T. F. Stepinski (2013), Geomorphons - a pattern recognition approach to classification and mapping of landforms,
//! Geomorphology 182, 147-156.

#![allow(clippy::indexing_slicing, reason = "indices are those of posts side by side, below their number")]

use super::LandformScale;
use super::abreast::{ABREAST, Abreast, abreast, higher, lower};
use super::mesh::Mesh;
use crate::earth::GridError;
use crate::ground::Heights;

/// The ten most common shapes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Level all around.
    Flat,
    /// Lower all around.
    Summit,
    /// Lower on both sides.
    Ridge,
    /// Level above, lower below.
    Shoulder,
    /// Lower on most sides, higher behind.
    Spur,
    /// Higher on one side, lower on the other.
    Slope,
    /// Higher on most sides, lower in front.
    Hollow,
    /// Higher above, level below.
    Footslope,
    /// Higher on both sides.
    Valley,
    /// Higher all around.
    Pit,
}

/// Shape by how many of the eight lines of sight go down (rows) and up (columns).
///
/// # References
/// Figure 4 of the paper, from memory.
const SHAPES: [&[Form]; 9] = {
    use Form::{Flat as FL, Footslope as FS, Hollow as HL, Pit as PT, Ridge as RI, Shoulder as SH, Slope as SL, Spur as SP};
    use Form::{Summit as PK, Valley as VL};
    [
        &[FL, FL, FL, FS, FS, VL, VL, VL, PT],
        &[FL, FL, FS, FS, FS, VL, VL, VL],
        &[FL, SH, SL, SL, HL, HL, VL],
        &[SH, SH, SL, SL, SL, HL],
        &[SH, SH, SP, SL, SL],
        &[RI, RI, SP, SP],
        &[RI, RI, RI],
        &[RI, RI],
        &[PK],
    ]
};

/// Steps of the eight lines of sight, columns and rows; four apart are opposite.
const DIRECTIONS: [(isize, isize); 8] = [(1, 0), (1, -1), (0, -1), (-1, -1), (-1, 0), (-1, 1), (0, 1), (1, 1)];

/// One line of sight from posts side by side.
#[derive(Debug, Clone, Copy)]
struct Ray {
    /// Tangent of the steepest sight up.
    up: Abreast,
    /// Tangent of the steepest sight down, negative.
    down: Abreast,
    /// The sum of all heights met: minimum and maximum pass over a void, the sum does not.
    known: Abreast,
}

impl Ray {
    fn new(eyes_m: &Abreast) -> Self {
        let (most, least) = ([f32::MAX; ABREAST], [f32::MIN; ABREAST]);
        Self { up: least, down: most, known: *eyes_m }
    }

    /// Takes in the ground one step farther, given one over its distance.
    fn meet(&mut self, eyes_m: &Abreast, ground_m: &Abreast, inverse: f32) {
        for lane in 0..ABREAST {
            let rise_m = ground_m[lane] - eyes_m[lane];
            let slope = rise_m * inverse;
            self.up[lane] = higher(self.up[lane], slope);
            self.down[lane] = lower(self.down[lane], slope);
            self.known[lane] += rise_m;
        }
    }

    /// 1 when the sight goes up on the whole, -1 when down, 0 when level: the sum of the steepest angles against the threshold.
    fn sign(&self, lane: usize, level_tan: f32) -> i8 {
        let (up, down) = (self.up[lane], self.down[lane]);
        let (sum, rest) = (up + down, 1.0 - up * down);
        // The tangent of a sum of angles; beyond 90 degrees the sign alone decides.
        if rest > 0.0 && sum.abs() <= level_tan * rest { 0 } else { i8::from(sum > 0.0) - i8::from(sum < 0.0) }
    }
}

/// What is needed to look around from the posts of one row.
pub(super) struct Lookout<'a> {
    values_m: &'a [f32],
    columns: usize,
    row: usize,
    /// By direction: step in the list, and one over the distance of each step taken. `None` when the border is too near.
    lines: [Option<(isize, Vec<f32>)>; 8],
    level_tan: f32,
}

/// What the eight lines of sight from posts side by side meet.
pub(super) struct Look {
    rays: [Ray; 8],
    whole: [bool; ABREAST],
    level_tan: f32,
}

impl<'a> Lookout<'a> {
    pub(super) fn new(mesh: &'a Mesh<'a>, row: usize, scale: &LandformScale) -> Self {
        let (east_m, south_m) = mesh.spacing_m(row);
        let line = |(right, down): (isize, isize)| {
            let step_m = (right as f64 * east_m).hypot(down as f64 * south_m);
            let count = ((scale.sight_m / step_m).floor() as usize).max(1);
            let reach = row as isize + down * count as isize;
            let inverse = (1..=count).map(|taken| (1.0 / (taken as f64 * step_m)) as f32).collect();
            (0..mesh.rows as isize).contains(&reach).then_some((down * mesh.columns as isize + right, inverse))
        };
        let level_tan = scale.level_deg.to_radians().tan() as f32;
        Self { values_m: mesh.values_m(), columns: mesh.columns, row, lines: DIRECTIONS.map(line), level_tan }
    }

    /// What is seen from the posts of the row side by side from this column on; `None` where lines of sight leave the known ground from all.
    pub(super) fn look(&self, column: usize) -> Option<Look> {
        let from = self.row * self.columns + column;
        let eyes_m = abreast(self.values_m, from);
        let mut look = Look { rays: [Ray::new(&eyes_m); 8], whole: [true; ABREAST], level_tan: self.level_tan };
        for ((ray, line), (right, _)) in look.rays.iter_mut().zip(&self.lines).zip(DIRECTIONS) {
            let (step, inverse) = line.as_ref()?;
            let mut at = from;
            for inverse in inverse {
                at = at.wrapping_add_signed(*step);
                ray.meet(&eyes_m, &abreast(self.values_m, at), *inverse);
            }
            let reach = right * inverse.len() as isize;
            for (lane, whole) in look.whole.iter_mut().enumerate() {
                let seen = column + lane < self.columns && (0..self.columns as isize).contains(&((column + lane) as isize + reach));
                *whole &= seen && !ray.known[lane].is_nan();
            }
        }
        look.whole.contains(&true).then_some(look)
    }
}

impl Look {
    /// The shape that the pattern of lines of sight makes at one of the posts; `None` where one of them leaves the known ground.
    pub(super) fn form(&self, lane: usize) -> Option<Form> {
        if !self.whole[lane] {
            return None;
        }
        let signs = self.rays.each_ref().map(|ray| ray.sign(lane, self.level_tan));
        let count = |sign: i8| signs.iter().filter(|one| **one == sign).count();
        Some(SHAPES.get(count(-1)).and_then(|row| row.get(count(1))).copied().unwrap_or(Form::Slope))
    }
}

/// The shape of the ground at every post, row by row; `None` where a line of sight leaves the known ground.
///
/// # Accuracy
/// Lines of sight run along rows, columns and diagonals of posts, to the last post within the sight (at least one).
///
/// # Errors
/// [`GridError`] when the grid has no place for a post.
pub fn forms(heights: &Heights, scale: &LandformScale) -> Result<Vec<Option<Form>>, GridError> {
    let mesh = Mesh::new(heights)?;
    let mut found = Vec::with_capacity(mesh.columns * mesh.rows);
    for row in 0..mesh.rows {
        let lookout = Lookout::new(&mesh, row, scale);
        for column in (0..mesh.columns).step_by(ABREAST) {
            let look = lookout.look(column);
            found.extend((0..ABREAST.min(mesh.columns - column)).map(|lane| look.as_ref()?.form(lane)));
        }
    }
    Ok(found)
}

//! The shape of the ground at every post by what its eight lines of sight meet.
//!
//! # References
//! J. Jasiewicz and T. F. Stepinski (2013), Geomorphons - a pattern recognition approach to classification and mapping of landforms,
//! Geomorphology 182, 147-156.

use super::LandformScale;
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

/// What one line of sight meets.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Ray {
    /// Tangent of the steepest sight up.
    up: f32,
    /// Tangent of the steepest sight down, negative.
    down: f32,
    /// Highest ground above the eye's post, metres; below zero when all is lower.
    pub(super) highest_m: f32,
    /// Lowest ground against the eye's post, metres.
    pub(super) lowest_m: f32,
}

impl Ray {
    /// Takes in ground so much higher than the eye's post, and the tangent under which it lies.
    fn meet(&mut self, rise_m: f32, slope: f32) {
        (self.up, self.down) = (self.up.max(slope), self.down.min(slope));
        (self.highest_m, self.lowest_m) = (self.highest_m.max(rise_m), self.lowest_m.min(rise_m));
    }

    /// 1 when the sight goes up on the whole, -1 when down, 0 when level: the sum of the steepest angles against the threshold.
    fn sign(&self, level_tan: f32) -> i8 {
        let (sum, rest) = (self.up + self.down, 1.0 - self.up * self.down);
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

    /// What the eight lines of sight from a post of the row meet; `None` where one of them leaves the known ground.
    pub(super) fn look(&self, column: usize) -> Option<[Ray; 8]> {
        let from = self.row * self.columns + column;
        let mut rays = [Ray::default(); 8];
        for ((ray, line), (right, _)) in rays.iter_mut().zip(&self.lines).zip(DIRECTIONS) {
            let (step, inverse) = line.as_ref()?;
            let end = column as isize + right * inverse.len() as isize;
            *ray = (0..self.columns as isize).contains(&end).then(|| self.along(from, *step, inverse)).flatten()?;
        }
        Some(rays)
    }

    fn along(&self, from: usize, step: isize, inverse: &[f32]) -> Option<Ray> {
        let eye_m = *self.values_m.get(from)?;
        let mut ray = Ray { up: f32::MIN, down: f32::MAX, highest_m: f32::MIN, lowest_m: f32::MAX };
        let (mut at, mut known) = (from, eye_m);
        for inverse in inverse {
            at = at.wrapping_add_signed(step);
            let rise_m = *self.values_m.get(at)? - eye_m;
            ray.meet(rise_m, rise_m * inverse);
            known += rise_m;
        }
        // Minimum and maximum pass over a void; the sum does not.
        (!known.is_nan()).then_some(ray)
    }

    /// The shape that a pattern of lines of sight makes.
    pub(super) fn form(&self, rays: &[Ray; 8]) -> Form {
        let signs = rays.each_ref().map(|ray| ray.sign(self.level_tan));
        let count = |sign: i8| signs.iter().filter(|one| **one == sign).count();
        SHAPES.get(count(-1)).and_then(|row| row.get(count(1))).copied().unwrap_or(Form::Slope)
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
        found.extend((0..mesh.columns).map(|column| lookout.look(column).map(|rays| lookout.form(&rays))));
    }
    Ok(found)
}

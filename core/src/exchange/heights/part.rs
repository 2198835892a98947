//! The wanted part of a file while it is read: where it lies, the heights so far, and what counts as no height.

use std::ops::ControlFlow;

use super::{HeightsFileError, HeightsProgress, WantedHeights};
use crate::earth::LatLon;
use crate::ground::{HeightSpread, Heights, HeightsError, Lattice, Layout, Post, Window};

/// The posts that are wanted, and their heights row by row as far as they are read.
pub(super) struct Part {
    pub(super) window: Window,
    /// Posts of the whole file.
    pub(super) file_posts: usize,
    layout: Layout,
    pub(super) values_m: Vec<f32>,
}

/// Which numbers of a file are no heights.
#[derive(Debug, Clone, Copy)]
pub(super) struct Voids {
    /// The number that the file or the person names.
    pub(super) named: Option<f64>,
    /// Metres in a unit of the file.
    pub(super) unit_m: f64,
}

/// No ground lies lower or higher, metres; the deepest sea floor is 10.9 km down, the highest summit 8.8 km up.
const LOWEST_M: f64 = -12_000.0;
const HIGHEST_M: f64 = 9_000.0;
/// What stands for no height where a file names nothing. Common practice, no source.
const USUAL_VOIDS: [f64; 3] = [-32_768.0, -32_767.0, -9_999.0];
/// Most columns and most rows of a file.
const MOST_ACROSS: usize = 1_000_000;

impl Part {
    /// The part of a whole file that is wanted.
    pub(super) fn of(whole: &Layout, wanted: &WantedHeights) -> Result<Self, HeightsFileError> {
        check(whole)?;
        let window = match &wanted.bounds {
            None => Window::whole(whole),
            Some(bounds) => whole.window(bounds).map_err(HeightsFileError::Grid)?.ok_or(HeightsFileError::Outside)?,
        };
        let layout = whole.cut(&window);
        layout.posts().map_err(HeightsFileError::Heights)?;
        Ok(Self { window, file_posts: whole.columns.saturating_mul(whole.rows), layout, values_m: Vec::new() })
    }

    /// Makes room for the heights of a file of so many bytes, of which each takes two or more.
    pub(super) fn reserve(&mut self, bytes: usize) {
        self.values_m.reserve_exact(self.window.posts().min(bytes / 2 + 1));
    }

    /// All heights unknown at first, for files that do not come row by row.
    pub(super) fn fill(&mut self) {
        self.values_m = vec![f32::NAN; self.window.posts()];
    }

    /// Where a post of the whole file stands among the values; `None` when it is not wanted.
    pub(super) fn index(&self, column: usize, row: usize) -> Option<usize> {
        let column = column.checked_sub(self.window.left).filter(|column| *column < self.window.columns)?;
        let row = row.checked_sub(self.window.top).filter(|row| *row < self.window.rows)?;
        Some(row * self.window.columns + column)
    }

    /// The heights; an area without any is refused.
    pub(super) fn finish(self, spread: HeightSpread) -> Result<Heights, HeightsFileError> {
        if !self.values_m.is_empty() && self.values_m.iter().all(|height_m| height_m.is_nan()) {
            return Err(HeightsFileError::Gaps);
        }
        Heights::new(self.layout, spread, self.values_m).map_err(HeightsFileError::Heights)
    }
}

impl Voids {
    /// The height that a number of the file stands for, NaN where there is none; `None` when no ground is so high or low.
    #[allow(clippy::float_cmp, reason = "a void is one exact number, in the precision of the file")]
    pub(super) fn height_m(&self, number: f64) -> Option<f32> {
        let is_void = match self.named {
            Some(named) => number == named || number as f32 == named as f32,
            None => USUAL_VOIDS.contains(&number),
        };
        if number.is_nan() || is_void {
            return Some(f32::NAN);
        }
        let height_m = number * self.unit_m;
        (LOWEST_M..=HIGHEST_M).contains(&height_m).then_some(height_m as f32)
    }

    /// The same, with the post named when it cannot be.
    pub(super) fn at(&self, number: f64, column: usize, row: usize) -> Result<f32, HeightsFileError> {
        self.height_m(number).ok_or(HeightsFileError::Post { column: column + 1, row: row + 1, number })
    }
}

/// Tells how much is read; a break ends the reading.
pub(super) fn tell(progress: &mut HeightsProgress, done: usize, of: usize) -> Result<(), HeightsFileError> {
    match progress(done as f64 / of.max(1) as f64) {
        ControlFlow::Continue(()) => Ok(()),
        ControlFlow::Break(()) => Err(HeightsFileError::Cancelled),
    }
}

/// Whether a layout can be one of the earth: numbers that are degrees, or that the grid knows.
fn check(layout: &Layout) -> Result<(), HeightsFileError> {
    let across = layout.columns.max(layout.rows);
    if across > MOST_ACROSS {
        return Err(HeightsFileError::Heights(HeightsError::TooMany(layout.columns.saturating_mul(layout.rows))));
    }
    let numbers = [layout.west, layout.north, layout.step_east, layout.step_south];
    let steps = layout.step_east > 0.0 && layout.step_south > 0.0 && layout.columns >= 2 && layout.rows >= 2;
    if !(steps && numbers.iter().all(|number| number.is_finite())) {
        return Err(HeightsFileError::Heights(HeightsError::Layout));
    }
    let (column, row) = ((layout.columns - 1) as f64, (layout.rows - 1) as f64);
    match &layout.lattice {
        Lattice::Geographic => check_degrees(layout, column, row),
        Lattice::Projected(_) => {
            let middle: Result<LatLon, _> = layout.place_of(Post { column: column / 2.0, row: row / 2.0 });
            middle.map(|_| ()).map_err(HeightsFileError::Grid)
        }
    }
}

fn check_degrees(layout: &Layout, column: f64, row: f64) -> Result<(), HeightsFileError> {
    let (south, east) = (layout.north - row * layout.step_south, layout.west + column * layout.step_east);
    // A post of an area grid may stand half a step beyond a pole or the date line.
    let latitudes = layout.north <= 90.0 + layout.step_south && south >= -90.0 - layout.step_south;
    let longitudes = layout.west >= -360.0 && east <= 540.0 && column * layout.step_east <= 360.0 + layout.step_east;
    if latitudes && longitudes { Ok(()) } else { Err(HeightsFileError::NotDegrees) }
}

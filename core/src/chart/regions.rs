//! Areas in which one may stand: scan lines, thin where the 95 % lie and thick where the likelier half does.

use super::scene::Scene;
use super::view::View;
use super::{Ink, Item, Spot, Stroke};
use crate::fix::OpenFix;
use crate::measure::Point;

/// From scan line to scan line, and the finest of what is told along one, dp.
const STEP: f64 = 3.0;
/// Width of a scan line in the 95 % and in the 50 %, dp.
const WIDTHS: (f64, f64) = (0.9, 2.4);

/// What stands at one step of a scan line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Held {
    Nothing,
    Outer,
    Inner,
}

/// Scan lines over the chart, row by row.
struct Scan {
    columns: usize,
    rows: usize,
    held: Vec<Held>,
}

impl Scan {
    fn new(view: &View) -> Self {
        let count = |side: f64| (side / STEP).ceil().max(1.0) as usize;
        let (columns, rows) = (count(view.area.width), count(view.area.height));
        Self { columns, rows, held: vec![Held::Nothing; columns * rows] }
    }

    /// Marks everything between two corners; what is smaller than a step is marked as one.
    fn mark(&mut self, view: &View, (upper_left, lower_right): (Spot, Spot), held: Held) {
        let steps = |value: f64, count: usize| (value / STEP).clamp(0.0, count as f64);
        let (left, right) = (steps(upper_left.x - view.area.x, self.columns), steps(lower_right.x - view.area.x, self.columns));
        let (top, bottom) = (steps(upper_left.y - view.area.y, self.rows), steps(lower_right.y - view.area.y, self.rows));
        let range = |from: f64, to: f64| (from.floor() as usize)..(to.round() as usize).max(from.floor() as usize + usize::from(to > from));
        for row in range(top, bottom) {
            for column in range(left, right).filter(|column| *column < self.columns) {
                if let Some(slot) = self.held.get_mut(row * self.columns + column) {
                    *slot = if *slot == Held::Inner { Held::Inner } else { held };
                }
            }
        }
    }

    /// The lines on which something is held, each as far as it goes.
    fn lines(&self, view: &View) -> Vec<Item> {
        let mut all = Vec::new();
        for row in 0..self.rows {
            for (from, to, held) in self.runs(row) {
                let width = if held == Held::Inner { WIDTHS.1 } else { WIDTHS.0 };
                let spot = |column: usize| Spot::new(view.area.x + column as f64 * STEP, view.area.y + (row as f64 + 0.5) * STEP);
                all.push(Item::line(vec![spot(from), spot(to)], Stroke::plain(Ink::Spread, width)));
            }
        }
        all
    }

    fn runs(&self, row: usize) -> Vec<(usize, usize, Held)> {
        let mut runs: Vec<(usize, usize, Held)> = Vec::new();
        for column in 0..self.columns {
            let held = self.held.get(row * self.columns + column).copied().unwrap_or(Held::Nothing);
            match runs.last_mut() {
                Some(last) if last.1 == column && last.2 == held => last.1 = column + 1,
                _ if held == Held::Nothing => {}
                _ => runs.push((column, column + 1, held)),
            }
        }
        runs
    }
}

/// The corners, south-west and north-east, of what belongs to the 95 %.
pub(super) fn corners(fix: &OpenFix) -> Vec<Point> {
    let inside = fix.odds.cells.iter().take_while(|cell| cell.per_m2 >= fix.levels_per_m2.1);
    inside.flat_map(|cell| [cell.at.minus(cell.sides.times(0.5)), cell.at.plus(cell.sides.times(0.5))]).collect()
}

/// Draws the regions of a fix.
pub(super) fn regions(scene: &mut Scene<'_>, fix: &OpenFix) {
    let view = scene.view;
    let mut scan = Scan::new(&view);
    for cell in fix.odds.cells.iter().take_while(|cell| cell.per_m2 >= fix.levels_per_m2.1) {
        let half = cell.sides.times(0.5);
        let (upper_left, lower_right) = (Point::new(-half.east_m, half.north_m), Point::new(half.east_m, -half.north_m));
        let held = if cell.per_m2 >= fix.levels_per_m2.0 { Held::Inner } else { Held::Outer };
        scan.mark(&view, (view.spot(cell.at.plus(upper_left)), view.spot(cell.at.plus(lower_right))), held);
    }
    scene.draw(scan.lines(&view));
}

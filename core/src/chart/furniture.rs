//! Scale and north: in a corner that the chart leaves free.

use super::label::Label;
use super::scene::Scene;
use super::symbol::{NORTH_HALF, SCALE_RISE, north_stroke, scale_bar};
use super::{Anchor, Area, Ink, Spot};

/// Longest scale bar as a share of the chart's width.
const LONGEST_SHARE: f64 = 0.25;
/// Places tried along an edge are so far apart, dp.
const STEP: f64 = 30.0;
/// What a place further from the wanted corner costs, counted in covered places of lines.
const STEP_COST: f64 = 2.0;

/// Draws the north stroke, from the upper left corner on, and the scale, from the lower right one on.
pub(super) fn north_and_scale(scene: &mut Scene<'_>, grid_north_deg: f64) {
    north(scene, grid_north_deg);
    scale(scene);
}

fn north(scene: &mut Scene<'_>, degrees: f64) {
    let label = scene.label(&scene.lettering.grid_north(), Ink::Text);
    let half = NORTH_HALF * degrees.to_radians().sin().abs() + 6.0;
    let Some(block) = free_block(scene, 2.0 * half + 2.0 + label.width(), 2.0 * NORTH_HALF + 3.0, false) else { return };
    let middle = Spot::new(block.x + half, block.middle().y);
    let beside = Area::new(block.x + 2.0 * half + 2.0, middle.y - label.height() / 2.0, label.width(), label.height());
    scene.draw(north_stroke(middle, degrees));
    scene.write(Some(label.items(&beside, Anchor::Start)));
    scene.board.take(block);
}

fn scale(scene: &mut Scene<'_>) {
    let metres = round_length(LONGEST_SHARE * scene.view.area.width / scene.view.dp_per_m);
    let length = metres * scene.view.dp_per_m;
    let label: Label = scene.label(&scene.lettering.metres(metres), Ink::Text);
    let width = label.width().max(length);
    let Some(block) = free_block(scene, width, label.height() + SCALE_RISE + 2.0, true) else { return };
    let over = Area { height: label.height(), ..block };
    scene.draw(scale_bar(Spot::new(block.middle().x - length / 2.0, block.bottom() - 1.0), length));
    scene.write(Some(label.items(&over, Anchor::Middle)));
    scene.board.take(block);
}

/// Writes what the reader of the drawing must know, along the lower edge or the upper one, where there is room.
pub(super) fn note(scene: &mut Scene<'_>, text: &str) {
    let label: Label = scene.label(text, Ink::Text);
    let Some(block) = free_block(scene, label.width(), label.height() + 2.0, true) else { return };
    let over = Area { height: label.height(), ..block };
    scene.write(Some(label.items(&over, Anchor::Middle)));
    scene.board.take(block);
}

/// A free block at the upper or lower edge: the wanted corner, or the next best place along the edges.
fn free_block(scene: &Scene<'_>, width: f64, height: f64, lower_right: bool) -> Option<Area> {
    let frame = *scene.board.frame();
    let count = ((frame.width - width) / STEP).floor().max(0.0) as usize;
    let rows = [lower_right, !lower_right].into_iter().enumerate();
    let block = |low: bool, index: usize| {
        let step = index as f64 * STEP;
        let x = if lower_right { frame.right() - width - step } else { frame.x + step };
        Area::new(x, if low { frame.bottom() - height } else { frame.y }, width, height)
    };
    let all = rows.flat_map(|(row, low)| (0..=count).map(move |index| ((row * 3 + index) as f64 * STEP_COST, block(low, index))));
    let free = all.filter(|(_, block)| scene.board.is_free(block));
    let cost = |(far, block): &(f64, Area)| far + scene.board.crossed(block) as f64;
    free.min_by(|a, b| cost(a).total_cmp(&cost(b))).map(|(_, block)| block)
}

/// The greatest of 1, 2, 5, 10, 20, 50 … metres that is not longer.
pub(super) fn round_length(longest_m: f64) -> f64 {
    let power = 10f64.powf(longest_m.max(1e-3).log10().floor());
    [5.0, 2.0, 1.0].into_iter().map(|digit| digit * power).find(|length| *length <= longest_m).unwrap_or(power)
}

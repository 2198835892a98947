//! Legs, turns, detours and the way back as they are drawn.

use super::geometry::{beside, every, shortened};
use super::lettering::{ASCENT, DESCENT};
use super::scene::Scene;
use super::symbol::arrow;
use super::walk_chart::Walk;
use super::{Anchor, Area, Cap, Ink, Item, Spot, Stroke, Touched};
use crate::travel::Side;

/// Radius of a disc with a leg's number, in sizes of the letters.
const DISC: f64 = 0.72;
/// Radius of a disc that finds no room for its number, dp.
const SMALL_DISC: f64 = 4.5;
/// The way back runs so far beside the legs, dp.
const BACK_OFF: f64 = 16.0;
/// The way back begins and ends so far from the marks there, dp.
const BACK_CUT: f64 = 12.0;
/// Between two chevrons, dp.
const CHEVRON_STEP: f64 = 40.0;
/// A detour's box is at least so deep, dp.
const LEAST_BOX: f64 = 7.0;

/// The legs, with paper on both sides.
pub(super) fn legs(scene: &mut Scene<'_>, path: &[Spot]) {
    scene.board.avoid(path);
    let leg = |ink: Ink, width: f64| Item::line(path.to_vec(), Stroke::plain(ink, width).capped(Cap::Round));
    scene.draw([leg(Ink::Paper, 7.0), leg(Ink::LegWalked, 4.0)]);
}

/// Each detour as a thin box on the side to which it went.
pub(super) fn detours(scene: &mut Scene<'_>, walk: &Walk<'_>, path: &[Spot]) {
    for (index, (end, pair)) in walk.ends.iter().zip(path.windows(2)).enumerate() {
        let ([a, b], Some(side)) = (pair, walk.detour_side(index)) else { continue };
        let deep = (end.detour_m * scene.view.dp_per_m).max(LEAST_BOX);
        let out = b.minus(*a).unit().right().times(if side == Side::Right { deep } else { -deep });
        let around = vec![*a, a.plus(out), b.plus(out), *b];
        scene.board.avoid(&around);
        scene.draw([Item::line(around, Stroke::plain(Ink::LegWalked, 1.6))]);
    }
}

/// A disc at every turn, the leg's number in it where there is room; the last turns first.
pub(super) fn turns(scene: &mut Scene<'_>, walk: &Walk<'_>, path: &[Spot]) {
    let count = walk.ends.len();
    let turns = path.iter().enumerate().skip(1).take(count.saturating_sub(1));
    for (number, spot) in turns.collect::<Vec<_>>().into_iter().rev() {
        turn(scene, *spot, number);
        let spoken = scene.lettering.spoken_turn(walk, number);
        scene.target(*spot, Touched::Turn(number), spoken);
    }
}

fn turn(scene: &mut Scene<'_>, spot: Spot, number: usize) {
    let large = DISC * scene.letters;
    let roomy = scene.board.is_free(&Area::around(spot, large, large));
    let radius = if roomy { large } else { SMALL_DISC };
    scene.board.take(Area::around(spot, radius, radius));
    let disc = [Item::disc(spot, radius + 1.5, Ink::Paper), Item::disc(spot, radius, Ink::LegWalked)];
    if roomy {
        scene.overprint(disc);
        scene.overprint([figure(number, spot, scene.letters)]);
    } else {
        scene.draw(disc);
    }
}

fn figure(number: usize, middle: Spot, letters: f64) -> Item {
    let size = letters * if number < 100 { 0.88 } else { 0.66 };
    Item::Text {
        at: Spot::new(middle.x, middle.y + size * (ASCENT - DESCENT) * 0.66),
        anchor: Anchor::Middle,
        size,
        ink: Ink::Paper,
        halo: false,
        italic: false,
        bold: true,
        rotation_deg: 0.0,
        text: number.to_string(),
    }
}

/// The way back beside the legs: a double line with chevrons that point home.
pub(super) fn way_back(scene: &mut Scene<'_>, walk: &Walk<'_>) {
    let Some(way) = walk.way else { return };
    let path: Vec<Spot> = std::iter::once(walk.end()).chain(way.legs.iter().map(|leg| leg.end)).map(|at| scene.view.spot(at)).collect();
    let aside = beside(&path, free_side(walk) * BACK_OFF);
    let short = shortened(&aside, BACK_CUT);
    let line = if short.is_empty() { aside } else { short };
    scene.board.avoid(&line);
    let rail = |ink: Ink, width: f64| Item::line(line.clone(), Stroke::plain(ink, width));
    scene.draw([rail(Ink::Paper, 9.0), rail(Ink::WayBack, 6.0), rail(Ink::Paper, 2.4)]);
    let chevron = |(spot, way): (Spot, Spot)| arrow(spot.plus(way.times(4.0)), way, 8.0, Stroke::plain(Ink::WayBack, 2.4));
    scene.draw(every(&line, CHEVRON_STEP).into_iter().map(chevron));
}

/// To the right of the way home, 1, unless more detours lie there, -1.
fn free_side(walk: &Walk<'_>) -> f64 {
    let count = |wanted: Side| (0..walk.ends.len()).filter(|index| walk.detour_side(*index) == Some(wanted)).count();
    if count(Side::Left) > count(Side::Right) { -1.0 } else { 1.0 }
}

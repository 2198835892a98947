//! Landmarks on the chart and, for those off it, open arrows at its edge.

use super::label::Label;
use super::scene::Scene;
use super::symbol::{arrow, wedge, wedge_area};
use super::{Area, Ink, Spot, Stroke, Touched};
use crate::measure::Point;
use crate::sheet::{Landmark, Sheet};

/// Arrows stand so far inside the edge, dp.
const ARROW_INSET: f64 = 12.0;
/// An arrow that could be taken for another's stands at least so far from other names, dp.
const ARROW_APART: f64 = 8.0;
/// So many landmarks off the chart that were not sighted are shown, the nearest.
const MOST_ARROWS: usize = 3;

/// A landmark with what was read to it.
pub(super) struct Mark<'a> {
    /// The landmark.
    pub(super) landmark: &'a Landmark,
    /// The readings in words; none when it was not sighted.
    pub(super) readings: Vec<String>,
    /// From where the eye follows it off the chart.
    pub(super) from: Spot,
}

/// A mark that is drawn and waits for its name.
pub(super) struct Waiting {
    thing: Area,
    label: Label,
}

/// The landmarks of the sheet: those sighted first, then by distance from a point.
pub(super) fn marks<'a>(sheet: &'a Sheet, near: Point, mark: impl Fn(&'a Landmark) -> Mark<'a>) -> Vec<Mark<'a>> {
    let mut all: Vec<Mark<'a>> = sheet.landmarks.iter().map(mark).collect();
    let rank = |mark: &Mark<'_>| (mark.readings.is_empty(), mark.landmark.at.minus(near).length_m());
    all.sort_by(|a, b| rank(a).0.cmp(&rank(b).0).then(rank(a).1.total_cmp(&rank(b).1)));
    all
}

/// Draws the marks that lie on the chart, and arrows to those sighted that lie off it. The odds are there already.
pub(super) fn draw_marks(scene: &mut Scene<'_>, marks: &[Mark<'_>]) -> Vec<Waiting> {
    let mut waiting = Vec::new();
    for mark in marks {
        if let Some(thing) = draw_mark(scene, mark) {
            waiting.push(Waiting { thing, label: label(scene, mark) });
            scene.target(thing.middle(), Touched::Landmark(mark.landmark.name.clone()), spoken(mark));
        }
    }
    waiting
}

fn draw_mark(scene: &mut Scene<'_>, mark: &Mark<'_>) -> Option<Area> {
    let sighted = !mark.readings.is_empty();
    if !is_on_chart(scene, mark) {
        return edge(scene, mark).filter(|_| sighted).map(|(tip, way)| draw_free_arrow(scene, tip, way));
    }
    let foot = scene.view.spot(mark.landmark.at);
    scene.draw(wedge(foot, sighted));
    scene.board.take(wedge_area(foot));
    Some(wedge_area(foot))
}

/// Writes the names of marks that were drawn, the first first.
pub(super) fn name_marks(scene: &mut Scene<'_>, waiting: &[Waiting]) {
    for one in waiting {
        scene.name(&one.thing, &one.label);
    }
}

/// Arrows with names to the nearest landmarks off the chart that were not sighted, where both find room.
pub(super) fn other_arrows(scene: &mut Scene<'_>, marks: &[Mark<'_>]) {
    let mut left = MOST_ARROWS;
    for mark in marks.iter().filter(|mark| mark.readings.is_empty()) {
        if left == 0 || is_on_chart(scene, mark) {
            continue;
        }
        let Some((tip, way)) = edge(scene, mark) else { continue };
        let label = label(scene, mark);
        if named_arrow(scene, tip, way, &label, Ink::Landmark) {
            scene.target(tip, Touched::Landmark(mark.landmark.name.clone()), spoken(mark));
            left -= 1;
        }
    }
}

/// An open arrow at the edge with its name; nothing when one of them finds no room.
pub(super) fn named_arrow(scene: &mut Scene<'_>, tip: Spot, way: Spot, label: &Label, ink: Ink) -> bool {
    let thing = arrow_area(tip, way);
    let named = scene.board.is_free(&thing) && scene.board.is_apart(&thing, ARROW_APART) && scene.name(&thing, label);
    if named {
        draw_arrow(scene, tip, way, ink);
    }
    named
}

/// Where the way from a spot to one off the chart meets the edge, and its direction there.
pub(super) fn edge_towards(scene: &Scene<'_>, from: Spot, to: Spot) -> Option<(Spot, Spot)> {
    let inner = scene.view.area.inset(ARROW_INSET);
    let start = if inner.holds(from) { from } else { inner.middle() };
    let (_, leaves) = inner.clip(from, to).or_else(|| inner.clip(start, to))?;
    let begun = if inner.clip(from, to).is_some() { from } else { start };
    Some((begun.between(to, leaves), to.minus(begun).unit()))
}

fn edge(scene: &Scene<'_>, mark: &Mark<'_>) -> Option<(Spot, Spot)> {
    edge_towards(scene, mark.from, scene.view.spot(mark.landmark.at))
}

fn is_on_chart(scene: &Scene<'_>, mark: &Mark<'_>) -> bool {
    let body = wedge_area(scene.view.spot(mark.landmark.at));
    scene.view.area.inset(1.0).holds_area(&body)
}

fn draw_arrow(scene: &mut Scene<'_>, tip: Spot, way: Spot, ink: Ink) -> Area {
    let area = arrow_area(tip, way);
    scene.draw([arrow(tip, way, 8.0, Stroke::plain(Ink::Paper, 7.0)), arrow(tip, way, 8.0, Stroke::plain(ink, 3.0))]);
    scene.board.take(area);
    area
}

/// The arrow to a landmark that was sighted; on the odds it is left out, the ray shows the way.
fn draw_free_arrow(scene: &mut Scene<'_>, tip: Spot, way: Spot) -> Area {
    let area = arrow_area(tip, way);
    if scene.board.is_free(&area) { draw_arrow(scene, tip, way, Ink::Landmark) } else { area }
}

fn arrow_area(tip: Spot, way: Spot) -> Area {
    Area::around(tip.minus(way.times(4.0)), 7.5, 7.5)
}

fn label(scene: &Scene<'_>, mark: &Mark<'_>) -> Label {
    let name = scene.label(&mark.landmark.name, Ink::Text);
    mark.readings.iter().fold(name, |label, reading| label.and(reading, Ink::Sighting))
}

fn spoken(mark: &Mark<'_>) -> String {
    std::iter::once(&mark.landmark.name).chain(&mark.readings).cloned().collect::<Vec<_>>().join(", ")
}

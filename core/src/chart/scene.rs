//! A chart in the making: the window, what is drawn so far, and what room is left for names.

use super::along::{AlongName, write_along};
use super::label::{Board, Label};
use super::relief::Relief;
use super::symbol::cross_bar;
use super::view::{View, runs};
use super::{Area, Cap, DisplayList, Ink, Item, Lettering, Size, Spot, Stroke, TARGET_DP, Target, Touched};
use crate::sheet::{Line, Sheet};

/// Lines are drawn so far past the window, so that no end is seen, dp.
pub(super) const BEYOND: f64 = 20.0;
/// Paper on each side of a work of man, dp.
const CASING: f64 = 1.5;

/// The sheet as a chart draws it.
#[derive(Debug, Clone, Copy)]
pub struct Drawn<'a> {
    /// The sheet.
    pub sheet: &'a Sheet,
    /// Its heights, when it has some.
    pub relief: Option<Relief<'a>>,
    /// Bearing of grid north in the sheet's plane at the middle of what is drawn, degrees: convergence less
    /// [`crate::earth::LocalFrame::true_minus_plane_deg`].
    pub grid_north_deg: f64,
}

/// A chart in the making.
pub(super) struct Scene<'a> {
    pub(super) view: View,
    pub(super) lettering: &'a dyn Lettering,
    pub(super) letters: f64,
    pub(super) board: Board,
    items: Vec<Item>,
    words: Vec<Item>,
    targets: Vec<Target>,
}

impl<'a> Scene<'a> {
    pub(super) fn new(view: View, lettering: &'a dyn Lettering, letters: f64) -> Self {
        let board = Board::new(&view.area);
        Self { view, lettering, letters, board, items: Vec::new(), words: Vec::new(), targets: Vec::new() }
    }

    pub(super) fn draw(&mut self, items: impl IntoIterator<Item = Item>) {
        self.items.extend(items);
    }

    /// Draws over the marks of the sheet: what the walker has found out.
    pub(super) fn overprint(&mut self, items: impl IntoIterator<Item = Item>) {
        self.words.extend(items);
    }

    /// Names a thing where there is room; the shorter name when the whole one finds none.
    pub(super) fn name(&mut self, thing: &Area, label: &Label) -> bool {
        let mut placed = self.board.place(thing, label);
        if let (None, Some(short)) = (&placed, label.shorter()) {
            placed = self.board.place(thing, &short);
        }
        self.write(placed)
    }

    /// Adds letters that found room; whether they did.
    pub(super) fn write(&mut self, placed: Option<Vec<Item>>) -> bool {
        let found = placed.is_some();
        self.words.extend(placed.unwrap_or_default());
        found
    }

    pub(super) fn label(&self, text: &str, ink: Ink) -> Label {
        Label::new(text, ink, self.letters)
    }

    pub(super) fn target(&mut self, middle: Spot, what: Touched, spoken: String) {
        if self.view.area.holds(middle) {
            let half = TARGET_DP / 2.0;
            let area = Area::around(middle, half, half).moved_into(&self.view.area);
            self.targets.push(Target { area, what, spoken });
        }
    }

    /// The lines of the sheet, creeks below the works of man, but not the one left for later.
    pub(super) fn lines(&mut self, sheet: &Sheet, later: Option<&Line>) {
        let others = || sheet.lines.iter().filter(|line| later.is_none_or(|later| later.name != line.name));
        others().filter(|line| style(&line.kind).ink != Ink::Works).for_each(|line| self.line(line));
        others().filter(|line| style(&line.kind).ink == Ink::Works).for_each(|line| self.line(line));
    }

    /// One line of the sheet.
    pub(super) fn line(&mut self, line: &Line) {
        let stroke = style(&line.kind);
        let casing = Stroke::plain(Ink::Paper, stroke.width + 2.0 * CASING);
        for run in runs(&self.view, line, (0.0, line.length_m()), BEYOND) {
            self.board.avoid(&run.spots);
            if stroke.ink == Ink::Works {
                self.items.push(Item::line(run.spots.clone(), casing.clone()));
            }
            self.items.push(Item::line(run.spots, stroke.clone()));
        }
    }

    /// Bars across a line at its known points; their places, to be named later.
    pub(super) fn known_points(&mut self, line: &Line) -> Vec<(Area, String)> {
        let mut found = Vec::new();
        for known in &line.known_points {
            let place = line.at(known.along_m);
            let spot = self.view.spot(place.at);
            if self.view.shows(place.at, 2.0) {
                self.items.push(cross_bar(spot, self.view.direction(place.direction), 7.0, Stroke::plain(Ink::Works, 2.6)));
                self.target(spot, Touched::KnownPoint(known.name.clone()), known.name.clone());
                found.push((Area::around(spot, 6.0, 6.0), known.name.clone()));
            }
        }
        found
    }

    /// Writes the names of known points.
    pub(super) fn name_known_points(&mut self, points: &[(Area, String)]) {
        for (area, name) in points {
            let label = self.label(name, Ink::Text);
            self.name(area, &label);
        }
    }

    /// Names along the lines of the sheet: water first, then roads.
    pub(super) fn line_names(&mut self, sheet: &Sheet) {
        let water = |line: &&Line| style(&line.kind).ink == Ink::Water;
        sheet.lines.iter().filter(water).for_each(|line| self.line_name(line));
        sheet.lines.iter().filter(|line| !water(line)).for_each(|line| self.line_name(line));
    }

    fn line_name(&mut self, line: &Line) {
        let ink = if style(&line.kind).ink == Ink::Water { Ink::Water } else { Ink::Text };
        let name = AlongName { text: &line.name, ink, italic: ink == Ink::Water, size: self.letters };
        for run in runs(&self.view, line, (0.0, line.length_m()), 0.0) {
            if let Some(item) = write_along(&mut self.board, &run.spots, &name) {
                self.words.push(item);
                return;
            }
        }
    }

    /// The finished drawing: the chart, and below it what was drawn elsewhere.
    pub(super) fn finish(self, size: Size, spoken: String, below: Vec<Item>) -> DisplayList {
        let chart = Item::Clip { area: self.view.area, items: self.items.into_iter().chain(self.words).collect() };
        let items = std::iter::once(chart).chain(below).collect();
        DisplayList { width: size.width, height: size.height, items, targets: self.targets, spoken }
    }
}

/// How a line of the sheet is drawn, by its kind. What is not known is drawn as a road.
fn style(kind: &str) -> Stroke {
    match kind.trim().to_lowercase().as_str() {
        "track" => Stroke::plain(Ink::Works, 2.0).dashed(&[10.0, 3.0]),
        "path" | "trail" | "cutline" => Stroke::plain(Ink::Works, 1.6).dashed(&[4.0, 3.0]),
        "fence" | "hedge" | "wire" | "cableway" => Stroke::plain(Ink::Works, 1.2).dashed(&[12.0, 2.0, 2.0, 2.0]),
        "creek" | "stream" | "river" => Stroke::plain(Ink::Water, 2.4),
        "ridge" => Stroke::plain(Ink::Contour, 2.4).dashed(&[0.1, 5.0]).capped(Cap::Round),
        _ => Stroke::plain(Ink::Works, 3.0),
    }
}

/// Width of the paper that parts a line from the odds on both its sides, dp.
pub(super) fn slit_width(line: &Line) -> f64 {
    style(&line.kind).width + 2.0 * CASING
}

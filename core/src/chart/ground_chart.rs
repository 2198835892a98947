//! The chart of a sheet over its ground.

use super::furniture::north_and_scale;
use super::marks::{Mark, draw_marks, marks, name_marks};
use super::relief::{Relief, relief};
use super::scene::{Drawn, Scene};
use super::view::{Bounds, View};
use super::{Area, DisplayList, Lettering, Size, Spot};
use crate::measure::Point;
use crate::sheet::Sheet;

/// Draws a whole sheet over the contours of its heights.
///
/// `grid_north_deg` as in [`Drawn`].
#[must_use]
pub fn ground_chart(sheet: &Sheet, ground: &Relief<'_>, grid_north_deg: f64, lettering: &dyn Lettering, size: Size) -> DisplayList {
    let on_lines = sheet.lines.iter().flat_map(|line| line.pieces().flat_map(|(start, end)| [start.at, end.at]));
    let all = on_lines.chain(sheet.landmarks.iter().map(|landmark| landmark.at));
    let bounds = Bounds::of(all).unwrap_or_else(Bounds::nowhere);
    let view = View::fit(Area::new(0.0, 0.0, size.width, size.height), &bounds, Spot::new(2.6 * size.letters, 2.2 * size.letters));
    let mut scene = Scene::new(view, lettering, size.letters);
    let heights = relief(&mut scene, &Drawn { sheet, relief: Some(*ground), grid_north_deg });
    scene.lines(sheet, None);
    let middle = Point::default();
    let from = scene.view.spot(middle);
    let marks = marks(sheet, middle, |landmark| Mark { landmark, readings: Vec::new(), from });
    let waiting = draw_marks(&mut scene, &marks);
    north_and_scale(&mut scene, grid_north_deg);
    heights.note_interval(&mut scene, ground.unit);
    name_marks(&mut scene, &waiting);
    for line in &sheet.lines {
        let known = scene.known_points(line);
        scene.name_known_points(&known);
    }
    scene.line_names(sheet);
    let spoken = lettering.spoken_ground(heights.interval(), ground.unit);
    heights.write(&mut scene);
    scene.finish(size, spoken, Vec::new())
}

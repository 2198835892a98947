//! The chart of a fix on a line, and under it the ruler.

use super::band::{LEAST_SHARE, line_of, odds_band, shares};
use super::furniture::north_and_scale;
use super::marks::{Mark, draw_marks, marks, name_marks, other_arrows};
use super::relief::relief;
use super::ruler::{ruler, ruler_height};
use super::scene::{BEYOND, Drawn, Scene};
use super::symbol::cross_bar;
use super::view::{Bounds, View, points_between};
use super::{Area, DisplayList, Ink, Item, Lettering, Size, Spot, Stroke};
use crate::fix::{Fix, Sighted, Stretch};
use crate::measure::Point;
use crate::sheet::{Landmark, Line, Sheet};

/// The stretches together fill at least this share of the chart's width, whatever else should be seen.
const LEAST_FILLED: f64 = 1.0 / 6.0;
/// Landmarks and known points are taken in only while the stretches fill this share, and while the
/// likeliest is so long, dp.
const WELL_FILLED: (f64, f64) = (0.2, 15.0);
/// A single stretch fills at most this share of it, several together at most the other.
const MOST_FILLED: (f64, f64) = (0.35, 0.7);
/// A stretch shorter than this is drawn as if it were so long, metres.
const LEAST_EXTENT_M: f64 = 4.0;
/// The cross-bar of a ray stands so far from the landmark, dp.
const BAR_OFF: f64 = 22.0;

/// Draws a fix on a line: the sheet around it, the odds along the line, the bearings that were read,
/// and under it the ruler that shows the same part of the line.
///
/// The ruler takes 50 dp and two
/// rows of letters of the height; the chart above it should have at least 170 dp.
#[must_use]
pub fn fix_chart(drawn: &Drawn<'_>, line: &Line, fix: &Fix, lettering: &dyn Lettering, size: Size) -> DisplayList {
    let sheet = drawn.sheet;
    let height = (size.height - ruler_height(size.letters)).max(size.height / 2.0);
    let view = fix_view(Area::new(0.0, 0.0, size.width, height), size.letters, sheet, line, fix);
    let mut scene = Scene::new(view, lettering, size.letters);
    let heights = relief(&mut scene, drawn);
    scene.lines(sheet, Some(line));
    rays(&mut scene, sheet, fix);
    odds_band(&mut scene, sheet, line, fix);
    let others = fix.stretches.iter().map(|stretch| line_of(sheet, line, fix, stretch)).filter(|other| other.name != line.name);
    others.for_each(|other| scene.line(other));
    scene.line(line);
    words(&mut scene, sheet, line, fix, drawn.grid_north_deg);
    heights.write(&mut scene);
    let below = ruler(&view, line, fix, lettering, size);
    scene.finish(size, lettering.spoken_fix(line, fix), below)
}

/// Marks and letters, the most important first.
fn words(scene: &mut Scene<'_>, sheet: &Sheet, line: &Line, fix: &Fix, grid_north_deg: f64) {
    let best = fix.stretches.first().map_or_else(Point::default, |stretch| stretch.best.at);
    let marks = marks(sheet, best, |landmark| mark(scene, fix, landmark, best));
    let waiting = draw_marks(scene, &marks);
    let known = scene.known_points(line);
    shares(scene, sheet, line, fix);
    north_and_scale(scene, grid_north_deg);
    name_marks(scene, &waiting);
    scene.name_known_points(&known);
    for other in sheet.lines.iter().filter(|other| other.name != line.name) {
        let known = scene.known_points(other);
        scene.name_known_points(&known);
    }
    other_arrows(scene, &marks);
    scene.line_names(sheet);
}

fn mark<'a>(scene: &Scene<'_>, fix: &Fix, landmark: &'a Landmark, best: Point) -> Mark<'a> {
    let sighted = || fix.sighted.iter().filter(|sighted| sighted.landmark == landmark.name);
    let readings = sighted().map(|sighted| scene.lettering.bearing(sighted.reading)).collect();
    let end = sighted().next().map_or(best, |sighted| ray_end(fix, landmark, sighted));
    Mark { landmark, readings, from: scene.view.spot(end) }
}

/// The window: the stretches at least, and of the rest what leaves them large enough.
pub(super) fn fix_view(area: Area, letters: f64, sheet: &Sheet, line: &Line, fix: &Fix) -> View {
    let margin = Spot::new(3.2 * letters, 1.7 * letters);
    let told: Vec<&Stretch> = fix.stretches.iter().filter(|stretch| stretch.share >= LEAST_SHARE).collect();
    let limits = told.iter().flat_map(|stretch| points_between(line_of(sheet, line, fix, stretch), stretch.limits_95_m));
    let core = Bounds::of(limits).unwrap_or_else(|| Bounds::of([line.at(0.0).at]).unwrap_or_else(Bounds::nowhere));
    let extent_m = core.extent_m().max(LEAST_EXTENT_M);
    let scale = |filled: f64| filled * area.width / extent_m;
    let wider = |bounds: Bounds, (filled, point): (f64, Point)| {
        let wanted = bounds.with(point);
        if View::fit(area, &wanted, margin).dp_per_m >= scale(filled) { wanted } else { bounds }
    };
    let first_m = told.first().map_or(extent_m, |first| first.limits_95_m.1 - first.limits_95_m.0);
    let well = WELL_FILLED.0.max(WELL_FILLED.1 * extent_m / (first_m * area.width));
    let view = View::fit(area, &wanted(sheet, line, fix, core.middle(), well).into_iter().fold(core, wider), margin);
    let most = if told.len() > 1 { MOST_FILLED.1 } else { MOST_FILLED.0 };
    view.at_scale(view.dp_per_m.min(scale(most)))
}

/// What should be on the chart as well, the most wanted first, each with the share of the width that
/// the stretches must still fill.
fn wanted(sheet: &Sheet, line: &Line, fix: &Fix, middle: Point, well: f64) -> Vec<(f64, Point)> {
    let by_distance = |filled: f64, mut points: Vec<Point>| {
        points.sort_by(|a, b| a.minus(middle).length_m().total_cmp(&b.minus(middle).length_m()));
        points.into_iter().map(move |point| (filled, point))
    };
    let ends = |stretch: &Stretch| {
        let on = line_of(sheet, line, fix, stretch);
        [on.at(stretch.reach_m.0).at, on.at(stretch.reach_m.1).at]
    };
    let crossings = fix.sighted.iter().flat_map(|sighted| &sighted.crossings).map(|crossing| crossing.place.at).collect();
    let sighted = fix.sighted.iter().filter_map(|sighted| sheet.landmark(&sighted.landmark).ok()).map(|landmark| landmark.at).collect();
    let known = line.known_points.iter().map(|known| line.at(known.along_m).at).collect();
    let mut all: Vec<(f64, Point)> = fix.stretches.iter().flat_map(ends).map(|end| (LEAST_FILLED, end)).collect();
    all.extend(by_distance(LEAST_FILLED, crossings));
    all.extend(by_distance(well, sighted));
    all.extend(by_distance(well, known));
    all
}

/// Where the ray of a sighting ends: at its farthest crossing that lies in a stretch, else at its
/// farthest crossing, else as far away as the best place.
fn ray_end(fix: &Fix, landmark: &Landmark, sighted: &Sighted) -> Point {
    let on_best = || fix.stretches.iter().filter(|stretch| fix.best().is_some_and(|best| best.line == stretch.line));
    let round_m = fix.best().and_then(|best| fix.lines.get(best.line)).map_or(0.0, |line| line.odds.length_m());
    let within = |stretch: &Stretch, along_m: f64| (stretch.reach_m.0..=stretch.reach_m.1).contains(&along_m);
    // The stretch of a ring may reach over its beginning.
    let inside = |along_m: f64| [0.0, round_m, -round_m].iter().any(|round| on_best().any(|stretch| within(stretch, along_m + round)));
    let farthest = |only_inside: bool| {
        let crossings = sighted.crossings.iter().filter(|crossing| !only_inside || inside(crossing.place.along_m));
        crossings.max_by(|a, b| a.distance_m.total_cmp(&b.distance_m)).map(|crossing| crossing.place.at)
    };
    let back = || landmark.at.minus(Point::polar(sighted.distance_m, sighted.plane_deg));
    farthest(true).or_else(|| farthest(false)).unwrap_or_else(back)
}

/// The bearings that were read, from the landmark to where they cross the line.
fn rays(scene: &mut Scene<'_>, sheet: &Sheet, fix: &Fix) {
    for sighted in &fix.sighted {
        if let Ok(landmark) = sheet.landmark(&sighted.landmark) {
            let end = scene.view.spot(ray_end(fix, landmark, sighted));
            ray(scene, scene.view.spot(landmark.at), end);
        }
    }
}

pub(super) fn ray(scene: &mut Scene<'_>, mark: Spot, end: Spot) {
    let Some((enters, leaves)) = scene.view.area.inset(-BEYOND).clip(mark, end) else { return };
    let path = vec![mark.between(end, enters), mark.between(end, leaves)];
    let way = end.minus(mark).unit();
    scene.board.avoid(&path);
    scene.draw([Item::line(path, Stroke::plain(Ink::Sighting, 1.8).dashed(&[11.0, 4.0]))]);
    if mark.distance(end) > 2.0 * BAR_OFF {
        scene.draw([cross_bar(mark.plus(way.times(BAR_OFF)), way, 4.5, Stroke::plain(Ink::Sighting, 1.8))]);
    }
}

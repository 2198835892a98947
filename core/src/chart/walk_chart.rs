//! The chart of a walk: the legs from the car, where they lead, how surely, and the way back.

use super::furniture::north_and_scale;
use super::marks::{Mark, draw_marks, edge_towards, marks, name_marks, named_arrow, other_arrows};
use super::outline::Outline;
use super::relief::relief;
use super::scene::{Drawn, Scene};
use super::symbol::{CRADLE, cradle, ring};
use super::view::{Bounds, View};
use super::walked::{detours, legs, turns, way_back};
use super::{Area, DisplayList, Ink, Lettering, Size, Spot, Touched};
use crate::homeward::WayBack;
use crate::measure::{Covariance, PLANE_95, Point};
use crate::sheet::Sheet;
use crate::travel::{Leg, LegEnd, Side};

/// The outline of a spread is at least so wide, dp: the chart closes in.
const LEAST_OUTLINE: f64 = 12.0;
/// The window is never narrower than this, metres.
const LEAST_WINDOW_M: f64 = 60.0;

/// A walk as it is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Walk<'a> {
    /// Where the car stands in the sheet's plane.
    pub car: Point,
    /// One-sigma covariance of that place.
    pub car_covariance: Covariance,
    /// The end of each leg, reckoned from the car.
    pub ends: &'a [LegEnd],
    /// The legs as they stand in the log, in the same order: the sides of the detours are theirs.
    pub legs: &'a [Leg],
    /// The way back, when it is to be shown.
    pub way: Option<&'a WayBack>,
}

impl Walk<'_> {
    /// Where the walk ends.
    #[must_use]
    pub fn end(&self) -> Point {
        self.ends.last().map_or(self.car, |end| end.at)
    }

    /// One-sigma covariance of that end on the sheet: the car's own and that of the legs.
    #[must_use]
    pub fn covariance(&self) -> Covariance {
        self.ends.last().map_or(self.car_covariance, |end| end.covariance.plus(self.car_covariance))
    }

    /// The side to which leg `index`, counted from 0, went round something.
    #[must_use]
    pub fn detour_side(&self, index: usize) -> Option<Side> {
        self.legs.get(index).and_then(|leg| leg.detour).map(|detour| detour.side)
    }
}

/// Draws a walk over the sheet: legs and detours, the end inside its 95 % outline, the way back.
#[must_use]
pub fn walk_chart(drawn: &Drawn<'_>, walk: &Walk<'_>, lettering: &dyn Lettering, size: Size) -> DisplayList {
    let sheet = drawn.sheet;
    let view = walk_view(Area::new(0.0, 0.0, size.width, size.height), size.letters, walk);
    let mut scene = Scene::new(view, lettering, size.letters);
    let heights = relief(&mut scene, drawn);
    scene.lines(sheet, None);
    let path: Vec<Spot> = std::iter::once(walk.car).chain(walk.ends.iter().map(|end| end.at)).map(|at| view.spot(at)).collect();
    way_back(&mut scene, walk);
    detours(&mut scene, walk, &path);
    legs(&mut scene, &path);
    let outline = spreads(&mut scene, walk);
    turns(&mut scene, walk, &path);
    car_and_walker(&mut scene, walk, &outline);
    words(&mut scene, sheet, walk, &outline, drawn.grid_north_deg);
    heights.write(&mut scene);
    scene.finish(size, lettering.spoken_walk(walk), Vec::new())
}

/// Letters and the marks of the sheet, the most important first.
fn words(scene: &mut Scene<'_>, sheet: &Sheet, walk: &Walk<'_>, outline: &Outline, grid_north_deg: f64) {
    let from = scene.view.spot(walk.end());
    let marks = marks(sheet, walk.end(), |landmark| Mark { landmark, readings: Vec::new(), from });
    let waiting = draw_marks(scene, &marks);
    north_and_scale(scene, grid_north_deg);
    name_car(scene, walk);
    let spread = scene.label(&scene.lettering.plus_minus(outline.major_m), Ink::Text).bold();
    let placed = scene.board.place_in(&outline.blocks(spread.width(), spread.height()), &spread);
    scene.write(placed);
    name_marks(scene, &waiting);
    for line in &sheet.lines {
        let known = scene.known_points(line);
        scene.name_known_points(&known);
    }
    other_arrows(scene, &marks);
    scene.line_names(sheet);
}

/// The whole walk; closer around its end when the spread could not be seen otherwise.
pub(super) fn walk_view(area: Area, letters: f64, walk: &Walk<'_>) -> View {
    let spread = walk.covariance();
    let (east_m, north_m) = (PLANE_95 * spread.east2.max(0.0).sqrt(), PLANE_95 * spread.north2.max(0.0).sqrt());
    let reach = [Point::new(east_m, north_m), Point::new(-east_m, -north_m)].map(|step| walk.end().plus(step));
    let back = walk.way.into_iter().flat_map(|way| way.legs.iter().map(|leg| leg.end));
    let all = std::iter::once(walk.car).chain(walk.ends.iter().map(|end| end.at)).chain(reach).chain(back);
    let bounds = Bounds::of(all).unwrap_or_else(Bounds::nowhere);
    let view = View::fit(area, &bounds, Spot::new(2.6 * letters, 2.2 * letters));
    let closest = area.width / LEAST_WINDOW_M;
    let wanted = LEAST_OUTLINE / (2.0 * PLANE_95 * spread.ellipse().major_m);
    if wanted > view.dp_per_m && wanted <= closest {
        return view.at_scale(wanted).centred(walk.end());
    }
    view.at_scale(view.dp_per_m.min(closest))
}

/// The outline at the end, and the car's own where it is larger than its mark. The room of both marks is kept free.
fn spreads(scene: &mut Scene<'_>, walk: &Walk<'_>) -> Outline {
    let end = Outline::new(&scene.view, walk.end(), walk.covariance());
    scene.draw(end.items(2.2));
    scene.board.take_path(&end.spots, 4.0);
    scene.board.take(Area::around(scene.view.spot(walk.car), CRADLE, CRADLE));
    if walk.ends.is_empty() {
        return end;
    }
    let start = Outline::new(&scene.view, walk.car, walk.car_covariance);
    if start.major() > CRADLE + 2.0 {
        scene.draw(start.items(1.4));
        scene.board.avoid(&start.spots);
    }
    scene.board.take(Area::around(end.middle, 9.0, 9.0));
    end
}

/// The two marks that nothing may cover: where one set out, and where one is.
fn car_and_walker(scene: &mut Scene<'_>, walk: &Walk<'_>, outline: &Outline) {
    let spot = scene.view.spot(walk.car);
    if scene.view.area.holds(spot) {
        scene.overprint(cradle(spot));
        scene.target(spot, Touched::Car, scene.lettering.car());
    }
    if !walk.ends.is_empty() {
        scene.overprint(ring(outline.middle, outline.ring_radius()));
    }
}

fn name_car(scene: &mut Scene<'_>, walk: &Walk<'_>) {
    let spot = scene.view.spot(walk.car);
    let label = scene.label(&scene.lettering.car(), Ink::Car);
    if scene.view.area.holds(spot) {
        scene.name(&Area::around(spot, CRADLE, CRADLE), &label);
    } else if let Some((tip, way)) = edge_towards(scene, scene.view.spot(walk.end()), spot) {
        named_arrow(scene, tip, way, &label, Ink::Car);
    }
}

//! The chart of a fix in the open: the rays and rings of what was measured, and the ellipse or the regions.

use super::fix_chart::ray;
use super::furniture::north_and_scale;
use super::marks::{Mark, draw_marks, marks, name_marks, other_arrows};
use super::outline::Outline;
use super::regions::{corners, regions};
use super::relief::relief;
use super::scene::{Drawn, Scene};
use super::symbol::ring;
use super::view::{Bounds, View};
use super::{Area, DisplayList, Ink, Item, Lettering, Size, Spot, Stroke, Touched};
use crate::fix::{Measured, OpenFix, OpenShape};
use crate::measure::{NamedBearing, PLANE_95, Point};
use crate::sheet::Sheet;

/// Landmarks are taken in only while the 95 % fill this share of the chart's width.
const FILLED: f64 = 0.15;
/// The 95 % fill at most this share of it.
const MOST_FILLED: f64 = 0.6;
/// An area smaller than this is drawn as if it were so wide, metres.
const LEAST_EXTENT_M: f64 = 8.0;
/// Radius of the ring at the likeliest place of a region, dp.
const RING: f64 = 5.0;

/// Draws a fix in the open over the sheet.
///
/// `read` holds landmarks with their readings.
#[must_use]
pub fn open_chart(drawn: &Drawn<'_>, fix: &OpenFix, read: &[(String, NamedBearing)], lettering: &dyn Lettering, size: Size) -> DisplayList {
    let sheet = drawn.sheet;
    let view = open_view(Area::new(0.0, 0.0, size.width, size.height), size.letters, sheet, fix);
    let mut scene = Scene::new(view, lettering, size.letters);
    let heights = relief(&mut scene, drawn);
    if fix.shape == OpenShape::Regions {
        regions(&mut scene, fix);
    }
    scene.lines(sheet, None);
    measured(&mut scene, sheet, fix);
    let outline = places(&mut scene, fix);
    let from = view.spot(fix.at);
    let reading = |name: &str| read.iter().filter(|(other, _)| other == name).map(|(_, bearing)| lettering.bearing(*bearing)).collect();
    let marks = marks(sheet, fix.at, |landmark| Mark { landmark, readings: reading(&landmark.name), from });
    let waiting = draw_marks(&mut scene, &marks);
    north_and_scale(&mut scene, drawn.grid_north_deg);
    told(&mut scene, fix, outline.as_ref());
    name_marks(&mut scene, &waiting);
    other_arrows(&mut scene, &marks);
    scene.line_names(sheet);
    heights.write(&mut scene);
    scene.finish(size, lettering.spoken_open_fix(fix), Vec::new())
}

/// Everything of the 95 %, and of the landmarks what leaves them large enough.
fn open_view(area: Area, letters: f64, sheet: &Sheet, fix: &OpenFix) -> View {
    let core = Bounds::of(extent(fix)).unwrap_or_else(Bounds::nowhere);
    let extent_m = core.extent_m().max(LEAST_EXTENT_M);
    let margin = Spot::new(3.2 * letters, 1.7 * letters);
    let mut sighted: Vec<Point> =
        fix.seen.iter().filter_map(|one| sheet.landmark(&one.landmark).ok()).map(|landmark| landmark.at).collect();
    sighted.sort_by(|a, b| a.minus(fix.at).length_m().total_cmp(&b.minus(fix.at).length_m()));
    let wider = |bounds: Bounds, at: Point| {
        let wanted = bounds.with(at);
        if View::fit(area, &wanted, margin).dp_per_m >= FILLED * area.width / extent_m { wanted } else { bounds }
    };
    let view = View::fit(area, &sighted.into_iter().fold(core, wider), margin);
    view.at_scale(view.dp_per_m.min(MOST_FILLED * area.width / extent_m))
}

fn extent(fix: &OpenFix) -> Vec<Point> {
    match fix.shape {
        OpenShape::Regions => corners(fix),
        OpenShape::Ellipse => {
            let covariance = fix.places().first().map(|(_, covariance)| *covariance).unwrap_or_default();
            let half = |square: f64| PLANE_95 * square.max(0.0).sqrt();
            let reach = Point::new(half(covariance.east2), half(covariance.north2));
            vec![fix.at.minus(reach), fix.at.plus(reach)]
        }
    }
}

/// A ray for each bearing, from the landmark to as far as the likeliest place, and a ring for each distance.
fn measured(scene: &mut Scene<'_>, sheet: &Sheet, fix: &OpenFix) {
    for one in &fix.seen {
        let Ok(landmark) = sheet.landmark(&one.landmark) else { continue };
        let mark = scene.view.spot(landmark.at);
        match one.measured {
            Measured::Bearing => ray(scene, mark, scene.view.spot(landmark.at.minus(Point::polar(one.distance_m, one.read)))),
            Measured::Distance => {
                let stroke = Some(Stroke::plain(Ink::Sighting, 1.4).dashed(&[2.0, 4.0]));
                scene.draw([Item::Circle { centre: mark, radius: one.read * scene.view.dp_per_m, stroke, fill: None }]);
            }
            Measured::Angle => {}
        }
    }
}

/// The outline of the one place, or a ring at the likeliest place of each region.
fn places(scene: &mut Scene<'_>, fix: &OpenFix) -> Option<Outline> {
    let places = fix.places();
    if fix.shape == OpenShape::Regions {
        for (index, (at, _)) in places.iter().enumerate() {
            let spot = scene.view.spot(*at);
            scene.overprint(ring(spot, RING));
            scene.board.take(Area::around(spot, RING + 2.0, RING + 2.0));
            let share = fix.regions.get(index).map_or(0.0, |region| region.share);
            let spoken = scene.lettering.share(share);
            scene.target(spot, Touched::Stretch(index), spoken);
        }
        return None;
    }
    let (at, covariance) = places.first().copied()?;
    let outline = Outline::new(&scene.view, at, covariance);
    scene.draw(outline.items(2.2));
    scene.board.take_path(&outline.spots, 4.0);
    scene.overprint(ring(outline.middle, outline.ring_radius()));
    scene.target(outline.middle, Touched::Stretch(0), scene.lettering.plus_minus(outline.major_m));
    Some(outline)
}

/// The half-axis of the ellipse, or the share of each region.
fn told(scene: &mut Scene<'_>, fix: &OpenFix, outline: Option<&Outline>) {
    if let Some(outline) = outline {
        let spread = scene.label(&scene.lettering.plus_minus(outline.major_m), Ink::Text).bold();
        let placed = scene.board.place_in(&outline.blocks(spread.width(), spread.height()), &spread);
        scene.write(placed);
        return;
    }
    for region in fix.regions.iter().filter(|_| fix.regions.len() > 1) {
        let label = scene.label(&scene.lettering.share(region.share), Ink::Text).bold();
        let spot = scene.view.spot(region.best);
        scene.name(&Area::around(spot, RING, RING), &label);
    }
}

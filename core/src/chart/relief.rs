//! The contours under a chart: thin, as paper maps have them, and no closer together than can be told apart.

use super::blank::hatch;
use super::furniture::note;
use super::hollow::with_ticks;
use super::label::Board;
use super::lettering::text_width;
use super::scene::{BEYOND, Drawn, Scene};
use super::view::View;
use super::{Anchor, Area, Ink, Item, Spot, Stroke};
use crate::earth::{LatLon, LocalFrame};
use crate::ground::{Bounds, Contour, HeightUnit, Heights, Interval, Post};

/// The heights under a chart.
#[derive(Debug, Clone, Copy)]
pub struct Relief<'a> {
    /// The heights.
    pub heights: &'a Heights,
    /// The unit in which contours are counted and lettered.
    pub unit: HeightUnit,
    /// From contour to contour, metres; by the ground and the scale when absent.
    pub interval_m: Option<f64>,
}

/// Contours lie at least so far apart on the mean, dp: closer together they hide what the chart is for. Own choice.
const APART_DP: f64 = 9.0;
/// Most posts that are looked at: more are thinned out, a drawing shows no more.
const MOST_POSTS: usize = 200_000;
/// Widths of a contour and of an index contour, dp.
const WIDTHS: (f64, f64) = (0.6, 1.2);
/// Letters of heights are so large beside the other letters.
const SMALLER: f64 = 0.78;
/// Heights are lettered so far apart on a contour, dp.
const LETTERED_DP: f64 = 260.0;
/// Contours are simplified by less than a painter can show, dp.
const TOLERANCE_DP: f64 = 0.35;
/// Intervals in their unit, each with its fifth as index contour.
const STEPS: [f64; 9] = [5.0, 10.0, 20.0, 40.0, 50.0, 100.0, 200.0, 500.0, 1000.0];

/// Heights to be lettered once everything else has found its place.
#[derive(Default)]
pub(super) struct Lettered {
    interval: f64,
    has_blanks: bool,
    labels: Vec<(Spot, f64, String)>,
}

/// The part of the heights that the window shows.
struct Shown<'a> {
    heights: Heights,
    frame: &'a LocalFrame,
    view: View,
}

/// Draws the contours, and hatches what has no height; answers the heights that are still to be lettered.
pub(super) fn relief(scene: &mut Scene<'_>, drawn: &Drawn<'_>) -> Lettered {
    let Some(relief) = drawn.relief else { return Lettered::default() };
    let shown = Shown::of(relief.heights, &drawn.sheet.frame, scene.view);
    let laid = shown.as_ref().map(|shown| (shown, Lay::of(shown)));
    let is_known = |spot: Spot| laid.as_ref().is_some_and(|(shown, lay)| shown.heights.at_post_m(lay.post(spot)).is_some());
    let has_blanks = hatch(scene, is_known);
    let Some((shown, lay)) = &laid else { return Lettered { has_blanks, ..Lettered::default() } };
    let Some(interval_m) = relief.interval_m.or_else(|| shown.interval_m(relief.unit)) else {
        return Lettered { has_blanks, ..Lettered::default() };
    };
    let mut lettered = Lettered { interval: interval_m / relief.unit.metres(), has_blanks, labels: Vec::new() };
    contours(scene, shown, lay, (interval_m, relief.unit), &mut lettered);
    lettered
}

fn contours(scene: &mut Scene<'_>, shown: &Shown<'_>, lay: &Lay, (interval_m, unit): (f64, HeightUnit), lettered: &mut Lettered) {
    let dp_per_m = scene.view.dp_per_m;
    for contour in &shown.heights.contours(Interval { interval_m, base_m: 0.0 }).unwrap_or_default() {
        let simple = contour.simplified(TOLERANCE_DP / dp_per_m, lay.spacing_m);
        let width = if contour.index { WIDTHS.1 } else { WIDTHS.0 };
        let path: Vec<Spot> = simple.posts.iter().map(|post| lay.spot(*post)).collect();
        let path = if contour.depression { with_ticks(&path) } else { path };
        scene.draw([Item::line(path, Stroke::plain(Ink::Contour, width))]);
        if contour.index {
            let text = scene.lettering.height(contour.height_m / unit.metres(), unit);
            lettered.labels.extend(labels(contour, &text, lay, scene.letters * SMALLER, dp_per_m));
        }
    }
}

/// Where the height of an index contour can be written.
fn labels(contour: &Contour, text: &str, lay: &Lay, size: f64, dp_per_m: f64) -> Vec<(Spot, f64, String)> {
    let label_m = 1.3 * text_width(text, size, false) / dp_per_m;
    let places = contour.label_places(label_m, LETTERED_DP / dp_per_m, lay.spacing_m);
    let upright = |deg: f64| {
        let turned = (deg - 90.0 + 180.0).rem_euclid(360.0) - 180.0;
        if turned.abs() > 90.0 { turned - 180.0 * turned.signum() } else { turned }
    };
    places.iter().map(|place| (lay.spot(place.post), upright(place.reads_to_deg), text.to_owned())).collect()
}

impl Lettered {
    /// From contour to contour, in the sheet's unit; 0 when none are drawn.
    pub(super) fn interval(&self) -> f64 {
        self.interval
    }

    /// Writes how far the contours lie apart, where there are some.
    pub(super) fn note_interval(&self, scene: &mut Scene<'_>, unit: HeightUnit) {
        if self.interval > 0.0 {
            note(scene, &scene.lettering.interval(self.interval, unit));
        }
    }

    /// Letters the heights, and what the hatching stands for, where there is room left.
    pub(super) fn write(self, scene: &mut Scene<'_>) {
        if self.has_blanks {
            note(scene, &scene.lettering.no_heights());
        }
        let size = scene.letters * SMALLER;
        for (at, rotation_deg, text) in self.labels {
            if let Some(covers) = free(&scene.board, at, rotation_deg, text_width(&text, size, false), size) {
                covers.iter().for_each(|square| scene.board.take(*square));
                let down = Spot::new(-rotation_deg.to_radians().sin(), rotation_deg.to_radians().cos()).times(0.27 * size);
                scene.write(Some(vec![Item::Text {
                    at: at.plus(down),
                    anchor: Anchor::Middle,
                    size,
                    ink: Ink::Contour,
                    halo: true,
                    italic: false,
                    bold: false,
                    rotation_deg,
                    text,
                }]));
            }
        }
    }
}

/// The squares that letters cover, when they are free.
fn free(board: &Board, at: Spot, rotation_deg: f64, width: f64, size: f64) -> Option<Vec<Area>> {
    let way = Spot::new(rotation_deg.to_radians().cos(), rotation_deg.to_radians().sin());
    let count = (width / size).ceil().max(1.0);
    let place = |index: usize| at.plus(way.times(((index as f64 + 0.5) / count - 0.5) * width));
    let squares: Vec<Area> = (0..count as usize).map(|index| Area::around(place(index), 0.5 * size, 0.5 * size)).collect();
    let clear = squares.iter().all(|square| board.is_free(square) && board.crossed(square) == 0);
    clear.then_some(squares)
}

impl<'a> Shown<'a> {
    fn of(heights: &Heights, frame: &'a LocalFrame, view: View) -> Option<Self> {
        let window = view.area.inset(-BEYOND);
        let corners = [(window.x, window.y), (window.right(), window.y), (window.x, window.bottom()), (window.right(), window.bottom())];
        let corners = corners.map(|(x, y)| frame.to_earth(view.point(Spot::new(x, y))));
        let window = heights.layout().window(&bounds(frame.origin(), &corners)?).ok()??;
        let cut = heights.cut(&window).ok()?;
        let step = (cut.layout().posts().ok()? as f64 / MOST_POSTS as f64).sqrt().ceil();
        Some(Self { heights: if step > 1.0 { cut.every(step as usize).ok()? } else { cut }, frame, view })
    }

    /// The least interval whose contours can be told apart; `None` on flat ground.
    fn interval_m(&self, unit: HeightUnit) -> Option<f64> {
        let rise = self.rise()?;
        let least_m = APART_DP / self.view.dp_per_m * rise;
        let steps = STEPS.iter().map(|step| step * unit.metres());
        steps.into_iter().find(|step_m| *step_m >= least_m).filter(|_| rise > 0.0)
    }

    /// Mean steepness from post to post: over an area it is how much contour there is for each interval.
    fn rise(&self) -> Option<f64> {
        let (east_m, south_m) = self.heights.layout().spacing_in_middle_m().ok()?;
        let columns = self.heights.layout().columns;
        let rows: Vec<&[f32]> = self.heights.values_m().chunks_exact(columns).collect();
        let (mut sum, mut count) = (0.0, 0.0);
        for pair in rows.windows(2) {
            let [upper, lower] = pair else { continue };
            for ((here, next), below) in upper.iter().zip(upper.iter().skip(1)).zip(lower.iter()) {
                let steep = (f64::from(next - here) / east_m).hypot(f64::from(below - here) / south_m);
                if steep.is_finite() {
                    (sum, count) = (sum + steep, count + 1.0);
                }
            }
        }
        (count > 0.0).then(|| sum / count)
    }
}

/// The meridians and parallels around four places; `None` where they lie around a pole.
fn bounds(middle: LatLon, corners: &[LatLon; 4]) -> Option<Bounds> {
    let apart = |at: &LatLon| (at.lon_deg() - middle.lon_deg() + 180.0).rem_euclid(360.0) - 180.0;
    let least = |of: &dyn Fn(&LatLon) -> f64| corners.iter().map(of).fold(f64::INFINITY, f64::min);
    let most = |of: &dyn Fn(&LatLon) -> f64| corners.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    let corner = |lat_deg: f64, apart_deg: f64| LatLon::new(lat_deg, (middle.lon_deg() + apart_deg + 180.0).rem_euclid(360.0) - 180.0);
    let south_west = corner(least(&|at: &LatLon| at.lat_deg()), least(&apart)).ok()?;
    let north_east = corner(most(&|at: &LatLon| at.lat_deg()), most(&apart)).ok()?;
    Some(Bounds { south_west, north_east })
}

/// Where posts are drawn: straight between the four corners of what is shown, which leaves the true place by the bend of a
/// parallel, `width² tan(latitude) / 8 R`: 2 m where 10 km are shown.
struct Lay {
    corners: [Spot; 4],
    columns: f64,
    rows: f64,
    spacing_m: (f64, f64),
}

impl Lay {
    fn of(shown: &Shown<'_>) -> Self {
        let layout = shown.heights.layout();
        let (columns, rows) = ((layout.columns - 1) as f64, (layout.rows - 1) as f64);
        let spot = |column: f64, row: f64| {
            let at = layout.place_of(Post { column, row });
            at.map_or(Spot::new(f64::NAN, f64::NAN), |at| shown.view.spot(shown.frame.to_plane(at)))
        };
        let corners = [spot(0.0, 0.0), spot(columns, 0.0), spot(0.0, rows), spot(columns, rows)];
        Self { corners, columns, rows, spacing_m: layout.spacing_in_middle_m().unwrap_or((1.0, 1.0)) }
    }

    fn spot(&self, post: Post) -> Spot {
        let [north_west, north_east, south_west, south_east] = self.corners;
        let (east, south) = (post.column / self.columns, post.row / self.rows);
        north_west.between(north_east, east).between(south_west.between(south_east, east), south)
    }

    /// The place among the posts that is drawn at a spot, as if the four corners stood in a parallelogram.
    fn post(&self, spot: Spot) -> Post {
        let [north_west, north_east, south_west, _] = self.corners;
        let (east, south, from) = (north_east.minus(north_west), south_west.minus(north_west), spot.minus(north_west));
        let cross = |a: Spot, b: Spot| a.x * b.y - a.y * b.x;
        let whole = cross(east, south);
        Post { column: cross(from, south) / whole * self.columns, row: cross(east, from) / whole * self.rows }
    }
}

//! The window: which part of the sheet's plane is drawn, and how lines are cut to it.

use super::{Area, Spot};
use crate::measure::Point;
use crate::sheet::Line;

/// Vertices nearer than this to the last one drawn are left out, dp.
const LEAST_STEP_DP: f64 = 0.8;

/// The least upright rectangle around points of the plane.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bounds {
    low: Point,
    high: Point,
}

impl Bounds {
    pub(super) fn of(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        let mut points = points.into_iter().filter(|point| point.length_m().is_finite());
        let first = points.next()?;
        Some(points.fold(Self { low: first, high: first }, Self::with))
    }

    /// The bounds of the plane's origin alone.
    pub(super) fn nowhere() -> Self {
        Self { low: Point::default(), high: Point::default() }
    }

    pub(super) fn with(self, point: Point) -> Self {
        Self {
            low: Point::new(self.low.east_m.min(point.east_m), self.low.north_m.min(point.north_m)),
            high: Point::new(self.high.east_m.max(point.east_m), self.high.north_m.max(point.north_m)),
        }
    }

    fn size(&self) -> Point {
        self.high.minus(self.low)
    }

    /// The longer side, metres.
    pub(super) fn extent_m(&self) -> f64 {
        self.size().east_m.max(self.size().north_m)
    }

    pub(super) fn middle(&self) -> Point {
        self.low.plus(self.high).times(0.5)
    }
}

/// A part of the plane as it is drawn into an area; the plane's north is up.
#[derive(Debug, Clone, Copy)]
pub(super) struct View {
    pub(super) area: Area,
    middle: Point,
    pub(super) dp_per_m: f64,
}

impl View {
    /// The closest view that shows the bounds with so much room left at the sides and above and below.
    pub(super) fn fit(area: Area, bounds: &Bounds, margin: Spot) -> Self {
        let size = bounds.size();
        let across = (area.width - 2.0 * margin.x).max(area.width / 3.0) / size.east_m.max(1e-3);
        let down = (area.height - 2.0 * margin.y).max(area.height / 3.0) / size.north_m.max(1e-3);
        Self { area, middle: bounds.middle(), dp_per_m: across.min(down) }
    }

    /// The view around another middle.
    pub(super) fn centred(self, middle: Point) -> Self {
        Self { middle, ..self }
    }

    /// The view at another scale around its middle.
    pub(super) fn at_scale(self, dp_per_m: f64) -> Self {
        Self { dp_per_m, ..self }
    }

    /// Where a point of the plane is drawn.
    pub(super) fn spot(&self, point: Point) -> Spot {
        let step = point.minus(self.middle).times(self.dp_per_m);
        let middle = self.area.middle();
        Spot::new(middle.x + step.east_m, middle.y - step.north_m)
    }

    /// The point of the plane that is drawn there.
    pub(super) fn point(&self, spot: Spot) -> Point {
        let step = spot.minus(self.area.middle());
        self.middle.plus(Point::new(step.x, -step.y).times(1.0 / self.dp_per_m))
    }

    /// A step of the plane as a direction of the drawing, length 1.
    pub(super) fn direction(&self, step: Point) -> Spot {
        Spot::new(step.east_m, -step.north_m).unit()
    }

    /// Whether the point is drawn at least so far inside the area.
    pub(super) fn shows(&self, point: Point, inside: f64) -> bool {
        self.area.inset(inside).holds(self.spot(point))
    }
}

/// A part of a line that lies in one piece in the window.
#[derive(Debug, Clone)]
pub(super) struct Run {
    /// Where it begins, metres along the line.
    pub(super) from_m: f64,
    /// Where it ends.
    pub(super) to_m: f64,
    /// Its points on the drawing.
    pub(super) spots: Vec<Spot>,
}

/// What the window shows of a line between two distances along it, `beyond` dp past the window's edge included.
pub(super) fn runs(view: &View, line: &Line, range_m: (f64, f64), beyond: f64) -> Vec<Run> {
    let window = view.area.inset(-beyond);
    let mut found: Vec<Run> = Vec::new();
    for (start, end) in line.pieces() {
        let (from_m, to_m) = (start.along_m.max(range_m.0), end.along_m.min(range_m.1));
        if from_m >= to_m {
            continue;
        }
        let spot = |along_m: f64| view.spot(start.at.plus(start.direction.times(along_m - start.along_m)));
        let Some((enters, leaves)) = window.clip(spot(from_m), spot(to_m)) else { continue };
        let along = |share: f64| from_m + (to_m - from_m) * share;
        let (enters, leaves) = (along(enters), along(leaves));
        add(&mut found, (enters, spot(enters)), (leaves, spot(leaves)));
    }
    found
}

/// Joins a piece to the run that it continues, or begins a new run.
fn add(found: &mut Vec<Run>, start: (f64, Spot), end: (f64, Spot)) {
    match found.last_mut() {
        Some(run) if start.0 - run.to_m < 1e-6 => extend(run, end),
        _ => found.push(Run { from_m: start.0, to_m: end.0, spots: vec![start.1, end.1] }),
    }
}

/// The last point of a run is always its true end; those before it are a step apart.
fn extend(run: &mut Run, end: (f64, Spot)) {
    if let [.., before, last] = run.spots.as_slice()
        && before.distance(*last) < LEAST_STEP_DP
    {
        run.spots.pop();
    }
    run.spots.push(end.1);
    run.to_m = end.0;
}

/// The points of a line between two distances along it, both ends included.
pub(super) fn points_between(line: &Line, range_m: (f64, f64)) -> Vec<Point> {
    let between = |(from_m, to_m): (f64, f64)| {
        line.pieces().map(|(start, _)| start).filter(move |start| start.along_m > from_m && start.along_m < to_m)
    };
    let inside = line.parts_m(range_m).into_iter().flat_map(between).map(|start| start.at);
    std::iter::once(line.at(range_m.0).at).chain(inside).chain(std::iter::once(line.at(range_m.1).at)).collect()
}

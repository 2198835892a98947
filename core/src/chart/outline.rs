//! The spread of a point: the outline that holds it with 95 %.

use super::symbol::cross_bar;
use super::view::View;
use super::{Anchor, Area, Ink, Item, Spot, Stroke};
use crate::measure::{Covariance, PLANE_95, Point};

/// Corners of the polygon that is drawn for an ellipse.
const CORNERS: usize = 72;
/// Length of the inward ticks, dp.
const TICK: f64 = 6.0;
/// Radius of the walker's ring where there is room, dp.
const RING: f64 = 7.0;

/// A 95 % outline on the drawing.
pub(super) struct Outline {
    pub(super) middle: Spot,
    pub(super) spots: Vec<Spot>,
    /// Greater half-axis at 95 %, metres.
    pub(super) major_m: f64,
    axes: [Spot; 2],
}

impl Outline {
    pub(super) fn new(view: &View, at: Point, covariance: Covariance) -> Self {
        let ellipse = covariance.ellipse();
        let half = |metres: f64| PLANE_95 * metres * view.dp_per_m;
        let major = Spot::polar(half(ellipse.major_m), ellipse.major_bearing_deg);
        let minor = Spot::polar(half(ellipse.minor_m), ellipse.major_bearing_deg + 90.0);
        let middle = view.spot(at);
        let corner = |index: usize| {
            let (sin, cos) = (std::f64::consts::TAU * index as f64 / CORNERS as f64).sin_cos();
            middle.plus(major.times(cos)).plus(minor.times(sin))
        };
        Self { middle, spots: (0..CORNERS).map(corner).collect(), major_m: PLANE_95 * ellipse.major_m, axes: [major, minor] }
    }

    /// Greater half-axis, dp.
    pub(super) fn major(&self) -> f64 {
        self.axes.iter().map(|axis| axis.length()).fold(0.0, f64::max)
    }

    fn minor(&self) -> f64 {
        self.axes.iter().map(|axis| axis.length()).fold(f64::INFINITY, f64::min)
    }

    /// The walker's ring, stroke included, stays inside the outline.
    pub(super) fn ring_radius(&self) -> f64 {
        (self.minor() - 3.0).clamp(self.minor().min(1.5) * 0.5, RING)
    }

    /// Blocks of a size close around it, for its value.
    pub(super) fn blocks(&self, width: f64, height: f64) -> Vec<(Area, Anchor)> {
        let block = |spot: &Spot| {
            let out = spot.minus(self.middle).unit();
            let off = 6.0 + out.x.abs() * width / 2.0 + out.y.abs() * height / 2.0;
            (Area::around(spot.plus(out.times(off)), width / 2.0, height / 2.0), Anchor::Middle)
        };
        self.spots.iter().step_by(6).map(block).collect()
    }

    /// A dashed line with four ticks inwards at the ends of its axes.
    pub(super) fn items(&self, width: f64) -> Vec<Item> {
        let dashed = Stroke::plain(Ink::Spread, width).dashed(&[6.0, 4.0]);
        let ring = Item::shape(self.spots.clone(), Some(dashed), None);
        let ends = self.axes.iter().flat_map(|axis| [*axis, axis.times(-1.0)]);
        std::iter::once(ring).chain(ends.map(|end| self.tick(end, width))).collect()
    }

    fn tick(&self, end: Spot, width: f64) -> Item {
        let length = TICK.min(end.length() * 0.4);
        let middle = self.middle.plus(end.unit().times(end.length() - length / 2.0));
        cross_bar(middle, end.unit().right(), length / 2.0, Stroke::plain(Ink::Spread, width))
    }
}

//! A likelihood over the plane, reckoned where it is asked for and kept.

use std::cell::RefCell;
use std::collections::HashMap;
use std::fmt;

use crate::fix::Bounds;
use crate::measure::Point;

/// Places along each side of the area at which the mean of what is known is taken.
const SAMPLES: u8 = 16;

/// A likelihood at the nodes of a lattice, straight between them. A node is reckoned once.
pub struct Lattice<'a> {
    reckon: Box<dyn Fn(Point) -> Option<f64> + 'a>,
    origin: Point,
    step_m: f64,
    /// What stands where nothing is known: it speaks neither for nor against a place.
    mean: f64,
    nodes: RefCell<HashMap<(i32, i32), f64>>,
}

impl fmt::Debug for Lattice<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "Lattice(step {} m, {} nodes)", self.step_m, self.nodes.borrow().len())
    }
}

impl<'a> Lattice<'a> {
    /// A lattice over an area; nothing when nothing is known anywhere in it.
    #[must_use]
    pub fn over(bounds: &Bounds, step_m: f64, reckon: impl Fn(Point) -> Option<f64> + 'a) -> Option<Self> {
        let across = bounds.across();
        let place = |column: u8, row: u8| {
            let share = |index: u8| (f64::from(index) + 0.5) / f64::from(SAMPLES);
            bounds.low.plus(Point::new(across.east_m * share(column), across.north_m * share(row)))
        };
        let all = (0..SAMPLES).flat_map(|row| (0..SAMPLES).map(move |column| (column, row)));
        let known: Vec<f64> = all.filter_map(|(column, row)| reckon(place(column, row))).collect();
        let mean = known.iter().sum::<f64>() / known.len().max(1) as f64;
        (!known.is_empty()).then(|| Self {
            reckon: Box::new(reckon),
            origin: bounds.low,
            step_m,
            mean,
            nodes: RefCell::new(HashMap::new()),
        })
    }

    /// From node to node, metres: nothing of this size is passed over.
    #[must_use]
    pub fn step_m(&self) -> f64 {
        self.step_m
    }

    /// The likelihood at a place.
    #[must_use]
    pub fn at(&self, place: Point) -> f64 {
        let steps = place.minus(self.origin).times(1.0 / self.step_m);
        let (left, low) = (steps.east_m.floor(), steps.north_m.floor());
        let (x, y) = (steps.east_m - left, steps.north_m - low);
        let node = |right: i32, up: i32| self.node(left as i32 + right, low as i32 + up);
        (1.0 - y) * ((1.0 - x) * node(0, 0) + x * node(1, 0)) + y * ((1.0 - x) * node(0, 1) + x * node(1, 1))
    }

    fn node(&self, column: i32, row: i32) -> f64 {
        if let Some(known) = self.nodes.borrow().get(&(column, row)) {
            return *known;
        }
        let at = self.origin.plus(Point::new(f64::from(column), f64::from(row)).times(self.step_m));
        let found = (self.reckon)(at).unwrap_or(self.mean);
        self.nodes.borrow_mut().insert((column, row), found);
        found
    }
}

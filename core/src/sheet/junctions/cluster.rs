//! Meetings of two lines at one place are one junction of several.

use std::collections::{BTreeMap, HashMap};

use crate::measure::Point;
use crate::sheet::Line;

use super::raster::Pair;
use super::reach_m;

/// A place where lines meet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Meeting {
    pub(super) at: Point,
    /// Each line once, in the order of their numbers, with the metres along it.
    pub(super) lines: Vec<(usize, f64)>,
}

/// The meetings of pairs, gathered: two belong together when they lie within reach on a line that both have.
pub(super) fn joined(lines: &[Line], pairs: &[Pair]) -> Vec<Meeting> {
    let mut groups = Groups { parents: (0..pairs.len()).collect() };
    let mut on_line: HashMap<usize, Vec<(f64, usize)>> = HashMap::new();
    for (index, pair) in pairs.iter().enumerate() {
        for (line, along_m) in [pair.a, pair.b] {
            on_line.entry(line).or_default().push((along_m, index));
        }
    }
    for (line, mut places) in on_line {
        let spread_m = lines.get(line).map_or(0.0, |line| line.spread_m);
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        for pair in places.windows(2) {
            if let [a, b] = pair
                && b.0 - a.0 <= reach_m(spread_m, spread_m)
            {
                groups.join(a.1, b.1);
            }
        }
    }
    let mut gathered: BTreeMap<usize, BTreeMap<usize, Vec<f64>>> = BTreeMap::new();
    for (index, pair) in pairs.iter().enumerate() {
        let group = gathered.entry(groups.of(index)).or_default();
        for (line, along_m) in [pair.a, pair.b] {
            group.entry(line).or_default().push(along_m);
        }
    }
    gathered.into_values().map(|group| meeting(lines, group)).collect()
}

fn meeting(lines: &[Line], group: BTreeMap<usize, Vec<f64>>) -> Meeting {
    let middle = |all: &[f64]| all.iter().sum::<f64>() / all.len().max(1) as f64;
    let lines_m: Vec<(usize, f64)> = group.iter().map(|(line, all)| (*line, middle(all))).collect();
    let points = lines_m.iter().filter_map(|(line, along_m)| lines.get(*line).map(|line| line.at(*along_m).at));
    let at = points.fold(Point::default(), Point::plus).times(1.0 / lines_m.len().max(1) as f64);
    Meeting { at, lines: lines_m }
}

/// Sets of meetings that belong together.
struct Groups {
    parents: Vec<usize>,
}

impl Groups {
    /// The first of the set; the way to it is shortened.
    fn of(&mut self, index: usize) -> usize {
        let mut at = index;
        while let Some(parent) = self.parents.get(at).copied().filter(|parent| *parent != at) {
            let above = self.parents.get(parent).copied().unwrap_or(parent);
            if let Some(own) = self.parents.get_mut(at) {
                *own = above;
            }
            at = above;
        }
        at
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.of(a), self.of(b));
        if let Some(parent) = self.parents.get_mut(a.max(b)) {
            *parent = a.min(b);
        }
    }
}

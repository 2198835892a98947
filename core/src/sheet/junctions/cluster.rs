//! Meetings of two lines at one place are one junction of several.

use std::collections::{BTreeMap, HashMap};

use crate::measure::Point;
use crate::sheet::Line;

use super::raster::Pair;
use super::{MOST_REACH_M, reach_m};

/// Most groups about one place that are looked at, so that a net made to take time cannot.
const MOST_NEAR: usize = 1000;

/// A place where lines meet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Meeting {
    pub(super) at: Point,
    /// The lines in the order of their numbers, with the metres along each; a line that comes by twice is there twice.
    pub(super) lines: Vec<(usize, f64)>,
}

/// Meetings around the place of the first of them.
struct Group {
    anchor: Point,
    visits: BTreeMap<usize, Vec<f64>>,
}

/// The meetings of pairs, gathered: one joins a group that has one of its lines and whose first place is within reach.
/// A group never grows beyond that, so that a row of close junctions stays a row.
pub(super) fn joined(lines: &[Line], pairs: &[Pair]) -> Vec<Meeting> {
    let mut pairs = pairs.to_vec();
    pairs.sort_by(|a, b| (a.a.0, a.b.0).cmp(&(b.a.0, b.b.0)).then(a.a.1.total_cmp(&b.a.1)));
    let mut groups: Vec<Group> = Vec::new();
    let mut raster: HashMap<(i64, i64), Vec<usize>> = HashMap::new();
    for pair in pairs {
        let Some(at) = place(lines, pair) else { continue };
        let own_reach_m = |line: usize| lines.get(line).map_or(0.0, |line| reach_m(line.spread_m, line.spread_m));
        let within_m = own_reach_m(pair.a.0).max(own_reach_m(pair.b.0));
        let fits = |group: &Group| {
            let shares = group.visits.contains_key(&pair.a.0) || group.visits.contains_key(&pair.b.0);
            shares && group.anchor.minus(at).length_m() <= within_m
        };
        let mut near = around(cell(at)).filter_map(|cell| raster.get(&cell)).flatten().copied().take(MOST_NEAR);
        let found = near.find(|index| groups.get(*index).is_some_and(fits));
        let index = found.unwrap_or(groups.len());
        if found.is_none() {
            groups.push(Group { anchor: at, visits: BTreeMap::new() });
            raster.entry(cell(at)).or_default().push(index);
        }
        if let Some(group) = groups.get_mut(index) {
            for (line, along_m) in [pair.a, pair.b] {
                group.visits.entry(line).or_default().push(along_m);
            }
        }
    }
    groups.into_iter().map(|group| meeting(lines, group)).collect()
}

/// The middle of the two places of a meeting.
fn place(lines: &[Line], pair: Pair) -> Option<Point> {
    let on = |(line, along_m): (usize, f64)| lines.get(line).map(|line| line.at(along_m).at);
    Some(on(pair.a)?.plus(on(pair.b)?).times(0.5))
}

fn cell(at: Point) -> (i64, i64) {
    ((at.east_m / MOST_REACH_M).floor() as i64, (at.north_m / MOST_REACH_M).floor() as i64)
}

fn around((column, row): (i64, i64)) -> impl Iterator<Item = (i64, i64)> {
    (-1..=1).flat_map(move |right| (-1..=1).map(move |up| (column + right, row + up)))
}

fn meeting(lines: &[Line], group: Group) -> Meeting {
    let of_line = |(line, along_m): (usize, Vec<f64>)| {
        let reach_m = lines.get(line).map_or(0.0, |line| reach_m(line.spread_m, line.spread_m));
        visits(along_m, 2.0 * reach_m).into_iter().map(move |along_m| (line, along_m))
    };
    let lines_m: Vec<(usize, f64)> = group.visits.into_iter().flat_map(of_line).collect();
    let points = lines_m.iter().filter_map(|(line, along_m)| lines.get(*line).map(|line| line.at(*along_m).at));
    let at = points.fold(Point::default(), Point::plus).times(1.0 / lines_m.len().max(1) as f64);
    Meeting { at, lines: lines_m }
}

/// Each time that a line comes by: the middle of the places that lie together along it.
fn visits(mut along_m: Vec<f64>, apart_m: f64) -> Vec<f64> {
    along_m.sort_by(f64::total_cmp);
    let runs = along_m.chunk_by(|a, b| b - a <= apart_m);
    runs.map(|run| f64::midpoint(run.first().copied().unwrap_or_default(), run.last().copied().unwrap_or_default())).collect()
}

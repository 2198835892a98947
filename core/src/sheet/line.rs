//! A road, track, creek or ridge: a directed polyline with named points on it.

use geo::{ClosestPoint, Coord, Euclidean, Length};

use crate::measure::Point;

/// Points nearer to the last than this are the same place, metres: no way leads from one to the other.
const LEAST_STEP_M: f64 = 1e-6;

/// A named point on a line.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownPoint {
    /// Its name.
    pub name: String,
    /// Metres along the line from its first point.
    pub along_m: f64,
}

/// A line of the sheet in its plane.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its name.
    pub name: String,
    /// road, track, path, creek, ridge or fence.
    pub kind: String,
    /// Named points on it, in the line's order.
    pub known_points: Vec<KnownPoint>,
    /// One sigma of the line's place across itself, metres.
    pub spread_m: f64,
    /// The name of the whole of which it is a piece, see [`super::DraftLine`].
    pub part_of: Option<String>,
    /// Whether it meets others of its file only where both have a point.
    pub(super) noded: bool,
    pub(super) vertices: Vec<Vertex>,
}

/// A point of a line with its distance along it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Vertex {
    along_m: f64,
    pub(super) at: Point,
    /// The level of the piece that begins here.
    level: i8,
}

/// A place on a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinePlace {
    /// Metres along the line from its first point.
    pub along_m: f64,
    /// The point in the sheet's plane.
    pub at: Point,
    /// Unit step in the line's direction there.
    pub direction: Point,
}

/// A distance along a line from a named point of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Along {
    /// The named point.
    pub from: String,
    /// Metres along the line from it, never negative.
    pub distance_m: f64,
    /// Bearing of the plane from the named point to the place, degrees; the way along the line in rough.
    pub plane_deg: f64,
    /// The next named point in that direction, or the line's end.
    pub towards: Option<String>,
}

impl Line {
    /// A line through points of the plane; `None` when fewer than two differ.
    #[must_use]
    pub fn new(name: &str, kind: &str, points: Vec<Point>, spread_m: f64) -> Option<Self> {
        Self::on_levels(name, kind, points, &[], spread_m)
    }

    /// The same with the level of each straight piece, see [`super::DraftLine`]; on the ground where none is told.
    #[must_use]
    pub fn on_levels(name: &str, kind: &str, points: Vec<Point>, levels: &[i8], spread_m: f64) -> Option<Self> {
        let mut vertices: Vec<Vertex> = Vec::with_capacity(points.len());
        for (index, at) in points.into_iter().enumerate() {
            match vertices.last_mut() {
                None => vertices.push(Vertex { along_m: 0.0, at, level: 0 }),
                Some(last) => {
                    let step_m = Euclidean.length(&segment(last.at, at));
                    let along_m = last.along_m + step_m;
                    // On a line of many thousand kilometres such a step would be lost in the sum.
                    if step_m >= LEAST_STEP_M && along_m > last.along_m {
                        last.level = index.checked_sub(1).and_then(|piece| levels.get(piece)).copied().unwrap_or_default();
                        vertices.push(Vertex { along_m, at, level: 0 });
                    }
                }
            }
        }
        let whole = vertices.len() >= 2 && vertices.iter().all(|vertex| vertex.along_m.is_finite());
        whole.then(|| Self {
            name: name.into(),
            kind: kind.into(),
            known_points: Vec::new(),
            spread_m,
            part_of: None,
            noded: false,
            vertices,
        })
    }

    /// Length in metres.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.vertices.last().map_or(0.0, |vertex| vertex.along_m)
    }

    /// The points of the line in its direction.
    pub fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.vertices.iter().map(|vertex| vertex.at)
    }

    /// The straight pieces of the line: start and end of each as places.
    pub fn pieces(&self) -> impl Iterator<Item = (LinePlace, LinePlace)> + '_ {
        self.vertices.windows(2).filter_map(|pair| match pair {
            [a, b] => {
                let direction = b.at.minus(a.at).times(1.0 / (b.along_m - a.along_m));
                let place = |vertex: &Vertex| LinePlace { along_m: vertex.along_m, at: vertex.at, direction };
                Some((place(a), place(b)))
            }
            _ => None,
        })
    }

    /// The level of each of them.
    pub(super) fn levels(&self) -> impl Iterator<Item = i8> + '_ {
        self.vertices.iter().map(|vertex| vertex.level)
    }

    /// The level at a place of the line; at a point of it that of the piece that ends there.
    pub(super) fn level_at(&self, along_m: f64) -> i8 {
        let before = self.vertices.partition_point(|vertex| vertex.along_m < along_m).saturating_sub(1);
        self.vertices.get(before).map_or(0, |vertex| vertex.level)
    }

    /// The place `along_m` metres from the first point; beyond an end, the end, or round a ring.
    #[must_use]
    pub fn at(&self, along_m: f64) -> LinePlace {
        let along_m = self.along_m(along_m).clamp(0.0, self.length_m());
        let index = self.vertices.partition_point(|vertex| vertex.along_m <= along_m).clamp(1, self.vertices.len() - 1);
        let (before, after) = (self.vertices.get(index - 1), self.vertices.get(index));
        match (before, after) {
            (Some(a), Some(b)) => {
                let direction = b.at.minus(a.at).times(1.0 / (b.along_m - a.along_m));
                LinePlace { along_m, at: a.at.plus(direction.times(along_m - a.along_m)), direction }
            }
            _ => LinePlace { along_m, at: Point::default(), direction: Point::new(0.0, 1.0) },
        }
    }

    /// The points of the line on the way from a place by so many metres, forwards, or backwards where they are negative; the last is where
    /// that leads, or the line's end.
    #[must_use]
    pub fn way(&self, from_m: f64, by_m: f64) -> Vec<Point> {
        let (low_m, high_m) = (from_m.min(from_m + by_m), from_m.max(from_m + by_m));
        let rounds: &[f64] = if self.is_ring() { &[-1.0, 0.0, 1.0] } else { &[0.0] };
        let mut found: Vec<(f64, Point)> = Vec::new();
        for round_m in rounds.iter().map(|round| round * self.length_m()) {
            let first = self.vertices.partition_point(|vertex| vertex.along_m + round_m <= low_m);
            let there = self.vertices.iter().skip(first).map(|vertex| (vertex.along_m + round_m, vertex.at));
            found.extend(there.take_while(|(along_m, _)| *along_m < high_m));
        }
        found.sort_by(|(a_m, _), (b_m, _)| a_m.total_cmp(b_m));
        if by_m < 0.0 {
            found.reverse();
        }
        found.into_iter().map(|(_, at)| at).chain([self.at(from_m + by_m).at]).collect()
    }

    /// The known point of this name. Case is ignored.
    #[must_use]
    pub fn known(&self, name: &str) -> Option<&KnownPoint> {
        self.known_points.iter().find(|known| super::same_name(&known.name, name))
    }

    /// The place on the line nearest to a point.
    #[must_use]
    pub fn nearest(&self, point: Point) -> LinePlace {
        let on = |(a, b): (LinePlace, LinePlace)| {
            let on = closest(a.at, b.at, point);
            let off = on.minus(point);
            (off.dot(off), a, on)
        };
        let nearest = self.pieces().map(on).min_by(|a, b| a.0.total_cmp(&b.0));
        nearest.map_or_else(|| self.at(0.0), |(_, a, on)| LinePlace { along_m: a.along_m + on.minus(a.at).length_m(), at: on, ..a })
    }

    /// How far a place is from the nearest named point of the line, and from the named point before it; on a ring by the shorter way.
    ///
    /// A line without named points is counted from its first point.
    #[must_use]
    pub fn along_from_known(&self, along_m: f64) -> Along {
        let distance = |one: &(&KnownPoint, f64)| self.way_m(one.1, along_m).abs();
        let passes = self.known_points.iter().flat_map(|known| self.comes_by(known.along_m).into_iter().map(move |at_m| (known, at_m)));
        let nearest = passes.min_by(|a, b| distance(a).total_cmp(&distance(b)));
        let (from, start_m) = nearest.map_or((String::new(), 0.0), |(known, at_m)| (known.name.clone(), at_m));
        let (step, way_m) = (self.at(along_m).at.minus(self.at(start_m).at), self.way_m(start_m, along_m));
        Along { from, distance_m: way_m.abs(), plane_deg: step.bearing_deg(), towards: self.next_known(start_m, way_m) }
    }

    /// The next named point beyond `start_m` in the direction of a way from there.
    fn next_known(&self, start_m: f64, way_m: f64) -> Option<String> {
        let passes = self.known_points.iter().flat_map(|known| self.passes_m(known.along_m).map(move |along_m| (along_m - start_m, known)));
        let ahead =
            passes.map(|(step_m, known)| (if way_m >= 0.0 { step_m } else { -step_m }, known)).filter(|(ahead_m, _)| *ahead_m > 0.0);
        ahead.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, known)| known.name.clone())
    }
}

fn coord(point: Point) -> Coord {
    Coord { x: point.east_m, y: point.north_m }
}

fn segment(a: Point, b: Point) -> geo::Line {
    geo::Line::new(coord(a), coord(b))
}

fn closest(a: Point, b: Point, point: Point) -> Point {
    match segment(a, b).closest_point(&geo::Point::from(coord(point))) {
        geo::Closest::Intersection(on) | geo::Closest::SinglePoint(on) => Point::new(on.x(), on.y()),
        geo::Closest::Indeterminate => a,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_a_hair_apart_are_one_and_every_direction_is_a_number() {
        let through = |steps: &[f64]| Line::new("a", "road", steps.iter().map(|east_m| Point::new(*east_m, 0.0)).collect(), 5.0);
        assert_eq!(through(&[0.0, 1e-310]), None);
        assert_eq!(through(&[0.0, 1e-7, -1e-7]), None);
        let far_m = 2e6;
        let there = through(&[0.0, 1e-310, far_m, far_m + 3e-10, 1.0]);
        assert_eq!(there.as_ref().map(|line| line.points().count()), Some(3));
        let finite = |line: &Line| line.pieces().all(|(from, to)| from.direction.length_m().is_finite() && to.at.length_m().is_finite());
        assert!(there.is_some_and(|line| finite(&line) && line.at(far_m).at.length_m().is_finite()));
    }
}

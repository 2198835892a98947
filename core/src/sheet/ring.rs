//! A line that ends where it begins: it has no end, and distances along it go round.

use super::Line;
use super::junctions::LEAST_REACH_M;

/// A line that is nearer to where it was than this after a shorter way has not come by again, metres.
const ANOTHER_M: f64 = 30.0;

impl Line {
    /// Whether it ends where it begins.
    #[must_use]
    pub fn is_ring(&self) -> bool {
        let ends = self.vertices.first().zip(self.vertices.last());
        ends.is_some_and(|(first, last)| self.vertices.len() > 3 && last.at.minus(first.at).length_m() <= LEAST_REACH_M)
    }

    /// The distance along a ring that is meant by one below nothing or beyond its length; on another line, the same.
    #[must_use]
    pub fn along_m(&self, along_m: f64) -> f64 {
        let within = (0.0..=self.length_m()).contains(&along_m);
        if within || !self.is_ring() { along_m } else { along_m.rem_euclid(self.length_m()) }
    }

    /// A distance along the line, and on a ring also as one comes there a round earlier and a round later.
    pub fn passes_m(&self, along_m: f64) -> impl Iterator<Item = f64> + use<> {
        let (round_m, rounds) = (self.length_m(), if self.is_ring() { -1..=1 } else { 0..=0 });
        rounds.map(move |round| along_m + f64::from(round) * round_m)
    }

    /// The way from one distance along the line to another, metres: on a ring the shorter one; negative against the line's direction.
    #[must_use]
    pub fn way_m(&self, from_m: f64, to_m: f64) -> f64 {
        let way_m = to_m - from_m;
        if self.is_ring() { way_m - self.length_m() * (way_m / self.length_m()).round() } else { way_m }
    }

    /// Every distance along the line at which it comes by where it is at one: that one first, on a line that crosses itself others after it.
    #[must_use]
    pub fn comes_by(&self, along_m: f64) -> Vec<f64> {
        let at = self.at(along_m).at;
        let mut found = vec![along_m];
        for (start, end) in self.pieces() {
            let inside_m = at.minus(start.at).dot(start.direction).clamp(0.0, end.along_m - start.along_m);
            let here_m = start.along_m + inside_m;
            let near = start.at.plus(start.direction.times(inside_m)).minus(at).length_m() <= LEAST_REACH_M;
            if near && found.iter().all(|other| self.way_m(*other, here_m).abs() > ANOTHER_M) {
                found.push(here_m);
            }
        }
        found
    }

    /// The parts that a reach along the line has within its length: on a ring it may lie over the place where the line begins.
    #[must_use]
    pub fn parts_m(&self, (low_m, high_m): (f64, f64)) -> Vec<(f64, f64)> {
        let length_m = self.length_m();
        let within = |round: f64| ((low_m - round * length_m).max(0.0), (high_m - round * length_m).min(length_m));
        let rounds: &[f64] = if self.is_ring() { &[-1.0, 0.0, 1.0] } else { &[0.0] };
        rounds.iter().map(|round| within(*round)).filter(|(low_m, high_m)| high_m > low_m).collect()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::float_cmp, reason = "hundreds of metres are exact")]

    use crate::measure::Point;
    use crate::sheet::{KnownPoint, Line};

    /// Constructed: a square of 100 m, from its south-western corner round by the north.
    fn square(known: &[(&str, f64)]) -> Option<Line> {
        let corners = [(0.0, 0.0), (0.0, 100.0), (100.0, 100.0), (100.0, 0.0), (0.0, 0.0)];
        let line = Line::new("Ring", "road", corners.iter().map(|(x, y)| Point::new(*x, *y)).collect(), 5.0)?;
        let known_points = known.iter().map(|(name, along_m)| KnownPoint { name: (*name).into(), along_m: *along_m }).collect();
        Some(Line { known_points, ..line })
    }

    #[test]
    fn a_ring_goes_round() {
        let ring = square(&[("Gate", 30.0), ("Mill", 200.0)]);
        assert!(ring.as_ref().is_some_and(Line::is_ring));
        let at = |along_m: f64| ring.as_ref().map(|ring| ring.at(along_m).at);
        assert_eq!(at(-30.0), at(370.0));
        assert_eq!(at(430.0), at(30.0));
        let way = |from_m, to_m| ring.as_ref().map(|ring| ring.way_m(from_m, to_m));
        assert_eq!((way(390.0, 10.0), way(10.0, 390.0), way(10.0, 60.0)), (Some(20.0), Some(-20.0), Some(50.0)));
        assert_eq!(ring.as_ref().map(|ring| ring.parts_m((-20.0, 30.0))), Some(vec![(380.0, 400.0), (0.0, 30.0)]));
        let from = ring.map(|ring| ring.along_from_known(390.0));
        assert_eq!(
            from.as_ref().map(|along| (along.from.as_str(), along.distance_m, along.towards.as_deref())),
            Some(("Gate", 40.0, Some("Mill")))
        );
    }

    /// Constructed: east for 500 m, round by the north, and south over the place 200 m along, 1,400 m along.
    #[test]
    fn a_line_that_crosses_itself_comes_by_twice() {
        let points = [(0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (200.0, 300.0), (200.0, -200.0)];
        let line = Line::new("Loop", "track", points.iter().map(|(x, y)| Point::new(*x, *y)).collect(), 5.0);
        let known = vec![KnownPoint { name: "Cross".into(), along_m: 200.0 }];
        let line = line.map(|line| Line { known_points: known, ..line });
        assert_eq!(line.as_ref().map(|line| line.comes_by(200.0)), Some(vec![200.0, 1_400.0]));
        assert_eq!(line.as_ref().map(|line| line.comes_by(100.0)), Some(vec![100.0]));
        assert_eq!(line.map(|line| line.along_from_known(1_390.0).distance_m), Some(10.0));
    }

    #[test]
    fn a_line_with_ends_has_none_beyond() {
        let line = Line::new("a", "road", vec![Point::new(0.0, 0.0), Point::new(100.0, 0.0)], 5.0);
        let told = line.map(|line| (line.is_ring(), line.at(130.0).along_m, line.way_m(90.0, 10.0), line.parts_m((-20.0, 30.0))));
        assert_eq!(told, Some((false, 100.0, -80.0, vec![(0.0, 30.0)])));
    }
}

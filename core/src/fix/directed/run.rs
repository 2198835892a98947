//! The run of a line as it may have been read at a place: over a chord about it, along the piece before or behind, or towards a point of it
//! farther off. On a straight line all of these are one.

use crate::measure::{Point, signed_difference_deg};
use crate::sheet::{Line, LinePlace};

/// The chord that a run may be read over, metres.
const CHORD_M: f64 = 100.0;
/// What is read lies no farther off than this on either side, metres (common practice, no source).
pub(in crate::fix) const REACH_M: f64 = 100.0;
/// Points so far from each other are told apart, metres.
const STEP_M: f64 = 10.0;
/// The chance that it is the chord, that it is the direction towards a point of the line, and that it is that of a piece; all points are
/// alike, and pieces by their length (common practice, no source).
const CHORD: f64 = 0.05;
/// See [`CHORD`].
const POINT: f64 = 0.2;
/// See [`CHORD`].
const PIECE: f64 = 0.75;
/// Directions that are no farther apart are one, degrees.
const SAME_DEG: f64 = 0.01;
/// Shorter steps have no direction, metres.
const LEAST_M: f64 = 1e-3;

/// One way of reading the run of the line, or several that give the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::fix) struct Look {
    /// Its chance; those of a place sum to 1.
    pub(in crate::fix) chance: f64,
    /// Bearing of the plane, degrees.
    pub(in crate::fix) plane_deg: f64,
}

/// Every way of reading the run of the line at a place.
pub(in crate::fix) fn looks(line: &Line, place: LinePlace) -> Vec<Look> {
    let mut told = Told { looks: Vec::new(), total: 0.0 };
    told.add(CHORD, chord(line, place).bearing_deg());
    for (from, to) in pieces(line, place).into_iter().flatten() {
        let piece = to.minus(from);
        let share = piece.length_m() / (2.0 * REACH_M);
        told.add(PIECE * share, piece.bearing_deg());
        // The eye sweeps along a piece that does not begin where one stands.
        let steps = if from == place.at { 1.0 } else { (piece.length_m() / STEP_M).ceil() };
        for step in 0..steps as u32 {
            let towards = from.plus(piece.times((f64::from(step) + 0.5) / steps)).minus(place.at);
            told.add(POINT * share / steps, towards.bearing_deg());
        }
    }
    let Told { mut looks, total } = told;
    looks.iter_mut().for_each(|look| look.chance /= total);
    looks
}

/// Ways of reading, the chances not yet made to sum to 1.
struct Told {
    looks: Vec<Look>,
    total: f64,
}

impl Told {
    fn add(&mut self, chance: f64, plane_deg: f64) {
        self.total += chance;
        match self.looks.iter_mut().find(|other| folded_deg(other.plane_deg, plane_deg).abs() < SAME_DEG) {
            Some(same) => same.chance += chance,
            None => self.looks.push(Look { chance, plane_deg }),
        }
    }
}

/// By how much a reading is off the run of the line at a place, degrees: in the way of reading that fits it best. Which one a walker takes
/// is his choice, not chance: near a bend a place is given the benefit of each. Towards a point is towards any between the line's own.
pub(in crate::fix) fn off_deg(line: &Line, place: LinePlace, read_deg: f64) -> f64 {
    let nearer = |one: f64, other: f64| if other.abs() < one.abs() { other } else { one };
    let mut least = folded_deg(read_deg, chord(line, place).bearing_deg());
    for (ahead, side) in [1.0, -1.0].into_iter().zip(pieces(line, place)) {
        // At a corner the eye sweeps from the piece that ends there to the one that begins.
        let mut seen_deg = place.direction.times(ahead).bearing_deg();
        for (from, to) in side {
            least = nearer(least, folded_deg(read_deg, to.minus(from).bearing_deg()));
            let ray = to.minus(place.at);
            if ray.length_m() > LEAST_M {
                let towards_deg = ray.bearing_deg();
                if is_between(read_deg, seen_deg, towards_deg) {
                    return 0.0;
                }
                least = nearer(least, folded_deg(read_deg, towards_deg));
                seen_deg = towards_deg;
            }
        }
    }
    least
}

/// The line ahead of a place and behind it as far as it is read: where each of its pieces begins and ends, from the place on.
fn pieces(line: &Line, place: LinePlace) -> [Vec<(Point, Point)>; 2] {
    [REACH_M, -REACH_M].map(|by_m| {
        let mut from = place.at;
        let piece = |to: Point| (std::mem::replace(&mut from, to), to);
        line.way(place.along_m, by_m).into_iter().map(piece).filter(|(from, to)| to.minus(*from).length_m() > LEAST_M).collect()
    })
}

/// Whether a direction, or its reverse, lies within the arc that the eye sweeps from one direction to another, the shorter way.
fn is_between(deg: f64, from_deg: f64, to_deg: f64) -> bool {
    let arc_deg = signed_difference_deg(to_deg, from_deg);
    [deg, deg + 180.0].iter().any(|deg| {
        let at_deg = signed_difference_deg(*deg, from_deg);
        at_deg * arc_deg >= 0.0 && at_deg.abs() <= arc_deg.abs()
    })
}

/// One sigma of what may be read at a place by the ways of reading alone, degrees.
pub(in crate::fix) fn unsure_deg(line: &Line, place: LinePlace) -> f64 {
    let looks = looks(line, place);
    let first_deg = looks.first().map_or(0.0, |look| look.plane_deg);
    let moment = |power: i32| looks.iter().map(|look| look.chance * folded_deg(look.plane_deg, first_deg).powi(power)).sum::<f64>();
    (moment(2) - moment(1).powi(2)).max(0.0).sqrt()
}

/// The chord of the line about a place, cut off at its ends.
pub(in crate::fix) fn chord(line: &Line, place: LinePlace) -> Point {
    line.at(place.along_m + CHORD_M / 2.0).at.minus(line.at(place.along_m - CHORD_M / 2.0).at)
}

/// By how much one direction is turned from another, degrees: a line runs both ways.
pub(in crate::fix) fn folded_deg(one_deg: f64, other_deg: f64) -> f64 {
    signed_difference_deg(2.0 * one_deg, 2.0 * other_deg) / 2.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

    use super::{folded_deg, looks, off_deg, unsure_deg};
    use crate::measure::Point;
    use crate::sheet::Line;

    fn bent(turn_deg: f64) -> Line {
        let corner = Point::new(0.0, 400.0);
        Line::new("Road", "road", vec![Point::default(), corner, corner.plus(Point::polar(400.0, turn_deg))], 0.0).unwrap()
    }

    #[test]
    fn on_a_straight_line_there_is_one_way_to_read_it() {
        let line = bent(0.0);
        for along_m in [0.0, 3.0, 250.0, 799.0, 800.0] {
            let found = looks(&line, line.at(along_m));
            assert!(found.len() == 1 && (found[0].chance - 1.0).abs() < 1e-12, "{found:?}");
        }
    }

    #[test]
    fn near_a_bend_each_piece_may_be_read() {
        for turn_deg in [20.0, 40.0, 90.0, 170.0] {
            let line = bent(turn_deg);
            for along_m in (340..=460).step_by(10) {
                let found = looks(&line, line.at(f64::from(along_m)));
                let chance =
                    |deg: f64| found.iter().filter(|look| folded_deg(look.plane_deg, deg).abs() < 1.0).map(|look| look.chance).sum::<f64>();
                let own = if along_m < 400 { chance(0.0) } else { chance(turn_deg) };
                assert!(own >= 0.4 && chance(0.0).min(chance(turn_deg)) >= 0.1, "{turn_deg} {along_m}: {found:?}");
                assert!([0.0, turn_deg].iter().all(|deg| off_deg(&line, line.at(f64::from(along_m)), *deg).abs() < 0.1));
                assert!((found.iter().map(|look| look.chance).sum::<f64>() - 1.0).abs() < 1e-12);
            }
        }
        assert!(unsure_deg(&bent(20.0), bent(20.0).at(400.0)) > 9.0 && unsure_deg(&bent(20.0), bent(20.0).at(250.0)) < 1e-6);
    }
}

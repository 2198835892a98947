//! Whether what is new of a line is another course of one that is on the sheet: the same way drawn anew, not more of it.

use super::join::JOIN_M;
use super::shape::{Pos, along_m, between, distance_m, metres_from};

/// What runs beside a stretch stays within so much of its own length. What closes a gap or a ring lies farther from that: its middle is
/// half its length from its ends where it is straight, 0.45 in a half circle.
const MOST_ASIDE: f64 = 0.3;
/// Two courses of one way are about as long as each other.
const LENGTHS: std::ops::RangeInclusive<f64> = 0.5..=2.0;
/// At so many places a course is held against the other, beside its own points.
const STEPS: usize = 16;
/// So many straight pieces are looked at for one file, so that a file made to take time cannot.
pub(super) const MOST_LOOKED: usize = 20_000_000;

/// How something new lies to a line of its name and kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Course {
    /// It leaves the line and comes back to it, beside it all along: what is between is drawn otherwise, by so many metres at the most.
    Between(f64),
    /// It has a place with the line in common at each end, or runs along it from one of its ends, and is another way all the same.
    Beside,
}

/// How a new stretch lies to a line; nothing where it is more of it. `left` straight pieces may still be looked at.
pub(super) fn course(stretch: &[Pos], line: &[Pos], left: &mut usize) -> Option<Course> {
    let looked = line.len().saturating_mul(stretch.len() + STEPS);
    *left = left.checked_sub(looked)?;
    let (first, last) = (stretch.first()?, stretch.last()?);
    let (from, to) = (nearest(*first, line)?, nearest(*last, line)?);
    let long_m = along_m(stretch);
    match [from.away_m <= JOIN_M, to.away_m <= JOIN_M] {
        [true, true] => {
            let was_m = (to.along_m - from.along_m).abs();
            let away_m = passed(line, from.along_m.min(to.along_m), from.along_m.max(to.along_m))
                .filter_map(|at| Some(nearest(at, stretch)?.away_m))
                .fold(farthest_m(stretch, line)?, f64::max);
            let is_beside = away_m <= MOST_ASIDE * long_m && LENGTHS.contains(&(was_m / long_m));
            Some(if is_beside { Course::Between(away_m) } else { Course::Beside })
        }
        [true, false] | [false, true] => {
            let met = if from.away_m <= JOIN_M { from } else { to };
            let whole_m = along_m(line);
            let is_end = met.along_m <= JOIN_M || met.along_m >= whole_m - JOIN_M;
            let was_m = (to.along_m - from.along_m).abs();
            let is_beside = is_end && LENGTHS.contains(&(was_m / long_m)) && farthest_m(stretch, line)? <= MOST_ASIDE * long_m;
            is_beside.then_some(Course::Beside)
        }
        [false, false] => None,
    }
}

/// The points of a line between two distances along it.
fn passed(line: &[Pos], from_m: f64, to_m: f64) -> impl Iterator<Item = Pos> {
    let mut along_m = 0.0;
    let points = line.windows(2).filter_map(move |pair| {
        let [a, b] = pair else { return None };
        along_m += distance_m(*a, *b);
        Some((*b, along_m))
    });
    points.filter(move |(_, along_m)| (from_m..to_m).contains(along_m)).map(|(at, _)| at)
}

/// The place half way along a line.
pub(super) fn middle(line: &[Pos]) -> Option<Pos> {
    let mut left_m = along_m(line) / 2.0;
    for pair in line.windows(2) {
        let [a, b] = pair else { continue };
        let step_m = distance_m(*a, *b);
        if step_m >= left_m && step_m > 0.0 {
            return Some(between(*a, *b, left_m / step_m));
        }
        left_m -= step_m;
    }
    line.last().copied()
}

/// The nearest place of a line: how far off, and how far along it is.
#[derive(Debug, Clone, Copy)]
struct Nearest {
    away_m: f64,
    along_m: f64,
}

fn nearest(at: Pos, line: &[Pos]) -> Option<Nearest> {
    let mut before_m = 0.0;
    let places = line.windows(2).filter_map(|pair| {
        let [a, b] = pair else { return None };
        let (from, step) = (metres_from(at, *a), metres_from(*a, *b));
        let step_m = step.0.hypot(step.1);
        let share = -(from.0 * step.0 + from.1 * step.1) / (step_m * step_m);
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
        let place = Nearest { away_m: distance_m(at, between(*a, *b, share)), along_m: before_m + share * step_m };
        before_m += step_m;
        Some(place)
    });
    places.min_by(|a, b| a.away_m.total_cmp(&b.away_m))
}

/// How far a stretch comes from a line.
fn farthest_m(stretch: &[Pos], line: &[Pos]) -> Option<f64> {
    let step_m = along_m(stretch) / STEPS as f64;
    let between_points = stretch.windows(2).flat_map(|pair| {
        let [a, b] = pair else { return Vec::new() };
        let steps = (distance_m(*a, *b) / step_m).ceil();
        let steps = if steps.is_finite() { steps.min(STEPS as f64) } else { 1.0 };
        (1..steps as usize).map(|step| between(*a, *b, step as f64 / steps)).collect()
    });
    let places = stretch.iter().copied().chain(between_points);
    places.map(|at| nearest(at, line).map(|place| place.away_m)).try_fold(0.0_f64, |most, away_m| Some(most.max(away_m?)))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may stop where it fails")]
mod tests {
    use super::*;
    use std::f64::consts::TAU;

    const DEG: f64 = super::super::shape::METRES_PER_DEG;

    /// Places on the equator, metres east and north of longitude 13.
    fn line(points: &[(f64, f64)]) -> Vec<Pos> {
        points.iter().map(|(east, north)| (north / DEG, 13.0 + east / DEG)).collect()
    }

    fn told(stretch: &[(f64, f64)], known: &[(f64, f64)]) -> Option<Course> {
        course(&line(stretch), &line(known), &mut MOST_LOOKED.clone())
    }

    fn is_about(course: Option<Course>, metres: f64) -> bool {
        matches!(course, Some(Course::Between(away_m)) if (away_m - metres).abs() < 0.1)
    }

    /// By construction: points that were moved, added and taken away.
    #[test]
    fn what_is_drawn_anew_is_another_course() {
        let road = [(0.0, 0.0), (500.0, 0.0), (1000.0, 0.0)];
        assert!(is_about(told(&[(0.0, 0.0), (500.0, 60.0), (1000.0, 0.0)], &road), 60.0));
        assert!(is_about(told(&[(1000.0, 0.0), (500.0, 60.0), (0.0, 0.0)], &road), 60.0));
        assert!(is_about(told(&[(0.0, 0.0), (1000.0, 0.0)], &[(0.0, 0.0), (500.0, 60.0), (1000.0, 0.0)]), 60.0));
        assert!(is_about(told(&[(300.0, 0.0), (320.0, 8.0), (680.0, 8.0), (700.0, 0.0)], &road), 8.0));
        // All of it but one end lies 8 m off.
        assert_eq!(told(&[(0.0, 0.0), (20.0, 8.0), (1000.0, 8.0)], &road), Some(Course::Beside));
        // A wide way round has both ends in common, and is no more of the line.
        assert_eq!(told(&[(0.0, 0.0), (500.0, 500.0), (1000.0, 0.0)], &road), Some(Course::Beside));
    }

    #[test]
    fn more_of_a_line_is_no_other_course() {
        let road = [(0.0, 0.0), (500.0, 0.0), (1000.0, 0.0)];
        assert_eq!(told(&[(1000.0, 0.0), (1500.0, 30.0)], &road), None);
        assert_eq!(told(&[(1000.0, 0.0), (1400.0, 0.0), (1500.0, 200.0), (1100.0, 300.0)], &road), None);
        assert_eq!(told(&[(500.0, 0.0), (500.0, 700.0)], &road), None);
        assert_eq!(told(&[(0.0, 9.0), (1000.0, 9.0)], &road), None);
    }

    /// The rest of a ring is no other course of what is there of it, however it is parted.
    #[test]
    fn the_rest_of_a_ring_is_not_between() {
        let arc = |from: f64, to: f64| -> Vec<(f64, f64)> {
            (0..=48)
                .map(|step| (from + (to - from) * f64::from(step) / 48.0) * TAU)
                .map(|angle| (400.0 * angle.sin(), 400.0 * angle.cos()))
                .collect()
        };
        for part in [0.1, 0.25, 0.4, 0.5, 0.6, 0.75, 0.9] {
            assert_eq!(told(&arc(part, 1.0), &arc(0.0, part)), Some(Course::Beside), "{part}");
        }
    }
}

//! How marks lie among each other: apart, in a line, and what they enclose.

use super::{PhotoError, PhotoMark};
use crate::measure::{Covariance, Point};

/// Marks whose cloud is narrower than this part of its length stand in a line.
const NARROWEST: f64 = 0.03;

/// The mean of points.
pub(super) fn middle(points: impl ExactSizeIterator<Item = Point>) -> Point {
    let count = points.len().max(1) as f64;
    points.fold(Point::default(), Point::plus).times(1.0 / count)
}

/// A mark's pixel as a point of the plane, down being the second axis.
pub(super) fn pixel(mark: &PhotoMark) -> Point {
    Point::new(mark.x_px, mark.y_px)
}

/// No two marks on one pixel or crossing, and neither pixels nor crossings in a line.
pub(super) fn check_apart(marks: &[PhotoMark]) -> Result<(), PhotoError> {
    for (second, mark) in marks.iter().enumerate() {
        let same = |other: &PhotoMark| {
            let (pixels, grid) = (pixel(other).minus(pixel(mark)), other.at.minus(mark.at));
            pixels.length_m() < 0.5 || grid.length_m() < 0.5
        };
        if let Some(first) = marks.iter().take(second).position(same) {
            return Err(PhotoError::Twice { first: first + 1, second: second + 1 });
        }
    }
    let flat = in_line(&marks.iter().map(pixel).collect::<Vec<_>>()) || in_line(&marks.iter().map(|mark| mark.at).collect::<Vec<_>>());
    if flat { Err(PhotoError::InLine) } else { Ok(()) }
}

/// Why nothing fits marks that were kept apart: all but one of them lie in a line, or no view shows them so.
pub(super) fn why_none(marks: &[PhotoMark]) -> PhotoError {
    let without = |skipped: usize| marks.iter().enumerate().filter(move |(at, _)| *at != skipped).map(|(_, mark)| *mark);
    let lined = |skipped: usize| {
        in_line(&without(skipped).map(|mark| pixel(&mark)).collect::<Vec<_>>())
            || in_line(&without(skipped).map(|mark| mark.at).collect::<Vec<_>>())
    };
    if (0..marks.len()).any(lined) { PhotoError::InLine } else { PhotoError::NoView }
}

fn in_line(points: &[Point]) -> bool {
    let middle = middle(points.iter().copied());
    let cloud = points.iter().map(|point| Covariance::outer(point.minus(middle))).fold(Covariance::default(), Covariance::plus).ellipse();
    cloud.minor_m < NARROWEST * cloud.major_m
}

/// The corners of the smallest convex shape around points, in order (Andrew 1979, Inf. Proc. Letters 9, 216-219).
pub(super) fn convex(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.east_m.total_cmp(&b.east_m).then(a.north_m.total_cmp(&b.north_m)));
    let mut corners = half(sorted.iter());
    corners.extend(half(sorted.iter().rev()));
    corners
}

/// One side of the shape; its last point begins the other side.
fn half<'a>(points: impl Iterator<Item = &'a Point>) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for point in points {
        while let [.., before, last] = kept.as_slice() {
            if last.minus(*before).cross(point.minus(*last)) < 0.0 {
                break;
            }
            kept.pop();
        }
        kept.push(*point);
    }
    kept.pop();
    kept
}

/// Whether a point lies in a convex shape or on its edge.
pub(super) fn encloses(corners: &[Point], point: Point) -> bool {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).all(|(from, to)| to.minus(*from).cross(point.minus(*from)) <= 0.0)
}

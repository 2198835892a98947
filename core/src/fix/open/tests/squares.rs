//! Least squares and three-mark resection.

use serde_json::Value;

use super::super::equation::Equation;
use super::super::scene::Bounds;
use super::super::squares::{Shared, Squares, squares_from};
use super::super::start::all_squares;
use super::{ResectionError, equations_of, list, mark, number, resect, vectors};
use crate::measure::Point;

const RELATIVE: f64 = 1e-6;

fn shared_of(told: &Value) -> Shared {
    let spread = &told["shared_spread_deg"];
    if spread.is_string() { Shared::Free } else { spread.as_f64().filter(|spread| *spread > 0.0).map_or(Shared::Nothing, Shared::Spread) }
}

fn compare(told: &Value, found: &Squares) {
    let (expect, id) = (&told["expect"], &told["id"]);
    let axes = list(expect, "axes_m");
    let off_m = found.at.minus(Point::new(number(expect, "east_m"), number(expect, "north_m"))).length_m();
    assert!(off_m <= RELATIVE * axes[0], "{id}: {off_m} m off, axes {axes:?}");
    let got = [found.covariance.east2, found.covariance.east_north, found.covariance.north2];
    for (one, known) in got.iter().zip(list(expect, "covariance_m2")) {
        assert!((one - known).abs() <= RELATIVE * axes[0] * axes[0], "{id}: {got:?}");
    }
    let ellipse = found.covariance.ellipse();
    // The smaller axis of a long ellipse is the small difference of large numbers.
    let relative = RELATIVE + 1e-15 * (axes[0] / axes[1]).powi(2);
    assert!(
        (ellipse.major_m / axes[0] - 1.0).abs() <= RELATIVE && (ellipse.minor_m / axes[1] - 1.0).abs() <= relative,
        "{id}: {ellipse:?}"
    );
    let chi_square = number(expect, "chi_square");
    assert!((found.chi_square - chi_square).abs() <= RELATIVE * chi_square.max(1e-3), "{id}: {}", found.chi_square);
    if let Some(shared_deg) = expect["shared_deg"].as_f64() {
        assert!((found.shared_deg - shared_deg).abs() <= 1e-6, "{id}: {}", found.shared_deg);
        let spread_deg = number(expect, "shared_spread_deg");
        assert!((found.shared_spread_deg / spread_deg - 1.0).abs() <= RELATIVE, "{id}: {}", found.shared_spread_deg);
    }
}

#[test]
fn places_and_covariances_are_those_of_the_library() {
    let file = vectors("fix/open_ground");
    let mut count = 0;
    for told in file["fixes"].as_array().expect("fixes") {
        let Some(equations) = equations_of(told) else { continue };
        let equations: Vec<&Equation> = equations.iter().collect();
        let start = list(told, "start");
        let found = squares_from(&equations, shared_of(told), Point::new(start[0], start[1]));
        if told["indeterminate"].as_bool().is_some() {
            assert_eq!(found, None, "{}", told["id"]);
            continue;
        }
        compare(told, &found.unwrap_or_else(|| panic!("{}: nothing found", told["id"])));
        count += 1;
    }
    assert_eq!(count, 97);
}

/// Without any guess the search ends in a sum that is no greater, and in the same place where no smaller one is found.
#[test]
fn without_a_guess_the_least_sum_is_found() {
    let file = vectors("fix/open_ground");
    for told in file["fixes"].as_array().expect("fixes").iter().filter(|told| told["indeterminate"].is_null()) {
        let Some(equations) = equations_of(told) else { continue };
        let equations: Vec<&Equation> = equations.iter().collect();
        // The area of the case: all marks and as much again.
        let marks: Vec<Point> = told["marks"].as_array().expect("marks").iter().map(|one| mark(told, &one["id"]).at).collect();
        let middle = marks.iter().fold(Point::default(), |sum, at| sum.plus(at.times(1.0 / marks.len() as f64)));
        let reach_m = marks.iter().map(|at| at.minus(middle).length_m()).fold(1000.0, f64::max);
        let all = all_squares(&equations, shared_of(told), None, &Bounds::about(middle, 2.0 * reach_m));
        let first = all.first().unwrap_or_else(|| panic!("{}: nothing found", told["id"]));
        let known = number(&told["expect"], "chi_square");
        assert!(first.chi_square <= known + 1e-6 * known.max(1e-3), "{}: {} instead of {known}", told["id"], first.chi_square);
        // Three distances, or a bearing and two, may meet twice; bearings alone meet once.
        let bearings_only = equations.iter().all(|one| one.sure_bearing().is_some());
        if bearings_only && first.chi_square > known - 1e-6 {
            compare(told, first);
        }
    }
}

/// Two angles give the place of least squares without a search, and the published places to their last printed digit.
#[test]
fn three_marks_and_two_angles_give_the_place() {
    let file = vectors("fix/open_ground");
    let mut count = 0;
    for told in file["fixes"].as_array().expect("fixes") {
        let readings = told["readings"].as_array().expect("readings");
        if !(readings.len() == 2 && readings.iter().all(|one| one["kind"] == "angle")) {
            continue;
        }
        let marks = [&readings[0]["from"], &readings[0]["to"], &readings[1]["to"]].map(|name| mark(told, name).at);
        let found = resect(marks, [number(&readings[0], "angle_deg"), number(&readings[1], "angle_deg")]);
        if told["indeterminate"].as_bool().is_some() {
            let in_line = told["note"].as_str().is_some_and(|note| note.contains("in one line"));
            assert_eq!(found, Err(if in_line { ResectionError::InLine } else { ResectionError::OnCircle }), "{}", told["id"]);
            continue;
        }
        let expect = &told["expect"];
        let off_m = found.expect("place").minus(Point::new(number(expect, "east_m"), number(expect, "north_m"))).length_m();
        assert!(off_m <= RELATIVE * list(expect, "axes_m")[0], "{}: {off_m}", told["id"]);
        count += 1;
    }
    assert_eq!(count, 14);
}

/// The published examples: notes of a surveying course (read as printed), and Ghilani and Wolf, Elementary Surveying (inputs from
/// memory, answer by `SciPy` 1.17.1).
#[test]
fn printed_three_point_examples() {
    let (a, b, m) = (Point::new(430.659, 143.556), Point::new(172.268, 191.406), Point::new(294.678, 553.630));
    let place = resect([a, m, b], [215.0, 230.0]).expect("place");
    assert!((place.east_m - 303.913).abs() < 5e-4 && (place.north_m - 310.678).abs() < 5e-4, "{place:?}");
    let marks = [Point::new(5721.25, 21802.48), Point::new(13542.99, 22497.95), Point::new(20350.09, 24861.22)];
    let degrees = |d: f64, m: f64, s: f64| d + m / 60.0 + s / 3600.0;
    let place = resect(marks, [degrees(48.0, 53.0, 12.0), degrees(41.0, 20.0, 35.0)]).expect("place");
    assert!((place.east_m - 14377.217).abs() < 6e-4 && (place.north_m - 16011.049).abs() < 6e-4, "{place:?}");
}

/// From a place inside the circle, one mark turned to the opposite: the circles still meet there, but nowhere is it seen so.
#[test]
fn angles_that_no_place_shows_are_refused() {
    let marks = [Point::new(0.0, 1000.0), Point::new(600.0, 800.0), Point::new(960.0, -280.0)];
    let from = Point::new(300.0, 250.0);
    let [first, second, third] = marks.map(|mark| mark.minus(from).bearing_deg());
    assert!(resect(marks, [second - first, third - second]).is_ok_and(|place| place.minus(from).length_m() < 1e-6));
    assert_eq!(resect(marks, [second - first + 180.0, third - second]), Err(ResectionError::Nowhere));
    // Parallel circles through the middle mark that are not the same: they meet in the mark alone.
    let in_row = [Point::new(-1.0, 0.0), Point::default(), Point::new(2.0, 0.0)];
    assert_eq!(resect(in_row, [90.0, 90.0]), Err(ResectionError::Nowhere));
}

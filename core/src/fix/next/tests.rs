#![allow(clippy::indexing_slicing, clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::{NextSight, NextWhat, next_sights};
use crate::earth::{Grid, LatLon, LocalFrame, Norths, date_of};
use crate::fix::{BearingSighting, Instrument, Scene, Sighting, take};
use crate::measure::{LINE_95, NamedBearing, North, Point};
use crate::sheet::{Landmark, Line};

fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(58.6, 25.2).unwrap());
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap()
}

fn mark(name: &str, east_m: f64, north_m: f64) -> Landmark {
    Landmark { name: name.into(), kind: "mast".into(), at: Point::new(east_m, north_m), spread_m: 0.0, height_m: None }
}

fn road(points: Vec<Point>) -> Line {
    Line::new("Road", "road", points, 0.0).unwrap()
}

/// The bearing to a landmark as it is read in the origin.
fn read(to: &Landmark, norths: &Norths) -> Sighting {
    let reading = NamedBearing::new(to.at.bearing_deg() - norths.plane_minus_magnetic_deg(Point::default()), North::Magnetic);
    Sighting::Bearing(BearingSighting::to(to.clone(), reading, None))
}

fn proposed(line: &Line, first: &Landmark, others: &[Landmark], in_sight: &dyn Fn(Point) -> Vec<Option<f64>>) -> Vec<NextSight> {
    let norths = norths();
    let mut scene = Scene::on(line, vec![read(first, &norths)], &norths, Instrument::Sighting.trust());
    scene.wrong_share = 1e-6;
    let fix = take(&scene).unwrap();
    let mut landmarks = vec![first.clone()];
    landmarks.extend_from_slice(others);
    next_sights(&scene, &fix, &landmarks, in_sight)
}

fn not_told(_: Point) -> Vec<Option<f64>> {
    Vec::new()
}

/// Width at 95 % along a straight road east from bearings that share an error: the normal equations of place and shared error.
fn expected_m(marks: &[&Landmark], own_deg: f64, shared_deg: f64) -> f64 {
    let (own, shared) = (own_deg.to_radians(), shared_deg.to_radians());
    // A step east turns the ray to a mark by its north part over the distance squared, to the left.
    let gain = |mark: &Landmark| -mark.at.north_m / mark.at.dot(mark.at);
    let place: f64 = marks.iter().map(|mark| (gain(mark) / own).powi(2)).sum();
    let both: f64 = marks.iter().map(|mark| gain(mark) / own.powi(2)).sum();
    let error = marks.len() as f64 / own.powi(2) + 1.0 / shared.powi(2);
    2.0 * LINE_95 / (place - both * both / error).sqrt()
}

#[test]
fn the_length_left_is_that_of_the_normal_equations() {
    let line = road(vec![Point::new(-4_000.0, 0.0), Point::new(4_000.0, 0.0)]);
    let (first, near, far) = (mark("first", 500.0, 2_000.0), mark("near", -300.0, 900.0), mark("far", 1_500.0, -3_500.0));
    let told = proposed(&line, &first, &[near.clone(), far.clone()], &not_told);
    let trust = Instrument::Sighting.trust();
    let own_deg = trust.reading_spread_deg.hypot(trust.graduation_deg / 12f64.sqrt());
    let shared_deg = trust.shared_spread_deg.hypot(norths().declination_spread_deg());
    assert_eq!(told[0].what, NextWhat::Bearing("near".into()));
    for (one, other) in told.iter().zip([&near, &far]) {
        let (now_m, left_m) = (expected_m(&[&first], own_deg, shared_deg), expected_m(&[&first, other], own_deg, shared_deg));
        assert!((one.now_m / now_m - 1.0).abs() < 0.02, "now {} instead of {now_m}", one.now_m);
        assert!((one.leaves_m / left_m - 1.0).abs() < 0.05, "{:?}: {} instead of {left_m}", one.what, one.leaves_m);
    }
}

#[test]
fn what_is_probably_hidden_is_not_proposed() {
    let line = road(vec![Point::new(-4_000.0, 0.0), Point::new(4_000.0, 0.0)]);
    let others = [mark("near", -300.0, 900.0), mark("far", 1_500.0, -3_500.0)];
    let told = proposed(&line, &mark("first", 500.0, 2_000.0), &others, &|_| vec![Some(1.0), Some(0.2), Some(0.9)]);
    assert_eq!(told[0].what, NextWhat::Bearing("far".into()));
    assert!(told.iter().all(|one| one.what != NextWhat::Bearing("near".into())));
    assert!(told[0].in_sight.is_some_and(|chance| (chance - 0.9).abs() < 1e-9));
}

/// A ray along the legs of a bent road leaves two places; the run of the road tells them apart, and so does a mark between.
#[test]
fn a_bent_road_asks_for_what_tells_its_places_apart() {
    let line = road(vec![Point::new(-600.0, 500.0), Point::new(0.0, 0.0), Point::new(600.0, 500.0), Point::new(1_500.0, 500.0)]);
    let first = mark("first", 0.0, 3_000.0);
    let told = proposed(
        &road(vec![Point::new(0.0, 500.0), Point::new(-500.0, 0.0), Point::new(0.0, -500.0)]),
        &first,
        &[mark("side", 900.0, 0.0)],
        &not_told,
    );
    assert!(told.iter().any(|one| one.what == NextWhat::LineRun), "{told:?}");
    assert!(told.iter().any(|one| one.what == NextWhat::Bearing("side".into()) && one.settles), "{told:?}");
    let straight = proposed(&line, &first, &[], &not_told);
    assert!(straight.iter().all(|one| one.leaves_m < one.now_m), "{straight:?}");
}

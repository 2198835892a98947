//! The next sighting in the open: what it is said to leave is what fixes with it leave.

use super::{Bounds, Dice, OpenScene, OpenSighting, norths, open_next, take_open};
use crate::earth::Compass;
use crate::fix::{BearingSighting, Instrument, NextWhat};
use crate::measure::{NamedBearing, Point};
use crate::sheet::Landmark;

fn mark(name: &str, east_m: f64, north_m: f64) -> Landmark {
    Landmark { name: name.into(), kind: "mast".into(), at: Point::new(east_m, north_m), spread_m: 5.7, height_m: None }
}

/// Twenty walkers with one bearing each take the second: the mean width of their areas is near the one foretold, and the landmark that
/// was recommended leaves less than the one it was preferred to.
#[test]
fn what_a_sighting_is_said_to_leave_is_what_it_leaves() {
    let (norths, trust) = (norths(), Instrument::Sighting.trust());
    let marks = [mark("first", 0.0, 2_000.0), mark("square", 1_500.0, 100.0), mark("behind", -300.0, 2_900.0)];
    let mut dice = Dice(0x5EED_4E87_0F0F_1234);
    let read = |at: Point, landmark: &Landmark, dice: &mut Dice| {
        let read_deg = landmark.at.minus(at).bearing_deg() + trust.reading_spread_deg * dice.normal();
        let reading = NamedBearing::Magnetic(norths.to_magnetic(read_deg, at));
        OpenSighting::Bearing(BearingSighting::to(landmark.clone(), reading, None))
    };
    let scene = |sightings| OpenScene { sightings, norths: &norths, trust, near: None, bounds: Bounds::about(Point::default(), 2_500.0) };
    let at = Point::new(30.0, 0.0);
    let first = scene(vec![read(at, &marks[0], &mut dice)]);
    let fix = take_open(&first).unwrap();
    let next = open_next(&first, &fix, &marks, &|_| vec![None; 3]);
    let names: Vec<&NextWhat> = next.iter().map(|one| &one.what).collect();
    assert_eq!(names.first(), Some(&&NextWhat::Bearing("square".into())), "{next:?}");
    let mut left_m = 0.0;
    let mut walkers = 0.0;
    for _ in 0..20 {
        // A walker somewhere the first bearing leaves.
        let wanted = dice.even();
        let mut held = 0.0;
        let place = fix.odds.cells.iter().find(|cell| {
            held += cell.share();
            held >= wanted
        });
        let from = place.unwrap().at;
        let second = scene(first.sightings.iter().cloned().chain([read(from, &marks[1], &mut dice)]).collect());
        let taken = take_open(&second).unwrap();
        let level = taken.odds.level_of_share(0.95);
        let area_m2: f64 = taken.odds.cells.iter().take_while(|cell| cell.per_m2 >= level).map(super::Cell::area_m2).sum();
        left_m += (4.0 * area_m2 / std::f64::consts::PI).sqrt();
        walkers += 1.0;
    }
    let ratio = left_m / walkers / next[0].leaves_m;
    assert!((ratio - 1.0).abs() < 0.25, "{} m told, {} m left", next[0].leaves_m, left_m / walkers);
    assert!(next[0].now_m > next[0].leaves_m);
}

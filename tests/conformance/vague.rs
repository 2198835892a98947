//! Walkers who sight one roughly placed feature again and again: the error of its place is the same in all of their readings.

use std::time::{Duration, Instant};

use gatepost_core::earth::{Grid, LatLon, LocalFrame, Norths, date_of};
use gatepost_core::fix::{BearingSighting, Instrument, Scene, Sighting, slips, take};
use gatepost_core::measure::{NamedBearing, North, Point};
use gatepost_core::sheet::{Landmark, Line};

use crate::fix::Dice;

/// One sigma of the feature's place, in either axis, metres.
const SPREAD_M: f64 = 120.0;

fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(58.6, 25.2).unwrap());
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap()
}

/// Six kilometres due east.
fn road() -> Line {
    Line::new("Road", "road", vec![Point::new(-3_000.0, 0.0), Point::new(3_000.0, 0.0)], 5.0).unwrap()
}

/// A walker's place along the road, and so many readings of a feature 400 to 1,500 m off it, each to whole degrees.
fn walker(count: usize, norths: &Norths, dice: &mut Dice) -> (f64, Vec<Sighting>) {
    let trust = Instrument::Sighting.trust();
    let along_m = 6_000.0 * dice.even();
    let at = Point::new(along_m - 3_000.0, 0.0);
    let place = Point::new(-2_000.0 + 4_000.0 * dice.even(), 400.0 + 1_100.0 * dice.even());
    let really = place.plus(Point::new(dice.normal(), dice.normal()).times(SPREAD_M.hypot(5.0)));
    let shared_deg = dice.normal() * trust.shared_spread_deg.hypot(norths.declination_spread_deg());
    let feature = Landmark { name: "Hut".into(), kind: String::new(), at: place, spread_m: SPREAD_M, height_m: None };
    let read = |dice: &mut Dice| {
        let plane_deg = really.minus(at).bearing_deg() + shared_deg + dice.normal() * trust.reading_spread_deg;
        let read_deg = ((plane_deg - norths.plane_minus_magnetic_deg(at)) / trust.graduation_deg).round() * trust.graduation_deg;
        Sighting::Bearing(BearingSighting::to(feature.clone(), NamedBearing::new(read_deg, North::Magnetic), None))
    };
    (along_m, (0..count).map(|_| read(dice)).collect())
}

/// The share of so many walkers whose place the 95 % limits hold.
fn held(readings: usize, walkers: usize) -> f64 {
    let (road, norths, mut dice) = (road(), norths(), Dice(0x7A60_E000_7A60_E000 + readings as u64));
    let (mut taken, mut held) = (0, 0);
    while taken < walkers {
        let (along_m, sightings) = walker(readings, &norths, &mut dice);
        let Ok(fix) = take(&Scene::on(&road, sightings, &norths, Instrument::Sighting.trust())) else { continue };
        taken += 1;
        held += usize::from(fix.stretches.iter().any(|one| (one.limits_95_m.0..=one.limits_95_m.1).contains(&along_m)));
    }
    held as f64 / walkers as f64
}

/// Three sigmas of a share of 0.95 over six hundred are 2.7 %.
#[test]
fn a_vague_feature_read_again_and_again_holds_its_walkers() {
    for readings in [1, 4, 12] {
        let share = held(readings, 600);
        assert!((share - 0.95).abs() < 0.027, "{readings} readings: {share}");
    }
}

/// Sixty readings of one feature are answered like twelve: a table serves for all of them. Before, they took minutes.
#[test]
fn sixty_readings_of_a_vague_feature_are_answered() {
    let (road, norths, mut dice) = (road(), norths(), Dice(0x5A61_0000_0000_0060));
    let mut took = |count: usize| {
        let (_, sightings) = walker(count, &norths, &mut dice);
        let scene = Scene::on(&road, sightings, &norths, Instrument::Sighting.trust());
        let begun = Instant::now();
        let fix = take(&scene).unwrap();
        let found = slips(&scene, &[], fix.best().unwrap(), None);
        assert!(found.none > 0.5, "{:?}", found.found);
        begun.elapsed()
    };
    let (twelve, sixty) = (took(12), took(60));
    assert!(sixty < 8 * twelve.max(Duration::from_millis(100)), "twelve {twelve:?}, sixty {sixty:?}");
}

//! Lines that come over their own ground again, made by hand in a plane of metres at 46° N 13° E. Recordings have errors of their own
//! made of sines, so that every run is the same.

#![allow(clippy::float_cmp, clippy::indexing_slicing, clippy::panic, clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::shape::{METRES_PER_DEG, Pos, metres_from};
use super::unfold::{Unfolded, resumed, unfold};

const ORIGIN: Pos = (46.0, 13.0);

fn line(metres: &[(f64, f64)]) -> Vec<Pos> {
    let cos = ORIGIN.0.to_radians().cos();
    metres.iter().map(|(east, north)| (ORIGIN.0 + north / METRES_PER_DEG, ORIGIN.1 + east / METRES_PER_DEG / cos)).collect()
}

fn of(metres: &[(f64, f64)], is_recorded: bool) -> Option<Unfolded> {
    unfold(&line(metres), 5.0, is_recorded, &mut 10_000_000)
}

/// The ways that are left, in whole metres.
fn ways(metres: &[(f64, f64)]) -> Vec<Vec<(i64, i64)>> {
    let whole = |at: &Pos| {
        let (east, north) = metres_from(ORIGIN, *at);
        (east.round() as i64, north.round() as i64)
    };
    let way = |way: &Vec<Pos>| way.iter().map(whole).collect();
    [true, false]
        .map(|is_recorded| of(metres, is_recorded).map_or_else(|| vec![line(metres)], |unfolded| unfolded.ways))
        .map(|all| all.iter().map(way).collect::<Vec<Vec<(i64, i64)>>>())
        .into_iter()
        .reduce(|recorded, drawn| {
            assert_eq!(recorded, drawn, "exact copies are one way however the line came about");
            drawn
        })
        .unwrap()
}

fn length_m(way: &[Pos]) -> f64 {
    way.windows(2).map(|pair| metres_from(pair[0], pair[1])).map(|(east, north)| east.hypot(north)).sum()
}

#[test]
fn there_and_back_is_the_way_there() {
    let there = [(0.0, 0.0), (300.0, 100.0), (700.0, 0.0)];
    assert_eq!(ways(&[there[0], there[1], there[2], there[1], there[0]]), [vec![(0, 0), (300, 100), (700, 0)]]);
    // The very points of the file stay.
    let file = line(&[there[0], there[1], there[2], there[1], there[0]]);
    assert_eq!(unfold(&file, 5.0, false, &mut 10_000_000).unwrap().ways, [file[..3].to_vec()]);
    // Not all the way back, beyond where it began, and there again.
    assert_eq!(ways(&[(0.0, 0.0), (1000.0, 0.0), (400.0, 0.0)]), [vec![(0, 0), (1000, 0)]]);
    assert_eq!(ways(&[(0.0, 0.0), (1000.0, 0.0), (-300.0, 0.0)]), [vec![(0, 0), (1000, 0)], vec![(0, 0), (-300, 0)]]);
    assert_eq!(ways(&[(0.0, 0.0), (1000.0, 0.0), (0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0)]), [vec![(0, 0), (1000, 0), (1000, 500)]]);
}

#[test]
fn a_spur_is_a_line_beside_the_way_that_goes_on() {
    let walked = [(0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (500.0, 0.0), (1200.0, 0.0)];
    assert_eq!(ways(&walked), [vec![(0, 0), (500, 0), (1200, 0)], vec![(500, 0), (500, 300)]]);
    // Two of them, on either side.
    let two = [&walked[..], &[(1200.0, -400.0), (1200.0, 0.0), (2000.0, 0.0)]].concat();
    let told = ways(&two);
    assert_eq!(told, [vec![(0, 0), (500, 0), (1200, 0), (2000, 0)], vec![(500, 0), (500, 300)], vec![(1200, 0), (1200, -400)]]);
    // One that leaves the ground of the way back.
    let left = [(0.0, 0.0), (1000.0, 0.0), (400.0, 0.0), (400.0, 600.0)];
    assert_eq!(ways(&left), [vec![(0, 0), (400, 0), (400, 600)], vec![(400, 0), (1000, 0)]]);
}

#[test]
fn a_loop_stays_a_loop_and_a_second_round_is_none() {
    let ring = [(0.0, 0.0), (400.0, 0.0), (400.0, 400.0), (0.0, 400.0), (0.0, 0.0)];
    let once = vec![(0, 0), (400, 0), (400, 400), (0, 400), (0, 0)];
    assert_eq!(ways(&ring), std::slice::from_ref(&once));
    assert_eq!(of(&ring, true), None);
    assert_eq!(ways(&[&ring[..], &ring[1..], &ring[1..3]].concat()), std::slice::from_ref(&once));
    // Round the other way.
    let back: Vec<(f64, f64)> = ring.iter().rev().copied().collect();
    assert_eq!(ways(&[&ring[..], &back[1..]].concat()), [once]);
}

#[test]
fn a_stick_with_a_loop_is_the_stick_once_and_the_loop() {
    let walked = [(0.0, 0.0), (600.0, 0.0), (900.0, 300.0), (1200.0, 0.0), (900.0, -300.0), (600.0, 0.0), (0.0, 0.0)];
    assert_eq!(ways(&walked), [vec![(0, 0), (600, 0), (900, 300), (1200, 0), (900, -300), (600, 0)]]);
}

#[test]
fn zigzags_hairpins_and_the_sides_of_a_narrow_loop_are_two() {
    // A path that climbs by legs of 60 m, 8 m apart where they end.
    let zigzag: Vec<(f64, f64)> = (0..12).map(|leg| (if leg % 2 == 0 { 0.0 } else { 60.0 }, f64::from(leg) * 4.0)).collect();
    // A road whose legs of 400 m open by 10 degrees.
    let hairpin = [(0.0, 0.0), (400.0, 0.0), (0.0, 70.0)];
    for walked in [&zigzag[..], &hairpin[..]] {
        assert_eq!((of(walked, true), of(walked, false)), (None, None));
    }
    // The two sides of a street, 8 m apart: drawn they are two; a receiver cannot tell them apart.
    let street = [(0.0, 0.0), (500.0, 0.0), (500.0, 8.0), (0.0, 8.0)];
    assert_eq!(of(&street, false), None);
    let recorded = of(&street, true).unwrap();
    assert!(recorded.ways.len() == 1 && (length_m(&recorded.ways[0]) - 500.0).abs() < 10.0, "{recorded:?}");
    // Lines that only cross themselves.
    assert_eq!(of(&[(0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (250.0, -500.0)], true), None);
}

/// A way along a slow bend with places every 10 m, each off to the side by some metres, differently on each pass.
fn recorded(from_m: i32, to_m: i32, pass: f64) -> Vec<(f64, f64)> {
    let place = |metres: i32| {
        let along_m = f64::from(metres);
        let error_m = |wave_m: f64, shift: f64| 2.5 * (along_m / wave_m + 2.1 * pass + shift).sin();
        let north_m = 150.0 * (along_m / 400.0).sin();
        (along_m + error_m(37.0, 0.3), north_m + error_m(61.0, pass) + error_m(23.0, 1.0))
    };
    let steps = (to_m - from_m).abs() / 10;
    (0..=steps).map(|step| place(from_m + step * 10 * (to_m - from_m).signum())).collect()
}

#[test]
fn a_recorded_walk_there_and_back_is_one_way() {
    let walked = [recorded(0, 2000, 0.0), recorded(2000, 0, 1.0)].concat();
    // A drawn line that weaves about itself like this is one way too.
    for is_recorded in [true, false] {
        let told = of(&walked, is_recorded).unwrap();
        let there_m = length_m(&line(&recorded(0, 2000, 0.0)));
        assert!(
            told.ways.len() == 1 && (length_m(&told.ways[0]) - there_m).abs() < 30.0,
            "{is_recorded} {:?} {there_m}",
            told.ways.iter().map(|way| length_m(way)).collect::<Vec<_>>()
        );
        assert!((told.again_m - there_m).abs() < 60.0, "{}", told.again_m);
    }
    // The same with some points written twice, as a receiver does that starts anew.
    let (twice, forth) = (recorded(2000, 1900, 0.0), recorded(1900, 2000, 0.0));
    let walked = [recorded(0, 2000, 0.0), twice, forth, recorded(2000, 0, 1.0)].concat();
    let told = of(&walked, true).unwrap();
    assert!(told.ways.len() == 1 && (length_m(&told.ways[0]) - length_m(&line(&recorded(0, 2000, 0.0)))).abs() < 30.0);
    // A spur of 500 m from its middle, walked in and out.
    let spur = |from: f64, to: f64, pass: f64| -> Vec<(f64, f64)> {
        let steps = 50;
        let place = |step: i32| {
            let off_m = from + (to - from) * f64::from(step) / f64::from(steps);
            (1000.0 + 3.0 * (off_m / 40.0 + 3.0 * pass).sin(), 150.0 * 2.5_f64.sin() + off_m)
        };
        (0..=steps).map(place).collect()
    };
    let walked = [recorded(0, 1000, 0.0), spur(0.0, 500.0, 0.0), spur(500.0, 0.0, 1.0), recorded(1000, 2000, 0.0)].concat();
    let told = of(&walked, true).unwrap();
    let lengths: Vec<f64> = told.ways.iter().map(|way| (length_m(way) / 50.0).round() * 50.0).collect();
    assert_eq!((lengths[1], lengths.len()), (500.0, 2), "{lengths:?}");
    assert!((length_m(&told.ways[0]) - length_m(&line(&recorded(0, 2000, 0.0)))).abs() < 40.0, "{lengths:?}");
}

#[test]
fn a_recording_that_paused_at_the_turn_is_one_way() {
    let (there, back) = (line(&recorded(0, 2000, 0.0)), line(&recorded(1990, 0, 1.0)));
    let whole = resumed(vec![there.clone(), back, line(&[(500.0, 900.0), (600.0, 900.0)])], 5.0);
    assert_eq!(whole.len(), 2, "a gap of 10 m is a rest, one of a kilometre is none");
    let told = unfold(&whole[0], 5.0, true, &mut 10_000_000).unwrap();
    assert!(told.ways.len() == 1 && (length_m(&told.ways[0]) - length_m(&there)).abs() < 30.0);
}

#[test]
fn a_recorded_round_walked_three_times_is_one_round() {
    let place = |step: i32| {
        let (angle, pass) = (f64::from(step) * 0.05, f64::from(step / 126));
        let radius_m = 200.0 + 3.0 * (angle * 5.0 + 2.0 * pass).sin();
        (radius_m * angle.sin(), radius_m * angle.cos())
    };
    let walked: Vec<(f64, f64)> = (0..3 * 126).map(place).collect();
    let told = of(&walked, true).unwrap();
    assert_eq!(told.ways.len(), 1);
    assert!((length_m(&told.ways[0]) / (400.0 * std::f64::consts::PI) - 1.0).abs() < 0.05, "{}", length_m(&told.ways[0]));
    assert_eq!(told.ways[0].first(), told.ways[0].last(), "it goes round");
}

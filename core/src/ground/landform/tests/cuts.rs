//! Cuts and fills.

#![allow(clippy::expect_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

use super::{bell, ground, place};
use crate::earth::LatLon;
use crate::ground::landform::{CutFill, CutFillError, cuts_and_fills};
use crate::ground::{HeightSpread, Heights};

/// A road to the east over a ridge and a furrow, dug and filled to a level run 14 m wide.
fn road(dug: bool, east_m: f64, north_m: f64) -> f64 {
    let wild = 100.0 + 8.0 * bell(east_m + 150.0, 50.0) - 7.0 * bell(east_m - 150.0, 50.0);
    if dug && north_m.abs() < 7.5 { 100.0 } else { wild }
}

fn along_the_middle(heights: &Heights) -> Vec<LatLon> {
    vec![place(heights, -300.0, 0.0), place(heights, 10.0, 0.0), place(heights, 300.0, 0.0)]
}

#[test]
fn a_road_through_a_ridge_and_over_a_furrow_has_a_cut_and_a_fill() {
    let fine = HeightSpread { sigma_m: 0.5, correlation_m: 100.0 };
    let heights = ground(161, 5.0, fine, |east_m, north_m| road(true, east_m, north_m));
    let found = cuts_and_fills(&heights, &along_the_middle(&heights)).expect("cuts");
    assert_eq!(found.iter().map(|one| one.kind).collect::<Vec<_>>(), [CutFill::Cut, CutFill::Fill]);
    // 8 m · exp(-(x/50)²) is 2 m at 59 m to each side; 7 m at 56 m. Steps of 5 m.
    assert!((found[0].from_m - 91.0).abs() < 6.0 && (found[0].to_m - 209.0).abs() < 6.0, "{found:?}");
    assert!((found[0].most_m - 8.0).abs() < 0.1 && (found[1].most_m - 7.0).abs() < 0.1, "{found:?}");
    assert!(found.iter().all(|one| one.strength > 0.9));
    let wild = ground(161, 5.0, fine, |east_m, north_m| road(false, east_m, north_m));
    assert!(cuts_and_fills(&wild, &along_the_middle(&wild)).expect("none").is_empty());
}

/// A level road, 12 m wide, through a long hill of 30 m with faces of 1 in 1.5.
#[test]
fn a_deep_cut_is_as_deep_as_its_shoulders_stand_high() {
    let fine = HeightSpread { sigma_m: 0.5, correlation_m: 100.0 };
    let deep = |east_m: f64, north_m: f64| {
        let wild = 100.0 + 30.0 * bell(east_m, 200.0);
        wild.min(100.0 + (north_m.abs() - 6.0).max(0.0) / 1.5)
    };
    let heights = ground(321, 5.0, fine, deep);
    let line = vec![place(&heights, -700.0, 0.0), place(&heights, 700.0, 0.0)];
    let found = cuts_and_fills(&heights, &line).expect("cuts");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!((found[0].most_m - 30.0).abs() < 4.0 && found[0].to_m - found[0].from_m > 500.0, "{found:?}");
    let valley = ground(321, 5.0, fine, |_, north_m| 100.0 + 0.5 * north_m.abs());
    assert!(cuts_and_fills(&valley, &line).expect("none").is_empty());
}

#[test]
fn a_road_up_a_valley_or_along_a_ridge_has_neither() {
    let fine = HeightSpread { sigma_m: 0.5, correlation_m: 100.0 };
    for side in [0.3, -0.3] {
        let heights = ground(161, 5.0, fine, |east_m, north_m| 100.0 + 4.0 * (east_m / 60.0).sin() + side * north_m.abs());
        assert!(cuts_and_fills(&heights, &along_the_middle(&heights)).expect("none").is_empty());
    }
    let coarse = ground(31, 30.0, fine, |east_m, north_m| road(true, east_m, north_m));
    assert_eq!(cuts_and_fills(&coarse, &along_the_middle(&coarse)), Err(CutFillError::TooCoarse));
}

/// By construction: level roads through hills with faces of 1 in 1.5; the shoulders stand as high as the hill.
#[test]
fn the_last_part_of_the_face_counts() {
    let fine = HeightSpread { sigma_m: 0.5, correlation_m: 100.0 };
    for (step_m, high_m) in [(2.5, 12.0), (5.0, 12.0), (2.5, 40.0), (5.0, 40.0)] {
        let dug = |east_m: f64, north_m: f64| {
            let wild = 100.0 + high_m * bell(east_m, 60.0);
            wild.min(100.0 + (north_m.abs() - 5.0).max(0.0) / 1.5)
        };
        let heights = ground((1000.0 / step_m) as usize + 1, step_m, fine, dug);
        let line = vec![place(&heights, -400.0, 0.0), place(&heights, 400.0, 0.0)];
        let found = cuts_and_fills(&heights, &line).expect("cuts");
        assert!(found.len() == 1 && (found[0].most_m - high_m).abs() < 0.6, "{step_m} {high_m}: {found:?}");
    }
}

/// By construction: a road on a dam or in a trench with faces of 1 in 1.5, which runs out into a plane that slopes across it and along it; ridges and
/// valleys with the same crest or bed, whose sides go on, have neither.
#[test]
fn a_dam_and_a_trench_on_a_plane_are_made() {
    let fine = HeightSpread { sigma_m: 0.15, correlation_m: 50.0 };
    for (kind, sign) in [(CutFill::Fill, 1.0), (CutFill::Cut, -1.0)] {
        for (step_m, high_m, across, along) in [(2.5, 4.0, 0.0, 0.0), (5.0, 6.0, 0.05, 0.0), (5.0, 3.0, 0.0, 0.03), (10.0, 8.0, 0.02, 0.02)]
        {
            let posts = (1400.0 / step_m) as usize + 1;
            let plane = |east_m: f64, north_m: f64| 100.0 + along * east_m + across * north_m;
            let run_m = |east_m: f64| (high_m * (1.0 - (east_m.abs() - 150.0).max(0.0) / 150.0)).max(0.0);
            let made = |e: f64, n: f64| plane(e, n) + sign * (run_m(e) - (n.abs() - 5.0).max(0.0) / 1.5).max(0.0);
            let heights = ground(posts, step_m, fine, made);
            let line = vec![place(&heights, -500.0, 0.0), place(&heights, 500.0, 0.0)];
            let found = cuts_and_fills(&heights, &line).expect("cuts");
            let case = format!("{kind:?} {step_m} {high_m} {across} {along}: {found:?}");
            assert!(found.len() == 1 && found[0].kind == kind, "{case}");
            // 2 m are reached so far up the ramps, by steps of 5 m; a plane that slopes across takes some of that away.
            let out_m = 150.0 + 150.0 * (1.0 - 2.0 / high_m);
            assert!((found[0].from_m - (500.0 - out_m)).abs() < 45.0 && (found[0].to_m - (500.0 + out_m)).abs() < 45.0, "{out_m} {case}");
            assert!((found[0].most_m - high_m).abs() <= 0.2 * high_m + across * 20.0, "{case}");
            for sides in [0.2, 0.1] {
                let natural = ground(posts, step_m, fine, |e, n| plane(e, n) - sign * sides * n.abs());
                assert!(cuts_and_fills(&natural, &line).expect("none").is_empty(), "{kind:?} {sides}");
            }
            let broad = ground(posts, step_m, fine, |e, n| plane(e, n) + sign * high_m * bell(n, 60.0));
            assert!(cuts_and_fills(&broad, &line).expect("none").is_empty(), "{kind:?}");
        }
    }
}

/// Smooth rough ground of so many metres, by hand-picked waves.
fn rough(east_m: f64, north_m: f64, most_m: f64) -> f64 {
    most_m * ((east_m / 170.0).sin() * (north_m / 210.0).cos() + 0.5 * (east_m / 61.0 + north_m / 83.0).sin()) / 1.5
}

/// By construction: cuts and fills of 12 m and 200 m with a floor (or crown) of 10 or 16 m and faces up to 25 and 30 m from the middle, on rough ground with
/// errors; gullies, ridges and hollow ways as deep and as wide, round across or even-sided, on the same ground have neither.
#[test]
fn wide_faces_are_told_and_natural_ones_are_not() {
    let fine = HeightSpread { sigma_m: 0.3, correlation_m: 50.0 };
    let noise = |e: f64, n: f64| 0.3 * ((e * 12.9898 + n * 78.233).sin() * 43758.5453).fract();
    let ends = |east_m: f64| ((100.0 - east_m.abs()).max(0.0) / 30.0).min(1.0);
    let found = |across: &dyn Fn(f64) -> f64| {
        let heights = ground(161, 5.0, fine, |e, n| 300.0 + rough(e, n, 1.5) + noise(e, n) + across(n) * ends(e));
        cuts_and_fills(&heights, &along_the_middle(&heights)).expect("heights")
    };
    for (kind, sign) in [(CutFill::Fill, 1.0), (CutFill::Cut, -1.0)] {
        for (floor_m, foot_m) in [(5.0, 25.0), (8.0, 30.0)] {
            let made = found(&|n| sign * 12.0 * ((foot_m - n.abs()) / (foot_m - floor_m)).clamp(0.0, 1.0));
            assert!(
                made.len() == 1 && made[0].kind == kind && (made[0].most_m - 12.0).abs() < 2.5,
                "{kind:?} {floor_m} {foot_m}: {made:?}"
            );
            assert!((made[0].from_m - 200.0).abs() < 15.0 && (made[0].to_m - 400.0).abs() < 15.0, "{made:?}");
        }
        for (deep_m, wide_m) in [(12.0, 13.0), (12.0, 16.0), (12.0, 20.0), (20.0, 14.0), (20.0, 18.0), (8.0, 14.0)] {
            let natural = found(&|n| sign * deep_m * (-n * n / (2.0 * wide_m * wide_m)).exp());
            assert!(natural.is_empty(), "{kind:?} round {deep_m} {wide_m}: {natural:?}");
        }
        for (deep_m, half_m) in [(12.0, 28.0), (12.0, 32.0), (15.0, 30.0)] {
            let natural = found(&|n| sign * deep_m * (1.0 - n.abs() / half_m).max(0.0));
            assert!(natural.is_empty(), "{kind:?} even {deep_m} {half_m}: {natural:?}");
        }
    }
    let terrace = found(&|n| 12.0 * ((n + 10.0) / 20.0).clamp(0.0, 1.0));
    assert!(terrace.is_empty(), "{terrace:?}");
}

//! Cliffs from a place on grounds whose drops are known by construction: each side and each much higher part is told.

use super::{ground, place};
use crate::ground::{Around, HeightSpread, Heights, LandformKind, LandformScale, Trend, landforms_from};
use crate::measure::signed_difference_deg;

const FINE: HeightSpread = HeightSpread { sigma_m: 1.0, correlation_m: 100.0 };

fn cliffs(heights: &Heights, east_m: f64, north_m: f64) -> Vec<Around> {
    let mut told = landforms_from(heights, place(heights, east_m, north_m), 1000.0, &LandformScale::default()).expect("landforms");
    told.retain(|one| one.landform.kind == LandformKind::Cliff);
    told
}

/// Whether one of those told lies so: trend, bearing, metres, drop.
fn holds(told: &[Around], (trend, bearing_deg, away_m, drop_m): (Trend, f64, f64, f64)) -> bool {
    told.iter().any(|one| {
        let off_deg = signed_difference_deg(one.bearing.degrees(), bearing_deg).abs();
        let is_there = (one.distance_m - away_m).abs() <= 2.0 * one.blur_m && off_deg <= 6.0;
        one.trend == trend && is_there && (one.landform.relief_m - drop_m).abs() <= 0.1 * drop_m
    })
}

/// A step of 15 m along a line east of the eye, which runs into a drop of 80 m that turns away from it: one rim, two heights.
#[test]
fn a_high_part_of_a_low_cliff_is_told_besides() {
    let heights = ground(301, 10.0, FINE, |e, n| {
        let step_m = if e > 105.0 { -15.0 } else { 0.0 };
        let drop_m = if e > 105.0 && n > 305.0 { -65.0 } else { 0.0 };
        step_m + drop_m
    });
    let told = cliffs(&heights, 0.0, 0.0);
    assert!(told.len() == 2 && holds(&told, (Trend::Falls, 90.0, 100.0, 15.0)), "{told:?}");
    let (high_m, high_deg) = (100.0_f64.hypot(300.0), 100.0_f64.atan2(300.0).to_degrees());
    assert!(holds(&told, (Trend::Falls, high_deg, high_m, 80.0)), "{told:?}");
}

/// A canyon 200 m wide with a closed head: from the plateau its near wall falls, its head and its far wall rise, on one rim; from its floor all rise.
/// From beyond its head that falls, and each of its sides rises behind the canyon.
#[test]
fn the_two_walls_of_a_canyon_are_told_apart() {
    let heights = ground(301, 10.0, FINE, |e, n| if (105.0..305.0).contains(&e) && n < 205.0 { -60.0 } else { 0.0 });
    let told = cliffs(&heights, 0.0, 0.0);
    let (corner_m, corner_deg) = (105.0_f64.hypot(205.0), 105.0_f64.atan2(205.0).to_degrees());
    assert!(told.len() == 2 && holds(&told, (Trend::Falls, 90.0, 105.0, 60.0)), "{told:?}");
    assert!(holds(&told, (Trend::Rises, corner_deg, corner_m, 60.0)), "{told:?}");
    let inside = cliffs(&heights, 200.0, -200.0);
    assert!(inside.len() == 1 && inside[0].trend == Trend::Rises, "{inside:?}");
    let beyond = cliffs(&heights, 200.0, 400.0);
    assert!(beyond.len() == 3 && holds(&beyond, (Trend::Falls, 180.0, 195.0, 60.0)), "{beyond:?}");
}

/// A round butte: from the plain its near face rises, and behind its top the far one falls; from its top it falls all round. A pillar is told once.
#[test]
fn a_butte_rises_on_this_side_and_falls_on_the_other() {
    let butte = ground(301, 10.0, FINE, |e, n| if (e - 400.0).hypot(n) < 200.0 { 60.0 } else { 0.0 });
    let told = cliffs(&butte, 0.0, 0.0);
    assert!(told.len() == 2 && holds(&told, (Trend::Rises, 90.0, 200.0, 60.0)), "{told:?}");
    let falls = told.iter().find(|one| one.trend == Trend::Falls).expect("the far side");
    // No nearer than where one looks along it.
    let along_m = (400.0_f64.powi(2) - 200.0_f64.powi(2)).sqrt();
    assert!(falls.distance_m > along_m - falls.blur_m && falls.distance_m < 600.0, "{falls:?}");
    let top = cliffs(&butte, 400.0, 50.0);
    assert!(top.len() == 1 && top[0].trend == Trend::Falls, "{top:?}");
    let pillar = cliffs(&ground(301, 10.0, FINE, |e, n| if (e - 300.0).hypot(n) < 15.0 { 40.0 } else { 0.0 }), 0.0, 0.0);
    assert!(pillar.len() == 1 && pillar[0].trend == Trend::Rises, "{pillar:?}");
}

/// Half-way up a face that bends around the walker.
#[test]
fn who_stands_on_a_cliff_is_told_so_once() {
    let heights = ground(301, 5.0, FINE, |e, n| 8.0 * (((e - 0.002 * n * n) / 5.0).round() + 3.0).clamp(0.0, 6.0));
    let told = cliffs(&heights, 0.0, 0.0);
    assert_eq!(told.iter().filter(|one| one.is_here).count(), 1, "{told:?}");
}

/// Cliffs on every bearing, straight and wavy: seen from beside them each is one of one trend, however its posts are jagged.
#[test]
fn the_jags_of_a_cliff_are_no_sides() {
    for turn_deg in (0..12_u8).map(|turn| 7.0 + 15.0 * f64::from(turn)) {
        let (sin, cos) = f64::to_radians(turn_deg).sin_cos();
        for (wave_m, away_m) in [(0.0, 120.0), (15.0, 150.0), (15.0, 400.0)] {
            let heights = ground(301, 10.0, FINE, |e, n| {
                let (ahead_m, aside_m) = (e * sin + n * cos, e * cos - n * sin);
                if ahead_m > away_m + wave_m * (aside_m / 60.0).sin() { -40.0 } else { 0.0 }
            });
            let told = cliffs(&heights, 0.0, 0.0);
            assert!(told.len() == 1 && told[0].trend == Trend::Falls, "{turn_deg} {wave_m} {away_m}: {told:?}");
        }
    }
}

/// Round pits: from their rim, however near, what is there falls.
#[test]
fn the_rim_of_a_pit_falls() {
    for (radius_m, step_m) in [(50.0, 5.0), (100.0, 10.0), (150.0, 5.0), (200.0, 20.0), (200.0, 30.0)] {
        let posts = (3000.0 / step_m) as usize + 1;
        let heights = ground(posts, step_m, FINE, |e, n| if e.hypot(n) < radius_m { -80.0 } else { 0.0 });
        for turn_deg in [0.0_f64, 17.0, 45.0, 200.0] {
            for out_m in [1.1, 1.6, 2.0, 3.0].map(|posts| posts * step_m) {
                let (sin, cos) = turn_deg.to_radians().sin_cos();
                let away_m = radius_m + out_m;
                let told = cliffs(&heights, away_m * sin, away_m * cos);
                let nearest = told.iter().min_by(|a, b| a.distance_m.total_cmp(&b.distance_m)).expect("a cliff");
                let towards_deg = nearest.falls_towards.map_or(180.0, |way| signed_difference_deg(way.degrees(), turn_deg).abs());
                let falls = if nearest.is_here { towards_deg > 135.0 } else { nearest.trend == Trend::Falls };
                assert!(falls, "{radius_m} {step_m} {turn_deg} {out_m}: {told:?}");
            }
        }
    }
}

/// A tongue of plateau 30 m wide with drops on three sides, joined to a long rim: from its tip each side is told, and from the crest of a wall both.
#[test]
fn what_falls_away_underfoot_is_told_whichever_way() {
    let tongue = ground(301, 10.0, FINE, |e, n| if n > 300.0 || (e.abs() < 16.0 && n > 0.0) { 60.0 } else { 0.0 });
    let told = cliffs(&tongue, 0.0, 10.0);
    let near: Vec<&Around> = told.iter().filter(|one| one.distance_m < 20.0).collect();
    assert!(!near.is_empty() && near.iter().any(|one| one.is_here && one.falls_towards.is_some()), "{told:?}");
    let wall = ground(301, 10.0, FINE, |_, n| if n.abs() < 6.0 { 30.0 } else { 0.0 });
    let ways: Vec<f64> = cliffs(&wall, 0.0, 0.0).iter().filter_map(|one| one.falls_towards).map(|way| way.degrees()).collect();
    let has = |deg: f64| ways.iter().any(|way| signed_difference_deg(*way, deg).abs() < 30.0);
    assert!(has(0.0) || has(180.0), "{ways:?}");
}

/// An even slope of 15° with errors of 5 m in single posts, stated at 9.73 m: what is as steep as a cliff there is told with a doubt.
#[test]
fn an_even_slope_with_errors_has_no_cliff_without_a_doubt() {
    let coarse = HeightSpread { sigma_m: 9.73, correlation_m: 300.0 };
    let mut met = 0;
    for seed in 0..5 {
        let random = super::from_a_place::noise(seed);
        let slope = ground(161, 30.0, coarse, |e, n| {
            let place = ((e / 30.0 + 80.0).round() + 161.0 * (80.0 - n / 30.0).round()) as usize;
            500.0 + 0.27 * n + 5.0 * random(place)
        });
        let told = cliffs(&slope, 0.0, 0.0);
        met += told.len();
        assert!(told.iter().all(|one| one.landform.strength < 0.5), "{seed}: {told:?}");
    }
    assert!(met > 5, "the errors must be as steep as cliffs: {met}");
}

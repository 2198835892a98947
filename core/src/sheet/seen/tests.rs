//! Which landforms are told, on made ground.

#![allow(clippy::indexing_slicing, clippy::panic, clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::{APART_M, Around, LANDFORMS_WITHIN_M, MOST_OF_KIND, STRENGTH_STEPS, cliffs_told, counted, from_here, others_told, told};
use crate::earth::{Grid, LatLon};
use crate::ground::{Extent, HeightSpread, Heights, LandformKind, LandformScale, Lattice, Layout, Trend, landforms_from};
use crate::measure::{Point, signed_difference_deg};

const POSTS: usize = 161;
const STEP_M: f64 = 20.0;

/// All landforms near the middle of made ground, and those that are told.
fn around(height: impl Fn(f64, f64) -> f64) -> (Vec<Around>, Vec<Around>) {
    let half_m = (POSTS - 1) as f64 / 2.0 * STEP_M;
    let (west, north) = (500_000.0 - half_m, 5_000_000.0 + half_m);
    let lattice = Lattice::Projected(Grid::named("32N").unwrap());
    let layout = Layout { lattice, columns: POSTS, rows: POSTS, west, north, step_east: STEP_M, step_south: STEP_M };
    let of = |post: usize| height((post % POSTS) as f64 * STEP_M - half_m, half_m - (post / POSTS) as f64 * STEP_M) as f32;
    let spread = HeightSpread { sigma_m: 2.0, correlation_m: 300.0 };
    let heights = Heights::new(layout, spread, (0..POSTS * POSTS).map(of).collect()).unwrap();
    let middle: LatLon = Grid::named("32N").unwrap().unproject(Point::new(500_000.0, 5_000_000.0)).unwrap();
    let all = landforms_from(&heights, middle, LANDFORMS_WITHIN_M, &LandformScale::default()).unwrap();
    (all.clone(), told(all).landforms)
}

fn bell(east_m: f64, north_m: f64, high_m: f64) -> impl Fn(f64, f64) -> f64 {
    move |x, y| high_m * (-((x - east_m).powi(2) + (y - north_m).powi(2)) / 90.0_f64.powi(2)).exp()
}

/// Made ground: five hills, one of them beside a higher one. Which are told is known from how they were made.
#[test]
fn of_five_hills_three_that_lie_apart_are_told() {
    let hills = [(300.0, 0.0, 60.0), (-600.0, 0.0, 40.0), (0.0, 640.0, 50.0), (0.0, -800.0, 30.0), (480.0, 120.0, 45.0)];
    let (all, told) = around(|x, y| hills.iter().map(|(east, north, high)| bell(*east, *north, *high)(x, y)).sum());
    let tops = |list: &[Around]| {
        let hills = list.iter().filter(|one| one.landform.kind == LandformKind::Hill);
        hills.map(|one| (one.distance_m / 10.0).round() * 10.0).collect::<Vec<f64>>()
    };
    assert_eq!(tops(&all).len(), 5, "{:?}", tops(&all));
    assert_eq!(tops(&told), [300.0, 600.0, 640.0]);
    let more = counted(&others_told(all).1);
    let hills: Vec<(usize, f64)> = more
        .iter()
        .filter(|more| more.kind == LandformKind::Hill)
        .map(|more| (more.count, (more.nearest_m / 10.0).round() * 10.0))
        .collect();
    assert_eq!(hills, [(2, 490.0)], "the lower one beside the first, and the lowest");
}

/// Made ground: a walker in one long valley is told of it once, where he stands; one west of a cliff of 3 km of its nearest brink,
/// due east, and of no other piece of it.
#[test]
fn a_long_form_is_told_once_by_its_nearest_point() {
    let (_, told) = around(|x: f64, y: f64| 0.005 * x - 60.0 * (-(y / 150.0).powi(2)).exp());
    let valleys: Vec<&Around> = told.iter().filter(|one| [LandformKind::Valley, LandformKind::Draw].contains(&one.landform.kind)).collect();
    assert!(valleys.len() == 1 && valleys[0].is_here, "{valleys:?}");
    let (_, told) = around(|x: f64, y: f64| 0.02 * y + if x > 40.0 { 40.0 } else { 0.0 });
    let cliffs: Vec<&Around> = told.iter().filter(|one| one.landform.kind == LandformKind::Cliff).collect();
    assert_eq!(cliffs.len(), 1, "{cliffs:?}");
    let (bearing_deg, metres) = (cliffs[0].bearing.degrees(), cliffs[0].distance_m);
    assert!((bearing_deg - 90.0).abs() < 1.0 && (40.0..=61.0).contains(&metres), "{bearing_deg} {metres}");
}

/// Made ground: one long valley, and a slope of ripples. What is left out is near to one told of its kind, or three of it
/// that are no weaker are told.
#[test]
fn one_thing_is_not_told_many_times() {
    let valley = |x: f64, y: f64| 0.02 * x - 60.0 * (-(y / 150.0).powi(2)).exp();
    let ripples = |x: f64, y: f64| 0.1 * x + 15.0 * (y / 80.0).sin();
    assert!(around(ripples).0.len() > around(ripples).1.len());
    for (all, told) in [around(valley), around(ripples)] {
        assert!(all.len() >= told.len() && !told.is_empty(), "{} {}", all.len(), told.len());
        for kind in LandformKind::ALL.into_iter().filter(|kind| *kind != LandformKind::Cliff) {
            let of_kind: Vec<&Around> = told.iter().filter(|one| one.landform.kind == kind).collect();
            let from = |one: &Around| of_kind.iter().map(|other| from_here(other).minus(from_here(one)).length_m()).collect::<Vec<f64>>();
            assert!(of_kind.len() <= MOST_OF_KIND);
            assert!(of_kind.iter().all(|one| from(one).iter().filter(|metres| **metres < APART_M).count() == 1), "{kind:?}");
            let weakest = of_kind.iter().map(|one| one.landform.strength).fold(1.0, f64::min);
            for one in all.iter().filter(|one| one.landform.kind == kind) {
                let near = from(one).iter().any(|metres| *metres < APART_M);
                let enough = of_kind.len() == MOST_OF_KIND && one.landform.strength < weakest + 1.0 / STRENGTH_STEPS;
                assert!(near || enough, "{one:?} is told by none of {of_kind:?}");
            }
        }
    }
}

/// The cliffs that are told from the middle: bearing to the nearest 10°, distance to the nearest 20 m, drop to the nearest 5 m.
fn cliffs(told: &[Around]) -> Vec<(f64, f64, f64, Trend)> {
    let rounded = |number: f64, to: f64| (number / to).round() * to;
    let of = |one: &Around| {
        let bearing_deg = rounded(one.bearing.degrees(), 10.0) % 360.0;
        (bearing_deg, rounded(one.distance_m, 20.0), rounded(one.landform.relief_m, 5.0), one.trend)
    };
    told.iter().filter(|one| one.landform.kind == LandformKind::Cliff).map(of).collect()
}

/// Made ground: a wall of 25 m that rises 110 m west of the walker, a drop of 90 m 150 m east of him. Both are told, and so are the far walls of
/// canyons and each ledge of a terraced slope that is higher than those before it.
#[test]
fn no_cliff_hides_another() {
    let (_, told) = around(|x, _| {
        if x < -110.0 {
            25.0
        } else if x > 150.0 {
            -90.0
        } else {
            0.0
        }
    });
    assert_eq!(cliffs(&told), [(270.0, 120.0, 25.0, Trend::Rises), (90.0, 140.0, 90.0, Trend::Falls)]);
    for wide_m in [120.0, 240.0] {
        let (_, told) = around(|x, _| if (60.0..60.0 + wide_m).contains(&x) { -80.0 } else { 0.0 });
        let trends: Vec<Trend> = cliffs(&told).iter().map(|one| one.3).collect();
        assert_eq!(trends, [Trend::Falls, Trend::Rises], "{wide_m}: {told:?}");
    }
    let (_, told) = around(|x, _| {
        if x > 250.0 {
            -120.0
        } else if x > 100.0 {
            -30.0
        } else {
            0.0
        }
    });
    let drops: Vec<f64> = cliffs(&told).iter().map(|one| one.2).collect();
    assert_eq!(drops, [30.0, 90.0]);
}

/// Made ground: a round butte, its top 200 m to each side; and one that falls on its northern half alone.
#[test]
fn a_cliff_all_round_is_told_so() {
    let extent = |told: &[Around]| told.iter().find(|one| one.landform.kind == LandformKind::Cliff).unwrap().extent;
    let (_, told) = around(|x, y| if x.hypot(y) < 200.0 { 80.0 } else { 0.0 });
    assert_eq!(extent(&told), Extent::AllRound);
    let (_, told) = around(|x, y| {
        if x.hypot(y) < 200.0 {
            80.0
        } else if y < 0.0 {
            80.0 + 0.1 * y
        } else {
            0.0
        }
    });
    let Extent::Wide([from, middle, to]) = extent(&told) else { panic!("{told:?}") };
    for (bearing, deg) in [(from, 270.0), (middle, 0.0), (to, 90.0)] {
        assert!(signed_difference_deg(bearing.degrees(), deg).abs() < 10.0, "{bearing:?} {deg}");
    }
}

/// Made ground: a flight of 20 ledges, each higher than the one before. What is not told one by one is counted, and its highest told.
#[test]
fn cliffs_beyond_the_eighth_are_counted() {
    let edges = |x: f64| (1..=20_u8).filter(|ledge| x > 45.0 * f64::from(*ledge)).map(|ledge| -25.0 - 8.0 * f64::from(ledge)).sum::<f64>();
    let (all, _) = around(|x, _| edges(x));
    let all: Vec<Around> = all.into_iter().filter(|one| one.landform.kind == LandformKind::Cliff).collect();
    let (told, more) = cliffs_told(all.clone());
    let count = more.map_or(0, |more| more.count);
    assert!(told.len() <= super::MOST_CLIFFS && told.len() + count == all.len(), "{} {count} {}", told.len(), all.len());
    let highest_m = |list: &[Around]| list.iter().map(|one| one.landform.relief_m).fold(0.0, f64::max);
    assert!(count > 0 && more.unwrap().highest_m.max(highest_m(&told)) >= highest_m(&all) - 1e-9);
    // All of them fall away to the east, ledge behind ledge.
    let is_told = |one: &Around| told.iter().any(|other| (other.distance_m - one.distance_m).abs() < 1e-9);
    let nearest_m = all.iter().filter(|one| !is_told(one)).map(|one| one.distance_m).fold(f64::INFINITY, f64::min);
    assert!(more.is_some_and(|more| more.falling == count && (more.nearest_m - nearest_m).abs() < 1e-9), "{more:?} {nearest_m}");
}

//! What is told from a place on grounds whose forms are known by construction: each once, where it is, and nothing that is not there.

use super::{all, bell, ground, place};
use crate::earth::LocalFrame;
use crate::ground::{
    Around, HeightSpread, Heights, Landform, LandformKind, LandformScale, LandformTable, SeenLandform, Trend, landforms_from,
};
use crate::measure::{Point, signed_difference_deg};

const FINE: HeightSpread = HeightSpread { sigma_m: 1.0, correlation_m: 100.0 };
/// What is stated of heights from a satellite.
const COARSE: HeightSpread = HeightSpread { sigma_m: 9.73, correlation_m: 300.0 };

fn from(heights: &Heights, east_m: f64, north_m: f64) -> Vec<Around> {
    landforms_from(heights, place(heights, east_m, north_m), 1000.0, &LandformScale::default()).expect("landforms")
}

/// Metres to the right of a line through the middle that runs on a bearing.
fn right_of(bearing_deg: f64) -> impl Fn(f64, f64) -> f64 + Copy {
    let (sin, cos) = bearing_deg.to_radians().sin_cos();
    move |east_m: f64, north_m: f64| east_m * cos - north_m * sin
}

/// By construction: the crest (or bed) passes so many metres to the right of the middle, at right angles to its run.
#[test]
fn a_level_ridge_or_valley_is_told_once_at_its_crest_and_is_no_hill() {
    for (step_m, wide_m, high_m) in [(10.0, 40.0, 40.0), (10.0, 80.0, 60.0), (25.0, 80.0, 60.0)] {
        for (runs_deg, away_m) in (0..7_u8).map(|turn| 5.0 + 25.0 * f64::from(turn)).flat_map(|runs| [(runs, 110.0), (runs, 500.0)]) {
            for (kind, sign) in [(LandformKind::Ridge, 1.0), (LandformKind::Valley, -1.0)] {
                let across_m = right_of(runs_deg);
                let line = move |e: f64, n: f64| 200.0 + sign * high_m * bell(across_m(e, n) - away_m, wide_m);
                let told = from(&ground((3000.0 / step_m) as usize + 1, step_m, FINE, line), 0.0, 0.0);
                let case = format!("{kind:?} {step_m} {wide_m} {runs_deg} {away_m}: {told:?}");
                assert!(told.len() == 1 && told[0].landform.kind == kind, "{case}");
                let off_deg = signed_difference_deg(told[0].bearing.degrees(), runs_deg + 90.0).abs();
                assert!((told[0].distance_m - away_m).abs() <= told[0].blur_m, "{case}");
                // As far along the crest as the distance lets it be.
                assert!(off_deg <= (told[0].blur_m / away_m).atan().to_degrees() + 1.0, "{off_deg} {case}");
            }
        }
    }
}

/// By construction: a hill on a level ridge stands 30 m above the crest around it, not above the plain.
#[test]
fn a_hill_on_a_ridge_stands_above_the_crest() {
    let crest = |e: f64, n: f64| 60.0 * bell(n, 150.0) + 30.0 * bell(e.hypot(n), 120.0);
    let told = from(&ground(301, 10.0, FINE, crest), 0.0, -400.0);
    let hills: Vec<&Around> = told.iter().filter(|one| one.landform.kind == LandformKind::Hill).collect();
    assert!(hills.len() == 1 && (hills[0].landform.relief_m - 30.0).abs() < 1.0, "{told:?}");
    assert!((hills[0].distance_m - 400.0).abs() < 10.0);
}

/// A plain with a table 60 m high, 400 m to each side, its flanks 100 m wide.
fn table() -> Heights {
    ground(401, 10.0, FINE, |e, n| 200.0 + 60.0 * ((500.0 - e.hypot(n)) / 100.0).clamp(0.0, 1.0))
}

#[test]
fn who_stands_on_the_top_of_a_flat_hill_stands_on_it() {
    let heights = table();
    for (east_m, north_m) in [(0.0, 0.0), (200.0, 100.0), (-380.0, 0.0), (0.0, 395.0)] {
        let told = from(&heights, east_m, north_m);
        assert!(told.len() == 1 && told[0].landform.kind == LandformKind::Hill && told[0].is_here, "{east_m} {north_m}: {told:?}");
    }
    let beside = from(&heights, 700.0, 0.0);
    assert!(beside.len() == 1 && !beside[0].is_here && (beside[0].distance_m - 300.0).abs() < 15.0, "{beside:?}");
    assert!(signed_difference_deg(beside[0].bearing.degrees(), 270.0).abs() < 3.0, "{beside:?}");
    let frame = LocalFrame::around(place(&heights, 0.0, 0.0));
    let found = LandformTable::new(&all(&heights), &frame);
    let here = SeenLandform { kind: LandformKind::Hill, bearing_deg: 0.0, bearing_spread_deg: 1e6, distance_m: 20.0, distance_factor: 2.0 };
    for metres in [0.0, 150.0, 380.0] {
        let fits = found.fit(Point::new(metres, 0.0), &here);
        assert!(fits > 0.3 && fits > 20.0 * found.fit(Point::new(1500.0, 0.0), &here), "{metres}: {fits}");
    }
}

/// By construction: beyond three widths of the hollow the ground is a plane, where no ridge or spur can be.
#[test]
fn a_hollow_far_off_makes_no_spur_of_a_plane() {
    let (sin, cos) = 140.0_f64.to_radians().sin_cos();
    let (east_m, north_m) = (600.0 * sin, 600.0 * cos);
    for (steep, deep_m) in [(0.02, 30.0), (0.05, 30.0), (0.02, 15.0), (0.05, -30.0)] {
        let sink = |e: f64, n: f64| 300.0 + steep * e - deep_m * bell((e - east_m).hypot(n - north_m), 120.0);
        let found: Vec<Landform> = all(&ground(301, 10.0, FINE, sink));
        let heights = ground(301, 10.0, FINE, sink);
        let lines = found.iter().filter(|one| one.reach_m > 0.0 && one.kind != LandformKind::Hill);
        let centre = place(&heights, east_m, north_m);
        let far = lines.filter(|one| crate::earth::geodesic_between(one.at, centre).0 > 360.0);
        assert_eq!(far.count(), 0, "{steep} {deep_m}: {found:?}");
    }
}

/// Numbers that look random, normal with a spread of one: the sum of twelve even ones less six.
pub(super) fn noise(seed: usize) -> impl Fn(usize) -> f64 {
    move |place: usize| {
        let even = |part: usize| {
            let mut z = ((seed * 1_000_003 + place * 12 + part) as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15);
            z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
            z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
            ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
        };
        (0..12).map(even).sum::<f64>() - 6.0
    }
}

#[test]
fn errors_of_single_posts_make_no_cliff_that_is_told_without_a_doubt() {
    let cliffs = |heights: &Heights| -> Vec<Landform> { all(heights).into_iter().filter(|one| one.kind == LandformKind::Cliff).collect() };
    let mut met = 0;
    for seed in 0..10 {
        let random = noise(seed);
        let plain = ground(161, 25.0, COARSE, |e, n| {
            let place = ((e / 25.0 + 80.0).round() + 161.0 * (80.0 - n / 25.0).round()) as usize;
            400.0 + 0.05 * e + 6.0 * random(place)
        });
        let found = cliffs(&plain);
        met += found.len();
        assert!(found.iter().all(|one| one.strength < 0.5), "{seed}: {found:?}");
    }
    assert!(met > 10, "the errors must be as steep as cliffs: {met}");
    // By construction: a sheer step, told without a doubt where it is more than the heights may be wrong.
    for (step_m, spread, high_m) in [(25.0, COARSE, 60.0), (5.0, FINE, 10.0), (10.0, FINE, 40.0)] {
        let found = cliffs(&ground(161, step_m, spread, |e, _| if e > 0.0 { high_m } else { 0.0 }));
        assert!(
            !found.is_empty() && found.iter().all(|one| one.strength > 0.5 && (one.relief_m - high_m).abs() < 1.0),
            "{step_m}: {found:?}"
        );
    }
    // Nor does a bent rim make a doubt of it: buttes sheer all round.
    for (radius_m, high_m) in [(200.0, 60.0), (150.0, 40.0), (120.0, 40.0), (200.0, 20.0)] {
        let found = cliffs(&ground(161, 10.0, FINE, |e, n| if e.hypot(n) < radius_m { 300.0 + high_m } else { 300.0 }));
        assert!(!found.is_empty() && found.iter().all(|one| one.strength > 0.5), "{radius_m} {high_m}: {found:?}");
    }
}

/// By construction: a step up to the east, 100 m east of the eye below it and 100 m west of the one above it.
#[test]
fn a_cliff_rises_or_falls_before_the_walker() {
    let heights = ground(301, 10.0, FINE, |e, n| 0.01 * n + if e > 5.0 { 40.0 } else { 0.0 });
    for (east_m, bearing_deg, trend) in [(-95.0, 90.0, Trend::Rises), (105.0, 270.0, Trend::Falls)] {
        let told = from(&heights, east_m, 0.0);
        let cliff = told.iter().find(|one| one.landform.kind == LandformKind::Cliff).expect("the cliff");
        assert_eq!(cliff.trend, trend, "{cliff:?}");
        assert!(
            signed_difference_deg(cliff.bearing.degrees(), bearing_deg).abs() < 2.0 && (cliff.distance_m - 100.0).abs() <= cliff.blur_m,
            "{cliff:?}"
        );
    }
}

/// By construction: a hollow 30 m deep with a flat floor 150 m to each side and flanks 60 m wide.
#[test]
fn who_stands_on_the_floor_of_a_hollow_stands_in_it() {
    let heights = ground(401, 10.0, FINE, |e, n| 300.0 + 0.002 * e - 30.0 * ((210.0 - e.hypot(n)) / 60.0).clamp(0.0, 1.0));
    for (east_m, north_m) in [(0.0, 0.0), (120.0, 0.0), (-80.0, -80.0), (0.0, 140.0)] {
        let told = from(&heights, east_m, north_m);
        let hollows: Vec<&Around> = told.iter().filter(|one| one.landform.kind == LandformKind::Depression).collect();
        assert!(hollows.len() == 1 && hollows[0].is_here, "{east_m} {north_m}: {told:?}");
    }
    let beside = from(&heights, 500.0, 0.0);
    let hollow = beside.iter().find(|one| one.landform.kind == LandformKind::Depression).expect("the hollow");
    assert!(!hollow.is_here && (hollow.distance_m - 350.0).abs() < 15.0, "{beside:?}");
    assert!(signed_difference_deg(hollow.bearing.degrees(), 270.0).abs() < 3.0, "{beside:?}");
}

//! Grounds of known shape, in every direction and with errors as large as half of what is stated: what is found, and what is not.

use super::{SPREAD, all, bell, ground, near};
use crate::ground::{HeightSpread, Heights, Landform, LandformKind};

const POSTS: usize = 101;
const STEP_M: f64 = 30.0;
const LINES: [LandformKind; 4] = [LandformKind::Ridge, LandformKind::Spur, LandformKind::Valley, LandformKind::Draw];

/// Numbers evenly between 0 and 1: a linear congruence with the multiplier and increment of Knuth's MMIX, the upper half kept (from
/// memory).
struct Random(u64);

impl Random {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (f64::from((self.0 >> 32) as u32) + 0.5) / 2.0_f64.powi(32)
    }

    fn normal(&mut self) -> f64 {
        (-2.0 * self.next().ln()).sqrt() * (std::f64::consts::TAU * self.next()).cos()
    }
}

/// Waves that a draw of errors is the sum of.
const WAVES: usize = 400;

/// A draw of errors over the plane, covariance `sigma² exp(-d / correlation)`: waves of random direction, phase and length, their lengths
/// by the spectrum of that covariance, `(1 + (k c)²)^(-3/2)` in the plane (spectral representation: common practice, from memory).
fn errors(spread: HeightSpread, seed: u64) -> impl Fn(f64, f64) -> f64 {
    let mut random = Random(seed);
    let waves: Vec<[f64; 3]> = (0..WAVES)
        .map(|_| {
            let number = (random.next().powi(-2) - 1.0).sqrt() / spread.correlation_m;
            let (sin, cos) = (std::f64::consts::TAU * random.next()).sin_cos();
            [number * sin, number * cos, std::f64::consts::TAU * random.next()]
        })
        .collect();
    let size_m = spread.sigma_m * (2.0 / WAVES as f64).sqrt();
    move |east_m, north_m| size_m * waves.iter().map(|[east, north, phase]| (east * east_m + north * north_m + phase).cos()).sum::<f64>()
}

const HALF_OF_IT: HeightSpread = HeightSpread { sigma_m: SPREAD.sigma_m / 2.0, correlation_m: SPREAD.correlation_m };

fn clean(height: impl Fn(f64, f64) -> f64) -> Heights {
    ground(POSTS, STEP_M, SPREAD, height)
}

/// The same with errors of half the stated spread.
fn rough(height: impl Fn(f64, f64) -> f64, seed: u64) -> Heights {
    let error = errors(HALF_OF_IT, seed);
    clean(move |east_m, north_m| height(east_m, north_m) + error(east_m, north_m))
}

/// Metres across a line through the middle that runs on a bearing.
fn across(bearing_deg: f64) -> impl Fn(f64, f64) -> f64 + Copy {
    let (sin, cos) = bearing_deg.to_radians().sin_cos();
    move |east_m: f64, north_m: f64| east_m * cos - north_m * sin
}

fn of(heights: &Heights, kinds: &[LandformKind], least: f64) -> Vec<Landform> {
    all(heights).into_iter().filter(|one| kinds.contains(&one.kind) && one.strength >= least).collect()
}

/// Stronger ones are told without a doubt.
const SURE: f64 = 0.5;

/// Bearings of straight lines, all around.
fn bearings() -> impl Iterator<Item = (f64, u64)> {
    (0..18_u8).map(|ten| (10.0 * f64::from(ten), 1 + u64::from(ten))).chain([(22.0, 31), (67.0, 32)])
}

#[test]
fn drawn_errors_have_the_spread_and_the_correlation_that_were_asked_for() {
    let pairs: Vec<(f64, f64, f64)> = (0..3000)
        .map(|seed| {
            let error = errors(HALF_OF_IT, seed);
            (error(0.0, 0.0), error(30.0, 0.0), error(180.0, 240.0))
        })
        .collect();
    let mean = |of: fn(&(f64, f64, f64)) -> f64| pairs.iter().map(of).sum::<f64>() / pairs.len() as f64;
    // One sigma of a mean of 3000 products is sqrt(2 / 3000) of the variance, 2.6 %.
    let variance = HALF_OF_IT.sigma_m.powi(2);
    for (found, shared) in [(mean(|p| p.0 * p.0), 1.0), (mean(|p| p.0 * p.1), (-0.1_f64).exp()), (mean(|p| p.0 * p.2), (-1.0_f64).exp())] {
        assert!((found / variance - shared).abs() < 0.1, "{found} {shared}");
    }
}

/// The greatest strength, 0 of none.
fn strongest(found: &[Landform]) -> f64 {
    found.iter().map(|one| one.strength).fold(0.0, f64::max)
}

#[test]
fn a_straight_ridge_and_a_straight_valley_are_told_whichever_way_they_run() {
    let (mut weakest, mut wrong) = (1.0_f64, 0.0_f64);
    for (bearing_deg, seed) in bearings() {
        let away_m = across(bearing_deg);
        for (wide_m, sign, kind) in [
            (150.0, 1.0, LandformKind::Ridge),
            (250.0, 1.0, LandformKind::Ridge),
            (150.0, -1.0, LandformKind::Valley),
            (250.0, -1.0, LandformKind::Valley),
        ] {
            let roof = move |east_m: f64, north_m: f64| sign * 60.0 * (1.0 - away_m(east_m, north_m).abs() / wide_m).max(0.0);
            for heights in [clean(roof), rough(roof, seed)] {
                weakest = weakest.min(strongest(&near(&heights, kind, (0.0, 0.0), 300.0)));
                let mut others = of(&heights, &LINES, 0.0);
                // A piece of the line stands out by half of its height at the least.
                others.retain(|one| one.kind != kind || one.relief_m < 30.0);
                wrong = wrong.max(strongest(&others));
            }
            assert!(of(&clean(roof), &LINES, 0.0).iter().all(|one| one.kind == kind), "{kind:?} {bearing_deg} {wide_m}");
        }
    }
    assert!(weakest > 0.8 && wrong < SURE, "the weakest of the true ones {weakest}, the strongest of the others {wrong}");
}

#[test]
fn along_a_straight_step_there_is_neither_valley_nor_draw_nor_ridge_nor_spur() {
    let mut wrong = 0.0_f64;
    for (bearing_deg, seed) in bearings() {
        let away_m = across(bearing_deg);
        for (wide_m, high_m) in [(60.0, 30.0), (300.0, 60.0)] {
            let step = move |east_m: f64, north_m: f64| high_m * (away_m(east_m, north_m) / wide_m + 0.5).clamp(0.0, 1.0);
            let found = of(&clean(step), &LINES, 0.0);
            assert!(found.is_empty(), "{bearing_deg} {wide_m}: {found:?}");
            wrong = wrong.max(strongest(&of(&rough(step, 100 + seed), &LINES, 0.0)));
        }
    }
    assert!(wrong < SURE, "the strongest of what errors show: {wrong}");
}

#[test]
fn a_round_hill_has_no_spurs_and_a_plane_has_nothing() {
    let cone = |east_m: f64, north_m: f64| 300.0 - 0.2 * east_m.hypot(north_m);
    let dome = |east_m: f64, north_m: f64| 120.0 * bell(east_m.hypot(north_m), 600.0);
    let plane = |east_m: f64, north_m: f64| 200.0 + 0.05 * east_m + 0.08 * north_m;
    for (name, round) in [("cone", cone as fn(f64, f64) -> f64), ("dome", dome)] {
        assert!(of(&clean(round), &LINES, 0.0).is_empty(), "{name}");
        for seed in 201..206 {
            let heights = rough(round, seed);
            assert!(of(&heights, &LINES, SURE).is_empty(), "{name} {seed}: {:?}", of(&heights, &LINES, SURE));
            assert!(near(&heights, LandformKind::Hill, (0.0, 0.0), 100.0).iter().any(|one| one.strength > 0.9), "{name} {seed}");
        }
    }
    assert!(all(&clean(plane)).is_empty());
    let wrong = (301..311).map(|seed| strongest(&all(&rough(plane, seed)))).fold(0.0, f64::max);
    assert!(wrong < SURE, "the strongest of what errors show: {wrong}");
}

#[test]
fn a_saddle_is_told_whichever_way_it_lies_and_no_depression_beside_it() {
    for (bearing_deg, seed) in bearings() {
        let (along_m, across_m) = (across(bearing_deg + 90.0), across(bearing_deg));
        let hills = move |east_m: f64, north_m: f64| {
            let (along_m, across_m) = (along_m(east_m, north_m), across_m(east_m, north_m));
            (100.0 * bell(along_m + 400.0, 300.0) + 80.0 * bell(along_m - 400.0, 300.0) + 60.0) * bell(across_m, 250.0)
        };
        for heights in [clean(hills), rough(hills, 400 + seed)] {
            let saddles = near(&heights, LandformKind::Saddle, (0.0, 0.0), 120.0);
            assert!(saddles.iter().any(|one| one.strength > SURE), "{bearing_deg}: {saddles:?}");
            let found = of(&heights, &[LandformKind::Depression], SURE);
            assert!(found.is_empty(), "{bearing_deg}: {found:?}");
        }
    }
}

/// Every 7.5 degrees half way round.
fn finely() -> impl Iterator<Item = f64> {
    (0..24_u8).map(|part| 7.5 * f64::from(part))
}

/// A ridge that runs on a bearing, as wide as `sigma_m` to each side, with a saddle 40 m deep in the middle and every 900 m.
fn notched(bearing_deg: f64, sigma_m: f64) -> impl Fn(f64, f64) -> f64 {
    let (along_m, across_m) = (across(bearing_deg + 90.0), across(bearing_deg));
    move |east_m: f64, north_m: f64| {
        let crest_m = 150.0 + 20.0 * (1.0 - (along_m(east_m, north_m) * std::f64::consts::PI / 450.0).cos());
        crest_m * (-across_m(east_m, north_m).powi(2) / (2.0 * sigma_m * sigma_m)).exp()
    }
}

/// Plain geometry: the saddle lies 40 m below both tops.
#[test]
fn a_saddle_in_a_narrow_ridge_keeps_its_depth_whichever_way_it_runs() {
    for (bearing_deg, sigma_m) in finely().flat_map(|bearing_deg| [60.0, 100.0, 150.0].map(|sigma_m| (bearing_deg, sigma_m))) {
        let heights = ground(151, 20.0, HeightSpread { sigma_m: 1.0, correlation_m: 100.0 }, notched(bearing_deg, sigma_m));
        let saddles = near(&heights, LandformKind::Saddle, (0.0, 0.0), 60.0);
        let told = saddles.iter().map(|one| (one.relief_m, one.strength)).collect::<Vec<_>>();
        assert!(told.len() == 1 && (told[0].0 - 40.0).abs() < 4.0 && told[0].1 > 0.9, "{bearing_deg} {sigma_m}: {told:?}");
    }
}

/// Plain geometry: between two bells 900 m apart and as wide as 220 m the ground lies so far below their tops.
#[test]
fn two_round_hills_have_one_saddle_whichever_way_they_lie() {
    for bearing_deg in finely() {
        let (along_m, across_m) = (across(bearing_deg + 90.0), across(bearing_deg));
        let hill = |along_m: f64, across_m: f64| 150.0 * (-along_m.hypot(across_m).powi(2) / (2.0 * 220.0 * 220.0)).exp();
        let hills = move |along_m: f64, across_m: f64| hill(along_m - 450.0, across_m) + hill(along_m + 450.0, across_m);
        let deep_m = hills(450.0, 0.0) - hills(0.0, 0.0);
        let heights = ground(151, 20.0, SPREAD, move |east_m, north_m| hills(along_m(east_m, north_m), across_m(east_m, north_m)));
        let saddles = near(&heights, LandformKind::Saddle, (0.0, 0.0), 60.0);
        let told = saddles.iter().map(|one| one.relief_m).collect::<Vec<_>>();
        assert!(told.len() == 1 && (told[0] / deep_m - 1.0).abs() < 0.1, "{bearing_deg}: {told:?} of {deep_m}");
    }
}

#[test]
fn without_two_tops_there_is_no_saddle() {
    for bearing_deg in finely() {
        let (along_m, across_m) = (across(bearing_deg + 90.0), across(bearing_deg));
        let ridge = move |east_m: f64, north_m: f64| 150.0 * bell(across_m(east_m, north_m), 200.0) + 0.02 * along_m(east_m, north_m);
        let level = move |east_m: f64, north_m: f64| 150.0 * bell(across_m(east_m, north_m), 200.0);
        let plane = move |east_m: f64, north_m: f64| 0.2 * along_m(east_m, north_m);
        let cone = |east_m: f64, north_m: f64| 400.0 - 0.25 * east_m.hypot(north_m);
        for heights in [clean(ridge), clean(level), clean(plane), clean(cone)] {
            let found = of(&heights, &[LandformKind::Saddle], 0.0);
            assert!(found.is_empty(), "{bearing_deg}: {found:?}");
        }
    }
}

#[test]
fn a_blunt_spur_is_weaker_than_a_sharp_one_and_a_bent_slope_is_none() {
    let told_of = |flank: f64| {
        let heights = clean(move |east_m: f64, north_m: f64| 500.0 + 0.2 * north_m - flank * east_m.abs());
        strongest(&of(&heights, &[LandformKind::Spur, LandformKind::Ridge], 0.0))
    };
    let told: Vec<f64> = [0.03, 0.1, 0.2, 0.4].into_iter().map(told_of).collect();
    assert!(told[0] < 0.01 && told.windows(2).all(|pair| pair[0] < pair[1]) && told[3] > 0.95, "{told:?}");
    assert!(told[1] < SURE, "contour lines that turn by 53° alone: {told:?}");
}

#[test]
fn noise_of_one_metre_at_single_posts_shows_no_landform() {
    // 1 m is the spread that is stated of laser heights, 9.73 m that of a satellite's.
    for (sigma_m, correlation_m, step_m) in [(1.0, 100.0, 10.0), (1.0, 100.0, 30.0), (9.73, 300.0, 30.0)] {
        for seed in 1..4 {
            let random = std::cell::RefCell::new(Random(seed));
            let noise = |_: f64, _: f64| random.borrow_mut().normal();
            let heights = ground(POSTS, step_m, HeightSpread { sigma_m, correlation_m }, noise);
            let found = all(&heights);
            assert!(found.is_empty(), "{sigma_m} {step_m} {seed}: {} {:?}", found.len(), found.first());
        }
    }
}

/// By construction: two knobs 60 m high, 800 m apart, on a plain that falls by 1 % along or across the way between them: a walker sees no saddle there. On a
/// crest between the same knobs that falls to its sides he does.
#[test]
fn between_two_knobs_on_a_plain_there_is_no_saddle() {
    let knobs = |e: f64, n: f64| 60.0 * bell((e - 400.0).hypot(n), 80.0) + 60.0 * bell((e + 400.0).hypot(n), 80.0);
    for (along, across) in [(0.01, 0.0), (0.0, 0.01)] {
        let found = all(&ground(301, 10.0, SPREAD, |e, n| 500.0 + along * e + across * n + knobs(e, n)));
        assert!(found.iter().all(|one| one.kind != LandformKind::Saddle), "{found:?}");
    }
    let crest = all(&ground(301, 10.0, SPREAD, |e, n| 500.0 + 40.0 * bell(n, 150.0) + knobs(e, n)));
    assert!(crest.iter().any(|one| one.kind == LandformKind::Saddle), "{crest:?}");
}

/// A round hill of even slope on ground that rises again all around beyond its foot: each way down from its flank leads over the foot and up, and
/// that is no crest. Nothing about it is a spur or a ridge.
#[test]
fn ground_that_rises_beyond_the_foot_makes_no_spur_of_a_round_hill() {
    for rise in [0.05, 0.1] {
        let heights = clean(|east_m, north_m| {
            let away_m = east_m.hypot(north_m);
            300.0 + if away_m < 550.0 { 220.0 - 0.4 * away_m } else { rise * (away_m - 550.0) }
        });
        let high: Vec<Landform> =
            all(&heights).into_iter().filter(|one| matches!(one.kind, LandformKind::Spur | LandformKind::Ridge)).collect();
        assert!(high.is_empty(), "{rise}: {high:?}");
    }
}

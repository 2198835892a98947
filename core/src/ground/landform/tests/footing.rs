//! Rise and aspect, and what a word about them says.

#![allow(clippy::expect_used, clippy::indexing_slicing, reason = "a test may stop where it fails")]

use super::{SPREAD, ground, place, post};
use crate::earth::{Grid, LatLon, geodesic_between, geodesic_from};
use crate::ground::landform::{Footing, Steps, Trend, aspect_log_likelihood, rise_log_likelihood};
use crate::ground::{HeightSpread, Heights, Lattice, Layout};
use crate::measure::{TrueBearing, normal_share};

/// A plane that rises by 10 m over 100 m to true north-east (the grid's north is true north in the middle).
fn tilted(sigma_m: f64) -> Heights {
    let (sin, cos) = 45.0_f64.to_radians().sin_cos();
    ground(41, 30.0, HeightSpread { sigma_m, ..SPREAD }, move |east_m, north_m| 300.0 + 0.1 * (east_m * sin + north_m * cos))
}

#[test]
fn rise_and_aspect_of_a_plane() {
    let heights = tilted(5.0);
    let footing = Footing::new(&heights, place(&heights, 0.0, 0.0)).expect("footing");
    let here = post(&heights, 30.0, -45.0);
    let towards = |bearing_deg: f64| footing.rise(here, TrueBearing::new(bearing_deg), 100.0).expect("rise");
    // 1 in 2500: the scale of UTM on its central meridian.
    assert!((towards(45.0).rise_m - 10.0).abs() < 0.01 && (towards(225.0).rise_m + 10.0).abs() < 0.01);
    assert!(towards(135.0).rise_m.abs() < 0.01);
    assert_eq!([45.0, 225.0, 135.0].map(|deg| towards(deg).likeliest()), [Trend::Rises, Trend::Falls, Trend::Level]);
    for bearing_deg in [0.0, 45.0, 100.0, 135.0, 225.0, 300.0] {
        let sum: f64 = [Trend::Rises, Trend::Level, Trend::Falls].into_iter().map(|trend| towards(bearing_deg).chance_of(trend)).sum();
        assert!((sum - 1.0).abs() < 1e-6);
    }
    // sqrt(2 (1 - exp(-1/3))) of one sigma.
    assert!((towards(45.0).spread_m - 5.0 * 0.752_952).abs() < 1e-4);
    let aspect = footing.aspect(here).expect("aspect");
    assert!((aspect.falls_towards.degrees() - 225.0).abs() < 0.02 && (aspect.slope_deg - 5.7106).abs() < 0.01, "{aspect:?}");
    assert!(footing.rise(post(&heights, 590.0, 0.0), TrueBearing::new(90.0), 100.0).is_none(), "beyond the border");
    assert!(footing.aspect(post(&heights, 590.0, 0.0)).is_none());
}

/// Against geodesics of `geographiclib-rs` and PROJ, on a grid 3° off its middle meridian and on one of latitude and longitude.
#[test]
fn twenty_kilometres_off_a_step_still_ends_where_it_should() {
    let utm = Lattice::Projected(Grid::named("32N").expect("UTM 32"));
    let metres = Layout { lattice: utm, columns: 9, rows: 9, west: 640_000.0, north: 7_130_000.0, step_east: 10.0, step_south: 10.0 };
    let degrees = Layout { lattice: Lattice::Geographic, west: 12.0, north: 64.5, step_east: 1e-3, step_south: 1e-3, ..metres.clone() };
    let around = LatLon::new(64.2, 12.1).expect("place");
    for layout in [metres, degrees] {
        let steps = Steps::at(&layout, around).expect("steps");
        for turn in [0.0, 50.0, 100.0, 190.0, 260.0, 330.0].map(TrueBearing::new) {
            let start = geodesic_from(around, turn, 20_000.0).0;
            let end = steps.from(layout.post_of(start).expect("post"), turn, 100.0);
            let exact = geodesic_from(start, turn, 100.0).0;
            let off_m = geodesic_between(layout.place_of(end).expect("place"), exact).0;
            assert!(off_m < 1.0, "{off_m} m at {turn:?}");
        }
    }
}

/// Correlated errors drawn by `NumPy` 2.4.6 (`tests/references/landform_chances.py`): what the plane's rise and aspect scatter by.
#[test]
fn the_spreads_are_those_of_simulated_heights() {
    let heights = tilted(5.0);
    let footing = Footing::new(&heights, place(&heights, 0.0, 0.0)).expect("footing");
    let here = post(&heights, 0.0, 0.0);
    let rise = footing.rise(here, TrueBearing::new(45.0), 100.0).expect("rise");
    let aspect = footing.aspect(here).expect("aspect");
    let drawn = include_str!("../simulated.txt");
    let figure = |name: &str| -> f64 {
        let line = drawn.lines().find_map(|line| line.strip_prefix(name)).expect("a figure of the reference");
        line.trim().parse().expect("a number")
    };
    assert!((rise.chance_of(Trend::Rises) - figure("chance-rises ")).abs() < 0.005);
    assert!((rise.chance_of(Trend::Level) - figure("chance-level ")).abs() < 0.005);
    assert!((aspect.spread_deg() / figure("aspect-spread-deg ") - 1.0).abs() < 0.02, "{}", aspect.spread_deg());
    let density = |off_deg: f64| {
        let density = (aspect_log_likelihood(Some(&aspect), TrueBearing::new(225.0 + off_deg), 0.0).exp() - 0.02) / 0.98 / 360.0;
        density * 10.0
    };
    assert!((density(0.0) - figure("aspect-within-5-deg ")).abs() < 0.005, "{}", density(0.0));
    assert!((density(60.0) - figure("aspect-55-to-65-deg ")).abs() < 0.005, "{}", density(60.0));
}

#[test]
fn what_is_said_of_level_ground_tells_nothing_about_its_aspect() {
    let level = ground(41, 30.0, SPREAD, |_, _| 100.0);
    let footing = Footing::new(&level, place(&level, 0.0, 0.0)).expect("footing");
    let aspect = footing.aspect(post(&level, 0.0, 0.0)).expect("aspect");
    // The root mean square of an angle even on the circle: 180/sqrt(3).
    assert!((aspect.spread_deg() - 103.923).abs() < 0.5, "{}", aspect.spread_deg());
    for read in [0.0, 90.0, 217.0] {
        assert!(aspect_log_likelihood(Some(&aspect), TrueBearing::new(read), 15.0).abs() < 1e-6);
    }
    assert!(aspect_log_likelihood(None, TrueBearing::new(0.0), 15.0).abs() < 1e-12);
    assert!((rise_log_likelihood(None, Trend::Rises) - (1.0_f64 / 3.0).ln()).abs() < 1e-9);
}

#[test]
fn a_wrong_word_costs_much_but_not_everything() {
    let heights = tilted(0.5);
    let footing = Footing::new(&heights, place(&heights, 0.0, 0.0)).expect("footing");
    let rise = footing.rise(post(&heights, 0.0, 0.0), TrueBearing::new(45.0), 100.0).expect("rise");
    assert!((rise_log_likelihood(Some(&rise), Trend::Falls) - (0.02_f64 / 3.0).ln()).abs() < 0.01);
    assert!(rise_log_likelihood(Some(&rise), Trend::Rises) > -0.02);
    let aspect = footing.aspect(post(&heights, 0.0, 0.0)).expect("aspect");
    assert!((aspect_log_likelihood(Some(&aspect), TrueBearing::new(45.0), 10.0) - 0.02_f64.ln()).abs() < 0.01);
}

/// Standard normal distribution: `math.erfc` of Python 3.11.
#[test]
fn the_normal_distribution() {
    for (z, below) in [(0.0, 0.5), (1.0, 0.841_344_7), (-1.0, 0.158_655_3), (1.959_964, 0.975), (-3.0, 0.001_349_9), (0.5, 0.691_462_5)] {
        assert!((normal_share(z) - below).abs() < 2e-7, "{z}");
    }
}

/// By construction: a trench 40 m wide and 60 m deep, or a wall as high, across the way between two ends of one height.
#[test]
fn what_lies_across_a_way_is_told() {
    let fine = HeightSpread { sigma_m: 1.0, correlation_m: 100.0 };
    for sign in [-1.0, 1.0] {
        let heights = ground(101, 10.0, fine, |_, n| if (n + 50.0).abs() < 20.0 { sign * 60.0 } else { 0.0 });
        let footing = Footing::new(&heights, place(&heights, 0.0, 0.0)).expect("footing");
        let on = |deg: f64| footing.on_the_way_m(post(&heights, 0.0, 0.0), TrueBearing::new(deg), 100.0);
        assert!(on(180.0).is_some_and(|off_m| (off_m - sign * 60.0).abs() < 1.0), "{:?}", on(180.0));
        assert_eq!(on(0.0), None);
    }
}

//! Sunset and sunrise over constructed ground.

use super::{day, place};
use crate::earth::Instant;
use crate::earth::LatLon;
use crate::earth::sun::{Air, Daylight, GroundHorizon, OverGround, Shown, sun_over_ground, sun_position};
use crate::measure::TrueBearing;

/// A horizon of one height all around, known for 5 km.
fn level_ground(elevation_deg: f64) -> impl Fn(TrueBearing) -> Option<GroundHorizon> {
    move |_| {
        Some(GroundHorizon {
            elevation_deg,
            spread_deg: 0.1,
            distance_m: 3_000.0,
            known_to_m: 5_000.0,
            enough_to_m: 4_000.0,
            near_m: None,
            has_gap: false,
        })
    }
}

fn after(time: Instant, minutes: i64) -> Instant {
    Instant::from_unix_ms(time.unix_ms() + minutes * 60_000)
}

/// In the half days before and after noon.
fn of_day(at: LatLon, air: Air, told: &Daylight, horizon: &dyn Fn(TrueBearing) -> Option<GroundHorizon>) -> Option<Vec<Shown>> {
    sun_over_ground(at, (after(told.noon, -720), after(told.noon, 720)), air, horizon).expect("in reach")
}

/// The air's bend of 1013.25 hPa and 15 °C (NREL/TP-560-34302, section 3.14.3), degrees.
fn bent_deg(deg: f64) -> f64 {
    1013.25 / 1010.0 * 283.0 / 288.0 * 1.02 / 60.0 / (deg + 10.3 / (deg + 5.11)).to_radians().tan()
}

/// Over ground of a stated height the sun comes and goes when its upper edge, 16′ over its middle, stands so high through the air.
#[test]
fn the_sun_sets_behind_ground_of_a_stated_height() {
    let (at, air) = (place(46.0, 13.5), Air::standard(0.0));
    let told = day(46.0, 13.5, "2026-07-01");
    for elevation_deg in [3.0, 11.5, 25.0, 7.0] {
        let shown = of_day(at, air, &told, &level_ground(elevation_deg)).expect("known");
        let [Shown { from: Some(rises), until: Some(sets) }] = shown.as_slice() else { panic!("{shown:?}") };
        for over in [rises, sets] {
            let sun = sun_position(at, 0.0, over.at, air).expect("sun");
            let edge_deg = sun.elevation_geometric_deg + 16.0 / 60.0;
            assert!((edge_deg + bent_deg(edge_deg) - elevation_deg).abs() < 0.003, "{elevation_deg}: {sun:?}");
            assert!((sun.azimuth.degrees() - over.azimuth.degrees()).abs() < 0.01);
            // 0.1° at about 10.5° an hour are 34 s a sigma.
            assert!(over.half_95_s.is_some_and(|half_s| (40.0..110.0).contains(&half_s)), "{over:?}");
        }
    }
    assert_eq!(of_day(at, air, &told, &level_ground(70.0)), Some(Vec::new()), "the sun of 1 July stands 67° high at noon");
    assert_eq!(of_day(at, air, &told, &|_| None), None);
}

/// From a summit whose horizon lies below the level the sun sets after it set on the level, and rises before: on the equator at the
/// equinox by 4 minutes for each degree, and for what the air bends more.
#[test]
fn from_a_summit_the_sun_sets_after_the_level_sunset() {
    let (at, air) = (place(0.0, 0.0), Air { pressure_hpa: 1010.0, temperature_c: 10.0 });
    let told = day(0.0, 0.0, "2026-03-20");
    let (level, low) = [0.0, -1.0].map(|elevation_deg| of_day(at, air, &told, &level_ground(elevation_deg)).expect("known")).into();
    let ends = |shown: &[Shown]| (shown[0].from.expect("rises").at, shown[0].until.expect("sets").at);
    let ((level_rises, level_sets), (low_rises, low_sets)) = (ends(&level), ends(&low));
    assert!(level_sets.seconds_since(told.sunset.expect("sets")).abs() < 5.0, "34′ of the almanacs");
    // A degree, and 10′ that the sun is bent more below the level.
    for later_s in [low_sets.seconds_since(level_sets), level_rises.seconds_since(low_rises)] {
        assert!((240.0..300.0).contains(&later_s), "{later_s}");
    }
    let half_s = |shown: &[Shown]| shown[0].until.and_then(|over| over.half_95_s).expect("known far enough");
    // 0.1° of the heights and 0.16° of the air at 15° an hour, slower by a seventh where the air bends ever more.
    assert!((half_s(&low) / (1.96 * 0.1f64.hypot(0.16) * 240.0) - 1.0).abs() < 0.3, "{}", half_s(&low));
}

/// Where ground that is not known could stand as high the time is a bound.
#[test]
fn heights_that_end_near_tell_a_bound() {
    let (at, air) = (place(46.0, 13.5), Air::standard(0.0));
    let told = day(46.0, 13.5, "2026-07-01");
    let over = |horizon: GroundHorizon| of_day(at, air, &told, &|_| Some(horizon)).expect("known")[0].until.expect("it sets");
    let whole = GroundHorizon {
        elevation_deg: 3.0,
        spread_deg: 0.1,
        distance_m: 900.0,
        known_to_m: 5_000.0,
        enough_to_m: 4_000.0,
        near_m: None,
        has_gap: false,
    };
    let short = over(GroundHorizon { enough_to_m: 5_001.0, ..whole });
    let bounds = [short, over(GroundHorizon { has_gap: true, ..whole }), over(GroundHorizon { near_m: Some(900.0), ..whole })];
    for bound in bounds {
        assert!(!over(whole).horizon.is_least() && bound.horizon.is_least(), "{bound:?}");
        assert_eq!((bound.at, bound.half_95_s), (over(whole).at, over(whole).half_95_s));
    }
}

/// The sun that goes behind a peak and comes out again is hidden between, and sets behind what is there when it goes for the last time.
#[test]
fn a_peak_hides_the_sun_and_does_not_end_the_day() {
    let (at, air) = (place(46.0, 13.5), Air::standard(0.0));
    let told = day(46.0, 13.5, "2026-07-01");
    let peak = |bearing: TrueBearing| level_ground(if (270.0..275.0).contains(&bearing.degrees()) { 40.0 } else { 5.0 })(bearing);
    let (with, without) = (of_day(at, air, &told, &peak).expect("known"), of_day(at, air, &told, &level_ground(5.0)).expect("known"));
    let [before, after] = with.as_slice() else { panic!("{with:?}") };
    let goes = before.until.expect("behind the peak");
    let comes = after.from.expect("beside it");
    assert!((goes.azimuth.degrees() - 270.0).abs() < 0.01 && (comes.azimuth.degrees() - 275.0).abs() < 0.01, "{goes:?} {comes:?}");
    let seconds = after.until.expect("sets").at.seconds_since(without[0].until.expect("sets").at);
    assert!(seconds.abs() <= 1.0, "{seconds}");
}

/// At 70° N, 20° E the sun of 21 June 2026 does not set; it hides behind ground 10° high from 330 to 30 degrees. The times at which its
/// azimuth passes these are those of skyfield 1.55 with DE421 (apparent place from the ground).
#[test]
fn the_midnight_sun_hides_behind_high_ground() {
    let (at, air) = (place(70.0, 20.0), Air { pressure_hpa: 1010.0, temperature_c: 10.0 });
    let ground = |bearing: TrueBearing| level_ground(if (30.0..330.0).contains(&bearing.degrees()) { 0.0 } else { 10.0 })(bearing);
    let noon = Instant::parse("2026-06-21T10:42:00Z").expect("time");
    let shown = |horizon: &dyn Fn(TrueBearing) -> Option<GroundHorizon>| {
        sun_over_ground(at, (noon, after(noon, 1_440)), air, horizon).expect("reach")
    };
    let found = shown(&ground).expect("known");
    let off_s =
        |told: Option<OverGround>, wanted: &str| told.expect("passes").at.seconds_since(Instant::parse(wanted).expect("time")).abs();
    assert!(found.len() == 2 && found[0].from.is_none() && found[1].until.is_none(), "{found:?}");
    assert!(off_s(found[0].until, "2026-06-21T20:30:42Z") < 15.0, "{found:?}");
    assert!(off_s(found[1].from, "2026-06-22T00:53:07Z") < 15.0, "{found:?}");
    assert_eq!(shown(&level_ground(-1.0)), Some(vec![Shown { from: None, until: None }]));
    assert_eq!(shown(&level_ground(80.0)), Some(Vec::new()));
    assert_eq!(shown(&|_| None), None);
}

//! Sunset and sunrise over constructed ground.

use super::{day, place};
use crate::earth::Instant;
use crate::earth::sun::{Air, GroundHorizon, ground_spells, over_ground, sun_position};
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
            has_gap: false,
        })
    }
}

/// Over ground of a stated height the sun sets when its middle stands 16′ below that height, seen through the air; over ground
/// below the level it sets on the level.
#[test]
fn the_sun_sets_behind_ground_of_a_stated_height() {
    let (at, air) = (place(46.0, 13.5), Air::standard(0.0));
    let told = day(46.0, 13.5, "2026-07-01");
    let passes = |elevation_deg: f64, level: Option<Instant>| {
        over_ground(at, (level.expect("passes"), told.noon), air, &level_ground(elevation_deg)).expect("in reach")
    };
    for (elevation_deg, level) in [(3.0, told.sunset), (11.5, told.sunset), (25.0, told.sunset), (7.0, told.sunrise)] {
        let over = passes(elevation_deg, level).expect("it shows");
        let sun = sun_position(at, 0.0, over.at, air).expect("sun");
        assert!((sun.elevation_deg + 16.0 / 60.0 - elevation_deg).abs() < 0.003, "{elevation_deg}: {sun:?}");
        assert!((sun.azimuth.degrees() - over.azimuth.degrees()).abs() < 0.01);
        // 0.1° at about 10.5° an hour are 34 s a sigma.
        assert!(over.half_95_s.is_some_and(|half_s| (40.0..110.0).contains(&half_s)), "{over:?}");
    }
    assert_eq!(passes(-4.0, told.sunset).map(|over| over.at), told.sunset);
    assert_eq!(passes(70.0, told.sunset), None, "the sun of 1 July stands 67° high at noon");
    assert_eq!(over_ground(at, (told.sunset.expect("sets"), told.noon), air, &|_| None), Ok(None));
}

/// Where ground that is not known could stand as high there is a bound and no half-width.
#[test]
fn heights_that_end_near_tell_a_bound() {
    let (at, air) = (place(46.0, 13.5), Air::standard(0.0));
    let told = day(46.0, 13.5, "2026-07-01");
    let over = |horizon: GroundHorizon| {
        over_ground(at, (told.sunset.expect("sets"), told.noon), air, &|_| Some(horizon)).expect("in reach").expect("it shows")
    };
    let whole =
        GroundHorizon { elevation_deg: 3.0, spread_deg: 0.1, distance_m: 900.0, known_to_m: 5_000.0, enough_to_m: 4_000.0, has_gap: false };
    let short = over(GroundHorizon { enough_to_m: 5_001.0, ..whole });
    assert!(over(whole).half_95_s.is_some() && short.half_95_s.is_none() && short.horizon.ends_near());
    assert_eq!(over(GroundHorizon { has_gap: true, ..whole }).half_95_s, None);
    assert_eq!(short.at, over(whole).at);
}

/// The sun that goes behind a peak and comes out again sets behind what is there when it goes for the last time.
#[test]
fn a_peak_does_not_end_the_day() {
    let (at, air) = (place(46.0, 13.5), Air::standard(0.0));
    let told = day(46.0, 13.5, "2026-07-01");
    let peak = |bearing: TrueBearing| {
        let elevation_deg = if (270.0..275.0).contains(&bearing.degrees()) { 40.0 } else { 5.0 };
        Some(GroundHorizon { elevation_deg, spread_deg: 0.1, distance_m: 900.0, known_to_m: 5_000.0, enough_to_m: 4_000.0, has_gap: false })
    };
    let ends = (told.sunset.expect("sets"), told.noon);
    let (with, without) = (over_ground(at, ends, air, &peak), over_ground(at, ends, air, &level_ground(5.0)));
    let seconds = with.expect("reach").expect("shows").at.seconds_since(without.expect("reach").expect("shows").at);
    assert!(seconds.abs() <= 1.0, "{seconds}");
}

/// At 70° N, 20° E the sun of 21 June 2026 does not set; it hides behind ground 10° high from 330 to 30 degrees. The times at which its
/// azimuth passes these are those of skyfield 1.55 with DE421 (apparent place from the ground).
#[test]
fn the_midnight_sun_hides_behind_high_ground() {
    let (at, air) = (place(70.0, 20.0), Air { pressure_hpa: 1010.0, temperature_c: 10.0 });
    let ground = |bearing: TrueBearing| level_ground(if (30.0..330.0).contains(&bearing.degrees()) { 0.0 } else { 10.0 })(bearing);
    let noon = Instant::parse("2026-06-21T10:42:00Z").expect("time");
    let spells = ground_spells(at, noon, air, &ground).expect("reach").expect("known");
    let off_s = |told: Option<crate::earth::OverGround>, wanted: &str| {
        told.expect("passes").at.seconds_since(Instant::parse(wanted).expect("time")).abs()
    };
    assert!(spells.shows);
    assert!(off_s(spells.hides, "2026-06-21T20:30:42Z") < 15.0, "{spells:?}");
    assert!(off_s(spells.comes, "2026-06-22T00:53:07Z") < 15.0, "{spells:?}");
    assert_eq!(
        ground_spells(at, noon, air, &level_ground(-1.0)).expect("reach").map(|spells| (spells.shows, spells.hides)),
        Some((true, None))
    );
    assert_eq!(
        ground_spells(at, noon, air, &level_ground(80.0)).expect("reach").map(|spells| (spells.shows, spells.comes)),
        Some((false, None))
    );
    assert_eq!(ground_spells(at, noon, air, &|_| None), Ok(None));
}

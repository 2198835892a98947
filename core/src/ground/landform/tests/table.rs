//! Places held against a landform seen from them.

#![allow(clippy::expect_used, reason = "a test may stop where it fails")]

use super::{SPREAD, all, ground, place, two_hills};
use crate::earth::LocalFrame;
use crate::ground::landform::{Landform, LandformKind, LandformTable, SeenLandform};
use crate::measure::Point;

#[test]
fn places_are_told_apart_by_a_landform_seen_from_them() {
    let heights = ground(121, 30.0, SPREAD, two_hills);
    let frame = LocalFrame::around(place(&heights, 0.0, 0.0));
    let found = all(&heights);
    let saddle = found.iter().find(|one| one.kind == LandformKind::Saddle).expect("the saddle");
    let table = LandformTable::new(&found, &frame);
    let seen =
        SeenLandform { kind: LandformKind::Saddle, bearing_deg: 0.0, bearing_spread_deg: 5.0, distance_m: 500.0, distance_factor: 1.5 };
    let of = |east_m: f64, north_m: f64| table.log_likelihood(frame.to_plane(saddle.at).plus(Point::new(east_m, north_m)), &seen);
    assert!(of(0.0, -500.0) > -0.1, "{}", of(0.0, -500.0));
    assert!(of(0.0, -500.0) > of(60.0, -500.0) && of(60.0, -500.0) > of(150.0, -500.0));
    // A factor of 1.5 off is one spread: half a unit of the logarithm.
    assert!((of(0.0, -500.0) - of(0.0, -750.0) - 0.5).abs() < 0.1);
    assert!((of(0.0, 500.0) - 0.02_f64.ln()).abs() < 1e-9, "behind: the floor");
    let cliff = SeenLandform { kind: LandformKind::Cliff, ..seen };
    assert!((table.log_likelihood(Point::new(0.0, 0.0), &cliff) - 0.02_f64.ln()).abs() < 1e-9, "none here");
}

/// The frame that spares most landforms spares none that counts: against every landform one by one.
#[test]
fn the_table_agrees_with_a_search_through_all() {
    let heights = ground(151, 30.0, SPREAD, |e, n| 40.0 * ((e / 170.0).sin() + (n / 230.0).cos() + ((e + n) / 410.0).sin()));
    let found = all(&heights);
    let frame = LocalFrame::around(place(&heights, 0.0, 0.0));
    let table = LandformTable::new(&found, &frame);
    let mut most = 0.0_f64;
    for step in 0..60 {
        let eye = Point::polar(25.0 * f64::from(step), 41.0 * f64::from(step));
        for kind in LandformKind::ALL {
            let bearing_deg = 77.0 * f64::from(step);
            let seen = SeenLandform { kind, bearing_deg, bearing_spread_deg: 12.0, distance_m: 350.0, distance_factor: 1.4 };
            let of = |one: &Landform| {
                let to = frame.to_plane(one.at).minus(eye);
                let own = one.reach_m / 3.0_f64.sqrt() / to.length_m().max(20.0);
                let turn = (to.bearing_deg() - bearing_deg + 540.0).rem_euclid(360.0) - 180.0;
                let off = turn / 12.0_f64.hypot(own.to_degrees());
                let far = (to.length_m().max(20.0) / 350.0).ln() / 1.4_f64.ln().hypot(own);
                one.strength * (-0.5 * (off * off + far * far)).exp()
            };
            let best = found.iter().filter(|one| one.kind == kind).map(of).fold(0.0, f64::max);
            assert!((table.fit(eye, &seen) - best).abs() < 0.005, "{kind:?} {best}");
            most = most.max(best);
        }
    }
    assert!(most > 0.5, "something was there to be found: {most}");
}

//! Feet told for metres in the open: what stands on a slope of a tenth is plain geometry.

use super::told::{HAT, bearings, distance};
use super::{Bounds, OpenGround, OpenScene, OpenSighting, norths, take_open};
use crate::fix::{Instrument, Slip, SlipKind, open_slips};
use crate::measure::{Point, normal_density};

const HERE: Point = Point { east_m: 50.0, north_m: -20.0 };
/// Metres in a foot.
const FOOT_M: f64 = 0.3048;

/// The likeliest slip of three bearings, a height and a distance; each of the two may be told in feet.
fn first(height_ft: bool, distance_ft: bool) -> Option<Slip> {
    let norths = norths();
    // A wrong one in fifty is anywhere within 1,000 m, as of an altimeter.
    let likelihood = |read_m: f64| move |at: Point| 0.98 * normal_density(read_m - (500.0 + 0.1 * at.east_m), 10.0) + 0.02 / 1_000.0;
    let read = 505.0 / if height_ft { FOOT_M } else { 1.0 };
    let off_m = |read_m: f64| move |at: Point| Some((read_m - (500.0 + 0.1 * at.east_m), 10.0));
    let (as_told, as_feet) = (likelihood(read), likelihood(read * FOOT_M));
    let (told_off_m, feet_off_m) = (off_m(read), off_m(read * FOOT_M));
    let most = 0.98 * normal_density(0.0, 10.0) + 0.02 / 1_000.0;
    let ground = OpenGround { off_m: Some(&feet_off_m), ..OpenGround::of(&as_feet, most, 50.0) };
    let told = OpenGround { likelihood: &as_told, off_m: Some(&told_off_m), in_feet: Some(&ground), ..ground };
    let far_m = Point::new(HAT[0].0, HAT[0].1).minus(HERE).length_m() / if distance_ft { FOOT_M } else { 1.0 };
    let mut sightings = bearings(&norths, &HAT, HERE, 0.0, 1.5);
    sightings.extend([distance(0, HAT[0], far_m, 0.03 * far_m), OpenSighting::Ground(told)]);
    let scene = OpenScene {
        sightings,
        norths: &norths,
        trust: Instrument::Sighting.trust(),
        near: None,
        bounds: Bounds::about(Point::default(), 8_000.0),
    };
    let fix = take_open(&scene).expect("fix");
    let slips = open_slips(&scene, &[], &fix);
    slips.finding().cloned()
}

#[test]
fn feet_for_metres_are_a_slip_of_a_distance_of_a_height_and_of_both() {
    let of = |slip: Option<Slip>| slip.map(|slip| (slip.kind, slip.sighting, slip.exposed));
    assert_eq!(of(first(false, false)), None);
    assert_eq!(of(first(false, true)), Some((SlipKind::Feet, Some(3), true)));
    assert_eq!(of(first(true, false)), Some((SlipKind::Feet, Some(4), true)));
    assert_eq!(of(first(true, true)), Some((SlipKind::Feet, None, true)));
}

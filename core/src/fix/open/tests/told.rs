//! What is told of a fix in the open: its shape, its cautions, the turn of all bearings.

use super::{Bounds, OpenCaution, OpenError, OpenFix, OpenGround, OpenScene, OpenShape, OpenSighting, norths, take_open};
use crate::earth::{Compass, Norths};
use crate::fix::{BearingSighting, Instrument, Verdict};
use crate::measure::{Arg, NamedBearing, Point, Telling, wrap_deg};
use crate::sheet::Landmark;

/// Marks and walker of the triangle in `tests/tables/fix/open_ground.json`.
pub(super) const HAT: [(f64, f64); 3] = [(0.0, 2000.0), (1800.0, -900.0), (-1500.0, -1200.0)];

fn landmark(index: usize, (east_m, north_m): (f64, f64)) -> Landmark {
    Landmark { name: format!("Mark {index}"), kind: "mast".into(), at: Point::new(east_m, north_m), spread_m: 0.0, height_m: None }
}

/// What is read of marks at a place, every bearing turned.
pub(super) fn bearings(norths: &Norths, marks: &[(f64, f64)], from: Point, turn_deg: f64, spread_deg: f64) -> Vec<OpenSighting<'static>> {
    let read = |(index, mark): (usize, &(f64, f64))| {
        let plane_deg = Point::new(mark.0, mark.1).minus(from).bearing_deg() + turn_deg;
        let reading = NamedBearing::Magnetic(norths.to_magnetic(plane_deg, from));
        OpenSighting::Bearing(BearingSighting::to(landmark(index, *mark), reading, Some(spread_deg)))
    };
    marks.iter().enumerate().map(read).collect()
}

fn angles(marks: &[(f64, f64); 3], from: Point, spread_deg: f64) -> Vec<OpenSighting<'static>> {
    let direction = |(east_m, north_m): (f64, f64)| Point::new(east_m, north_m).minus(from).bearing_deg();
    let angle = |left: usize| OpenSighting::Angle {
        left: landmark(left, marks[left]),
        right: landmark(left + 1, marks[left + 1]),
        angle_deg: wrap_deg(direction(marks[left + 1]) - direction(marks[left])),
        spread_deg: Some(spread_deg),
    };
    vec![angle(0), angle(1)]
}

pub(super) fn distance(index: usize, mark: (f64, f64), distance_m: f64, spread_m: f64) -> OpenSighting<'static> {
    OpenSighting::Distance { landmark: landmark(index, mark), distance_m, spread_m }
}

fn taken(norths: &Norths, sightings: Vec<OpenSighting<'_>>) -> Result<OpenFix, OpenError> {
    let bounds = Bounds::about(Point::default(), 3_000.0);
    take_open(&OpenScene { sightings, norths, trust: Instrument::Sighting.trust(), near: None, bounds })
}

fn fix(norths: &Norths, sightings: Vec<OpenSighting<'_>>) -> OpenFix {
    taken(norths, sightings).expect("fix")
}

#[test]
fn bearings_that_cut_well_give_an_ellipse() {
    let norths = norths();
    let found = fix(&norths, bearings(&norths, &HAT, Point::new(50.0, -20.0), 0.0, 1.5));
    assert_eq!(found.shape, OpenShape::Ellipse);
    assert!(found.at.minus(Point::new(50.0, -20.0)).length_m() < 1.0, "{:?}", found.at);
    assert!((2.44..3.0).contains(&found.sigmas_95) && (found.holds - 0.95).abs() < 1e-9, "{} {}", found.sigmas_95, found.holds);
    assert!(found.shared_turn.is_none() && found.cautions.is_empty() && found.regions.len() == 1, "{:?}", found.cautions);
    assert!(found.seen.iter().all(|one| one.verdict() == Verdict::Fits));
}

/// Both sides of the rule: the same two bearings, once at a good cut and once at a tiny one.
#[test]
fn the_cut_decides_between_ellipse_and_regions() {
    let norths = norths();
    let shape = |cut_deg: f64| {
        let second = Point::polar(1500.0, cut_deg);
        let found = fix(&norths, bearings(&norths, &[(0.0, 1200.0), (second.east_m, second.north_m)], Point::default(), 0.0, 1.5));
        let poor = found.cautions.iter().any(|one| matches!(one, OpenCaution::PoorCut { .. }));
        println!(
            "cut {cut_deg}: {:?}, sigmas {}, holds {}, elsewhere {}, regions {}",
            found.shape,
            found.sigmas_95,
            found.holds,
            found.elsewhere,
            found.regions.len()
        );
        (found.shape, poor)
    };
    assert_eq!(shape(80.0), (OpenShape::Ellipse, false));
    assert!(!shape(35.0).1);
    assert!(shape(25.0).1);
    assert_eq!(shape(4.0), (OpenShape::Regions, true));
}

#[test]
fn a_bearing_and_a_rough_distance_give_a_region() {
    let norths = norths();
    let mut sightings = bearings(&norths, &[(0.0, 1500.0)], Point::default(), 0.0, 5.0);
    sightings.push(distance(1, (1200.0, 200.0), 1217.0, 400.0));
    let found = fix(&norths, sightings);
    assert_eq!(found.shape, OpenShape::Regions);
    assert!(found.holds_95(Point::default()));
    let fine = vec![distance(0, (0.0, 1500.0), 1500.0, 30.0), distance(1, (1200.0, 200.0), 1217.0, 30.0)];
    let two = fix(&norths, fine);
    assert_eq!((two.shape, two.regions.len()), (OpenShape::Regions, 2));
    assert!(two.cautions.contains(&OpenCaution::SeveralRegions(2)), "{:?}", two.cautions);
}

#[test]
fn a_bearing_and_the_ground_give_a_region() {
    let norths = norths();
    let ridge = |at: Point| 0.001 + 0.999 * (-0.5 * ((at.north_m + at.east_m) / 40.0).powi(2)).exp();
    let mut sightings = bearings(&norths, &[(0.0, 1500.0)], Point::default(), 0.0, 1.5);
    let alone = fix(&norths, sightings.clone());
    assert!(alone.cautions.contains(&OpenCaution::TooFew) && alone.squares.is_none());
    sightings.push(OpenSighting::Ground(OpenGround::of(&ridge, 1.0, 40.0)));
    let found = fix(&norths, sightings);
    assert_eq!(found.shape, OpenShape::Regions);
    assert!(!found.cautions.contains(&OpenCaution::TooFew));
    let first = &found.regions[0];
    assert!(first.best.length_m() < 60.0 && first.area_95_m2 < 0.1 * alone.regions[0].area_95_m2, "{first:?}");
}

/// A landmark that the heights hide from where the readings meet: hidden all around the place stays there, hidden near it only moves it.
#[test]
fn a_landmark_behind_a_hill_is_told() {
    let norths = norths();
    let here = Point::new(50.0, -20.0);
    let told = |hidden_m: f64| {
        let sees = move |at: Point| if at.minus(here).length_m() < hidden_m { 0.005 } else { 1.0 };
        let mut sightings = bearings(&norths, &HAT, here, 0.0, 1.5);
        sightings.push(OpenSighting::Ground(OpenGround { implied: true, sight_of: Some("Mark 0"), ..OpenGround::of(&sees, 1.0, 20.0) }));
        fix(&norths, sightings).cautions
    };
    let of = || "Mark 0".to_owned();
    assert!(!told(0.0).iter().any(|one| matches!(one, OpenCaution::Hidden { .. } | OpenCaution::HiddenWhereMet { .. })));
    assert!(told(2_000.0).contains(&OpenCaution::Hidden { landmark: of() }), "{:?}", told(2_000.0));
    assert!(told(100.0).contains(&OpenCaution::HiddenWhereMet { landmark: of() }), "{:?}", told(100.0));
}

/// The triangle that one turn takes away is told as that, with its size, and not averaged away.
#[test]
fn a_turn_of_all_bearings_is_told() {
    let norths = norths();
    for turn_deg in [7.6, -7.6] {
        let found = fix(&norths, bearings(&norths, &HAT, Point::default(), turn_deg, 2.0));
        let turn = found.shared_turn.as_ref().expect("turn");
        assert!((turn.turn_deg - turn_deg).abs() < 0.01 && turn.sigmas > 5.0 && turn.is_unusual(), "{turn:?}");
        assert!(turn.at.length_m() < 1.0 && turn.chi_square.1 < 1e-3 && turn.chance_apart < 1e-6, "{turn:?}");
        assert_eq!(turn.rivals, [0, 1, 2]);
        let told = found.cautions.iter().find(|one| matches!(one, OpenCaution::SharedTurn { .. })).expect("told");
        let message = told.message();
        assert_eq!(message.id, "open-shared-turn-or-one");
        assert!(message.args.contains(&("side", Arg::Text(if turn_deg > 0.0 { "much" } else { "little" }.into()))), "{message:?}");
    }
}

/// With more bearings a turn and a single wrong reading are told apart.
#[test]
fn one_wrong_reading_is_no_turn() {
    let norths = norths();
    let marks = [HAT[0], HAT[1], HAT[2], (2200.0, 900.0), (-2300.0, 600.0)];
    let turned = fix(&norths, bearings(&norths, &marks, Point::default(), 7.6, 1.5));
    assert!(turned.shared_turn.is_some_and(|turn| turn.rivals.is_empty() && (turn.turn_deg - 7.6).abs() < 0.05));
    let mut sightings = bearings(&norths, &marks, Point::default(), 0.0, 1.5);
    sightings[1] = bearings(&norths, &marks, Point::default(), 25.0, 1.5).swap_remove(1);
    let wrong = fix(&norths, sightings);
    assert!(wrong.shared_turn.is_none(), "{:?}", wrong.shared_turn);
    let misfits: Vec<_> = wrong.cautions.iter().filter(|one| matches!(one, OpenCaution::Misfit { .. })).collect();
    assert!(matches!(misfits.as_slice(), [OpenCaution::Misfit { landmark, .. }] if landmark == "Mark 1"), "{misfits:?}");
    assert!(wrong.holds_95(Point::default()) && wrong.regions[0].best.length_m() < 40.0, "{:?}", wrong.regions);
}

/// The marks of the circle in `tests/tables/fix/open_ground.json`.
#[test]
fn the_danger_circle_is_named() {
    let norths = norths();
    let circle = [(0.0, 1000.0), (600.0, 800.0), (960.0, -280.0)];
    let danger = |from: Point| {
        let found = fix(&norths, angles(&circle, from, 0.5));
        println!("{from:?}: {:?} {:?} {:?}", found.shape, found.squares.map(|one| one.covariance.ellipse()), found.cautions);
        found.cautions.into_iter().find(|one| matches!(one, OpenCaution::DangerCircle { .. }))
    };
    assert!(danger(Point::new(-800.0, -600.0)).is_some());
    let near = danger(Point::new(-720.0, -540.0)).expect("ten per cent inside");
    assert!(matches!(near, OpenCaution::DangerCircle { reach_m, .. } if reach_m > 300.0), "{near:?}");
    assert_eq!(danger(Point::new(300.0, 250.0)), None);
    let line = [(0.0, 500.0), (0.0, 1500.0), (0.0, 2600.0)];
    let found = fix(&norths, angles(&line, Point::new(0.0, -700.0), 0.5));
    assert!(found.cautions.contains(&OpenCaution::InLine), "{:?}", found.cautions);
}

#[test]
fn what_cannot_be_is_refused() {
    let norths = norths();
    assert_eq!(taken(&norths, Vec::new()), Err(OpenError::NoSighting));
    let many: Vec<_> = (0..61).map(|_| distance(0, HAT[0], 100.0, 10.0)).collect();
    assert_eq!(taken(&norths, many), Err(OpenError::TooMany(61)));
    assert_eq!(taken(&norths, vec![distance(0, HAT[0], 100.0, 10.0), distance(0, HAT[0], 100.0, 0.0)]), Err(OpenError::Unusable(2)));
    let never = |_: Point| 0.0;
    let ground = OpenSighting::Ground(OpenGround::of(&never, 1.0, 50.0));
    assert_eq!(taken(&norths, vec![ground]), Err(OpenError::Nowhere));
    let bounds = Bounds { low: Point::default(), high: Point::default() };
    let sightings = vec![distance(0, HAT[0], 100.0, 10.0)];
    let scene = OpenScene { sightings, norths: &norths, trust: Instrument::Sighting.trust(), near: None, bounds };
    assert_eq!(take_open(&scene), Err(OpenError::NoArea));
}

#[test]
fn a_crossing_outside_of_the_area_is_told() {
    let norths = norths();
    let found = fix(&norths, bearings(&norths, &[(0.0, 6000.0), (6000.0, 0.0)], Point::new(4200.0, 4100.0), 0.0, 1.5));
    assert!(found.cautions.contains(&OpenCaution::BeyondArea), "{:?}", found.cautions);
}

